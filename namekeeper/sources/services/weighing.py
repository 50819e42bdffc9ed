"""Whether what a service found is what was asked: its own word, spelling, rank and group, compared in one place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from types import MappingProxyType

from namekeeper.evidence.statements import Edition, FailureKind, Match, NameStatus, Statement, TaxonName
from namekeeper.judging.nearness import close_enough
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.words.forms import canonical_of, is_latin, is_plain_line
from namekeeper.words.spelling import match_of, plain_key
from namekeeper.words.terms import Verification

#: The catalogue that most others copy for spiders: such copies share its vote.
SPIDER_CATALOGUE = "world spider catalog"
_SPIDERS = "Araneae"
_SHOWN = 60  # letters of what is no name
_RANK_OF_WORDS = MappingProxyType({1: "genus", 2: "species", 3: "subspecies"})


@dataclass(frozen=True, slots=True)
class Group:
    """The animals that are kept: an answer outside is about a name that is spelt alike, never about the animal."""

    kingdom: str = "Animalia"
    without: tuple[str, ...] = ("Chordata",)

    def excludes(self, found: Found) -> bool:
        """Whether the taxon is told to be none of this group: then it is not even a hint."""
        other = found.subject.kingdom not in (None, "", self.kingdom)
        return other or any(taxon in found.lineage for taxon in self.without)

    def includes(self, found: Found) -> bool:
        """Whether the taxon is told to be of this group, by its kingdom or by the code that governs its name."""
        return not self.excludes(found) and bool(found.subject.kingdom or found.code == "zoological")


@dataclass(frozen=True, slots=True)
class Found:
    """One taxon of a reply.

    ``certain`` is the service's own word that this is the name asked, ``exact`` that it is so letter by letter.
    """

    subject: TaxonName
    status: NameStatus
    targets: tuple[TaxonName, ...]
    certain: bool
    lineage: frozenset[str] = frozenset()
    code: str = ""
    link: str | None = None
    note: str | None = None
    fault: str | None = None
    verification: Verification = Verification.VERIFIED
    exact: bool = False


def usable(found: Iterable[Found], asked: str) -> tuple[Found, ...]:
    """What of a reply is about names of taxa, each as it is printed, a subgenus left out.

    To be called by every reader of a reply on names, so that no other reply is kept.

    :raises UnansweredError: if the reply sends the name to what is no name, or by its own word is about another name
        than the one asked: a mistake on the way, of which nobody can tell what the service has.
    """
    return tuple(_usable(found, asked))


def _usable(found: Iterable[Found], asked: str) -> Iterator[Found]:
    for one in found:
        if not canonical_of(one.subject.name) and not one.certain and not _in_disguise(one.subject.name, asked):
            continue  # the formula of a hybrid, the number of a sequence: no name of a taxon, and none was asked
        subject = printable(one.subject)
        if _is_another(one, subject.name, asked):
            raise bad_reply("it is about", subject.name, "and not about", asked)
        yield replace(one, subject=subject, targets=tuple(map(printable, one.targets)))


def printable(taxon: TaxonName) -> TaxonName:
    """The taxon with its canonical name.

    :raises UnansweredError: if that has not the form of a name, or the authorship holds what nobody would print.
    """
    name = canonical_of(taxon.name)
    if not name or not is_plain_line(taxon.authorship):
        given = " ".join(filter(None, (taxon.name, taxon.authorship)))
        raise bad_reply("it gives", ascii(given[:_SHOWN]), "as a scientific name")
    return taxon._replace(name=name)


def _in_disguise(text: str, asked: str) -> bool:
    """Whether the name asked, or letters that no such text has, stand in what is no name."""
    letters, wanted = ("".join(filter(str.isalpha, plain_key(one))) for one in (text, asked))
    return bool(canonical_of(asked)) and (wanted in letters or not is_latin(text))


def _is_another(found: Found, name: str, asked: str) -> bool:
    """Whether what the service calls the name asked is another: of letter by letter any, else one of no likeness."""
    if not found.certain or len(name.split()) != len(asked.split()) or match_of(asked, name).value != Match.SIMILAR:
        return False
    return found.exact or (" " in name and not is_like(name, asked))


def is_like(name: str, asked: str) -> bool:
    """Whether a name has a word of the one asked, or is spelt similarly."""
    return bool(set(plain_key(name).split()) & set(plain_key(asked).split())) or close_enough(asked, name, 0)


def bad_reply(*why: str) -> UnansweredError:
    """The fault for a reply that is well formed and no answer."""
    return UnansweredError(FailureKind.BAD_REPLY, f"its reply cannot be used: {' '.join(why)}")


def weigh(found: Found, asked: str, group: Group, edition: Edition) -> Statement:
    """The statement of ``found``; its match tells whether it speaks.

    Beside the service's own word the spelling, the rank and the group are compared with what was asked. Letter classes
    (contract section 1, row 3) never speak here: that they need a look into all lists, a service cannot give.
    """
    match = Match(match_of(asked, found.subject.name).value)
    words = len(asked.split())
    doubts = [found.note] if found.note else []
    if not found.certain or match is Match.LETTERS:
        match = Match.SIMILAR
    if found.subject.rank != rank_of(asked):
        match = Match.HIGHER_RANK if len(found.subject.name.split()) < words else Match.SIMILAR
    if not group.includes(found):
        match = Match.SIMILAR
        doubts.append("it is not told to be an animal of the group")
    if found.status is NameStatus.AMBIGUOUS and len(found.targets) < 2:
        match = Match.SIMILAR
        doubts.append("it stands for several taxa, not all of which are told")
    if _SPIDERS in found.lineage:
        edition = edition._replace(upstream=SPIDER_CATALOGUE)
    return Statement(
        edition=edition,
        asked=asked,
        match=match,
        subject=found.subject,
        status=found.status,
        targets=found.targets,
        verification=found.verification,
        link=found.link,
        note="; ".join(doubts) or None,
        fault=found.fault,
    )


def rank_of(name: str) -> str:
    """The rank that a canonical name has by the number of its words (ICZN Art. 4, 5), "" for none of these."""
    return _RANK_OF_WORDS.get(len(name.split()), "")


def rank_group(rank: str) -> str:
    """Synonyms stay within their group of ranks (ICZN Art. 23): the species group, the genus group, the rest."""
    groups = {"subspecies": "species", "subgenus": "genus"}
    return groups.get(rank, rank)
