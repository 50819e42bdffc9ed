"""The decision table of the code as Markdown; ``python -m tests.judging.decision_table`` prints it."""

from __future__ import annotations

from namekeeper.judging.rules import TABLE

MARK = "<!-- decision table -->"
END = "<!-- end of decision table -->"
_HEADER = ("rule", "when (the first that applies)", "standing", "proposes")


def markdown() -> str:
    """The table between its marks."""
    rows = [_HEADER, ("---",) * len(_HEADER)]
    rows += [(rule.id, rule.when, f"`{rule.standing}`", rule.proposes) for rule in TABLE]
    return "\n".join([MARK, *("| " + " | ".join(row) + " |" for row in rows), END])


if __name__ == "__main__":
    print(markdown())
