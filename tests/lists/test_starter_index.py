"""The starter list is compiled into the cache: once, again when its tables change, whoever else compiles."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing
from pathlib import Path

import pytest

from namekeeper import resources
from namekeeper.evidence.statements import ActKind, Answer, NameStatus
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.starter import digest, open_starter
from namekeeper.words.errors import FileError
from namekeeper.words.terms import Verification

Opened = Callable[..., IndexList]


def silent(notice: str) -> None:
    raise AssertionError(notice)


@pytest.fixture(scope="module")
def starter(tmp_path_factory: pytest.TempPathFactory) -> Iterator[IndexList]:
    with closing(open_starter(resources.data("starter"), tmp_path_factory.mktemp("cache"), silent)) as found:
        yield found


@pytest.fixture
def opened(at_end: ExitStack) -> Opened:
    """Opens a starter list until the end of the test: ``opened(cache)``, ``opened(cache, tables)``."""

    def opening(cache: Path, tables: Path | None = None) -> IndexList:
        return at_end.enter_context(closing(open_starter(tables or resources.data("starter"), cache, silent)))

    return opening


@pytest.fixture
def tables(tmp_path: Path) -> Path:
    return Path(shutil.copytree(resources.data("starter"), tmp_path / "tables"))


def test_the_index_is_compiled_once(tmp_path: Path, opened: Opened) -> None:
    first = opened(tmp_path)
    stamp = first.place.stat().st_mtime_ns
    again = opened(tmp_path)
    assert (again.place, again.place.stat().st_mtime_ns) == (first.place, stamp)


@pytest.mark.holds_open
def test_a_change_of_the_tables_makes_a_new_index_and_drops_the_old(
    tables: Path, tmp_path: Path, opened: Opened
) -> None:
    cache = tmp_path / "cache"
    old = opened(cache, tables)
    assert old.named("Aphonopelma inventum") == ()
    species = tables / "species.csv"
    header = species.read_text(encoding="utf-8").splitlines()[0].split(",")
    row = {"scientificName": "Aphonopelma inventum", "rank": "species", "family": "Theraphosidae", "status": "accepted",
           "confidence": "memory", "source": "memory"}  # fmt: skip
    with species.open("a", encoding="utf-8") as file:
        file.write(",".join(row.get(column, "") for column in header) + "\n")
    new = opened(cache, tables)
    assert [s.verification for s in new.named("Aphonopelma inventum")] == [Verification.MEMORY]
    assert [path.name for path in (cache / "lists").iterdir()] == [new.place.name]


def test_the_digest_sees_every_byte(tables: Path) -> None:
    before = digest(tables)
    (tables / "sources.csv").write_bytes((tables / "sources.csv").read_bytes() + b"\n")
    assert digest(tables) != before


@pytest.mark.holds_open
def test_a_damaged_cache_is_compiled_again(tmp_path: Path, opened: Opened) -> None:
    place = opened(tmp_path).place
    place.write_bytes(place.read_bytes()[:3000])
    assert opened(tmp_path).named("Brachypelma hamorii")


def test_a_cache_that_cannot_be_written_is_said_and_got_round(tmp_path: Path) -> None:
    cache = tmp_path / "cache"
    cache.write_text("a file stands in the way", encoding="utf-8")
    notices: list[str] = []
    index = open_starter(resources.data("starter"), cache, notices.append)
    assert index.named("Brachypelma hamorii")
    assert len(notices) == 1
    assert "made ready for this run alone" in notices[0]
    temporary = index.place.parent
    index.close()
    del index
    assert not temporary.exists()
    assert cache.read_text(encoding="utf-8") == "a file stands in the way"
    assert temporary.name.startswith("namekeeper-")


def test_two_processes_compile_at_once(tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from namekeeper import resources;"
        "from namekeeper.sources.lists.starter import open_starter;"
        "l = open_starter(resources.data('starter'), Path(sys.argv[1]), print);"
        "print(l.named('Brachypelma hamorii')[0].subject.name); l.close()"
    )
    both = [
        subprocess.Popen([sys.executable, "-c", code, str(tmp_path)], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        for _ in range(3)
    ]
    for process in both:
        out, err = process.communicate(timeout=120)
        assert (out.decode().split("\n")[0], err) == ("Brachypelma hamorii", b"")
    assert len(list((tmp_path / "lists").iterdir())) == 1


@pytest.mark.parametrize("table", ["species.csv", "sources.csv", "edition.yaml"])
def test_a_broken_installation_says_which_file(table: str, tables: Path, tmp_path: Path) -> None:
    (tables / table).write_text("nonsense: [", encoding="utf-8")
    with pytest.raises(FileError, match="starter list cannot be read") as error:
        open_starter(tables, tmp_path / "cache", silent)
    assert table in str(error.value)


def test_a_transfer_carries_its_act(starter: IndexList) -> None:
    # Mendoza & Francke 2020, Zool. J. Linn. Soc. 188: 587-666, doi 10.1093/zoolinnean/zlz046
    (statement,) = starter.named("Brachypelma vagans")
    assert [target.name for target in statement.targets] == ["Tliltocatl vagans"]
    act = statement.acts[-1]
    assert (act.kind, act.year) == (ActKind.TRANSFER, "2020")
    assert "Mendoza" in act.citation


def test_every_name_of_the_list_can_be_asked(starter: IndexList) -> None:
    listed = [name for (name,) in starter._database.execute("SELECT DISTINCT name FROM name WHERE rest <> ''")]
    for reply in starter.ask(listed):
        assert isinstance(reply, Answer)
        assert any(statement.subject.name == reply.asked for statement in reply.statements), reply.asked
        assert all(statement.fault is None for statement in reply.statements), reply


def test_the_misuse_of_smithi_is_told(starter: IndexList) -> None:
    # Mendoza & Francke 2017, J. Nat. Hist. 51: most trade animals named smithi are hamorii.
    (answer,) = starter.ask(["Brachypelma smithi"])
    assert isinstance(answer, Answer)
    assert "Brachypelma hamorii" in {taxon.name for misuse in answer.misuses for taxon in misuse.meant}
    (answer,) = starter.ask(["Brachypelma smithy"])
    assert isinstance(answer, Answer)
    assert answer.statements


def test_a_trade_abbreviation(starter: IndexList) -> None:
    assert {common.taxon.name for common in starter.common("gbb")} == {
        "Chromatopelma cyaneopubescens"
    }  # common practice


def test_cautions_come_down_from_higher_taxa(starter: IndexList) -> None:
    taxa = {caution.taxon for caution in starter.cautions(["Brachypelma hamorii"])}
    assert "Brachypelma" in taxa


def test_a_doubtful_name_has_no_name_in_force(starter: IndexList) -> None:
    rows = starter._database.execute("SELECT name FROM name WHERE status = 'doubtful' AND rest <> ''").fetchall()
    assert rows
    for (name,) in rows:
        for statement in starter.named(name):
            if statement.status is NameStatus.DOUBTFUL:
                assert statement.targets == ()
