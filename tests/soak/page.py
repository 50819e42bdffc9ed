"""The page as a browser without a screen uses it, over HTTP; and what its server takes of memory."""

from __future__ import annotations

import re
import resource
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from html import unescape
from pathlib import Path
from urllib.parse import urljoin

import requests

_SECONDS = 60
_UNLIMITED = (resource.RLIM_INFINITY, resource.RLIM_INFINITY)


@dataclass
class Shown:
    """A page as it came."""

    status: int
    text: str

    @property
    def told(self) -> str:
        """What the page says was done."""
        return " ".join(re.findall(r'<section class="said".*?</section>', self.text, re.S))

    @property
    def fault(self) -> str:
        return " ".join(re.findall(r'<section class="fault".*?</section>', self.text, re.S))

    def field(self, name: str) -> str:
        found = re.search(rf'name="{name}" value="([^"]*)"', self.text)
        if found is None:
            area = re.search(rf'<textarea[^>]*name="{name}"[^>]*>(.*?)</textarea>', self.text, re.S)
            return unescape(area[1]) if area else ""
        return unescape(found[1])


@dataclass
class Page:
    """A running ``namekeeper browse`` and one visitor."""

    folder: Path
    environ: Mapping[str, str]
    log: Path
    steps: int | None = None  # file operations after its first journal, then it is killed; None: it is let live
    process: subprocess.Popen[str] = field(init=False)
    base: str = field(init=False)
    session: requests.Session = field(init=False)
    writer: threading.Thread = field(init=False)

    def __post_init__(self) -> None:
        program = ["namekeeper"] if self.steps is None else ["tests.soak.doomed", str(self.steps)]
        self.process = subprocess.Popen(
            [sys.executable, "-m", *program, "browse", str(self.folder), "--no-open"],
            cwd=self.folder.parent, env=self.environ, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
            stderr=subprocess.PIPE, text=True, encoding="utf-8",
        )  # fmt: skip
        assert self.process.stdout is not None
        self.writer = threading.Thread(target=self._write_down)
        self.writer.start()
        said = self.process.stdout.readline()
        found = re.search(r"http://\S+", said)
        assert found, f"the page did not open: {said!r} {self.log.read_text(encoding='utf-8')[-2000:]}"
        self.base = found[0]
        self.session = requests.Session()
        self.session.trust_env = False
        assert self._answer(self.session.get(found[0], timeout=_SECONDS)).status == 200

    def _write_down(self) -> None:
        """Its talk goes into the log by us: a full disk of its own must not cut it off."""
        assert self.process.stderr is not None
        with self.process.stderr as told:
            for line in told:
                with self.log.open("a", encoding="utf-8") as log:
                    log.write(line)

    def get(self, path: str) -> Shown:
        """The page, once what goes on for it is done."""
        ends = time.monotonic() + _SECONDS
        while True:
            shown = self._answer(self.session.get(urljoin(self.base, path), timeout=_SECONDS))
            if 'http-equiv="refresh"' not in shown.text:
                return shown
            assert time.monotonic() < ends, f"{path} is still being compared"
            time.sleep(0.2)

    def post(self, path: str, shown: Shown, fields: Mapping[str, str]) -> Shown:
        """Send a form that stood on ``shown``; the page that it leads to."""
        hidden = {name: shown.field(name) for name in ("csrf_token", "collection")}
        sent = self.session.post(
            urljoin(self.base, path), data={**hidden, **fields}, timeout=_SECONDS, allow_redirects=False
        )
        if sent.status_code == 303:
            return self.get(sent.headers["Location"])
        return self._answer(sent)

    def memory(self) -> tuple[int, int]:
        """MB of main memory of the server, and of the process that draws for it."""
        return _resident(self.process.pid), sum(map(_resident, _children(self.process.pid)))

    @contextmanager
    def with_a_full_disk(self, room: int) -> Iterator[None]:
        """Within, no file of the server can be longer than ``room`` bytes."""
        resource.prlimit(self.process.pid, resource.RLIMIT_FSIZE, (room, resource.RLIM_INFINITY))
        try:
            yield
        finally:
            resource.prlimit(self.process.pid, resource.RLIMIT_FSIZE, _UNLIMITED)

    def end(self) -> int:
        """Ctrl-C; the exit code."""
        self.process.send_signal(signal.SIGINT)
        return self._over()

    def kill(self) -> None:
        self.process.kill()
        self._over()

    def _over(self) -> int:
        self.session.close()
        try:
            self.process.wait(timeout=_SECONDS)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
            message = "the server did not end"
            raise AssertionError(message) from None
        finally:
            if self.process.stdout is not None:
                self.process.stdout.close()
            self.writer.join()
        return self.process.returncode

    @staticmethod
    def _answer(reply: requests.Response) -> Shown:
        return Shown(reply.status_code, reply.text)


def _resident(process: int) -> int:
    """MB, VmRSS of proc_pid_status(5)."""
    try:
        text = Path(f"/proc/{process}/status").read_text(encoding="utf-8")
    except OSError:
        return 0
    found = re.search(r"VmRSS:\s+(\d+) kB", text)
    return int(found[1]) // 1024 if found else 0


def _children(process: int) -> list[int]:
    found = []
    for task in Path(f"/proc/{process}/task").glob("*/children"):
        try:
            found += [int(number) for number in task.read_text(encoding="utf-8").split()]
        except OSError:
            continue
    return found
