"""How many names of the sample collection each service speaks on, by servers that answer as their own code does.

``python -m tests.services.measure [CHECKOUT ...]`` measures this checkout, and beside it others (older ones, say).
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory

from namekeeper.words.spelling import ending_key
from tests.services.conftest import SECRET
from tests.services.faithful import faithful
from tests.services.faithful.catalogue import INVENTED, by_stem, usages
from tests.services.local_server import serving
from tests.services.local_services import everywhere

ROOT = Path(__file__).parents[2]
_OUTCOMES = ("speaks", "no end", "hints", "silent", "fails")
# Runs commands in a process of the checkout's own and notes what each adapter made of each name.
_DRIVER = """
import contextlib, io, json, sys
from namekeeper.__main__ import main
from namekeeper.sources.services.service import CommonNameService, NameService
noted = {}

def note(service, name, outcome):
    noted.setdefault(service.profile.key, {})[name] = outcome

def noting_reply(self, name, *more):
    said = reply(self, name, *more)
    ends = [one for one in said.statements if one.targets or one.status in ("doubtful", "unavailable")]
    speaks = "speaks" if ends else "no end" if said.statements else None
    note(self, name, speaks or ("hints" if said.hints else "silent"))
    return said

def noting_failure(self, name, *more):
    note(self, name, "fails")
    return failure(self, name, *more)

def noting_common(self, words):
    said = ask_common(self, words)
    note(self, words, "fails" if hasattr(said, "why") else "speaks" if said else "silent")
    return said

reply, NameService.reply = NameService.reply, noting_reply
failure, NameService.failure = NameService.failure, noting_failure
CommonNameService.failure = noting_failure
ask_common, CommonNameService.ask_common = CommonNameService.ask_common, noting_common
for words in json.loads(sys.stdin.read()):
    sys.argv = ["namekeeper", *words]
    with contextlib.redirect_stdout(io.StringIO()):
        main()
print(json.dumps(noted))
"""


@dataclass
class Heard:
    """What became of the names asked of one service; ``asked`` counts the questions that reached the server."""

    outcomes: dict[str, str] = field(default_factory=dict)
    asked: int = 0

    def count(self, outcome: str) -> int:
        return sum(one == outcome for one in self.outcomes.values())

    @property
    def listed(self) -> list[str]:
        """The names asked that the service lists, in any ending."""
        known = {*INVENTED, *(name for name in self.outcomes if ending_key(name) in by_stem())}
        return [name for name in self.outcomes if name in known]

    @property
    def share(self) -> float:
        """The part of those that it speaks on."""
        return sum(self.outcomes[name] == "speaks" for name in self.listed) / max(1, len(self.listed))


def measure(checkout: Path = ROOT) -> dict[str, Heard]:
    """Checks the sample collection once, with a list of the catalogue's identifiers, and looks up common names."""
    with TemporaryDirectory() as folder, serving(faithful) as server:
        identifiers = Path(folder) / "identifiers.csv"
        rows = [
            f'{one.lsid},{one.name},"{one.authorship}"'
            for one in usages().values()
            if one.is_spider and one.rank != "genus"
        ]
        identifiers.write_text("\n".join(["id,name,authorship", *rows]) + "\n", encoding="utf-8")
        commands = [
            ["lists", "add", str(identifiers), "--as", "export"],
            ["check", str(checkout / "sample_collection"), "--json"],
            ["lookup", "--json", *INVENTED],
        ]
        heard = {key: Heard(own) for key, own in _run(checkout, Path(folder), everywhere(server), commands).items()}
        for asked in server.asked:
            heard.setdefault(asked.path.split("/")[1], Heard()).asked += 1
    return heard


def _run(checkout: Path, home: Path, addresses: dict[str, str], commands: list[list[str]]) -> dict[str, dict[str, str]]:
    environ = os.environ | addresses
    environ |= {"PYTHONPATH": str(checkout), "NAMEKEEPER_HOME": str(home), "NAMEKEEPER_SPIDERCATALOG_KEY": SECRET}
    done = subprocess.run(
        [sys.executable, "-c", _DRIVER],
        input=json.dumps(commands),
        cwd=checkout,
        env=environ,
        capture_output=True,
        text=True,
        check=True,
    )
    noted: dict[str, dict[str, str]] = json.loads(done.stdout.splitlines()[-1])
    return noted


def table(heard: dict[str, Heard]) -> str:
    """One line a service."""
    lines = [f"{'service':<15}{'names':>6}" + "".join(f"{one:>8}" for one in _OUTCOMES) + "  of listed  questions"]
    for key, own in sorted(heard.items()):
        counts = "".join(f"{own.count(one):>8}" for one in _OUTCOMES)
        lines.append(f"{key:<15}{len(own.outcomes):>6}{counts}{own.share:>10.0%}{own.asked:>11}")
    return "\n".join(lines)


def main(arguments: list[str]) -> None:
    for checkout in (*map(Path, arguments), ROOT):
        print(f"{checkout.name}:\n{table(measure(checkout.resolve()))}\n", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
