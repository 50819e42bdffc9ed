"""No word of a tag is dropped in silence: generated tags of every class that once got ``one`` and should not.

Words of the tags: a published dictionary (``strange_words.py``) and the lexicon; names: the starter list, by seed.
"""

from __future__ import annotations

import csv
import random
from collections.abc import Sequence
from contextlib import closing
from itertools import pairwise
from pathlib import Path

import pytest

from namekeeper import resources
from namekeeper.evidence.candidates import NoteCode
from namekeeper.evidence.interfaces import NameList
from namekeeper.judging.common_words import groups_in, words_of
from namekeeper.reading import vocabulary as v
from namekeeper.tasks.lookup import Looked, look_up
from namekeeper.words.spelling import plain_key
from namekeeper.words.terms import AnswerKind
from tests.candidates.almost_named import DOUBTED, NOT_QUITE, SURE
from tests.candidates.misspellings import CLASSES, misspelt
from tests.candidates.real_names import listed
from tests.candidates.starter import starter_commons
from tests.candidates.strange_words import SEED, answered_one, names_of_one_meaning, strange_tags
from tests.lists.test_editions import table

pytestmark = pytest.mark.no_cover  # breadth: the lines are reached by the tests beside it

Lists = tuple[NameList, ...]


def starter_rows(table_name: str) -> list[dict[str, str]]:
    path = resources.data("starter") / f"{table_name}.csv"
    return list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))


ROWS = starter_rows("species")
SPECIES = [row["scientificName"] for row in ROWS if len(row["scientificName"].split()) == 2]


def drawn(names: Sequence[str], number: int) -> list[str]:
    return random.Random(SEED).sample(list(names), number)


def told(looked: Looked, code: NoteCode) -> bool:
    return all(code in {note.code for note in candidate.notes} for candidate in looked.lookup.candidates)


def one_answer(tag: str, lists: Lists) -> Looked:
    (looked,) = look_up([tag], lists)
    return looked


# 1: words that were not heard


def test_a_strange_word_beside_a_common_name_is_heard_as_strange(lists: Lists) -> None:
    tags = strange_tags(lists)
    assert len(tags) >= 500
    stay = answered_one(tags, lists)
    assert len(stay) <= 0.1 * len(tags), stay


@pytest.mark.parametrize("tag", ["crested orchid mantis", "Zwerg-Geistermantis", "cobalt blue Peruvian"])
def test_the_note_says_which_word_was_left_out(lists: Lists, tag: str) -> None:
    looked = one_answer(tag, lists)
    assert looked.lookup.answer is AnswerKind.GUESS
    assert told(looked, NoteCode.WORD_NOT_HEARD)


@pytest.mark.parametrize(
    ("tag", "answer"),
    [
        ("false Grammostola rosea", AnswerKind.GUESS),
        ("false orchid mantis", AnswerKind.GUESS),
        ("false black widow 0.1", AnswerKind.SEVERAL),  # a name of its own, of a genus and a species
        ("Florida false wolf spider", AnswerKind.ONE),
    ],
)
def test_a_false_animal_is_another_unless_that_is_its_name(lists: Lists, tag: str, answer: AnswerKind) -> None:
    assert one_answer(tag, lists).lookup.answer is answer


@pytest.mark.parametrize(
    "tag",
    ["orchid mantis L3 female 5cm £10", "orchid mantis Malaysia", "Mexican red rump tarantula adult", "OBT Usambara",
     "Geistermantis Nachzucht 3 Stück", "orchid mantis nymph, well started, CB"],
)  # fmt: skip
def test_what_is_no_strange_word_keeps_the_answer(lists: Lists, tag: str) -> None:
    assert one_answer(tag, lists).lookup.answer is AnswerKind.ONE


# 2: the word for the group


def test_a_group_word_of_other_animals_never_leaves_one(lists: Lists) -> None:
    words = [word for taxon, words in v.ANIMALS.items() if taxon != "Arthropoda" for word in words.split("|")]
    named = [name for name in names_of_one_meaning(lists, 200) if not one_answer(name, lists).reading.groups][:15]
    called = {taxon for name, taxon in starter_commons() if name in words}  # the word is its name, as of a spider
    chosen = drawn([name for name in SPECIES if name not in called], 10)
    written = [looked.tag for looked in look_up(chosen, lists) if looked.lookup.answer is AnswerKind.ONE]
    longer = [word for word in words if len(word) > 1]
    tags = [f"{name} {word}" for name in (*named, *written) for word in longer]
    tags += [f"{word} {name}" for name in written for word in longer]
    assert len(tags) > 4000
    wrong = []
    for looked in look_up(tags, lists):
        if looked.lookup.answer is AnswerKind.ONE:
            (candidate,) = looked.lookup.candidates
            known = {*candidate.higher, *(["Araneae"] if "Theraphosidae" in candidate.higher else [])}
            wrong += [looked.tag for group in looked.reading.groups if group not in known]
            wrong += [] if looked.reading.groups else [looked.tag]
    assert wrong == []


@pytest.mark.parametrize("tag", ["rose hair roach", "gooty mantis", "jade scorpion", "GBB scorpion"])
def test_the_group_on_the_tag_is_compared(lists: Lists, tag: str) -> None:
    looked = one_answer(tag, lists)
    assert looked.lookup.answer in (AnswerKind.GUESS, AnswerKind.UNASKED)
    assert told(looked, NoteCode.OTHER_ANIMAL)


@pytest.mark.parametrize(
    ("tag", "word"),
    [("Chaetopelma karlamani scorpion", "scorpion"), ("mantis Guyruita guadanuccii", "mantis"),
     ("Schabe: Brachypelma hamorii 0.1", "Schabe")],
)  # fmt: skip
def test_a_word_for_other_animals_beside_a_scientific_name_is_said(lists: Lists, tag: str, word: str) -> None:
    looked = one_answer(tag, lists)
    assert looked.lookup.answer is AnswerKind.GUESS
    assert [note.words for c in looked.lookup.candidates for note in c.notes] == [(word,)]


def test_a_word_for_its_own_group_or_within_its_names_says_nothing_against_an_animal(lists: Lists) -> None:
    tags = ["Brachypelma hamorii tarantula", "Vogelspinne Brachypelma hamorii", "Poecilotheria metallica spider",
            "Lissachatina fulica snail", "Mantis religiosa", "Blatta orientalis roach"]  # fmt: skip
    assert answered_one(tags, lists) == tags


# 3: parts of names, and guesses word by word


def test_a_part_of_a_name_is_never_firm(lists: Lists) -> None:
    looked = one_answer("tarántula de rodillas azules", lists)
    assert not any(candidate.firm for candidate in looked.lookup.candidates)


def test_a_name_that_begins_a_longer_one_of_another_species_is_several(lists: Lists) -> None:
    looked = one_answer("Brazilian black", lists)
    assert looked.lookup.answer is AnswerKind.SEVERAL
    assert len(looked.lookup.candidates) > 1


def test_a_name_of_one_word_is_compared_with_longer_ones_too(lists: Lists) -> None:
    """No common name that begins or ends a longer one of another species of its order is taken for one species."""
    longer = [(words, taxon, name) for name, taxon in starter_commons() if len(words := words_of(name)) > 1]
    ends: dict[tuple[str, ...], set[str]] = {}
    for words, taxon, _ in longer:
        for part in (tuple(words[:cut]) for cut in range(1, len(words))):
            ends.setdefault(part, set()).add(taxon)
        for part in (tuple(words[cut:]) for cut in range(1, len(words))):
            ends.setdefault(part, set()).add(taxon)
    tags = sorted({name for name, _ in starter_commons() if ends.get(tuple(words_of(name)))})
    assert len(tags) > 300
    orders = {name: [*said.subject.higher, "", ""][1] for o in lists for name in SPECIES for said in o.named(name)[:1]}
    wrong = []
    for looked in look_up(tags, lists):
        if looked.lookup.answer is AnswerKind.ONE:
            (candidate,) = looked.lookup.candidates
            others = {name for name in ends[tuple(words_of(looked.tag))] if orders.get(name) in candidate.higher}
            wrong += [(looked.tag, name) for name in others - {candidate.name}]
    assert wrong == []


def test_a_name_written_together_is_compared_with_longer_ones_too(lists: Lists) -> None:
    """ "mantisflor" is no surer than "mantis flor", with which names of other mantises begin."""
    apart = sorted({name for name, _ in starter_commons() if len(words_of(name)) == 2 and name.count(" ") == 1})
    pairs = {name.replace(" ", ""): name for name in drawn(apart, 300)}
    together = answered_one(list(pairs), lists)
    assert len(together) > 50
    assert set(answered_one([pairs[name] for name in together], lists)) == {pairs[name] for name in together}


def test_another_colour_is_no_slip(lists: Lists) -> None:
    names = [name for name in names_of_one_meaning(lists, 800) if {"blue", "black"} & set(name.split())]
    other = {"blue": "black", "black": "blue"}
    tags = [" ".join(other.get(word, word) for word in name.split()) for name in names]
    assert len(tags) >= 10
    for looked in look_up(tags, lists):
        listed = [
            note.words[0] for c in looked.lookup.candidates for note in c.notes if note.code is NoteCode.LIKE_COMMON
        ]
        asked = set(looked.tag.split()) & {"blue", "black"}
        assert not any(other[word] in name.split() and word not in name.split() for word in asked for name in listed)


# 4: alternatives

#: Every name of the list, old ones too.
LISTED = {row["formerName"] for row in starter_rows("former")} | {row["scientificName"] for row in ROWS}
PAIRS = [
    (one, other.split()[1])
    for one, other in pairwise(SPECIES)
    if one.split()[0] == other.split()[0] and len(other.split()[1]) > 3
    if f"{one} {other.split()[1]}" not in LISTED  # such a subspecies is one animal
]
SIGNS = sorted({word for words in v.ALTERNATIVES.values() for word in words.split("|")} - {"soit", "of"})


@pytest.mark.parametrize(
    "between", [" / ", "/", " | ", " and/or ", " (or ", ", maybe ", " bzw. ", " vs. ", " oppure ", " "]
)
def test_a_second_epithet_of_the_genus_makes_several(lists: Lists, between: str) -> None:
    tags = [f"{one}{between}{other}" for one, other in drawn_pairs(40)]
    wrong = [looked.tag for looked in look_up(tags, lists) if looked.lookup.answer is AnswerKind.ONE]
    if between != " ":  # side by side they are read as species and subspecies
        assert all(looked.reading.uncertain for looked in look_up(tags, lists) if len(looked.reading.scientific) > 1)
    assert wrong == []


def drawn_pairs(number: int) -> list[tuple[str, str]]:
    return random.Random(SEED).sample(PAIRS, number)


def test_every_word_for_an_alternative_makes_several(lists: Lists) -> None:
    one, other = "Brachypelma klaasi", "emilia"
    tags = [f"{one} {sign} {other}" for sign in SIGNS]
    assert [looked.tag for looked in look_up(tags, lists) if looked.lookup.answer is not AnswerKind.SEVERAL] == []


def test_an_alternative_that_nobody_knows_is_said(lists: Lists) -> None:
    for tag in ("Brachypelma klaasi or zzyzxia", "Brachypelma klaasi / flamingo leg", "orchid mantis or flamingo"):
        looked = one_answer(tag, lists)
        assert looked.lookup.answer is AnswerKind.GUESS, tag
        assert told(looked, NoteCode.UNLISTED_BESIDE) or told(looked, NoteCode.WORD_NOT_HEARD), tag


def test_a_genus_as_an_alternative_is_never_one(lists: Lists) -> None:
    genera = sorted({name.split()[0] for name in SPECIES})[::60]
    pairs = [(name, genus) for name in drawn(SPECIES, 10) for genus in genera if genus != name.split()[0]]
    tags = [f"{name}{sign}{genus}" for name, genus in pairs for sign in (" / ", " or ", " bzw. ", ", maybe ")]
    assert len(tags) > 100
    assert answered_one(tags, lists) == []


@pytest.mark.parametrize(
    ("tag", "code"),
    [
        ("kein Kaiserskorpion", NoteCode.DENIED),
        ("not a mexican red knee", NoteCode.DENIED),
        ("Theraphosa blondi scorpion", NoteCode.OTHER_ANIMAL),
        ("Pandinus imperator oder Käfer", NoteCode.OTHER_ANIMAL),
    ],
)
def test_a_name_of_several_animals_is_a_guess_where_one_of_a_single_animal_is(
    lists: Lists, tag: str, code: NoteCode
) -> None:
    looked = one_answer(tag, lists)
    assert looked.lookup.answer is AnswerKind.GUESS
    assert len(looked.lookup.candidates) > 1
    assert told(looked, code)


def test_a_denied_name_beside_another_leaves_both_to_the_keeper(lists: Lists) -> None:
    assert one_answer("Brachypelma smithi, not hamorii", lists).lookup.answer is AnswerKind.SEVERAL


@pytest.mark.parametrize("tag", ["Brachypelma hamorii or jumping spider", "Peucetia viridans / Scytodes"])
def test_a_common_name_of_a_group_as_an_alternative_is_never_one(lists: Lists, tag: str) -> None:
    # A French plural is the genus' name, too.
    looked = one_answer(tag, lists)
    assert looked.lookup.answer is AnswerKind.SEVERAL
    assert len(looked.lookup.candidates) == 2


@pytest.mark.parametrize(
    ("tag", "genus"),
    [
        ("Brachypelma hamorii or Peucetia", "Peucetia"),
        ("Grammostola / Brachypelma hamorii", "Grammostola"),
        ("Lasius niger / Argiope", "Argiope"),  # a common name, too, in French
        ("Argiope bzw. Lasius niger", "Argiope"),
    ],
)
def test_a_genus_beside_an_alternative_is_offered_either_way_round(lists: Lists, tag: str, genus: str) -> None:
    looked = one_answer(tag, lists)
    assert looked.lookup.answer is AnswerKind.SEVERAL
    assert genus in {candidate.name for candidate in looked.lookup.candidates}


@pytest.mark.parametrize(
    "tag", ["Lasius niger / formica", "Brachypelma / Brachypelma hamorii", "Argiope bruennichi / Argiope"]
)
def test_a_genus_or_group_that_holds_the_species_is_no_other_animal(lists: Lists, tag: str) -> None:
    assert one_answer(tag, lists).lookup.answer is AnswerKind.ONE


def test_a_bare_epithet_beside_an_alternative_is_never_one(lists: Lists) -> None:
    """ "smithi/hamorii": one is a common name of one species, the other brings guesses, and is no place or group."""
    epithets = [name for name, _ in starter_commons() if " " not in name and any(o.knows_epithet(name) for o in lists)]
    named = [name for name in sorted(set(epithets)) if one_answer(name, lists).lookup.answer is AnswerKind.ONE][:12]
    drawn_others = sorted({name.split()[1] for name in SPECIES} - set(named))[::150]
    others = [name for name in drawn_others if not one_answer(name, lists).reading.locality and not groups_in(name)]
    pairs = [pair for name in named for other in others for pair in ((name, other), (other, name))]
    tags = [f"{one}{sign}{other}" for one, other in pairs for sign in ("/", " or ")]
    assert len(tags) > 100
    assert answered_one(tags, lists) == []


def test_a_common_name_does_not_choose_between_alternatives(lists: Lists) -> None:
    assert one_answer("gooty sapphire P. metallica / regalis", lists).lookup.answer is AnswerKind.SEVERAL


@pytest.mark.parametrize("tag", ["Poecilotheria metallica | gooty wonder", "orchid mantis | flamingo leg"])
def test_what_stands_behind_a_lone_stroke_is_said(lists: Lists, tag: str) -> None:
    looked = one_answer(tag, lists)
    assert looked.lookup.answer is AnswerKind.GUESS
    assert told(looked, NoteCode.UNLISTED_BESIDE) or told(looked, NoteCode.WORD_NOT_HEARD)


def test_strokes_part_the_columns_of_a_price_list(lists: Lists) -> None:
    assert one_answer("Brachypelma hamorii | 0.1 | Mexiko | 4cm | CB", lists).lookup.answer is AnswerKind.ONE


def test_every_word_for_not_being_sure_is_heard(lists: Lists) -> None:
    """Of several words each alone may be part of a name or deny one: "sans doute", "not sure", "might be"."""
    said = [form for words in v.MAYBE.values() for word in words.split("|") for form in (word, word.replace(" ", "-"))]
    ways = ["{} Brachypelma hamorii", "Brachypelma hamorii, {}", "B. hamorii ({}) 0.1", "{} OBT", "orchid mantis, {}"]
    tags = [way.format(word) for word in dict.fromkeys(said) for way in ways]
    assert len(tags) > 250
    wrong = [looked.tag for looked in look_up(tags, lists) if looked.reading.qualifier != "?"]
    assert wrong == []
    assert one_answer("Brachypelma hamorii might be female", lists).reading.qualifier == ""


# 5: negation


def test_a_name_that_is_denied_is_never_one(lists: Lists) -> None:
    words = [word for table in (v.NEGATIONS, v.LIKENESSES) for words in table.values() for word in words.split("|")]
    names = [*drawn(SPECIES, 8), "OBT", "orchid mantis", "Kaiserskorpion"]
    tags = [f"{word} {name}" for word in words for name in names]
    tags += [f"{name} {word}" for words in v.LIKENESSES.values() for word in words.split("|") for name in names]
    tags += [f"{name}, {word} {other}" for word in ("not", "kein", "pas") for name, other in pairwise(names)]
    assert len(tags) > 1500
    assert answered_one(tags, lists) == []


def test_a_name_that_an_animal_is_only_like_is_never_one(lists: Lists) -> None:
    """Words that count right beside a name, and those that count right before it."""
    names = [*drawn(SPECIES, 4), "OBT", "B. hamorii"]
    beside = [word for words in v.MANNERS.values() for word in words.split("|")]
    before = [word for words in v.COMPARISONS.values() for word in words.split("|")]
    tags = [way.format(name, word) for word in beside for name in names for way in ("{} {}", "{}-{}", "{1} {0} 5cm")]
    tags += [f"{word} {name}" for word in before for name in names]
    assert len(tags) > 800
    assert answered_one(tags, lists) == []


def test_tags_that_all_but_say_a_name(lists: Lists) -> None:
    assert answered_one(NOT_QUITE, lists) == []
    for tags, doubted in ((DOUBTED, True), (SURE, False)):
        for looked in look_up(tags, lists):
            assert looked.lookup.answer is AnswerKind.ONE, looked.tag
            assert looked.reading.uncertain is doubted, looked.tag


@pytest.mark.parametrize("tag", ["Brachypelma hamorii not sexed", "OBT no papers", "Brachypelma hamorii, not for sale"])
def test_what_is_denied_of_the_animal_denies_no_name(lists: Lists, tag: str) -> None:
    assert one_answer(tag, lists).lookup.answer is AnswerKind.ONE


# 6: an abbreviated species before its subspecies


def test_a_lone_initial_is_the_species_of_its_genus(lists: Lists) -> None:
    tags = {f"{genus} {epithet[0]}. {epithet}": name for name in SPECIES for genus, epithet in [name.split()]}
    assert len(tags) > 1000
    wrong = []
    for looked in look_up(tags, lists):
        found = {candidate.name for candidate in looked.lookup.candidates}
        if looked.lookup.answer is AnswerKind.ONE and found != {tags[looked.tag]}:
            wrong.append((looked.tag, found))
        if len(looked.reading.scientific) != 1:
            wrong.append((looked.tag, set(looked.reading.scientific)))
    assert wrong == []


# 7: authors


def test_authors_of_the_starter_list_are_no_common_names(lists: Lists) -> None:
    rows = [row for row in ROWS if row["authorship"]]
    assert len(rows) > 1100
    bare = look_up([row["scientificName"] for row in rows], lists)
    whole = look_up([f"{row['scientificName']} {row['authorship']}" for row in rows], lists)
    for name, signed in zip(bare, whole, strict=True):
        assert signed.reading.common == (), signed.tag
        assert {c.key for c in signed.lookup.candidates} <= {c.key for c in name.lookup.candidates}, signed.tag


def test_an_author_with_a_year_proves_an_unlisted_name(lists: Lists) -> None:
    looked = one_answer("Zzyzxus bobkowskiego Smith, 1990", lists)
    assert looked.reading.scientific == ("Zzyzxus bobkowskiego",)
    assert looked.reading.common == ()


# 8: colour and form words


def test_a_colour_that_means_another_family_is_left_out_and_said(lists: Lists) -> None:
    looked = one_answer("T. blondi powder blue", lists)
    # Both: what was sold as blondi before 2010 is largely T. stirmi (Rudloff & Weinmann 2010).
    assert {candidate.name for candidate in looked.lookup.candidates} == {"Theraphosa blondi", "Theraphosa stirmi"}
    assert told(looked, NoteCode.LEFT_OUT)


# 9: general words as genera


@pytest.mark.parametrize("tag", ["Tarantula terrarium", "Mantis pino"])
def test_a_general_word_before_a_strange_one_is_no_species(lists: Lists, tag: str) -> None:
    looked = one_answer(tag, lists)
    assert looked.reading.common == (tag,)
    assert looked.lookup.answer is not AnswerKind.ONE


# 10: none, and shorthand


@pytest.mark.parametrize("tag", ["チャイロゴキブリモドキ", "Zirpenlaus", "skakavac"])
def test_a_word_that_might_be_a_name_is_unasked(lists: Lists, tag: str) -> None:
    assert one_answer(tag, lists).lookup.answer is AnswerKind.UNASKED


def test_a_place_that_is_a_common_name_too_is_looked_up(lists: Lists) -> None:
    """Alone it may be the animal; beside a name it is where that comes from."""
    looked = one_answer("Usambara", lists)
    assert [candidate.name for candidate in looked.lookup.candidates] == ["Pterinochilus murinus"]
    assert one_answer("Pterinochilus murinus Usambara", lists).reading.locality == "Usambara"


def test_every_common_name_is_read_whole_in_its_own_script(lists: Lists) -> None:
    """Vowels and tones of Thai and Lao stand above and below the letters and part no words."""
    names = [name for name, _ in starter_commons() if not name.isascii() and " " not in name and "-" not in name]
    assert len(names) > 30
    known = {name: bool(one_answer(name, lists).lookup.candidates) for name in names}
    assert [name for name, found in known.items() if not found] == []


@pytest.mark.parametrize(
    ("tag", "names"),
    [("P met", {"Poecilotheria metallica"}),
     ("G pulch", {"Grammostola pulchra", "Grammostola pulchripes", "Glomeris pulchra"}),
     ("T albo sling", {"Tliltocatl albopilosus"}), ("M balf 0.0.3", {"Monocentropus balfouri"})],
)  # fmt: skip
def test_shorthand_is_found_by_rule(lists: Lists, tag: str, names: set[str]) -> None:
    assert {candidate.name for candidate in one_answer(tag, lists).lookup.candidates} == names


def test_shorthand_of_any_species_brings_it_or_says_that_nobody_was_asked(lists: Lists) -> None:
    tags = {f"{name[0]} {name.split()[1][:5]}": name for name in drawn(SPECIES, 300) if len(name.split()[1]) > 6}
    missed = []
    for looked in look_up(tags, lists):
        found = {candidate.name for candidate in looked.lookup.candidates}
        right = tags[looked.tag] in found or looked.lookup.answer in (AnswerKind.UNASKED, AnswerKind.GUESS)
        missed += [] if right else [(looked.tag, tags[looked.tag], looked.lookup.answer, found)]
    assert len(missed) <= 0.05 * len(tags), missed


# 11: misspelt subspecies


def test_a_misspelt_subspecies_is_never_one(lists: Lists) -> None:
    former = resources.data("starter") / "former.csv"
    names = [row["formerName"] for row in csv.DictReader(former.read_text(encoding="utf-8").splitlines())]
    listed = [name for name in [*names, *(row["scientificName"] for row in ROWS)] if len(name.split()) == 3]
    listed = [name for name in listed if name.split()[1] != name.split()[2]]
    rng = random.Random(SEED)
    tags = []
    for name in listed:
        genus, species, third = name.split()
        for kind in CLASSES:
            wrong = misspelt(f"Aus {third}", kind, 1, rng)
            if wrong and wrong.startswith("Aus ") and not any(o.named(f"{genus} {species} {wrong[4:]}") for o in lists):
                tags.append(f"{genus} {species} {wrong[4:]}")
    assert len(tags) > 60
    assert bare_species(tags, lists) == []


def test_a_misspelt_subspecies_of_a_list_that_has_them(tmp_path: Path) -> None:
    """Names: the trinomens of an extract of the NCBI Taxonomy (``tests/lists/test_editions.py``)."""
    names = [row["name"] for row in table("2024").values()]
    rng = random.Random(SEED)
    tags = []
    with closing(listed(names, tmp_path / "list.sqlite")) as origin:
        for name in (name for name in names if len(name.split()) == 3):
            genus, species, third = name.split()
            for kind in CLASSES:
                wrong = misspelt(f"Aus {third}", kind, 1, rng)
                if wrong and wrong.startswith("Aus ") and not origin.named(f"{genus} {species} {wrong[4:]}"):
                    tags.append(f"{genus} {species} {wrong[4:]}")
        assert len(tags) > 300
        assert answered_one(tags, (origin,)) == []


def bare_species(tags: Sequence[str], lists: Lists) -> list[str]:
    """Tags of three words that got ``one`` for what the first two name."""
    bare = []
    for looked in look_up(tags, lists):
        if looked.lookup.answer is AnswerKind.ONE:
            bare += [
                looked.tag for c in looked.lookup.candidates if c.key == plain_key(" ".join(looked.tag.split()[:2]))
            ]
    return bare


# 12: what was read and is in no field


@pytest.mark.parametrize(
    ("tag", "price"),
    [("Lasiodora parahybana price sold", "sold"), ("Preis: verkauft, Brachypelma hamorii", "verkauft"),
     ("Brachypelma hamorii price £30", "£30")],
)  # fmt: skip
def test_the_word_for_the_price_is_part_of_it(lists: Lists, tag: str, price: str) -> None:
    reading = one_answer(tag, lists).reading
    assert (reading.price, reading.leftover) == (price, "")


def test_what_is_said_of_a_breed_is_told(lists: Lists) -> None:
    looked = one_answer("Lissachatina fulica var. white body jade", lists)
    unheard = {word.text for word in looked.reading.unheard}
    assert {"white", "jade"} <= unheard
