"""Bad archives: a clear error or counted skips, never half an index, never a file outside, bounded memory."""

from __future__ import annotations

import random
import tracemalloc
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.words.errors import InputError
from tests.conftest import Outcome
from tests.lists.making import AREAS, META, TAXA, Read, dwca, packed

Command = Callable[..., Outcome]
ReadList = Callable[..., Read]

LAUGHS = """<?xml version="1.0"?><!DOCTYPE archive [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">
<!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]><archive>&c;</archive>"""
OUTSIDE = (
    """<?xml version="1.0"?><!DOCTYPE archive [<!ENTITY x SYSTEM "file:///etc/hostname">]><archive>&x;</archive>"""
)

REFUSED = [
    ("not XML", {"meta": "<archive"}, "not well-formed"),
    ("entities", {"meta": LAUGHS}, "document type or entities"),
    ("a foreign entity", {"meta": OUTSIDE}, "document type or entities"),
    (
        "an unknown encoding of the metafile",
        {"meta": '<?xml version="1.0" encoding="klingon"?><archive/>'},
        "not well-formed",
    ),
    ("no core", {"meta": '<archive xmlns="http://rs.tdwg.org/dwc/text/"/>'}, "0 cores"),
    ("another core", {"meta": META.replace("terms/Taxon", "terms/Occurrence")}, "of Occurrence, not of taxa"),
    ("no names", {"meta": META.replace('terms/scientificName"', 'terms/nothing"')}, "no scientificName"),
    ("a missing core file", {"meta": META.replace("taxon.txt", "taxa.txt")}, "'taxa.txt', which is not in the archive"),
    ("a path out of the archive", {"meta": META.replace("taxon.txt", "../../etc/passwd")}, "outside of the archive"),
    ("an absolute path", {"meta": META.replace("taxon.txt", "/etc/passwd")}, "outside of the archive"),
    ("a path of Windows", {"meta": META.replace("taxon.txt", "C:\\\\secret.txt")}, "outside of the archive"),
    ("a column that is no number", {"meta": META.replace('index="1"', 'index="one"', 1)}, "a number that is none"),
    ("a negative column", {"meta": META.replace('index="1"', 'index="-1"', 1)}, "a number that is none"),
    (
        "an unknown encoding",
        {"meta": META.replace('UTF-8" fields', 'klingon" fields')},
        "encoding 'klingon' is not known",
    ),
    *(
        (f"{codec} for an encoding", {"meta": META.replace('UTF-8" fields', f'{codec}" fields')}, "is not known")
        for codec in (
            "rot13",
            "idna",
            "punycode",
            "unicode_escape",
            "undefined",
            "zip",
            "hex",
            "base64",
            "uu",
            "\u00e4",
        )
    ),
    ("no rows", {"taxa": TAXA[:1]}, "no usable name"),
    (
        "nothing but plants",
        {"meta": META.replace("Animalia", "Plantae")},
        "no animal in it: all its names are of plantae",
    ),
]


@pytest.mark.parametrize(("changes", "words"), [case[1:] for case in REFUSED], ids=[case[0] for case in REFUSED])
def test_an_archive_is_refused_in_words(
    changes: dict[str, str], words: str, tmp_path: Path, command: Command, home: Path
) -> None:
    dwca(tmp_path / "a.zip", **changes)  # type: ignore[arg-type]
    done = command("lists", "add", "a.zip", "--as", "spiders")
    assert done.code == 2
    assert words in done.err
    assert done.out == ""
    assert [path for path in home.rglob("*") if path.is_file()] == [*home.rglob("starter-*.sqlite")]


def test_damage_of_the_zip_itself(tmp_path: Path, command: Command) -> None:
    whole = dwca(
        tmp_path / "a.zip", taxa=[TAXA[0], *(f"{n}\tAus species{n}\t\t\t\t\t\t" for n in range(3000))]
    ).read_bytes()
    place = whole.index(b"taxon.txt") + 400
    (tmp_path / "flipped.zip").write_bytes(
        whole[:place] + bytes(byte ^ 0xFF for byte in whole[place : place + 40]) + whole[place + 40 :]
    )
    (tmp_path / "short.zip").write_bytes(whole[: len(whole) // 2])
    for name in ("flipped.zip", "short.zip"):
        done = command("lists", "add", name, "--as", "spiders")
        assert done.code == 2
        assert done.err.startswith("namekeeper: ")
        assert "Traceback" not in done.err


def test_a_locked_archive(tmp_path: Path, read: ReadList) -> None:
    path = dwca(tmp_path / "a.zip")
    content = bytearray(path.read_bytes())
    for signature, offset in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):  # the flag "encrypted" of every member
        at = content.find(signature)
        while at >= 0:
            content[at + offset] |= 1
            at = content.find(signature, at + 1)
    path.write_bytes(content)
    with pytest.raises(InputError, match="damaged or locked"):
        read(path)


def test_a_zip_bomb_is_not_unpacked(tmp_path: Path, read: ReadList) -> None:
    path = tmp_path / "a.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("meta.xml", META)
        with archive.open("taxon.txt", "w") as member:
            for _megabyte in range(64):
                member.write(b"\t" * 1024 * 1024)
    with pytest.raises(InputError, match="grows 200 times"):
        read(path)


def test_a_line_without_end_does_not_fill_memory(tmp_path: Path, read: ReadList) -> None:
    # Random letters hardly pack, so the growth is no sign; the line is.
    letters = random.Random(1).randbytes(12 * 1024 * 1024).hex().encode()
    path = dwca(tmp_path / "a.zip", others={"taxon.txt": letters})
    del letters
    tracemalloc.start()
    try:
        with pytest.raises(InputError, match="a line is longer than"):
            read(path)
        assert tracemalloc.get_traced_memory()[1] < 16 * 1024 * 1024
    finally:
        tracemalloc.stop()


def test_a_large_description_is_not_read(tmp_path: Path, read: ReadList) -> None:
    with pytest.raises(InputError, match="too large for a description"):
        read(dwca(tmp_path / "a.zip", meta=META + " " * 5_000_000))


def test_members_with_wicked_names_stay_inside(tmp_path: Path, read: ReadList) -> None:
    path = dwca(tmp_path / "a.zip", others={"../../evil.txt": "x", "/evil.txt": "x"})
    read(path)
    assert not (tmp_path.parent / "evil.txt").exists()
    assert not (tmp_path.parent.parent / "evil.txt").exists()


def test_an_unclosed_quote(tmp_path: Path, read: ReadList) -> None:
    meta = META.replace('fieldsEnclosedBy=""', 'fieldsEnclosedBy="&quot;"', 1)
    rows = [*TAXA, '7\t"Aus bus\t\t\t\t\t\t', *(f"{n}\tAus species\t\t\t\t\t\t" for n in range(8, 8000))]
    with pytest.raises(InputError, match="a row cannot be read: field larger"):
        read(dwca(tmp_path / "a.zip", taxa=rows, meta=meta))


BAD_ROWS = [
    ("7", "has 1 cells, not 8"),
    ("7\tAphonopelma primum\t\t\t\t\t\t\t\t\tx", "has 11 cells, not 8"),
    (
        "2\tTliltocatl vagans\t(Ausserer, 1875)\tspecies\taccepted\t\t\t",
        "identifier '2' stands in an earlier row already",
    ),
    ("7\t\t\t\t\t\t\t", "no name in this row"),
    ("7\tAphonopelma sp. Flagstaff\t\t\t\t\t\t", "open nomenclature"),
    ("7\tBrachypelma hamorii x smithi\t\t\t\t\t\t", "open nomenclature or a hybrid"),
    ("7\tAphonopelma primum\t\t\tperhaps\t\t\t", "status 'perhaps' is not known"),
    ("7\t12345\t\t\t\t\t\t", "12345"),
]


@pytest.mark.parametrize(("row", "why"), BAD_ROWS)
def test_a_bad_row_is_skipped_and_listed(row: str, why: str, tmp_path: Path, read: ReadList) -> None:
    found = read(dwca(tmp_path / "a.zip", taxa=[*TAXA, row]))
    (skip,) = found.skips.listed
    assert skip.line == len(TAXA) + 1
    assert why in skip.why
    assert found.end("Brachypelma vagans") == ["Tliltocatl vagans"]


def test_letters_that_do_not_fit_the_encoding(tmp_path: Path, read: ReadList) -> None:
    text = "\n".join([*TAXA, "7\tIdiops bräunlichi\tMüller\t\t\t\t\t"]).encode("latin-1")
    found = read(dwca(tmp_path / "a.zip", others={"taxon.txt": text}))
    assert [skip.why for skip in found.skips.listed] == ["holds letters that do not fit the encoding"]


def test_references_into_nowhere(tmp_path: Path, read: ReadList) -> None:
    rows = [*TAXA, "7\tAphonopelma primum\t\tspecies\tsynonym\t99\t\t", "8\tAphonopelma alter\t\tspecies\t\t\t98\t"]
    found = read(
        dwca(tmp_path / "a.zip", taxa=rows, common=["id\tname\tlang", "97\tNobody\ten"], areas=[*AREAS, "96\tX\t"])
    )
    assert [skip.why for skip in found.skips.listed] == [
        "common name 'Nobody' is of a taxon that the list does not have"
    ]
    assert [(fault.line, fault.why) for fault in found.skips.faults] == [
        (8, "leads to '99', which the list does not have"),
        (9, "stands below '98', which the list does not have"),
    ]
    assert found.index.named("Aphonopelma primum")[0].fault == "the list leads to '99', which it does not have"
    assert found.end("Aphonopelma alter") == ["Aphonopelma alter"]


def test_names_in_a_circle(tmp_path: Path, read: ReadList) -> None:
    rows = [*TAXA, *(f"{n}\tAphonopelma n{'u' * n}s\t\tspecies\tsynonym\t{7 + (n - 6) % 3}\t\t" for n in (7, 8, 9))]
    found = read(dwca(tmp_path / "a.zip", taxa=rows))
    assert [(fault.line, fault.why) for fault in found.skips.faults] == [
        (line, "leads back to itself") for line in (8, 9, 10)
    ]
    assert all("in a circle" in str(s.fault) for s in found.index.prefixed("Aphonopelma nu"))


def test_parents_in_a_circle(tmp_path: Path, read: ReadList) -> None:
    meta = META.replace('<field term="http://rs.tdwg.org/dwc/terms/kingdom" default="Animalia"/>', "").replace(
        '<field term="http://rs.tdwg.org/dwc/terms/family" default="Theraphosidae"/>', ""
    )
    rows = [TAXA[0], "1\tTliltocatl vagans\t\tspecies\t\t\t2\t", "2\tTliltocatl\t\tgenus\t\t\t1\t"]
    assert read(dwca(tmp_path / "a.zip", taxa=rows, meta=meta)).index.named("Tliltocatl vagans")[0].subject.higher == ()


def test_skips_are_counted_in_full_and_listed_up_to_a_bound(tmp_path: Path, read: ReadList) -> None:
    found = read(dwca(tmp_path / "a.zip", taxa=[*TAXA, *(f"{n}\tbad" for n in range(5000))]))
    assert (found.skips.count, len(found.skips.listed)) == (5000, 1000)


def test_an_archive_of_something_else(tmp_path: Path, command: Command) -> None:
    packed(tmp_path / "a.zip", {"readme.txt": "hello"})
    packed(
        tmp_path / "b.zip",
        {"name.csv": "ID,scientificName\n1,Aus bus\n", "nameusage.csv": "ID,scientificName\n1,Aus bus\n"},
    )
    assert "neither a Darwin Core archive" in command("lists", "add", "a.zip", "--as", "x").err
    assert "either NameUsage, or Name" in command("lists", "add", "b.zip", "--as", "x").err
    (tmp_path / "c.csv").write_bytes(b"\x00\x01\x02binary")
    assert "this is no text" in command("lists", "add", "c.csv", "--as", "x").err
    (tmp_path / "d.csv").write_bytes(b"")
    assert "the table is empty" in command("lists", "add", "d.csv", "--as", "x").err
    assert "this is no file" in command("lists", "add", ".", "--as", "x").err


def test_a_name_under_an_identifier_that_is_taken_is_kept_and_told(tmp_path: Path, read: ReadList) -> None:
    found = read(dwca(tmp_path / "a.zip", taxa=[*TAXA, "2\tAphonopelma primum\t\tspecies\taccepted\t\t\t"]))
    assert found.skips.listed == []
    assert [fault.line for fault in found.skips.faults] == [len(TAXA) + 1]
    assert found.end("Aphonopelma primum") == ["Aphonopelma primum"]
