"""GBIF: match v2 against the Catalogue of Life, always with an explicit checklist.

Without ``checklistKey`` the API still answers from a backbone that is no longer kept up. The resources that list
synonyms and common names (v1) know only keys of that backbone, so nothing is taken from them: ChecklistBank lists what
this same catalogue has.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import timedelta
from functools import partial

from namekeeper.evidence.statements import Edition, Reply
from namekeeper.sources.desk import Batch, Told
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.sources.services.gbif_replies import Matched, hinted_in, read_match, read_release, spelt_in
from namekeeper.sources.services.service import Job, NameService, Profile
from namekeeper.sources.services.weighing import Found, is_like
from namekeeper.words.dates import PartialDate
from namekeeper.words.spelling import plain_key

_CATALOGUE = ("checklistKey", "7ddf754f-d193-4cc9-b351-99906754a03b")
_KINGDOM = ("kingdom", "Animalia")
_MATCH = "v2/species/match"
_AT_ONCE = 40
_ALIAS = re.compile(r"COL\s?(?:20)?(\d\d)(?:\.(\d\d?))?(?!\d)", re.ASCII)


class Gbif(NameService):
    """Asks names in batches of one POST; every answer is kept by itself."""

    __slots__ = ()
    profile = Profile(
        key="gbif",
        title="Catalogue of Life at GBIF",
        base="https://api.gbif.org",
        upstream="catalogue of life",
        licence="CC BY 4.0",
        citation="Catalogue of Life, extended release, by way of the GBIF species API",
        link="https://www.gbif.org/species/search",
        jobs=(Job.NAMES,),
        spacing=1.0,
        expiry=timedelta(days=7),
    )

    def current_edition(self) -> Edition:
        """The release in the matching index, once a week; unknown if it is not told."""
        try:
            release = self.desk.ask(WebQuestion(f"{_MATCH}/metadata", (_CATALOGUE,)), read_release).value
        except UnansweredError:
            return self.edition
        citation = f"{self.profile.citation}, {release}"
        return self.edition._replace(edition=release, dated=_month(release), citation=citation)

    def look_up(self, name: str) -> Told[tuple[Found, ...]]:
        return self._decided(name, self.desk.ask(_question(name), _reader(name)))

    def _decided(self, name: str, told: Told[Matched]) -> Told[tuple[Found, ...]]:
        """Homonyms are listed only to a verbose question, which is long: it is put for them alone."""
        if told.value.undecided and not told.value.found:
            told = self.desk.ask(_question(name, verbose=True), _reader(name))
        return told.of(told.value.found)

    def ask(self, names: Sequence[str]) -> Iterator[Reply]:
        edition = self.current_edition()
        batch = Batch(WebQuestion(_MATCH, (_CATALOGUE,)), _item, _paired)
        for start in range(0, len(names), _AT_ONCE):
            some = names[start : start + _AT_ONCE]
            told = self.desk.ask_many({_question(name): _reader(name) for name in some}, batch)
            for name in some:
                yield self._reply(name, told[_question(name)], edition)

    def _reply(self, name: str, told: Told[Matched] | UnansweredError, edition: Edition) -> Reply:
        try:
            if isinstance(told, UnansweredError):
                raise told
            return self.reply(name, self._decided(name, told), edition)
        except UnansweredError as fault:
            return self.failure(name, fault)


def _reader(name: str) -> Callable[[object], Matched]:
    return partial(read_match, asked=name)


def _question(name: str, *, verbose: bool = False) -> WebQuestion:
    params = (("scientificName", name), _KINGDOM, _CATALOGUE)
    return WebQuestion(_MATCH, (*params, ("verbose", "true")) if verbose else params)


def _item(question: WebQuestion) -> object:
    """A query in a batch holds its higher taxa in ``classification``; beside the name they are not read there."""
    return {"scientificName": _asked(question), "classification": dict([_KINGDOM])}


def _asked(question: WebQuestion) -> str:
    return dict(question.params)["scientificName"]


def _paired(questions: Sequence[WebQuestion], documents: Sequence[object]) -> Mapping[WebQuestion, object]:
    """Every answer with the question it is about.

    They are promised in the order of the questions. As soon as one is about another name that was asked, or hints at
    one, only those are taken that name what they are about: one that found nothing does not.
    """
    places = {plain_key(_asked(question)): place for place, question in enumerate(questions)}
    about = [places.get(plain_key(spelt_in(document))) for document in documents]
    hinted = ["" if own is not None else hinted_in(document) for own, document in zip(about, documents, strict=True)]
    in_order = all(own in (None, place) for place, own in enumerate(about))
    if in_order and not any(_is_elsewhere(hint, place, questions) for place, hint in enumerate(hinted)):
        return dict(zip(questions, documents, strict=True))
    told = [own for own in about if own is not None]
    return {
        questions[own]: document
        for own, document in zip(about, documents, strict=True)
        if own is not None and told.count(own) == 1
    }


def _is_elsewhere(hint: str, place: int, questions: Sequence[WebQuestion]) -> bool:
    """Whether a hint at a similar name or a genus fits another name that was asked, and not the one in its place."""
    fits = [is_like(hint, _asked(question)) for question in questions] if hint else []
    return any(fits) and not fits[place]


def _month(alias: str) -> PartialDate | None:
    """``COL26.6 XR`` is the release of June 2026; annual ones have no month."""
    found = _ALIAS.match(alias)
    if found is None:
        return None
    try:
        return PartialDate.parse(f"20{found[1]}" + (f"-{int(found[2]):02}" if found[2] else ""))
    except ValueError:
        return None
