"""``namekeeper demo``: the whole job once, without a network, on a copy of the sample collection."""

from __future__ import annotations

import argparse
import shutil
from dataclasses import dataclass
from pathlib import Path

from namekeeper import resources
from namekeeper.evidence.interfaces import NameList
from namekeeper.faces import check_report, labels_report, lookup_report
from namekeeper.faces.cli.context import Context
from namekeeper.faces.cli.history import show_history
from namekeeper.faces.console import Console
from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.judging.trust import Trust
from namekeeper.records.specimen import Collection
from namekeeper.tasks.check import Report, check_collection
from namekeeper.tasks.collection import CollectionDesk
from namekeeper.tasks.history import histories
from namekeeper.tasks.label_bench import open_workshop
from namekeeper.tasks.label_plan import Choices, plan_labels
from namekeeper.tasks.labels import PrintTo, print_labels
from namekeeper.tasks.lookup import look_up
from namekeeper.tasks.open_sources import local_lists
from namekeeper.tasks.settle import Orders, plan, write_plan
from namekeeper.words.errors import FileError, MissingLibraryError, Place

TAGS = (
    "Mex red knee (B. smithi) 0.1 5cm",
    "GBB 0.1 4cm",
    "Haplopelma lividum ex-wc",
    "Poecilotheria regalis/ornata?",
    "Chromatopelma cyanopubescens 0.0.1",
)
_FOLDER = "namekeeper-demo"
_MOST_FOLDERS = 1000


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("-o", "--output", metavar="FOLDER", type=Path, help=f"where to write; {_FOLDER} without")
    parser.add_argument("--json", action="store_true", help="one JSON document on standard output")


def run(args: argparse.Namespace, context: Context) -> int:
    folder = _new_folder(context.folder / (args.output or _FOLDER))
    # With --json the story goes to the talk stream, so that standard output is one document.
    console = Console.of(context.err, context.err) if args.json else context.console
    demo = _Demo(folder, context, console, local_lists(context.places, context.console.say))
    demo.tell()
    if args.json:
        context.console.json({"path": str(folder), "files": {key: str(path) for key, path in demo.files().items()}})
    return 0


def _new_folder(wanted: Path) -> Path:
    """A copy of the sample collection at ``wanted``, or at the first free name with a number behind it.

    :raises FileError: if it cannot be written.
    """
    for number in range(1, _MOST_FOLDERS):
        folder = wanted if number == 1 else wanted.with_name(f"{wanted.name}-{number}")
        try:
            folder.mkdir(parents=True)
        except FileExistsError:
            continue
        except OSError as error:
            what = f"the demo cannot be written here: {error.strerror}"
            raise FileError(what, remedy="give a folder with -o", place=Place(str(folder))) from error
        shutil.copytree(resources.sample_collection(), folder, dirs_exist_ok=True, copy_function=shutil.copyfile)
        return folder
    what = f"there are {_MOST_FOLDERS} demo folders already"
    raise FileError(what, remedy="remove the old ones, or give a folder with -o", place=Place(str(wanted)))


@dataclass(frozen=True, slots=True)
class _Demo:
    """One run of the story; every step prints what it did."""

    folder: Path
    context: Context
    console: Console
    lists: tuple[NameList, ...]

    @property
    def desk(self) -> CollectionDesk:
        return CollectionDesk(self.folder, self.context.places, self.context.clock, self.context.today)

    @property
    def shown(self) -> str:
        """The folder as the keeper would type it."""
        inside = self.folder.is_relative_to(self.context.folder)
        return str(self.folder.relative_to(self.context.folder) if inside else self.folder)

    def files(self) -> dict[str, Path]:
        known = {"labels": self.folder / "labels.pdf", "report": self.folder / "report.html"}
        return {key: path for key, path in known.items() if path.exists()}

    def tell(self) -> None:
        self.read_tags()
        before = self.check()
        self.console.heading(f"3. Checking {len(before.findings)} labels")
        check_report.show(before, self.console)
        taken = self.take_safe(before)
        self.console.heading(f"5. The history of {taken[0]}")
        (history,) = histories(self.desk.load(), self.context.today, only=(taken[0],))
        show_history(history, self.console)
        self.write_report()
        self.print_labels(taken)
        self.say_where()

    def read_tags(self) -> None:
        self.console.heading("1. Reading sellers' tags")
        lookup_report.show(list(look_up(TAGS, self.lists)), self.console)
        self.console.heading("2. A collection of our own")
        self.console.put_folded(f"The insect room of an invented nature house was copied to {self.shown}.")

    def check(self) -> Report:
        collection = self.desk.load()
        with self.console.progress("checking") as step:
            return check_collection(collection, self.lists, None, Trust(), self.context.today, step=step)

    def take_safe(self, report: Report) -> tuple[str, ...]:
        """Write the proposals that need no judgement; returns the ids."""
        collection: Collection = self.desk.load()
        orders = Orders(take_safe=True, note="taken by the demo")
        changes, _ = write_plan(self.desk, plan(collection, report.findings, orders, self.lists, self.context.today))
        self.console.heading(f"4. {len(changes)} changes that need no judgement were taken")
        self.console.put_folded(
            "The old names stay in each history, with the day and the paper. The rest waits for you."
        )
        return tuple(change.specimen for change in changes if change.written)

    def write_report(self) -> None:
        page = check_report.as_page(self.check(), "Insect room, Hollin Weir", offline=True)
        replace_whole(DiskFiles(), self.folder / "report.html", page.encode())

    def print_labels(self, taken: tuple[str, ...]) -> None:
        collection = self.desk.load()
        try:
            workshop = open_workshop(collection)
            sheet = plan_labels(collection, workshop, Choices(only=taken), self.lists, self.context.outside)
            problems = print_labels(sheet, collection, PrintTo(self.folder / "labels.pdf"), self.context.outside)
        except MissingLibraryError as error:
            self.console.say(f"No labels: {error}")
            return
        for problem in problems:
            self.console.say(labels_report.not_remembered(problem))

    def say_where(self) -> None:
        self.console.heading("6. What was written")
        titles = {"labels": "fresh labels for what changed", "report": "the report of the check"}
        rows = [(titles[key], f"{self.shown}/{path.name}") for key, path in self.files().items()]
        self.console.table(("what", "where"), [("the collection", self.shown), *rows])
        self.console.heading("What to try next")
        for line in (
            f"namekeeper check {self.shown} --offline",
            f"namekeeper settle {self.shown} --offline --write  # the rest, key by key",
            f"namekeeper history {self.shown} HW-011",
            'namekeeper lookup "T. albopilosum curly hair 0.0.3"',
            'namekeeper aka "Tliltocatl vagans"',
            "namekeeper collection new my-animals",
        ):
            self.console.put(f"  {line}")
