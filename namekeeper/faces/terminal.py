"""The keeper at a terminal: what is printed, typed and pressed."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Mapping
from typing import NamedTuple, TextIO

from namekeeper.faces.console import Console


class Terminal(NamedTuple):
    """Streams of one command; tests hand in their own."""

    console: Console
    stdin: TextIO

    @classmethod
    def of(cls, out: TextIO, err: TextIO, stdin: TextIO, environ: Mapping[str, str]) -> Terminal:
        """Plain where the keeper wishes so (``NO_COLOR``) or the stream is no terminal."""
        return cls(Console.of(out, err, plain="NO_COLOR" in environ), stdin)

    @classmethod
    def of_this_process(cls, environ: Mapping[str, str]) -> Terminal:
        for stream in (sys.stdout, sys.stderr):
            if hasattr(stream, "reconfigure"):
                stream.reconfigure(errors="backslashreplace")
        typed, out, err = sys.stdin or _nothing("r"), sys.stdout or _nothing("w"), sys.stderr or _nothing("w")
        return cls.of(out, err, typed, environ)

    @property
    def interactive(self) -> bool:
        """Whether a person sits at both ends: only then may a command prompt."""
        return self.stdin.isatty() and self.console.out.isatty()

    def line(self) -> str:
        """The next line with its end; empty at the end of input."""
        return self.stdin.readline()

    def key(self) -> str:
        """The next key as lower-case text, without the enter key where the terminal can do that; empty at the end."""
        if self.stdin is sys.stdin and self.stdin.isatty():
            return _raw_key(self.stdin)
        return self.stdin.read(1).lower()


def _nothing(mode: str) -> TextIO:
    """In place of a stream that was closed before we began; takes its number, so that no file of ours gets it."""
    return io.TextIOWrapper(io.FileIO(os.open(os.devnull, os.O_RDWR), mode), encoding="utf-8")


if sys.platform == "win32":
    import msvcrt

    def _raw_key(_stream: TextIO) -> str:
        key = msvcrt.getwch().lower()
        if key == "\x03":
            raise KeyboardInterrupt
        return key

else:

    def _raw_key(stream: TextIO) -> str:
        import termios
        import tty

        descriptor = stream.fileno()
        before = termios.tcgetattr(descriptor)
        try:
            tty.setcbreak(descriptor, termios.TCSADRAIN)  # the default would drop keys pressed a moment too early
            return stream.read(1).lower()
        finally:
            termios.tcsetattr(descriptor, termios.TCSADRAIN, before)
