"""One suite over every adapter and every fault of the network: a failure with its reason, nothing kept, no key told.

The faults are those of the project's issue on services; the server is real, the network is the loopback.
"""

from __future__ import annotations

import socket
import ssl
import threading
from collections.abc import Callable
from http.server import BaseHTTPRequestHandler
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import pytest
import trustme

from namekeeper.evidence.statements import Failure, FailureKind
from namekeeper.sources.services.registry import SERVICES
from tests.services.conftest import SECRET, Bench
from tests.services.good_replies import good
from tests.services.local_server import Asked, Canned, LocalServer, drip, flood, serving, silence, slow_headers

UTF_8 = [kind.profile.key for kind in SERVICES if kind.profile.encoding == "utf-8"]
NAME = "Anergates atratulus"
LATE = "it did not answer in time"
DEEP = "its reply goes deeper than any reader"
DAMAGED = "it sent data that are cut off or damaged"
JSON = {"Content-Type": "application/json"}


def always(canned: Canned) -> Callable[[Asked], Canned]:
    return lambda asked: canned


SERVER_FAULTS: dict[str, tuple[Canned, FailureKind, str]] = {
    "timeout": (Canned(status=0, manner=silence), FailureKind.UNREACHABLE, LATE),
    "slow drip": (Canned(headers=JSON, manner=drip), FailureKind.UNREACHABLE, LATE),
    "slow headers": (Canned(status=0, manner=slow_headers), FailureKind.UNREACHABLE, LATE),
    "not found": (Canned(status=404, body=b"{}"), FailureKind.BAD_REPLY, "it does not know this address (HTTP 404)"),
    "too many": (Canned(status=429), FailureKind.REFUSED, "too many questions in a short time (HTTP 429)"),
    "too many, wait": (
        Canned(status=429, headers={"Retry-After": "7"}),
        FailureKind.REFUSED,
        "too many questions in a short time (HTTP 429)",
    ),
    "too many, wait a day": (
        Canned(status=429, headers={"Retry-After": "86400"}),
        FailureKind.REFUSED,
        "too many questions in a short time (HTTP 429)",
    ),
    "forbidden": (Canned(status=403), FailureKind.REFUSED, "it refuses this question (HTTP 403)"),
    "own fault, said to be cacheable": (
        Canned(status=500, body=b'{"match": false}', headers={"Cache-Control": "public, max-age=604800"}),
        FailureKind.BAD_REPLY,
        "it has a fault of its own (HTTP 500)",
    ),
    "out of service": (
        Canned(status=503),
        FailureKind.UNREACHABLE,
        "it is out of service for the moment (HTTP 503)",
    ),
    "web page": (
        Canned(body=b"<!DOCTYPE html><html>Please log in</html>", headers={"Content-Type": "text/html"}),
        FailureKind.BAD_REPLY,
        "it sent a web page instead of data (a login page of this network?)",
    ),
    "truncated": (Canned(body=b'{"results": [{"name": "Exempl', headers=JSON), FailureKind.BAD_REPLY, DAMAGED),
    "cut connection": (
        Canned(body=b'{"results": [', headers=JSON | {"Content-Length": "5000"}, manner=lambda handler, release: None),
        FailureKind.UNREACHABLE,
        "the connection broke off",
    ),
    "deep nesting": (Canned(body=b"[" * 200_000, headers=JSON), FailureKind.BAD_REPLY, DEEP),
    "deep nesting, whole": (Canned(body=b"[" * 100 + b"]" * 100, headers=JSON), FailureKind.BAD_REPLY, DEEP),
    "half a character": (
        Canned(body=b'{"results": ["\\ud800"]}', headers=JSON),
        FailureKind.BAD_REPLY,
        "its reply holds half a character",
    ),
    "400 digits": (
        Canned(body=b'{"n": %s}' % (b"7" * 400), headers=JSON),
        FailureKind.BAD_REPLY,
        "its reply has a number of 400 digits",
    ),
    "5000 digits": (
        Canned(body=b'{"n": %s}' % (b"7" * 5000), headers=JSON),
        FailureKind.BAD_REPLY,
        "its reply has a number of 5000 digits",
    ),
    "no number": (Canned(body=b'[{"n": NaN}]', headers=JSON), FailureKind.BAD_REPLY, "its reply has the number NaN"),
    "no end": (Canned(body=b'[{"n": 1e999}]', headers=JSON), FailureKind.BAD_REPLY, "its reply has the number 1e999"),
    "wrong shape, list": (Canned.json([1, 2]), FailureKind.BAD_REPLY, "its reply has another shape"),
    "wrong shape, object": (Canned.json({"hello": "world"}), FailureKind.BAD_REPLY, "its reply has another shape"),
    "wrong shape, null": (Canned.json(None), FailureKind.BAD_REPLY, "its reply has another shape"),
    "wrong shape, inside": (
        Canned.json(
            {
                "match": True, "type": "exact", "usage": "text", "results": "text", "diagnostics": "text",
                "commonNames": "text", "taxon": "text", "result": "text",
            }
        ),
        FailureKind.BAD_REPLY,
        "its reply has another shape",
    ),
    "50 MB": (Canned(headers=JSON, manner=flood), FailureKind.BAD_REPLY, "its reply is larger than 1 MB"),
    "50 MB announced": (
        Canned(headers=JSON | {"Content-Length": "50000000"}, manner=flood),
        FailureKind.BAD_REPLY,
        "its reply is larger than 1 MB",
    ),
    "empty": (Canned(headers=JSON), FailureKind.BAD_REPLY, "it sent nothing"),
    "circle": (
        Canned(status=302, headers={"Location": "?again"}),
        FailureKind.BAD_REPLY,
        "it sends from address to address without end",
    ),
}  # fmt: skip


def outcomes(service: Any) -> list[Any]:
    """What the service says to one name, and to one common name, as far as it is fit for them."""
    said = []
    if hasattr(service, "ask"):
        said += list(service.ask([NAME]))
    if hasattr(service, "ask_common"):
        said.append(service.ask_common("example tarantula"))
    return said


def check_failures(bench: Bench, said: list[Any], kind: FailureKind, why: str) -> None:
    assert said
    for one in said:
        assert isinstance(one, Failure), one
        assert one.kind is kind
        assert one.why.startswith(why)
        assert SECRET not in repr(one)
    assert bench.kept() == []
    assert SECRET not in bench.all_texts()


@pytest.mark.parametrize("fault", SERVER_FAULTS)
def test_every_fault_is_a_failure_with_its_reason(
    bench: Bench, server: LocalServer, key: str, fault: str, caplog: pytest.LogCaptureFixture
) -> None:
    canned, kind, why = SERVER_FAULTS[fault]
    if why is LATE:
        bench.hurry()
    server.answer = always(canned)
    caplog.set_level("DEBUG")
    check_failures(bench, outcomes(bench.open(key, server.base)), kind, why)
    assert SECRET not in "".join(record.getMessage() for record in caplog.records if record.name.startswith("name"))
    assert len(server.asked) >= 1


def test_a_refused_port(bench: Bench, key: str) -> None:
    with socket.socket() as reserved:
        reserved.bind(("127.0.0.1", 0))  # bound, but nobody listens
        base = f"http://127.0.0.1:{reserved.getsockname()[1]}"
        said = outcomes(bench.open(key, base))
    check_failures(bench, said, FailureKind.UNREACHABLE, "it refuses the connection")


def test_a_name_that_no_server_resolves(bench: Bench, key: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def unresolved(host: str, *args: object, **kwargs: object) -> list[object]:
        raise socket.gaierror(socket.EAI_NONAME, "Name or service not known")

    monkeypatch.setattr(socket, "getaddrinfo", unresolved)
    said = outcomes(bench.open(key, "https://service.invalid"))
    check_failures(bench, said, FailureKind.UNREACHABLE, "its host name cannot be resolved")


def test_a_redirect_to_another_host_is_not_followed(bench: Bench, server: LocalServer, key: str) -> None:
    with serving(lambda asked: good(key, asked)) as elsewhere:
        server.answer = always(Canned(status=302, headers={"Location": f"{elsewhere.base}/?apiKey=x"}))
        said = outcomes(bench.open(key, server.base))
    assert elsewhere.asked == []
    check_failures(bench, said, FailureKind.BAD_REPLY, "it sends to another host, which is not followed")


def test_a_redirect_on_the_same_host_is_followed(bench: Bench, server: LocalServer, key: str) -> None:
    def moved(asked: Asked) -> Canned:
        if asked.path.startswith("/new/"):
            return good(key, Asked(asked.method, asked.path.removeprefix("/new"), asked.query, asked.body, {}))
        query = urlencode(asked.query)
        return Canned(status=301, headers={"Location": f"/new{asked.path}?{query}"})

    server.answer = moved
    assert not any(isinstance(one, Failure) for one in outcomes(bench.open(key, server.base)))


@pytest.fixture(scope="module")
def self_made_tls() -> ssl.SSLContext:
    """A certificate that no machine trusts."""
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    trustme.CA().issue_cert("127.0.0.1").configure_cert(context)
    return context


def test_bad_tls(bench: Bench, key: str, self_made_tls: ssl.SSLContext) -> None:
    with serving(lambda asked: good(key, asked), self_made_tls) as server:
        said = outcomes(bench.open(key, server.base))
    assert server.asked == []
    check_failures(bench, said, FailureKind.UNREACHABLE, "its certificate is not valid")


@pytest.mark.parametrize("key", UTF_8)
def test_a_body_that_is_not_utf_8(bench: Bench, server: LocalServer, key: str) -> None:
    server.answer = always(Canned(body='{"matched": "S\u00e9sie"}'.encode("iso-8859-1"), headers=JSON))
    said = outcomes(bench.open(key, server.base))
    check_failures(bench, said, FailureKind.BAD_REPLY, "its reply is in another encoding than it promises")


def test_a_service_that_promises_another_encoding(bench: Bench, server: LocalServer) -> None:
    """ITIS sends ISO 8859-1 (its answer headers)."""
    names = {"commonNames": [{"commonName": "Exemple\u00e9", "language": "French", "tsn": "1"}]}
    records = {
        "getFullRecordFromTSN": {
            "scientificName": {"combinedName": "Exemplum vulgare", "author": "M\u00fcller, 1776", "tsn": "1"},
            "kingdom": {"kingdomName": "Animalia  "},
            "taxRank": {"rankName": "Species        "},
            "usage": {"taxonUsageRating": "valid"},
        },
        "searchByCommonName": names,
    }

    def answer(asked: Asked) -> Canned:
        document = records.get(asked.path.strip("/"))
        return good("itis", asked) if document is None else Canned.json(document, "iso-8859-1")

    server.answer = answer
    (name,) = bench.open("itis", server.base).ask_common("EXEMPLE\u00c9")
    assert (name.text, name.language, name.taxon.authorship) == ("Exemple\u00e9", "fr", "M\u00fcller, 1776")


def test_the_good_reply_is_good(bench: Bench, server: LocalServer, key: str) -> None:
    """Else the suite above would prove nothing."""
    server.answer = lambda asked: good(key, asked)
    said = outcomes(bench.open(key, server.base))
    assert said
    assert not any(isinstance(one, Failure) for one in said)
    assert bench.kept()
    assert SECRET not in bench.all_texts() + repr(said)


def unexpected(handler: BaseHTTPRequestHandler, release: threading.Event) -> None:
    handler.wfile.write(b"SSH-2.0-something else\r\n")


def test_another_protocol_on_the_port(bench: Bench, server: LocalServer, key: str) -> None:
    server.answer = always(Canned(status=0, manner=unexpected))
    check_failures(bench, outcomes(bench.open(key, server.base)), FailureKind.UNREACHABLE, "the connection broke off")


def test_no_password_of_the_keepers_machine_is_sent(
    bench: Bench, server: LocalServer, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Even where the environment is trusted for its proxies."""
    from namekeeper.sources import http

    netrc = tmp_path / "netrc"
    netrc.write_text("default login me password secret", encoding="utf-8")
    netrc.chmod(0o600)
    monkeypatch.setenv("NETRC", str(netrc))
    monkeypatch.setattr(http, "is_loopback", lambda base: False)
    monkeypatch.setenv("no_proxy", "*")
    server.answer = lambda asked: good("inaturalist", asked)
    sender = http.Http(server.base, http.Wire(settings=bench.settings), spacing=0)
    sender.send(http.WebQuestion("taxa", (("q", "x"),)))
    (asked,) = server.asked
    assert "Authorization" not in asked.headers


def test_a_mistake_of_ours_in_the_thread_comes_out_here(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    from namekeeper.sources.http import Http

    def mistake(*args: object) -> object:
        raise ZeroDivisionError

    monkeypatch.setattr(Http, "_fetch", mistake)
    with pytest.raises(ZeroDivisionError):
        list(bench.open("inaturalist", "http://127.0.0.1:9").ask([NAME]))
