"""``namekeeper browse``: the whole job on a page in the browser of this machine."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.words.errors import InputError


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "folder", metavar="FOLDER", type=Path, nargs="?", help="the collection (else chosen on the page)"
    )
    parser.add_argument("--port", metavar="N", type=int, default=0, help="the port to use (else any free one)")
    parser.add_argument(
        "--desktop", action="store_true", help="write an entry for the menu of a Linux desktop, and open nothing"
    )
    parser.add_argument("--no-open", action="store_true", help="print the link and open no browser")


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    """0 once the page is closed. Only this machine can reach it, and only by the link that is printed."""
    if args.desktop:
        return _write_entry(args, outside, terminal)
    # Only now: no other command needs the libraries of the page.
    from namekeeper.faces.page.server import PageServer

    if not 0 <= args.port <= 65535:
        raise InputError("a port is a number from 0 to 65535", remedy="leave --port out")
    server, console = PageServer(outside, args.port), terminal.console
    if args.folder:
        server.keeping.open(args.folder)

    def ready(link: str) -> None:
        console.put(f"Namekeeper is open at {link}")
        console.say("The link works once, in a browser of this machine. Ctrl-C or the page itself ends it.")
        console.out.flush()
        if not args.no_open:
            _show(link)

    try:
        server.serve(ready)
    except KeyboardInterrupt:
        console.say("Namekeeper is closed; everything that was decided is written.")
    except OSError as error:
        what = f"the page cannot be opened on port {args.port}: {error.strerror}"
        raise InputError(what, remedy="leave --port out, or give another") from None
    return 0


def _write_entry(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    if not sys.platform.startswith("linux"):
        what = "an entry for the menu is known for Linux only"
        raise InputError(what, remedy="README.md tells how to make a shortcut on Windows and macOS")
    from namekeeper.tasks.desktop_entry import write_desktop_entry

    folder = (str(outside.folder / args.folder),) if args.folder else ()
    written = write_desktop_entry((sys.executable, "-m", "namekeeper", "browse", *folder), outside)
    terminal.console.put(f"Namekeeper stands in the menu of your desktop now: {written}")
    return 0


def _show(link: str) -> None:
    import webbrowser

    webbrowser.open(link)
