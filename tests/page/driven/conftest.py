"""A browser, a server of the page, and the keeper at it."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from namekeeper.faces.page.server import PageServer
from namekeeper.faces.page.sheets import SheetMaker
from tests.conftest import world

CHROMIUM = shutil.which("chromium")
#: What a browser asks of its maker's servers by itself has no place in a test.
_QUIET = ["--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-first-run"]
#: Chromium's sandbox needs another user than root.
_AS_ROOT = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
Opened = Callable[..., AbstractContextManager[Page]]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Chromium as the system has it."""
    if CHROMIUM is None:
        pytest.skip("driven tests need a browser: apt-get install chromium (Debian)")
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=CHROMIUM, args=[*_QUIET, *_AS_ROOT])
        yield running
        running.close()


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
    page, said = context.new_page(), []
    page.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda fault: said.append(str(fault)))
    page.goto(link)
    try:
        yield page
        assert [text for text in said if "Failed to load resource" not in text] == []
    finally:
        context.close()
