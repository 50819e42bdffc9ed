"""The terminal: widths, tables, escape codes, progress."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
import unicodedata
from itertools import zip_longest
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.faces.console import Console, _fitted, fold, printable, width_of
from namekeeper.faces.terminal import Terminal as Keeper
from namekeeper.outside import Work


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def plain(width: int = 80) -> tuple[Console, io.StringIO, io.StringIO]:
    out, err = io.StringIO(), io.StringIO()
    return Console(out, err, width), out, err


def test_escape_codes_are_shown_not_sent() -> None:
    console, out, _ = plain()
    console.put("\x1b[31mred\x07 \u202egnol\u202c")
    assert out.getvalue() == "\\u001b[31mred\\u0007 \\u202egnol\\u202c\n"


def test_long_talk_is_folded_between_words_on_a_terminal_alone() -> None:
    said = "Some services slow down such clients.\n  namekeeper settle . --write"
    terminal = Terminal()
    Console(io.StringIO(), terminal, 30).say(said)
    assert terminal.getvalue() == "Some services slow down such\nclients.\n  namekeeper settle . --write\n"
    link = "opened at https://example.org/a/link/to/be/copied"
    terminal = Terminal()
    Console(io.StringIO(), terminal, 30).say(link)
    assert terminal.getvalue() == link + "\n"
    console, _, err = plain(30)
    console.say(said)
    assert err.getvalue() == said + "\n"


@given(st.text())
def test_nothing_printed_can_steer_a_terminal(text: str) -> None:
    shown = printable(text)
    assert all(letter == "\n" or letter == "\u00a0" or letter.isprintable() for letter in shown)


@given(st.text(alphabet=st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"])), st.integers(8, 60))
def test_folding_loses_no_word_and_keeps_the_width(text: str, width: int) -> None:
    lines = fold(text, width)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(width_of(line) <= width for line in lines)


@given(st.lists(st.integers(0, 60), min_size=1, max_size=5), st.integers(0, 150))
def test_the_widest_column_of_a_table_gives_way_by_one_until_all_fit(widths: list[int], room: int) -> None:
    expected = list(widths)
    while sum(expected) > room and max(expected) > 8:
        expected[expected.index(max(expected))] -= 1
    assert _fitted(widths, room) == expected


CELL = st.sampled_from(
    ["", "a", "two words", "  blanks  within ", "é", "日本", "e\u0301", "line\nbreak", "\x07", "x" * 30]
)


@given(st.lists(st.tuples(CELL, CELL, CELL), min_size=1, max_size=4), st.sampled_from([40, 60]))
def test_every_row_of_a_table_is_its_folded_cells_side_by_side(rows: list[tuple[str, str, str]], width: int) -> None:
    console, out, _ = plain(width)
    console.table(("label", "name", "why"), rows)
    _, rule, *lines = out.getvalue().split("\n")[:-1]
    widths = [len(dashes) for dashes in rule.split("  ")]
    expected = []
    for row in rows:
        folded = [fold(printable(cell), room) for cell, room in zip(row, widths, strict=True)]
        for parts in zip_longest(*folded, fillvalue=""):
            padded = [part + " " * (room - width_of(part)) for part, room in zip(parts, widths, strict=True)]
            expected.append("  ".join(padded).rstrip())
    assert lines == expected


def test_a_table_folds_its_widest_column_between_words() -> None:
    console, out, _ = plain(40)
    console.table(("label", "name"), [("A-1", "Parastratiosphecomyia stratiosphecomyioides")])
    assert out.getvalue().splitlines() == [
        "label  name",
        "-----  ---------------------------------",
        "A-1    Parastratiosphecomyia",
        "       stratiosphecomyioides",
    ]


def test_a_table_without_rows_prints_nothing() -> None:
    console, out, _ = plain()
    console.table(("label",), [])
    assert out.getvalue() == ""


def test_json_begins_with_the_version() -> None:
    console, out, _ = plain()
    console.json({"names": ["Tliltocatl"]})
    assert out.getvalue().startswith('{"version": 1,')
    assert json.loads(out.getvalue()) == {"version": 1, "names": ["Tliltocatl"]}
    terminal = Terminal()
    Console(terminal, Terminal()).json({"names": []})
    assert terminal.getvalue().startswith('{\n  "version": 1,')


def test_json_is_the_same_written_as_it_goes() -> None:
    rows = [{"name": "Mello-Leitão"}, {"name": None}, {}]
    whole = {"day": "2026-11-25", "results": rows, "none": [], "summary": {"moved": 2}}
    for make in (io.StringIO, Terminal):
        one, other = make(), make()
        Console(one, io.StringIO()).json(dict(whole))
        Console(other, io.StringIO()).json({**whole, "results": iter(rows), "none": iter(())})
        assert other.getvalue() == one.getvalue()
        assert json.loads(one.getvalue()) == {"version": 1, **whole}


@given(st.text())
def test_the_short_way_to_a_width_is_the_long_one(text: str) -> None:
    """By letter: a combining mark takes no column, a wide letter two (Unicode Standard Annex 11)."""
    wide = {letter for letter in text if unicodedata.east_asian_width(letter) in "WF"}
    marks = {letter for letter in text if unicodedata.combining(letter)}
    assert width_of(text) == sum(0 if letter in marks else 2 if letter in wide else 1 for letter in text)


#: What Windows and older systems write by themselves; the last is what they write if asked for UTF-8.
CODE_PAGES = ("cp1252", "cp1250", "cp437", "cp850", "cp1251", "cp932", "ascii", "mac_roman", "utf-8", "UTF8")


@pytest.mark.parametrize("encoding", CODE_PAGES)
def test_json_can_be_read_whatever_the_stream_writes(encoding: str) -> None:
    """RFC 8259, 8.1: JSON is UTF-8; pure ASCII is."""
    document: dict[str, object] = {
        "names": ["Řezáč", "Mello-Leitão", "♀ ½ µ", "\U0001f577", "\udc80", "日本", "\u202e"]
    }
    stream = io.BytesIO()
    out = io.TextIOWrapper(stream, encoding, errors="backslashreplace", newline="\n")
    Console(out, io.StringIO()).json(document)
    out.flush()
    assert json.loads(stream.getvalue()) == {"version": 1, **document}
    assert json.loads(stream.getvalue().decode("utf-8")) == {"version": 1, **document}


@pytest.mark.parametrize("encoding", ["cp437", "cp1250"])
def test_a_redirected_command_gives_json(encoding: str, tmp_path: Path) -> None:
    environ = {**os.environ, "NAMEKEEPER_HOME": str(tmp_path), "PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"}
    words = [sys.executable, "-m", "namekeeper", "lookup", "--offline", "--json", "Eresus moravicus \U0001f577 ♀"]
    done = subprocess.run(words, env=environ, capture_output=True, check=True)
    (result,) = json.loads(done.stdout)["results"]
    assert (result["tag"], result["candidates"][0]["authorship"]) == (words[-1], "Řezáč, 2008")


def test_colour_and_redrawing_only_on_a_terminal() -> None:
    terminal, talk = Terminal(), Terminal()
    lively = Keeper.of(terminal, talk, io.StringIO(), {}).console
    lively.heading("Names")
    with lively.progress(Work.CHECKING) as step:
        step(1, 4, "HW-001")
    assert terminal.getvalue() == "\n\x1b[1mNames\x1b[0m\n"
    assert "checking [=====               ] 1/4 HW-001" in talk.getvalue()
    assert talk.getvalue().endswith("\r")

    console, out, err = plain()
    console.heading("Names")
    with console.progress(Work.CHECKING) as step:
        step(1, 4)
    assert (out.getvalue(), err.getvalue()) == ("\nNames\n", "")


@pytest.mark.parametrize(
    ("environ", "marked", "redrawn"),
    [
        ({}, True, True),
        ({"TERM": "xterm-256color"}, True, True),
        ({"TERM": "dumb"}, False, False),
        ({"NO_COLOR": "1"}, False, True),  # no-color.org: "when present and not an empty string"
        ({"NO_COLOR": ""}, True, True),
    ],
)
def test_marks_only_where_the_terminal_and_the_keeper_take_them(
    environ: dict[str, str], marked: bool, redrawn: bool
) -> None:
    terminal, talk = Terminal(), Terminal()
    console = Keeper.of(terminal, talk, io.StringIO(), environ).console
    console.heading("Names")
    with console.progress(Work.CHECKING) as step:
        step(1, 4)
    assert terminal.getvalue() == ("\n\x1b[1mNames\x1b[0m\n" if marked else "\nNames\n")
    assert bool(talk.getvalue()) == redrawn


def test_nothing_is_marked_where_only_the_talk_is_seen() -> None:
    """``namekeeper check animals > report.txt``"""
    redirected, talk = io.StringIO(), Terminal()
    Keeper.of(redirected, talk, io.StringIO(), {}).console.heading("Names")
    assert redirected.getvalue() == "\nNames\n"


def test_wide_and_combining_letters_count_as_they_show() -> None:
    assert width_of("エスカルゴ") == 10
    assert width_of("e\u0301") == 1


def test_the_column_that_gives_way_first_spares_the_others() -> None:
    console, out, _ = plain(60)
    name = "Mastigoproctus giganteus"
    console.table(("name", "what is known", "now"), [(name, "Has a new name, the old one was taken", name)], 1)
    lines = out.getvalue().splitlines()
    assert all(width_of(line) <= 60 for line in lines)
    assert name not in lines[2], "too narrow for all of it"
    console, out, _ = plain(70)
    console.table(("name", "what is known", "now"), [(name, "Has a new name, the old one was taken", name)], 1)
    assert out.getvalue().splitlines()[2:] == [
        f"{name}  Has a new name,     {name}",
        " " * 26 + "the old one was",
        " " * 26 + "taken",
    ]
