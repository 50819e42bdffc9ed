"""A browser, a server of the page, and the keeper at it."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from namekeeper.faces.page.server import PageServer
from namekeeper.faces.page.sheet_process import SheetMaker
from tests.conftest import world

Opened = Callable[..., AbstractContextManager[Page]]
_PATIENCE = 120_000  # ms; a busy machine is slow, and not wrong


@contextmanager
def serving(
    outside_of: Path, home: Path, maker: SheetMaker, collection: Path | None
) -> Iterator[tuple[PageServer, str]]:
    """A server in a thread of its own, and its start link."""
    server, links, said = PageServer(world(outside_of, home)), [], threading.Event()
    server.keeping.sheets, server.keeping.patience = maker, 60.0
    if collection is not None:
        server.keeping.open(collection)

    def ready(link: str) -> None:
        links.append(link)
        said.set()

    thread = threading.Thread(target=server.serve, args=(ready,))
    thread.start()
    assert said.wait(30)
    try:
        yield server, links[0]
    finally:
        server.end()
        thread.join(30)
        assert not thread.is_alive()


@pytest.fixture
def served(animals: Path, tmp_path: Path, home: Path, maker: SheetMaker) -> Iterator[tuple[PageServer, str]]:
    """A server with the sample collection."""
    with serving(tmp_path, home, maker, animals) as running:
        yield running


@pytest.fixture
def keeper(browser: Browser, served: tuple[PageServer, str]) -> Iterator[Page]:
    """The keeper, who came in by the start link, at a wide screen."""
    with came_in(browser, served[1]) as page:
        yield page


@contextmanager
def came_in(browser: Browser, link: str, **wishes: object) -> Iterator[Page]:
    """A window of a browser of its own that opened the start link; what its console says must be nothing."""
    context: BrowserContext = browser.new_context(**{"viewport": {"width": 1280, "height": 900}, **wishes})  # type: ignore[arg-type]
    context.set_default_timeout(_PATIENCE)
    page, said = context.new_page(), []
    page.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda fault: said.append(str(fault)))
    page.goto(link)
    try:
        yield page
        assert [text for text in said if "Failed to load resource" not in text] == []
    finally:
        context.close()


def press(page: Page, key: str) -> None:
    """A key on a page that is whole: its script listens only then."""
    page.wait_for_load_state("load")
    page.keyboard.press(key)
