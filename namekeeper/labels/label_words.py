"""The words of labels by language: cautions in three graded forms each, and what stands before dates and names.

Every form says what to do; the words report and defer, they promise nothing. Our own words, read by no native speaker
of Spanish, French or Polish yet.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum, unique
from types import MappingProxyType


@unique
class Topic(StrEnum):
    """What a keeper is warned of; the value is the English word for it, which stands first in every form."""

    BITE = "Bite"
    HAIRS = "Hairs"
    IRRITANT = "Irritant"
    LISTED = "Listed"
    LAW = "Law"


@dataclass(frozen=True, slots=True)
class CautionForms:
    """The word that stands first, and what follows it, from the fullest to the shortest form.

    Of lists, ``{lists}`` in the full form are all that name the animal, in the middle one the first.
    """

    word: str
    full: str
    middle: str
    short: str


@dataclass(frozen=True, slots=True)
class LabelWords:
    """All words of one language (ISO 639-1)."""

    language: str
    cautions: Mapping[Topic, CautionForms]
    permits: str  # before the names a permit may carry, in brackets
    as_name: str  # before the name under which an animal is listed or was described
    caution: str  # before the keeper's own words
    acquired: str
    bought_as: str
    origin: str
    was: str
    line: str
    unsexed: str
    unsettled: str
    native_to: str
    described: str
    until: str
    page: str  # below the labels of one of several pages


_ENGLISH = LabelWords(
    "en",
    {
        Topic.BITE: CautionForms("Bite", " can be serious: get medical help", ": get medical help", ": medical help"),
        Topic.HAIRS: CautionForms(
            "Hairs", " irritate skin and can harm eyes", " irritate skin, eyes", ": protect eyes"
        ),
        Topic.IRRITANT: CautionForms(
            "Irritant", " secretion: keep off skin and eyes", " secretion: protect eyes", ": protect eyes"
        ),
        Topic.LISTED: CautionForms(
            "Listed", " by {lists}: check the current list", " {lists}: check the current list", ": check list"
        ),
        Topic.LAW: CautionForms(
            "Law",
            " restricts keeping or trade in places: ask the authority",
            ": check local rules",
            ": check rules",
        ),
    },
    permits="permits may say",
    as_name="as",
    caution="Caution",
    acquired="acquired",
    bought_as="bought as",
    origin="from",
    was="was",
    line="line",
    unsexed="unsexed",
    unsettled="unsettled",
    native_to="native to",
    described="described",
    until="until",
    page="page {page} of {pages}",
)
_GERMAN = LabelWords(
    "de",
    {
        Topic.BITE: CautionForms(
            "Biss/Stich", " kann ernst sein: ärztliche Hilfe holen", ": ärztliche Hilfe holen", ": ärztliche Hilfe"
        ),
        Topic.HAIRS: CautionForms(
            "Brennhaare",
            " reizen die Haut und können den Augen schaden",
            " reizen Haut, Augen",
            ": Augen schützen",
        ),
        Topic.IRRITANT: CautionForms(
            "Wehrsekret", " reizt: von Haut und Augen fernhalten", " reizt: Augen schützen", ": Augen schützen"
        ),
        Topic.LISTED: CautionForms(
            "Gelistet", " bei {lists}: aktuelle Liste prüfen", " {lists}: aktuelle Liste prüfen", ": Liste prüfen"
        ),
        Topic.LAW: CautionForms(
            "Recht",
            " beschränkt mancherorts Haltung oder Handel: Behörde fragen",
            ": örtliche Regeln prüfen",
            ": Regeln prüfen",
        ),
    },
    permits="in Papieren auch",
    as_name="als",
    caution="Vorsicht",
    acquired="seit",
    bought_as="gekauft als",
    origin="von",
    was="früher",
    line="Linie",
    unsexed="Geschlecht unbestimmt",
    unsettled="nicht bestimmt",
    native_to="Heimat:",
    described="beschrieben",
    until="bis",
    page="Seite {page} von {pages}",
)
_SPANISH = LabelWords(
    "es",
    {
        Topic.BITE: CautionForms(
            "Picadura", " puede ser grave: buscar ayuda médica", ": buscar ayuda médica", ": ayuda médica"
        ),
        Topic.HAIRS: CautionForms(
            "Pelos", " irritan la piel y pueden dañar los ojos", " irritan piel y ojos", ": proteger ojos"
        ),
        Topic.IRRITANT: CautionForms(
            "Secreción", " irritante: evitar piel y ojos", " irritante: proteger ojos", ": proteger ojos"
        ),
        Topic.LISTED: CautionForms(
            "En lista", " de {lists}: consultar la lista vigente", " {lists}: consultar la lista vigente",
            ": consultar lista",
        ),
        Topic.LAW: CautionForms(
            "Ley",
            " limita en algunos lugares la tenencia o el comercio: preguntar a la autoridad",
            ": consultar normas locales",
            ": consultar normas",
        ),
    },
    permits="en permisos quizá",
    as_name="como",
    caution="Precaución",
    acquired="desde",
    bought_as="comprado como",
    origin="de",
    was="antes",
    line="línea",
    unsexed="sin sexar",
    unsettled="sin determinar",
    native_to="originario de:",
    described="descrito",
    until="hasta",
    page="página {page} de {pages}",
)  # fmt: skip
_NB = "\N{NO-BREAK SPACE}"  # French sets a space before a colon, and no line ends there
_FRENCH = LabelWords(
    "fr",
    {
        Topic.BITE: CautionForms(
            "Morsure/piqûre",
            f" parfois grave{_NB}: demander une aide médicale",
            f"{_NB}: demander une aide médicale",
            f"{_NB}: aide médicale",
        ),
        Topic.HAIRS: CautionForms(
            "Poils",
            " irritent la peau et peuvent blesser les yeux",
            " irritent peau et yeux",
            f"{_NB}: protéger yeux",
        ),
        Topic.IRRITANT: CautionForms(
            "Sécrétion",
            f" irritante{_NB}: éviter la peau et les yeux",
            f" irritante{_NB}: protéger les yeux",
            f"{_NB}: protéger yeux",
        ),
        Topic.LISTED: CautionForms(
            "Liste",
            f" {{lists}}{_NB}: vérifier la liste en vigueur",
            f" {{lists}}{_NB}: vérifier la liste en vigueur",
            f"{_NB}: la vérifier",
        ),
        Topic.LAW: CautionForms(
            "Loi",
            f" limitant par endroits détention ou commerce{_NB}: demander à l’autorité",
            f"{_NB}: vérifier les règles locales",
            f"{_NB}: vérifier les règles",
        ),
    },
    permits="sur les permis aussi",
    as_name="sous",
    caution="Attention",
    acquired="depuis",
    bought_as="acheté comme",
    origin="de",
    was="avant",
    line="lignée",
    unsexed="non sexé",
    unsettled="non déterminé",
    native_to="origine :",
    described="décrit",
    until="jusqu’en",
    page="page {page} sur {pages}",
)
_POLISH = LabelWords(
    "pl",
    {
        Topic.BITE: CautionForms(
            "Ukąszenie",
            " może być groźne: szukać pomocy lekarskiej",
            ": szukać pomocy lekarskiej",
            ": pomoc lekarska",
        ),
        Topic.HAIRS: CautionForms(
            "Włoski", " drażnią skórę i mogą uszkodzić oczy", " drażnią skórę, oczy", ": chronić oczy"
        ),
        Topic.IRRITANT: CautionForms(
            "Wydzielina", " drażni: chronić skórę i oczy", " drażni: chronić oczy", ": chronić oczy"
        ),
        Topic.LISTED: CautionForms(
            "Na liście", " {lists}: sprawdzić aktualną listę", " {lists}: sprawdzić aktualną listę", ": sprawdzić listę"
        ),
        Topic.LAW: CautionForms(
            "Prawo",
            " miejscami ogranicza hodowlę lub handel: zapytać urząd",
            ": sprawdzić lokalne przepisy",
            ": sprawdzić przepisy",
        ),
    },
    permits="w zezwoleniach też",
    as_name="jako",
    caution="Uwaga",
    acquired="od",
    bought_as="kupiony jako",
    origin="z",
    was="dawniej",
    line="linia",
    unsexed="płeć nieznana",
    unsettled="nieoznaczony",
    native_to="występowanie:",
    described="opisany",
    until="do",
    page="strona {page} z {pages}",
)
#: What labels can be printed in.
BY_LANGUAGE = MappingProxyType({one.language: one for one in (_ENGLISH, _GERMAN, _SPANISH, _FRENCH, _POLISH)})


def words_in(language: str) -> LabelWords:
    """The words of a language such as ``de`` or ``de-AT``; English where there are none."""
    return BY_LANGUAGE.get(language.replace("_", "-").partition("-")[0].casefold(), _ENGLISH)
