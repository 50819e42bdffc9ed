"""What this machine tells of itself and its processes: which it is, since when it is up, whether a process runs."""

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


def machine() -> str:
    """What tells this machine from all others, machine-id(5); empty where the system does not tell."""
    return _told("/etc/machine-id")


def boot() -> str:
    """What tells the time since this machine was last started from all before, random(4); empty as above."""
    return _told("/proc/sys/kernel/random/boot_id")


def _told(place: str) -> str:
    try:
        return Path(place).read_text(encoding="ascii", errors="replace").strip()
    except OSError:
        return ""


def start_of(process: int) -> str:
    """When a process started, in its system's own count; empty where the system does not tell."""
    try:
        status = Path(f"/proc/{process}/stat").read_text(encoding="utf-8", errors="replace")
        # starttime, field 22 of proc_pid_stat(5); the text after the command begins with field 3
        return status.rpartition(")")[2].split()[19]
    except (OSError, IndexError):
        return ""
