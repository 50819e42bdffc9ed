"""Cautions as a union over every name an animal may have; a list that cannot be asked is told."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

import pytest

from namekeeper.evidence.interfaces import NameCard, NameList, Near
from namekeeper.evidence.statements import (
    ActKind,
    Answer,
    Caution,
    CommonName,
    Dispute,
    Division,
    Edition,
    Failure,
    FailureKind,
    GenusRecord,
    Match,
    Misuse,
    NameStatus,
    Reply,
    Statement,
    TaxonName,
    TradeForm,
)
from namekeeper.labels.content import LabelWishes, SpeciesFacts, make_content
from namekeeper.records.specimen import NameEntry
from namekeeper.tasks.label_facts import gather_facts
from namekeeper.words.terms import Verification
from tests.labels.animals import EDITION, specimen

SOUND = Verification.VERIFIED


class SmallList(NameList):
    """Knows a synonym, a misuse, a split, a dispute and a trade form, all invented; every taxon has its own caution."""

    broken = False

    @property
    def edition(self) -> Edition:
        return EDITION

    def ask(self, names: Sequence[str]) -> Iterator[Reply]:
        for name in names:
            yield Failure(EDITION, name, FailureKind.BROKEN, "no index") if self.broken else self._answer(name)

    def _answer(self, name: str) -> Answer:
        target = TaxonName("Novus bus", higher=("Novidae",))
        if name == "Aus bus":
            found = Statement(EDITION, name, Match.SAME, TaxonName(name), NameStatus.SYNONYM, (target,))
            return Answer(EDITION, name, (found,))
        if name == "Aus misus":
            return Answer(EDITION, name, misuses=(Misuse(name, "", (target,), None, None, None, "", SOUND),))
        if name == "Aus divisus":
            return Answer(EDITION, name, divisions=(Division(name, (target,), ActKind.SPLIT, None, None, "", SOUND),))
        if name == "Aus disputus":
            return Answer(EDITION, name, disputes=(Dispute(name, (target,), "", SOUND),))
        return Answer(EDITION, name)

    def cautions(self, taxa: Iterable[str]) -> tuple[Caution, ...]:
        return tuple(Caution(taxon, "", "venom_report", "told", "", "", "", SOUND) for taxon in taxa)

    def forms(self, genus: str | None, words: str) -> tuple[TradeForm, ...]:
        described = TaxonName("Aus ruber") if words == "Red" else None
        return (TradeForm(genus or "", words, described, "", SOUND),)

    def card(self, name: str) -> NameCard | None:
        taxon = TaxonName(name)
        common = (
            CommonName("velvet walker", "en", taxon, "common", EDITION, usual=True),
            CommonName("red velvet walker", "en", taxon, "common", EDITION),  # a colour form
            CommonName("dune walker", "en", taxon, "common", EDITION, usual=True),
            CommonName("night walker", "en", taxon, "common", EDITION),
            CommonName("VW", "en", taxon, "abbreviation", EDITION, usual=True),
        )
        return NameCard(taxon, (), common, (), "") if name == "Novus bus" else None

    def named(self, name: str) -> tuple[Statement, ...]:
        return ()

    def abbreviated(self, genus_start: str, epithet: str) -> tuple[Statement, ...]:
        return ()

    def with_epithet(self, epithet: str) -> tuple[Statement, ...]:
        return ()

    def prefixed(self, start: str, limit: int = 20) -> tuple[Statement, ...]:
        return ()

    def genus(self, genus: str) -> GenusRecord | None:
        return None

    def common(self, words: str) -> tuple[CommonName, ...]:
        """ "Dune walker" means another species, too."""
        meant = ("Novus bus", "Novus alter") if words == "dune walker" else ("Novus bus",)
        return tuple(CommonName(words, "en", TaxonName(name), "common", EDITION) for name in meant)

    def common_with(self, words: Iterable[str]) -> tuple[CommonName, ...]:
        return ()

    def similar(self, name: str, limit: int = 8) -> tuple[Near, ...]:
        return ()

    def similar_genus(self, genus: str, limit: int = 8) -> tuple[tuple[GenusRecord, int], ...]:
        return ()

    def similar_common(self, words: str, limit: int = 8) -> tuple[tuple[CommonName, float], ...]:
        return ()


def warned(*entries: NameEntry) -> set[str]:
    facts = gather_facts([specimen("A1", *entries, tag="x")], [SmallList()])
    return {caution.taxon for caution in facts.known["A1"].cautions}


@pytest.mark.parametrize("name", ["Aus bus", "Aus misus", "Aus divisus", "Aus disputus"])
def test_whatever_a_name_may_stand_for_is_warned_of_with_the_taxa_above(name: str) -> None:
    assert warned(NameEntry(name)) >= {"Aus", name, "Novus", "Novus bus", "Novidae"}


def test_parents_of_a_hybrid_subspecies_and_trade_forms_are_counted() -> None:
    assert warned(NameEntry("Aus primus × Cus secundus")) >= {"Aus primus", "Cus", "Cus secundus"}
    assert warned(NameEntry("Aus bus minor")) >= {"Aus", "Aus bus", "Aus bus minor"}
    assert "Aus ruber" in warned(NameEntry("Aus", qualifier="sp.", trade_form="Red"))


def test_a_name_more_never_takes_a_caution_away() -> None:
    entries = [NameEntry(name) for name in ("Aus bus", "Aus misus", "Cus dus", "not a name at all, 12")]
    for count in range(1, len(entries)):
        for some in combinations(entries, count):
            for one in entries:
                assert warned(*some) <= warned(*some, one)


def test_common_names_on_labels_are_usual_and_mean_no_other_species() -> None:
    facts = gather_facts([specimen("A1", NameEntry("Novus bus"))], [SmallList()])
    assert [name.text for name in facts.known["A1"].common] == ["velvet walker"]


@pytest.mark.parametrize(
    ("tag", "printed"),
    [
        ("Night walkers 0.1", "Night walker"),  # the tag's own words before the usual name
        ("Red velvet walker", "Red velvet walker"),  # a colour form only where the tag states it
        ("velvet walker", "Velvet walker"),
        ("red walker, velvet", "Velvet walker"),  # no name: the words do not stand together
        ("Dune walker", "Velvet walker"),  # ambiguous, so no name for a label
        ("VW 3cm", "Velvet walker"),
    ],
)
def test_the_name_by_which_it_was_sold_is_printed_where_it_is_one_of_the_species(tag: str, printed: str) -> None:
    one = specimen("A1", NameEntry("Novus bus"), tag=tag)
    facts = gather_facts([one], [SmallList()])
    ((piece,),) = make_content(one, facts.known["A1"], LabelWishes()).fields["common"]
    assert "".join(run.text for run in piece) == printed


def test_an_unsettled_tag_has_no_common_name() -> None:
    one = specimen("A1", tag="Night walker")
    assert "common" not in make_content(one, SpeciesFacts(), LabelWishes()).fields


def test_a_list_that_cannot_be_asked_is_told() -> None:
    broken = SmallList()
    broken.broken = True
    facts = gather_facts([specimen("A1", NameEntry("Aus bus"))], [broken])
    assert [failure.why for failure in facts.failures] == ["no index"]
