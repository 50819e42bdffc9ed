"""Python's cyclic collector while labels are made."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager


@contextmanager
def frugal_collection() -> Iterator[Callable[[], None]]:
    """The cyclic collector off while we work, since it walks the growing tree of boxes again and again.

    What it yields is called when a part is laid out: it frees what that part no longer needs, and puts the rest by so
    that it is not walked again.
    """
    was_on = gc.isenabled()
    gc.disable()

    def put_by() -> None:
        gc.collect()
        gc.freeze()

    try:
        yield put_by
    finally:
        gc.unfreeze()
        if was_on:
            gc.enable()
