"""The texts of pages: what a template or a script shows, piece by piece, as it stands between the tags."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

#: Templates of pages and the scripts that say something, below the package.
PATTERNS = ("faces/page/templates/*.html", "data/**/*.j2", "faces/page/static/*.js", "data/pocket/*.js")
_WITHIN_A_SENTENCE = "i|b|strong|em|span|a|code|small|br|q|abbr"
_ATTRIBUTES = "alt|aria-label|placeholder|title"
_JINJA = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", re.DOTALL)
_LITERAL = re.compile(r'"(?:[^"\\\n]|\\.)*"|\'(?:[^\'\\\n]|\\.)*\'')


def texts_of_page(source: str) -> Iterator[str]:
    """What a template shows: texts, names for screen readers, and words within its expressions; in their order."""
    held: list[str] = []

    def hold(found: re.Match[str]) -> str:
        """Expressions hold signs of tags and quotes: they are put aside, and statements leave only their words."""
        code = found[0]
        held.append("{" + code[2:-2].strip().strip("-") + "}" if code.startswith("{{") else "")
        words = [one for one in literals(code) if code.startswith("{%")]
        held[-1] += "".join(f"\n{word}\n" for word in words)
        return f"\0{len(held) - 1}\0"

    text = _JINJA.sub(hold, re.sub(r"<(style|script)\b.*?</\1>", "\n", source, flags=re.DOTALL))
    text = re.sub(rf'\b(?:{_ATTRIBUTES})="([^"]*)"', r">\1<x ", text)
    text = re.sub(rf"</?(?:{_WITHIN_A_SENTENCE})\b[^<>]*>", " ", text)
    text = re.sub(r"<[^<>]*>", "\n", text)
    text = re.sub("\0(\\d+)\0", lambda found: held[int(found[1])], text)
    yield from filter(_says, (" ".join(line.split()) for line in text.split("\n")))


def texts_of_script(source: str) -> Iterator[str]:
    """Texts of several words in double quotes."""
    for text in re.findall(r'"((?:[^"\\\n]|\\.)*)"', source):
        if " " in text.strip() and _says(text) and not text.startswith(("use ", "<")):
            yield text


def literals(code: str) -> Iterator[str]:
    """Texts in quotes that read like words."""
    for found in _LITERAL.finditer(code):
        text = str(ast.literal_eval(found[0]))
        if " " in text.strip() and _says(text):
            yield text


def _says(text: str) -> bool:
    """Whether there is a word beside what is filled in."""
    return re.search(r"[^\W\d_]{2}", re.sub(r"\{.*?\}", "", text).replace("&nbsp;", "")) is not None
