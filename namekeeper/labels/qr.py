"""QR codes: the symbol of a payload, and its dark modules as PDF drawing operators."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from namekeeper.words.errors import InputError


@dataclass(frozen=True, slots=True)
class Symbol:
    """A QR symbol (ISO/IEC 18004, error correction M): rows of dark modules as runs (start, length)."""

    payload: str
    modules: int
    rows: tuple[tuple[tuple[int, int], ...], ...]


def symbol(payload: str) -> Symbol:
    """The symbol of a payload.

    :raises InputError: if the payload is longer than any symbol holds.
    """
    import segno

    try:
        code = segno.make_qr(payload, error="m", boost_error=False)
    except segno.DataOverflowError:
        what = f"the text of a QR code is too long: {len(payload)} characters"
        raise InputError(what, remedy="shorten the link pattern") from None
    rows = tuple(_runs(row) for row in code.matrix)
    return Symbol(payload, len(rows), rows)


def _runs(row: Sequence[int]) -> tuple[tuple[int, int], ...]:
    runs: list[tuple[int, int]] = []
    for at, dark in enumerate(row):
        if not dark:
            continue
        if runs and sum(runs[-1]) == at:
            runs[-1] = (runs[-1][0], runs[-1][1] + 1)
        else:
            runs.append((at, 1))
    return tuple(runs)


def operators(code: Symbol, left: float, bottom: float, module: float) -> bytes:
    """The symbol as one filled path; ``left`` and ``bottom`` of its dark part and the module in PDF points.

    One path for all modules: separate fills would leave hairlines between rows on screens.
    """
    top = bottom + code.modules * module
    parts = [
        f"{left + start * module:.4f} {top - (row + 1) * module:.4f} {length * module:.4f} {module:.4f} re"
        for row, runs in enumerate(code.rows)
        for start, length in runs
    ]
    return "\n".join(("q 0 g", *parts, "f Q")).encode("ascii")
