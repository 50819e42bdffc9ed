"""One real question to each service. Off by default: ``pytest -m live tests/services/test_live.py``."""

from __future__ import annotations

import os
from contextlib import nullcontext
from datetime import UTC, datetime
from pathlib import Path

import pytest

from namekeeper.evidence.statements import Answer
from namekeeper.files.places import Places
from namekeeper.outside import Outside
from namekeeper.records.specimen import Settings
from namekeeper.sources.kept_answers import Freshness
from namekeeper.sources.services.registry import KEYS, open_services
from namekeeper.sources.services.service import NameService
from tests.services.conftest import no_progress

pytestmark = pytest.mark.live


@pytest.mark.parametrize("key", KEYS)
def test_the_service_answers_in_a_shape_that_we_read(key: str, tmp_path: Path) -> None:
    places = Places(tmp_path, tmp_path, tmp_path)
    outside = Outside(
        tmp_path, places, os.environ, lambda: datetime.now(UTC), print, lambda what: nullcontext(no_progress)
    )
    (service,) = open_services(outside, Settings(), [key], Freshness())
    if service.desk.lacks_secret:
        pytest.skip("no key of a keeper in the environment")
    assert service.probe() is None
    if isinstance(service, NameService):
        # Accepted since its description, Pocock 1899, in every catalogue that we know of.
        answers = list(service.ask(["Poecilotheria regalis", "Poecilotheria metallica"]))
        assert all(isinstance(answer, Answer) for answer in answers)
