"""``namekeeper demo``: the whole job once, without a network, on a copy of the sample collection."""

from __future__ import annotations

import argparse
from pathlib import Path

from namekeeper.faces.cli.arguments import json_option
from namekeeper.faces.console import Console
from namekeeper.faces.telling import demo as told
from namekeeper.faces.telling.check import trouble
from namekeeper.faces.telling.labels import not_remembered
from namekeeper.faces.telling.pages import check_page
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside
from namekeeper.tasks.demo import DEMO_FOLDER, Demo
from namekeeper.words.errors import MissingLibraryError


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("-o", "--output", metavar="FOLDER", type=Path, help=f"where to write (else {DEMO_FOLDER})")
    json_option(parser)


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    # With --json the story goes to the talk stream, so that standard output is one document.
    err = terminal.console.err
    with Demo.begin(outside, args.output) as demo:
        beside = Terminal.of(err, err, terminal.stdin, outside.environ).console
        _tell(demo, beside if args.json else terminal.console, terminal.program)
        if args.json:
            terminal.console.json(told.demo_document(demo))
    return 0


def _tell(demo: Demo, console: Console, program: str) -> None:
    console.show(told.tags_told(demo, demo.read_tags()))
    report = demo.check()
    console.show(told.check_told(report))
    console.say_all(trouble(report))
    settled = demo.take_safe(report)
    console.show(told.taken_told(len(settled.changes)))
    taken = [change.specimen for change in settled.changes if change.written]
    console.show(told.history_told(demo.history(taken[0])))
    demo.write_report(check_page(demo.check(), offline=True))
    try:
        printed = demo.print_labels(taken)
    except MissingLibraryError as error:
        console.say(f"No labels: {error}")
    else:
        console.say_all(map(not_remembered, printed.unremembered))
    console.show(told.end_told(demo, program))
