"""Requests of random kinds to a page that is running: what no browser sends, what strangers try, what the keeper does.

``python -m tests.page.flood [COUNT] [SEED]`` starts the page by its command, with limits of the system's, sends COUNT
(10,000) requests and prints what became of it; it ends with 1 if the page is gone, something was let in that should not
be, a traceback was told, the collection changed, or memory grew.
"""

from __future__ import annotations

import json
import os
import random
import re
import resource
import shutil
import socket
import subprocess
import sys
import tempfile
import threading
from collections import Counter
from collections.abc import Callable
from dataclasses import asdict, dataclass, field
from pathlib import Path
from urllib.parse import quote, urlsplit

from namekeeper import resources
from tests.conftest import NOWHERE
from tests.limited import MB

MEMORY = 1500 * MB  # addresses
GROWTH = 24 * MB  # of what is in memory, from the fifth tenth of the requests to the end
PAGES = ("/", "/lookup", "/animals", "/animal/HW-001", "/decide", "/lists", "/works", "/static/look.css")
_LONG = 30.0  # seconds that an answer may take on a busy machine


@dataclass(frozen=True)
class Found:
    """What became of a page: statuses by kind of request, what should not be, bytes in memory after each tenth."""

    answers: Counter[str]
    wrong: list[str]
    alive: bool
    memory: list[int]
    tracebacks: str
    changed: bool

    @property
    def harmed(self) -> bool:
        grown = self.memory[-1] - self.memory[4]
        return bool(self.wrong or self.tracebacks or self.changed or not self.alive or grown > GROWTH)


@dataclass
class Flood:
    """A page that is running, and what came of requests to it."""

    port: int
    cookie: str
    chance: random.Random
    answers: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)

    def head(self, method: str, path: str, *more: str, host: str = "", cookie: str = "") -> bytes:
        lines = [f"{method} {path} HTTP/1.1", f"Host: {host or f'127.0.0.1:{self.port}'}", *more]
        if cookie:
            lines.append(f"Cookie: {cookie}")
        return ("\r\n".join([*lines, "Connection: close"]) + "\r\n\r\n").encode("utf-8", "surrogateescape")

    def bad_path(self) -> bytes:
        letters = ["..", "/", "%00", "%2e%2e%2f", "\\", "animals", "ü", "%ff", "?", ";", "#", "A" * 3000, "static"]
        path = "/" + "".join(self.chance.choices(letters, k=self.chance.randrange(1, 9)))
        return self.head(self.chance.choice(["GET", "HEAD", "OPTIONS", "TRACE", "PUT", "FOO"]), path)

    def huge_head(self) -> bytes:
        if self.chance.random() < 0.5:
            return self.head("GET", "/", f"X: {'a' * self.chance.randrange(100_000, 900_000)}")
        return self.head("GET", "/", *(f"X{number}: {number}" for number in range(self.chance.randrange(5000, 20_000))))

    def short_body(self) -> bytes:
        """More is promised than ever comes."""
        length = self.chance.choice([10, 10_000, 60_000_000])
        return self.head("POST", "/lookup", f"Content-Length: {length}", cookie=self.cookie) + b"tags=x"

    def lying_length(self) -> bytes:
        lies = [
            ("Content-Length: -1",), ("Content-Length: 99999999999999999999",), ("Content-Length: 1, 2",),
            ("Content-Length: ten",), ("Content-Length: 5", "Content-Length: 50"), ("Transfer-Encoding: chunked",),
            ("Transfer-Encoding: chunked", "Content-Length: 4"), ("Transfer-Encoding: xchunked",),
        ]  # fmt: skip
        body = self.chance.choice(
            [b"5\r\nab\r\n0\r\n\r\n", b"fffffffff\r\n", b"0\r\n\r\nGET /animals HTTP/1.1\r\n\r\n", b"-1\r\n"]
        )
        return self.head("POST", "/lookup", *self.chance.choice(lies), cookie=self.cookie) + body

    def wrong_token(self) -> bytes:
        guess = "".join(self.chance.choices("abcdefXYZ012-_é", k=self.chance.choice([1, 43, 2000])))
        which = self.chance.randrange(3)
        if which == 0:
            return self.head("GET", f"/start/{quote(guess)}")
        if which == 1:
            return self.head("GET", "/animals", cookie=f"namekeeper-{self.port}={guess}")
        body = f"csrf_token={quote(guess)}&collection=x".encode()
        more = ("Content-Type: application/x-www-form-urlencoded", f"Content-Length: {len(body)}")
        return self.head("POST", "/decide-safe", *more, cookie=self.cookie) + body

    def wrong_host(self) -> bytes:
        host = self.chance.choice(["evil.example", f"localhost:{self.port}", "127.0.0.1", "[::1]", "a" * 500, "\udcff"])
        if self.chance.random() < 0.5:
            return self.head("GET", "/animals", host=host, cookie=self.cookie)
        origin = self.chance.choice(["http://evil.example", "null", f"https://127.0.0.1:{self.port}"])
        return self.head("GET", "/animals", f"Origin: {origin}", "Sec-Fetch-Site: cross-site", cookie=self.cookie)

    def noise(self) -> bytes:
        return self.chance.choice(
            [
                b"",
                b"\0",
                b"\r\n" * 500,
                b"GET / HTTP/9.9\r\n\r\n",
                b"GET /\r\n\r\n",
                b"\x16\x03\x01\x02\x00\x01",
                b"GET / HT",
            ]
        ) + self.chance.randbytes(self.chance.choice([0, 0, 100, 5000]))

    def bad_form(self) -> bytes:
        """A form in parts that are none, or too many."""
        body = self.chance.choice(
            [
                b"--x\r\n" * 3000,
                b'--x\r\nContent-Disposition: form-data; name="a"\r\n\r\n' + b"b" * 700_000,
                b"a&" * 9000,
            ]
        )
        more = ("Content-Type: multipart/form-data; boundary=x", f"Content-Length: {len(body)}")
        return self.head("POST", "/begin/table", *more, cookie=self.cookie) + body

    def a_page(self) -> bytes:
        return self.head("GET", self.chance.choice(PAGES), cookie=self.cookie)

    def a_plan(self) -> bytes:
        """Labels of another kind each time: each is a job, whose page is never fetched again."""
        start = self.chance.randrange(1, 24)
        return self.head(
            "GET", f"/labels?which=all&start={start}&copies={self.chance.randrange(1, 4)}", cookie=self.cookie
        )

    def send(self, kind: Callable[[], bytes], patient: bool) -> None:
        """One request; the answer's status is counted, whatever comes."""
        said = kind()
        try:
            with socket.create_connection(("127.0.0.1", self.port), timeout=_LONG if patient else 0.05) as line:
                line.sendall(said)
                answer = b""
                while block := line.recv(1 << 16):
                    answer = (answer + block)[: 1 << 20]
        except OSError:
            answer = b""
        status = answer[9:12].decode("ascii", "replace") if answer.startswith(b"HTTP/1.") else "none"
        self.answers[f"{kind.__name__} {status}"] += 1
        if status == "500" or b"Traceback" in answer:
            self.wrong.append(f"{kind.__name__}: {answer[:200]!r} to {said[:200]!r}")
        if status == "200" and kind not in (self.a_page, self.a_plan, self.bad_path, self.noise):
            self.wrong.append(f"{kind.__name__} was let in: {said[:200]!r}")

    def send_all(self, chosen: list[tuple[Callable[[], bytes], bool, int]]) -> None:
        for kind, patient, _ in chosen:
            self.send(kind, patient)

    def kinds(self) -> list[tuple[Callable[[], bytes], bool, int]]:
        """Kinds of request, whether their answer is waited for, and how often each comes."""
        return [
            (self.bad_path, True, 20), (self.huge_head, True, 4), (self.short_body, False, 8),
            (self.lying_length, True, 12),
            (self.wrong_token, True, 16), (self.wrong_host, True, 16), (self.noise, False, 8), (self.bad_form, True, 4),
            (self.a_page, True, 10), (self.a_plan, True, 2),
        ]  # fmt: skip


def resident(pid: int) -> int:
    """Bytes of a process that are in memory (proc(5), statm)."""
    return int(Path(f"/proc/{pid}/statm").read_text(encoding="ascii").split()[1]) * os.sysconf("SC_PAGE_SIZE")


def come_in(link: str) -> str:
    """The cookie of whoever opens the start link."""
    place = urlsplit(link)
    with socket.create_connection(("127.0.0.1", place.port), timeout=_LONG) as line:
        line.sendall(f"GET {place.path} HTTP/1.1\r\nHost: {place.netloc}\r\nConnection: close\r\n\r\n".encode())
        answer = b""
        while block := line.recv(1 << 16):
            answer += block
    found = re.search(rb"Set-Cookie: ([^;]+)", answer)
    assert found is not None, answer
    return found[1].decode()


def limit() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))


def flooded(root: Path, home: Path, count: int, seed: int) -> Found:
    """What became of a page on a copy of the sample collection."""
    animals = root / "animals"
    shutil.copytree(resources.sample_collection(), animals)
    before = {path: path.read_bytes() for path in animals.rglob("*.yaml")}
    environ = {**os.environ, **NOWHERE, "NAMEKEEPER_HOME": str(home)}
    words = (sys.executable, "-u", "-m", "namekeeper", "browse", str(animals), "--no-open")
    with (
        (root / "told").open("wb") as told,
        subprocess.Popen(
            words,
            stdout=told,
            stderr=subprocess.STDOUT,
            env=environ,
            preexec_fn=limit,  # noqa: PLW1509 - no thread is running yet
            stdin=subprocess.DEVNULL,
        ) as page,
    ):
        try:
            link = the_link(root / "told", page)
            flood = Flood(urlsplit(link).port or 0, come_in(link), random.Random(seed))
            memory = pour(flood, count, page.pid)
            flood.send(flood.a_page, True)
            alive = page.poll() is None and flood.answers["a_page 200"] > 0
        finally:
            page.terminate()
            page.wait(20)
    text = (root / "told").read_text(encoding="utf-8", errors="replace")
    changed = {path: path.read_bytes() for path in animals.rglob("*.yaml")} != before
    return Found(flood.answers, flood.wrong, alive, memory, text if "Traceback" in text else "", changed)


def the_link(told: Path, page: subprocess.Popen[bytes]) -> str:
    """The start link, once the page has printed it."""
    while page.poll() is None:
        if found := re.search(r"http://127\.0\.0\.1:\d+/start/\S+", told.read_text(encoding="utf-8", errors="replace")):
            return found[0]
    raise AssertionError(told.read_text(encoding="utf-8", errors="replace"))


def pour(flood: Flood, count: int, pid: int) -> list[int]:
    """Send so many requests, four at a time; what is in memory after each tenth of them."""
    kinds = flood.kinds()
    chosen = flood.chance.choices(kinds, [often for _, _, often in kinds], k=count)
    seen = []
    for tenth in range(10):
        part = chosen[count * tenth // 10 : count * (tenth + 1) // 10]
        hands = [threading.Thread(target=flood.send_all, args=(part[at::4],)) for at in range(4)]
        for hand in hands:
            hand.start()
        for hand in hands:
            hand.join()
        seen.append(resident(pid))
    return seen


def main(count: int = 10_000, seed: int = 1) -> int:
    with tempfile.TemporaryDirectory() as folder:
        found = flooded(Path(folder), Path(folder) / "home", count, seed)
    print(json.dumps(asdict(found), indent=1, sort_keys=True))
    return 1 if found.harmed else 0


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
