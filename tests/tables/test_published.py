"""An archive that may be published: valid, without orphans, without what is private, and read back without loss."""

from __future__ import annotations

import csv
import io
import json
import re
import uuid
import zipfile
from collections.abc import Callable, Mapping
from pathlib import Path
from xml.etree.ElementTree import fromstring

import pytest

from tests.conftest import Outcome, Typed, run_here

Command = Callable[..., Outcome]
DATA = Path(__file__).parent / "data"
#: The schema of EML 2.2.0 (github.com/NCEAS/eml, folder xsd, GPL) is no part of this project.
EML_SCHEMA = Path(__file__).parents[3] / "shared" / "reference" / "eml-2.2.0" / "eml.xsd"
DWC = "http://rs.tdwg.org/dwc/terms/"

# Invented animals around real names.
ANIMALS = {
    "A1": (
        'tag: "Mex red rump 0.1 £30"\nacquired: 2014-05-03\nsex: 0.1.0\nlocality: "Campeche"\nfrom: A friend\n'
        'place: "3"\n'
        "note: eats well\nprice: £30\nstage: adult\npapers: [{kind: permit, number: X-77, name: J. Doe}]\nnames:\n"
        "  - name: Brachypelma vagans\n    authorship: (Ausserer, 1875)\n    since: 2014-05-03\n"
        "    recorded: 2014-05-04\n"
        "    standing: as-labelled\n    qualifier: cf.\n    note: a remark of mine\n  - name: Tliltocatl vagans\n"
        "    authorship: (Ausserer, 1875)\n    since: 2021-02-11\n    recorded: 2021-02-11\n    standing: moved\n"
        "    according_to: Mendoza & Francke 2020\n"
    ),
    "A2": 'tag: "sling of A1"\nsex: 0.0.1\nfrom: [A1, A friend]\n',
    "A3": 'tag: "Mex red knee 0.0.1"\n',
    "A4": 'tag: "Brachypelma sp. 12 EUR"\nnames:\n  - name: Brachypelma\n    qualifier: sp.\n',
    "A5": 'tag: "??? nobody knows"\nleft: {date: 2021-06-01, how: sold}\n',
}


@pytest.fixture
def animals(tmp_path: Path, command: Command) -> Path:
    command("collection", "new", "animals")
    for name, text in ANIMALS.items():
        (tmp_path / "animals" / "specimens" / f"{name}.yaml").write_text(text, encoding="utf-8")
    assert command("collection", "verify", "animals").code == 0
    return tmp_path / "animals"


def exported(command: Command, *more: str) -> Path:
    done = command("collection", "export", "animals", "-o", "out.zip", "--as", "dwca", *more)
    assert done.code == 0, done.err
    return Path("out.zip")


def parts(path: Path) -> dict[str, str]:
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name).decode() for name in archive.namelist()}


def core(files: Mapping[str, str]) -> dict[str, dict[str, str]]:
    rows = csv.DictReader(io.StringIO(files["occurrence.csv"], newline=""))
    return {row["catalogNumber"]: row for row in rows}


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
@pytest.mark.usefixtures("animals")
def test_a_reference_reader_finds_no_orphans(tmp_path: Path, command: Command) -> None:
    """python-dwca-reader (PyPI), written at the Belgian Biodiversity Platform."""
    from dwca.read import DwCAReader

    exported(command)
    with DwCAReader(str(tmp_path / "out.zip")) as reader:
        rows = list(reader)
        assert len(rows) == len(ANIMALS)
        assert not any(any(orphans.values()) for orphans in reader.orphaned_extension_rows().values())
        ids = [row.id for row in rows]
        assert len(set(ids)) == len(ids)
        assert all(re.fullmatch(r"urn:uuid:[0-9a-f-]{36}", one) for one in ids)
        (relation,) = [row for one in rows for row in one.extensions if row.rowtype == f"{DWC}ResourceRelationship"]
        assert relation.data[f"{DWC}relatedResourceID"] == ids[0]
        assert rows[0].data[f"{DWC}kingdom"] == "Animalia"


@pytest.mark.usefixtures("animals")
def test_the_metafile_is_valid_against_the_schema_of_the_standard(tmp_path: Path, command: Command) -> None:
    import xmlschema

    exported(command)
    schema = xmlschema.XMLSchema(str(DATA / "tdwg_dwc_text.xsd"))
    meta = parts(tmp_path / "out.zip")["meta.xml"]
    schema.validate(meta)
    assert not schema.is_valid(meta.replace("rowType", "rowtype"))


@pytest.mark.usefixtures("animals")
@pytest.mark.parametrize("more", [(), ("--licence", "CC-BY-4.0", "--rights-holder", "A & B")])
def test_the_description_is_valid_against_its_schema(tmp_path: Path, command: Command, more: tuple[str, ...]) -> None:
    if not EML_SCHEMA.exists():
        pytest.skip("the schema of EML is not here")
    import xmlschema

    exported(command, *more)
    schema = xmlschema.XMLSchema(str(EML_SCHEMA))
    eml = parts(tmp_path / "out.zip")["eml.xml"]
    schema.validate(eml)
    assert not schema.is_valid(eml.replace("<contact>", "<contac>").replace("</contact>", "</contac>"))


@pytest.mark.usefixtures("animals")
def test_the_description_has_what_the_schema_demands_in_its_order(tmp_path: Path, command: Command) -> None:
    """EML 2.2.0, eml-resource.xsd and eml-dataset.xsd: ResourceGroup is a sequence, title, creator, contact a must."""
    exported(command, "--licence", "cc0-1.0", "--rights-holder", "A & B")
    root = fromstring(parts(tmp_path / "out.zip")["eml.xml"])
    assert {"packageId", "system"} <= set(root.keys())
    (dataset,) = root
    assert [one.tag for one in dataset] == [
        "title", "creator", "pubDate", "language", "abstract", "intellectualRights", "licensed", "contact",
    ]  # fmt: skip
    assert [one.tag for one in dataset[6]] == ["licenseName", "url", "identifier"]
    assert "Rights holder: A & B" in "".join(dataset[5].itertext())


@pytest.mark.usefixtures("animals")
def test_what_is_private_leaves_only_by_the_keepers_word(tmp_path: Path, command: Command) -> None:
    shown = command("collection", "export", "animals", "-o", "out.zip", "--as", "dwca")
    assert "Not in the archive: from, place, note, price, papers" in shown.out
    everything = "".join(parts(tmp_path / "out.zip").values())
    for word in ("A friend", "eats well", "£30", "12 EUR", "X-77", "J. Doe", "a remark of mine"):
        assert word not in everything, word
    assert core(parts(tmp_path / "out.zip"))["A1"]["verbatimLabel"] == "Mex red rump 0.1"
    exported(command, "--with", "from,place,note,price,papers")
    everything = "".join(parts(tmp_path / "out.zip").values())
    for word in ("A friend", "eats well", "£30", "12 EUR", "X-77", "J. Doe", "a remark of mine"):
        assert word in everything, word
    refused = command("collection", "export", "animals", "-o", "x.zip", "--as", "dwca", "--with", "from,secrets")
    assert (refused.code, "unknown field for --with 'secrets'" in refused.err) == (2, True)


@pytest.mark.usefixtures("animals")
def test_each_term_holds_what_it_is_of(tmp_path: Path, command: Command) -> None:
    exported(command)
    rows = core(parts(tmp_path / "out.zip"))
    assert "eventDate" not in rows["A1"]
    named = ("scientificName", "taxonRank", "identificationQualifier", "verbatimIdentification", "locality", "country")
    assert [rows["A1"][term] for term in named] == [
        "Tliltocatl vagans (Ausserer, 1875)", "species", "", "Tliltocatl vagans", "Campeche", "Mexico",
    ]  # fmt: skip
    # A tag's word that nobody has settled is verbatim; the genus all its meanings share is known.
    assert [rows["A3"][term] for term in named[:4]] == ["Brachypelma", "genus", "", "Mex red knee 0.0.1"]
    assert [rows["A4"][term] for term in named[:4]] == ["Brachypelma", "genus", "sp.", "Brachypelma sp."]
    assert [rows["A5"][term] for term in named[:4]] == ["Animalia", "kingdom", "", "??? nobody knows"]
    assert rows["A5"]["disposition"] == "deaccessioned"


def test_identifiers_stay_and_are_of_this_collection_alone(tmp_path: Path, animals: Path, command: Command) -> None:
    exported(command)
    first = {key: row["occurrenceID"] for key, row in core(parts(tmp_path / "out.zip")).items()}
    (animals / "specimens" / "A1.yaml").write_text(ANIMALS["A1"].replace("eats well", "eats"), encoding="utf-8")
    (animals / "specimens" / "A6.yaml").write_text("tag: one more\n", encoding="utf-8")
    exported(command)
    second = {key: row["occurrenceID"] for key, row in core(parts(tmp_path / "out.zip")).items()}
    assert {key: second[key] for key in first} == first
    assert len(set(second.values())) == 6
    kept = json.loads((animals / ".namekeeper-uuids").read_text(encoding="utf-8"))
    assert {f"urn:uuid:{text}" for text in kept.values()} == set(second.values())
    assert all(uuid.UUID(text).version == 5 for text in kept.values())
    (animals / ".namekeeper-uuids").write_text('{"A1": "nonsense"}', encoding="utf-8")
    refused = command("collection", "export", "animals", "-o", "out.zip", "--as", "dwca")
    assert (refused.code, "identifiers of earlier exports are damaged" in refused.err) == (2, True)


def test_a_prefix_of_the_keepers_own(tmp_path: Path, animals: Path, command: Command) -> None:
    settings = animals / "collection.yaml"
    settings.write_text("id_prefix: https://example.org/animals/\n", encoding="utf-8")
    exported(command)
    assert core(parts(tmp_path / "out.zip"))["A1"]["occurrenceID"] == "https://example.org/animals/A1"
    assert not (animals / ".namekeeper-uuids").exists()
    settings.write_text("id_prefix: mine\n", encoding="utf-8")
    refused = command("collection", "export", "animals", "-o", "out.zip", "--as", "dwca")
    assert (refused.code, "neither a web address nor a URN" in refused.err) == (2, True)


@pytest.mark.usefixtures("animals")
def test_without_a_licence_the_archive_says_so(tmp_path: Path, command: Command) -> None:
    done = command("collection", "export", "animals", "-o", "out.zip", "--as", "dwca", "--json")
    assert json.loads(done.out)["licensed"] is False
    assert "no licence is given, so nobody may use it yet" in done.err
    assert "No licence is given yet" in parts(tmp_path / "out.zip")["eml.xml"]


def test_the_licence_is_asked_for_once_and_kept(tmp_path: Path, home: Path, animals: Path) -> None:
    settings = animals / "collection.yaml"
    settings.write_text("# mine\ntitle: Back room # stays", encoding="utf-8")
    environ = {"NAMEKEEPER_HOME": str(home), "NO_COLOR": "1"}
    words = ["collection", "export", "animals", "-o", "out.zip", "--as", "dwca"]
    asked = run_here(words, tmp_path, environ, Typed("cc-by-4.0\nThe keeper\n"), Typed())
    assert asked.code == 0
    assert "Under which licence may others use the archive?" in asked.out
    assert settings.read_text(encoding="utf-8") == (
        "# mine\ntitle: Back room # stays\nlicence: CC-BY-4.0\nrights_holder: The keeper\n"
    )
    row = core(parts(tmp_path / "out.zip"))["A1"]
    assert row["license"] == "https://creativecommons.org/licenses/by/4.0/legalcode"
    assert row["rightsHolder"] == "The keeper"
    again = run_here(words, tmp_path, environ, Typed(""), Typed())
    assert "Under which licence" not in again.out


def test_settings_in_another_style_are_not_broken(tmp_path: Path, home: Path, animals: Path) -> None:
    settings = animals / "collection.yaml"
    settings.write_text("{title: Back room}\n", encoding="utf-8")
    environ = {"NAMEKEEPER_HOME": str(home), "NO_COLOR": "1"}
    words = ["collection", "export", "animals", "-o", "out.zip", "--as", "dwca"]
    refused = run_here(words, tmp_path, environ, Typed("CC0-1.0\nMe\n"), Typed())
    assert (refused.code, "write into it: licence: CC0-1.0" in refused.err) == (2, True)
    assert settings.read_text(encoding="utf-8") == "{title: Back room}\n"


@pytest.mark.usefixtures("animals")
def test_an_import_brings_everything_back(tmp_path: Path, command: Command) -> None:
    exported(command, "--with", "from,place,note,price,papers")
    command("collection", "new", "back")
    assert command("collection", "import", "back", "out.zip", "--write").code == 0
    made = {}
    for folder in ("animals", "back"):
        command("collection", "export", folder, "-o", f"{folder}.json", "--as", "json")
        made[folder] = json.loads((tmp_path / f"{folder}.json").read_text(encoding="utf-8"))["specimens"]
    assert made["animals"] == made["back"]


@pytest.mark.usefixtures("animals")
def test_another_program_reads_names_doubts_and_sexes_from_its_terms_alone(tmp_path: Path, command: Command) -> None:
    """Read as an archive of others: without the record that only this program understands."""
    exported(command)
    files = parts(tmp_path / "out.zip")
    rows = list(csv.reader(io.StringIO(files["occurrence.csv"], newline="")))
    place = rows[0].index("dynamicProperties")
    buffer = io.StringIO()
    csv.writer(buffer, lineterminator="\n").writerows([[*row[:place], ""] for row in rows])
    with zipfile.ZipFile(tmp_path / "plain.zip", "w") as archive:
        for name, text in (files | {"occurrence.csv": buffer.getvalue()}).items():
            archive.writestr(name, text)
    command("collection", "new", "back")
    document = json.loads(command("collection", "import", "back", "plain.zip", "--write", "--json").out)
    assert (len(document["imported"]), document["left"]) == (5, [])
    back = {path.stem: path.read_text(encoding="utf-8") for path in (tmp_path / "back" / "specimens").iterdir()}
    assert "name: Tliltocatl vagans" in back["A1"]
    assert "authorship: (Ausserer, 1875)" in back["A1"]
    assert "since: 2021-02-11" in back["A1"]
    assert "sex: 0.1.0" in back["A1"]
    assert "locality: Campeche, Mexico" in back["A1"]
    assert "qualifier: sp." in back["A4"]
    assert [one["sheet"] for one in document["unread"]["sheets"]] == [
        "extension Identification", "extension ResourceRelationship",
    ]  # fmt: skip
