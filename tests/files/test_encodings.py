"""Encodings of bare tables: what is seen, what is guessed, and how often the guess is right (words from memory)."""

from __future__ import annotations

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.files import encodings
from namekeeper.files.encodings import encoding_of
from namekeeper.words.errors import InputError
from tests.files.measure import SIZES, own, right, tables
from tests.files.words_beyond_ascii import WORDS


def of(content: bytes) -> encodings.Encoding:
    return encoding_of(io.BytesIO(content))


@pytest.mark.parametrize(("size", "least"), [(1, 0.9), (2, 0.93), (5, 0.95), (99, 1.0)])
def test_how_often_a_guess_is_right(size: int, least: float) -> None:
    good, every, wrong = right(size, own)
    assert every > 10
    assert good / every >= least, wrong


@pytest.mark.parametrize("size", SIZES)
def test_a_wrong_guess_offers_the_right_one(size: int) -> None:
    """A keeper sees both readings of the words, and may name the encoding."""
    for language, name, text in tables(size):
        content = text.encode(name)
        offered = [content.decode(reading, "replace") for reading, _ in of(content).readings]
        assert text in offered, (language, name)


@pytest.mark.parametrize(
    ("language", "name", "table"),
    [
        ("Spanish", "cp1252", "tarántula;Región de Ñuble\nNº 3;Peñalolén\n1ª muda;Aysén\naño 2019;Ñuñoa\n"),
        ("Portuguese", "cp1252", "São Paulo;fêmea\nnão sexado;Goiás\nGuimarães;região\nnº 5;Conceição\n"),
        ("French", "cp1252", "adulte mâle;forêt\nmygale bleue;Guérin-Méneville\nN° 12;Réunion\nà vendre;été\n"),
        ("German", "cp1252", "Männchen;Würzburg\nWeibchen groß;Österreich\nfür Anfänger;Müller\n5 €;Köln\n"),
        ("Danish", "cp1252", "rødknæ;Sjælland\nhan;Tromsø\nhun på 5 cm;Århus\nfødt 2019;Næss\n"),
        ("Polish", "cp1250", "samica dorosła;Łódź\nsamiec;Kraków\nwylęg;Święty Krzyż\nżywy;Gdańsk\n"),
        ("Czech", "cp1250", "sklípkan;Řezáč\nsamička;Přerov\ndospělý;Žďár\npůl roku;Růžička\n"),
        ("Hungarian", "cp1250", "nőstény;Győr\nfelnőtt hím;Szűcs\nmadárpók;Kőszeg\nfűben;Hűvösvölgy\n"),
    ],
)  # fmt: skip
def test_tables_of_eight_languages_are_read_as_written(language: str, name: str, table: str) -> None:
    """Words of a keeper's own table; from memory."""
    found = of(table.encode(name))
    assert table.encode(name).decode(found.name) == table, language


def test_one_strange_word_makes_no_other_language_of_a_table() -> None:
    table = "Región;Ñuñoa\nAysén;Aõñø\nMichoacán;Xœxx\n"
    assert of(table.encode("cp1252")).name == "cp1252"


def test_a_tie_goes_to_the_encoding_of_the_system(monkeypatch: pytest.MonkeyPatch) -> None:
    content = "Aus bus;Kůrka\n".encode("cp1250")
    assert of(content).readings == (("cp1252", ("Kùrka",)), ("cp1250", ("Kůrka",)))
    monkeypatch.setattr(encodings, "system_encoding", lambda: "cp1250")
    assert of(content).readings == (("cp1250", ("Kůrka",)), ("cp1252", ("Kùrka",)))


@pytest.mark.parametrize(
    ("told", "content", "name", "mark"),
    [
        ("windows-1250", b"a;\xf8\n", "cp1250", 0), ("UTF8", b"\xef\xbb\xbfa\n", "utf-8", 3),
        ("utf-8-sig", b"a\n", "utf-8", 0), ("utf-16", b"\xfe\xff\x00a", "utf-16-be", 2),
    ],
)  # fmt: skip
def test_an_encoding_can_be_named(told: str, content: bytes, name: str, mark: int) -> None:
    found = encodings.named_encoding(told, content[:4])
    assert (found.name, len(found.mark), found.guess) == (name, mark, {})


@pytest.mark.parametrize("told", ["klingon", "rot13", "hex", "", "a\x00b", "ü"])
def test_a_name_of_no_encoding_is_refused(told: str) -> None:
    with pytest.raises(InputError, match="there is no encoding"):
        encodings.named_encoding(told, b"")


@pytest.mark.parametrize("language", WORDS)
def test_all_words_of_a_language_are_read_as_written(language: str) -> None:
    names, words = WORDS[language]
    text = "".join(f"Aus bus;{word}\n" for word in words)
    for name in names:
        found = of(text.encode(name))
        assert text.encode(name).decode(found.name) == text
        assert found.guessed


@pytest.mark.parametrize(
    ("name", "expected", "mark", "guessed"),
    [
        ("utf-8", "utf-8", 0, False), ("utf-8-sig", "utf-8", 3, False), ("utf-16-le", "utf-16-le", 0, True),
        ("utf-16-be", "utf-16-be", 0, True), ("utf-16", "utf-16-le", 2, False),
    ],
)  # fmt: skip
def test_unicode_is_seen_by_its_mark_or_its_form(name: str, expected: str, mark: int, guessed: bool) -> None:
    found = of("name;author\nEresus moravicus;Řezáč, 2008\n".encode(name))
    assert (found.name, len(found.mark), found.guessed) == (expected, mark, guessed)
    assert str(found) == expected + (" (guessed)" if guessed else "")


def test_plain_letters_are_utf_8() -> None:
    assert of(b"name\nAus bus\n") == encodings.Encoding("utf-8")
    assert of(b"") == encodings.Encoding("utf-8")


def test_a_line_of_damage_does_not_make_another_encoding_of_a_text(monkeypatch: pytest.MonkeyPatch) -> None:
    sound = "Aus bus;Müller\n".encode()
    assert of(sound * 2 + b"Aus cus;M\xfcller\n") == encodings.Encoding("utf-8")
    assert of(sound + b"Aus cus;M\xfcller\n" * 2).name == "cp1252"
    monkeypatch.setattr(encodings, "_CHUNK", 7)  # however the pieces fall
    assert of(sound * 2 + b"Aus cus;M\xfcller") == encodings.Encoding("utf-8")
    assert of(b"Aus bus;Mu\nAus cus;M\xfcller").name == "cp1252"


def test_letters_far_behind_are_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(encodings, "_CHUNK", 64)
    assert of(b"Aus bus;Roe\n" * 500 + "Eresus moravicus;Řezáč\n".encode("cp1250")).name == "cp1250"


@pytest.mark.parametrize("content", [b"\x00\x01\x02binary", b"PK\x03\x04\x14\x00\x06\x00\x08\x00" + b"x" * 80])
def test_what_is_no_text_is_refused(content: bytes) -> None:
    with pytest.raises(ValueError, match="a zero"):
        of(content)


@given(st.binary(max_size=400))
def test_any_bytes_have_an_encoding_or_are_refused(content: bytes) -> None:
    try:
        found = of(content)
    except ValueError:
        return
    content.decode(found.name, "replace")
