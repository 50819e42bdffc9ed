"""A check that asks name services in every mood, while everything else goes on; what it must tell of each."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from types import MappingProxyType

from tests.services.local_server import LocalServer
from tests.soak.commands import Ended, Fate, Running
from tests.soak.decks import Deck
from tests.soak.services import MOODS, addresses

_SERVICES = ("gbif", "checklistbank", "inaturalist")
_LETTERS = "abcdefghiklmnoprstuv"
#: Seconds for two attempts that run out of time, on a busy machine.
_PATIENCE = 80.0
#: Mood -> what is told of the service; the label is then not judged. Any other mood gives an answer.
_COULD_NOT = MappingProxyType(
    {
        "silent": "did not answer in time",
        "dripping": "did not answer in time",
        "flooding": "larger than 6 MB",
        "broken": "HTTP ",
        "refusing": "HTTP 403",
        "limiting": "HTTP 429",
        "garbage": "cannot be read",
        "another type": "another shape",
        "lying": "it is about Grammostola rosea",
    }
)
_ACCEPTED = frozenset({"accepting", "slow", "busy once"})


@dataclass
class Asker:
    """One collection of one animal of a name that no list has, checked with one service after the other."""

    root: Path
    environ: dict[str, str]
    server: LocalServer
    random: Random
    moods: Deck[str] = field(init=False)
    mood: str = ""
    name: str = ""
    running: Running | None = None

    def __post_init__(self) -> None:
        self.moods = Deck(MOODS, self.random)
        self.folder = self.root / "asked"
        (self.folder / "specimens").mkdir(parents=True)

    def begin(self) -> None:
        """The next mood, under a name that was never asked before: nothing is kept of it."""
        self.mood = self.moods.draw()
        self.name = "Nohapelma " + "".join(self.random.choices(_LETTERS, k=12)) + "us"
        (self.folder / "specimens" / "A.yaml").write_text(f"names:\n- name: {self.name}\n", encoding="utf-8")
        words = ("check", "asked", "--services", self.random.choice(_SERVICES), "--json")
        environ = self.environ | addresses(self.server, self.mood)
        self.running = Running.start(words, self.folder, environ, Fate.ALONE, patience=_PATIENCE)

    def judged(self, ended: Ended) -> str:
        """What is counted.

        :raises AssertionError: if the check says anything else than what there is to say.
        """
        told = f"{self.mood}: {ended.whole}"
        row = json.loads(ended.out)["results"][0]
        assert row["proposed"] is None, told
        if self.mood in _COULD_NOT:
            assert (ended.code, row["standing"]) == (3, "unasked"), told
            assert _COULD_NOT[self.mood] in f"{row['statements']}{ended.err}", told
        elif self.mood in _ACCEPTED:
            assert (ended.code, row["standing"]) == (0, "current"), told
        else:
            assert ended.code in (0, 1), told
        return f"asked of a service that is {self.mood}: told as it is"
