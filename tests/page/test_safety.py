"""Nobody but the keeper's own browser gets anything, and no site makes it do anything.

The attacks are those of OWASP's "Cross-Site Request Forgery" and "DNS rebinding" pages and of the W3C's Fetch Metadata.
"""

from __future__ import annotations

import re
import socket
import threading
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from namekeeper.faces.page.server import MOST_BYTES, PageServer
from tests.conftest import world
from tests.page.conftest import HOST, PORT, Visitor

PAGES = (
    "/",
    "/lookup",
    "/animals",
    "/animal/HW-001",
    "/decide",
    "/decide/HW-001",
    "/works",
    "/name?name=Poecilotheria regalis",
)
CHANGES = (
    "/lookup", "/animal/HW-001/facts", "/animal/HW-001/left", "/animal/HW-001/count",
    "/animal/HW-001/offspring", "/decide/HW-001", "/decide-safe", "/undo", "/stop/names", "/close", "/labels",
    "/labels/print/key", "/begin", "/begin/table", "/begin/table/key", "/lists/add", "/lists/use", "/lists/ask",
    "/lists/settings", "/lists/services", "/lists/probe",
)  # fmt: skip


def files_of(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


@pytest.mark.parametrize("path", PAGES)
def test_no_page_without_the_start_link(path: str, stranger: Visitor) -> None:
    answer = stranger.get(path)
    assert answer.status_code == 401
    assert "Hollin Weir" not in answer.text
    assert "HW-" not in answer.text


@pytest.mark.parametrize("path", CHANGES)
def test_no_change_without_the_start_link(path: str, stranger: Visitor, animals: Path) -> None:
    before = files_of(animals)
    assert stranger.client.post(path, base_url=f"http://{HOST}", data={}).status_code in (400, 401)
    assert not stranger.ended
    assert files_of(animals) == before


def test_every_change_was_tried(stranger: Visitor) -> None:
    rules = [rule for rule in stranger.client.application.url_map.iter_rules() if "POST" in (rule.methods or ())]
    tried = {re.sub("HW-001", "<identifier>", re.sub("names$|key$", "<key>", path)) for path in CHANGES}
    assert {rule.rule for rule in rules} == tried


def test_the_start_link_works_once(stranger: Visitor) -> None:
    link = urlsplit(stranger.guard.start_link).path
    stranger.come_in()
    second = stranger.client.application.test_client()
    assert second.get(link, base_url=f"http://{HOST}").status_code == 401
    assert second.get("/animals", base_url=f"http://{HOST}").status_code == 401
    assert stranger.get(link).status_code == 303  # the keeper's own browser, by Back


def test_the_cookie_is_kept_from_scripts_sites_and_other_ports(stranger: Visitor) -> None:
    cookie = stranger.get(urlsplit(stranger.guard.start_link).path).headers["Set-Cookie"]
    assert cookie.startswith(f"namekeeper-{PORT}=")
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie


@pytest.mark.parametrize("path", CHANGES)
@pytest.mark.parametrize("token", [None, "", "guessed"])
def test_no_change_without_its_token(path: str, token: str | None, visitor: Visitor, animals: Path) -> None:
    before = files_of(animals)
    fields = {"collection": visitor.keeping.key, **({"csrf_token": token} if token is not None else {})}
    assert visitor.client.post(path, base_url=f"http://{HOST}", data=fields).status_code == 400
    assert not visitor.ended
    assert files_of(animals) == before


@pytest.mark.parametrize(
    "host", ["evil.example", f"evil.example:{PORT}", "127.0.0.1", "127.0.0.1:8124", f"localhost:{PORT}"]
)
def test_no_other_name_or_port_of_this_machine(host: str, visitor: Visitor) -> None:
    assert visitor.get("/animals", {"Host": host}).status_code == 421
    assert visitor.post("/decide-safe", headers={"Host": host}).status_code == 421


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://evil.example"},
        {"Origin": f"http://127.0.0.1:{PORT + 1}"},
        {"Origin": f"https://{HOST}"},
        {"Origin": "null"},
        {"Origin": "null", "Sec-Fetch-Site": "none"},
        {"Origin": f"http://{HOST}", "Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Sec-Fetch-Site": "same-origin", "Sec-Fetch-Dest": "iframe"},
        {"Sec-Fetch-Dest": "object"},
    ],
    ids=str,
)
def test_nothing_from_other_sites_or_in_frames(headers: dict[str, str], visitor: Visitor, animals: Path) -> None:
    before = files_of(animals)
    state = visitor.keeping.view().safe_state
    assert visitor.post("/decide-safe", {"state": state}, headers).status_code == 403
    assert visitor.get("/animals", headers).status_code == 403
    assert files_of(animals) == before


@pytest.mark.parametrize(
    "headers", [{"Origin": f"http://{HOST}"}, {"Origin": "null", "Sec-Fetch-Site": "same-origin"}, {}]
)
def test_our_own_forms_come_in(headers: dict[str, str], visitor: Visitor) -> None:
    assert visitor.post("/decide/HW-002", {"act": "later"}, headers).status_code == 303


@pytest.mark.parametrize("path", [*PAGES, "/static/look.css", "/nowhere"])
def test_every_answer_forbids_frames_scripts_and_what_is_elsewhere(path: str, visitor: Visitor) -> None:
    with visitor.get(path) as answer:
        text = answer.get_data(as_text=True)
    policy = dict(part.strip().split(" ", 1) for part in answer.headers["Content-Security-Policy"].split(";"))
    assert policy["default-src"] == "'none'"
    assert policy["frame-ancestors"] == "'none'"
    assert {policy[part] for part in ("script-src", "style-src", "img-src", "font-src", "form-action")} == {"'self'"}
    assert answer.headers["Referrer-Policy"] == "no-referrer"
    if answer.mimetype == "text/html":
        assert not re.search(r"<script(?![^>]*\bsrc=)|\son\w+=|\sstyle=|<style", text)
        assert not re.search(r'(?:src|action)="(?:https?:)?//', text)


CLIMBING = ("../../../etc/passwd", "..%2f..%2fcollection.yaml", "/etc/passwd", "..\\..\\secret", "specimens/HW-001")
ADDRESSES = ("/animal/{}", "/decide/{}", "/name?name={}", "/lookup?tags={}", "/static/{}",
             "/animals?q={}&show={}&order={}&page={}")  # fmt: skip
UNREAD = (
    "/animal/HW-001/left",
    "/close",
    "/stop/names",
    "/lists/ask",
    "/animal/HW-001/facts",
)  # these read no field, or write any
FIELDS = (
    "key",
    "edition",
    "column-tag",
    "act",
    "seen",
    "name",
    "other",
    "note",
    "state",
    "back",
    "next",
    "revision",
    "place",
    "tag1",
    "name1",
    "typed",
)


def test_no_address_reaches_a_file(visitor: Visitor) -> None:
    for where in ADDRESSES:
        for text in CLIMBING:
            with visitor.get(where.replace("{}", text)) as answer:
                assert answer.status_code in (200, 303, 308, 400, 404), where
                shown = answer.get_data(as_text=True)
                assert "root:" not in shown
                assert "title: Insect room" not in shown


def test_no_form_reaches_a_file(visitor: Visitor, animals: Path, tmp_path: Path) -> None:
    inside, outside = files_of(animals), {str(path) for path in tmp_path.rglob("*.yaml")}
    for path in (path for path in CHANGES if path not in UNREAD):
        for text in CLIMBING:
            answer = visitor.post(path, {**dict.fromkeys(FIELDS, text), "count1": "0"})
            assert answer.status_code in (200, 303, 400, 404), path
            assert not re.match(r"https?:|//", answer.headers.get("Location", "/"))
    assert {str(path) for path in tmp_path.rglob("*.yaml")} == outside
    assert files_of(animals) == inside


@pytest.mark.parametrize(
    "wanted", ["//evil.example/", "https://evil.example/", "/\\evil.example", "javascript:alert(1)", "\t//evil.example"]
)
def test_a_form_leads_nowhere_else(wanted: str, visitor: Visitor) -> None:
    answer = visitor.post("/decide/HW-002", {"act": "later", "back": wanted})
    assert answer.status_code == 303
    assert answer.location.startswith("/decide")


SCRIPT = "<script>alert(1)</script><img src=x onerror=alert(1)>\"'>"


def test_a_script_is_text_wherever_it_stands(visitor: Visitor, animals: Path) -> None:
    file, quoted = animals / "specimens" / "HW-002.yaml", SCRIPT.replace("'", "''")
    spoiled = file.read_text().replace("place: rack A 2", f"place: '{quoted}'")
    spoiled = spoiled.replace("names:", f"note: '{quoted}'\nnames:", 1)
    assert spoiled.count("<script>") == 2
    file.write_text(spoiled)
    entry = f"  - name: 'Aus {quoted}'\n    since: 2020-01-01\n    recorded: 2020-01-01\n    standing: as-labelled\n"
    (animals / "specimens" / "XSS-1.yaml").write_text(f"tag: '{quoted}'\nnames:\n{entry}")
    pages = ["/animals", "/animals?q=" + SCRIPT, "/animal/HW-002", "/decide/HW-002", "/animal/XSS-1", "/decide/XSS-1"]
    pages += [f"/lookup?tags={SCRIPT} GBB", f"/name?name={SCRIPT}", f"/animal/{SCRIPT}"]
    for path in pages:
        answer = visitor.get(path)
        assert "<script>alert" not in answer.text, path
        assert "<img src=x" not in answer.text, path
        assert not re.search(r"=[\"'][^\"'>]*<img", answer.text), path
    shown = visitor.get("/animal/HW-002").text
    assert "&lt;script&gt;alert(1)" in shown
    answer = visitor.post("/decide/HW-002", {"act": "other", "other": SCRIPT, "note": SCRIPT})
    shown = answer.text if answer.status_code == 200 else visitor.get("/animal/HW-002").text
    assert "<script>alert" not in shown
    assert "&lt;script&gt;" in shown


def test_an_address_of_a_source_is_opened_only_if_it_is_one_of_the_web(visitor: Visitor) -> None:
    web = visitor.client.application.jinja_env.filters["web"]
    assert web("https://doi.org/10.1") == "https://doi.org/10.1"
    assert [web(text) for text in ("javascript:alert(1)", "data:text/html,x", " https://x", None)] == ["", "", "", ""]


@pytest.fixture
def served(animals: Path, tmp_path: Path, home: Path) -> Iterator[PageServer]:
    """A real server on a port of its own."""
    server, links = PageServer(world(tmp_path, home)), threading.Event()
    server.keeping.open(animals)
    thread = threading.Thread(target=server.serve, args=(lambda link: links.set(),))
    thread.start()
    assert links.wait(20)
    yield server
    server.end()
    thread.join(20)
    assert not thread.is_alive()


def sent_until_refused(port: int, head: bytes, most: int) -> tuple[int, bytes]:
    """How much of a body the server lets come, and its answer."""
    block, sent, answer = b"x" * 65536, 0, b""
    with socket.create_connection(("127.0.0.1", port), timeout=20) as line:
        line.sendall(head)
        try:
            while sent < most and not answer:
                line.setblocking(True)
                sent += line.send(block)
                line.setblocking(False)
                try:
                    answer = line.recv(4096)
                except BlockingIOError:
                    answer = b""
            line.setblocking(True)
            answer = answer or line.recv(4096)
        except (ConnectionResetError, BrokenPipeError):
            pass  # it was cut off
    return sent, answer


@pytest.mark.parametrize(
    "length", ["Content-Length: 1073741824", f"Content-Length: {MOST_BYTES}", "Transfer-Encoding: chunked"]
)
def test_a_gigabyte_is_refused_before_it_is_swallowed(length: str, served: PageServer) -> None:
    head = f"POST /undo HTTP/1.1\r\nHost: {served.guard.host}\r\n{length}\r\n\r\n".encode()
    sent, answer = sent_until_refused(served.guard.port, head, 2**30)
    assert sent <= 16 * 1024 * 1024
    assert answer == b"" or answer.startswith((b"HTTP/1.1 413", b"HTTP/1.1 400"))


def test_the_server_listens_on_the_loopback_only(served: PageServer) -> None:
    own = {info[4][0] for info in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)} - {
        "127.0.0.1",
        "127.0.1.1",
    }
    for address in own:
        with (
            pytest.raises(OSError, match=r".*"),
            socket.create_connection((str(address), served.guard.port), timeout=2),
        ):
            pass
    with socket.create_connection(("127.0.0.1", served.guard.port), timeout=5) as line:
        line.sendall(b"GET /animals HTTP/1.1\r\nHost: evil.example\r\nConnection: close\r\n\r\n")
        assert line.recv(64).startswith(b"HTTP/1.1 421")


def test_a_page_is_closed_by_itself(visitor: Visitor) -> None:
    answer = visitor.post("/close")
    assert answer.status_code == 200
    assert visitor.ended == []  # the page has to go out first
    answer.close()
    assert visitor.ended == [True]
