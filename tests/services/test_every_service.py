"""What holds of every service beside its behaviour under faults: its profile, its key, its place among the sources."""

from __future__ import annotations

import re

import pytest

from namekeeper.evidence.statements import Edition
from namekeeper.judging.ballot import GENERAL, Trust
from namekeeper.sources.services.registry import KEYS, SERVICES
from namekeeper.sources.services.service import Profile
from tests import conftest
from tests.services.conftest import SECRET, Bench
from tests.services.good_replies import good
from tests.services.local_server import LocalServer
from tests.services.test_faults import outcomes


@pytest.fixture
def profile(key: str) -> Profile:
    (found,) = (kind.profile for kind in SERVICES if kind.profile.key == key)
    return found


def test_its_profile_is_whole(profile: Profile) -> None:
    edition = profile.edition()
    assert re.fullmatch(r"[a-z][a-z0-9]*", profile.key)
    assert profile.base.startswith("https://")
    assert edition.complete_for == ()
    assert edition.upstream
    assert edition.dated is None  # the time of asking is no edition
    assert profile.jobs
    assert KEYS.count(profile.key) == 1


def test_its_key_is_sent_to_it_alone(bench: Bench, server: LocalServer, key: str, profile: Profile) -> None:
    """The bench holds a key for every service that needs one."""
    server.answer = lambda asked: good(key, asked)
    said = outcomes(bench.open(key, server.base))
    expected = [(profile.own_key.parameter, SECRET)] if profile.own_key else []
    secrets = {SECRET, *(f"of-{other}" for other in KEYS)}
    for asked in server.asked:
        assert [(name, value) for name, value in asked.query.items() if value in secrets] == expected
    assert server.asked
    assert SECRET not in repr(said) + bench.all_texts()


def test_no_test_can_ask_it_by_mistake(profile: Profile) -> None:
    assert conftest.NOWHERE[profile.address_variable] == "http://127.0.0.1:9"


def test_it_ranks_below_the_lists_unless_somebody_placed_it(profile: Profile) -> None:
    """A service that nobody argued a place for must not lead the keeper's own lists."""
    own_list = Edition("my-list", "An export", "an export")
    behind = Trust().rank(own_list, ()) < Trust().rank(profile.edition(), ())
    assert behind or profile.key in GENERAL
