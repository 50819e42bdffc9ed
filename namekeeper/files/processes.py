"""What this machine tells of its processes: whether one runs, and since when."""

from __future__ import annotations

import os
from pathlib import Path


def runs(process: int) -> bool:
    """Whether a process of this machine may still run; True where its system cannot be asked.

    Elsewhere than on POSIX systems signal 0 would end the process instead of asking for it.
    """
    if process == os.getpid() or os.name != "posix":
        return True
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False  # a number beyond the system's own is no process
    except OSError:
        return True
    return True


def start_of(process: int) -> str:
    """When a process started, in its system's own count; empty where the system does not tell."""
    try:
        status = Path(f"/proc/{process}/stat").read_text(encoding="utf-8", errors="replace")
        # starttime, field 22 of proc_pid_stat(5); the text after the command begins with field 3
        return status.rpartition(")")[2].split()[19]
    except (OSError, IndexError):
        return ""
