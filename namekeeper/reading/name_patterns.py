"""Patterns for what stands inside and beside a scientific name on a tag."""

from __future__ import annotations

import re

_AUTHOR_WORD = (
    r"(?:[A-ZÀ-Þ][a-zà-þ][\w'-]*\.?|(?:[A-ZÀ-Þ]\.[ -]?)+|[A-ZÀ-Þ][a-z]?[A-ZÀ-Þ][\w'-]{2,}"
    r"|&|et|and|in|ex|von|van|de|da|du|del|der|la|le|zur|al\.?|y)"
)
AUTHORSHIP = re.compile(
    rf" {{0,2}},? ?(?P<text>\(?{_AUTHOR_WORD}(?:[, ]{{1,2}}{_AUTHOR_WORD}){{0,12}},? ?(?:1[789]|20)\d\d\)?)"
)
#: Authors of many kept species, who stand without a year on tags
BARE_AUTHOR = re.compile(
    r" \(?(?P<text>(?:(?:C|L)\. ?){0,2}(?:Pocock|Simon|Ausserer|Koch|Linnaeus|Linné|Latreille|Walckenaer|Strand|Schmidt"
    r"|Chamberlin|Mello-Leitão|Hirst|Purcell|Karsch|Thorell|Smith|Gallon|Perty|Gray|Brandt|Fabricius|Herbst|White"
    r"|Valerio))\)?(?![\w.-])"
)
_SIGN = r"(?:cf|aff|nr|near|prox|ex gr|gr|confer)"
#: Between genus and epithet: a quotation mark, a query, a qualifier, the genus once more ("cf. T. lepturus")
BETWEEN = re.compile(
    rf" ?(?P<quote>\")? ?(?P<doubt>\?)? ?(?:(?P<sign>{_SIGN})(?![^\W\d_])\.? ?(?:[A-Z][a-z]{{0,3}}\. ?)?)?", re.I
)
SIGN_BEFORE = re.compile(r"\b(?P<sign>cf|aff|nr|near)\.? ?$", re.I)
UNDETERMINED = re.compile(
    r"[ .]?(?P<sign>(?:n\. ?)?spp?|spec|species|indet)(?![^\W\d_])\.?"
    rf"(?: ?(?P<more>{_SIGN})\.? (?:[A-Z]\. ?)?(?=[a-z]{{4}}))?",
    re.I,
)
SUBGENUS = re.compile(r" ?\((?P<word>[A-Za-z][a-z]{3,})\) ?(?=[A-Za-z])")
#: A genus in brackets that replaces or once was the one before it
MOVED = re.compile(r" ?\((?:now|jetzt|ex|formerly|früher|syn\.?|=)[ -]{0,2}[A-Z][a-z]{3,}\) ?(?=[A-Za-z])", re.I)
RANK = re.compile(r" (?:ssp|subsp|var|f)\.? ?")
OR = re.compile(r" ?(?:/|\?/|\b(?:or|oder|ou|of|lub|albo|nebo|eller|o)\b) ?", re.I)
CROSS = re.compile(r" ?(?:×| x | X ) ?")
FORMER = re.compile(
    r"(?:\b(?:ex|formerly|früher|ehemals|ehem|olim|syn|synonym|fka|vormals|antes|anciennement|dříve|dawniej|vroeger|was"
    r"|prev|previously)|=)[.:-]? ?$",
    re.I,
)
DOUBT = re.compile(r" ?\(?\?+\)?")
COMPLEX = re.compile(r" (?:complex|agg\.?|species group)(?!\w)", re.I)
