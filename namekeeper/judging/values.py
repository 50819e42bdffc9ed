"""What is asked of judgement, as a value."""

from __future__ import annotations

from dataclasses import dataclass

from namekeeper.evidence.statements import Caution, GenusRecord, TaxonName, TradeForm
from namekeeper.words.dates import PartialDate
from namekeeper.words.gender import WordClass


@dataclass(frozen=True, slots=True)
class Question:
    """A name on a label, with all that may change its meaning.

    ``name`` is canonical ("Genus epithet", "Genus epithet subspecies"; only "Genus" where no species was given).
    ``parents`` are the canonical names of a hybrid's parents. ``genus_records`` holds the genus as the lists on this
    machine know it and every genus it leads to (see :func:`namekeeper.judging.asking.genera`); ``trade_forms`` the
    recorded forms of that name; ``cautions`` those of the taxon, for the name that a permit carries.
    ``namesakes``: names that lists have where the whole genus would take this one (see :attr:`Facts.taken_by`).
    ``decided_once``: the keeper has kept or chosen this very name after its misuse was cleared up.
    """

    name: str
    authorship: str = ""
    label_date: PartialDate | None = None
    qualifier: str = ""
    trade_form: str = ""
    form: str = ""
    locality: str = ""
    decided_once: bool = False
    parents: tuple[str, ...] = ()
    genus_records: tuple[GenusRecord, ...] = ()
    trade_forms: tuple[TradeForm, ...] = ()
    cautions: tuple[Caution, ...] = ()
    word_class: WordClass = WordClass.UNDECIDED
    namesakes: tuple[TaxonName, ...] = ()
