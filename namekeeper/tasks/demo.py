"""The whole job once, without a network, on a copy of the sample collection."""

from __future__ import annotations

import shutil
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from namekeeper import resources
from namekeeper.evidence.interfaces import NameList
from namekeeper.outside import Outside, Work
from namekeeper.sources.lists.registry import open_lists
from namekeeper.tasks.check import Report, check_collection
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.history import SpecimenHistory, histories
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.labels import LabelDesk, Printed, PrintTo
from namekeeper.tasks.lookup import Looked, look_up
from namekeeper.tasks.online import ServiceWishes
from namekeeper.tasks.output import Output, OutputKind
from namekeeper.tasks.settle_collection import Settled, SettleDesk
from namekeeper.tasks.settle_orders import Orders
from namekeeper.words.errors import FileError, Place

TAGS = (
    "Mex red knee (B. smithi) 0.1 5cm",
    "GBB 0.1 4cm",
    "Haplopelma lividum ex-wc",
    "Poecilotheria regalis/ornata?",
    "Chromatopelma cyanopubescens 0.0.1",
)
DEMO_FOLDER = "namekeeper-demo"
_REPORT, _LABELS = "report.html", "labels.pdf"
_MOST_FOLDERS = 1000


@dataclass(frozen=True, slots=True)
class Demo:
    """The sample collection in a folder of its own, and the steps of the job; each returns what it came to."""

    desk: CollectionDesk
    lists: Sequence[NameList]

    @classmethod
    @contextmanager
    def begin(cls, outside: Outside, wanted: Path | None = None) -> Iterator[Demo]:
        """Copy the sample collection to ``wanted``, or to the first free name with a number behind it; a context.

        :raises FileError: if it cannot be written.
        """
        desk = CollectionDesk(new_sample(outside.folder / (wanted or DEMO_FOLDER)), outside)
        with open_lists(outside.places, outside.notice) as lists:
            yield cls(desk, lists)

    @property
    def shown(self) -> str:
        """The folder as the keeper would type it."""
        folder, here = self.desk.folder, self.desk.outside.folder
        return str(folder.relative_to(here) if folder.is_relative_to(here) else folder)

    @property
    def files(self) -> dict[str, Path]:
        """What was written beside the collection, by what it is: labels, report."""
        known = {"labels": self.desk.folder / _LABELS, "report": self.desk.folder / _REPORT}
        return {key: path for key, path in known.items() if path.exists()}

    def read_tags(self) -> tuple[Looked, ...]:
        return tuple(look_up(TAGS, self.lists))

    def check(self) -> Report:
        with self.desk.outside.progress(Work.CHECKING) as step:
            return check_collection(self.desk.load(), self.lists, self.desk.today, step=step)

    def take_safe(self, report: Report) -> Settled:
        """Write the proposals that need no judgement."""
        desk = SettleDesk(self.desk, self.desk.load(), self.lists, report, ServiceWishes(offline=True))
        return desk.settle(Orders(take_safe=True, note="taken by the demo"), write=True)

    def history(self, specimen: str) -> SpecimenHistory:
        (history,) = histories(self.desk.load(), self.desk.today, only=(specimen,))
        return history

    def write_report(self, page: str) -> None:
        Output(self.desk.folder / _REPORT, OutputKind.REPORT, self.desk.outside).write(page)

    def print_labels(self, specimens: Sequence[str]) -> Printed:
        """Labels for these animals, remembered as printed; no sheet lies in the keeper's drawer after it.

        :raises MissingLibraryError: if the type of the labels is missing.
        """
        desk = LabelDesk.open(self.desk)
        plan = desk.plan(desk.workshop(), Choices(only=tuple(specimens)))
        return desk.print(plan, PrintTo(self.desk.folder / _LABELS, record=True, drawer=False))


def new_sample(wanted: Path) -> Path:
    """Copy the sample collection to ``wanted``, or to the first free name with a number behind it.

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
