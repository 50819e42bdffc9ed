"""Fetching a taxon from the Catalogue of Life: pages, going on after a stop, refusals, and what is made of it.

Shapes follow the server's public answers to ``nameusage/search`` (ChecklistBank, recorded 2020) and its paging rules:
at most 1,000 a page, offsets to 100,000. The names are of Mendoza & Francke 2020, the identifiers invented.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from contextlib import closing, nullcontext
from pathlib import Path
from typing import Any

import pytest

from namekeeper.evidence.statements import ListWishes
from namekeeper.outside import Outside
from namekeeper.sources.lists import fetch as fetching
from namekeeper.sources.lists.catalogue import UnansweredFetchError, catalogue
from namekeeper.sources.lists.fetch import Counted, fetch
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.registry import indexes_in_use
from namekeeper.tasks.lists import fetch_list
from namekeeper.words.errors import FileError, InputError
from tests.conftest import Outcome
from tests.services import local_server

Command = Callable[..., Outcome]
Asked = tuple[str, dict[str, str]]
CLASSIFICATION = [
    {"id": "N", "name": "Animalia", "rank": "kingdom"},
    {"id": "C", "name": "Arachnida", "rank": "class"},
    {"id": "O", "name": "Araneae", "rank": "order"},
    {"id": "F", "name": "Theraphosidae", "rank": "family"},
]


def usage(key: str, name: str, author: str, status: str = "accepted", parent: str = "G") -> dict[str, Any]:
    rank = "species" if " " in name else "family" if name.endswith("idae") else "genus"
    return {
        "id": key,
        "classification": [*CLASSIFICATION, {"id": key, "name": name, "rank": rank}],
        "usage": {
            "id": key, "status": status, "parentId": parent,
            "name": {"scientificName": name, "authorship": author, "rank": rank, "code": "zoological"},
        },
    }  # fmt: skip


SUBTREE = [
    usage("F", "Theraphosidae", "Thorell, 1869", parent="O"),
    usage("G", "Tliltocatl", "Mendoza & Francke, 2020", parent="F"),
    usage("V", "Tliltocatl vagans", "(Ausserer, 1875)")
    | {"vernacularNames": [{"name": "Mexican red rump", "language": "eng"}]},
    usage("B", "Brachypelma vagans", "(Ausserer, 1875)", "synonym", "V"),
    usage("M", "Brachypelma smithi", "F. O. Pickard-Cambridge, 1897", "misapplied", "V"),
]


class Catalogue:
    """Answers as the server would; may be told to break off after some answers."""

    def __init__(self, results: Sequence[dict[str, Any]] = SUBTREE, answers: int = 10_000) -> None:
        self.results = list(results)
        self.answers = answers
        self.asked: list[Asked] = []

    def __call__(self, path: str, params: Sequence[tuple[str, str]]) -> object:
        query = dict(params)
        self.asked.append((path, query))
        if len(self.asked) > self.answers:
            raise UnansweredFetchError("no answer within 60 s")
        if path == "dataset/3LXR":
            citation = "B&aacute;nki, O. (2026). <i>Catalogue of Life</i> (XR)."  # the server formats it as HTML
            return {"key": 4242, "title": "Catalogue of Life", "alias": "COL26.5", "issued": "2026-05-14",
                    "license": "cc by", "citation": citation}  # fmt: skip
        assert path == "dataset/4242/nameusage/search"
        if "q" in query:
            fitting = [
                result for result in self.results if query["q"].lower() in json.dumps(result.get("usage")).lower()
            ]
            return {"result": fitting, "total": len(fitting)}
        offset, limit = int(query.get("offset", "0")), int(query["limit"])
        return {"result": self.results[offset : offset + limit], "total": len(self.results)}


def many(count: int) -> list[dict[str, Any]]:
    letters = "abcdefghij"
    epithets = ["".join(letters[int(digit)] for digit in f"{number:06d}") for number in range(count - 1)]
    return [SUBTREE[0], *(usage(f"s{n}", f"Aus {epithet}", "Roe, 1900") for n, epithet in enumerate(epithets))]


def quiet(done: int, total: int | None, note: str = "") -> None:
    """Watches nothing."""


def opened(outside: Outside, key: str) -> closing[IndexList]:
    return closing(IndexList.open(dict(indexes_in_use(outside.places.data))[key]))


def test_a_family_becomes_a_list_complete_for_it(outside: Outside) -> None:
    added = fetch_list("theraphosidae", "col", ListWishes(), outside, Catalogue())
    assert (added.names, added.edition, added.in_use) == (5, "COL26.5", True)
    with opened(outside, "col") as index:
        edition = index.edition
        assert edition.complete_for == ("Theraphosidae",)
        assert (str(edition.dated), edition.upstream, edition.licence) == ("2026-05-14", "catalogue of life", "cc by")
        (statement,) = index.named("Brachypelma vagans")
        assert [target.name for target in statement.targets] == ["Tliltocatl vagans"]
        assert statement.targets[0].higher == ("Theraphosidae", "Araneae", "Arachnida")
        assert [common.taxon.name for common in index.common("mexican red-rump")] == ["Tliltocatl vagans"]
    assert not (outside.places.cache / "fetched" / "col").exists()


def test_all_pages_are_of_one_release(outside: Outside) -> None:
    catalogue = Catalogue(many(1250))
    assert fetch_list("Theraphosidae", "col", ListWishes(), outside, catalogue).names == 1250
    pages = [query["offset"] for path, query in catalogue.asked if "offset" in query]
    assert pages == ["0", "500", "1000"]
    assert {path for path, _ in catalogue.asked} == {"dataset/3LXR", "dataset/4242/nameusage/search"}


@pytest.mark.parametrize("answers", range(6))
def test_a_fetch_goes_on_where_it_was_stopped(answers: int, outside: Outside) -> None:
    broken = Catalogue(many(1250), answers=answers)
    with pytest.raises(UnansweredFetchError, match="could not be asked") as error:
        fetch_list("Theraphosidae", "col", ListWishes(), outside, broken)
    assert error.value.exit_code == 3
    assert dict(indexes_in_use(outside.places.data)) == {}
    whole = Catalogue(many(1250))
    assert fetch_list("Theraphosidae", "col", ListWishes(), outside, whole).names == 1250
    assert len(whole.asked) == (6 if answers < 3 else 6 - answers)


def test_an_interrupted_fetch_goes_on_too(outside: Outside) -> None:
    def stopped(done: int, total: int | None, note: str = "") -> None:
        if done == 1000:
            raise KeyboardInterrupt

    watched = outside._replace(shown=lambda what: nullcontext(stopped))
    with pytest.raises(KeyboardInterrupt):
        fetch_list("Theraphosidae", "col", ListWishes(), watched, Catalogue(many(1250)))
    whole = Catalogue(many(1250))
    assert fetch_list("Theraphosidae", "col", ListWishes(), outside, whole).names == 1250
    assert [query["offset"] for _, query in whole.asked] == ["1000"]


def test_another_taxon_begins_anew(tmp_path: Path) -> None:
    fetch("Theraphosidae", Catalogue(), tmp_path / "pages", quiet)
    catalogue = Catalogue()
    assert fetch("Tliltocatl", catalogue, tmp_path / "pages", quiet).plan.identifier == "G"
    assert len(catalogue.asked) == 4


def test_a_damaged_page_is_asked_again(tmp_path: Path) -> None:
    fetched = fetch("Theraphosidae", Catalogue(), tmp_path / "pages", quiet)
    (tmp_path / "pages" / "page-000000.json").write_text("[{", encoding="utf-8")
    with pytest.raises(FileError, match="damaged and was dropped"):
        list(fetched.usages())
    catalogue = Catalogue()
    assert len(list(fetch("Theraphosidae", catalogue, tmp_path / "pages", quiet).usages())) == 5
    assert len(catalogue.asked) == 1


@pytest.mark.parametrize(
    ("taxon", "results", "words"),
    [
        ("Nullidae", SUBTREE, "has no animal of that name"),
        ("Theraphosidae", [SUBTREE[0], SUBTREE[0]], "has several animals of that name"),
        (
            "Theraphosidae",
            [SUBTREE[0] | {"classification": [{"name": "Plantae", "rank": "kingdom"}]}],
            "has no animal of that name",
        ),
    ],
)
def test_a_taxon_that_is_not_there(taxon: str, results: list[dict[str, Any]], words: str, tmp_path: Path) -> None:
    with pytest.raises(InputError, match=words):
        fetch(taxon, Catalogue(results), tmp_path / "pages", quiet)


def test_a_taxon_too_large_for_the_paging(tmp_path: Path) -> None:
    class Huge(Catalogue):
        def __call__(self, path: str, params: Sequence[tuple[str, str]]) -> object:
            answer = super().__call__(path, params)
            return answer if "q" in dict(params) or path == "dataset/3LXR" else {"result": [], "total": 5_000_000}

    with pytest.raises(InputError, match="at most 100000 at a time"):
        fetch("Theraphosidae", Huge(), tmp_path / "pages", quiet)


@pytest.mark.parametrize(
    "answer",
    [
        None,
        [],
        {},
        {"result": None},
        {"result": [None, 3, {"usage": 7}]},
        {"result": [SUBTREE[1]] * 3, "total": "many"},
        5,
        "x",
    ],
)
def test_an_answer_of_another_shape_is_an_error_in_words(answer: object, tmp_path: Path) -> None:
    with pytest.raises(InputError):
        fetch("Theraphosidae", lambda _path, _params: answer, tmp_path / "pages", quiet)


def test_a_page_with_too_few_names_is_not_kept(tmp_path: Path) -> None:
    class Short(Catalogue):
        def __call__(self, path: str, params: Sequence[tuple[str, str]]) -> object:
            answer = super().__call__(path, params)
            if "offset" in dict(params):
                assert isinstance(answer, dict)
                answer["result"] = answer["result"][:2]
            return answer

    with pytest.raises(InputError, match="gave 2 names where 5 were due"):
        fetch("Theraphosidae", Short(), tmp_path / "pages", quiet)
    assert [path.name for path in (tmp_path / "pages").iterdir()] == ["plan.json"]


def test_wrong_shapes_inside_a_page_are_skips(outside: Outside) -> None:
    wicked: list[Any] = [*SUBTREE, {"id": "X", "usage": {"name": "Aus bus", "status": 7}}, {"usage": None}, {}]
    added = fetch_list("Theraphosidae", "col", ListWishes(), outside, Catalogue(wicked))
    assert (added.names, added.skips.count) == (5, 3)


def test_the_command_asks_only_a_safe_address(command: Command) -> None:
    environ = {"NAMEKEEPER_URL_CHECKLISTBANK": "http://example.org"}
    done = command("lists", "fetch", "Theraphosidae", "--as", "col", environ=environ)
    assert done.code == 2
    assert "https" in done.err


def test_the_command_without_a_network(command: Command) -> None:
    environ = {"NAMEKEEPER_URL_CHECKLISTBANK": "http://127.0.0.1:9"}
    done = command("lists", "fetch", "Theraphosidae", "--as", "col", environ=environ)
    assert (done.code, done.out) == (3, "")
    assert "could not be asked" in done.err


def test_the_command_over_a_real_connection(command: Command) -> None:
    catalogue = Catalogue(many(600))

    def answer(asked: local_server.Asked) -> local_server.Canned:
        return local_server.Canned.json(catalogue(asked.path.removeprefix("/"), tuple(asked.query.items())))

    with local_server.serving(answer) as server:
        environ = {"NAMEKEEPER_URL_CHECKLISTBANK": server.base}
        done = command("lists", "fetch", "Theraphosidae", "--as", "col", "--json", environ=environ)
        agents = {asked.headers["User-Agent"] for asked in server.asked}
    assert (done.code, json.loads(done.out)["names"]) == (0, 600)
    assert len(catalogue.asked) == 5
    assert len(agents) == 1  # services ask for a constant, honest name
    assert next(iter(agents)).startswith("namekeeper/")


def test_the_plan_is_plain_json(tmp_path: Path) -> None:
    fetch("Theraphosidae", Catalogue(), tmp_path / "pages", quiet)
    plan = json.loads((tmp_path / "pages" / "plan.json").read_text(encoding="utf-8"))
    assert (plan["taxon"], plan["release"], plan["total"]) == ("Theraphosidae", "4242", 5)
    assert fetching.RELEASE == "3LXR"


class Shuffling(Catalogue):
    """Gives equal names in another order from page to page, as a search without a tie-breaker may."""

    def __init__(self, results: Sequence[dict[str, Any]], *, mends: bool) -> None:
        super().__init__(results)
        self.mends = mends

    def __call__(self, path: str, params: Sequence[tuple[str, str]]) -> object:
        answer = super().__call__(path, params)
        query = dict(params)
        if query.get("offset") == "500":
            assert isinstance(answer, dict)
            answer["result"] = [self.results[499], *answer["result"][1:]]
        if query.get("offset") == "250" and not self.mends:
            return {"result": self.results[250:500], "total": len(self.results)}
        return answer


@pytest.mark.parametrize("mends", [True, False])
def test_a_name_that_comes_twice_at_the_edge_of_a_page(outside: Outside, mends: bool) -> None:
    """Then another is missing: the edge is asked once more; what is still missing is told and nothing claimed."""
    catalogue = Shuffling(many(750), mends=mends)
    added = fetch_list("Theraphosidae", "col", ListWishes(), outside, catalogue)
    assert (added.names, added.fetched) == (750 - (not mends), Counted(750 - (not mends), 0, int(not mends)))
    assert [query["offset"] for _, query in catalogue.asked if "offset" in query] == ["0", "500", "250"]
    with opened(outside, "col") as kept:
        assert kept.edition.complete_for == (("Theraphosidae",) if mends else ())


def test_the_citation_comes_without_its_markup(outside: Outside) -> None:
    fetch_list("Theraphosidae", "col", ListWishes(), outside, Catalogue())
    with opened(outside, "col") as kept:
        assert kept.edition.citation == "Bánki, O. (2026). Catalogue of Life (XR)."


def test_the_command_says_how_many_former_names_came(command: Command) -> None:
    def told(results: Sequence[dict[str, Any]]) -> str:
        catalogue = Catalogue(results)

        def answer(asked: local_server.Asked) -> local_server.Canned:
            return local_server.Canned.json(catalogue(asked.path.removeprefix("/"), tuple(asked.query.items())))

        with local_server.serving(answer) as server:
            environ = {"NAMEKEEPER_URL_CHECKLISTBANK": server.base, "NAMEKEEPER_CONTACT": "keeper@example.org"}
            return command("lists", "fetch", "Theraphosidae", "--as", "col", environ=environ).out

    assert "Former names among them: 2" in told(SUBTREE)
    assert "hardly any" not in told(SUBTREE)
    assert "hardly any former names" in told(many(30))


def test_a_slow_first_byte_is_waited_for(monkeypatch: pytest.MonkeyPatch, outside: Outside) -> None:
    """A page is put together before its first byte is sent; one answer on one name never takes so long."""
    settings: list[Any] = []
    monkeypatch.setattr("namekeeper.sources.http.Http.__init__", lambda self, base, wire, **more: settings.append(wire))
    catalogue(outside)
    (wire,) = settings
    assert 60 <= wire.settings.read_seconds < wire.settings.attempt_seconds < wire.settings.budget_seconds
