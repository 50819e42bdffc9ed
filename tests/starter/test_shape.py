"""Form of the tables: vocabulary, order, one fact a row, sources that resolve."""

from __future__ import annotations

import re
import unicodedata

import pytest

from tests.starter.tables import STARTER, TABLES, author_and_year, parts, rows, text

#: What makes a row of each table one fact.
KEYS = {
    "species": ("scientificName",),
    "former": ("formerName",),
    "misuse": ("name",),
    "divisions": ("name", "kind"),
    "disputes": ("name",),
    "common": ("vernacularName", "language", "scientificName"),
    "genera": ("genus",),
    "genera_moved": ("formerGenus", "genus"),
    "epithets": ("epithet",),
    "forms": ("form", "genus"),
    "cautions": ("taxon", "topic", "statement"),
    "taxa": ("taxon",),
    "sources": ("key",),
}
VOCABULARY = {
    ("species", "rank"): {"species", "subspecies"},
    ("species", "status"): {"accepted", "doubtful"},
    ("species", "group"): {
        "tarantula", "true spider", "jumping spider", "scorpion", "mantis", "stick insect", "leaf insect", "millipede",
        "centipede", "isopod", "beetle", "roach", "whip spider", "vinegaroon", "snail", "other",
    },
    ("former", "act"): {"transfer", "synonymy", "objective_synonymy", "replacement", "spelling", "rank"},
    ("divisions", "kind"): {"split", "revival"},
    ("common", "kind"): {"common", "nickname", "abbreviation"},
    ("common", "usual"): {"", "yes"},
    ("genera", "gender"): {"masculine", "feminine", "neuter", "uncertain"},
    ("genera", "status"): {"accepted", "former"},
    ("genera_moved", "scope"): {"whole", "part", "unsettled"},
    ("epithets", "class"): {"adjective", "noun", "genitive", "invariable"},
    ("cautions", "topic"): {
        "urticating_setae", "venom_report", "defensive_chemicals", "law_cites", "law_eu", "law_us_esa", "law_us",
        "law_other",
    },
    ("cautions", "weight"): {"", "mild", "none"},
    ("sources", "kind"): {"paper", "catalogue", "database", "encyclopedia", "common practice", "memory"},
}  # fmt: skip
YEARS = (
    ("former", "year"), ("misuse", "from"), ("misuse", "cleared"), ("misuse", "ended"), ("divisions", "since"),
    ("divisions", "sunk"), ("genera_moved", "year"), ("cautions", "year"),
    ("cautions", "textOf"),
)  # fmt: skip
NAME = re.compile(r"[A-Z][a-z]+( [a-z]+){1,2}")
WITH_CONFIDENCE = [table for table in TABLES if table != "sources"]


@pytest.mark.parametrize("table", TABLES)
def test_text_is_canonical(table: str) -> None:
    content = text(table)
    assert content == unicodedata.normalize("NFC", content)
    assert "\r" not in content
    assert content.endswith("\n")
    cells = [cell for row in rows(table) for cell in row.values()]
    assert [cell for cell in cells if cell != " ".join(cell.split())] == []
    assert [cell for cell in cells if ";;" in cell or cell.endswith(";")] == []


@pytest.mark.parametrize("table", TABLES)
def test_rows_are_sorted_and_one_fact_each(table: str) -> None:
    whole = [tuple(row.values()) for row in rows(table)]
    assert whole == sorted(whole)
    keys = [tuple(row[column] for column in KEYS[table]) for row in rows(table)]
    assert sorted({key for key in keys if keys.count(key) > 1}) == []


@pytest.mark.parametrize(("table", "column"), VOCABULARY)
def test_cells_use_the_vocabulary(table: str, column: str) -> None:
    assert {row[column] for row in rows(table)} <= VOCABULARY[table, column]


@pytest.mark.parametrize("table", WITH_CONFIDENCE)
def test_every_row_says_whether_it_was_seen(table: str) -> None:
    assert {row["confidence"] for row in rows(table)} <= {"verified", "memory"}


@pytest.mark.parametrize("table", WITH_CONFIDENCE)
def test_every_source_resolves(table: str) -> None:
    known = {row["key"] for row in rows("sources")}
    assert [row for row in rows(table) if not parts(row["source"])] == []
    assert {key for row in rows(table) for key in parts(row["source"])} - known == set()


@pytest.mark.parametrize("table", WITH_CONFIDENCE)
def test_what_only_memory_says_is_not_called_verified(table: str) -> None:
    recalled = {"memory", "common-practice", "toxinology", "iczn-code"}
    kept = [row for row in rows(table) if set(parts(row["source"])) <= recalled and row["confidence"] == "verified"]
    # A gender follows from the Code and from endings in print, which the source iczn-code stands for.
    assert [row for row in kept if table != "genera"] == []


def test_a_nickname_or_abbreviation_stands_on_common_practice_or_was_seen() -> None:
    # They stay firm without a second witness; a plain name from memory is a guess.
    short = [row for row in rows("common") if row["kind"] != "common" and row["confidence"] == "memory"]
    assert short
    assert [row for row in short if row["source"] != "common-practice"] == []


def test_citations_are_full() -> None:
    sources = {row["key"]: row for row in rows("sources")}
    dated = re.compile(r"\b(1[89]|20)\d\d\b|list|proposal")
    papers = {key for key, row in sources.items() if row["kind"] == "paper"}
    assert sorted(key for key in papers if not dated.search(sources[key]["citation"])) == []
    assert sorted(key for key, row in sources.items() if len(row["citation"]) < 30) == []
    assert sorted(key for key in sources if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", key)) == []
    assert {row["link"].partition("://")[0] for row in sources.values()} <= {"", "https", "http"}


def test_no_source_is_kept_for_nothing() -> None:
    used = {key for table in WITH_CONFIDENCE for row in rows(table) for key in parts(row["source"])}
    assert {row["key"] for row in rows("sources")} - used <= {"catalogue-seen", "memory", "common-practice"}


@pytest.mark.parametrize(("table", "column"), YEARS)
def test_years_are_years(table: str, column: str) -> None:
    assert [row for row in rows(table) if row[column] and not re.fullmatch(r"1[789]\d\d|20[012]\d", row[column])] == []


def test_names_carry_no_authorship_or_marks() -> None:
    for table, column in (("species", "scientificName"), ("former", "formerName"), ("former", "acceptedName")):
        assert [row[column] for row in rows(table) if not NAME.fullmatch(row[column])] == []
    for row in rows("species"):
        assert (row["scientificName"].count(" ") == 2) == (row["rank"] == "subspecies"), row


def test_authorships_end_in_a_year() -> None:
    # Art. 51.2 and 51.3; the first zoological names are those of 1757 and 1758 (Art. 3)
    for table in ("species", "former"):
        given = [row for row in rows(table) if row["authorship"]]
        wrong = [row for row in given if not re.fullmatch(r"\(?[^()]+, (1[789]|20)\d\d\)?", row["authorship"])]
        assert wrong == []
        assert [row for row in given if ("(" in row["authorship"]) != (")" in row["authorship"])] == []
        assert [row for row in given if int(author_and_year(row["authorship"])[1]) < 1757] == []


def test_a_name_without_authorship_claims_no_first_genus() -> None:
    # An authorship is entered only where it was seen or recalled; brackets and first genus go with it.
    for row in rows("species"):
        assert row["authorship"] or not row["originalGenus"], row


def test_an_act_is_not_older_than_its_name() -> None:
    dated = [row for row in rows("former") if row["year"] and row["authorship"]]
    assert [row for row in dated if int(row["year"]) < int(author_and_year(row["authorship"])[1])] == []


def test_the_year_of_an_act_is_given_only_where_a_source_was_seen() -> None:
    # Recalled years were mostly those of the genus, and the species had come to it later: four of seven were wrong.
    for table in ("former", "genera_moved"):
        assert [row for row in rows(table) if row["year"] and row["source"] == "memory"] == []
        assert [row for row in rows(table) if row["year"] and re.search(r"\byear\b.*recalled", row["note"], re.I)] == []


def test_the_edition_is_dated_and_free() -> None:
    edition = (STARTER / "edition.yaml").read_text(encoding="utf-8")
    assert "\nlicence: CC0-1.0\n" in edition
    date = re.search(r"^date: (\d{4})-\d\d-\d\d$", edition, re.MULTILINE)
    assert date
    newest = max(int(row["year"]) for row in rows("former") if row["year"])
    assert newest <= int(date[1])
