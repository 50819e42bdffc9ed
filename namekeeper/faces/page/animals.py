"""Animals: the collection in rows, found, filtered and ordered; all of that stands in the address."""

from __future__ import annotations

from enum import StrEnum
from typing import TypeVar

from flask import Blueprint, render_template, request

from namekeeper.faces.page.keeping import keeping
from namekeeper.faces.telling import rows as told
from namekeeper.tasks.overview import AnimalOrder, Show, counts, select

place = Blueprint("animals", __name__)
ON_A_PAGE = 50
_Word = TypeVar("_Word", bound=StrEnum)


@place.get("/animals")
def all_animals() -> str:
    """One page of the animals that are meant."""
    view = keeping().view()
    show, order = _chosen(Show, "show", Show.ALL), _chosen(AnimalOrder, "order", AnimalOrder.WAITING)
    query = request.args.get("q", "").strip()
    found = select(view, show, order, query)
    pages = max(1, -(-len(found) // ON_A_PAGE))
    page = min(max(_number("page"), 1), pages)
    first = (page - 1) * ON_A_PAGE
    return render_template(
        "animals.html",
        view=view,
        counts=counts(view),
        found=found,
        rows=found[first : first + ON_A_PAGE],
        first=first,
        page=page,
        pages=pages,
        show=show,
        order=order,
        query=query,
        told=told,
        labels=view.labels,
    )


def _chosen(kind: type[_Word], field: str, default: _Word) -> _Word:
    """The word in the address; one that we do not know is as none."""
    try:
        return kind(request.args.get(field, default))
    except ValueError:
        return default


def _number(field: str) -> int:
    text = request.args.get(field, "1")
    return int(text) if text.isascii() and text.isdigit() and len(text) < 7 else 1
