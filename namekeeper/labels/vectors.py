"""A picture in SVG, looked at before anything draws it: plain shapes, nothing from elsewhere, and few enough of them.

What refers to something (a use, a fill, a mask) draws it once more, so a short text can ask for more shapes than any
machine draws: what is drawn is counted on the way that a drawer goes, up to a bound.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

_SVG = "{http://www.w3.org/2000/svg}"
#: Elements, stretches of their paths and letters, each as often as it is drawn: a fraction of a second a label.
_MOST_DRAWN = 5_000
_STRETCH = 50  # characters of a path, about as much work as an element
_DEEPEST = 60
_SERVERS = frozenset({"linearGradient", "radialGradient", "pattern", "clipPath", "mask", "marker", "filter"})
#: What is in these is drawn where it is referred to, not where it stands.
_ASIDE = _SERVERS | {"defs", "symbol"}
_UNSEEN = frozenset({"style", "title", "desc", "metadata"})
_SHAPES = frozenset({"path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "tspan", "textPath"})
_PARTS = frozenset(
    {"stop", "feOffset", "feBlend", "feFlood", "feComposite", "feGaussianBlur", "feColorMatrix", "feMerge"}
)
_KNOWN = _ASIDE | _UNSEEN | _SHAPES | _PARTS | {"svg", "g", "use", "a", "switch", "view", "feMergeNode"}
_REFERENCE = re.compile(r"url\(\s*['\"]?([^'\")]*)", re.IGNORECASE)
_ELSEWHERE = "it asks for something elsewhere: "
_NOT_INHERITED = frozenset({"clip-path", "mask", "filter", "href"})


def check_vector(svg: bytes) -> None:
    """:raises ValueError: if it is no SVG, or none that may be drawn."""
    # Only now: few labels show a picture.
    from defusedxml import DefusedXmlException
    from defusedxml.ElementTree import ParseError, fromstring

    try:
        root = fromstring(svg)
    except DefusedXmlException:
        message = "it has entities of its own, which are not followed"
        raise ValueError(message) from None
    except ParseError as fault:
        message = f"it is no whole SVG: {fault}"
        raise ValueError(message) from None
    if root.tag != f"{_SVG}svg":
        message = "it is no SVG"
        raise ValueError(message)
    named: dict[str, Any] = {}
    for element in root.iter():
        if element.tag.startswith(_SVG):
            _check_element(element)
            named.setdefault(element.get("id", ""), element)
    _Walk(named).draw(root, {}, 0)


def _check_element(element: Any) -> None:
    kind = _kind(element)
    if kind not in _KNOWN:
        message = f"<{kind}> is not drawn on labels: shapes and text only"
        raise ValueError(message)
    if element.get("spreadMethod", "pad") != "pad":
        message = "spreadMethod is not drawn on labels: give all stops of a gradient"
        raise ValueError(message)
    for css in (element.text or "" if kind == "style" else "", element.get("style", "")):
        if "\\" in css or "@" in css or (kind == "style" and _REFERENCE.search(css)):
            message = f"{_ELSEWHERE}its style holds url(), @ or a backslash"
            raise ValueError(message)
    targets = [target for value in element.attrib.values() for target in _REFERENCE.findall(value)]
    if kind != "a":
        targets += [value for key, value in element.attrib.items() if key.rpartition("}")[2] == "href"]
    if foreign := next((target for target in targets if not target.startswith("#")), None):
        message = f"{_ELSEWHERE}{foreign[:60]}"
        raise ValueError(message)


def _kind(element: Any) -> str:
    name: str = element.tag
    return name.removeprefix(_SVG)


@dataclass(slots=True)
class _Walk:
    """The way of a drawer through elements, by their identifiers, and how much it has drawn."""

    named: Mapping[str, Any]
    drawn: int = field(default=0, init=False)

    def draw(self, element: Any, inherited: Mapping[str, str], depth: int, *, referred: bool = False) -> None:
        """Counts an element, all that is in it, and all that it refers to.

        :raises ValueError: if that is too much, or leads back to itself.
        """
        length = len(element.get("d", "")) + len(element.get("points", ""))
        words = "" if _kind(element) in _UNSEEN else f"{element.text or ''}{element.tail or ''}"
        self.drawn += 1 + length // _STRETCH + len(words.strip())
        if self.drawn > _MOST_DRAWN or depth > _DEEPEST:
            message = "it is more than a picture on a label has: too many shapes, or some that show themselves"
            raise ValueError(message)
        shown = {**inherited, **dict(_references(element))}
        for key, target in shown.items():
            corners = max(1, length // 4) if key.startswith("marker") else 1  # a marker stands at every corner
            for _ in range(corners if target in self.named else 0):
                self.draw(self.named[target], {}, depth + 1, referred=True)
        if referred or _kind(element) not in _ASIDE:
            passed = {key: target for key, target in shown.items() if key not in _NOT_INHERITED}
            for child in element:
                self.draw(child, passed, depth + 1)


def _references(element: Any) -> Iterator[tuple[str, str]]:
    """The properties of an element that refer to others, with what they refer to."""
    style = [pair.partition(":")[::2] for pair in element.get("style", "").split(";")]
    for key, value in (*element.attrib.items(), *style):
        name = key.rpartition("}")[2].strip()
        if name == "href":
            yield name, value.removeprefix("#")
        elif found := _REFERENCE.search(value):
            yield name, found[1].removeprefix("#")
