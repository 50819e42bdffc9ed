"""One real question to each service. Off by default: ``pytest -m live tests/services/test_live.py``."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path

import pytest

from namekeeper.evidence.statements import Answer
from namekeeper.records.specimen import Settings
from namekeeper.sources.freshness import Freshness
from namekeeper.sources.services.registry import KEYS, Outside, Wire, open_all
from namekeeper.sources.services.service import NameService

pytestmark = pytest.mark.live


@pytest.mark.parametrize("key", KEYS)
def test_the_service_answers_in_a_shape_that_we_read(key: str, tmp_path: Path) -> None:
    outside = Outside(tmp_path, os.environ, print, lambda: datetime.now(UTC), Wire())
    (service,) = open_all([key], Settings(), outside, Freshness())
    if service.profile.needs_key and not service.desk.secret:
        pytest.skip("no key of a keeper in the environment")
    assert service.probe() is None
    if isinstance(service, NameService):
        # Accepted since its description, Pocock 1899, in every catalogue that we know of.
        answers = list(service.ask(["Poecilotheria regalis", "Poecilotheria metallica"]))
        assert all(isinstance(answer, Answer) for answer in answers)
