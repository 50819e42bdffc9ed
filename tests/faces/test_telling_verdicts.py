"""Every code of a reason, a ground and a note has its sentence, with what it is about in the right places."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from namekeeper.evidence.candidates import MAY_BE_REAL, Candidate, Note, NoteCode
from namekeeper.evidence.statements import (
    Act,
    ActKind,
    Caution,
    Dispute,
    Division,
    Edition,
    Failure,
    FailureKind,
    GenusRecord,
    Match,
    Misuse,
    NameStatus,
    Statement,
    TaxonName,
    TradeForm,
)
from namekeeper.evidence.verdicts import (
    Choice,
    Claims,
    Ground,
    GroundCode,
    Position,
    Reason,
    ReasonCode,
    Said,
    Silence,
    Verdict,
)
from namekeeper.faces.telling.evidence import parts, says
from namekeeper.faces.telling.notes import SENTENCES, notes
from namekeeper.faces.telling.notes import sentence as note_sentence
from namekeeper.faces.telling.sources import failed
from namekeeper.faces.telling.verdicts import GROUNDS, REASONS, grounds, in_short, in_words, lines, sentence, why
from namekeeper.words.dates import PartialDate
from namekeeper.words.terms import How, Standing, Verification

SOUND, RECALLED = Verification.VERIFIED, Verification.MEMORY
LIST = Edition("mine", "My list", "mine", "2024", licence="CC0", link="https://a.example")
OLD, NEW = TaxonName("Aus bus", "Smith, 1900"), TaxonName("Cus bus", "(Smith, 1900)")
SUNK = Statement(LIST, "Aus bus", Match.SAME, OLD, NameStatus.SYNONYM, (NEW,))
HELD = Position(LIST, (SUNK,))
HELD_WORDS = "My list 2024: Aus bus Smith, 1900 is a synonym of Cus bus (Smith, 1900)"
PAPER = "Brown, B. (2001). On Aus. A journal 1: 1-2"


def year(text: str) -> PartialDate:
    return PartialDate.parse(text)


MISUSE = Misuse("Aus bus", "", (NEW, OLD), year("1980"), year("2001"), None, PAPER, RECALLED, "in jars")
SPLIT = Division("Aus bus", (OLD, NEW), ActKind.SPLIT, year("2001"), None, PAPER, SOUND, "by hairs")
SIDES = Dispute("Aus bus", (OLD, NEW), PAPER, SOUND)
FORM = TradeForm("Aus", "Red", NEW, PAPER, RECALLED)
GENUS = GenusRecord("Aus", None, None, accepted=True, moved_to=("Cus",), citation=PAPER)
LISTED = Caution("Aus bus", "species", "law_cites", "Appendix II", "Aus bus", "2001", PAPER, SOUND)
LOST = Failure(LIST, "Aus bus", FailureKind.UNREACHABLE, "no route")
DONE = Act(ActKind.TRANSFER, "Aus bus", "Cus bus", "2001", PAPER, verification=RECALLED)
FOUND = Candidate.of(NEW, How.FORMER, "Aus bus", "mine", notes=[Note(NoteCode.LISTED_AS, ("Aus bus",))])
UNSEEN = "not to be taken unseen: "
C, G, N = ReasonCode, GroundCode, NoteCode

SAID_OF_REASONS = (
    (Reason(C.GENUS_MOVED, ("Aus", "Cus")), "the whole genus Aus is now Cus; which species the animal is stays open"),
    (Reason(C.GENUS_DIVIDED, ("Aus",)), "the genus Aus went to more than one genus: please choose"),
    (
        Reason(C.OPEN, ("aff.",)),
        '"aff." on a label names no species: only its genus is followed',
    ),
    (Reason(C.OPEN_FORM), "a trade form names no species: only its genus is followed"),
    (
        Reason(C.OPEN_GENUS),
        "the label names no species: only its genus is followed",
    ),
    (Reason(C.FORM_DESCRIBED, about=FORM), 'the form "Red" is given as Cus bus: offered, not taken'),
    (
        Reason(C.MISUSE, ("2014",), MISUSE),
        "Aus bus on a label written 2014: the trade used it for Cus bus and Aus bus (Brown 2001); in jars",
    ),
    (
        Reason(C.MISUSE_UNDATED, about=MISUSE._replace(meant=(), note="", citation="")),
        "Aus bus on a label of unknown date: the trade used it for other species",
    ),
    (Reason(C.MISUSE_BY_SOURCE, about=HELD), HELD_WORDS),
    (
        Reason(C.DIVISION, ("1999",), SPLIT),
        "Aus bus means several species by split 2001 (Brown 2001); by hairs; this label was written 1999",
    ),
    (
        Reason(C.DIVISION_UNDATED, about=SPLIT),
        "Aus bus means several species by split 2001 (Brown 2001); by hairs; when this label was written is not known",
    ),
    (Reason(C.DISPUTE, about=SIDES), "published sources differ on Aus bus (Brown 2001)"),
    (
        Reason(C.UNKNOWN, ("Aus nullus",), Claims((LIST, LIST._replace(edition=None), LIST._replace(title="Third")))),
        "Aus nullus is not in My list 2024, My list and Third 2024, said to have every name of its group",
    ),
    (
        Reason(C.COMMON_NAME, ("Red bus",)),
        "Red bus is a common name, and no source here has a taxon in force under it as a scientific one",
    ),
    (
        Reason(C.COMPUTED, ("Aus bus", "Cus bum", "Cus")),
        "no source has Aus bus; Cus bum is only worked out, since the whole genus went to Cus",
    ),
    (
        Reason(C.TAKEN, ("Cus",), NEW),
        ("the whole genus went to Cus, which has a Cus bus (Smith, 1900):"
        " whether that is the same species, no source says"),
    ),
    (
        Reason(C.NO_COMPLETE_SOURCE, ("Aus bus",)),
        "Aus bus is in none of the lists asked, and none of them has every name of its group: the name may be right",
    ),
    (
        Reason(C.NO_LONGER_LISTED, ("Aus bus", "My list 2020"), LIST),
        "Aus bus is no longer in My list 2024; My list 2020 had it",
    ),
    (
        Reason(C.SUCCESSOR, ("Aus bus", "My list 2020", "Cus bus"), LIST),
        "My list 2024 has Cus bus under the identifier that Aus bus had in My list 2020: a proposal, not a statement",
    ),
    (
        Reason(C.NAMESAKE_EPITHET, ("Aus bus", "My list 2020", "Cus bus"), LIST),
        (
            "My list 2024 has Cus bus, new since My list 2020 and of the same epithet and family as Aus bus:"
            " a proposal, not a statement"
        ),
    ),
    (
        Reason(C.OTHERS_SILENT, ("Aus bus",), LIST),
        "My list 2024 is newer, said to have every name of the group, and does not list Aus bus",
    ),
    (Reason(C.ABBREVIATED), "the genus is abbreviated: write it out, or look the name up as a tag"),
    (Reason(C.FAILED, about=LOST), "My list 2024 could not be reached: no route"),
    (Reason(C.BROKEN, about=HELD), HELD_WORDS),
    (
        Reason(C.CONTRADICTION, about=HELD),
        f"{HELD_WORDS}: the same spelling stands for more than one name, none is picked",
    ),
    (Reason(C.DIFFER), "the sources you trust differ on the name in force"),
    *(
        (Reason(code, about=HELD), HELD_WORDS)
        for code in (
            C.POSITION, C.DOUBTFUL, C.UNAVAILABLE, C.SEVERAL, C.CURRENT, C.RESPELLED, C.RENAMED, C.MOVED, C.MERGED,
            C.DOUBTED,
        )
    ),
    (Reason(C.ACT, about=DONE), "Aus bus moved to Cus bus (Brown 2001, from memory)"),
    (
        Reason(C.BRACKETS_DUE, ("Smith, 1900", "(Smith, 1900)"), LIST),
        ("My list 2024: the source prints Smith, 1900; the species stands in another genus than its first,"
        " so by the Code (Art. 51.3) it is (Smith, 1900)"),
    ),
    (
        Reason(C.BRACKETS_NOT_DUE, ("(Smith, 1900)", "Smith, 1900"), LIST),
        ("My list 2024: the source prints (Smith, 1900); the species stands in the genus of its first description,"
        " so by the Code (Art. 51.3) it is Smith, 1900"),
    ),
    (Reason(C.SPELLING_ACT, ("Aus bum",)), "the source itself changed the spelling to Aus bum"),
    (Reason(C.MARKS_ONLY, ("Aus bum",)), "only marks, hyphens or capitals differ: the source prints Aus bum"),
    (Reason(C.ENDING_ONLY, ("Aus bum",)), "only the ending differs: the source prints Aus bum"),
    (Reason(C.LETTERS_ONLY, ("Aus bum",)), "other letters of one name: the source prints Aus bum"),
    (
        Reason(C.MAY_BE_OWN, ("Aus bum",)),
        "Aus bum may also be a species of its own: no list asked is complete for its group",
    ),
    (Reason(C.TAG_ONLY), "nothing was settled yet: only the tag"),
    (Reason(C.HYBRID), "a hybrid: each parent is judged, nothing is changed unseen"),
    (
        Reason(C.PARENT, ("Aus bus", "moved"), Reason(C.DIFFER)),
        f"Aus bus: moved to another genus or rank; {REASONS[C.DIFFER]}",
    ),
    (
        Reason(C.MISUSE_GOES_ON, about=MISUSE),
        "Aus bus is still sold for Cus bus and Aus bus (cleared up 2001): please settle once which it is",
    ),
    (
        Reason(C.UNCERTAIN, ("cf.",)),
        '"cf.": the name follows the species, the identification is uncertain',
    ),
    (Reason(C.LINE_KEEPS_NAME, ("ex bus",)), "the line keeps its name: ex bus"),
    (Reason(C.LAGGING, about=HELD), f"not counted, since its edition is older than the change: {HELD_WORDS}"),
    (
        Reason(C.LISTED_AS, about=LISTED),
        "papers may carry Aus bus: Appendix II (Brown 2001); local rules decide",
    ),
    (
        Reason(C.LISTED_AS, about=LISTED._replace(citation=f"A regulation; Pages; {'An amendment of it ' * 9}")),
        "papers may carry Aus bus: Appendix II (A regulation, and others); local rules decide",
    ),
    (
        Reason(C.LISTED_AS, about=LISTED._replace(citation="A regulation; its annexes in force")),
        "papers may carry Aus bus: Appendix II (A regulation; its annexes in force); local rules decide",
    ),
    (Reason(C.UNSAFE_TYPE), f"{UNSEEN}more happened than a move to another genus or another spelling"),
    (Reason(C.UNSAFE_MEANING), f"{UNSEEN}the name may mean another species"),
    (
        Reason(C.UNSAFE_OTHER_DATE, about=MISUSE),
        f"{UNSEEN}recorded for this name, though not for the date of this label: misuse from 1980",
    ),
    (Reason(C.UNSAFE_DOUBTED, about=LIST), f"{UNSEEN}doubted by My list 2024"),
    (Reason(C.UNSAFE_TARGET_DOUBTED, ("Cus bus",), LIST), f"{UNSEEN}Cus bus itself is doubted by My list 2024"),
    (
        Reason(C.UNSAFE_TARGET_DENIED, ("Aus bus",), HELD),
        f"{UNSEEN}another source sends Aus bus itself elsewhere, {HELD_WORDS}",
    ),
    (Reason(C.UNSAFE_UNCERTAIN, ("cf.",)), f"{UNSEEN}the identification is uncertain (cf.)"),
    (Reason(C.UNSAFE_TRADE_FORM), f"{UNSEEN}the label names a trade form"),
    (
        Reason(C.UNSAFE_OUTDATED, ("2021", "2024")),
        "not to be taken unseen: the status is as of 2021, and the genus was revised in 2024",
    ),
    (
        Reason(C.UNSAFE_NO_AUTHORSHIP, ("Aus bus",)),
        "not to be taken unseen: no source gives an authorship of Aus bus",
    ),
    (
        Reason(C.UNSAFE_UNFOUNDED),
        f"{UNSEEN}no source that was checked and is up to date gives this name for the spelling on the label",
    ),
)  # fmt: skip
SAID_OF_GROUNDS = (
    (Ground(G.CLUE, about=FOUND), 'former name "Aus bus"; listed as Aus bus'),
    (Ground(G.BY_SOURCE, about=LIST), "by My list 2024"),
    (Ground(G.MEANT_BY, about=LIST), "meant, by My list 2024"),
    (Ground(G.ONE_READING, about=LIST), "one reading of My list 2024"),
    (Ground(G.SPELT_SIMILARLY, about=LIST), "spelt similarly in My list 2024: only a guess"),
    (Ground(G.PROPER_SENSE, ("Aus bus",), LIST), "Aus bus in its proper sense (My list 2024)"),
    (Ground(G.ONE_SIDE, about=SIDES), "one side of a dispute (Brown 2001)"),
    (Ground(G.SOLD_AS, about=MISUSE), "sold as Aus bus (from 1980, cleared up 2001, Brown 2001)"),
    (Ground(G.COVERED, about=SPLIT), "Aus bus covered it before the split since 2001 (Brown 2001)"),
    (Ground(G.DESCRIBED_FORM, about=FORM), 'given as the described species behind "Red" (Brown 2001)'),
    (Ground(G.FOLLOWS_GENUS), "where the whole genus went"),
    (Ground(G.COMPUTED), "only worked out from the move of the whole genus; no source gives this name"),
    (Ground(G.STANDS_THERE), "stands where the genus went; the same species only if the author is the same"),
    (Ground(G.COMMON_NAME, ("Red bus",), LIST), '"Red bus" is a common name of it in My list 2024'),
    (Ground(G.GENUS_PART, about=GENUS), "part of Aus moved here (Brown 2001)"),
    (Ground(G.GENUS_REST), "the rest of the genus stays"),
    (Ground(G.GENUS_SUNK, ("Aus",), LIST), "mine makes Aus a synonym of it"),
    (Ground(G.SAME_IDENTIFIER, about=LIST), "has the same identifier in My list 2024"),
    (Ground(G.SAME_EPITHET, about=LIST), "has the same epithet, and is new in My list 2024"),
    (Ground(G.NATIVE_RANGE, ("Mexico", "Peru")), "native range: Mexico, Peru"),
)
SAID_OF_NOTES = (
    (Note(N.CROSS_PARENT), "parent of a cross"),
    (
        Note(N.TRADE_FORM, about=FORM),
        (
            'the trade form "Red" is given as this species (from memory, no source seen);'
            " a trade form is no identification"
        ),
    ),
    (
        Note(N.TRADE_USE, about=MISUSE),
        "the trade has used Aus bus for Cus bus or Aus bus (from memory, no source seen)",
    ),
    (Note(N.STILL_IN_USE, about=MISUSE), "cleared up in 2001, still in use"),
    (Note(N.DIVIDED, about=SPLIT), "Aus bus was divided in 2001"),
    (Note(N.DISPUTED, ("Aus bus",)), "sources differ on Aus bus"),
    (Note(N.SOURCE_REMARK, ("a {remark}",)), "a {remark}"),
    (Note(N.SOURCE_FAULT, ("it leads in a circle",)), "it leads in a circle"),
    (Note(N.NO_NAME_IN_FORCE), "no name in force"),
    (Note(N.NO_NAME_GIVEN), "the source gives no name in force"),
    (Note(N.LISTED_AS, ("Aus bus",)), "listed as Aus bus"),
    (Note(N.NAME_RECALLED), "this former name is from memory, no source was seen for it"),
    (Note(N.SPELT_BY_SOURCE, ("Aus bum",)), "the source spells it Aus bum"),
    (Note(N.SPELT_SIMILARLY, ("Aus bum",)), "spelt Aus bum in the list"),
    (Note(N.SUBSPECIES_UNLISTED, ("minor",)), "the subspecies minor is not listed"),
    (Note(N.FORMER_GENUS, ("Aus",)), "Aus is a former genus"),
    (Note(N.GENUS_WENT, ("Aus", "Cus")), "Aus went to Cus"),
    (Note(N.PART_OF_COMMON, ("red bus",)), "part of the common name red bus"),
    (Note(N.LIKE_COMMON, ("red bus",)), "similar to the common name red bus"),
    (Note(N.ONLY_EPITHET), "only the second word is written"),
    (Note(N.TOO_GENERAL), "one word alone, too general to name a species"),
    (Note(N.RECALLED), "the common name is from memory, no source was seen for it"),
    (
        Note(N.WORD_NOT_HEARD, ("zorp",)),
        'leaving out "zorp", which no list here has in this name: it may be another animal',
    ),
    (Note(N.OTHER_ANIMAL, ("scorpion",)), 'the tag says "scorpion", which this animal is not'),
    (Note(N.DENIED), "the tag says that it is not this, or only looks like it"),
    (Note(N.UNLISTED_BESIDE, ("Aus nullus",)), 'the tag names "Aus nullus" too, which no list here has'),
    (Note(N.LEFT_OUT, ("red", "Cus bus")), 'leaving out "red", which means Cus bus among other animals'),
    (MAY_BE_REAL, "the written name may be a real one that no list here has"),
)


@pytest.mark.parametrize(("reason", "words"), SAID_OF_REASONS, ids=lambda value: getattr(value, "code", ""))
def test_reasons(reason: Reason, words: str) -> None:
    assert sentence(reason) == words


@pytest.mark.parametrize(("ground", "words"), SAID_OF_GROUNDS, ids=lambda value: getattr(value, "code", ""))
def test_grounds(ground: Ground, words: str) -> None:
    assert grounds(Choice("Cus bus", "", (ground,))) == words


@pytest.mark.parametrize(("note", "words"), SAID_OF_NOTES, ids=lambda value: getattr(value, "code", ""))
def test_notes(note: Note, words: str) -> None:
    assert note_sentence(note) == words


def test_every_code_has_a_sentence_that_is_tried_above() -> None:
    assert set(REASONS) == set(ReasonCode) == {reason.code for reason, _ in SAID_OF_REASONS}
    assert set(GROUNDS) == set(GroundCode) == {ground.code for ground, _ in SAID_OF_GROUNDS}
    assert set(SENTENCES) == set(NoteCode) == {note.code for note, _ in SAID_OF_NOTES}


@pytest.mark.parametrize(
    ("status", "targets", "words"),
    [
        (NameStatus.ACCEPTED, (OLD,), "in force: Aus bus Smith, 1900"),
        (NameStatus.DOUBTFUL, (), "Aus bus Smith, 1900 is doubtful, no name in force"),
        (NameStatus.UNAVAILABLE, (), "Aus bus Smith, 1900 is no name by the Code (not available)"),
        (NameStatus.MISAPPLIED, (NEW,), "Aus bus Smith, 1900 was used for Cus bus (Smith, 1900)"),
        (NameStatus.AMBIGUOUS, (OLD, NEW),
         "Aus bus Smith, 1900 now means any of Aus bus Smith, 1900 and Cus bus (Smith, 1900)"),
        (NameStatus.REPLACED, (NEW,), "Aus bus Smith, 1900 was replaced by Cus bus (Smith, 1900)"),
        (NameStatus.REPLACED, (), "Aus bus Smith, 1900 leads to no name in force"),
        (NameStatus.OBJECTIVE_SYNONYM, (NEW,),
         "Aus bus Smith, 1900 is a synonym (by the same type) of Cus bus (Smith, 1900)"),
    ],
)  # fmt: skip
def test_statements(status: NameStatus, targets: tuple[TaxonName, ...], words: str) -> None:
    assert says(SUNK._replace(status=status, targets=targets)) == words
    fault = SUNK._replace(status=status, targets=targets, fault="a circle")
    assert says(fault) == "Aus bus Smith, 1900: what the source has of it cannot be followed (a circle)"


@pytest.mark.parametrize("kind", ActKind)
def test_every_act_and_every_failure_can_be_told(kind: ActKind) -> None:
    told = str(parts(Act(kind, "Aus bus", ""))["act"])
    assert told.startswith("Aus bus ")
    assert told.endswith(" no other name")
    for lost in FailureKind:
        assert failed(Failure(LIST, "Aus bus", lost, "")) == failed(Failure(LIST, "x", lost, "y")).removesuffix(": y")


def test_what_is_said_twice_is_shown_once() -> None:
    said = (Said(LOST), Said(LOST._replace(asked="Aus")), Said(Silence(LIST, "Aus bus"), stale=True))
    lost = Reason(ReasonCode.FAILED, about=LOST)
    again = Reason(ReasonCode.FAILED, about=LOST._replace(asked="Aus"))
    verdict = Verdict(Standing.UNASKED, "D08", None, False, (), said, (lost, again), ("mine",), "")
    assert why(verdict) == ("My list 2024 could not be reached: no route",)
    assert [(line.says, line.stale, line.link) for line in lines(verdict)] == [
        ("could not be reached: no route", False, None),
        ("does not list Aus bus", True, "https://a.example"),
    ]
    twice = (Ground(GroundCode.BY_SOURCE, about=LIST), Ground(GroundCode.MEANT_BY, about=LIST))
    assert grounds(Choice("Aus bus", "", (*twice, twice[0]))) == "by My list 2024; meant, by My list 2024"
    assert notes(FOUND._replace(notes=(Note(N.SOURCE_REMARK, ("a; b",)), Note(N.SOURCE_REMARK, ("b",))))) == ("a", "b")
    assert in_short(verdict) == "unasked: My list 2024 could not be reached: no route"
    assert in_words(verdict, "Aus bus") == "Nobody could be asked: My list 2024 could not be reached: no route"


def test_a_line_has_the_link_of_the_statement_else_of_the_source() -> None:
    asked = datetime(2026, 1, 1, tzinfo=UTC)
    own = Said(SUNK._replace(link="https://b.example"), asked, stale=True, lagging=True)
    verdict = Verdict(Standing.MOVED, "D17", NEW, False, (), (own, Said(SUNK)), (), (), "")
    first, second = lines(verdict)
    assert first[:5] == ("mine", "2024", asked, True, True)
    assert (first.link, first.licence, second.link) == ("https://b.example", "CC0", "https://a.example")
    assert in_short(verdict) == "moved: decide it first"
