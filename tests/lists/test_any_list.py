"""One contract for every list, whatever it was built from: the starter list, archives, tables; and a broken one."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from namekeeper import resources
from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Answer, Failure, FailureKind, Match, NameStatus
from namekeeper.files.places import Places
from namekeeper.sources.lists.adding import READERS
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.list_file import ListReader
from namekeeper.sources.lists.registry import open_lists
from namekeeper.sources.lists.starter import open_starter
from namekeeper.sources.lists.unreadable import UnreadableList
from namekeeper.words.errors import FileError
from tests.lists.reader_contract import example_of, list_of

Maker = Callable[[Path], IndexList]


def starter(folder: Path) -> IndexList:
    return open_starter(resources.data("starter"), folder, lambda _notice: None)


def of(reader: ListReader) -> Maker:
    return lambda folder: list_of(example_of(reader, folder))


LISTS: dict[str, Maker] = {"starter": starter, **{reader.key: of(reader) for reader in READERS}}


@pytest.fixture(params=LISTS)
def listed(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[NameList]:
    with closing(LISTS[request.param](tmp_path)) as found:
        yield found


def test_replies_come_one_a_name_in_order(listed: NameList) -> None:
    names = ["Tliltocatl vagans", "Nullum nomen", "Tliltocatl", "Brachypelma vagans", ""]
    replies = list(listed.ask(names))
    assert [reply.asked for reply in replies] == names
    assert all(isinstance(reply, Answer) and reply.edition == listed.edition for reply in replies)


def test_a_moved_name_leads_to_the_name_in_force(listed: NameList) -> None:
    # Mendoza & Francke 2020, doi 10.1093/zoolinnean/zlz046
    (answer,) = listed.ask(["Brachypelma vagans"])
    assert isinstance(answer, Answer)
    (statement,) = answer.statements
    assert [target.name for target in statement.targets] == ["Tliltocatl vagans"]
    assert statement.match is Match.SAME
    assert statement.fault is None


def test_what_is_not_listed_has_no_statement(listed: NameList) -> None:
    (answer,) = listed.ask(["Nullum nomen"])
    assert isinstance(answer, Answer)
    assert (answer.statements, answer.hints, answer.misuses, answer.divisions) == ((), (), (), ())
    assert listed.named("Nullum nomen") == ()
    assert listed.genus("Nullum") is None
    assert listed.card("Nullum nomen") is None
    assert listed.common("nobody calls it so") == ()


def test_a_misspelt_name_gives_hints_only(listed: NameList) -> None:
    (answer,) = listed.ask(["Tliltocatl vagnas"])
    assert isinstance(answer, Answer)
    assert answer.statements == ()
    assert answer.hints[0].subject.name == "Tliltocatl vagans"
    assert {hint.match for hint in answer.hints} == {Match.SIMILAR}
    (firm,) = listed.ask_firmly(["Tliltocatl vagnas"])
    assert isinstance(firm, Answer)
    assert firm.hints == ()


def test_searches_agree_with_each_other(listed: NameList) -> None:
    (statement,) = listed.named("Tliltocatl vagans")
    assert statement.subject in [found.subject for found in listed.with_epithet("vagans")]
    assert "Tliltocatl vagans" in [found.subject.name for found in listed.abbreviated("T", "vagans")]
    assert "Tliltocatl vagans" in [found.subject.name for found in listed.prefixed("Tliltocatl v")]
    assert listed.similar("Tliltocatl vagans")[0].distance == 0
    assert listed.knows_epithet("VAGANS")
    assert not listed.knows_epithet("nusquam")
    genus = listed.genus("Tliltocatl")
    assert genus is not None
    assert genus.accepted
    in_force = [s for s in listed.prefixed("Tliltocatl ") if s.status is NameStatus.ACCEPTED]
    assert genus.species_listed == len(in_force) > 0
    card = listed.card("Tliltocatl vagans")
    assert card is not None
    assert "Brachypelma vagans" in [former.subject.name for former in card.former]


@pytest.mark.parametrize("words", ["", " ", "'", "%", "_", "a\x00b", "x" * 3000, "名前", "\ud83d", "Drop; TABLE"])
def test_any_text_may_be_asked(words: str, listed: NameList) -> None:
    listed.named(words)
    assert listed.knows_epithet(words) == bool(listed.with_epithet(words))
    listed.abbreviated(words, words)
    listed.prefixed(words)
    listed.common(words)
    listed.common_with([words, words])
    listed.similar(words)
    listed.similar_genus(words)
    listed.similar_common(words)
    listed.forms(None, words)
    listed.cautions([words])
    listed.genus(words)
    listed.card(words)
    assert len(list(listed.ask([words]))) == 1


def test_a_list_that_cannot_be_read_says_so_and_finds_nothing() -> None:
    broken = UnreadableList("mine", FileError("the index cannot be read: cut"))
    replies = list(broken.ask(["Tliltocatl vagans", "Aus bus"]))
    assert [isinstance(reply, Failure) and reply.kind is FailureKind.BROKEN for reply in replies] == [True, True]
    assert "cut" in replies[0].why  # type: ignore[union-attr]
    assert (broken.named("Aus bus"), broken.abbreviated("A", "bus"), broken.with_epithet("bus")) == ((), (), ())
    assert (broken.prefixed("A"), broken.genus("Aus"), broken.card("Aus bus")) == ((), None, None)
    assert (broken.common("x"), broken.common_with(["x"]), broken.similar("x"), broken.similar_genus("x")) == (
        (),
        (),
        (),
        (),
    )
    assert (broken.similar_common("x"), broken.forms(None, "x"), broken.cautions(["x"])) == ((), (), ())


def test_a_damaged_added_list_is_noticed_and_the_others_work(tmp_path: Path) -> None:
    places = Places(tmp_path / "cache", tmp_path / "state", tmp_path / "data")
    folder = places.data / "lists" / "mine"
    folder.mkdir(parents=True)
    (folder / "1.sqlite").write_bytes(b"damaged")
    (folder / "current").write_text("1\n", encoding="utf-8")
    (places.data / "lists" / "stray.txt").write_text("x", encoding="utf-8")
    notices: list[str] = []
    with open_lists(places, notices.append) as lists:
        assert [one.edition.source for one in lists] == ["starter", "mine"]
        assert len(notices) == 1
        assert "add the list again" in notices[0]
        assert isinstance(next(iter(lists[1].ask(["Aus bus"]))), Failure)
