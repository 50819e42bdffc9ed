"""Malformed specimen files, made from good ones by mutations that are written down here, with the line to be named.

Each mutation is a function of a good file's lines and the index of one line; it returns the mutated lines and the
index of the line at which a keeper has to look, or None where it does not apply to that line.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

Lines = list[str]
Mutation = Callable[[Lines, int], tuple[Lines, int] | None]

GOOD = (
    """\
# bought at the fair
tag: "Mex red rump 0.1 4cm"
acquired: 2014-05-03
sex: 0.1.0
locality: Campeche
names:
  - name: Brachypelma vagans
    authorship: (Ausserer, 1875)
    since: 2014-05-03
    recorded: 2014-05-04
    standing: as-labelled
  - name: Tliltocatl vagans
    since: 2021-02-11
    recorded: 2021-02-11
    standing: moved
decisions:
  - kind: printed
    recorded: 2021-02-12
""",
    """\
tag: 'GBB 1.0'
acquired: 2019
stage: adult
place: shelf 3
note: >
  eats well

sex: 1.0.0
names:
- name: Chromatopelma cyaneopubescens
  since: 2019
  recorded: 2019-02-01
  standing: as-labelled
- name: Chromatopelma cyaneopubescens
  recorded: 2020-01-01
  standing: undone
  undoes: 1
""",
)


def _key(line: str) -> tuple[str, str, str]:
    """Indent with dash, key, value of a line."""
    body = line.lstrip(" -")
    key, _, value = body.partition(":")
    return line[: len(line) - len(body)], key, value.strip()


def _plain(line: str) -> bool:
    return ":" in line and not line.startswith("#") and _key(line)[2] not in ("", ">")


def _with(lines: Lines, index: int, *new: str) -> Lines:
    return [*lines[:index], *new, *lines[index + 1 :]]


def open_double_quote(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, value = _key(lines[i])
    return (_with(lines, i, f'{head}{key}: "{value.strip(chr(34) + chr(39))}'), i) if _plain(lines[i]) else None


def open_single_quote(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, value = _key(lines[i])
    return (_with(lines, i, f"{head}{key}: '{value.strip(chr(34) + chr(39))}"), i) if _plain(lines[i]) else None


def text_behind_the_quote(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, _ = _key(lines[i])
    return (_with(lines, i, f'{head}{key}: "a" b'), i) if _plain(lines[i]) else None


def no_colon(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, value = _key(lines[i])
    # Behind a plain text such a line would be its continuation, which is legal YAML.
    follows_quote = i > 0 and lines[i - 1].endswith(('"', "'"))
    return (_with(lines, i, f"{head}{key} {value}"), i) if _plain(lines[i]) and follows_quote else None


def tab_indent(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, value = _key(lines[i])
    return (_with(lines, i, f"\t{key}: {value}"), i) if _plain(lines[i]) and head and "-" not in head else None


def deeper_indent(lines: Lines, i: int) -> tuple[Lines, int] | None:
    return (_with(lines, i, "   " + lines[i]), i) if _plain(lines[i]) and i > 2 and _plain(lines[i - 1]) else None


def misspelt_key(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, value = _key(lines[i])
    return (_with(lines, i, f"{head}{key}x: {value}"), i) if _plain(lines[i]) else None


def key_twice(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, value = _key(lines[i])
    again = head.replace("-", " ") + f"{key}: {value}"
    return (_with(lines, i, lines[i], again), i + 1) if _plain(lines[i]) else None


def open_bracket(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, _ = _key(lines[i])
    return (_with(lines, i, f"{head}{key}: [a, b"), i) if _plain(lines[i]) else None


def list_for_text(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, value = _key(lines[i])
    return (_with(lines, i, f"{head}{key}: [{value}]"), i) if _plain(lines[i]) else None


def reserved_sign(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, value = _key(lines[i])
    return (_with(lines, i, f"{head}{key}: @{value}"), i) if _plain(lines[i]) else None


def control_character(lines: Lines, i: int) -> tuple[Lines, int] | None:
    return _with(lines, i, lines[i] + "\x00"), i


def conflict_marker(lines: Lines, i: int) -> tuple[Lines, int] | None:
    return _with(lines, i, "<<<<<<< mine", lines[i], "=======", lines[i], ">>>>>>> theirs"), i


def not_utf8(lines: Lines, i: int) -> tuple[Lines, int] | None:
    return _with(lines, i, lines[i] + "\udcff"), i  # a byte that stands alone; see ``as_bytes``


def no_such_day(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, _ = _key(lines[i])
    dated = key in ("acquired", "since", "recorded")
    return (_with(lines, i, f"{head}{key}: 2014-02-30"), i) if dated else None


def day_to_come(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, _ = _key(lines[i])
    if key not in ("acquired", "since", "recorded"):
        return None
    entry = i  # of a date in an entry the entry's first line is named
    while head and "-" not in _key(lines[entry])[0]:
        entry -= 1
    return _with(lines, i, f"{head}{key}: 2999-01-01"), entry


def no_count(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, _ = _key(lines[i])
    return (_with(lines, i, f"{head}{key}: a few"), i) if key == "sex" else None


def unknown_standing(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, _ = _key(lines[i])
    if key not in ("standing", "kind"):
        return None
    entry = i
    while "-" not in _key(lines[entry])[0]:
        entry -= 1
    return _with(lines, i, f"{head}{key}: lost"), entry


def name_left_out(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, value = _key(lines[i])
    return (_with(lines, i, f"{head}note: {value}"), i) if key == "name" else None


def no_dash(lines: Lines, i: int) -> tuple[Lines, int] | None:
    head, key, value = _key(lines[i])
    first = "-" in head and not lines[i - 1].startswith(" ")
    return (_with(lines, i, head.replace("-", " ") + f"{key}: {value}"), i) if first and head.startswith(" ") else None


MUTATIONS: tuple[Mutation, ...] = (
    open_double_quote,
    open_single_quote,
    text_behind_the_quote,
    no_colon,
    tab_indent,
    deeper_indent,
    misspelt_key,
    key_twice,
    open_bracket,
    list_for_text,
    reserved_sign,
    control_character,
    conflict_marker,
    not_utf8,
    no_such_day,
    day_to_come,
    no_count,
    unknown_standing,
    name_left_out,
    no_dash,
)


def malformed() -> Iterator[tuple[str, bytes, int]]:
    """Title, content and line (from 1) of every malformed file."""
    for number, good in enumerate(GOOD):
        lines = good.splitlines()
        for mutation in MUTATIONS:
            for index in range(len(lines)):
                made = mutation(list(lines), index)
                if made is not None:
                    text = "\n".join(made[0]) + "\n"
                    yield f"{mutation.__name__}-{number}-{index + 1}", as_bytes(text), made[1] + 1


def as_bytes(text: str) -> bytes:
    """UTF-8; a lone surrogate U+DCxx stands for the byte xx."""
    return text.encode("utf-8", "surrogateescape")
