"""``lists add`` and ``collection import`` read the same table alike, and both say which encoding they guessed.

Authors of names of spiders and localities in their countries, from memory (as catalogues and maps spell them). The
names of species in front are there for the columns only, and not claims that these authors named them.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from namekeeper.sources.lists.index_reader import IndexList
from tests.conftest import Outcome

Command = Callable[..., Outcome]

CZECH = ("Řezáč", "Růžička", "Mohelno, Hádecká planinka")
POLISH = ("Kulczyński", "Staręga", "Wałbrzych, Święty Krzyż")
SPANISH = ("Pérez-Miles", "Muñoz", "Cañón del Sumidero")
FRENCH = ("Guérin-Méneville", "Brèthes", "Réunion, Nîmes")
NAMES = ("Eresus moravicus", "Avicularia purpurea")

CASES = [
    ("cp1250", CZECH, "cp1250"),
    ("cp1250", POLISH, "cp1250"),
    ("mac_roman", SPANISH, "mac_roman"),
    ("mac_roman", FRENCH, "mac_roman"),
    ("cp1252", SPANISH, "cp1252"),
    ("utf-16-le", CZECH, "utf-16-le"),
    ("utf-16-be", POLISH, "utf-16-be"),
    ("utf-16", CZECH, None),
    ("utf-8", CZECH, None),
    ("utf-8-sig", POLISH, None),
]


def table(words: tuple[str, str, str], announced: str) -> str:
    first, second, place = words
    rows = [("Name", "Authorship", "Locality"), (NAMES[0], first, place), (NAMES[1], second, "")]
    return announced + "".join(";".join(row) + "\r\n" for row in rows)


@pytest.mark.parametrize("announced", ["", "sep=;\r\n"], ids=["bare", "sep"])
@pytest.mark.parametrize(("encoding", "words", "guessed"), CASES)
def test_both_commands_read_a_table_alike(
    encoding: str, words: tuple[str, str, str], guessed: str | None, announced: str,
    tmp_path: Path, home: Path, command: Command,
) -> None:  # fmt: skip
    (tmp_path / "t.csv").write_bytes(table(words, announced).encode(encoding))
    command("collection", "new", "animals")

    added = json.loads(command("lists", "add", "t.csv", "--as", "mine", "--edition", "1", "--json").out)
    with closing(IndexList.open(home / "data" / "lists" / "mine" / "1.sqlite")) as index:
        authors = [index.named(name)[0].subject.authorship for name in NAMES]
        assert (added["skipped"], authors) == ([], list(words[:2]))
        assert index.named(NAMES[0])[0].subject.range == (words[2],)

    shown = command("collection", "import", "animals", "t.csv", "--column", "note=Authorship", "--write", "--json")
    imported = json.loads(shown.out)
    files = sorted((tmp_path / "animals" / "specimens").iterdir())
    texts = [path.read_text(encoding="utf-8") for path in files]
    assert (imported["left"], len(texts)) == ([], 2)
    assert f"note: {words[0]}\n" in texts[0]
    assert f"note: {words[1]}\n" in texts[1]
    assert f"locality: {words[2]}\n" in texts[0]

    assert added.get("guessed_encoding") == imported.get("guessed_encoding") == guessed


def test_a_guess_is_said(tmp_path: Path, command: Command) -> None:
    (tmp_path / "t.csv").write_bytes(table(POLISH, "").encode("cp1250"))
    command("collection", "new", "animals")
    added = command("lists", "add", "t.csv", "--as", "mine").out
    assert "Letters read as cp1250, which is a guess: Kulczyński, Wałbrzych, Święty, Krzyż, Staręga" in added
    shown = command("collection", "import", "animals", "t.csv").out
    assert "Read as cp1250 (guessed), delimiter ;." in shown
    assert "Letters read as cp1250, which is a guess: Kulczyński, Wałbrzych, Święty, Krzyż, Staręga" in shown
    assert "Where letters are wrong, name the encoding (--encoding) or save the table as UTF-8." in shown
    (tmp_path / "t.csv").write_bytes(table(POLISH, "").encode("utf-16-le"))
    added = command("lists", "add", "t.csv", "--as", "mine").out
    assert "Letters read as utf-16-le, which is a guess.\n" in added, "even where no word shows it"


def test_what_fits_as_well_is_offered_and_can_be_named(tmp_path: Path, command: Command) -> None:
    """One Czech word is Italian letters in cp1252: the keeper sees both before anything is written, and says which."""
    (tmp_path / "t.csv").write_bytes("Tag;Locality\nEresus kurkae;Kůrka\n".encode("cp1250"))
    command("collection", "new", "animals")
    shown = command("collection", "import", "animals", "t.csv").out
    assert "Letters read as cp1252, which is a guess: Kùrka" in shown
    assert "They fit cp1250 as well (--encoding cp1250): Kůrka" in shown
    told = json.loads(command("collection", "import", "animals", "t.csv", "--json").out)
    assert told["guessed_words"] == {"cp1252": ["Kùrka"], "cp1250": ["Kůrka"]}
    written = command("collection", "import", "animals", "t.csv", "--encoding", "cp1250", "--write").out
    assert "guess" not in written
    (path,) = (tmp_path / "animals" / "specimens").iterdir()
    assert "locality: Kůrka\n" in path.read_text(encoding="utf-8")
    named = ("--column", "name=Tag", "--column", "range=Locality", "--encoding", "cp1250")
    command("lists", "add", "t.csv", "--as", "mine", *named)
    assert "from Kůrka" in command("lookup", "--offline", "Eresus kurkae").out


@pytest.mark.parametrize(
    ("told", "why"), [("klingon", "there is no encoding 'klingon'"), ("utf-8", "the table is no text in utf-8")]
)
def test_an_encoding_that_cannot_be_is_refused(told: str, why: str, tmp_path: Path, command: Command) -> None:
    (tmp_path / "t.csv").write_bytes("Tag;Locality\nEresus moravicus;Kůrka\n".encode("cp1250"))
    command("collection", "new", "animals")
    done = command("collection", "import", "animals", "t.csv", "--encoding", told, "--write")
    assert (done.code, why in done.err) == (2, True)
    assert list((tmp_path / "animals" / "specimens").iterdir()) == []


def test_a_certain_encoding_is_no_guess(tmp_path: Path, command: Command) -> None:
    (tmp_path / "t.csv").write_bytes(table(POLISH, "").encode())
    assert "guessed" not in command("lists", "add", "t.csv", "--as", "mine").out
