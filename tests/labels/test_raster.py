"""Seven pages as pictures, against pictures that were looked at; a tolerance for the drawing of edges.

``python -m tests.labels.test_raster`` draws them anew after a wished change; look at them before committing.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from namekeeper.tasks.label_bench import Workshop, open_workshop
from tests.labels.animals import planned
from tests.labels.pdf_reading import raster

PICTURES = Path(__file__).with_name("pictures")
DPI = 72
PAGES = (
    ("enclosure", "a4-3x8-70x37"),
    ("enclosure", "roll-62x29"),
    ("vial", "a4-7x27-25.4x10"),
    ("shelf", "letter-2x10-101.6x25.4"),
    ("display", "a4-cut-2x4-105x74"),
    ("log", "a4-cut-2x2-105x148.5"),
    ("list", "a4-list-1x38-190x7"),
)
FAR_OFF = 96  # of 255 grey values
ALLOWED = 0.002  # share of inked pixels that may be far off, for another version of the drawing library


@pytest.mark.parametrize(("template", "sheet"), PAGES)
def test_the_page_looks_as_it_looked(workshop: Workshop, template: str, sheet: str) -> None:
    now = raster(planned(workshop, sheet, template).pdf(), dpi=DPI).astype(int)
    before = np.array(Image.open(PICTURES / f"{template}-{sheet}.png")).astype(int)
    assert now.shape == before.shape
    inked = int((before < 200).sum())
    assert inked > 500
    assert int((abs(now - before) > FAR_OFF).sum()) <= ALLOWED * inked


def test_a_label_that_moved_by_half_a_millimetre_would_be_noticed(workshop: Workshop) -> None:
    template, sheet = PAGES[0]
    now = raster(planned(workshop, sheet, template).pdf(), dpi=DPI).astype(int)
    moved = np.roll(now, 2, axis=1)
    assert int((abs(now - moved) > FAR_OFF).sum()) > 20 * ALLOWED * int((now < 200).sum())


if __name__ == "__main__":
    PICTURES.mkdir(exist_ok=True)
    shop = open_workshop(None)
    for kind, key in PAGES:
        grey = raster(planned(shop, key, kind).pdf(), dpi=DPI)
        Image.fromarray(grey).quantize(16).convert("L").save(PICTURES / f"{kind}-{key}.png", optimize=True)
