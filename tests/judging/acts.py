"""Published acts put on labels before and after: what the starter list makes of them.

``data/acts.csv`` holds the acts, each with its paper; ``data/acts_argued.csv`` says why some come out otherwise.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Answer
from namekeeper.evidence.verdicts import Verdict
from namekeeper.judging.ballot import Trust
from namekeeper.judging.change import last_epithet, name_key, same_stem
from namekeeper.judging.question import genera_of, question_of
from namekeeper.judging.verdict import judge
from namekeeper.records.specimen import NameEntry
from namekeeper.words.dates import PartialDate
from namekeeper.words.terms import Standing
from tests.judging.build import TODAY
from tests.judging.tally import rows

MOVES = ("new_combination", "new_genus_transfer")
FOLLOWED = (*MOVES, "synonymized", "revalidated", "replacement_name", "gender_correction")
ASKING = (Standing.MISAPPLIED, Standing.DIVIDED, Standing.DISPUTED)


@dataclass
class Counted:
    """Labels by how they came out; ``unsafe`` must stay empty: safe proposals of a wrong name, or on a misuse."""

    right: list[str] = field(default_factory=list)
    choices: list[str] = field(default_factory=list)
    not_known: list[str] = field(default_factory=list)
    argued: list[str] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)
    unsafe: list[str] = field(default_factory=list)
    skipped: list[str] = field(default_factory=list)

    def __str__(self) -> str:
        counts = {name: len(getattr(self, name)) for name in self.__dataclass_fields__}
        return "acts on labels: " + ", ".join(f"{count} {name.replace('_', ' ')}" for name, count in counts.items())


def count(starter: NameList) -> Counted:
    """Every act whose names the starter list has, on a label a year before and a year after it."""
    table = rows("acts.csv")
    argued = {row["id"]: row["argument"] for row in rows("acts_argued.csv")}
    found = Counted()
    for act in table:
        if not _listed(act, starter):
            found.skipped.append(act["id"])
            continue
        for label in labels(act):
            verdict = on_label(act["old_name"], label, starter)
            _put(found, act, label, verdict, table, argued.get(act["id"], ""))
    return found


def labels(act: dict[str, str]) -> Iterator[str]:
    """A year before and a year after the act; where its year was not seen, two years far apart."""
    year = int(act["year"]) if act["year"] else None
    yield str(year - 1) if year else "1990"
    yield str(min(year + 1, TODAY.year)) if year else "2024"


def on_label(name: str, written: str, starter: NameList) -> Verdict:
    plain = question_of(NameEntry(name))
    records = genera_of(plain, lambda genus: [r for r in (starter.genus(genus),) if r is not None])
    question = replace(plain, label_date=PartialDate.parse(written), genus_records=records)
    return judge(question, list(starter.ask([plain.name])), Trust(), TODAY)


def chain(act: dict[str, str], table: list[dict[str, str]]) -> list[dict[str, str]]:
    """The act and those that follow it: each begins where the last one ended and is not older."""
    following, name = [act], act["new_name"]
    while name:
        later = (
            other
            for other in table
            if other not in following
            and other["act"] in FOLLOWED
            and _year(other) >= _year(following[-1])
            and other["new_name"]
            and (other["old_name"] == name != other["new_name"] or _revives(other, act))
        )
        found = next(later, None)
        if found is None:
            break
        following.append(found)
        name = found["new_name"]
    return following


def _year(act: dict[str, str]) -> int:
    return int(act["year"] or 0)


def _revives(other: dict[str, str], act: dict[str, str]) -> bool:
    """Whether an act of synonymy was undone by another row."""
    return other["act"] == "revalidated" and other["new_name"] == act["old_name"] == other["old_name"]


def _listed(act: dict[str, str], starter: NameList) -> bool:
    """Whether the starter list says anything of the old name, and it is a name."""
    name = act["old_name"]
    if not re.fullmatch(r"[A-Z]\w+( [a-z]+){1,2}", name):
        return False
    reply = next(iter(starter.ask([name])))
    return isinstance(reply, Answer) and bool(reply.statements or reply.disputes or reply.misuses or reply.divisions)


def _put(
    found: Counted,
    act: dict[str, str],
    label: str,
    verdict: Verdict,
    table: list[dict[str, str]],
    argument: str,
) -> None:
    following = chain(act, table)
    end = following[-1]["new_name"]
    case = f"{act['id']} {act['old_name']} on {label}: {told(verdict)}"
    reached = verdict.proposed is not None and name_key(verdict.proposed.name) == name_key(end)
    offered = name_key(end) in {name_key(choice.name) for choice in verdict.choices} if end else False
    if verdict.safe and (not reached or act["act"] == "split_misapplied"):
        found.unsafe.append(f"{case}, not {end}")
    to_end = reached or offered or verdict.proposed is None
    if verdict.standing in expected_standings(act, following, label) and to_end:
        found.right.append(case)
    elif not verdict.safe and (offered or (not end and verdict.standing in ASKING)):
        found.choices.append(case)
    elif verdict.standing in (Standing.UNASKED, Standing.UNKNOWN):
        found.not_known.append(case)
    elif argument:
        found.argued.append(f"{case}: {argument}")
    else:
        found.wrong.append(f"{case}, expected {act['act']} to {end or 'nothing'}")


def told(verdict: Verdict) -> str:
    target = verdict.proposed.name if verdict.proposed else "/".join(choice.name for choice in verdict.choices) or "-"
    return f"{verdict.standing} {target}{' safe' if verdict.safe else ''}"


def expected_standings(act: dict[str, str], following: list[dict[str, str]], label: str) -> tuple[Standing, ...]:
    """What the acts mean for a label with the old name (contract section 4)."""
    if name_key(act["old_name"]) == name_key(following[-1]["new_name"]) and act["act"] != "gender_correction":
        undone = len(following) > 1 or act["act"] == "revalidated"
        return (Standing.CURRENT, Standing.DIVIDED) if undone else (Standing.CURRENT,)
    if act["act"] != "split_misapplied" and any(one["act"] == "synonymized" for one in following):
        return (Standing.MERGED,)
    if act["act"] == "other" and act["new_name"]:
        kept = same_stem(last_epithet(act["old_name"]), last_epithet(act["new_name"]))
        return (Standing.MOVED, Standing.RESPELLED) if kept else ()
    after = act["year"] and int(label) > int(act["year"])
    return {
        "new_combination": (Standing.MOVED,),
        "new_genus_transfer": (Standing.MOVED,),
        "revalidated": (Standing.MOVED, Standing.DIVIDED),
        "gender_correction": (Standing.RESPELLED,),
        "nomen_dubium": (Standing.DOUBTFUL,),
        "replacement_name": (Standing.RENAMED,),
        "split_misapplied": (Standing.MISAPPLIED, Standing.DIVIDED, *((Standing.CURRENT,) if after else ())),
    }.get(act["act"], (Standing.DOUBTFUL, Standing.OPEN) if not act["new_name"] else ())
