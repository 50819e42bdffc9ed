"""Adding entries to a keeper's file: golden bytes, and properties over generated files."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from namekeeper.storage.emit import Fields, scalar
from namekeeper.storage.insertion import append_entries, set_key
from namekeeper.storage.yaml_text import TextFault, compose, plain

ENTRY: Fields = (("name", "Tliltocatl vagans"), ("authorship", "(Ausserer, 1875)"), ("since", "2021-02-11"))
BLOCK = "  - name: Tliltocatl vagans\n    authorship: (Ausserer, 1875)\n    since: 2021-02-11\n"
FLUSH = "- name: Tliltocatl vagans\n  authorship: (Ausserer, 1875)\n  since: 2021-02-11\n"
FLOW = '{name: Tliltocatl vagans, authorship: "(Ausserer, 1875)", since: 2021-02-11}'

# title: text before the addition, the addition, text behind it
GOLDEN = {
    "indented dashes": ("tag: x\nnames:\n  - name: A b\n", BLOCK, ""),
    "flush dashes": ("tag: x\nnames:\n- name: A b\n", FLUSH, ""),
    "wide dashes": (
        "names:\n-   name: A b\n    since: 2014\n",
        "-   name: Tliltocatl vagans\n    authorship: (Ausserer, 1875)\n    since: 2021-02-11\n",
        "",
    ),
    "deep indents": (
        "names:\n        - name: A b\n",
        "        - name: Tliltocatl vagans\n          authorship: (Ausserer, 1875)\n          since: 2021-02-11\n",
        "",
    ),
    "decisions behind": ("names:\n  - name: A b\n", BLOCK, "\n# later\ndecisions:\n  - kind: kept\n"),
    "no names yet": ("tag: x\nsex: 0.1.0\n", "names:\n" + BLOCK, ""),
    "no names, decisions flush": ("tag: x\n", "names:\n" + FLUSH, "decisions:\n- kind: kept\n"),
    "names without value": ("tag: x\nnames:   # history\n", BLOCK, "note: y\n"),
    "flow, empty": ("tag: x\nnames: [", FLOW, "]  # none yet\n"),
    "flow, one": ("tag: x\nnames: [{name: A b}", ", " + FLOW, "]\n"),
    "flow, trailing comma": ("tag: x\nnames: [{name: A b},", " " + FLOW, "\n  ]\nnote: z\n"),
    "flow, comment inside": ("names: [{name: A b}", ", " + FLOW, " # ]\n ]\n"),
    "flow entries in a block": ("names:\n  - {name: A b, since: 2014}  # c\n", BLOCK, ""),
    "entry comment": ("names:\n  - name: A b  # sold as\n    # bought at the fair\n", BLOCK, "# end of file\n"),
    "indented comment after the last entry": ("names:\n  - name: A b\n    # was wrong\n", BLOCK, ""),
    "comment between dashes and key": ("names:\n  - name: A b\n", BLOCK, "  # about decisions\ndecisions: []\n"),
    "block scalar last": ("names:\n  - name: A b\n    note: |\n      one\n      two\n", BLOCK, "decisions: []\n"),
    "kept line ends": ("names:\n  - name: A b\n    note: |+\n      one\n\n", BLOCK, ""),
    "folded text over lines": ('names:\n  - name: "A\n      b"\n', BLOCK, "decisions:\n"),
    "indented keys": (
        "  tag: x\n  names:\n    - name: A b\n",
        "    - name: Tliltocatl vagans\n      authorship: (Ausserer, 1875)\n      since: 2021-02-11\n",
        "",
    ),
    "document marks": ("---\ntag: x\nnames:\n  - name: A b\n", BLOCK, "...\n"),
    "blank lines at the end": ("names:\n  - name: A b\n", BLOCK, "\n\n"),
    "dash on its own line": ("names:\n  -\n    name: A b\n", BLOCK, ""),
    "empty last value": ("names:\n  - name: A b\n    note:\n", BLOCK, "note: q\n"),
    "nothing but a comment behind": ("tag: x  # verbatim\n", "names:\n" + BLOCK, "# tail\n"),
    "not Latin": ("tag: 'Vogelspinne ♀ 蜘蛛 🕷'\nnames:\n- name: A b\n", FLUSH, ""),
}  # fmt: skip


@pytest.mark.parametrize(("before", "added", "after"), GOLDEN.values(), ids=GOLDEN.keys())
def test_the_entry_is_added_and_nothing_else(before: str, added: str, after: str) -> None:
    assert append_entries(before + after, "names", [ENTRY]) == before + added + after


@pytest.mark.parametrize(("before", "added", "after"), GOLDEN.values(), ids=GOLDEN.keys())
def test_line_ends_of_windows_stay(before: str, added: str, after: str) -> None:
    with_cr = [part.replace("\n", "\r\n") for part in (before, added, after)]
    assert append_entries(with_cr[0] + with_cr[2], "names", [ENTRY]) == "".join(with_cr)


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_missing_last_line_end_stays_missing(end: str) -> None:
    before = f"tag: x{end}names:{end}  - name: A b"
    assert append_entries(before, "names", [ENTRY]) == before + end + BLOCK.replace("\n", end).removesuffix(end)


def test_decisions_come_last() -> None:
    text = "tag: x\nnames:\n  - name: A b\n"
    added = append_entries(text, "decisions", [(("kind", "kept"), ("recorded", "2021-01-01"))])
    assert added == text + "decisions:\n  - kind: kept\n    recorded: 2021-01-01\n"


REFUSED = {
    "alias as names": ("old: &o\n  - name: A b\nnames: *o\n", 3),
    "anchored list": ("names: &n\n  - name: A b\n", 1),
    "alias at the end": ("tag: &t x\nnames:\n  - name: *t\n", 3),
    "flow mapping": ("{tag: x}\n", 1),
    "no mapping": ("- tag: x\n", 1),
    "names twice": ("names: []\ntag: x\nnames: []\n", 3),
    "names is text": ("tag: x\nnames: none\n", 2),
    "names is null in words": ("names: ~\n", 1),
    "a control character": ("tag: x\x07\n", 1),
}


@pytest.mark.parametrize(("text", "line"), REFUSED.values(), ids=REFUSED.keys())
def test_what_is_not_safe_is_refused_with_the_line(text: str, line: int) -> None:
    with pytest.raises(TextFault) as refused:
        append_entries(text, "names", [ENTRY])
    assert refused.value.line == line
    assert refused.value.remedy


SET = {
    "in place": ("tag: x\nsex: ", "0.0.1", "0.2.0", "  # guess\nnames: []\n"),
    "in double quotes": ("sex: ", '"0.0.1"', '"0.2.0"', "\n"),
    "no final line end": ("sex: ", "0.0.1", "0.2.0", ""),
    "in front of names": ("tag: x\n", "", "sex: 0.2.0\n", "names:\n- name: A b\n"),
    "behind tag": ("# mine\ntag: x\n", "", "sex: 0.2.0\n", "locality: y\n"),
    "at the top": ("# mine\n", "", "sex: 0.2.0\n", "names:\n- name: A b\n"),
    "empty value": ("tag: x\nsex:", "", " 0.2.0", "\nnote: y\n"),
}


@pytest.mark.parametrize(("head", "old", "new", "tail"), SET.values(), ids=SET.keys())
def test_a_key_is_set_and_nothing_else(head: str, old: str, new: str, tail: str) -> None:
    assert set_key(head + old + tail, "sex", "0.2.0") == head + new + tail


@pytest.mark.parametrize("text", ["sex: [0.0.1]\n", "sex: |\n  0.0.1\n", 'sex: "0.0\n  .1"\n', "sex: {a: b}\n"])
def test_a_value_that_is_no_text_on_its_line_is_not_replaced(text: str) -> None:
    with pytest.raises(TextFault) as refused:
        set_key(text, "sex", "0.2.0")
    assert refused.value.line == 1


# Texts that YAML 1.1 or 1.2 reads as something else: core schema (10.3.2) and the types of yaml.org/type.
TEXTS = (
    *("1.10", "0012", "NO", "2014", "~", "null", "1e3", "0x1F", ".inf", "2014-05-03 10:00", "12:30:45", "yes", "="),
    *("<<", "- x", "? x", ": x", "x: y", "x #y", "#x", "a:", " a", "a ", "'", '"', "\\", "@a", "`a", "%a", "&a", "*a"),
    *("!a", "|", ">", "{", "}", "[a]", "a,b", "\t", "a\nb", "\x85", "\u2028", "\ufeff", "\U0001f577", "é", ""),
)


@pytest.mark.parametrize("text", TEXTS)
@pytest.mark.parametrize("flow", [False, True])
def test_a_scalar_is_read_back_as_the_same_text(text: str, flow: bool) -> None:
    _check_scalar(text, flow=flow)


@settings(max_examples=400)
@given(st.text(st.characters(exclude_categories=["Cs"]), max_size=40), st.booleans())
def test_any_scalar_is_read_back_as_the_same_text(text: str, flow: bool) -> None:
    _check_scalar(text, flow=flow)


def _check_scalar(text: str, *, flow: bool) -> None:
    written = f"key: {{k: {scalar(text, flow=True)}}}" if flow else f"key: {scalar(text)}"
    root = compose(written)
    assert root is not None
    ours = plain(root)
    assert ours == {"key": {"k": text} if flow else text}
    # Any other reader of YAML must take it for that text as well, dates aside.
    theirs = yaml.safe_load(written)["key"]
    assert str(theirs["k"] if flow else theirs) == text


words = st.text(st.characters(categories=("L", "N", "P", "S", "Zs")), min_size=1, max_size=12)
comments = st.sampled_from(["", "# keeper's own words: - [ { \n", "\n", "   # indented\n", "#\n"])
ends = st.sampled_from(["\n", "\r\n"])


@st.composite
def files(draw: st.DrawFn) -> str:
    """A keeper's file: comments, quoting, order, indents and line ends as people write them."""
    lines = [draw(comments)]
    lines += [
        f"{key}: {draw(written_text)}{draw(st.sampled_from(['', '  # c']))}\n{draw(comments)}"
        for key in draw(st.permutations(["tag", "locality", "note"]))
    ]
    indent, gap = draw(st.integers(0, 4)), draw(st.integers(1, 4))
    entries = draw(st.lists(st.lists(st.tuples(st.sampled_from(["name", "note", "since"]), written_text),
                                     min_size=1, max_size=3, unique_by=lambda pair: pair[0]), max_size=3))  # fmt: skip
    if entries:
        lines.append("names:\n")
        for entry in entries:
            for number, (key, text) in enumerate(entry):
                head = " " * indent + ("-" + " " * gap if number == 0 else " " * (gap + 1))
                lines.append(f"{head}{key}: {text}\n")
            lines.append(draw(comments))
    elif draw(st.booleans()):
        lines.append(draw(st.sampled_from(["names: []\n", "names:\n", "names: [ ]  # none\n", "names: [\n]\n"])))
    if draw(st.booleans()):
        lines.append("decisions:\n- kind: kept\n" + draw(comments))
    text = "".join(lines).replace("\n", draw(ends))
    return text.rstrip("\r\n") if draw(st.booleans()) else text


written_text = words.map(scalar) | words.map(lambda text: "'" + text.replace("'", "''") + "'")
fields = st.lists(words, min_size=1, max_size=3).map(
    lambda texts: tuple(zip(("name", "note", "form"), texts, strict=False))
)


@settings(max_examples=200)
@given(files(), st.lists(fields, min_size=1, max_size=2))
def test_every_byte_stays_and_the_entries_are_there(text: str, entries: list[Fields]) -> None:
    before = _content(text)
    result = append_entries(text, "names", entries)
    start = next((i for i, (a, b) in enumerate(zip(text, result, strict=False)) if a != b), min(len(text), len(result)))
    inserted = len(result) - len(text)
    assert inserted > 0
    assert any(result[:i] + result[i + inserted :] == text for i in range(start + 1))
    old = before.get("names")
    wanted = [*(old if isinstance(old, list) else []), *map(dict, entries)]
    after = _content(result)
    assert after.pop("names") == wanted
    before.pop("names", None)
    assert after == before


def _content(text: str) -> dict[str, object]:
    root = compose(text)
    assert root is not None
    content = plain(root)
    assert isinstance(content, dict)
    return content


def test_what_would_change_the_rest_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    # The net under all the rules above: whatever they work out is read again before it is handed on.
    for wrong in ("", "note: y\n", "  - {name: Other}\n", "  - [\n"):
        monkeypatch.setattr("namekeeper.storage.insertion._as_lines", lambda *_, wrong=wrong: wrong)
        with pytest.raises(TextFault, match="without changing what stands there") as fault:
            append_entries("tag: x\nnames:\n  - name: A b\n", "names", [ENTRY])
        assert fault.value.line == 4
