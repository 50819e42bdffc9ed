"""Name services in every mood: well, accepting all they are asked, silent, dripping, lying, broken, and back again."""

from __future__ import annotations

from random import Random

from tests.services.local_server import Asked, Canned, drip, flood, silence
from tests.services.local_services import accepting, service_of, well

_GARBAGE = (b"", b"{", b"<html>sorry</html>", b"[" * 5000, b'{"usage": {"name": 5}}', b"\xff\xfe\x00", b"null")


class Moody:
    """Answers by the mood that was set last; ``moods`` counts how often each was met."""

    def __init__(self, random: Random) -> None:
        self.random = random
        self.mood = "well"
        self.moods: dict[str, int] = {}

    def __call__(self, asked: Asked) -> Canned:
        self.moods[self.mood] = self.moods.get(self.mood, 0) + 1
        match self.mood:
            case "accepting":
                return accepting(asked)
            case "silent":
                return Canned(status=0, manner=silence)
            case "dripping":
                return Canned(headers={"Content-Type": "application/json"}, manner=drip)
            case "flooding":
                return Canned(headers={"Content-Type": "application/json"}, manner=flood)
            case "broken":
                return Canned(status=self.random.choice((500, 503, 429, 404, 302)), body=b"sorry")
            case "garbage":
                return Canned(body=self.random.choice(_GARBAGE), headers={"Content-Type": "application/json"})
            case "lying":
                return self._about_another(asked)
        return well(asked)

    @staticmethod
    def _about_another(asked: Asked) -> Canned:
        """A right reply, to another question: every name asked becomes one name."""
        _, within = service_of(asked)
        query = {
            key: "Grammostola rosea" if "ame" in key or key == "q" else value for key, value in asked.query.items()
        }
        return accepting(Asked(asked.method, asked.path, query, within.body, asked.headers))


MOODS = ("well", "accepting", "silent", "dripping", "flooding", "broken", "garbage", "lying")
