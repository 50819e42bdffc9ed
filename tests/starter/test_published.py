"""The list against what is published: acts, counts the list promises, and reference tables where they are present."""

from __future__ import annotations

import re
from collections import Counter, defaultdict

import pytest

from namekeeper.words.spelling import epithet_ending_key
from tests.starter.tables import (
    accepted,
    author_and_year,
    former,
    genera,
    name_in_force,
    parts,
    reference,
    rows,
    species,
)

# Acts of the last years and traps; the paper stands beside each.
ACTS = [
    ("Brachypelma vagans", "Tliltocatl vagans", "2020"),  # Mendoza & Francke 2020, Zool. J. Linn. Soc. 188: 82-147
    ("Brachypelma albopilosum", "Tliltocatl albopilosus", "2020"),  # the same
    ("Brachypelma annitha", "Brachypelma smithi", "2017"),  # Mendoza & Francke 2017, Invertebr. Syst. 31: 157-179
    ("Haplopelma lividum", "Cyriopagopus lividus", "2015"),  # Smith & Jacobi 2015, Br. Tarantula Soc. J. 30(3): 25-48
    ("Citharischius crawshayi", "Pelinobius muticus", "2010"),  # Gallon 2010, Bull. Br. arachnol. Soc. 15: 29-48
    ("Grammostola porteri", "Grammostola rosea", "2022"),  # Aguilera et al. 2022, Rev. Ibér. Aracnol. 40: 63-71
    ("Avicularia versicolor", "Caribena versicolor", "2017"),  # Fukushima & Bertani 2017, ZooKeys 659: 1-185
    ("Acanthoscurria brocklehursti", "Acanthoscurria theraphosoides", "2014"),  # Paula et al. 2014, Zoologia 31: 63-80
    ("Ceratogyrus bechuanicus", "Ceratogyrus darlingi", "2008"),  # Gallon 2008, Bull. Br. arachnol. Soc. 14: 232-246
    ("Pterinopelma sazimai", "Lasiocyano sazimai", "2023"),  # Galleti-Lima et al. 2023, Front. Ecol. Evol. 11: 1177627
    ("Aphonopelma lanceolatum", "Sandinista lanceolatum", "2019"),  # Longhorn & Gabriel 2019, Arachnology 18: 101-120
    ("Orphnaecus philippinus", "Selenobrachys philippinus", "2025"),  # Acuña et al. 2025, ZooKeys 1233: 139-193
    ("Monocentropus longimanus", "Satyrex longimanus", "2025"),  # Zamani et al. 2025, ZooKeys 1247: 89-126
    ("Heterometrus swammerdami", "Gigantometrus swammerdami", "2020"),  # Prendini & Loria 2020, Bull. AMNH 442: 1-480
    ("Nephila clavipes", "Trichonephila clavipes", "2019"),  # Kuntner et al. 2019, Syst. Biol. 68: 555-572
    ("Hierodula grandis", "Titanodula grandis", "2020"),  # Vermeersch 2020, Belg. J. Entomol. 100: 1-18
    ("Psalmopoeus intermedius", "Psalmopoeus reduncus", "2022"),  # Cifuentes & Bertani 2022, Zootaxa 5101: 1-123
    ("Euathlus peruvianus", "Thrixopelma peruvianum", "2021"),  # Sherwood et al. 2021, Arachnology 18: 893-917
    ("Aphonopelma serratum", "Dugesiella serrata", "2022"),  # Gabriel 2022, J. Br. Tarantula Soc. 37(2): 5-17
]
# Names that look as if they had to change and have not; source beside each.
UNCHANGED = [
    "Aphonopelma iodius",  # Hamilton, Hendrixson & Bond 2016: -ius is right in this neuter genus
    "Psalmopoeus irminia",  # World Spider Catalog, list of late 2021: a noun
    "Monocentropus balfouri",  # Zamani et al. 2025: the type species stays
    "Achatina achatina",  # MolluscaBase as cited by Wikipedia
    "Nephila pilipes",  # Kuntner et al. 2019
    "Heterometrus laoticus",  # Prendini & Loria 2020
    "Hierodula membranacea",  # Vermeersch 2020
    "Babycurus jacksoni",  # Kovařík, Lowe & Šťáhlavský 2018
]


@pytest.mark.parametrize(("old", "new", "year"), ACTS)
def test_acts_of_published_papers_are_in_the_list(old: str, new: str, year: str) -> None:
    assert former()[old]["acceptedName"] == new
    assert former()[old]["year"] == year
    assert species()[new]["status"] == "accepted"


@pytest.mark.parametrize("name", UNCHANGED)
def test_names_that_stay_stay(name: str) -> None:
    assert species()[name]["status"] == "accepted"


def test_unsettled_names_are_shown_as_such() -> None:
    disputed = {row["name"] for row in rows("disputes")}
    assert {"Cyriopagopus lividus", "Melopoeus lividus", "Brachypelma fossorium", "Zophobas atratus"} <= disputed


def test_the_us_list_holds_five_ornamentals_and_not_the_genus() -> None:
    # US Fish and Wildlife Service 2018, Federal Register 83: 36755-36773
    listed = {row["taxon"] for row in rows("cautions") if row["topic"] == "law_us_esa"}
    five = {"fasciata", "ornata", "smithi", "subfusca", "vittata"}
    assert {taxon for taxon in listed if taxon.startswith("Poecilotheria")} == {f"Poecilotheria {one}" for one in five}


def test_trade_use_of_red_knees_is_dated() -> None:
    # Mendoza & Francke 2017 settle the two species; the trade goes on using one name.
    row = next(row for row in rows("misuse") if row["name"] == "Brachypelma smithi")
    assert parts(row["meant"]) == ["Brachypelma hamorii", "Brachypelma smithi"]
    assert (row["cleared"], row["ended"]) == ("2017", "")


def test_the_list_holds_what_it_promises() -> None:
    # The numbers are the promise of issues 6 and 15.
    tarantulas = [row for row in accepted() if row["family"] == "Theraphosidae"]
    assert len(accepted()) >= 1500
    assert len(tarantulas) >= 1000
    assert len({row["scientificName"].split()[0] for row in tarantulas}) >= 150
    assert len([row for row in rows("former") if row["year"] and row["source"]]) >= 480
    assert len([name for name in former() if genera()[name.split()[0]]["family"] == "Theraphosidae"]) >= 500
    assert len({(row["vernacularName"], row["language"]) for row in rows("common")}) >= 850
    assert len({row["language"] for row in rows("common")}) >= 8
    groups = Counter(row["group"] for row in accepted())
    kept = (
        "scorpion", "true spider", "jumping spider", "mantis", "stick insect", "leaf insect", "millipede", "centipede",
        "isopod", "beetle", "roach", "whip spider", "vinegaroon", "snail",
    )  # fmt: skip
    assert {group: count for group in kept if (count := groups[group]) < 5} == {}


def test_authorship_agrees_with_the_catalogue_of_2021() -> None:
    # World Spider Catalog, list of valid species of late 2021 (open data of 2021-12-07), used to check only
    catalogue = {_catalogue_name(row): row for row in reference("theraphosidae_2021.csv")}
    before: defaultdict[str, list[str]] = defaultdict(list)
    for old in former():
        before[name_in_force(old)].append(old)
    for row in rows("disputes"):
        for target in parts(row["targets"]):
            before[target] += parts(row["targets"])
    compared = 0
    for row in accepted():
        author, year, bracketed = author_and_year(row["authorship"])
        if row["family"] != "Theraphosidae" or not year or int(year) > 2021:
            continue
        found = catalogue.get(row["scientificName"])
        if found is None:
            # moved since: the act is in the list, or the name is disputed, or the note says what differs
            earlier = [old for old in before[row["scientificName"]] if old in catalogue]
            assert earlier or "catalogue of 2021" in row["note"], row
            continue
        compared += 1
        theirs = (found["author"], found["year"], found["parentheses"] == "1")
        assert (author, year, bracketed) == theirs or "catalogue of 2021" in row["note"], (row, theirs)
    assert compared > 300


def test_a_species_moved_since_2021_was_in_the_catalogue_under_a_former_name() -> None:
    catalogue = {_catalogue_name(row): row for row in reference("theraphosidae_2021.csv")}
    for old, row in former().items():
        found = catalogue.get(old)
        target = species().get(row["acceptedName"])
        if found is None or target is None or row["act"] != "transfer":
            continue
        if target["authorship"]:
            assert author_and_year(target["authorship"])[:2] == (found["author"], found["year"]), row


#: Moved since 2021 by papers that were not seen: Sherwood 2023, Cifuentes & Bertani 2022, Kaderka 2023, Acuña 2025,
#: Galleti-Lima 2023, and a taxonomy of 2026. The set may only shrink.
ACTS_NOT_SEEN = {
    "Abdomegaphobema mesomelas", "Amazonius elenae", "Chilocosmia dichromata", "Isiboroa sacsayhuaman",
    "Parvicarina vellutina", "Pterinopelma longisternale", "Pterinopelma roseum", "Tekoapora wacketi",
    "Vitalius chromatus",
}  # fmt: skip


def test_what_left_its_genus_since_the_catalogue_of_2021_has_a_later_act_that_was_seen() -> None:
    there: defaultdict[tuple[str, str, str], set[str]] = defaultdict(set)
    for one in reference("theraphosidae_2021.csv"):
        there[epithet_ending_key(one["species"]), one["author"], one["year"]].add(_catalogue_name(one))
    disputed = {target for row in rows("disputes") for target in parts(row["targets"])}
    unseen: dict[str, set[str]] = {}
    moved = 0
    for row in accepted():
        name, (author, year, _) = row["scientificName"], author_and_year(row["authorship"])
        theirs = there.get((epithet_ending_key(name.split()[-1]), author, year), set())
        if row["family"] != "Theraphosidae" or not theirs or name in disputed:
            continue
        if name.split()[0] in {one.split()[0] for one in theirs}:
            continue
        moved += 1
        acts = [former()[one] for one in theirs if one in former() and name_in_force(one) == name]
        if not any(act["year"] >= "2020" and act["confidence"] == "verified" for act in acts):
            unseen[name] = {act["confidence"] for act in acts}
    assert moved > 20
    assert set(unseen) == ACTS_NOT_SEEN
    # a change from memory is never safe
    assert {name for name, marks in unseen.items() if marks != {"memory"}} == set()


def test_gathered_acts_are_in_the_list() -> None:
    told = {row["name"] for table in ("misuse", "divisions", "disputes") for row in rows(table)}
    told |= {target for row in rows("disputes") for target in parts(row["targets"])}
    known = told | set(former()) | set(species())
    missing = [
        (row["id"], name)
        for row in reference("acts.csv")
        for name in (row["old_name"], row["new_name"])
        if len(name.split()) > 1 and "sp." not in name.split() and name not in known
    ]
    assert missing == []


def test_gathered_acts_lead_where_they_say() -> None:
    # Acts that were undone later and wrong uses of a name lead elsewhere by purpose.
    wrong = [
        (row["id"], row["old_name"], name_in_force(row["old_name"]))
        for row in reference("acts.csv")
        if row["old_name"] in former()
        and row["new_name"]
        and row["act"] != "split_misapplied"
        and row["current_as_of_2024"] != "no"
        and name_in_force(row["old_name"]) != name_in_force(row["new_name"])
    ]
    assert wrong == []


def test_gathered_trade_forms_are_in_the_list() -> None:
    ours = {row["form"].casefold() for row in rows("forms")}
    quoted = {form for row in reference("trade_forms.csv") for form in re.findall('"([^"]+)"', row["trade_form"])}
    assert sorted(form for form in quoted if form.casefold() not in ours) == []


# Slips of a dictionary, which offer a biting animal as a harmless one or another spider: these words mean centipedes
# (Open Dutch WordNet and OpenWN-PT put both classes into one entry) and mygalomorph spiders.
SLIPS = {("duizendpoot", "Diplopoda"), ("lacraia", "Diplopoda"), ("mygale", "Lycosa tarantula")}
# What one small dictionary alone gives (Ding 1.9, EDICT 2021, Wiktionary in the Open Multilingual Wordnet): words that
# no second source was found for, and words whose other sources give a wider group or the one species.
ONE_DICTIONARY = {
    ("Pannonian snail", "Caucasotachea vindobonensis"), ("red assassin bug", "Rhynocoris iracundus"),
    ("spotted sun beetle", "Pachnoda marginata"), ("steppe spider", "Latrodectus tredecimguttatus"),
    ("Florida-Skunk-Schabe", "Eurycotis floridana"), ("Große Achatschnecke", "Achatinidae"),
    ("Australische Schwarze Witwe", "Latrodectus hasselti"), ("Australische Trichterspinne", "Atracidae"),
    ("Flickflack-Spinne", "Cebrennus rechenbergi"),
    ("jelonek rogacz", "Lucanidae"), ("cavalinho-de-deus", "Mantis religiosa"),
    ("オオムカデ", "Scolopendra subspinipes"), ("コノハムシ", "Pulchriphyllium pulchrifolium"),
    ("ダンゴムシ", "Oniscidea"),
}  # fmt: skip


def test_slips_of_a_dictionary_stay_out() -> None:
    listed = {(row["vernacularName"], row["scientificName"]) for row in rows("common")}
    assert sorted(listed & (SLIPS | ONE_DICTIONARY)) == []
    assert {("duizendpoot", "Chilopoda"), ("lacraia", "Chilopoda"), ("mygale", "Theraphosidae")} <= listed


def test_gathered_common_names_are_complete() -> None:
    ours: dict[str, set[str]] = {}
    for row in rows("common"):
        ours.setdefault(row["vernacularName"], set()).add(row["scientificName"])
    merged = {"Tapinauchenius violaceus", "Pseudoclamoris gigas"}  # both are T. plumipes since Cifuentes & Bertani 2022
    missing = [
        (row["common_name"], row["current_name"])
        for row in reference("common_names.csv")
        if row["current_name"] not in merged
        and row["confidence"] != "memory"  # a recalled name that no page bears out may go
        and (row["common_name"], row["current_name"]) not in SLIPS | ONE_DICTIONARY
        and name_in_force(row["current_name"]) not in ours.get(" ".join(row["common_name"].split()), set())
    ]
    assert missing == []


def _catalogue_name(row: dict[str, str]) -> str:
    name = f"{row['genus']} {row['species']}"
    return name if row["subspecies"] in ("", "NA") else f"{name} {row['subspecies']}"
