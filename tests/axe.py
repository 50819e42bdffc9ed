"""What axe-core finds on a page in a browser: rules of WCAG 2.2 A and AA, and its own good practice."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from axe_playwright_python.base import AXE_SCRIPT
from playwright.sync_api import Page

#: A colour scheme changes colours and nothing else: these are the rules that look at them.
COLOURS = ("color-contrast", "link-in-text-block")


def axe(page: Page, rules: Sequence[str] = ()) -> dict[str, Any]:
    """The page as it is shown now, by these rules or by all; ``violations`` and what is ``incomplete``."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE_SCRIPT)
    wish: dict[str, object] = {"resultTypes": ["violations", "incomplete"]}
    found: dict[str, Any] = page.evaluate(
        "wish => axe.run(document, wish)", wish | ({"runOnly": list(rules)} if rules else {})
    )
    assert found["testEngine"]["name"] == "axe-core"
    return found
