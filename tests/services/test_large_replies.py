"""Replies of 100 MB, packed or not: named as too large, with less than 64 MB beyond the process."""

from __future__ import annotations

import gzip
import json
import zlib
from collections.abc import Callable

import pytest

from tests.limited import MB, run_limited
from tests.services.local_server import Asked, Canned, serving

pytest.importorskip("resource", reason="memory is measured as POSIX systems do")
RAW = b'{"x": "' + b"a" * (100 * MB) + b'"}'


def brotli(content: bytes) -> bytes:
    packed: bytes = pytest.importorskip("brotli").compress(content, quality=5)
    return packed


def zstd(content: bytes) -> bytes:
    packed: bytes = pytest.importorskip("zstandard").compress(content)
    return packed


PACKED: dict[str, Callable[[bytes], bytes]] = {
    "": bytes,
    "gzip": lambda content: gzip.compress(content, 1),
    "deflate": lambda content: zlib.compress(content, 1),
    "br": brotli,
    "zstd": zstd,
}


@pytest.mark.parametrize("kind", PACKED)
def test_a_reply_of_100_mb_is_too_large_and_fills_no_memory(kind: str) -> None:
    headers = {"Content-Type": "application/json"} | ({"Content-Encoding": kind} if kind else {})
    reply = Canned(body=PACKED[kind](RAW), headers=headers)

    def answer(_asked: Asked) -> Canned:
        return reply

    with serving(answer) as server:
        address = f"http://127.0.0.1:{server.port}"
        done = run_limited("tests.services.one_question", address, memory=1500 * MB, seconds=20)
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    assert told["why"] == "its reply is larger than 6 MB"
    assert told["grown"] < 64 * MB
