"""One pocket file for all tests here: it takes half a minute to make, and is made by a process of its own."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from namekeeper.outside import Outside
from namekeeper.sources.lists.registry import open_lists, starter
from namekeeper.tasks.lookup import Looked, look_up
from namekeeper.tasks.pocket import Pocket
from tests.conftest import world
from tests.pocket.making import PAGE, made_elsewhere, make


@dataclass(frozen=True)
class Made:
    """The pocket, the world it was made in, and the file."""

    pocket: Pocket
    outside: Outside
    file: Path

    def looked_up(self, tags: list[str]) -> list[Looked]:
        """What the command answers, offline."""
        with open_lists(self.outside.places, self.outside.notice) as lists:
            return list(look_up(tags, lists))

    def names(self) -> tuple[list[str], list[str]]:
        """Scientific and common names of the starter list."""
        own = starter(self.outside.places, self.outside.notice)
        try:
            return list(own.whole().every_name()), list(own.whole().every_common())
        finally:
            own.close()


#: Enough for what is looked at in a small file.
_FEW = ("Caribena versicolor", "Avicularia versicolor", "Brachypelma smithi", "Theraphosa blondi", "mex red knee")


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Made:
    """With the animals of the sample collection, and nothing of them but what always goes along."""
    folder = tmp_path_factory.mktemp("pocket")
    return Made(made_elsewhere(folder), world(folder, folder / "home"), folder / PAGE)


@pytest.fixture(scope="session")
def small(tmp_path_factory: pytest.TempPathFactory) -> Made:
    """The same with a few words: how the file looks and behaves does not hang on how many there are."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("namekeeper.tasks.pocket.written_words", lambda _whole: iter(_FEW))
        folder = tmp_path_factory.mktemp("small-pocket")
        return Made(make(folder), world(folder, folder / "home"), folder / PAGE)


@pytest.fixture(scope="session")
def page(made: Made, browser: Browser) -> Iterator[Page]:
    """The file, open on a phone; a message of the browser's console is a fault."""
    yield from _opened(made, browser)


@pytest.fixture(scope="session")
def small_page(small: Made, browser: Browser) -> Iterator[Page]:
    """The small file, likewise."""
    yield from _opened(small, browser)


def _opened(made: Made, browser: Browser) -> Iterator[Page]:
    said: list[str] = []
    with closing(browser.new_page(viewport={"width": 390, "height": 844}, color_scheme="light")) as opened:
        opened.on("console", lambda message: said.append(message.text))
        opened.on("pageerror", lambda error: said.append(str(error)))
        opened.goto(made.file.as_uri())
        yield opened
    assert not said
