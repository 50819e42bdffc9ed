"""What a list answers to a name: contract section 1, chains of names, faults of a list's own."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.evidence.statements import Answer, Match, NameStatus
from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.tasks.lookup import look_up
from namekeeper.words.terms import AnswerKind

MakeIndex = Callable[..., IndexList]

#: Asked, listed, how they are the same name; the rule stands beside each.
SAME_NAME = [
    ("BRACHYPELMA  hamorii", "Brachypelma hamorii", Match.SAME),  # capitals and white space: no rule of the Code
    ("Nothomyrmecia novae-hollandiae", "Nothomyrmecia novaehollandiae", Match.SAME),  # invented pair, Art. 32.5.2.3
    ("Johnsonsealinkia profunda", "Johnson-sea-linkia profunda", Match.SAME),  # NCBI Taxonomy; Art. 32.5.2.3
    ("Theraphosa mülleri", "Theraphosa muelleri", Match.SAME),  # invented pair, Art. 32.5.2.1
    ("Theraphosa muelleri", "Theraphosa mülleri", Match.SAME),  # the mark may stand in the list
    ("Grammostola roseus", "Grammostola rosea", Match.ENDING),  # Art. 31.2, 34.2
    ("Brachypelma hamori", "Brachypelma hamorii", Match.ENDING),  # Art. 33.4
    ("Brachypelma smithy", "Brachypelma smithi", Match.LETTERS),  # Art. 58.2
]


@pytest.mark.parametrize(("asked", "listed", "match"), SAME_NAME)
def test_a_code_equivalent_spelling_finds_the_name(
    asked: str, listed: str, match: Match, tmp_path: Path, names: MakeIndex
) -> None:
    (statement,) = names(tmp_path / "i", listed).named(asked)
    assert (statement.subject.name, statement.match, statement.asked) == (listed, match, asked)


@pytest.mark.parametrize(
    ("tag", "answer", "name"),
    [
        ("Johnson-sea-linkia profunda 0.1", AnswerKind.ONE, "Johnson-sea-linkia profunda"),
        ("Johnson profunda", AnswerKind.UNASKED, ""),  # a piece of it is another word
        ("Johnson-sea-linkia sp.", AnswerKind.GENUS, "Johnson-sea-linkia"),
    ],
)
def test_hyphens_in_a_genus_do_not_count_on_a_tag(
    tag: str, answer: AnswerKind, name: str, tmp_path: Path, names: MakeIndex
) -> None:
    """Art. 32.5.2.3: a hyphen goes in every name; the genus is one of the NCBI Taxonomy."""
    (looked,) = look_up([tag], (names(tmp_path / "i", "Johnson-sea-linkia profunda"),))
    assert (looked.lookup.answer, [c.name for c in looked.lookup.candidates]) == (answer, [name] if name else [])


@pytest.mark.parametrize(
    ("asked", "listed"),
    [
        ("Brachipelma smithi", "Brachypelma smithi"),  # Art. 58 is on species-group names; the genus only by row 1
        ("Brachypelma smifhi", "Brachypelma smithi"),
        ("Brachypelma", "Brachypelma smithi"),
        ("smithi", "Brachypelma smithi"),
        ("", "Brachypelma smithi"),
        ("?", "Brachypelma smithi"),
    ],
)
def test_anything_else_is_not_the_name(asked: str, listed: str, tmp_path: Path, names: MakeIndex) -> None:
    assert names(tmp_path / "i", listed).named(asked) == ()


def test_the_exact_spelling_speaks_alone_where_it_is_listed(tmp_path: Path, names: MakeIndex) -> None:
    found = names(tmp_path / "i", "Grammostola rosea", "Grammostola roseus").named("Grammostola roseus")
    assert [(s.subject.name, s.match) for s in found] == [("Grammostola roseus", Match.SAME)]


def test_two_names_of_one_letter_class_do_not_speak(tmp_path: Path, names: MakeIndex) -> None:
    # Contract section 1, row 3: only if exactly one name folds to it. Invented names.
    listed = names(tmp_path / "i", "Aphonopelma phasmus", "Aphonopelma fassmus")
    (answer,) = listed.ask(["Aphonopelma fasmus"])
    assert isinstance(answer, Answer)
    assert answer.statements == ()
    assert {hint.subject.name for hint in answer.hints} == {"Aphonopelma phasmus", "Aphonopelma fassmus"}
    assert {hint.match for hint in answer.hints} == {Match.SIMILAR}


CHAIN = [
    # Ausserer 1875; Smith 1992 (to Brachypelma, as cited in Mendoza & Francke 2020); Mendoza & Francke 2020
    UsageRow(2, "a", "Eurypelma vagans", "Ausserer, 1875", status="synonym", accepted_key="b"),
    UsageRow(3, "b", "Brachypelma vagans", "(Ausserer, 1875)", status="synonym", accepted_key="c"),
    UsageRow(4, "c", "Tliltocatl vagans", "(Ausserer, 1875)", original_key="a"),
]


def test_a_chain_is_followed_to_its_end(tmp_path: Path, index: MakeIndex) -> None:
    (statement,) = index(tmp_path / "i", *CHAIN).named("Eurypelma vagans")
    assert [target.name for target in statement.targets] == ["Tliltocatl vagans"]
    assert (statement.status, statement.fault) == (NameStatus.SYNONYM, None)
    assert statement.targets[0].original_genus == "Eurypelma"


def test_the_card_holds_the_whole_chain(tmp_path: Path, index: MakeIndex) -> None:
    card = index(tmp_path / "i", *CHAIN).card("Tliltocatl vagans")
    assert card is not None
    assert [former.subject.name for former in card.former] == ["Brachypelma vagans", "Eurypelma vagans"]


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        (("a", "b"), "in a circle"),
        (("a", "a"), "in a circle"),
        (("a", "gone"), "'gone', which it does not have"),
    ],
)
def test_a_list_that_leads_nowhere_says_so(rows: tuple[str, str], words: str, tmp_path: Path, index: MakeIndex) -> None:
    first, second = rows
    listed = index(
        tmp_path / "i",
        UsageRow(2, "a", "Aphonopelma primum", status="synonym", accepted_key=second),  # invented
        UsageRow(3, "b", "Aphonopelma secundum", status="synonym", accepted_key=first),
        UsageRow(4, "c", "Aphonopelma tertium"),
    )
    (statement,) = listed.named("Aphonopelma primum")
    assert statement.targets == ()
    assert statement.fault is not None
    assert words in statement.fault


@pytest.mark.parametrize(
    ("status", "targets", "fault"),
    [("doubtful", (), None), ("bare name", (), None), ("synonym", (), "the list gives no accepted name")],
)
def test_a_name_without_a_name_in_force(
    status: str, targets: tuple[str, ...], fault: str | None, tmp_path: Path, index: MakeIndex
) -> None:
    (statement,) = index(tmp_path / "i", UsageRow(2, "a", "Aphonopelma primum", status=status)).named(
        "Aphonopelma primum"
    )
    assert (tuple(t.name for t in statement.targets), statement.fault) == (targets, fault)


def test_a_name_split_by_the_list_keeps_all_its_targets(tmp_path: Path, index: MakeIndex) -> None:
    listed = index(
        tmp_path / "i",
        UsageRow(2, "a", "Aphonopelma primum"),  # invented; ColDP repeats a pro parte synonym once for each taxon
        UsageRow(3, "b", "Aphonopelma secundum"),
        UsageRow(4, "c", "Aphonopelma vetus", "Roe, 1900", status="ambiguous synonym", accepted_key="a"),
        UsageRow(5, "d", "Aphonopelma vetus", "Roe, 1900", status="ambiguous synonym", accepted_key="b"),
    )
    (statement,) = listed.named("Aphonopelma vetus")
    assert statement.status is NameStatus.AMBIGUOUS
    assert [target.name for target in statement.targets] == ["Aphonopelma primum", "Aphonopelma secundum"]


def test_homonyms_are_two_statements(tmp_path: Path, index: MakeIndex) -> None:
    listed = index(
        tmp_path / "i",
        UsageRow(2, "a", "Aphonopelma idem", "Roe, 1900", kingdom="Animalia"),  # invented
        UsageRow(3, "b", "Aphonopelma idem", "Doe, 1950", status="synonym", accepted_key="c", kingdom="Animalia"),
        UsageRow(4, "c", "Aphonopelma alter", "Doe, 1960", kingdom="Animalia"),
    )
    found = listed.named("Aphonopelma idem")
    assert [(s.subject.authorship, s.status) for s in found] == [
        ("Roe, 1900", NameStatus.ACCEPTED),
        ("Doe, 1950", NameStatus.SYNONYM),
    ]


def test_an_accepted_name_that_points_elsewhere_is_a_fault(tmp_path: Path, index: MakeIndex) -> None:
    listed = index(
        tmp_path / "i",
        UsageRow(2, "a", "Aphonopelma primum", status="accepted", accepted_key="b"),  # invented
        UsageRow(3, "b", "Aphonopelma secundum", status="accepted", accepted_key="b"),
    )
    (statement,) = listed.named("Aphonopelma primum")
    assert (statement.targets, statement.fault) == ((), "the list accepts the name and yet points to another")
    (statement,) = listed.named("Aphonopelma secundum")
    assert [target.name for target in statement.targets] == ["Aphonopelma secundum"]


@pytest.fixture
def tarantulas(tmp_path: Path, names: MakeIndex) -> IndexList:
    return names(
        tmp_path / "i",
        "Brachypelma smithi", "Brachypelma hamorii", "Bumba horrida", "Aphonopelma smithi", "Brachypelma",
        "Grammostola rosea",
    )  # fmt: skip


def test_an_abbreviated_genus_finds_all_that_begin_so(tarantulas: IndexList) -> None:
    assert [s.subject.name for s in tarantulas.abbreviated("B.", "smithi")] == ["Brachypelma smithi"]
    assert [s.subject.name for s in tarantulas.abbreviated("Br", "hamori")] == ["Brachypelma hamorii"]
    assert tarantulas.abbreviated("B", "smithy") == ()  # row 3 wants the genus written out


def test_an_epithet_alone_finds_every_genus(tarantulas: IndexList) -> None:
    assert {s.subject.name for s in tarantulas.with_epithet("smithi")} == {"Brachypelma smithi", "Aphonopelma smithi"}
    assert [s.subject.name for s in tarantulas.with_epithet("roseus")] == ["Grammostola rosea"]


@pytest.mark.parametrize(
    ("start", "found"),
    [
        ("B", ["Brachypelma hamorii", "Brachypelma smithi", "Bumba horrida"]),
        ("brachy", ["Brachypelma hamorii", "Brachypelma smithi"]),
        ("Brachypelma s", ["Brachypelma smithi"]),
        ("Brachypelma ", ["Brachypelma hamorii", "Brachypelma smithi"]),
        ("", []),
        (" ", []),
        ("%", []),
    ],
)
def test_names_that_begin_so(start: str, found: list[str], tarantulas: IndexList) -> None:
    assert [s.subject.name for s in tarantulas.prefixed(start)] == found


def test_prefix_search_stops_at_its_limit(tarantulas: IndexList) -> None:
    assert len(tarantulas.prefixed("B", limit=2)) == 2


def test_a_genus_word_and_its_species(tarantulas: IndexList) -> None:
    record = tarantulas.genus("BRACHYPELMA")
    assert record is not None
    assert (record.genus, record.accepted, record.species_listed) == ("Brachypelma", True, 2)
    assert tarantulas.genus("Brachipelma") is None
    assert tarantulas.genus("Nullum") is None
