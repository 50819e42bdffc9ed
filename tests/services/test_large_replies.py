"""Replies of 100 MB, packed or not, and small ones that swell: refused with less than 64 MB beyond the process."""

from __future__ import annotations

import gzip
import json
import zlib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from namekeeper.sources.http_limits import HttpSettings
from namekeeper.sources.json_text import document_of
from namekeeper.sources.lists import catalogue
from tests.limited import MB, run_limited
from tests.services.local_server import Asked, Canned, serving

pytest.importorskip("resource", reason="limits of this kind are of POSIX systems")
if not Path("/proc/self/status").exists():
    pytest.skip("memory is told as Linux does", allow_module_level=True)
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
    told = asked(Canned(body=PACKED[kind](RAW), headers=headers))
    assert told["why"] == "its reply is larger than 6 MB"
    assert told["grown"] < 64 * MB


#: What takes much more memory as values than as a text, each for as many bytes as a page of a list may have.
SWELLING: dict[str, Callable[[int], bytes]] = {
    "empty lists": lambda size: b"[" + b"[]," * (size // 3) + b"[]]",
    "small objects": lambda size: b"[" + b'{"a":1},' * (size // 8) + b"1]",
    "short texts": lambda size: json.dumps([f"{number}" for number in range(size // 12)]).encode(),
    "one sign of four bytes": lambda size: '["\U0001f577'.encode() + b"a" * size + b'"]',
    "one long text": lambda size: b'["' + b"a" * size + b'"]',
}


@pytest.mark.parametrize("kind", SWELLING)
def test_a_reply_just_small_enough_does_not_swell(kind: str) -> None:
    """Pages of ``lists fetch`` may be the largest of all; an empty list takes three bytes on the wire and 64 here."""
    body = SWELLING[kind](catalogue.MOST_BYTES - 1000)
    told = asked(Canned(body=body, headers={"Content-Type": "application/json"}), catalogue.MOST_BYTES)
    swells = "its reply would take more memory than any answer"
    assert told["why"] == ("answered: list" if kind == "one long text" else swells)
    assert told["grown"] < 64 * MB


def test_the_largest_answers_that_are_known_are_small_beside_the_bound() -> None:
    """A page of as many names as one holds, each with a classification of 30 taxa and five common names (invented)."""
    taxa = [{"id": f"K{n}", "name": f"Taxon{n}", "rank": "genus", "labelHtml": f"<i>Taxon{n}</i>"} for n in range(30)]
    common = [{"name": "ein Name", "language": "deu"}] * 5
    names = [{"id": f"N{n}", "classification": taxa, "vernacularNames": common} for n in range(500)]
    assert document_of(json.dumps(names)) == names


def asked(reply: Canned, most: int = HttpSettings().max_bytes) -> dict[str, Any]:
    """What one process tells of one question that is answered so."""

    def answer(_asked: Asked) -> Canned:
        return reply

    with serving(answer) as server:
        address = f"http://127.0.0.1:{server.port}"
        done = run_limited("tests.services.one_question", address, str(most), memory=1500 * MB, seconds=20)
    assert done.returncode == 0, done.stderr
    told: dict[str, Any] = json.loads(done.stdout)
    return told
