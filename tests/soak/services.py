"""Name services in every mood: well, slow, silent, lying, broken, asking for patience, and back again.

The mood stands in the address (``/silent/gbif/...``), so that several users may meet several at once; under
``/changing/`` it is the one that was set last.
"""

from __future__ import annotations

import json
import time
from dataclasses import replace
from random import Random

from tests.services.local_server import Asked, Canned, LocalServer, drip, flood, silence
from tests.services.local_services import accepting, everywhere, service_of, well

CHANGING = "changing"
MOODS = (
    "well", "accepting", "slow", "silent", "dripping", "flooding", "broken", "refusing", "limiting", "busy once",
    "garbage", "another type", "lying",
)  # fmt: skip
_GARBAGE = (b"", b"{", b"<html>sorry</html>", b"[" * 5000, b"\xff\xfe\x00", b'{"usage": NaN}')
#: JSON, and nothing that any service would send.
_ANOTHER_TYPE = (
    b"null",
    b"5",
    b'"yes"',
    b'{"usage": {"name": 5}, "results": 7}',
    b'[{"usage": []}]',
    b'{"results": {}}',
)
_SLOW_SECONDS = 3.0
_JSON = {"Content-Type": "application/json"}


class Moody:
    """Answers by the mood that is asked for; ``met`` counts the answers that were given in each."""

    def __init__(self, random: Random) -> None:
        self.random = random
        self.mood = "well"
        self.met: dict[str, int] = {}
        self._asked_before: set[str] = set()

    def __call__(self, asked: Asked) -> Canned:
        _, told, path = asked.path.split("/", 2)
        mood = self.mood if told == CHANGING else told.replace("-", " ")
        self.met[mood] = self.met.get(mood, 0) + 1
        return self._answer(mood, replace(asked, path=f"/{path}"))

    def _answer(self, mood: str, asked: Asked) -> Canned:
        match mood:
            case "silent":
                return Canned(status=0, manner=silence)
            case "dripping":
                return Canned(headers=_JSON, manner=drip)
            case "flooding":
                return Canned(headers=_JSON, manner=flood)
            case "broken":
                return Canned(status=self.random.choice((500, 503, 404, 302)), body=b"sorry")
            case "refusing":
                return Canned(status=403, body=b"no")
            case "limiting":
                return Canned(status=429, body=b"later", headers={"Retry-After": "3600"})
            case "garbage":
                return Canned(body=self.random.choice(_GARBAGE), headers=_JSON)
            case "another type":
                return Canned(body=self.random.choice(_ANOTHER_TYPE), headers=_JSON)
            case "lying":
                return _about_another(asked)
            case "busy once" if self._is_first(asked):
                return Canned(status=429, body=b"later", headers={"Retry-After": "1"})
            case "slow":
                time.sleep(_SLOW_SECONDS)
            case "well":
                return well(asked)
        return accepting(asked)

    def _is_first(self, asked: Asked) -> bool:
        question = f"{asked.path} {json.dumps(dict(asked.query))}"
        first = question not in self._asked_before
        self._asked_before.add(question)
        return first


def addresses(server: LocalServer, mood: str) -> dict[str, str]:
    """The environment that sends every service to the server in this mood."""
    before, after = server.base, f"{server.base}/{mood.replace(' ', '-')}"
    return {variable: address.replace(before, after, 1) for variable, address in everywhere(server).items()}


def _about_another(asked: Asked) -> Canned:
    """A right reply, to another question: every name asked becomes one name."""
    _, within = service_of(asked)
    query = {key: "Grammostola rosea" if "ame" in key or key == "q" else value for key, value in asked.query.items()}
    return accepting(Asked(asked.method, asked.path, query, within.body, asked.headers))
