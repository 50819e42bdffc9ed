"""QR codes: the symbol of a payload, and its dark modules as PDF drawing operators."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from namekeeper.words.errors import InputError


@dataclass(frozen=True, slots=True)
class Symbol:
    """A QR symbol (ISO/IEC 18004, error correction M): its width in modules, and its dark modules as a PDF path."""

    payload: str
    modules: int
    path: str


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
    path = "".join(
        f"{start} {row} {end - start} 1 re\n"
        for row, modules in enumerate(code.matrix)
        for start, end in _runs(bytes(modules))
    )
    return Symbol(payload, len(code.matrix), path)


def _runs(row: bytes) -> Iterator[tuple[int, int]]:
    """Start and end of every run of dark modules."""
    end = 0
    while (start := row.find(1, end)) >= 0:
        end = row.find(0, start)
        end = len(row) if end < 0 else end
        yield start, end


def operators(code: Symbol, left: float, top: float, module: float) -> str:
    """The symbol as one filled path; left and top of its dark part and the module in PDF points, from the lower left.

    Counted in whole modules under a matrix of its own, which packs well. One path for all modules: separate fills would
    leave hairlines between rows on screens.
    """
    return f"q 0 g {module:.6f} 0 0 {-module:.6f} {left:.4f} {top:.4f} cm\n{code.path}f Q"
