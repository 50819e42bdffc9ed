"""Rules for what carries a number: price, size, instar. One rule a function; each claims what it reads.

The patterns are long and a tag is often just a name: they are compiled for the first text with a number in it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cache

from namekeeper.reading.draft import Draft
from namekeeper.reading.lexicon import Kind, phrases


def _matches(pattern: Callable[[], re.Pattern[str]], draft: Draft) -> list[re.Match[str]]:
    text = draft.open_text
    return list(pattern().finditer(text)) if any(map(str.isnumeric, text)) else []


_AMOUNT = r"\d{1,5}(?: \d{3})?(?:[.,]\d{2}(?!\d)|[.,]-{1,2}|,–)?"
_CURRENCY = r"(?:€|£|R?\$|¥|円|zł|zl|Kč|Kc|kr|EUR|EURO?S?|Euros?|GBP|USD|CHF|PLN|CZK|SEK|eur|euros?|pln|gbp|usd)"
_ONLY_WORDS = ("free", "sold", "zuverschenken", "geschenkt", "verkauft", "vendu", "vendido", "verkocht", "sprzedane")
_ONLY_WORDS_MORE = ("adonner", "prodano", "venduto", "reserviert", "reserved")


@cache
def price_pattern() -> re.Pattern[str]:
    """An amount of money with its currency."""
    return re.compile(
        rf"(?<![\w.,])(?:(?:€|£|R?\$|¥|EUR|GBP|USD|CHF|PLN) ?{_AMOUNT}(?: ?- ?{_AMOUNT})?(?: ?(?:€|EUR))?"
        rf"|{_AMOUNT}(?: ?- ?{_AMOUNT})? ?{_CURRENCY}(?![^\W\d_])"
        r"|\d{1,5},-{1,2}(?!\d))"
        r"(?: ?/ ?(?:Stk|Stück|St|szt|ks|kus|pcs?|ea|each|pièce|stuk|u)\b\.?)?"
    )


def read_price(draft: Draft) -> str:
    """``£30``, ``25,- €``, ``1200 Kč``; several are joined by commas. Words such as SOLD where there is no amount."""
    amounts = []
    for found in _matches(price_pattern, draft):
        draft.claim("price", found.start(), found.end())
        amounts.append(" ".join(found[0].partition("/")[0].split()))
    words = draft.words()
    told, others = [], []
    for phrase in list(phrases(words, draft.text, frozenset({Kind.PRICE, Kind.MAYBE}))):
        if phrase.kind is Kind.MAYBE:
            continue  # "sold as" tells what somebody says it is
        start, end = words[phrase.first].start, words[phrase.last - 1].end
        key = "".join(word.key for word in words[phrase.first : phrase.last])
        if key in _ONLY_WORDS or key in _ONLY_WORDS_MORE:
            draft.claim("price", start, end)
            told.append(draft.text[start:end])
        else:
            others.append((start, end))
    for start, end in others:  # "price" beside an amount or "sold"
        if "price" in draft.fields_near(start, end, 4):
            draft.claim("price", start, end)
    return ", ".join(amounts) or ", ".join(told)


_NUMBER = r"(?:\d{1,3} ?[½¼¾⅓⅔⅛]|[½¼¾⅓⅔⅛]|\d{1,2}[ -]\d/\d{1,2}|\d{1,2}/\d{1,2}|\d{1,3}(?:[.,]\d{1,2})?)"
_UNIT = r"(?:[cC][mM]|mm|Mm|MM|\"|''|inch(?:es)?|Inch|INCH|[iI]n(?![^\W\d_])|Zoll|zoll|cal[ei]?(?![^\W\d_]))"
_ABOUT = r"(?:ca\.?|circa|approx\.?|about|around|etwa|env\.?|±|~|\+-|>|<) ?"
_TO = r"(?:-|to|bis|až|do|à|/|a)"
_FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125}
_CM = {"cm": 1.0, "mm": 0.1}
_INCH = 2.54


@cache
def size_pattern() -> re.Pattern[str]:
    """A size with its unit, or from one to another."""
    return re.compile(
        rf"(?<![^\W\d_])(?:{_ABOUT})?(?<![\w.,/])(?P<low>{_NUMBER}) ?"
        rf"(?:(?P<inner>{_UNIT})? ?{_TO} ?(?P<high>{_NUMBER}) ?)?(?P<unit>{_UNIT})\+?(?![^\W_])"
    )


def read_size(draft: Draft) -> tuple[tuple[float, float] | None, str]:
    """Lower and upper size in centimetres, and whether of body or leg span; the first of several sizes counts."""
    first: tuple[float, float] | None = None
    for found in _matches(size_pattern, draft):
        if _is_no_size(found, draft.text):
            continue
        draft.claim("size", found.start(), found.end())
        low = _centimetres(found["low"], found["inner"] or found["unit"])
        high = _centimetres(found["high"], found["unit"]) if found["high"] else low
        first = first or (min(low, high), max(low, high))
    return (first, _kind_of_size(draft)) if first else (None, "")


def _is_no_size(found: re.Match[str], text: str) -> bool:
    unit = found["unit"]
    if unit == "MM" and not found["high"]:
        # "MM" behind a small whole number, or set off by a blank, is a mature male
        return text[found.end("low") : found.start("unit")] == " " and float(_number(found["low"])) <= 5
    if unit.lower() == "in":
        behind = text[found.end() :].lstrip(" ")
        set_off = text[found.end("low") : found.start("unit")] == " "
        return set_off and bool(re.match(r"[a-z]{2,}", behind)) and not behind.startswith(("leg", "body", "dls", "ls"))
    if unit == '"':
        # a closing quotation mark, as in "Line 5", is no inch mark
        marks = re.sub(r"[\d½¼¾⅓⅔⅛]\"", "", text[: found.start("unit")]).count('"')
        return marks % 2 == 1 and '"' not in text[found.end() :]
    return False


def _number(text: str) -> float:
    text = text.strip()
    if text[-1] in _FRACTIONS:
        whole = text[:-1].strip()
        return (float(whole) if whole else 0.0) + _FRACTIONS[text[-1]]
    parts = re.fullmatch(r"(?:(\d+)[ -])?(\d+)/(\d+)", text)
    if parts:
        return float(parts[1] or 0) + int(parts[2]) / (int(parts[3]) or 1)
    return float(text.replace(",", "."))


def _centimetres(number: str, unit: str) -> float:
    return round(_number(number) * _CM.get(unit.lower(), _INCH), 2)


def _kind_of_size(draft: Draft) -> str:
    kind = ""
    words = draft.words()
    for phrase in list(phrases(words, draft.text, frozenset({Kind.SIZE_KIND}))):
        start, end = words[phrase.first].start, words[phrase.last - 1].end
        if "size" in draft.fields_near(start, end, 5):
            draft.claim("size", start, end)
            kind = kind or phrase.value
    return kind


@cache
def instar_pattern() -> re.Pattern[str]:
    """The count of moults, as ``L4`` or "4th instar"."""
    return re.compile(
        r"""(?<![\w.])(?:
        (?P<letter>FH|[LlN]|[Ii])[ .-]?\d{1,2}(?:\s?[-/+]\s?(?:FH|[LlNIi])?\d{1,2})?(?![\w"'½]|[.,]\d|\s?(?:cm|mm))
        |(?P<before>\d{1,2})(?:\.\s?)?(?P<behind>FH|[iI])(?![^\W_])
        |(?P<words>\d{1,2}(?:st|nd|rd|th)[ ]instar|instar[ ]\d{1,2}|stade[ ]\d{1,2}|\d{1,2}\.[ ]?svlek
            |\d{1,2}[ ]?[ªa°.]?[ ]?mut[ae]|\d{1,2}\.[ ]?Häutung|mue[ ]\d{1,2}|\d{1,2}\.[ ]?Larvenstadium)(?!\w)
        )""",
        re.VERBOSE,
    )


def read_instar(draft: Draft) -> str:
    """``L4``, ``i4``, ``N5``, ``FH3``; sellers count from different zeros, so the letter stays."""
    values = []
    for found in _matches(instar_pattern, draft):
        draft.claim("instar", found.start(), found.end())
        if found["words"]:
            values.append(found["words"])
        elif found["behind"]:
            values.append(("FH" if found["behind"] == "FH" else "i") + found["before"])
        else:
            values.append(
                re.sub(r"I(?=\d)", "i", re.sub(r"l(?=\d)", "L", re.sub(r"[ .]", "", found[0]))).replace("FH-", "FH")
            )
    return ", ".join(dict.fromkeys(values))


def numbers_before(draft: Draft, place: int) -> Iterator[tuple[int, int]]:
    """The number, and where it begins, that stands before ``place``: "2 females", "3x male"."""
    found = re.search(r"(?<![\w.,/])(\d{1,3}) ?[xX]? ?$", draft.piece(place - 8, place))
    if found and int(found[1]) > 0:
        yield int(found[1]), place - len(found[0])
