"""Tags made of the starter list's names by a fixed seed: other casings, lost blanks, foreign words and the like."""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence

#: Dictionary words that name no animal by themselves, from memory; invented company for real names.
STRANGE = (
    "Bolivian", "lesser", "false", "spotted", "giant", "dwarf", "rare", "riesige", "petite", "noir", "muy", "lovely",
    "Tanzania", "Peru", "xanthos", "velvet", "spider", "mantis", "beetle", "scorpion", "roach", "kleine", "holy", "of",
    "desert", "morph", "Kenia",
)  # fmt: skip
#: What parts two names of which one is meant, or none (``reading.vocabulary``, common practice).
PARTING = (
    " / ", " or ", " oder ", " vs. ", " bzw. ", " | ", " (or ", ", maybe ", " oppure ", " and/or ", " not ", " x ",
    " × ",
)  # fmt: skip
#: What the trade writes beside a name (common practice, no source).
EXTRA = (
    "0.1", "0.0.3", "1.0 adult", "sling 2cm", "£30", "♀ 5cm KL", "CB", "NZ 2024", "juv.", "L4", "20 €", "3x", "MM",
    "WC",
)  # fmt: skip
_CASINGS: tuple[Callable[[str], str], ...] = (str.upper, str.lower, str.title, str.capitalize, str.swapcase)


def made_tags(names: Sequence[str], commons: Sequence[str], many: int, seed: int = 20) -> list[str]:
    """``many`` tags, the same for the same lists and seed."""
    draw = random.Random(seed)
    species = [name for name in names if " " in name]

    def epithet() -> str:
        return draw.choice(species).split()[1]

    def recased(base: str) -> str:
        return draw.choice(_CASINGS)(base)

    def misspelt(base: str) -> str:
        at = draw.randrange(len(base))
        return base[:at] + draw.choice("abcdefgh ") + base[at + 1 :]

    def with_strange(base: str) -> str:
        words = base.split()
        words.insert(draw.randrange(len(words) + 1), draw.choice(STRANGE))
        return " ".join(words)

    def parted(base: str) -> str:
        other = draw.choice((draw.choice(commons), draw.choice(species), epithet()))
        return base + draw.choice(PARTING) + other

    def shortened(_base: str) -> str:
        genus, second = draw.choice(species).split()[:2]
        return f"{genus[0]}. {second} {draw.choice(EXTRA)}"

    ways: tuple[Callable[[str], str], ...] = (
        recased,
        lambda base: base.replace(" ", "", 1),
        with_strange,
        lambda base: f"{draw.choice(species)} {epithet()}",
        parted,
        lambda base: f"{base} {draw.choice(EXTRA)}",
        lambda base: f"{base} ({draw.choice(commons)})",
        misspelt,
        shortened,
    )  # fmt: skip
    return [draw.choice(ways)(draw.choice(draw.choice((species, commons)))) for _ in range(many)]
