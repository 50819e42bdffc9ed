"""Language codes of lists and services as ISO 639-1, the form in which common names are kept.

A module of its own because the readers of lists and those of services share it and know nothing of each other.
"""

from __future__ import annotations

from types import MappingProxyType

# ISO 639-2/3 to ISO 639-1 (Library of Congress code list), for languages in which invertebrates are sold and kept.
_TWO_LETTERS = MappingProxyType(
    {
        "afr": "af", "ara": "ar", "bul": "bg", "cat": "ca", "ces": "cs", "cze": "cs", "chi": "zh", "cym": "cy",
        "dan": "da", "deu": "de", "dut": "nl", "ell": "el", "eng": "en", "est": "et", "eus": "eu", "fas": "fa",
        "fin": "fi", "fra": "fr", "fre": "fr", "ger": "de", "gle": "ga", "glg": "gl", "heb": "he", "hin": "hi",
        "hrv": "hr", "hun": "hu", "ind": "id", "isl": "is", "ita": "it", "jpn": "ja", "kor": "ko", "lat": "la",
        "lav": "lv", "lit": "lt", "msa": "ms", "nld": "nl", "nor": "no", "pol": "pl", "por": "pt", "ron": "ro",
        "rus": "ru", "slk": "sk", "slv": "sl", "spa": "es", "srp": "sr", "swa": "sw", "swe": "sv", "tam": "ta",
        "tha": "th", "tur": "tr", "ukr": "uk", "vie": "vi", "zho": "zh",
    }
)  # fmt: skip
# One service writes languages as English words.
_WORDS = MappingProxyType(
    {
        "english": "en", "french": "fr", "german": "de", "spanish": "es", "portuguese": "pt", "italian": "it",
        "dutch": "nl", "japanese": "ja", "chinese": "zh", "hindi": "hi", "arabic": "ar", "russian": "ru",
        "swedish": "sv", "danish": "da", "norwegian": "no", "finnish": "fi", "polish": "pl", "czech": "cs",
    }
)  # fmt: skip


def two_letters(code: str) -> str:
    """``eng``, ``en-GB`` or ``English`` as ``en``; a code without a short form as it is; ``und`` if none is given."""
    folded = code.strip().casefold().replace("_", "-").split("-", 1)[0]
    if folded in _TWO_LETTERS:
        return _TWO_LETTERS[folded]
    if folded in _WORDS:
        return _WORDS[folded]
    return folded if 2 <= len(folded) <= 3 and folded.isalpha() and folded.isascii() else "und"
