"""How often the encoding of a list is guessed right, beside a guesser for pages: ``python -m tests.files.measure``.

Lists of one, two, five and all words of a language, each word on a line of its own among plain ones.
"""

from __future__ import annotations

import io
import random
import sys
from collections.abc import Callable, Iterator

from namekeeper.files.encodings import encoding_of
from tests.files.words_beyond_ascii import WORDS

PLAIN = "Aphonopelma chalcodes;Chamberlin, 1940;Arizona"
SIZES = (1, 2, 5, 99)


def tables(size: int) -> Iterator[tuple[str, str, str]]:
    """Language, encoding and text of every table of so many words beyond ASCII."""
    for language, (encodings, words) in WORDS.items():
        shuffled = random.Random(size).sample(words, len(words))
        groups = [shuffled[i : i + size] for i in range(0, len(shuffled), size)] if size < 99 else [list(words)]
        for group in groups:
            text = "name;author;locality\n" + "".join(f"{PLAIN}\nAus bus;{word};x\n" for word in group)
            if not text.isascii():
                yield from ((language, encoding, text) for encoding in encodings)


def own(content: bytes) -> str:
    return encoding_of(io.BytesIO(content)).name


def for_pages(content: bytes) -> str:
    from charset_normalizer import from_bytes

    likely = ["cp1252", "cp1250", "iso8859_15", "mac_roman", "cp850", "utf_16_le", "utf_16_be", "cp1251"]
    best = from_bytes(content, cp_isolation=likely).best()
    return best.encoding if best is not None else "cp1252"


def right(size: int, guess: Callable[[bytes], str]) -> tuple[int, int, list[str]]:
    """Tables read with every letter right, all tables, and what was read wrong."""
    good, every, wrong = 0, 0, []
    for language, encoding, text in tables(size):
        content = text.encode(encoding)
        found = guess(content)
        every += 1
        if content.decode(found, "replace") == text:
            good += 1
        else:
            wrong.append(f"{language} in {encoding} as {found}: {content.decode(found, 'replace').split(';')[5::4]}")
    return good, every, wrong


def main() -> int:
    for size in SIZES:
        (good, every, wrong), (others, _, _) = right(size, own), right(size, for_pages)
        print(f"{size} words: right {good} of {every}; a guesser for pages {others}")
        if "-v" in sys.argv:
            print("\n".join(wrong))
    return 0


if __name__ == "__main__":
    sys.exit(main())
