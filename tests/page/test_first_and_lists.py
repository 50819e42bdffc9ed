"""The first visit, known collections, and the lists: what is made, where, and what is told of long jobs."""

from __future__ import annotations

import io
import re
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from namekeeper import resources
from namekeeper.faces.page.keeping import Keeping
from namekeeper.faces.page.work import Works
from namekeeper.outside import Outside, Work
from namekeeper.words.errors import InputError
from tests.conftest import world
from tests.page.conftest import Visitor, visitor_of


@pytest.fixture
def newcomer(tmp_path: Path, home: Path) -> Iterator[Visitor]:
    """A keeper who has no collection yet."""
    visitor = visitor_of(Keeping.of(world(tmp_path, home)))
    visitor.keeping.patience = 60.0
    visitor.come_in()
    yield visitor
    visitor.keeping.end(5)


def test_who_has_nothing_open_is_led_to_the_first_step(newcomer: Visitor) -> None:
    for path in ("/", "/animals", "/decide", "/labels", "/begin/animals", "/animal/HW-001"):
        assert newcomer.get(path).location == "/begin", path
    assert "Where shall your animals live?" in newcomer.get("/begin").text
    assert newcomer.get("/lookup?tags=GBB").status_code == 200
    assert newcomer.get("/lists").status_code == 200


def test_a_collection_is_made_among_the_documents_and_found_again(newcomer: Visitor, home: Path) -> None:
    answer = newcomer.post("/begin", {"act": "new", "name": "  Back   room "})
    assert answer.location == "/begin/animals"
    folder = home / "documents" / "Back room"
    assert (folder / "collection.yaml").is_file()
    assert str(folder) in newcomer.get("/begin/animals").text
    key = re.search(r'name="key" value="([0-9a-f]+)">Back room', newcomer.get("/begin").text)
    assert key is not None
    newcomer.keeping.close()
    assert newcomer.post("/begin", {"act": "known", "key": key[1]}).location == "/animals"
    assert newcomer.keeping.in_view().desk.folder == folder


@pytest.mark.parametrize(
    "name", ["", "..", "../up", "a/b", "a\\b", "C:", ".hidden", "con", "nul.txt", "end.", "a\x00b", "x" * 61]
)
def test_a_name_that_cannot_be_a_folder_is_told(name: str, newcomer: Visitor, home: Path) -> None:
    answer = newcomer.post("/begin", {"act": "new", "name": name})
    assert answer.status_code == 200
    assert 'role="alert"' in answer.text
    assert not (home / "documents").exists()


def test_what_is_there_is_not_made_again(newcomer: Visitor, home: Path) -> None:
    (home / "documents" / "Back room").mkdir(parents=True)
    assert "there is something of the name" in newcomer.post("/begin", {"name": "Back room"}).text
    assert list((home / "documents" / "Back room").iterdir()) == []


def test_the_sample_is_a_copy_of_ones_own(newcomer: Visitor, home: Path) -> None:
    assert newcomer.post("/begin", {"act": "sample"}).location == "/animals"
    copied = {path.name for path in (home / "documents" / "namekeeper-demo" / "specimens").iterdir()}
    assert copied == {path.name for path in (resources.sample_collection() / "specimens").iterdir()}
    newcomer.post("/begin", {"act": "sample"})
    assert newcomer.keeping.in_view().desk.folder == home / "documents" / "namekeeper-demo-2"


def test_a_collection_that_is_gone_is_not_offered(newcomer: Visitor, home: Path) -> None:
    newcomer.post("/begin", {"act": "sample"})
    (home / "documents" / "namekeeper-demo").rename(home / "elsewhere")
    newcomer.keeping.close()
    assert 'name="key"' not in newcomer.get("/begin").text
    assert "not there any more" in newcomer.post("/begin", {"act": "known", "key": "0" * 16}).text


def test_a_form_of_another_collection_changes_nothing(visitor: Visitor) -> None:
    fields = {"collection": "another", "state": visitor.keeping.view().safe_state}
    assert visitor.post("/decide-safe", fields).status_code == 409
    assert visitor.keeping.view().report.safe


TABLE = b"Sold as,Scientific name,Shelf,Rack number\nGBB 0.1,Chromatopelma cyaneopubescens,A 1,7\nred knee,,A 2,8\n"


def test_a_table_is_shown_corrected_and_brought_in(newcomer: Visitor, home: Path) -> None:
    newcomer.post("/begin", {"name": "Back room"})
    sent = newcomer.post("/begin/table", {"table": (io.BytesIO(TABLE), "../../stock.csv")})
    assert re.fullmatch(r"/begin/table/[0-9a-f]{16}", sent.location)
    shown = newcomer.get(sent.location).text
    assert "2 rows can come in" in shown
    assert re.search(r'name="column-tag">.*?<option selected>Sold as', shown, re.DOTALL)
    assert "<option>Rack number</option>" in shown  # may be chosen for any field
    other = newcomer.get(sent.location + "?column-tag=Sold as&column-place=Rack number").text
    assert re.search(r'name="column-place">.*?<option selected>Rack number', other, re.DOTALL)
    specimens = home / "documents" / "Back room" / "specimens"
    assert list(specimens.iterdir()) == []
    answer = newcomer.post(sent.location, {"column-tag": "Sold as", "column-place": "Rack number"})
    assert answer.location == "/labels?step=3"
    assert "place: 7" in (specimens / "INV-0001.yaml").read_text().replace('"', "")
    assert "not here any more" in newcomer.get(sent.location).text  # brought in once


def test_a_column_that_is_left_out_is_not_guessed_again(newcomer: Visitor, home: Path) -> None:
    newcomer.post("/begin", {"name": "Back room"})
    table = b"Sold as,Scientific name,Remarkz,Came\nGBB 0.1,Chromatopelma cyaneopubescens,shy,03/04/2023\n"
    sent = newcomer.post("/begin/table", {"table": (io.BytesIO(table), "stock.csv")})
    shown = newcomer.get(sent.location + "?column-tag=Sold as&column-name=&column-acquired=").text
    assert re.search(r"Column <strong>Scientific name</strong>, 1 cell, the first “Chromatopelma cyaneo", shown)
    assert "<i>Chromatopelma" not in shown
    assert "no column; perhaps “Scientific name”" in shown
    ambiguous = sent.location + "?column-tag=Sold as&column-acquired=Came"
    assert "0 rows can come in, 1 is left" in newcomer.get(ambiguous).text
    assert "4 March: the month comes first" in newcomer.get(ambiguous).text
    fields = {"column-tag": "Sold as", "column-name": "", "column-acquired": "Came", "dates": "day-first"}
    assert "1 animal is here now." in newcomer.follow(newcomer.post(sent.location, fields))
    written = (home / "documents" / "Back room" / "specimens" / "INV-0001.yaml").read_text()
    assert "acquired: 2023-04-03" in written
    assert "names:" not in written


@pytest.mark.parametrize(
    "content", [b"", b"\x00\x01\x02", b"PK\x03\x04 no archive", b"%PDF-1.7", b"<?xml version='1.0'?><a/>"]
)
def test_what_is_no_table_is_told(content: bytes, newcomer: Visitor) -> None:
    newcomer.post("/begin", {"name": "Back room"})
    answer = newcomer.post("/begin/table", {"table": (io.BytesIO(content), "stock.xlsx")})
    shown = newcomer.get(answer.location).text if answer.status_code == 303 else answer.text
    assert 'role="alert"' in shown
    assert "no table was chosen" in newcomer.post("/begin/table", {}).text


def ended(visitor: Visitor, key: str) -> str:
    """The page of the lists once the job of that kind has ended."""
    job = visitor.keeping.works.find(key)
    assert job is not None
    assert job.wait(60)
    return visitor.get("/lists").text


def test_a_list_is_added_beside_the_page(visitor: Visitor) -> None:
    rows = b'name,authorship,status\nBrachypelma smithi,"(F. O. Pickard-Cambridge, 1897)",accepted\n'
    fields = {"file": (io.BytesIO(rows), "own.csv"), "key": "own", "edition": "2026", "licence": "CC0-1.0"}
    assert visitor.post("/lists/add", fields).location == "/lists"
    shown = ended(visitor, "list")
    assert "own 2026: 1 name is here now." in shown
    assert "CC0-1.0" in shown
    assert "own" in {edition.source for edition in visitor.keeping.view().report.editions}


def test_what_is_no_list_is_told(visitor: Visitor) -> None:
    assert "no file was chosen" in visitor.post("/lists/add", {"key": "own"}).text
    fields = {"file": (io.BytesIO(b"x"), "own.csv")}
    assert "no short name" in visitor.post("/lists/add", fields).text
    visitor.post("/lists/add", {"file": (io.BytesIO(b"\x00"), "own.csv"), "key": "own"})
    assert "Adding the list own:" in ended(visitor, "list")
    assert visitor.post("/lists/use", {"edition": "own@1"}).status_code == 400


def test_services_that_cannot_be_asked_are_told(visitor: Visitor) -> None:
    visitor.post("/lists/ask")
    assert "Not every service answered." in ended(visitor, "services")


def test_long_work_tells_how_far_it_is_and_stops_within_two_seconds(outside: Outside) -> None:
    works, begun = Works(outside), threading.Event()

    def endless(world: Outside) -> None:
        with world.progress(Work.ASKING) as step:
            for number in range(10_000):
                step(number, 10_000, "gbif")
                begun.set()
                world.pause(0.05)

    job = works.start("services", "Asking", endless)
    assert begun.wait(5)
    assert works.start("services", "Asking", endless) is job  # one of a kind at a time
    assert (job.running, job.total, job.note) == (True, 10_000, "asking gbif")
    start = time.monotonic()
    job.stop()
    assert job.wait(2)
    assert time.monotonic() - start < 2  # seconds
    assert job.stopped.startswith("stopped while asking")
    assert works.take("services") is job
    assert works.take("services") is None


def test_a_job_that_fails_is_told_and_ended(outside: Outside) -> None:
    def fails(_world: Outside) -> None:
        raise InputError("no such list")

    job = Works(outside).start("list", "Adding", fails)
    assert job.wait(5)
    assert job.fault is not None
    assert not job.running


def test_every_page_shows_what_goes_on(visitor: Visitor) -> None:
    let_go = threading.Event()

    def waits(world: Outside) -> None:
        with world.progress(Work.ADDING) as step:
            step(3, 10)
            let_go.wait(30)

    job = visitor.keeping.works.start("list", "Adding a list", waits)
    try:
        for path in ("/lookup", "/animals", "/lists", "/works"):
            assert re.search(r"Adding a list</span>\s*<span aria-hidden=\"true\">3 of 10", visitor.get(path).text), path
        assert visitor.post("/stop/list").status_code == 303
        assert job.stopping
    finally:
        let_go.set()
    assert job.wait(5)
    assert "Adding a list" not in visitor.get("/works").text


def test_a_check_that_takes_long_shows_how_far_it_is(visitor: Visitor) -> None:
    visitor.keeping.patience = 0.0
    answer = visitor.get("/animals")
    if "Comparing names" in answer.text:  # else it was ready at once
        assert 'http-equiv="refresh"' in answer.text
    job = visitor.keeping.works.find("names")
    assert job is not None
    assert job.wait(60)
    assert "56 animals" in visitor.get("/animals").text


def test_what_was_done_is_not_told_on_a_page_that_is_gone_in_a_second(visitor: Visitor, animals: Path) -> None:
    shown = visitor.get("/animal/HW-001").text
    revision = re.findall(r'name="revision" value="([^"]+)"', shown)[0]
    fields = dict(re.findall(r'id="f-(\w+)" name="\w+" value="([^"]*)"', shown))
    assert visitor.post("/animal/HW-001/facts", {**fields, "place": "loft", "revision": revision}).status_code == 303
    (animals / "specimens" / "HW-002.yaml").touch()
    let_go = threading.Event()
    visitor.keeping.works.start("names", "Comparing names", lambda _outside: let_go.wait(60))
    visitor.keeping.patience = 0.0
    try:
        waiting = visitor.get("/animals")
        assert 'http-equiv="refresh"' in waiting.text
        assert "HW-001: place written" not in waiting.text
    finally:
        let_go.set()
    visitor.keeping.patience = 60.0
    assert "HW-001: place written" in visitor.get("/animals").text


def test_services_are_asked_about_tags_beside_the_page(visitor: Visitor) -> None:
    text = visitor.get("/lookup?tags=Nobodys strange beast&ask=services").text
    assert "could not be asked" in text
    assert not visitor.keeping.works.running()
    visitor.keeping.patience = 0.0
    answer = visitor.get("/lookup?tags=Nobodys strange beast&ask=services")
    assert "could not be asked" in answer.text or 'http-equiv="refresh"' in answer.text
