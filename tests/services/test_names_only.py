"""What is no name is never taken for one: no reply of any service brings it in, and nothing of such a reply is kept.

The form of a name: ICZN Art. 4, 5, 11.8, 11.9 (words, number, capitals) and 11.2 (Latin letters).
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Sequence
from typing import Any

import pytest

from namekeeper.evidence.interfaces import NameSource
from namekeeper.evidence.statements import Answer, Edition, Failure, FailureKind, Reply
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.replies import WebReply
from namekeeper.sources.services.registry import SERVICES
from namekeeper.sources.services.service import CommonNameService, DetailService, NameService
from namekeeper.tasks.ask_services import ask_cards, ask_common_names, ask_services
from namekeeper.tasks.guarded import ask_guarded
from namekeeper.words.forms import canonical_of
from tests.services.conftest import Bench
from tests.services.good_replies import accepted
from tests.services.local_server import Asked, Canned, LocalServer

NAME_SERVICES = [kind.profile.key for kind in SERVICES if issubclass(kind, NameService)]
BAD, GOOD = "Exemplum malum", "Exemplum bonum"
NO_NAMES: dict[str, Callable[[str], str]] = {
    "markup": lambda name: f"<i>{name}</i>",
    "a script": lambda name: f"{name}<script>",
    "an entity": lambda name: f"{name}&amp;",
    "a control": lambda name: f"{name}\x1b[31m",
    "nothing seen": lambda name: name.replace("e", "e\u200b"),
    "a turn": lambda name: f"\u202e{name}",
    "a dagger": lambda name: f"†{name}",
    "capitals": lambda name: name.upper(),
    "no capital": lambda name: name.lower(),
    "a formula": lambda name: f"={name}",
    "a path": lambda name: f"../{name}",
    "digits": lambda name: f"{name}2",
    "a half character": lambda name: f"{name}\ud800",
    "other letters": lambda name: name.replace("E", "\u0415"),  # Cyrillic
}


def spoilt(document: Any, spoil: Callable[[str], str]) -> Any:
    """The document with every text that is the bad name, or its genus alone, spoilt."""
    if isinstance(document, dict):
        return {key: spoilt(value, spoil) for key, value in document.items()}
    if isinstance(document, list):
        return [spoilt(value, spoil) for value in document]
    return spoil(document) if document in (BAD, BAD.split(maxsplit=1)[0]) else document


def answering(key: str, spoil: Callable[[str], str]) -> Callable[[Asked], Canned]:
    def answer(asked: Asked) -> Canned:
        canned = accepted(key, asked)
        about = BAD in asked.query.values() or asked.path.endswith("bad") or isinstance(asked.body, list)
        document = spoilt(json.loads(canned.body), spoil) if about else json.loads(canned.body)
        return Canned(body=json.dumps(document).encode(), headers={"Content-Type": "application/json"})

    return answer


@pytest.mark.parametrize("form", NO_NAMES)
@pytest.mark.parametrize("key", NAME_SERVICES)
def test_what_is_no_name_is_a_bad_reply_and_the_next_name_is_answered(
    bench: Bench, server: LocalServer, key: str, form: str
) -> None:
    server.answer = answering(key, NO_NAMES[form])
    identifiers = {BAD: "urn:lsid:nmbe.ch:spidersp:bad", GOOD: "urn:lsid:nmbe.ch:spidersp:good"}
    service = bench.open(key, server.base, identifier_of=identifiers.get)
    bad, good = service.ask([BAD, GOOD])
    assert isinstance(bad, Failure)
    assert bad.kind is FailureKind.BAD_REPLY
    assert isinstance(good, Answer)
    kept = [path.read_text(encoding="utf-8") for path in bench.kept()]
    assert not any("malum" in text or "spidersp:bad" in text for text in kept)
    server.answer = lambda asked: accepted(key, asked)
    (mended,) = bench.open(key, server.base, identifier_of=identifiers.get).ask([BAD])
    assert isinstance(mended, Answer)


@pytest.mark.parametrize("key", NAME_SERVICES)
def test_a_kept_answer_that_cannot_be_used_is_asked_again(bench: Bench, server: LocalServer, key: str) -> None:
    """Such as one kept by an earlier version, or changed by hand."""
    server.answer = lambda asked: accepted(key, asked)
    (first,) = bench.open(key, server.base).ask([BAD])
    for path in bench.kept():
        text = path.read_text(encoding="utf-8")
        path.write_text(text.replace('"Exemplum', '"=Exemplum'), encoding="utf-8")
    asked_before = len(server.asked)
    (again,) = bench.open(key, server.base).ask([BAD])
    assert len(server.asked) > asked_before
    assert isinstance(first, Answer)
    assert isinstance(again, Answer)
    assert [said.subject.name for said in again.statements] == [said.subject.name for said in first.statements]


@pytest.mark.parametrize("key", [key for key in NAME_SERVICES if key != "inaturalist"])
def test_an_answer_about_another_name_is_no_answer(bench: Bench, server: LocalServer, key: str) -> None:
    """Neither "does not list" nor anything else: nobody can tell what the service has."""

    def other(asked: Asked) -> Canned:
        text = accepted(key, asked).body.decode()
        return Canned(body=text.replace(BAD, "Alienum novum").replace("spidersp:001720", "spidersp:000002").encode())

    server.answer = other
    (said,) = bench.open(key, server.base).ask([BAD])
    assert isinstance(said, Failure)
    assert said.kind is FailureKind.BAD_REPLY
    assert "and not about" in said.why


def test_a_search_that_finds_other_names_only_is_no_answer(bench: Bench, server: LocalServer) -> None:
    page = {"results": [{"id": 1, "name": "Alienum novum", "rank": "species", "is_active": True, "ancestor_ids": [1]}]}
    server.answer = lambda asked: Canned.json(page)
    (said,) = bench.open("inaturalist", server.base).ask([BAD])
    assert isinstance(said, Failure)
    assert "and not about" in said.why


def test_a_batch_in_another_order(bench: Bench, server: LocalServer) -> None:
    """Each answer goes to the name that it is about."""
    names = [f"Exemplum {word}" for word in ("unum", "duum", "trium", "quattuum")]

    def turned(asked: Asked) -> Canned:
        canned = accepted("gbif", asked)
        return Canned.json(list(reversed(json.loads(canned.body)))) if isinstance(asked.body, list) else canned

    server.answer = turned
    replies = list(bench.open("gbif", server.base).ask(names))
    assert [reply.asked for reply in replies] == names
    for name, reply in zip(names, replies, strict=True):
        assert isinstance(reply, Answer)
        assert [said.subject.name for said in reply.statements] == [name]


def test_a_batch_in_another_order_that_tells_it_only_by_a_hint(bench: Bench, server: LocalServer) -> None:
    """Found nothing for one and a similar name for the other: in the wrong places nobody would be told of either."""
    nothing = {"diagnostics": {"matchType": "NONE", "confidence": 100, "note": ""}}
    names = ["Exemplum unum", "Alienum novum"]

    def answer(asked: Asked) -> Canned:
        if asked.path.endswith("metadata"):
            return accepted("gbif", asked)
        hint = json.loads(accepted("gbif", Asked("GET", asked.path, {"scientificName": names[1]}, None, {})).body)
        hint["usage"]["canonicalName"] = "Alienum novus"
        hint["diagnostics"]["matchType"] = "VARIANT"
        if isinstance(asked.body, list):
            return Canned.json([hint, nothing])
        return Canned.json(hint if asked.query["scientificName"] == names[1] else nothing)

    server.answer = answer
    first, second = bench.open("gbif", server.base).ask(names)
    assert isinstance(first, Answer)
    assert isinstance(second, Answer)
    assert (first.hints, [hint.subject.name for hint in second.hints]) == ((), ["Alienum novus"])


class _Mistake(Exception):  # noqa: N818
    """Of ours."""


@pytest.mark.parametrize("everything", [False, True])
def test_a_mistake_in_an_adapter_is_a_failure_of_its_own(
    bench: Bench, server: LocalServer, key: str, monkeypatch: pytest.MonkeyPatch, everything: bool
) -> None:
    """Raised in every adapter: on one name the others are answered, on all of them nothing else is spoilt."""
    server.answer = lambda asked: accepted(key, asked)
    identifiers = {BAD: "urn:lsid:nmbe.ch:spidersp:bad", GOOD: "urn:lsid:nmbe.ch:spidersp:good"}
    service = bench.open(key, server.base, identifier_of=identifiers.get)
    send = service.desk.http.send

    def raising(question: WebQuestion, body: object = None, *others: Any) -> WebReply:
        if everything or "malum" in f"{question}{body}" or question.path.endswith("bad"):
            raise _Mistake("secret text")
        return send(question, body, *others)  # type: ignore[no-any-return]

    monkeypatch.setattr(service.desk.http, "send", raising)
    said: list[object] = []
    if isinstance(service, NameService):
        replies = ask_services([service], [BAD, GOOD])
        said += replies[BAD]
        (good,) = replies[GOOD]
        assert isinstance(good, Failure if everything else Answer)
    if isinstance(service, CommonNameService):
        said += ask_common_names([service], "malum").failures
    if isinstance(service, DetailService):
        said += ask_cards([service], BAD).failures
    assert said
    for failure in said:
        assert isinstance(failure, Failure)
        assert failure.kind is FailureKind.BROKEN
        assert failure.why == "namekeeper made a mistake with it (_Mistake)"


def test_a_source_in_which_everything_goes_wrong_is_left_alone() -> None:
    calls: list[int] = []

    class Raising(NameSource):
        edition = Edition("raising", "raising", "raising")

        def ask(self, names: Sequence[str]) -> Iterator[Reply]:
            calls.append(len(names))
            raise _Mistake

    source = Raising()
    assert len(list(ask_guarded(source, [f"Aus bus{n}" for n in range(50)]))) == 50
    assert calls == [50, 49, 48]


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("Poecilotheria regalis", "Poecilotheria regalis"),
        ("Lucanus cervus cervus", "Lucanus cervus cervus"),
        ("Brachypelma", "Brachypelma"),
        ("Aphodius (Acrossus) depressus", "Aphodius depressus"),  # Art. 6.1: a subgenus is no part of the binomen
        ("Polygonia c-album", "Polygonia c-album"),  # Art. 32.5.2.4.3: the hyphen behind a letter stays
        ("Coccinella 7-punctata", "Coccinella 7-punctata"),  # as printed before Art. 32.5.2.6
        ("Nephila d'orbignyi", "Nephila d'orbignyi"),
        ("Öus müllneri", "Öus müllneri"),
        ("Ia io", "Ia io"),  # the shortest name of an animal (Thomas, 1902)
        ("Aus b", ""),  # Art. 11.9.1: more than one letter
        ("Aus bus × cus", ""),
        ("Aus bus cus dus", ""),
        ("BOLD:AAA1234", ""),
        ("Aus sp.", ""),
        ("", ""),
    ],
)
def test_the_form_of_a_name(text: str, canonical: str) -> None:
    assert canonical_of(text) == canonical
