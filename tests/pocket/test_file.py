"""The file itself: its size, what of a collection is in it, how it looks and behaves on a phone."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from namekeeper.faces.telling.pocket import pocket_page
from namekeeper.records.specimen import Collection, Left, NameEntry, Settings, Specimen
from namekeeper.tasks.pocket import OwnAnimal, fill_pocket, own_animals
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError, Place
from tests.conftest import Outcome
from tests.pocket.conftest import Made

pytestmark = pytest.mark.xdist_group("pocket")


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


def test_a_fact_that_cannot_go_along_is_refused(made: Made) -> None:
    with pytest.raises(InputError, match="'wings' is no fact"):
        fill_pocket(made.outside, None, ("wings",))


def test_a_thousand_animals_take_less_than_a_megabyte(made: Made) -> None:
    """Names of 1,000 distinct species, each with a former one: invented animals, real names."""
    names = [name for name, card in made.pocket.cards.items() if card.taxon.rank == "species"][:1000]
    animals = tuple(OwnAnimal(f"HW-{n:04}", name, (names[-n],), {}) for n, name in enumerate(names))
    page = pocket_page(made.pocket._replace(animals=animals))
    assert len(animals) == 1000
    assert len(page.encode()) <= 1_000_000


def test_a_folder_that_is_not_there(command: Callable[..., Outcome], tmp_path: Path) -> None:
    outcome = command("pocket", "nowhere", "-o", "p.html")
    assert (outcome.code, "no such folder" in outcome.err) == (2, True)
    assert not (tmp_path / "p.html").exists()


def test_nothing_is_fetched_sent_or_kept(made: Made) -> None:
    text = made.file.read_text(encoding="utf-8")
    assert "default-src 'none'" in text
    assert not [
        word
        for word in ("fetch(", "XMLHttpRequest", "localStorage", "indexedDB", "http://", "sendBeacon")
        if word in text
    ]
    assert "Hanna" not in text


def test_a_number_a_name_and_a_tag_are_answered(page: Page) -> None:
    page.fill("#tag", "hw-011")
    page.get_by_role("button", name="Look up").click()
    assert "Caribena versicolor" in page.inner_text("#mine")
    assert page.inner_text("#candidates") == ""
    page.fill("#tag", "Avicularia versicolor")
    page.get_by_role("button", name="Look up").click()
    assert "HW-011" in page.inner_text("#candidates")
    page.fill("#tag", "wqxkj vbnmq")
    page.get_by_role("button", name="Look up").click()
    assert page.inner_text("#answer") == "Not in this file; that proves nothing."
    page.get_by_role("button", name="Clear").click()
    assert page.input_value("#tag") == page.inner_text("#answer") == ""


def test_what_is_typed_and_what_is_stored_is_text(made: Made, browser: Browser, tmp_path: Path) -> None:
    evil = '<img src=x onerror="document.title=1">'
    file = tmp_path / "evil.html"
    animal = OwnAnimal(
        "HW-666", f"Brachypelma {evil}</script><script>document.title=1</script>", (evil,), {"note": evil}
    )
    file.write_text(pocket_page(made.pocket._replace(animals=(animal,))), encoding="utf-8")
    with closing(browser.new_page()) as opened:
        opened.goto(file.as_uri())
        for typed in ("HW-666", evil, f"Brachypelma smithi {evil}"):
            opened.fill("#tag", typed)
            opened.get_by_role("button", name="Look up").click()
            assert opened.title() == "Namekeeper for the pocket"
        opened.fill("#tag", "HW-666")
        opened.get_by_role("button", name="Look up").click()
        assert evil in opened.inner_text("#mine")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_accessible(made: Made, browser: Browser, scheme: str) -> None:
    """No finding of axe-core (rules of WCAG 2.2) at 390 px, empty and with answers open."""
    with closing(
        browser.new_page(viewport={"width": 390, "height": 844}, color_scheme="dark" if scheme == "dark" else "light")
    ) as opened:
        opened.goto(made.file.as_uri())
        for typed in ("", "mex red knee (B. smithi)", "Theraphosa blondi", "HW-011"):
            opened.fill("#tag", typed)
            opened.get_by_role("button", name="Look up").click()
            opened.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")
            assert Axe().run(opened).response["violations"] == []
