"""Labels on the page: the sheet as it prints, and what is remembered of it once the keeper says that it came out."""

from __future__ import annotations

import os
import re
import signal
from collections.abc import Mapping
from html import unescape
from pathlib import Path

import pytest

from namekeeper.faces.page.sheet_process import BEAT, GRACE
from namekeeper.faces.page.sheets import SheetWish
from namekeeper.labels.preview import page_png
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.labels import LabelDesk
from tests.page.conftest import Visitor


def printed(visitor: Visitor, fields: Mapping[str, object]) -> tuple[str, bytes]:
    """The address of a run and its PDF."""
    answer = visitor.post("/labels", fields)
    assert answer.status_code == 303, answer.text
    return answer.location, visitor.get(f"{answer.location}/labels.pdf").data


def decisions(animals: Path) -> int:
    return sum(path.read_text().count("kind: printed") for path in (animals / "specimens").iterdir())


def test_the_picture_is_the_page_that_prints(visitor: Visitor) -> None:
    _, pdf = printed(visitor, {"which": "all", "used": ["1", "2", "5"]})
    for page in (1, 2, 3):
        answer = visitor.get(f"/labels/sheet.png?which=all&used=1&used=2&used=5&page={page}")
        assert answer.mimetype == "image/png"
        assert answer.data == page_png(pdf, page, 100, 12)
        assert len(answer.data) <= 100_000  # bytes, so that a sheet comes at once


def test_the_page_tells_what_the_plan_comes_to(visitor: Visitor) -> None:
    desk = LabelDesk.open(visitor.keeping.in_view().desk)
    plan = desk.plan(desk.workshop(), Choices(used="1-2,5"))
    text = visitor.get("/labels?which=all&used=1&used=2&used=5").text
    assert f"{len(plan.placed)} labels on {plan.pages} sheets." in text
    assert "3 places are marked as used.</strong> The first label goes to place 3." in text
    assert f"Sheet 1 of {plan.pages}" in text
    assert text.count('name="used"') == plan.sheet.places
    assert text.count('name="used" value="5" checked') == 1


def test_labels_to_print_are_chosen_at_first(visitor: Visitor) -> None:
    text = visitor.get("/labels").text
    due = len(visitor.keeping.view().due)
    assert re.search(r'name="which" value="due" checked', text)
    assert f"Only the {due} whose label is to be printed" in text
    one = visitor.get("/labels?only=HW-010").text
    assert "1 label on 1 sheet." in one
    assert 'value="HW-010" checked' in one


def test_the_places_lie_where_the_sheet_has_them(visitor: Visitor) -> None:
    style = visitor.get("/labels/places.css?sheet=a4-3x8-70x37")
    assert style.mimetype == "text/css"
    # Three columns of 70 mm across 210 mm, eight rows of 37 mm down 297 mm: the figures in the sheet's own name.
    assert ".paper{aspect-ratio:210.00/297.00}" in style.text
    assert (
        f".p24{{left:66.667%;top:{100 * (0.5 + 7 * 37) / 297:.3f}%;width:33.333%;height:{100 * 37 / 297:.3f}%}}"
        in style.text
    )
    assert visitor.get("/labels/places.css?sheet=../..").text == style.text  # the collection's own sheet


def test_a_run_is_remembered_only_when_it_came_out(visitor: Visitor, animals: Path) -> None:
    before = decisions(animals)
    run, _ = printed(visitor, {"which": "choose", "only": ["HW-010", "HW-011"]})
    assert "Did it come out well?" in visitor.get(run).text
    assert decisions(animals) == before
    shown = visitor.follow(visitor.post(run, {"came": "yes"}))
    assert "2 labels remembered as printed." in shown
    assert decisions(animals) == before + 2
    assert visitor.get(run).status_code == 404
    seen = re.findall(r'name="seen" value="(\S+ [0-9a-f]+)"', shown)
    assert "2 labels count as not printed." in visitor.follow(visitor.post("/undo", {"seen": seen, "what": "print"}))


def test_a_run_that_came_out_badly_is_forgotten(visitor: Visitor, animals: Path) -> None:
    before = decisions(animals)
    run, _ = printed(visitor, {"which": "choose", "only": "HW-010"})
    assert "Nothing is remembered of that sheet" in visitor.follow(visitor.post(run, {"came": "no"}))
    assert decisions(animals) == before
    assert visitor.get(f"{run}/labels.pdf").status_code == 404


def test_an_animal_that_changed_since_is_told_and_not_remembered(visitor: Visitor, animals: Path) -> None:
    run, _ = printed(visitor, {"which": "choose", "only": ["HW-010", "HW-011"]})
    file = animals / "specimens" / "HW-010.yaml"
    file.write_text(re.sub(r"place: .*", "place: window sill", file.read_text()))
    shown = visitor.follow(visitor.post(run, {"came": "yes"}))
    assert "1 label remembered as printed." in shown
    assert "HW-010: not written: its file was changed meanwhile (place)" in shown


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ("which=all&sheet=no-such", "no-such"),
        ("which=all&template=../../etc", "etc"),
        ("which=all&copies=0", "no number of copies"),
        ("which=all&copies=many", "no number of copies"),
        ("which=all&order=colour", "no such order"),
        ("which=choose&only=NO-1", "there is no animal"),
        ("which=all&used=99", "names no places"),
    ],
)
def test_what_cannot_be_printed_is_told(fields: str, told: str, visitor: Visitor) -> None:
    answer = visitor.get(f"/labels?{fields}")
    assert answer.status_code == 200
    assert 'role="alert"' in answer.text
    assert told in answer.text
    assert visitor.get(f"/labels/sheet.png?{fields}").status_code == 400


def test_nothing_chosen_prints_nothing(visitor: Visitor) -> None:
    answer = visitor.post("/labels", {"which": "choose"})
    assert answer.status_code == 400
    assert "no animal was chosen" in answer.text


def test_a_drawer_that_died_is_begun_anew(visitor: Visitor) -> None:
    maker = visitor.keeping.sheets
    assert visitor.get("/labels/sheet.png?only=HW-010").status_code == 200
    running = maker._running
    assert running is not None
    running.process.kill()
    running.process.join()
    assert visitor.get("/labels/sheet.png?only=HW-010").status_code == 200
    assert maker._running is not running


def test_many_labels_are_told_and_stopped_within_two_seconds(visitor: Visitor) -> None:
    keep, wish = visitor.keeping, wish_of(visitor)
    keep.sheets.plan(wish._replace(choices=Choices(only=("HW-010",))), keep.outside)  # the process is there
    job = keep.works.start("plan", "Fitting the labels", lambda outside: keep.sheets.plan(wish, outside))
    while job.running and not (job.total and job.done > 3):
        assert not job.wait(0.005)
    assert job.total == 56
    job.stop()
    assert job.wait(30)
    assert GRACE + 2 * BEAT < 2  # seconds, on a machine that does nothing else
    assert re.fullmatch(r"stopped while \w+ .*after \d+ of 56: no label was drawn", job.stopped)
    assert len(keep.sheets.plan(wish, keep.outside).placed) > 50  # and the process goes on


def wish_of(visitor: Visitor) -> SheetWish:
    """All labels of the sample collection."""
    keep = visitor.keeping
    watch, environ = keep.in_view(), tuple(sorted(keep.outside.environ.items()))
    return SheetWish(str(watch.desk.folder), environ, "any", Choices())


@pytest.mark.skipif(not hasattr(signal, "SIGSTOP"), reason="no process can be made to stand still here")
def test_a_process_that_comes_to_no_step_is_ended(visitor: Visitor) -> None:
    keep, wish = visitor.keeping, wish_of(visitor)
    keep.sheets.plan(wish._replace(choices=Choices(only=("HW-010",))), keep.outside)
    running = keep.sheets._running
    assert running is not None
    assert running.process.pid is not None
    os.kill(running.process.pid, signal.SIGSTOP)
    job = keep.works.start("plan", "Fitting the labels", lambda outside: keep.sheets.plan(wish, outside))
    job.stop()
    assert job.wait(30)
    assert job.stopped
    assert not running.process.is_alive()


def test_drawing_goes_on_when_the_page_is_left_and_can_be_stopped(visitor: Visitor) -> None:
    visitor.keeping.patience = 0.0
    run = visitor.post("/labels", {"which": "all"}).location
    first = visitor.get(run)
    assert "Drawing the labels" in first.text or "Did it come out well?" in first.text
    (job,) = visitor.keeping.works.running() or (None,)
    assert job is None or job.wait(60)
    assert "Did it come out well?" in visitor.get(run).text
    run = visitor.post("/labels", {"which": "choose", "only": "HW-010", "copies": "20"}).location
    job = visitor.keeping.works.find(f"print-{run.rsplit('/', 1)[1]}")
    if job is not None:
        visitor.post(f"/stop/{job.key}")
        assert job.wait(30)
        told = visitor.get(run).text
        assert ("This was stopped" in told) != ("Did it come out well?" in told)


def test_a_sheet_in_the_drawer_is_gone_on_with(visitor: Visitor) -> None:
    assert "in your drawer" not in visitor.get("/labels").text
    run, _ = printed(visitor, {"which": "choose", "only": ["HW-010", "HW-011"], "used": ["1"]})
    visitor.post(run, {"came": "yes"})
    text = visitor.get("/labels?which=all").text
    assert "with 21 free places should lie in your drawer" in text  # of 24: one was gone, two are now
    link = re.search(r'href="([^"]+)">Go on with it', text)
    assert link is not None
    shown = visitor.get(unescape(link[1])).text
    assert "The first label goes to place 4." in shown
    assert "in your drawer" not in shown
