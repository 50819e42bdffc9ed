"""``python -m tests.services.one_question ADDRESS [BYTES]``: one question put there, what came of it, and its memory.

Memory is the growth of the greatest resident size of this program since the libraries were loaded, in bytes
(``VmHWM`` of proc_pid_status(5)). That of getrusage(2) begins with what the process had before: with
the size of the tests.
"""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path

from namekeeper.sources.http import Http, WebQuestion, Wire
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.sources.http_limits import HttpSettings


def highest() -> int:
    found = re.search(r"VmHWM:\s+(\d+) kB", Path("/proc/self/status").read_text(encoding="utf-8"))
    assert found is not None
    return int(found[1]) * 1024


def main(base: str, most: int) -> None:
    import requests
    import urllib3

    loaded = (requests.__name__, urllib3.__name__)
    wire = Wire(settings=HttpSettings(max_bytes=most))
    before = highest()
    try:
        why = f"answered: {type(Http(base, wire, spacing=0).send(WebQuestion('x')).document).__name__}"
    except UnansweredError as fault:
        why = fault.why
    print(json.dumps({"why": why, "grown": highest() - before, "loaded": loaded}))


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else HttpSettings().max_bytes)
