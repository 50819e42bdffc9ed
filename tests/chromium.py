"""Debian's chromium, driven without a network; tests that need it say so where it is missing."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from playwright.sync_api import Browser, expect, sync_playwright

#: Nothing of the browser's own may look for a network.
_QUIET = (
    "--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-first-run",
    "--disable-gpu", "--disable-quic",
)  # fmt: skip


@contextmanager
def chromium() -> Iterator[Browser]:
    """A headless browser; the test is skipped where Debian's package ``chromium`` is not installed."""
    place = shutil.which("chromium")
    if place is None:
        pytest.skip("driven tests need a browser: apt-get install chromium (Debian)")
    as_root = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    expect.set_options(timeout=60_000)  # ms; a busy machine is slow, and not wrong
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=place, args=[*_QUIET, *as_root])
        try:
            yield browser
        finally:
            browser.close()
