"""Names agree with each other: chains, brackets, endings, places in the classification."""

from __future__ import annotations

from collections import defaultdict
from itertools import combinations

from namekeeper.words.spelling import epithet_ending_key
from tests.starter.tables import (
    Row,
    accepted,
    author_and_year,
    former,
    genera,
    name_in_force,
    parts,
    rows,
    species,
    taxa,
)

#: Endings of adjectives in the three genders, Art. 31.2.1 (masculine, feminine, neuter).
ENDINGS = {
    "masculine": ("us", "er", "is"),
    "feminine": ("a", "is"),
    "neuter": ("um", "e"),
}


def test_every_chain_ends_in_the_list() -> None:
    assert [row for row in rows("former") if name_in_force(row["formerName"]) not in species()] == []


def test_no_name_is_in_force_and_former() -> None:
    assert sorted(set(species()) & set(former())) == []


#: Two animals of one family that bear one epithet, where neither the authorship nor one list tells them apart.
TWO_ANIMALS = {
    frozenset({"Chinchaysuyu spinosa", "Harpactirella spinosa"}),  # Peru, described 2023; South Africa
    frozenset({"Cyriopagopus longipes", "Harpactirella longipes"}),  # South-east Asia, 2005; South Africa
    frozenset({"Euathlus manicata", "Phoneyusa manicata"}),  # Chile, 1892; Africa
}


def test_no_animal_stands_twice_in_force() -> None:
    # One epithet of one author and year is one nominal species (Art. 45.1), whatever genera it stood in: one name is
    # in force. Where an authorship was not seen, a list that holds both names in force at once tells them apart.
    bearers: defaultdict[tuple[str, str], list[Row]] = defaultdict(list)
    for row in accepted():
        bearers[row["family"], epithet_ending_key(row["scientificName"].split()[-1])].append(row)
    pairs = [pair for own in bearers.values() for pair in combinations(own, 2) if may_be_one(*pair)]
    unsettled = {frozenset(row["scientificName"] for row in pair) for pair in pairs if not told_apart(*pair)}
    assert len(pairs) > 50
    assert unsettled == TWO_ANIMALS


def may_be_one(one: Row, other: Row) -> bool:
    genera_of_both = {row["scientificName"].split()[0] for row in (one, other)}
    ours, theirs = (author_and_year(row["authorship"])[:2] for row in (one, other))
    return len(genera_of_both) == 2 and (ours == theirs or not (ours[1] and theirs[1]))


def told_apart(one: Row, other: Row) -> bool:
    unseen = not (one["authorship"] and other["authorship"])
    return unseen and bool(set(parts(one["statusSource"])) & set(parts(other["statusSource"])) - {"memory"})


def test_disputed_names_are_not_decided_elsewhere() -> None:
    disputed = {row["name"] for row in rows("disputes")}
    assert sorted(disputed & set(former())) == []
    for row in rows("disputes"):
        targets = parts(row["targets"])
        assert len(targets) > 1, row
        assert any(name_in_force(target) in species() for target in targets), row


def test_a_name_in_force_that_only_older_sources_hold_is_disputed_itself() -> None:
    # else a label with it is told "in force" without a word, while one with the other name is told that sources differ
    disputed = {row["name"] for row in rows("disputes")}
    sides = {target for row in rows("disputes") for target in parts(row["targets"])}
    held = {name: row for name, row in species().items() if name in sides and row["status"] == "accepted"}
    assert len(held) >= 75
    assert [name for name, row in held.items() if row["statusAsOf"] < "2026" and name not in disputed] == []


def test_brackets_follow_from_the_first_genus() -> None:
    # Art. 51.3; a first genus that was not recalled is left empty and then the brackets stand
    for row in rows("species"):
        if not row["authorship"]:
            continue
        genus = row["scientificName"].split()[0]
        bracketed = author_and_year(row["authorship"])[2]
        assert bracketed == (row["originalGenus"] != genus), row


def test_former_names_keep_author_and_year_of_their_species() -> None:
    # A transfer, another spelling or another rank changes no author: only brackets come and go (Art. 51.3).
    for row in rows("former"):
        if row["act"] in ("transfer", "spelling", "rank"):
            target = species().get(row["acceptedName"]) or former()[row["acceptedName"]]
            if target.get("act") in ("synonymy", "objective_synonymy", "replacement"):
                continue
            if row["authorship"] and target["authorship"]:
                assert author_and_year(row["authorship"])[:2] == author_and_year(target["authorship"])[:2], row


def test_former_names_of_the_first_genus_have_no_brackets() -> None:
    for row in rows("former"):
        target = species().get(row["acceptedName"])
        if row["act"] != "transfer" or target is None or not target["originalGenus"] or not row["authorship"]:
            continue
        in_first_genus = row["formerName"].split()[0] == target["originalGenus"]
        assert author_and_year(row["authorship"])[2] != in_first_genus, (row, target["originalGenus"])


def test_every_genus_is_known() -> None:
    used = {name.split()[0] for name in (*species(), *former())}
    used |= {row["originalGenus"] for row in accepted() if row["originalGenus"] in genera()}
    assert sorted(used - set(genera())) == []
    assert [row for row in rows("forms") if row["genus"] not in genera() and row["genus"] not in taxa()] == []
    moved = {row[column] for row in rows("genera_moved") for column in ("formerGenus", "genus")}
    assert sorted(moved - set(genera())) == []


def test_accepted_species_stand_in_accepted_genera_of_their_family() -> None:
    for row in accepted():
        genus = genera()[row["scientificName"].split()[0]]
        assert genus["status"] == "accepted", row
        assert (genus["family"], genus["group"]) == (row["family"], row["group"]), row


def test_whole_moves_leave_no_accepted_species_behind() -> None:
    whole = {row["formerGenus"] for row in rows("genera_moved") if row["scope"] == "whole"}
    assert [row["scientificName"] for row in accepted() if row["scientificName"].split()[0] in whole] == []


def test_every_family_leads_to_the_animals() -> None:
    for row in (*rows("genera"), *rows("species")):
        taxon, steps = row["family"], 0
        while taxon != "Animalia":
            assert taxon in taxa(), (row, taxon)
            taxon, steps = taxa()[taxon]["parent"], steps + 1
            assert steps < 20, row
    subfamilies = {row["subfamily"] for row in rows("genera") if row["subfamily"]}
    assert sorted(subfamilies - set(taxa())) == []


def test_every_tarantula_genus_in_use_has_its_subfamily() -> None:
    # Cautions about urticating hairs stand at subfamilies.
    tarantulas = [row for row in genera().values() if row["family"] == "Theraphosidae" and row["status"] == "accepted"]
    assert [row["genus"] for row in tarantulas if not row["subfamily"]] == []


def test_endings_agree_or_are_declared() -> None:
    # Art. 31.2 and 34.2. Declared: the class of the epithet, a misspelling, or a note that the ending is kept.
    classes = {row["epithet"]: row["class"] for row in rows("epithets")}
    wrong = []
    for name, row in (*species().items(), *former().items()):
        genus, *epithets = name.split()
        endings = ENDINGS.get(genera()[genus]["gender"])
        if endings is None or row.get("act") == "spelling" or "ending as published" in row["note"]:
            continue
        wrong += [name for one in epithets if classes.get(one) == "adjective" and not one.endswith(endings)]
    assert wrong == []


def test_epithets_that_look_like_adjectives_have_a_class() -> None:
    classes = {row["epithet"] for row in rows("epithets")}
    used = {epithet for name in (*species(), *former()) for epithet in name.split()[1:]}
    adjectival = {epithet for epithet in used if epithet.endswith(("us", "a", "um", "is", "er"))}
    assert sorted(adjectival - classes) == []
    assert sorted(classes - used) == []


def test_facts_about_names_point_into_the_list() -> None:
    everything = set(species()) | set(former()) | {row["name"] for row in rows("disputes")}
    for row in rows("misuse"):
        assert {name_in_force(name) for name in parts(row["meant"])} <= set(species()), row
    for row in rows("divisions"):
        assert {name for name in parts(row["into"]) if species()[name]["status"] == "accepted"}, row
        if row["kind"] == "revival":
            assert row["name"] in species(), row
        else:
            assert len(parts(row["into"])) > 1 or row["name"] not in species(), row
    for row in rows("forms"):
        assert not row["describedAs"] or species()[row["describedAs"]]["status"] == "accepted", row
    named = {row["name"] for table in ("misuse", "divisions") for row in rows(table)}
    assert sorted(named - everything) <= ["Eresus cinnaberinus"]


def test_a_name_is_misused_or_divided_not_both() -> None:
    # One string has one story before its clearing act: the trade's use, or a wider species.
    split = {row["name"] for row in rows("divisions") if row["kind"] == "split"}
    assert sorted(split & {row["name"] for row in rows("misuse")}) == []


def test_common_names_and_cautions_point_to_taxa_of_the_list() -> None:
    known = set(species()) | set(genera()) | set(taxa())
    assert sorted({row["scientificName"] for row in rows("common")} - known) == []
    assert sorted({row["taxon"] for row in rows("cautions")} - known) == []


def test_a_misused_name_carries_the_authorship_that_it_has_elsewhere() -> None:
    # Brackets mark a name that left its first genus (Art. 51.3); the trade's use of it changes nothing about that.
    own = {name: row["authorship"] for name, row in (species() | former()).items() if row["authorship"]}
    wrong = [row for row in rows("misuse") if own.get(row["name"], row["authorship"]) != row["authorship"]]
    assert wrong == []
    assert len([row for row in rows("misuse") if row["name"] in own]) >= 45


def test_ten_languages_have_a_hundred_names_seen_in_a_source() -> None:
    seen: dict[str, set[str]] = {}
    for row in rows("common"):
        if row["confidence"] == "verified" and row["kind"] != "abbreviation":
            seen.setdefault(row["language"], set()).add(row["vernacularName"].casefold().replace("-", " "))
    assert len([language for language, names in seen.items() if len(names) >= 100]) >= 10
