"""One real question of every kind to every service: ``python -m tests live [FOLDER]``, for a person with a network.

A line tells what was expected and what came. The replies are kept in the folder as they came, so that they can be sent
back and become samples. It fails where an adapter does not speak; a service that needs a key is left out without one.
"""

from __future__ import annotations

import json
import os
import re
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import nullcontext
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from namekeeper.evidence.interfaces import NameCard
from namekeeper.evidence.statements import Answer, Failure, NameStatus, Reply
from namekeeper.files.places import Places
from namekeeper.outside import Outside
from namekeeper.records.specimen import Settings
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.sources.kept_answers import Freshness
from namekeeper.sources.lists.catalogue import catalogue
from namekeeper.sources.lists.fetch import fetch
from namekeeper.sources.replies import WebReply
from namekeeper.sources.services.checklistbank import ChecklistBank
from namekeeper.sources.services.gbif import Gbif
from namekeeper.sources.services.registry import SERVICES, open_services
from namekeeper.sources.services.service import CommonNameService, DetailService, NameService, Service
from namekeeper.sources.services.spidercatalog import SpiderCatalog
from namekeeper.words.errors import NamekeeperError

ACCEPTED = "Poecilotheria regalis"  # since Pocock, 1899
FORMER, IN_FORCE = "Brachypelma vagans", "Tliltocatl vagans"  # moved by Mendoza & Francke, 2020
#: From memory: common names that every service may be expected to have one of.
COMMON = ("Goliath birdeater", "house cricket", "emperor scorpion")
AUTHORS = {ACCEPTED: "Pocock, 1899", FORMER: "(Ausserer, 1875)"}
SPIDER, LSID = "Aphonopelma cryptethum", "urn:lsid:nmbe.ch:spidersp:001720"  # seen in a recorded reply


class UnexpectedError(Exception):
    """Something else came than was expected."""


@dataclass(frozen=True)
class Known:
    """The identifier of one name, and authors where they are to be asked."""

    authors: Mapping[str, str] = field(default_factory=dict)

    def identifier(self, prefix: str, name: str) -> str | None:
        return LSID if prefix and name == SPIDER else None

    def authorship(self, name: str) -> str:
        return self.authors.get(name, "")


@dataclass
class Replies:
    """Keeps the replies of a run in ``folder``, numbered, and in ``requests.txt`` what each was asked; never a key."""

    folder: Path
    number: int = 0

    def keep(self, key: str, question: object, raw: bytes) -> None:
        self.folder.mkdir(parents=True, exist_ok=True)
        self.number += 1
        (self.folder / f"{self.number:03d}-{key}.json").write_bytes(raw)
        with (self.folder / "requests.txt").open("a", encoding="utf-8") as file:
            file.write(f"{self.number:03d} {key} {' '.join(str(question).split())}\n")

    def watch(self, key: str, http: Any) -> None:
        """Keep whatever ``http`` hears; a body that is no JSON, too."""
        send, read, asked = http.send, http._document, [""]

        def noting_send(question: WebQuestion, body: object = None, *others: Any) -> WebReply:
            asked[0] = f"POST {question} {json.dumps(body)}" if body is not None else f"GET {question}"
            reply: WebReply = send(question, body, *others)
            return reply

        def noting_read(raw: bytes) -> object:
            self.keep(key, asked[0], raw)
            return read(raw)

        http.send, http._document = noting_send, noting_read


@dataclass(frozen=True)
class Request:
    """A kind of question: what is expected, and a function that asks and tells what came."""

    service: str
    kind: str
    expected: str
    ask: Callable[[], str]


def requests_of(service: Any, written: Any, day: datetime) -> Iterator[Request]:
    """The requests of one adapter; ``written`` is the same adapter where authors are known."""
    key = service.profile.key
    if isinstance(service, SpiderCatalog):
        yield Request(key, "entry", f"{SPIDER} with its valid name", lambda: _speaks(service, SPIDER))
        yield Request(key, "updates", "identifiers", lambda: _updates(service, day))
        return
    if isinstance(service, NameService):
        if type(service).current_edition is not NameService.current_edition:
            yield Request(key, "edition", "an edition", lambda: _edition(service))
        yield Request(key, "match", f"{ACCEPTED} accepted", lambda: _accepts(service))
        yield Request(key, "match of a former name", f"{FORMER} leads to {IN_FORCE}", lambda: _leads(service))
    if isinstance(service, ChecklistBank):  # the only one that is told authors
        yield Request(key, "match with author", f"{FORMER} leads to {IN_FORCE}", lambda: _leads(written))
    if isinstance(service, Gbif):
        yield Request(key, "batch", "both names in one POST", lambda: _batch(service))
    if isinstance(service, DetailService):
        yield Request(key, "card", f"something about {IN_FORCE}", lambda: _card(service))
    if isinstance(service, CommonNameService):
        yield Request(key, "common names", f"a taxon for one of {', '.join(COMMON)}", lambda: _common(service))


def _unasked(failure: Failure) -> UnexpectedError:
    return UnexpectedError(f"could not be asked: {failure.why}")


def _answer(reply: Reply) -> Answer:
    if isinstance(reply, Failure):
        raise _unasked(reply)
    return reply


def _speaks(service: Any, name: str) -> str:
    (reply,) = service.ask([name])
    answer = _answer(reply)
    if not answer.statements:
        why = f"silent on {name}; hints: {[(one.subject.name, one.note) for one in answer.hints]}"
        raise UnexpectedError(why)
    return "; ".join(
        f"{one.subject.name} {one.subject.authorship} {one.status}: {[end.name for end in one.targets]}"
        for one in answer.statements
    )


def _accepts(service: Any) -> str:
    told = _speaks(service, ACCEPTED)
    if f" {NameStatus.ACCEPTED}:" not in told:
        raise UnexpectedError(told)
    return told


def _leads(service: Any) -> str:
    told = _speaks(service, FORMER)
    if f"['{IN_FORCE}']" not in told:
        raise UnexpectedError(told)
    return told


def _edition(service: Any) -> str:
    edition = service.current_edition()
    if edition.edition is None:
        raise UnexpectedError(f"could not be asked: {service.trouble}" if service.trouble else "none")
    return f"{edition.edition}, dated {edition.dated}"


def _batch(service: Any) -> str:
    answers = [_answer(reply) for reply in service.ask([ACCEPTED, FORMER])]
    if service.desk.health.one_by_one:
        raise UnexpectedError("the service does not take a batch")
    if not all(answer.statements for answer in answers):
        why = f"speaks on {sum(bool(answer.statements) for answer in answers)} of 2"
        raise UnexpectedError(why)
    return "2 names"


def _card(service: Any) -> str:
    card = service.about(IN_FORCE)
    if isinstance(card, Failure):
        raise _unasked(card)
    if not isinstance(card, NameCard) or not (card.former or card.common or card.taxon.range):
        raise UnexpectedError("an empty card")
    return f"{len(card.former)} former names, {len(card.common)} common names, range {list(card.taxon.range)[:3]}"


def _common(service: Any) -> str:
    told: list[str] = []
    for words in COMMON:
        names = service.ask_common(words)
        if isinstance(names, Failure):
            raise _unasked(names)
        told += [f"{words}: {name.taxon.name}" for name in names]
    if not told:
        raise UnexpectedError("none")
    return "; ".join(told)


def _updates(service: SpiderCatalog, day: datetime) -> str:
    updates = service.changes_since((day - timedelta(days=30)).date())
    if updates is None:
        raise UnexpectedError("more pages than are read")
    return f"{len(updates.changed)} since {updates.since}"


def _fetched(outside: Outside, folder: Path, replies: Replies) -> str:
    get_json = catalogue(outside)

    def noting(path: str, params: Sequence[tuple[str, str]]) -> object:
        document = get_json(path, params)
        replies.keep("checklistbank", f"GET {WebQuestion(path, tuple(params))}", json.dumps(document).encode())
        return document

    subtree = fetch("Tliltocatl", noting, folder, lambda done, total, note: None)
    counted = subtree.counted()
    if not counted.names:
        raise UnexpectedError("no names")
    plan = subtree.plan
    return f"{counted.names} names, {counted.former} former, of {plan.edition}; citation: {plan.citation[:60]}"


def all_requests(
    kinds: Sequence[type[Service]], outside: Outside, replies: Replies, scratch: Path
) -> Iterator[Request]:
    """Every request of these adapters; raw replies are written into ``replies``."""
    for kind in kinds:
        key = kind.profile.key
        wish = Freshness(refresh=True)
        (service,) = open_services(outside, Settings(), [key], wish, known=Known())
        (written,) = open_services(outside, Settings(), [key], wish, known=Known(AUTHORS))
        if service.desk.lacks_secret:
            yield Request(key, "all", "a key of the keeper's own", lambda: "")
            continue
        for one in (service, written):
            replies.watch(key, one.desk.http)
        yield from requests_of(service, written, outside.clock())
        if key == "checklistbank":
            yield Request(key, "page of lists fetch", "names", lambda: _fetched(outside, scratch / "pages", replies))


def line_of(request: Request) -> tuple[bool, str]:
    """Whether it went as expected, and the line that says so."""
    start = f"{request.service:<14}{request.kind:<24}"
    if request.kind == "all":
        return True, f"left {start}needs {request.expected}"
    try:
        return True, f"ok   {start}expected {request.expected}; came {request.ask()}"
    except (UnexpectedError, UnansweredError, NamekeeperError) as error:
        return False, f"FAIL {start}expected {request.expected}; came: {' '.join(str(error).split())}"


def main(
    arguments: Sequence[str], environ: Mapping[str, str] = os.environ, kinds: Sequence[type[Service]] = SERVICES
) -> int:
    """1 if anything went otherwise than expected."""
    today = datetime.now(UTC)
    folder = Path(arguments[0]) if arguments else Path(f"live-replies-{today:%Y%m%d}")
    with TemporaryDirectory() as scratch:
        home = Path(scratch)
        outside = Outside(
            home,
            Places(home / "cache", home / "state", home / "data"),
            environ,
            lambda: today,
            print,
            lambda what: nullcontext(lambda done, total, note="": None),
        )
        good = True
        for request in all_requests(kinds, outside, Replies(folder), home):
            fine, line = line_of(request)
            print(re.sub(r"\s+$", "", line), flush=True)
            good = good and fine
    print(f"Replies as they came: {folder}" if folder.is_dir() else "No service sent anything.")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
