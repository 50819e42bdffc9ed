"""A job in a process of its own that may use so much memory and time and no more: the bound is the system's.

A timed assertion says how busy the machine is; a limit of processor time does not.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Sequence

MB = 1024 * 1024
#: Seconds by the clock after which a job hangs: it waits for what never comes, and uses no processor time.
_HANGS = 240


def run_limited(module: str, *arguments: str, memory: int, seconds: int) -> subprocess.CompletedProcess[str]:
    """``python -m module arguments`` within ``memory`` bytes of addresses and ``seconds`` of processor time.

    :raises subprocess.TimeoutExpired: if it hangs.
    """
    import resource

    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))

    words: Sequence[str] = (sys.executable, "-m", module, *arguments)
    return subprocess.run(
        words,
        check=False,
        capture_output=True,
        encoding="utf-8",
        timeout=_HANGS,
        preexec_fn=limit,
        stdin=subprocess.DEVNULL,
    )
