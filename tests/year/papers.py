"""What a keeper has when the year begins: old tags in six languages, three tables. Invented; the species are real."""

from __future__ import annotations

import io
from datetime import date
from types import MappingProxyType
from typing import Any

#: Tags as they were typed, and what of each stands in the animal's file beside the tag.
TAGS = MappingProxyType(
    {
        "GBB 0.1 4cm £30": {"sex": "0.1.0", "size": "4cm", "price": "£30"},
        "Mex red knee (B. smithi) 0.0.1 2cm": {"sex": "0.0.1", "size": "2cm"},
        "Chromatopelma cyaneopubescens 1.0": {"sex": "1.0.0"},
        "Brachypelma vagans adult female": {"sex": "0.1.0", "stage": "adult"},
        "Poecilotheria metallica 0.1 5-6cm BL CB": {"sex": "0.1.0", "size": "5-6cm BL"},
        "Mastigoproctus giganteus": {},
        "Rote Mexiko Vogelspinne 0,1 6cm KL": {"sex": "0.1.0", "size": "6cm KL"},
        "Grammostola rosea Weibchen 45 €": {"sex": "0.1.0", "price": "45 €"},
        "Avicularia avicularia Spiderling NZ": {"stage": "spiderling"},
        "Lasiodora parahybana 1,0 adult": {"sex": "1.0.0", "stage": "adult"},
        "Heterometrus spinifer 0.0.2": {"sex": "0.0.2"},
        "tarántula pollito hembra 5 cm": {"sex": "0.1.0", "size": "5 cm"},
        "Tliltocatl albopilosus macho": {"sex": "1.0.0"},
        "Phidippus regius hembra 12 EUR": {"sex": "0.1.0", "price": "12 EUR"},
        "Brachypelma hamorii juvenil": {"stage": "juvenile"},
        "Theraphosa blondi femelle": {"sex": "0.1.0"},
        "Caribena versicolor mâle 4 cm": {"sex": "1.0.0", "size": "4 cm"},
        "Psalmopoeus irminia 0.0.1 L3": {"sex": "0.0.1", "stage": "L3"},
        "Pterinochilus murinus samica": {"sex": "0.1.0"},
        "Nhandu chromatus samiec 60 zł": {"sex": "1.0.0", "price": "60 zł"},
        "Acanthoscurria geniculata L4": {"stage": "L4"},
        "Monocentropus balfouri samice": {"sex": "0.1.0"},
        "Ceratogyrus darlingi samec 200 Kč": {"sex": "1.0.0", "price": "200 Kč"},
        "Hymenopus coronatus L5": {"stage": "L5"},
        "Archispirostreptus gigas 1.1": {"sex": "1.1.0"},
    }
)


def english_workbook() -> bytes:
    """A workbook: a title over the header, an empty row, a total, a cell merged over two rows, a second sheet."""
    from openpyxl import Workbook

    book = Workbook()
    sheet: Any = book.active
    sheet.title = "Spiders"
    sheet.append(["My spiders, spring"])
    sheet.append(["No.", "Species (as sold)", "Sex", "Bought", "Seller", "Mood"])
    sheet.append(["S1", "Brachypelma vagans", "f", date(2019, 5, 3), "a fair", "shy"])
    sheet.append(["S2", "Avicularia metallica", "m", date(2018, 3, 1), None, "calm"])
    sheet.append([None] * 6)
    sheet.append(["S3", "Haplopelma lividum", "?", date(2017, 1, 9), "a friend", "fast"])
    sheet.append(["Total", None, None, None, None, 3])
    sheet.merge_cells("E3:E4")
    book.create_sheet("Feeding").append(["date", "what"])
    target = io.BytesIO()
    book.save(target)
    return target.getvalue()


GERMAN = (
    "Nr.;Tier;Geschl.;gekauft am;Größe;Standort\n"
    "D1;Vogelspinne GBB 45 €;w;12.03.2020;5 cm;Regal 2\n"
    "D2;Mastigoproctus giganteus;m;3/2015;;Regal 2\n"
    "D3;Pandinus imperator;1,1;2015;12 cm;Regal 3\n"
)
POLISH = (
    "nr\tgatunek\tpłeć\tdata zakupu\tuwagi\n"
    "P1\tBrachypelma albopilosum\tsamica\t12 marca 2016\tje\n"
    "P2\tPhormictopus cancerides\tsamiec\t03/04/2023\t\n"
)


def german_table() -> bytes:
    """With semicolons, as a spreadsheet of that language writes it."""
    return GERMAN.encode("cp1252")


def polish_table() -> bytes:
    """With tabs, and a date of which nobody can tell day and month."""
    return POLISH.encode()
