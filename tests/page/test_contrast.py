"""The palette can be read: contrast by the formula of WCAG 2.2 ("contrast ratio", "relative luminance")."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from namekeeper import resources
from namekeeper.faces import page

STYLE = (Path(page.__file__).parent / "static" / "look.css").read_text(encoding="utf-8")
ROOTS = re.findall(r":root\{([^}]*)\}", STYLE)
PALETTES = {
    name: dict(re.findall(r"--([\w-]+):(#[0-9a-f]{6})\b", text))
    for name, text in zip(("light", "dark"), ROOTS, strict=True)
}


def luminance(colour: str) -> float:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_is_that_of_the_standard() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)  # WCAG 2.2, "contrast ratio": from 1 to 21
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)  # W3C, G18: the lightest grey that passes


@pytest.mark.parametrize("scheme", PALETTES)
@pytest.mark.parametrize("ground", ["paper", "card", "sunk"])
def test_text_and_edges_stand_out(scheme: str, ground: str) -> None:
    palette = PALETTES[scheme]
    for text in ("ink", "soft", "bark"):
        assert contrast(palette[text], palette[ground]) >= 4.5, text  # WCAG 2.2, 1.4.3
    for edge in ("edge", "focus", "pine") if ground != "sunk" else ("focus", "pine"):
        assert contrast(palette[edge], palette[ground]) >= 3, edge  # WCAG 2.2, 1.4.11
    assert contrast(palette["pine-ink"], palette["pine"]) >= 4.5


def test_the_page_of_a_check_has_the_same_palette() -> None:
    report = (resources.data("report") / "look.css").read_text(encoding="utf-8")
    assert re.findall(r":root\{([^}]*)\}", report)[:2] == ROOTS


def test_there_is_no_colour_beside_the_palette_but_on_white_paper() -> None:
    beside = [
        line
        for line in STYLE.splitlines()
        if re.search(r"#[0-9a-f]{3,8}\b", line) and not line.startswith((":root", "@media (prefers"))
    ]
    assert all(line.startswith((".paper", ".spot", ".label", "@media print")) for line in beside)
