"""The keeper at a terminal: what is printed, typed and pressed."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import NamedTuple, TextIO

from namekeeper.faces.console import Console

ESCAPE = "\x1b"
_END_OF_TEXT = "\x04"  # Ctrl-D, which a terminal that reads single keys hands on as it is
_END_OF_FILE = "\x1a"  # Ctrl-Z, the same on Windows
_REST_OF_KEY = 0.05  # seconds in which the rest of an arrow has come


class Terminal(NamedTuple):
    """Streams of one command, and the path by which it was called; tests hand in their own."""

    console: Console
    stdin: TextIO
    called: str = "namekeeper"

    @classmethod
    def of(cls, out: TextIO, err: TextIO, stdin: TextIO, environ: Mapping[str, str]) -> Terminal:
        """Marks and redrawing only where a stream is a terminal that takes them and the keeper does (``NO_COLOR``)."""
        able = environ.get("TERM") != "dumb"
        styled = able and not environ.get("NO_COLOR") and out.isatty() and _takes_codes(out)
        return cls(Console.of(out, err, styled=styled, lively=able and err.isatty()), stdin)

    @classmethod
    def of_this_process(cls, environ: Mapping[str, str]) -> Terminal:
        for stream in (sys.stdout, sys.stderr):
            if hasattr(stream, "reconfigure"):
                stream.reconfigure(errors="backslashreplace")
        typed, out, err = sys.stdin or _nothing("r"), sys.stdout or _nothing("w"), sys.stderr or _nothing("w")
        return cls.of(out, err, typed, environ)._replace(called=sys.argv[0])

    @property
    def program(self) -> str:
        """What calls this program from a plain shell, where its environment need not be active."""
        import shlex
        import shutil

        if Path(self.called).name == "__main__.py":
            return f"{shlex.quote(sys.executable)} -m namekeeper"
        return "namekeeper" if shutil.which("namekeeper") else shlex.quote(self.called)

    @property
    def interactive(self) -> bool:
        """Whether a person sits at both ends: only then may a command prompt."""
        return self.stdin.isatty() and self.console.out.isatty()

    def line(self) -> str:
        """The next line with its end; empty at the end of input."""
        return self.stdin.readline()

    def key(self) -> str:
        """The next key as lower-case text, without the enter key where the terminal can do that; empty at the end.

        Arrows and other keys that stand for no letter are all :data:`ESCAPE`.
        """
        if self.stdin is sys.stdin and self.stdin.isatty():
            return _raw_key(self.stdin)
        return _one_key(self.stdin.read(1), lambda: self.stdin.read(1))


def _nothing(mode: str) -> TextIO:
    """In place of a stream that was closed before we began; takes its number, so that no file of ours gets it."""
    return io.TextIOWrapper(io.FileIO(os.open(os.devnull, os.O_RDWR), mode), encoding="utf-8")


def _one_key(first: str, more: Callable[[], str]) -> str:
    """A key of one letter as it is; one that sends several after an escape (arrows and their like) as the escape.

    ``more`` gives the next letter, or nothing where none is waiting. The forms are those of ECMA-48, 5.4 and 5.5.
    """
    if first != ESCAPE:
        return "" if first == _END_OF_TEXT else first.lower()
    following = more()
    while following in ("[", "O") or (following and not "@" <= following <= "~"):
        following = more()
    return ESCAPE


if sys.platform == "win32":
    import msvcrt

    _VIRTUAL_TERMINAL = 0x0004  # ENABLE_VIRTUAL_TERMINAL_PROCESSING; stated from memory

    def _takes_codes(stream: TextIO) -> bool:
        """Whether this console understands escape codes, once it is asked to: those before Windows 10 do not."""
        import ctypes

        kernel, mode = ctypes.windll.kernel32, ctypes.c_ulong()
        try:
            handle = msvcrt.get_osfhandle(stream.fileno())
        except OSError:
            return False
        known = kernel.GetConsoleMode(handle, ctypes.byref(mode))
        return bool(known and kernel.SetConsoleMode(handle, mode.value | _VIRTUAL_TERMINAL))

    def _raw_key(_stream: TextIO) -> str:
        key = msvcrt.getwch()
        if key == "\x03":
            raise KeyboardInterrupt
        if key in ("\x00", "\xe0") and msvcrt.kbhit():  # an arrow and its like: a mark, then a letter
            msvcrt.getwch()
            return ESCAPE
        return "" if key == _END_OF_FILE else _one_key(key, lambda: "")

else:

    def _takes_codes(_stream: TextIO) -> bool:
        """Every terminal but a dumb one (ECMA-48)."""
        return True

    def _raw_key(stream: TextIO) -> str:
        import codecs
        import select
        import termios
        import tty

        descriptor = stream.fileno()
        letters = codecs.getincrementaldecoder(stream.encoding)("replace")

        def letter() -> str:
            # Not by the stream, which would take the rest of a key into a buffer that cannot be asked.
            while byte := os.read(descriptor, 1):
                if text := letters.decode(byte):
                    return text
            return ""

        def more() -> str:
            return letter() if select.select([descriptor], [], [], _REST_OF_KEY)[0] else ""

        before = termios.tcgetattr(descriptor)
        try:
            tty.setcbreak(descriptor, termios.TCSADRAIN)  # the default would drop keys pressed a moment too early
            return _one_key(letter(), more)
        finally:
            termios.tcsetattr(descriptor, termios.TCSADRAIN, before)
