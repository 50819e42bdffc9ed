"""Reads a text that is known to be one scientific name; the name-parsing library stays behind this module."""

from __future__ import annotations

import html
import re
import unicodedata
from typing import Any

from namekeeper.words.authorship import Authorship
from namekeeper.words.errors import InputError
from namekeeper.words.names import ScientificName

LONGEST_NAME = 500  # characters; real ones with many authors stay below 300

_MARKUP = re.compile(r"</?[a-zA-Z][^<>]{0,40}>")
_FORMULA = re.compile(r"\s(?:×|x|X)\s")
_QUOTES = str.maketrans(dict.fromkeys("“”„‟«»″❝❞", '"') | dict.fromkeys("‘’‚‛`´", "'"))
_UNDETERMINED = re.compile(
    r"(?P<genus>[^\W\d_]{2,}) (?P<sign>(?:n\. ?)?spp?\.?|ssp\.?|spec\.?|species|indet\.?|stet\.?)(?![\w-])(?P<rest>.*)",
    re.I,
)
_COMPARED = re.compile(r"(?P<sign>(?:sp\. )?(?:cf|aff|nr|prox)\.?) [A-Z]\w{0,3}\. (?=[a-z])")
_FORMERLY = re.compile(r"\[(formerly (?:in|as) [^\]]*)\]")
_GENUS_IN_QUOTES = re.compile(r"""^(['"])([A-Z][\w-]+)\1 """)
_TRADE_FORM = re.compile(r"""["']([^"']{2,60})["']\s*$""")
# Genus and epithet and nothing else, as nearly all records are: the library takes a tenth of a second to start.
_BINOMEN = re.compile(r"([A-Z][a-z]{2,}) ([a-z]{5,})")
_NO_EPITHETS = frozenset(
    {
        "aggregate", "auctt", "complex", "group", "indet", "indeterminate", "nomen", "sensu", "species", "uncultured",
        "undescribed", "undetermined", "unidentified", "unknown",
    }
)  # fmt: skip
_RANKS = {
    "SPECIES": "species", "SUBSPECIES": "subspecies", "SUBGENUS": "subgenus", "VARIETY": "variety", "FORM": "form",
    "SPECIES_AGGREGATE": "species", "INFRASUBSPECIFIC_NAME": "subspecies", "INFRASPECIFIC_NAME": "subspecies",
}  # fmt: skip
_PARTS = {"GENERIC": "genus", "SPECIFIC": "species", "INFRASPECIFIC": "infraspecies"}


def read_name(text: str, rank: str = "") -> ScientificName:
    """See :func:`namekeeper.words.parsing.parse_name`; ``rank`` "SPECIES": a second word is no particle.

    :raises InputError: if the text holds no name.
    """
    plain = _BINOMEN.fullmatch(text)
    if plain and plain[2] not in _NO_EPITHETS:
        return ScientificName(genus=plain[1], epithet=plain[2], verbatim=text)
    clean = _tidy(text)
    if not clean or len(clean) > LONGEST_NAME:
        raise _no_name(text)
    parents = _parents(clean)
    if parents:
        return ScientificName(genus=parents[0].genus, parents=parents, verbatim=text)
    undetermined = _UNDETERMINED.fullmatch(clean)
    if undetermined and not undetermined["genus"].islower():
        return _undetermined(undetermined, text)
    return _single(clean, text, rank)


def _tidy(text: str) -> str:
    """NFC, without markup, entities, control characters, underscores; one blank between words; plain quotes."""
    plain = _MARKUP.sub("", html.unescape(text[: 4 * LONGEST_NAME])).replace("_", " ").translate(_QUOTES)
    plain = "".join(c if unicodedata.category(c)[0] != "C" else " " for c in plain)
    return " ".join(unicodedata.normalize("NFC", plain).split())


def authorship_of(text: str) -> Authorship | None:
    """Authors and year of an authorship text, or None where the library finds none."""
    found = _parsed(f"Aus bus {text}", "SPECIES")
    if not isinstance(found, dict) or found.get("specificEpithet") != "bus":
        return None
    return _authorship(found, text)


def _no_name(text: str) -> InputError:
    shown = text.strip() if len(text) < 80 else f"{text.strip()[:77]}..."
    return InputError(f"'{shown}' is no scientific name", remedy="write genus and species, such as Brachypelma hamorii")


def _parents(clean: str) -> tuple[ScientificName, ...]:
    """Both parents of a hybrid formula, or nothing; the second may leave out or shorten the genus of the first."""
    parts = _FORMULA.split(clean)
    if len(parts) != 2 or len(parts[0].split()) < 2 or parts[0].endswith(")"):
        return ()
    try:
        first = read_name(parts[0])
        if not first.epithet:
            return ()
        second_text = parts[1] if parts[1][:1].isupper() else f"{first.genus} {parts[1]}"
        return first, read_name(second_text)
    except InputError:
        return ()


def _undetermined(found: re.Match[str], verbatim: str) -> ScientificName:
    sign = found["sign"].lower().replace("ssp", "sp")
    rest = found["rest"].strip()
    compared = re.match(r"(?P<sign>cf|aff|nr|prox)\.? (?:[A-Z]\w{0,3}\. ?)?(?P<epithet>[a-z-]{3,})(?P<more>.*)", rest)
    genus = found["genus"].capitalize()
    if compared:
        sign = f"{sign.rstrip('.')}. {compared['sign']}."
        return ScientificName(
            genus, epithet=compared["epithet"], qualifier=sign, qualifier_at="species", verbatim=verbatim,
            phrase=compared["more"].strip(),
        )  # fmt: skip
    form = _TRADE_FORM.search(rest)
    phrase = rest[: form.start()].strip() if form else rest
    return ScientificName(
        genus, rank="genus", qualifier=sign, qualifier_at="species", verbatim=verbatim,
        trade_form=form[1].strip() if form else "", phrase=phrase,
    )  # fmt: skip


def _single(clean: str, verbatim: str, rank: str) -> ScientificName:
    rest, note, usage = clean, "", ""
    formerly = _FORMERLY.search(rest)
    if formerly:
        note, rest = formerly[1], _FORMERLY.sub("", rest).strip()
    rest = _COMPARED.sub(lambda found: found["sign"].removeprefix("sp. ") + " ", rest)
    quoted = _GENUS_IN_QUOTES.match(rest)
    if quoted:
        rest = f"{quoted[2]} {rest[quoted.end() :]}"
    form = _TRADE_FORM.search(rest) if not re.search(r"\d{4}\W*$", rest) else None
    if form:
        rest = rest[: form.start()].strip()
    # "RILEY Charles Valentine": forenames in full behind a surname in capitals say nothing the surname does not
    rest = re.sub(r"\b([A-Z]{3,})(?: [A-Z][a-z]+){1,3}(?=, \d{4})", r"\1", rest)
    parted = re.search(r"[,;]?\s*\b(pro parte|p\.p\.)$", rest)
    if parted:
        usage, rest = "pro parte", rest[: parted.start()]
    rest = _without_repetition(_lowered(rest))
    doubted_genus = re.match(r"[A-Z]\w+\?\s(?=[a-z])", rest)
    found = _parsed(rest, rank)
    taxon = (found or {}).get("taxon") or ""
    if found and _LETTERS.fullmatch(taxon) and not _NO_NAMES.fullmatch(taxon):
        return ScientificName(taxon.capitalize(), rank="genus", phrase=found.get("phrase") or "", verbatim=verbatim)
    if not found or not _is_a_word(found, clean):
        raise _no_name(verbatim)
    name = _built(found, verbatim, clean)
    if not all(_EPITHET.fullmatch(word) for word in (name.epithet, name.infraspecific) if word):
        raise _no_name(verbatim)
    changes: dict[str, Any] = {"note": name.note or note, "usage": name.usage or usage}
    if quoted:
        changes |= {"qualifier": '""', "qualifier_at": "genus"}
    elif doubted_genus:
        changes |= {"qualifier": "?", "qualifier_at": "genus"}
    if form:
        changes["trade_form"] = form[1].strip()

    return name._replace(**changes)


_LATIN = "[A-Za-zÀ-ÖØ-öø-ɏ\ufffd]"
_LETTERS = re.compile(rf"{_LATIN}{{2,}}(?:-{_LATIN}+)*\.?|{_LATIN}\.")
_EPITHET = re.compile(rf"(?!x$)(?:\d{{1,2}}-?|[a-z]-)?{_LATIN}+(?:[-']{_LATIN}+)*")
_NO_NAMES = re.compile(r"(?:n\. ?)?(?:spp?|ssp|spec|species|indet|cf|aff|var|subsp)\.?", re.I)


def _is_a_word(found: dict[str, Any], clean: str) -> bool:
    """Whether the genus or higher word can be one (Art. 11.3): two letters at least, and no mark of a rank."""
    word: str = found.get("genus") or found.get("uninomial") or ""
    lone = clean.islower() and " " not in clean  # "avicularia", but not "cbafdg"
    if lone and clean[-1] in "bcdfghjkpqvwz":
        return False
    subgenus: str = found.get("infragenericEpithet") or "Aus"
    return bool(_LETTERS.fullmatch(word)) and bool(_LETTERS.fullmatch(subgenus)) and not _NO_NAMES.fullmatch(word)


def _lowered(text: str) -> str:
    """Capitals of Art. 28, genus upper and epithet lower case, where both words or the genus are written otherwise."""
    words = text.split(" ")
    if len(words) >= 2 and words[0].isupper() and words[1].isupper() and len(words[1]) > 2 and words[0].isalpha():
        words[:2] = words[0].capitalize(), words[1].lower()
    elif words[0][:1].islower() and words[0].isalpha() and len(words[0]) > 2:
        words[0] = words[0].capitalize()
    return " ".join(words)


def _without_repetition(text: str) -> str:
    """``Aus bus Aus bus, and so on`` is ``Aus bus``."""
    words = text.split(" ")
    if len(words) >= 4 and [w.strip(",.;") for w in words[2:4]] == words[:2]:
        return " ".join(words[:2])
    return text


def _parsed(text: str, rank: str) -> dict[str, Any] | None:
    try:
        import nameparser
    except ImportError:
        from namekeeper.words.plain_reader import read_plainly

        return read_plainly(text)
    try:
        found: dict[str, Any] = nameparser.parse(text, rank=rank or None, code="ZOOLOGICAL").to_dict()
    except nameparser.UnparsableNameError:
        return None
    return found


def _built(found: dict[str, Any], verbatim: str, clean: str) -> ScientificName:
    qualifiers: dict[str, str] = dict(found.get("epithetQualifier") or {})
    part, qualifier = next(iter(qualifiers.items()), ("SPECIFIC", ""))
    rank = found["rank"]
    phrase = found.get("phrase") or ""
    infraspecific = found.get("infraspecificEpithet") or ""
    epithet = found.get("specificEpithet") or ""
    if rank == "SPECIES_AGGREGATE" and not qualifier:
        qualifier = "complex" if " complex" in clean else "agg."
    if rank == "INFRASUBSPECIFIC_NAME":  # Art. 45.5: the fourth word is not regulated by the Code
        removed = next((w.removeprefix("Removed: ") for w in found["warnings"] if w.startswith("Removed: ")), "")
        infraspecific, phrase = (removed, infraspecific) if removed else (infraspecific, phrase)
    damaged = "\ufffd" in clean
    if damaged:
        epithet = _damaged_word(clean, 1, epithet)
    return ScientificName(
        genus=(found.get("genus") or found.get("uninomial") or "").capitalize(),
        subgenus=_as_written(found.get("infragenericEpithet") or "", clean),
        epithet=epithet.lower(),
        infraspecific=infraspecific.lower(),
        rank=_RANKS.get(rank, "subspecies" if infraspecific else "species" if epithet else "genus"),
        authorship=_authorship(found, clean) or None,
        qualifier=qualifier,
        qualifier_at=_PARTS.get(part, "species") if qualifier else "",
        verbatim=verbatim,
        marker=_marker(clean) if infraspecific else "",
        usage=_usage(found, clean),
        note=found.get("nomenclaturalNote") or ("ms" if found.get("manuscript") else ""),
        phrase=phrase,
        extinct=bool(found.get("extinct")),
        sic=bool(re.search(r"[\[(]sic[\])]", clean, re.I)),
        damaged=damaged,
        hybrid=bool(found.get("notho")),
    )  # fmt: skip


def _as_written(subgenus: str, clean: str) -> str:
    """A word in brackets in lower case may be an aggregate of species (Art. 6.2): it keeps its letters."""
    return subgenus.lower() if f"({subgenus.lower()})" in clean else subgenus


def _damaged_word(clean: str, place: int, read: str) -> str:
    words = [word for word in clean.split(" ") if not word.startswith("(")]
    return words[place] if len(words) > place and "\ufffd" in words[place] else read


def _marker(clean: str) -> str:
    found = re.search(r"\s(var\.|subsp\.|ssp\.|f\.|form|forma|morph|ab\. n\.|ab\.)\s", clean)
    return found[1] if found else ""


def _usage(found: dict[str, Any], clean: str) -> str:
    note: str = found.get("taxonomicNote") or ""
    unparsed: str = found.get("unparsed") or ""
    if not note and re.search(r"\d{4}", unparsed):
        return unparsed
    bare = re.search(r"\b(sec\.?|sensu|auctt?\.?,?|non|nec)\s", clean, re.I)
    if note and bare and not re.match(r"(?:sec|sensu|auct|non|nec)", note, re.I):
        return clean[bare.start() :].rstrip(")]")
    return note


def _year(year: str, clean: str) -> str:
    """The year as printed: of a range the library keeps the first alone."""
    span = re.search(rf"\b{re.escape(year)}[-–]\d{{2,4}}\b", clean) if year else None
    return span[0] if span and f'"{span[0]}' not in clean else year


def _authorship(found: dict[str, Any], clean: str) -> Authorship:
    later = found.get("combinationAuthorship") or {}
    first = found.get("basionymAuthorship") or {}
    brackets = bool(first.get("authors") or first.get("year"))
    main, other = (first, later) if brackets else (later, {})
    # Zoology: "A ex B" credits A; the library answers in the botanical order.
    credited = main.get("exAuthors") or main.get("authors") or []
    behind = _author_list(other.get("authors") or [])
    return Authorship(
        authors=_author_list(credited),
        year=_year(main.get("year") or "", clean),
        brackets=brackets,
        in_work=found.get("publishedIn") or "",
        later=str(Authorship(behind, other.get("year") or "")),
        imprint_year=main.get("imprintYear") or "",
    )


def _author_list(names: list[str]) -> tuple[str, ...]:
    return tuple("et al." if name in ("al.", "et al.") else _spaced(name) for name in names)


def _spaced(author: str) -> str:
    """``F.O.Pickard-Cambridge`` as the literature prints it: ``F. O. Pickard-Cambridge``."""
    return re.sub(r"(?<=[A-Z]\.)(?=[A-ZÀ-Þ])", " ", author)
