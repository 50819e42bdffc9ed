"""One key from the keeper, without the enter key where the terminal can do that."""

from __future__ import annotations

import sys
from typing import TextIO


def read_key(stream: TextIO) -> str:
    """The next key as lower-case text; empty at the end of input."""
    if stream is sys.stdin and stream.isatty():
        return _raw_key(stream)
    return stream.read(1).lower()


if sys.platform == "win32":
    import msvcrt

    def _raw_key(_stream: TextIO) -> str:
        key = msvcrt.getwch().lower()
        if key == "\x03":
            raise KeyboardInterrupt
        return key

else:
    import termios
    import tty

    def _raw_key(stream: TextIO) -> str:
        descriptor = stream.fileno()
        before = termios.tcgetattr(descriptor)
        try:
            tty.setcbreak(descriptor, termios.TCSADRAIN)  # the default would drop keys pressed a moment too early
            return stream.read(1).lower()
        finally:
            termios.tcsetattr(descriptor, termios.TCSADRAIN, before)
