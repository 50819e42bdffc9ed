"""Run by Python when a process of the tests starts: no open file is replaced or removed there either, and
no text of ours is read or written without its encoding (what libraries do is theirs).

By its path, so that a process which finds other tests, or none, has the guard all the same.
"""

from __future__ import annotations

import runpy
import warnings
from pathlib import Path

_guard = runpy.run_path(str(Path(__file__).parent.parent / "open_files.py"))["guarded"]()
_guard.__enter__()  # and never left: it is kept here as long as the process lives
warnings.filterwarnings("ignore", category=EncodingWarning)
warnings.filterwarnings("error", category=EncodingWarning, module=r"namekeeper\b")
