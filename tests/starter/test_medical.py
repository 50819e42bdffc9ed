"""Genera that published reviews and papers call of medical importance, or whose defence they describe, have a caution.

The lists are the papers' and directories', not ours: a genus that is not on our list is passed over, and asked for as
soon as it comes in.
"""

from __future__ import annotations

import pytest

from tests.starter.tables import Row, accepted, genera, rows, taxa

VENOM, HAIRS, SPRAY = "venom_report", "urticating_setae", "defensive_chemicals"
#: Source, topic, genera.
PUBLISHED = (
    # Chippaux & Goyffon 2008, Acta Tropica 107: 71-79, as a text on scorpion stings seen in 2026 tells it
    ("Chippaux & Goyffon 2008", VENOM,
     "Androctonus Buthus Centruroides Hemiscorpius Hottentotta Leiurus Mesobuthus Parabuthus Tityus"),
    # Dehghani & Fathi 2012, Toxicon 60: 919-933 (abstract): the ten species behind the envenoming reported in Iran
    ("Dehghani & Fathi 2012", VENOM,
     "Androctonus Apistobuthus Compsobuthus Hemiscorpius Hottentotta Mesobuthus Odontobuthus Olivierus Orthochirus"),
    # Isbister & Fan 2011, Lancet 378: 2039-2047 (abstract)
    ("Isbister & Fan 2011", VENOM, "Atrax Hadronyche Latrodectus Loxosceles Phoneutria"),
    # The encyclopedia's list of spiders with medically significant venom, seen in 2026
    ("encyclopedia, 2026", VENOM, "Hexophthalma Missulena Sicarius"),
    # Gnädinger et al. 2013, Swiss Medical Weekly 143: w13877; Dunbar et al. 2018, Clinical Toxicology 56: 433-435;
    # Hung & Wang 2004 and a case of 2022 (Toxicon 213: 83-86)
    ("case reports of spider bites", VENOM, "Cheiracanthium Steatoda Macrothele"),
    # Fuchs et al. 2014, Toxicon 77: 73-77; Ahmed, Pinkham & Warrell 2009, QJM 102: 851-857
    ("tarantula bites", VENOM, "Poecilotheria Lampropelma Pterinochilus"),
    # Hauke & Herzig 2021, Toxicon: genera of the subfamilies with most muscle cramps after bites
    ("Hauke & Herzig 2021", VENOM, "Ceratogyrus Harpactira Heteroscodra Monocentropus Stromatopelma"),
    # Balit et al. 2004, Journal of Toxicology: Clinical Toxicology 42: 41-48; Haddad et al. 2022
    ("centipede bites", VENOM, "Cormocephalus Ethmostigmus Scolopendra"),
    # Armed Forces Pest Management Board, field guide to venomous and medically important invertebrates, page 47;
    # Triatoma from memory (vector of Chagas disease)
    ("assassin bugs", VENOM, "Arilus Platymeris Psyttala Reduvius Rhynocoris Triatoma"),
    # Giant water bugs: from memory (Haddad et al. 2010, bites of belostomatids)
    ("giant water bugs, from memory", VENOM, "Abedus Belostoma Lethocerus"),
    # Encyclopedia on Myrmecia pilosula, seen in 2026 (death by allergy); the other stinging ants from memory
    ("stinging ants", VENOM, "Dinoponera Myrmecia Odontomachus Paraponera Pogonomyrmex Solenopsis Myrmica"),
    # Cruz & White in Meier & White 1995, Handbook of Clinical Toxicology (contents seen)
    ("cone snails", VENOM, "Conus"),
    # Caterpillars with stinging hairs: encyclopedia on urticating hairs, seen in 2026 (Lonomia); the others from memory
    ("caterpillars", HAIRS, "Automeris Euproctis Lonomia Megalopyge Thaumetopoea"),
    # Cooke, Roth & Miller 1972; Bertani & Guadanucci 2013, Zoologia 30: 403-418; Perafán et al. 2016, ZooKeys 601;
    # Husser 2018, ZooKeys 784 (Ephebopus: on the palps)
    ("urticating setae", HAIRS,
     ("Acanthoscurria Aphonopelma Avicularia Brachypelma Caribena Ephebopus Grammostola Kankuamo Lasiodora Nhandu "
      "Pamphobeteus Phormictopus Theraphosa Tliltocatl Vitalius Xenesthis Ybyrapora")),
    # Eisner 1965, Science 148: 966-968; Eisner et al. 1997; Jones & Bulbert 2020, Journal of Ethology 38: 51-59;
    # Koczur et al. 2024, European Journal of Entomology 121: 360
    ("stick insects that spray", SPRAY, "Anisomorpha Eurycantha Megacrania Oreophoetes Parectatosoma Peruphasma"),
    # Encyclopedia: whip scorpions spray acetic acid (Schmidt et al. 2000); spitting of Peucetia viridans
    ("arachnids that spray", SPRAY, "Mastigoproctus Peucetia Thelyphonus Typopeltis"),
    # Eisner et al. 1963 (Calosoma); Tschinkel 1975 (Eleodes, Blaps); bombardier and blister beetles from memory
    ("beetles", SPRAY, "Anthia Blaps Brachinus Calosoma Eleodes Epicauta Lytta Meloe Mylabris Pheropsophus"),
    # Baldwin et al. 1990 and Farine et al. 1997 on roaches; encyclopedia on Romalea and on wood ants
    ("other insects", SPRAY, "Diploptera Eurycotis Formica Romalea"),
    # Encyclopedia on the secretions of millipedes, seen in 2026; Eisner et al. 1963 (Apheloria)
    ("millipedes", SPRAY, "Anadenobolus Apheloria Archispirostreptus Harpaphe Narceus Orthoporus Spirostreptus"),
)  # fmt: skip
#: Subfamilies of the Old World: no hairs to kick, and cramps after bites (Ahmed et al. 2009; Hauke & Herzig 2021).
OLD_WORLD = {
    "Eumenophorinae", "Harpactirinae", "Ornithoctoninae", "Poecilotheriinae", "Selenocosmiinae", "Selenogyrinae",
    "Stromatopelminae", "Thrigmopoeinae",
}  # fmt: skip
NONE_FOUND = "No published report of a serious sting found, as of 20"


def above(genus: str) -> list[str]:
    """The genus, its subfamily, family and all that lies above."""
    row = genera()[genus]
    found = [genus, row["subfamily"], row["family"]]
    while found[-1] in taxa():
        found.append(taxa()[found[-1]]["parent"])
    return [taxon for taxon in found if taxon]


def told(genus: str, topic: str) -> list[Row]:
    return [row for row in rows("cautions") if row["topic"] == topic and row["taxon"] in above(genus)]


def warns(genus: str, topic: str) -> bool:
    """A row of that topic warns for every species of the genus on the list."""
    counted = [row for row in rows("cautions") if row["topic"] == topic and not row["weight"]]
    reports = [row for row in counted if not row["statement"].startswith(NONE_FOUND)]
    if any(row["taxon"] in above(genus) for row in reports):
        return True
    kept = {row["scientificName"] for row in accepted() if row["scientificName"].split()[0] == genus}
    return bool(kept) and kept <= {row["taxon"] for row in reports}


def in_force(family: str) -> list[Row]:
    return [row for row in genera().values() if row["family"] == family and row["status"] == "accepted"]


@pytest.mark.parametrize(("topic", "named"), [row[1:] for row in PUBLISHED], ids=[row[0] for row in PUBLISHED])
def test_a_genus_that_publications_warn_of_has_a_caution(topic: str, named: str) -> None:
    listed = [genus for genus in named.split() if genera().get(genus, {}).get("status") == "accepted"]
    assert [genus for genus in listed if not warns(genus, topic)] == []


def test_most_of_the_genera_that_publications_warn_of_are_on_the_list() -> None:
    named = {genus for _, _, line in PUBLISHED for genus in line.split()}
    assert len(named & set(genera())) >= 70


def test_a_report_on_one_species_leaves_no_congener_without_a_word() -> None:
    # The tag of a congener is often wrong, and a label without a caution reads as a promise.
    of_species = {
        (row["taxon"].split()[0], row["topic"])
        for row in rows("cautions")
        if row["rank"] == "species" and row["topic"] in (VENOM, HAIRS, SPRAY) and not row["weight"]
    }
    assert len(of_species) >= 10
    assert sorted((genus, topic) for genus, topic in of_species if not warns(genus, topic)) == []


def test_every_genus_of_buthid_scorpions_has_a_word_of_its_own_on_venom() -> None:
    # Asked of every genus in force, with species on the list or without: a tag with "sp." needs the word too. A row on
    # one species says nothing of its congeners.
    buthids = [row["genus"] for row in in_force("Buthidae")]
    assert len(buthids) >= 25
    of_species = {row["scientificName"].split()[0] for row in accepted() if row["family"] == "Buthidae"}
    assert sorted(of_species - set(buthids)) == []
    own = {row["taxon"] for row in rows("cautions") if row["topic"] == VENOM and row["rank"] == "genus"}
    assert sorted(set(buthids) - own) == []


def test_where_no_report_was_found_the_row_says_so_with_its_year_and_names_the_family() -> None:
    none = [row for row in rows("cautions") if row["statement"].startswith("No published report")]
    assert none
    assert [row["taxon"] for row in none if row["statement"] != NONE_FOUND + row["year"][2:]] == []
    assert [row["taxon"] for row in none if "the family has dangerous members" not in row["note"]] == []
    # and the word on the family stands beside it on every label
    assert [row["taxon"] for row in none if not any(one["rank"] == "family" for one in told(row["taxon"], VENOM))] == []


def test_every_genus_of_tarantulas_has_a_word_on_hairs_and_those_of_the_old_world_on_bites() -> None:
    tarantulas = in_force("Theraphosidae")
    assert len(tarantulas) >= 150
    assert [row["genus"] for row in tarantulas if not told(row["genus"], HAIRS)] == []
    old = [row for row in tarantulas if row["subfamily"] in OLD_WORLD]
    assert {row["subfamily"] for row in old} == OLD_WORLD
    assert [row["genus"] for row in old if not warns(row["genus"], VENOM)] == []
    # a published absence on the subfamily never stands alone against a word on one of its genera (Ephebopus)
    new = [row["genus"] for row in tarantulas if row["subfamily"] in {"Aviculariinae", "Theraphosinae"}]
    assert [genus for genus in new if not warns(genus, HAIRS)] == []
