"""The pocket file of the tests, made in a process of its own, which measures no coverage: that takes twice the time.

``python -m tests.pocket.making FOLDER`` writes the value and the page into FOLDER.
"""

from __future__ import annotations

import pickle
import subprocess
import sys
from pathlib import Path

from namekeeper.faces.telling.pocket import pocket_page
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.pocket import Pocket, fill_pocket
from tests.conftest import world

_ROOT = Path(__file__).parents[2]
_SAMPLE = _ROOT / "sample_collection"
PAGE = "pocket.html"
_VALUE = "pocket.pickle"


def make(folder: Path) -> Pocket:
    """The page of all words of the starter list and of the sample collection, written into the folder."""
    outside = world(folder, folder / "home")
    pocket = fill_pocket(outside, CollectionDesk.at(_SAMPLE, outside))
    (folder / PAGE).write_text(pocket_page(pocket), encoding="utf-8")
    return pocket


def made_elsewhere(folder: Path) -> Pocket:
    """The same, by another process."""
    subprocess.run([sys.executable, "-m", "tests.pocket.making", str(folder)], cwd=_ROOT, check=True, timeout=600)
    made: Pocket = pickle.loads((folder / _VALUE).read_bytes())
    return made


if __name__ == "__main__":
    place = Path(sys.argv[1])
    (place / _VALUE).write_bytes(pickle.dumps(make(place)))
