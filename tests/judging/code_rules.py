"""Worked examples of the Code (ICZN, 4th edition): gender, citation, homonymy, priority.

Row ids, facts and sources stand in ``data/gender.csv`` and ``data/code_rows.csv``.
"""

from __future__ import annotations

from collections.abc import Callable

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import NameStatus
from namekeeper.evidence.verdicts import Verdict
from namekeeper.judging.change import brackets_due, name_key, same_author, with_brackets
from namekeeper.words.gender import WordClass, agree, word_class_of
from namekeeper.words.parsing import parse_authorship
from tests.judging.build import accepted, answer, says, taxon, verdict
from tests.judging.tally import Tally, rows


def gender() -> Tally:
    """Ending of the epithet in its new genus, given word class and gender (Art. 31.2, 34.2)."""
    tally = Tally("gender agreement")
    for row in rows("gender.csv"):
        got = agree(row["epithet"], row["gender"], WordClass(row["class"]))
        tally.count(f"{row['id']} {row['epithet']} in a {row['gender']} genus", got, row["expected"])
    return tally


def genus_gender(starter: NameList) -> Tally:
    """Gender of genera (Art. 30): a fact about the genus, stored in the lists and never read from its ending."""
    tally = Tally("gender of genera, as the starter list stores it")
    for row in rows("genus_gender.csv"):
        record = starter.genus(row["genus"])
        argument = "" if record else "The starter list has no such genus; a gender is a stored fact, none is guessed."
        tally.count(f"{row['id']} {row['genus']}", record.gender if record else None, row["gender"], argument)
    return tally


def word_class() -> Tally:
    """What the form alone proves: the class of the source, or nothing."""
    tally = Tally("word class from the form alone, never a wrong one")
    for row in rows("gender.csv"):
        told = word_class_of(row["epithet"])
        fixed = {WordClass.NOUN, WordClass.GENITIVE, WordClass.INVARIABLE, WordClass.UNDECIDED}
        sound = told is WordClass.UNDECIDED or told == row["class"] or ({told, WordClass(row["class"])} <= fixed)
        tally.count(f"{row['id']} {row['epithet']}: {told}", sound, True)
    return tally


def citation() -> Tally:
    return _run("citation", _CITATION)


def homonymy() -> Tally:
    return _run("homonymy", _HOMONYMY)


def priority() -> Tally:
    return _run("priority", _PRIORITY)


def _run(topic: str, checks: dict[str, Callable[[], object]]) -> Tally:
    tally = Tally(topic)
    for row in rows("code_rows.csv"):
        if row["topic"] == topic:
            check = checks.get(row["id"])
            got = check() if check else "not judged"
            tally.count(f"{row['id']} {row['case']}", got, row["expected"], row["argument"])
    return tally


def _cited(name: str, original: str) -> str:
    """The authorship of a name, given the genus of its first description."""
    named = taxon(name, original)
    due = brackets_due(named)
    return with_brackets(named.authorship, due) if due is not None else named.authorship


def _same(one: str, other: str) -> str:
    return "same author" if same_author(one, other) else "another author"


def _two(label: str) -> Verdict:
    """Art. 57.2: Culex affinis Stephens, 1825 and Culex affinis Adams, 1903 in one list."""
    told = (
        accepted("Culex affinis", "Culex affinis Stephens, 1825"),
        says("Culex affinis", "Culex affinis Adams, 1903", "Culex adamsi Aus, 1920", status=NameStatus.REPLACED),
    )
    return verdict(label, answer(*told), written="2000")


def _short(result: Verdict) -> str:
    return (
        f"{result.standing} {result.proposed.name if result.proposed else '-'} {'safe' if result.safe else 'not safe'}"
    )


def _replaced(target: str) -> str:
    told = says("Aus bus", "Aus bus Jones, 1920", target, status=NameStatus.REPLACED)
    return _short(verdict("Aus bus Jones, 1920", answer(told), written="2000"))


def _moth_and_owl() -> str:
    told = (
        accepted("Noctua variegata", "Noctua variegata Jung, 1792"),
        accepted("Noctua variegata", "Noctua variegata Quoy & Gaimard, 1830"),
    )
    return _short(verdict("Noctua variegata", answer(*told), written="2000"))


def _parted() -> str:
    """59.2, 59.4: the replacement name gives way once the genera part again."""
    told = says("Aus novus", "Aus novus Smith, 1970", "Cus bus (Jones, 1920)", status=NameStatus.OBJECTIVE_SYNONYM)
    return _short(verdict("Aus novus Smith, 1970", answer(told), written="2000"))


_CITATION: dict[str, Callable[[], object]] = {
    "Z125": lambda: verdict("Lasius niger", answer(accepted("Lasius niger", "Lasius niger (Linnaeus, 1758)"))).standing,
    "Z126": lambda: str(parse_authorship("Linnaeus")),
    "Z127": lambda: parse_authorship("Linnaeus sensu Latreille").authors[0],
    "Z128": lambda: _cited("Ephebopus murinus Walckenaer, 1837", "Mygale"),
    "Z129": lambda: _cited("Hymenolepis diminuta Rudolphi, 1819", "Taenia"),
    "Z130": lambda: _cited("Mygale murina (Walckenaer, 1837)", "Mygale"),
    "Z131": lambda: _cited("Argiope x Audouin, 1826", "Argyope"),
    "Z132": lambda: (_cited("Aus cus Smith, 1900", "Aus"), _cited("Bus cus Smith, 1900", "Aus"))[1],
    "Z133": lambda: _same("Sigvardt, Rogers, De los Ríos, Palero & Olesen, 2019", "Sigvardt et al., 2019"),
    "Z134": lambda: _same("Günther, 1864", "Guenther, 1864") if _same("Günther, 1864", "Gunther, 1864") else "",
    "Z135": lambda: _same("[Smith], 1800", "Smith, 1800"),
    "Z136": lambda: _same('Storr, 1970 ["1969"]', "Storr, 1970"),
    "Z137": lambda: _same('(Peters, 1876 ["1877"])', "Peters, 1876"),
    "Z138": lambda: _same("Cabanis [1851]", "Cabanis, 1851"),
    "Z139": lambda: _same("(Geoffroy in Fourcroy, 1785)", "Geoffroy, 1785"),
    "Z140": lambda: _same("Smith ex Jones, 1900", "Smith, 1900"),
}
_HOMONYMY: dict[str, Callable[[], object]] = {
    "Z149": lambda: f"{_short(_two('Culex affinis'))}; {_short(_two('Culex affinis Adams, 1903'))}",
    "Z150": lambda: (
        "one name" if name_key("Lycaena argus nevadensis") == name_key("Lycaena nevadensis") else "two names"
    ),
    "Z151": lambda: _same("Townsend, 1891", "Townsend, 1926"),
    "Z152": _moth_and_owl,
    "Z153": _parted,
    "Z154": lambda: _replaced("Aus senior Brown, 1930"),
    "Z155": lambda: _replaced("Aus novus Smith, 1970"),
    "Z157": lambda: "one" if name_key("Microchaetina bus") == name_key("Microchaetona bus") else "not homonyms",
    "Z158": lambda: "one" if name_key("Aus hirtus") == name_key("Aus hirsutus") else "not homonyms",
}
_PRIORITY: dict[str, Callable[[], object]] = {
    "Z142": lambda: _short(
        verdict(
            "Aus minor Jones, 1920",
            answer(says("Aus minor", "Aus minor Jones, 1920", "Aus oblitus Old, 1800")),
            written="2000",
        )
    ),
    "Z144": lambda: _short(
        verdict(
            "Pelinobius crawshayi (Pocock, 1900)",
            answer(
                says("Pelinobius crawshayi", "Pelinobius crawshayi (Pocock, 1900)", "Pelinobius muticus Karsch, 1885")
            ),
            written="2005",
        )
    ),
}
