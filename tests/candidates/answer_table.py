"""The table of answers of the code as Markdown; ``python -m tests.candidates.answer_table`` prints it."""

from __future__ import annotations

from namekeeper.judging.answers import TABLE

MARK = "<!-- answer table -->"
END = "<!-- end of answer table -->"
_HEADER = ("rule", "when (the first that applies)", "answer", "says")


def markdown() -> str:
    """The table between its marks."""
    rows = [_HEADER, ("---",) * len(_HEADER)]
    rows += [(rule.id, rule.when, f"`{rule.answer}`", f"`{rule.code}`" if rule.code else "") for rule in TABLE]
    return "\n".join([MARK, *("| " + " | ".join(row) + " |" for row in rows), END])


if __name__ == "__main__":
    print(markdown())
