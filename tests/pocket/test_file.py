"""The file itself: its size, what of a collection is in it, how it looks and behaves on a phone."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from namekeeper.faces.telling.pocket import pocket_page
from namekeeper.records.specimen import Collection, Left, NameEntry, Settings, Specimen
from namekeeper.tasks.pocket import OwnAnimal, fill_pocket, own_animals
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError, Place
from tests.axe import COLOURS, axe
from tests.conftest import Outcome
from tests.pocket.conftest import Made


def _animal() -> Specimen:
    names = (NameEntry("Brachypelma vagans"), NameEntry("Tliltocatl vagans", standing="moved"))
    return Specimen(
        "HW-1", Place("x"), tag="red rump from a friend", origin=("Hanna's Shed",), price="£30", stands_at="cellar",
        note="bites", names=names,
    )  # fmt: skip


def test_only_number_and_names_leave_the_house() -> None:
    collection = Collection("x", Settings(), (_animal(),), ())
    assert list(own_animals(collection, ())) == [OwnAnimal("HW-1", "Tliltocatl vagans", ("Brachypelma vagans",), {})]
    (told,) = own_animals(collection, ("place", "note", "from"))
    assert told.more == {"place": "cellar", "note": "bites", "from": "Hanna's Shed"}


def test_an_animal_that_left_stays_out() -> None:
    gone = Specimen("HW-2", Place("x"), tag="gone", left=Left(PartialDate.parse("2024"), "sold"))
    assert list(own_animals(Collection("x", Settings(), (gone,), ()), ())) == []


def test_a_fact_that_cannot_go_along_is_refused(small: Made) -> None:
    with pytest.raises(InputError, match="'wings' is no fact"):
        fill_pocket(small.outside, None, ("wings",))


def test_a_folder_that_is_not_there(command: Callable[..., Outcome], tmp_path: Path) -> None:
    outcome = command("pocket", "nowhere", "-o", "p.html")
    assert (outcome.code, "no such folder" in outcome.err) == (2, True)
    assert not (tmp_path / "p.html").exists()


def test_nothing_is_fetched_sent_or_kept(small: Made) -> None:
    text = small.file.read_text(encoding="utf-8")
    assert "default-src 'none'" in text
    assert not [
        word
        for word in ("fetch(", "XMLHttpRequest", "localStorage", "indexedDB", "http://", "sendBeacon")
        if word in text
    ]
    assert "Hanna" not in text


def test_a_number_a_name_and_a_tag_are_answered(small_page: Page) -> None:
    small_page.fill("#tag", "hw-011")
    small_page.get_by_role("button", name="Look up").click()
    assert "Caribena versicolor" in small_page.inner_text("#mine")
    assert small_page.inner_text("#candidates") == ""
    small_page.fill("#tag", "Avicularia versicolor")
    small_page.get_by_role("button", name="Look up").click()
    assert "HW-011" in small_page.inner_text("#candidates")
    small_page.fill("#tag", "wqxkj vbnmq")
    small_page.get_by_role("button", name="Look up").click()
    assert small_page.inner_text("#answer") == "Not in this file; that proves nothing."
    small_page.get_by_role("button", name="Clear").click()
    assert small_page.input_value("#tag") == small_page.inner_text("#answer") == ""


def test_what_is_typed_and_what_is_stored_is_text(small: Made, browser: Browser, tmp_path: Path) -> None:
    evil = '<img src=x onerror="document.title=1">'
    file = tmp_path / "evil.html"
    animal = OwnAnimal(
        "HW-666", f"Brachypelma {evil}</script><script>document.title=1</script>", (evil,), {"note": evil}
    )
    file.write_text(pocket_page(small.pocket._replace(animals=(animal,))), encoding="utf-8")
    with closing(browser.new_page()) as opened:
        opened.goto(file.as_uri())
        for typed in ("HW-666", evil, f"Brachypelma smithi {evil}"):
            opened.fill("#tag", typed)
            opened.get_by_role("button", name="Look up").click()
            assert opened.title() == "Namekeeper for the pocket"
        opened.fill("#tag", "HW-666")
        opened.get_by_role("button", name="Look up").click()
        assert evil in opened.inner_text("#mine")


def test_accessible(small: Made, browser: Browser) -> None:
    """No finding of axe-core at 390 px, empty and with answers open, light and dark."""
    with closing(browser.new_page(viewport={"width": 390, "height": 844}, color_scheme="light")) as opened:
        opened.goto(small.file.as_uri())
        for typed in ("", "mex red knee (B. smithi)", "Theraphosa blondi", "HW-011"):
            opened.fill("#tag", typed)
            opened.get_by_role("button", name="Look up").click()
            opened.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")
            opened.emulate_media(color_scheme="light")
            assert axe(opened)["violations"] == []
            opened.emulate_media(color_scheme="dark")
            assert axe(opened, COLOURS)["violations"] == []
