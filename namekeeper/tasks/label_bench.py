"""The keeper's workbench for labels: sheets, templates and type at hand, and the fitting of one label after another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from namekeeper import resources
from namekeeper.labels.content import LabelContent
from namekeeper.labels.fit import Fitter
from namekeeper.labels.fitted import Fitted, Misfit, Room
from namekeeper.labels.fonts import Measure, font_files
from namekeeper.labels.glyphs import unprintable
from namekeeper.labels.layout import smallest_size
from namekeeper.labels.qr import Symbol, symbol
from namekeeper.labels.settings import LabelSettings, label_settings
from namekeeper.labels.sheets import StickerSheet, shipped_sheets
from namekeeper.labels.templates import LabelTemplate, load_template, template_folders
from namekeeper.labels.text import Face
from namekeeper.records.specimen import Collection

OWN_TEMPLATES = "label_templates"


@dataclass(frozen=True, slots=True)
class Workshop:
    """Sheets, templates and type, loaded once."""

    settings: LabelSettings
    sheets: Mapping[str, StickerSheet]
    folders: Mapping[str, Path]
    fonts: Mapping[Face, Path]
    measure: Measure

    def template(self, key: str) -> LabelTemplate:
        return load_template(key, self.folders, smallest_size(self.measure))


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
        self._fitter = Fitter(template.layout, _room(sheet, template), workshop.measure)
        self.symbols: dict[str, Symbol] = {}

    def fit(self, content: LabelContent) -> Fitted | Misfit:
        fault = unprintable(content, self._template.layout, self._workshop.measure)
        if fault:
            return Misfit(content, fault)
        modules = 0
        if content.square and self._template.layout.square:
            code = self.symbols.setdefault(content.square, symbol(content.square))
            modules = code.modules
        found = self._fitter.fit(content, modules)
        if isinstance(found, Misfit):
            return Misfit(content, f"{found.why} ({self._sheet.key}); {self._larger(content, modules)}")
        return found

    def _larger(self, content: LabelContent, modules: int) -> str:
        """The smallest label that would do, of all sheets known."""
        paper = self._sheet.paper
        others = sorted(
            self._workshop.sheets.values(), key=lambda one: (one.width * one.height, one.paper != paper, one.key)
        )
        for sheet in others:
            fitter = Fitter(self._template.layout, _room(sheet, self._template), self._workshop.measure)
            if isinstance(fitter.fit(content, modules), Fitted):
                return f"the smallest sheet that would do is {sheet.key}"
        return "no sheet known is large enough"


def pads_of(sheet: StickerSheet, template: LabelTemplate) -> tuple[Fraction, Fraction]:
    return sheet.inset(Fraction(template.layout.padding).limit_denominator(1000))


def _room(sheet: StickerSheet, template: LabelTemplate) -> Room:
    pad_x, pad_y = pads_of(sheet, template)
    return Room(float(sheet.width - 2 * pad_x), float(sheet.height - 2 * pad_y), float(pad_x), float(pad_y))
