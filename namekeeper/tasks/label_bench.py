"""The keeper's workbench for labels: sheets, templates and type at hand, and the fitting of one label after another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from namekeeper import resources
from namekeeper.labels.content import LabelContent
from namekeeper.labels.drawing import Symbol
from namekeeper.labels.family import as_family, each_largest
from namekeeper.labels.fit import Fitter, LabelDraft
from namekeeper.labels.fitted import Fitted, Misfit, Room
from namekeeper.labels.fonts import Measure, font_files
from namekeeper.labels.layout import Layout, smallest_size
from namekeeper.labels.qr import symbol
from namekeeper.labels.settings import LabelSettings, label_settings
from namekeeper.labels.sheet_list import choose_sheet, shipped_sheets
from namekeeper.labels.sheets import StickerSheet
from namekeeper.labels.templates import LabelTemplate, load_template, template_folders
from namekeeper.labels.text import Face
from namekeeper.records.specimen import Collection
from namekeeper.words.errors import NamekeeperError, Problem

OWN_TEMPLATES = "label_templates"


@dataclass(frozen=True, slots=True)
class Workshop:
    """Sheets, templates and type, loaded once."""

    settings: LabelSettings
    sheets: Mapping[str, StickerSheet]
    folders: Mapping[str, Path]
    fonts: Mapping[Face, Path]
    measure: Measure

    def sheet(self, key: str) -> StickerSheet:
        """The sheet of that key.

        :raises InputError: for an unknown one.
        """
        return choose_sheet(key, self.sheets)

    def template(self, key: str) -> LabelTemplate:
        """The template of that name.

        :raises InputError: for an unknown name, or a fault in the template.
        """
        return load_template(key, self.folders, smallest_size(self.measure))

    def templates(self) -> tuple[LabelTemplate, ...]:
        """All templates at hand that can be read, by name."""
        return tuple(one for one in self._tried() if isinstance(one, LabelTemplate))

    def faults(self) -> tuple[Problem, ...]:
        """What is wrong with the others."""
        return tuple(one for one in self._tried() if isinstance(one, Problem))

    def _tried(self) -> Iterator[LabelTemplate | Problem]:
        for key in sorted(self.folders):
            try:
                yield self.template(key)
            except NamekeeperError as fault:
                yield fault.as_problem()


def open_workshop(collection: Collection | None) -> Workshop:
    """Sheets, templates and type of a collection, or only what ships.

    :raises InputError: if the settings cannot be read.
    """
    shipped = resources.label_templates()
    settings = label_settings(collection.settings.raw if collection else {})
    own = Path(collection.folder) / OWN_TEMPLATES if collection else None
    fonts = font_files(shipped)
    sheets = {**shipped_sheets(shipped), **settings.sheets}
    return Workshop(settings, sheets, template_folders(shipped, own), fonts, Measure(fonts))


class FittingBench:
    """Fits contents into one template on one sheet."""

    def __init__(self, workshop: Workshop, template: LabelTemplate, sheet: StickerSheet) -> None:
        self._workshop = workshop
        self._template = template
        self._sheet = sheet
        self.layout = layout_on(sheet, template)
        self._fitter = self._fitter_on(sheet)
        self._by_size: list[tuple[StickerSheet, Fitter]] = []  # the smallest label first
        self.symbols: dict[str, Symbol] = {}

    def draft(self, content: LabelContent) -> LabelDraft | Misfit:
        """What stands on the label, before it is known how large its neighbours are."""
        drawable = self._fitter.drawable(content)
        if isinstance(drawable, Misfit):
            return drawable
        return self._fitter.draft(drawable, self._modules(drawable))

    def fit_all(self, drafts: Sequence[LabelDraft], *, alike: bool) -> tuple[Fitted, ...]:
        """The labels of a run: ``alike`` in sizes and places, or each as large as it can be."""
        if not alike:
            return each_largest(drafts)
        return as_family(drafts, self.layout, self._workshop.measure.drop)

    def larger(self, content: LabelContent) -> StickerSheet | None:
        """The smallest label that would do, of all sheets known; None if none is large enough."""
        modules = self._modules(content)
        if not self._by_size:
            paper, sheets = self._sheet.paper, self._workshop.sheets.values()
            others = sorted(sheets, key=lambda one: (one.width * one.height, one.paper != paper, one.key))
            self._by_size = [(one, self._fitter_on(one)) for one in others]
        return next((sheet for sheet, fitter in self._by_size if fitter.fits(content, modules)), None)

    def _fitter_on(self, sheet: StickerSheet) -> Fitter:
        layout = layout_on(sheet, self._template)
        return Fitter(layout, _room(sheet, layout), self._workshop.measure)

    def _modules(self, content: LabelContent) -> int:
        """How wide the QR code of a label is; 0 for none."""
        if not content.square or not self._template.layout.square:
            return 0
        return self.symbols.setdefault(content.square, symbol(content.square)).modules


def layout_on(sheet: StickerSheet, template: LabelTemplate) -> Layout:
    """The layout with type as large as labels of this sheet invite to."""
    return template.layout.grown(float(sheet.width), float(sheet.height))


def _room(sheet: StickerSheet, layout: Layout) -> Room:
    pad_x, pad_y = sheet.inset(*layout.pads)
    return Room(
        float(sheet.width - 2 * pad_x) - layout.indent, float(sheet.height - 2 * pad_y), float(pad_x), float(pad_y)
    )
