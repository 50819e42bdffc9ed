"""``python -m tests.services.one_question ADDRESS``: one question put there, why it failed, and the memory it took.

Memory is the growth of the greatest resident size since the libraries were loaded, in bytes.
"""

from __future__ import annotations

import json
import resource
import sys

from namekeeper.sources.http import Http, WebQuestion, Wire
from namekeeper.sources.http_faults import UnansweredError


def main(base: str) -> None:
    import requests
    import urllib3

    loaded = (requests.__name__, urllib3.__name__)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    try:
        why = f"answered: {Http(base, Wire(), spacing=0).send(WebQuestion('x')).unchanged}"
    except UnansweredError as fault:
        why = fault.why
    grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before
    print(json.dumps({"why": why, "grown": grown * 1024, "loaded": loaded}))


if __name__ == "__main__":
    main(sys.argv[1])
