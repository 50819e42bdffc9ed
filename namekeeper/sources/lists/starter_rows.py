"""The starter list's tables (CSV a person edits) as rows for an index."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from functools import cached_property
from pathlib import Path
from typing import NamedTuple

from namekeeper.evidence.statements import ActKind, CautionWeight, Edition, NameStatus
from namekeeper.sources.lists.folding import common_words, folded
from namekeeper.sources.lists.incoming import ActRow, CommonRow, FactRow, UsageRow
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import FileError, Place
from namekeeper.words.spelling import ending_key, epithet_ending_key

#: What an act makes of the name it left.
_STATUS_AFTER = {
    "objective_synonymy": NameStatus.OBJECTIVE_SYNONYM,
    "replacement": NameStatus.REPLACED,
    "doubt": NameStatus.DOUBTFUL,
}
#: The columns of each table. A table may have more; without one of these the list would be read wrongly.
_COLUMNS = {
    "species.csv": "scientificName authorship originalGenus rank family status range source statusAsOf confidence note",
    "former.csv": "formerName authorship acceptedName act year source statusAsOf confidence note",
    "misuse.csv": "name authorship meant from cleared ended source confidence note",
    "divisions.csv": "name into kind since sunk source confidence note",
    "disputes.csv": "name targets source confidence note",
    "common.csv": "vernacularName language scientificName kind usual source confidence",
    "genera.csv": "genus family gender status source confidence note",
    "genera_moved.csv": "formerGenus genus scope year source confidence",
    "forms.csv": "form genus describedAs source confidence note",
    "cautions.csv": "taxon rank topic statement weight listedAs year source confidence",
    "taxa.csv": "taxon rank parent source confidence",
    "epithets.csv": "epithet class source confidence",
    "sources.csv": "key citation link",
}
_ACTS = frozenset(ActKind)
_WEIGHTS = frozenset(CautionWeight)
#: Facts by file: kind, the column they are found by, and how that is folded.
_FACTS = (
    ("misuse.csv", "misuse", "name"),
    ("divisions.csv", "division", "name"),
    ("disputes.csv", "dispute", "name"),
)


class _Source(NamedTuple):
    citation: str
    link: str


class StarterTables:
    """Reads a folder laid out as ``namekeeper/data/starter``.

    :raises FileError: from every member, for a table that is missing or lacks a column.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def edition(self) -> Edition:
        """What the list says of itself."""
        import yaml

        place = self._folder / "edition.yaml"
        try:
            said = yaml.load(place.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)  # noqa: S506 - BaseLoader makes only text
            return Edition(
                source=said["key"],
                title=said["title"],
                upstream=said["key"],
                edition=said["edition"],
                dated=PartialDate.parse(said["date"]),
                licence=said["licence"],
                citation=said.get("citation"),
            )
        except (OSError, KeyError, TypeError, ValueError, yaml.YAMLError) as error:
            raise _broken(place, str(error)) from error

    def usages(self) -> Iterator[UsageRow]:
        """Accepted and doubtful species, former names, genera, and the taxa above them."""
        for line, row in self._rows("species.csv"):
            yield self._usage(
                line, row, row["scientificName"], row["authorship"], rank=row["rank"], status=row["status"],
                original_genus=row["originalGenus"], range=row["range"], family=row["family"], remarks=row["note"],
                as_of=row["statusAsOf"], revised=self._revised_after(row["statusAsOf"], row["scientificName"]),
            )  # fmt: skip
        for line, row in self._rows("former.csv"):
            status = _STATUS_AFTER.get(row["act"], NameStatus.SYNONYM)
            yield self._usage(
                line, row, row["formerName"], row["authorship"], status=status,
                accepted_name=row["acceptedName"], remarks=row["note"], as_of=row["statusAsOf"],
                revised=self._revised_after(row["statusAsOf"], row["formerName"], row["acceptedName"]),
            )  # fmt: skip
        for line, row in self._rows("genera.csv"):
            yield from self._genus(line, row)
        for line, row in self._rows("taxa.csv"):
            yield self._usage(line, row, row["taxon"], "", rank=row["rank"], family=row["parent"])

    def acts(self) -> Iterator[ActRow]:
        """The act behind every former name."""
        for line, row in self._rows("former.csv"):
            if row["act"] not in _ACTS:
                raise _broken(self._folder / "former.csv", f"there is no act {row['act']!r}", line)
            if row["acceptedName"]:
                source = self._source(row)
                yield ActRow(
                    row["formerName"], row["acceptedName"], row["act"], row["year"], *source, row["confidence"]
                )

    def commons(self) -> Iterator[CommonRow]:
        """Common names, nicknames, trade abbreviations."""
        for line, row in self._rows("common.csv"):
            yield CommonRow(
                line, "", row["vernacularName"], row["language"], row["scientificName"], row["kind"],
                *self._source(row), row["confidence"], row["usual"] == "yes",
            )  # fmt: skip

    def facts(self) -> Iterator[FactRow]:
        """Misuses, divisions, disputes, trade forms, word classes, cautions, genera, moves of genera, higher taxa."""
        for file, kind, column in _FACTS:
            for line, row in self._rows(file):
                if kind == "division" and row["kind"] not in _ACTS:
                    raise _broken(self._folder / file, f"there is no division of kind {row['kind']!r}", line)
                yield self._fact(kind, ending_key(row[column]), row)
        for _line, row in self._rows("forms.csv"):
            yield self._fact("form", " ".join(sorted(common_words(row["form"]))), row)
        for _line, row in self._rows("epithets.csv"):
            yield self._fact("epithet", epithet_ending_key(row["epithet"]), row)
        for file, kind, column in (
            ("cautions.csv", "caution", "taxon"),
            ("genera.csv", "genus", "genus"),
            ("genera_moved.csv", "moved", "formerGenus"),
            ("taxa.csv", "taxon", "taxon"),
        ):
            for line, row in self._rows(file):
                if kind == "caution" and row["weight"] not in _WEIGHTS:
                    raise _broken(self._folder / file, f"there is no weight {row['weight']!r}", line)
                yield self._fact(kind, folded(row[column]), row)

    def _genus(self, line: int, row: Mapping[str, str]) -> Iterator[UsageRow]:
        """A former genus points to every genus its species went to."""
        moves = self._moves.get(row["genus"], []) if row["status"] == "former" else []
        whole = len(moves) == 1 and moves[0]["scope"] == "whole"
        status = "accepted" if row["status"] == "accepted" else "synonym" if whole else "ambiguous"
        for target in [move["genus"] for move in moves] or [""]:
            yield self._usage(
                line, row, row["genus"], "", rank="genus", status=status, family=row["family"],
                accepted_name=target, remarks=row["note"],
            )  # fmt: skip

    def _usage(self, line: int, row: Mapping[str, str], name: str, authorship: str, **fields: str) -> UsageRow:
        citation, link = self._source(row)
        family, order, class_, kingdom = self._higher(fields.pop("family", ""))
        return UsageRow(
            line=line, key="", name=name, authorship=authorship, family=family, order=order, class_=class_,
            kingdom=kingdom, citation=citation, link=link, confidence=row["confidence"], **fields,
        )  # fmt: skip

    def _revised_after(self, as_of: str, *names: str) -> str:
        """The year of the newest revision of the genera of ``names``, if the status was not followed to it."""
        newest = max(self._revisions.get(name.partition(" ")[0], "") for name in names)
        return newest if as_of and as_of < newest else ""

    def _fact(self, kind: str, key: str, row: Mapping[str, str]) -> FactRow:
        return FactRow(kind, key, dict(row), *self._source(row), row["confidence"])

    def _higher(self, taxon: str) -> tuple[str, str, str, str]:
        """Family, order, class and kingdom at or above ``taxon``."""
        found = dict.fromkeys(("family", "order", "class", "kingdom"), "")
        seen: set[str] = set()
        while taxon in self._taxa and taxon not in seen:
            seen.add(taxon)
            row = self._taxa[taxon]
            if row["rank"] in found:
                found[row["rank"]] = taxon
            taxon = row["parent"]
        return found["family"], found["order"], found["class"], found["kingdom"]

    def _source(self, row: Mapping[str, str]) -> _Source:
        keys = [key.strip() for key in row["source"].split(";") if key.strip()]
        known = [self._sources[key] for key in keys if key in self._sources]
        link = next((source["link"] for source in known if source["link"]), "")
        return _Source("; ".join(source["citation"] for source in known) or row["source"], link)

    @cached_property
    def _sources(self) -> dict[str, dict[str, str]]:
        return {row["key"]: row for _line, row in self._rows("sources.csv")}

    @cached_property
    def _taxa(self) -> dict[str, dict[str, str]]:
        return {row["taxon"]: row for _line, row in self._rows("taxa.csv")}

    @cached_property
    def _revisions(self) -> dict[str, str]:
        """The year of the newest act on each genus: species moved, sunk, revived or divided in or out of it."""
        newest: dict[str, str] = {}
        acts = [(row["year"], row["formerName"], row["acceptedName"]) for _line, row in self._rows("former.csv")]
        acts += [(row["since"], row["name"], row["name"]) for _line, row in self._rows("divisions.csv")]
        acts += [(row["year"], row["formerGenus"], row["genus"]) for _line, row in self._rows("genera_moved.csv")]
        for year, *names in acts:
            for name in names:
                genus = name.partition(" ")[0]
                newest[genus] = max(newest.get(genus, ""), year)
        return newest

    @cached_property
    def _moves(self) -> dict[str, list[dict[str, str]]]:
        moves: dict[str, list[dict[str, str]]] = {}
        for _line, row in self._rows("genera_moved.csv"):
            moves.setdefault(row["formerGenus"], []).append(row)
        return moves

    def _rows(self, file: str) -> Iterator[tuple[int, dict[str, str]]]:
        place = self._folder / file
        try:
            with place.open(encoding="utf-8", newline="") as lines:
                reader = csv.DictReader(lines, strict=True)
                missing = set(_COLUMNS[file].split()) - set(reader.fieldnames or ())
                if missing:
                    raise _broken(place, f"it lacks the columns {', '.join(sorted(missing))}", 1)
                for row in reader:
                    if None in row or None in row.values():
                        raise _broken(place, "a row has not as many cells as the header", reader.line_num)
                    yield reader.line_num, row
        except (OSError, UnicodeError, csv.Error) as error:
            raise _broken(place, str(error)) from error


def _broken(place: Path, why: str, line: int | None = None) -> FileError:
    return FileError(
        f"the starter list cannot be read: {why}", remedy="install namekeeper again", place=Place(str(place), line)
    )
