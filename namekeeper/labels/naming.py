"""Which letters of a name are italic on a label (ICZN Appendix B6): genus and species names are, all else is not."""

from __future__ import annotations

import re

from namekeeper.labels.text import Run, clean
from namekeeper.records.specimen import NameEntry

# Signs of open nomenclature, ranks and words of the trade beside a name. Common practice, no source.
_UPRIGHT = frozenset(
    {
        "cf.", "cf", "aff.", "aff", "sp.", "sp", "spp.", "spp", "nr.", "nr", "near", "ssp.", "subsp.", "var.", "var",
        "f.", "form", "morph", "complex", "agg.", "gr.", "group", "hybrid", "x", "×", "?", "†", "ex",
    }
)  # fmt: skip
_FAMILY_GROUP = re.compile(r"[A-Z][a-z]+(?:oidea|idae|inae|ini)")  # endings of ICZN Art. 29.2
# Orders and classes of animals that are kept; a genus of the same spelling would be followed by an epithet.
_HIGHER = frozenset(
    {
        "Animalia", "Arthropoda", "Arachnida", "Insecta", "Gastropoda", "Malacostraca", "Diplopoda", "Chilopoda",
        "Araneae", "Mygalomorphae", "Araneomorphae", "Scorpiones", "Amblypygi", "Uropygi", "Thelyphonida", "Solifugae",
        "Opiliones", "Isopoda", "Oniscidea", "Mantodea", "Phasmatodea", "Phasmida", "Blattodea", "Orthoptera",
        "Coleoptera", "Lepidoptera", "Hymenoptera", "Hemiptera", "Odonata", "Stylommatophora", "Mollusca", "Crustacea",
    }
)  # fmt: skip
_BEFORE_EPITHET = frozenset({"cf.", "aff.", "nr.", "cf", "aff", "nr"})
_WITHIN = _BEFORE_EPITHET | {"near", "ssp.", "subsp.", "var.", "var", "f.", "?", "†"}  # the name goes on after these
_HYBRID = frozenset({"x", "×"})
_QUOTES = {'"': '"', "“": "”", "„": "“", "«": "»"}


def name_text(entry: NameEntry) -> str:
    """The name with its qualifier and trade form, as one line without authorship."""
    if not (entry.qualifier or entry.trade_form):  # nearly all
        return clean(entry.name)
    words = clean(entry.name).split(" ")
    qualifier = clean(entry.qualifier)
    if qualifier and qualifier not in words and not words[-1].endswith(qualifier):
        if qualifier in _BEFORE_EPITHET and len(words) > 1:
            words.insert(1, qualifier)
        elif qualifier == "?":
            words[-1] += qualifier
        else:
            words.append(qualifier)
    form = clean(entry.trade_form).strip("\"'“”„‘’")
    if form and form not in " ".join(words):
        words.append(f"“{form}”")
    return " ".join(words)


def name_runs(text: str) -> tuple[Run, ...]:
    """The text of a name in runs: the words of genus and species group italic, everything beside them upright."""
    words = text.split(" ")
    alone = all(word in _UPRIGHT for word in words[1:])
    pieces: list[tuple[str, bool]] = []
    closing = ""  # the mark that ends the quotation we are in
    genus_next, name_over = True, False
    for number, word in enumerate(words):
        if number:
            pieces.append((" ", False))
        if closing or word[:1] in _QUOTES:
            inside = word if closing else word[1:]
            closing = closing or _QUOTES[word[0]]
            closing = "" if inside.endswith(closing) else closing
            pieces.append((word, False))
        elif word in _HYBRID:
            pieces.append((word, False))
            genus_next, name_over = True, False
        elif word in _UPRIGHT or name_over or (alone and number == 0 and _is_higher(word)):
            pieces.append((word, False))
            name_over = name_over or word not in _WITHIN
        else:
            parts = _word(word, genus=genus_next)
            pieces.extend(parts)
            name_over = not any(italic for _, italic in parts)
            genus_next = False
    return _merged(pieces)


def _is_higher(word: str) -> bool:
    return bool(_FAMILY_GROUP.fullmatch(word)) or word in _HIGHER


def _word(word: str, *, genus: bool) -> list[tuple[str, bool]]:
    """One word: brackets and question marks around it stay upright; so does what is no word of a name."""
    found = re.fullmatch(r"([(×†?]*)(.*?)([)?,;]*)", word, re.DOTALL)
    assert found is not None, "the pattern matches any text"
    before, inner, after = found.groups()
    subgenus = before == "(" and after == ")" and inner.istitle()
    italic = (genus or subgenus or inner[:1].islower()) and not any(char.isdigit() for char in inner)
    return [(part, italic and part is inner) for part in (before, inner, after) if part]


def _merged(pieces: list[tuple[str, bool]]) -> tuple[Run, ...]:
    """Neighbours of one style joined; a blank between two italic words is italic too."""
    for at in range(1, len(pieces) - 1):
        if pieces[at][0] == " " and pieces[at - 1][1] and pieces[at + 1][1]:
            pieces[at] = (" ", True)
    runs: list[Run] = []
    for text, italic in pieces:
        if runs and runs[-1].italic == italic:
            runs[-1] = Run(runs[-1].text + text, italic=italic)
        else:
            runs.append(Run(text, italic=italic))
    return tuple(runs)
