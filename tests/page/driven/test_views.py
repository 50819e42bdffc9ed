"""Every view for everybody: axe-core finds nothing (WCAG 2.2 A and AA), and nothing is wider than the screen."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

import pytest
from playwright.sync_api import Browser, Page

from namekeeper.faces.page.server import PageServer
from tests.axe import COLOURS, axe
from tests.page.driven.conftest import came_in

VIEWS = (
    "/animals",
    "/animals?q=nothing+like+it",
    "/animal/HW-011",
    "/decide/HW-001",
    "/decide/HW-002",
    "/lookup",
    "/lookup?tags=Mex+red+knee+(B.+smithi)%0AGBB",
    "/name?name=Caribena+versicolor",
    "/labels?which=all&used=1&used=2",
    "/labels?which=choose&only=HW-010&copies=many",
    "/lists",
    "/begin",
    "/begin/animals",
    "/animal/NO-1",
)
#: Looked at by eye: axe cannot reckon the contrast of letters in a drawing, nor over a picture or stripes. The names
#: over the years stand on the card, the words on a used place on a plain patch of their own.
LOOKED_AT = {"color-contrast": ("/labels", "/animal/")}


WIDTHS, SCHEMES = (390, 1280), ("light", "dark")


def faults_of(page: Page, view: str, rules: Sequence[str] = ()) -> list[str]:
    """What is wrong with the page as it is shown now, by these rules or by all."""
    result = axe(page, rules)
    faults = [f"{one['id']}: {node['html'][:120]}" for one in result["violations"] for node in one["nodes"]]
    faults += [
        f"not looked at: {one['id']}: {node['html'][:120]}"
        for one in result["incomplete"]
        if not view.startswith(LOOKED_AT.get(one["id"], ()))
        for node in one["nodes"]
    ]
    if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
        faults.append("wider than the screen")
    return faults


@pytest.mark.no_cover
def test_every_view_can_be_used_by_everybody(browser: Browser, served: tuple[PageServer, str]) -> None:
    """Each view is opened once, and then shown wide and narrow, light and dark."""
    found: dict[tuple[str, int, str], list[str]] = {}
    with came_in(browser, served[1]) as page:
        for view in VIEWS:
            page.goto(f"http://{served[0].guard.host}{view}")
            for width, scheme in product(WIDTHS, SCHEMES):
                page.set_viewport_size({"width": width, "height": 900})
                page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
                found[view, width, scheme] = faults_of(page, view, COLOURS if scheme == "dark" else ())
    assert len(found) == 4 * len(VIEWS)
    assert {shown: faults for shown, faults in found.items() if faults} == {}


@pytest.mark.long
@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("width", WIDTHS)
def test_every_view_by_every_rule(width: int, scheme: str, browser: Browser, served: tuple[PageServer, str]) -> None:
    """Opened anew for every width and scheme."""
    found: dict[str, list[str]] = {}
    with came_in(browser, served[1], viewport={"width": width, "height": 900}, color_scheme=scheme) as page:
        for view in VIEWS:
            page.goto(f"http://{served[0].guard.host}{view}")
            found[view] = faults_of(page, view)
    assert {view: faults for view, faults in found.items() if faults} == {}
