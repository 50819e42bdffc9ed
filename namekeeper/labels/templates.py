"""Label templates: a folder with a layout, shipped or the keeper's own, which may also have markup and a style.

Markup runs in a sandbox. What fills it is a large import, and most templates have none.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any
from unicodedata import normalize

import yaml

from namekeeper.files.reading import LARGEST_TEXT, read_named
from namekeeper.files.yaml_aliases import ALIAS_REMEDY, first_alias
from namekeeper.labels.drawing import Dots
from namekeeper.labels.layout import Layout, layout_from
from namekeeper.labels.pictures import PICTURE_REMEDY, dots_of
from namekeeper.labels.yaml_texts import LayoutError, texts_of
from namekeeper.words.errors import FileError, InputError, Place

if TYPE_CHECKING:
    from jinja2 import Template

_MOST = 100_000  # characters, or a number, that a template may multiply up to
MARKUP, STYLE, LAYOUT = "label.html", "label.css", "layout.yaml"


@dataclass(frozen=True, slots=True)
class LabelTemplate:
    """A template; ``folder`` says where it came from, ``markup`` is None where the layout says all."""

    layout: Layout
    folder: Path
    style: str = ""
    markup: Template | None = None
    dots: Dots | None = None  # of the layout's picture, where it is drawn directly

    @property
    def key(self) -> str:
        return self.layout.key

    @property
    def by_html(self) -> bool:
        """Whether it can be drawn by way of HTML only."""
        return self.markup is not None or (self.layout.picture is not None and self.dots is None)

    def fill(self, values: Mapping[str, object]) -> str:
        """The markup of one label, of a template that has some.

        :raises InputError: if the template asks for something that is not there or not allowed.
        """
        from jinja2 import TemplateError

        assert self.markup is not None, "only templates with markup are filled"
        try:
            filled = self.markup.render(values)
        except RecursionError:
            raise self._fault("a macro calls itself without end") from None
        except (
            TemplateError,
            ArithmeticError,
            LookupError,
            TypeError,
            ValueError,
            AttributeError,
            MemoryError,
        ) as fault:
            raise self._fault(str(fault) or "it makes too much text") from None
        if "<svg" in filled.lower():
            raise self._fault("drawings in its text are not looked at; put them into a file, and show picture:NAME.svg")
        return filled

    def _fault(self, fault: str) -> InputError:
        what = f"template '{self.key}' cannot be filled: {fault}"
        return InputError(what, remedy="compare it with a shipped template", place=Place(str(self.folder / MARKUP)))


def template_folders(shipped: Path, own: Path | None) -> dict[str, Path]:
    """Folders of templates by their name (NFC); the keeper's own come first and may replace a shipped one."""
    found: dict[str, Path] = {}
    for root in (own, shipped):
        if root is not None and root.is_dir():
            for folder in sorted(root.iterdir()):
                if (folder / LAYOUT).exists():
                    found.setdefault(normalize("NFC", folder.name), folder)  # some systems keep NFD
    return found


def load_template(name: str, folders: Mapping[str, Path], floor: int) -> LabelTemplate:
    """The template of that name; ``floor`` is the smallest size allowed, in quarters of a point.

    :raises InputError: for an unknown name, or a fault in the template with file and line.
    :raises FileError: if one of its files cannot be read.
    """
    name = normalize("NFC", name)
    if name not in folders:
        what = f"there is no template '{name}'"
        raise InputError(what, remedy=f"templates are {', '.join(sorted(folders))}")
    folder = folders[name]
    layout = layout_from(name, _yaml(folder / LAYOUT), floor, Place(str(folder / LAYOUT)))
    dots = _dots(layout, folder)
    style = folder / STYLE
    if (folder / MARKUP).exists() or style.exists():
        return LabelTemplate(layout, folder, _text(style) if style.exists() else "", _compiled(folder / MARKUP, name))
    if fault := layout.unplaced():
        what = f"template '{name}': {fault}"
        raise InputError(
            what, remedy="see the shipped layouts for how one is written", place=Place(str(folder / LAYOUT))
        )
    return LabelTemplate(layout, folder, dots=dots)


def _dots(layout: Layout, folder: Path) -> Dots | None:
    try:
        return dots_of(folder, layout.picture) if layout.picture else None
    except LayoutError as fault:
        what = f"template '{layout.key}': {fault}"
        place = Place(str(folder / LAYOUT), fault.line)
        raise InputError(what, remedy=PICTURE_REMEDY, place=place) from None


def _compiled(path: Path, name: str) -> Template:
    from jinja2 import StrictUndefined, TemplateSyntaxError

    # No loader: a template can include nothing. Undefined names are errors, text is escaped.
    environment = _sandbox()(autoescape=True, undefined=StrictUndefined, trim_blocks=True)
    try:
        compiled: Template = environment.from_string(_text(path))
    except TemplateSyntaxError as fault:
        what = f"template '{name}' cannot be read: {fault.message}"
        remedy = "compare the line with a shipped template"
        raise InputError(what, remedy=remedy, place=Place(str(path), fault.lineno)) from None
    return compiled


def _sandbox() -> Any:
    """A sandbox that also refuses to multiply text or numbers beyond any label."""
    from jinja2.exceptions import SecurityError
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    class Sandbox(ImmutableSandboxedEnvironment):
        intercepted_binops = frozenset({"*", "**"})

        def call_binop(self, context: Any, operator: str, left: Any, right: Any) -> Any:
            sizes = [len(one) if hasattr(one, "__len__") else abs(one) for one in (left, right)]
            if max(sizes) > _MOST or sizes[0] * sizes[1] > _MOST:
                message = f"{operator} makes something too large for a label"
                raise SecurityError(message)
            return super().call_binop(context, operator, left, right)

    return Sandbox


def _yaml(path: Path) -> object:
    text = _text(path)
    if alias := first_alias(text):
        raise InputError(alias.what, remedy=ALIAS_REMEDY, place=Place(str(path), alias.line))
    try:
        return texts_of(text)
    except yaml.YAMLError as fault:
        mark = getattr(fault, "problem_mark", None)
        what = f"the layout is no YAML: {getattr(fault, 'problem', fault)}"
        place = Place(str(path), None if mark is None else mark.line + 1)
        raise InputError(what, remedy="check indents, brackets and quotes", place=place) from None


def _text(path: Path) -> str:
    try:
        return read_named(path, LARGEST_TEXT).decode().replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as fault:
        what = f"a part of the template cannot be read: {fault}"
        raise FileError(what, remedy="copy it anew from a shipped template", place=Place(str(path))) from None
