"""Every word by which a service says what it found, with and without author (``constructed_words``)."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from namekeeper.evidence.statements import Answer, Failure
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.replies import WebReply
from tests.services import constructed_words as made
from tests.services.conftest import Bench, FakeTime
from tests.services.good import checklistbank as good_checklistbank
from tests.services.good import gbif as good_gbif
from tests.services.test_any_reply import JSON, UNUSABLE, changed, places


def heard(bench: Bench, word: made.Word, body: Any) -> Answer | Failure:
    """What the adapter makes of ``body``, sent to every question that is no question for an edition."""
    service = bench.open(word.service, "http://127.0.0.1:9", authorship_of=lambda name: word.author)

    def send(question: WebQuestion, sent: object = None, *others: object) -> WebReply:
        if question.path.endswith("3LXR"):
            return WebReply(good_checklistbank.DATASET)
        if question.path.endswith("metadata"):
            return WebReply(good_gbif.METADATA)
        if question.path.endswith(made.SPIDER_VALID):
            return WebReply(made.wsc("VALID", made.VALID, lsid=made.SPIDER_VALID))
        return WebReply([body] if isinstance(sent, list) else body)

    service.desk.http.send = send
    (reply,) = service.ask([made.NAME])
    assert isinstance(reply, Answer | Failure)
    return reply


@pytest.mark.parametrize("word", made.WORDS, ids=str)
def test_every_word_is_understood(bench: Bench, word: made.Word) -> None:
    said = heard(bench, word, word.body)
    if isinstance(said, Failure):
        assert word.said == made.FAILS, said
        return
    kind = made.SPEAKS if said.statements else made.HINTS if said.hints else made.SILENT
    assert kind == word.said
    if word.status is not None:
        (statement,) = said.statements
        assert (statement.status, tuple(end.name for end in statement.targets)) == (word.status, word.targets)
        assert statement.fault is None


@given(data=st.data())
@settings(max_examples=150, deadline=None)
def test_one_value_of_any_of_them_changed_to_anything(data: st.DataObject) -> None:
    word = data.draw(st.sampled_from(made.WORDS))
    body = changed(word.body, data.draw(st.sampled_from(places(word.body))), data.draw(JSON))
    with TemporaryDirectory() as folder:
        said = heard(Bench(Path(folder), FakeTime()), word, body)
    assert isinstance(said, Answer) or said.why.startswith(UNUSABLE), said


def test_every_word_names_the_code_it_follows() -> None:
    assert {word.service for word in made.WORDS} == {"checklistbank", "gbif", "inaturalist", "spidercatalog"}
    assert all("/" in word.after and "." in word.after for word in made.WORDS)
    assert len({str(word) for word in made.WORDS}) == len(made.WORDS)
