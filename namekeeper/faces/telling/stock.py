"""What a collection held on a day."""

from __future__ import annotations

from collections.abc import Iterator

from namekeeper.faces.telling.documents import problem_rows
from namekeeper.faces.telling.parts import BLANK, Folded, Grid, Part, counted
from namekeeper.tasks.stock import Stock, StockRow

_UNNAMED = "without a name"


def stock_document(stock: Stock) -> dict[str, object]:
    """The JSON of ``collection stock`` (contract section 5)."""
    return {
        "on": stock.on.isoformat(),
        "species": [_row(row) for row in stock.rows],
        "count": stock.count,
        "problems": problem_rows(stock.problems),
    }


def _row(row: StockRow) -> dict[str, object]:
    return {
        "name": row.name,
        "then": row.then,
        "animals": [one.id for one in row.specimens],
        "count": row.count,
        "sex": _sexes(row),
        "uncertain": list(row.unsure),
    }


def _sexes(row: StockRow) -> str:
    return ".".join(map(str, row.sexes))


def stock_parts(stock: Stock) -> Iterator[Part]:
    """Species with their animals, and what is not certain of it."""
    rows = [
        (row.name or _UNNAMED, _then(row), ", ".join(one.id for one in row.specimens), str(row.count), _sexes(row))
        for row in stock.rows
    ]
    yield Grid(("name now", "name then", "labels", "animals", "m.f.unsexed"), rows)
    yield BLANK
    held = f"{counted(stock.count, 'animal')} under {counted(stock.labels, 'label')}"
    species = counted(sum(row.name is not None for row in stock.rows), "name")
    yield Folded(f"On {stock.on}: {held}, {species}.")
    if stock.past:
        yield Folded("How many there are under a label is what its file says now; earlier counts are not kept.")
    unsure = [identifier for row in stock.rows for identifier in row.unsure]
    if unsure:
        yield Folded(f"Perhaps not there that day, since the dates do not say: {', '.join(unsure)}.")


def _then(row: StockRow) -> str:
    return "" if row.then == row.name else row.then or _UNNAMED


def stock_written(stock: Stock, file: str) -> str:
    """Where the table was written."""
    return f"{counted(stock.count, 'animal')} under {counted(stock.labels, 'label')} on {stock.on}: {file}"
