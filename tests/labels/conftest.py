"""Sheets, templates and type are loaded once for all tests of labels."""

from __future__ import annotations

import pytest

from namekeeper.tasks.label_bench import Workshop, open_workshop


@pytest.fixture(scope="session")
def workshop() -> Workshop:
    """What ships."""
    return open_workshop(None)
