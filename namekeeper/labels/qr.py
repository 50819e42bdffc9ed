"""QR codes: the symbol of a payload, where it stands on a page, and its dark modules as PDF drawing operators."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from namekeeper.labels.drawing import Square, Symbol
from namekeeper.labels.fitted import QUIET
from namekeeper.labels.layout import PT
from namekeeper.labels.pages import Correction, Placed
from namekeeper.labels.sheets import StickerSheet
from namekeeper.words.errors import InputError

_MASK = 2


def symbol(payload: str) -> Symbol:
    """The symbol of a payload.

    The mask is always the same: choosing the best of eight is most of the work of making a symbol, and is meant for
    readers worse than any in use. A reader takes the mask from the symbol (ISO/IEC 18004, 7.9).

    :raises InputError: if the payload is longer than any symbol holds.
    """
    import segno

    try:
        code = segno.make_qr(payload, error="m", boost_error=False, mask=_MASK)
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


def squares(
    placed: Sequence[Placed],
    sheet: StickerSheet,
    pads: tuple[float, float],
    correction: Correction,
    symbols: Mapping[str, Symbol],
) -> tuple[Square | None, ...]:
    """Where the QR code of each label stands: at the lower right, its dark modules ending where the text would."""
    found: list[Square | None] = []
    for one in placed:
        fitted = one.fitted
        if not fitted.square:
            found.append(None)
            continue
        quiet = QUIET * fitted.module
        left, top = correction.apply(sheet.corner(one.place))
        inset_x, inset_y = (max(pad, quiet) for pad in pads)
        side = fitted.square - 2 * quiet
        x = float(left + sheet.width) - inset_x - side
        y = float(top + sheet.height) - inset_y - side
        found.append(Square(one.page, x, y, fitted.module, symbols[fitted.content.square]))
    return tuple(found)


def square_operators(square: Square, page_height: float) -> bytes:
    """The code as drawing operators of a page of that height in PDF points."""
    top = page_height - square.top / PT
    return _operators(square.symbol, square.left / PT, top, square.module / PT).encode("ascii")


def _operators(code: Symbol, left: float, top: float, module: float) -> str:
    """The symbol as one filled path; left and top of its dark part and the module in PDF points, from the lower left.

    Counted in whole modules under a matrix of its own, which packs well. One path for all modules: separate fills would
    leave hairlines between rows on screens.
    """
    return f"q 0 g {module:.6f} 0 0 {-module:.6f} {left:.4f} {top:.4f} cm\n{code.path}f Q"
