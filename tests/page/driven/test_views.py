"""Every view for everybody: axe-core finds nothing (WCAG 2.2 A and AA), and nothing is wider than the screen."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser

from namekeeper.faces.page.server import PageServer
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


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_every_view_can_be_used_by_everybody(
    width: int, scheme: str, browser: Browser, served: tuple[PageServer, str]
) -> None:
    found: dict[str, list[str]] = {}
    with came_in(browser, served[1], viewport={"width": width, "height": 900}, color_scheme=scheme) as page:
        home = f"http://{served[0].guard.host}"
        for view in VIEWS:
            page.goto(home + view)
            result = Axe().run(page).response
            faults = [f"{one['id']}: {node['html'][:120]}" for one in result["violations"] for node in one["nodes"]]
            faults += [
                f"not looked at: {one['id']}: {node['html'][:120]}"
                for one in result["incomplete"]
                if not view.startswith(LOOKED_AT.get(one["id"], ()))
                for node in one["nodes"]
            ]
            if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
                faults.append("wider than the screen")
            if faults:
                found[view] = faults
    assert found == {}
