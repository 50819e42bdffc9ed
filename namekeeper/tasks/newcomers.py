"""New animals by their tags, each with the name that the keeper chose for it: added, then settled as any other tag."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from namekeeper.records.specimen import Collection
from namekeeper.sources.lists.registry import open_lists
from namekeeper.tasks.arrivals import Arrival, add_specimens
from namekeeper.tasks.check import check_opened
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.settle_collection import Settled, SettleDesk
from namekeeper.tasks.settle_orders import Orders
from namekeeper.tasks.watch import KEPT_ONLY
from namekeeper.words.errors import InputError
from namekeeper.words.parsing import parse_typed_name

_MOST = 1000


@dataclass(frozen=True, slots=True)
class Newcomer:
    """Animals that come under one tag; ``name`` is empty where only the tag is known."""

    tag: str
    name: str = ""
    count: int = 1


@dataclass(frozen=True, slots=True)
class Welcomed:
    """The ids of the new animals in the order of their tags, and what came of naming them (None: none was named)."""

    specimens: tuple[str, ...]
    settled: Settled | None = None


def welcome(desk: CollectionDesk, newcomers: Sequence[Newcomer]) -> Welcomed:
    """Add animals and give them the names chosen; an animal whose name cannot be written stays there with its tag.

    :raises InputError: if there is none, one has no tag or a name that cannot be one, or there are too many; then none
        is added.
    """
    wanted = [one for one in newcomers if one.count]
    if not wanted:
        raise InputError("no animal was chosen", remedy="say how many there are of a tag")
    if sum(one.count for one in wanted) > _MOST:
        what = f"these are more than {_MOST} animals at once"
        raise InputError(what, remedy="add them in parts, or bring them in as a table")
    for one in wanted:
        if not one.tag.strip():
            raise InputError("an animal has no tag", remedy="write what the seller wrote")
        if one.name:
            parse_typed_name(one.name)
    names: dict[str, str] = {}
    added: list[str] = []
    for one in wanted:
        ids = add_specimens(desk, Arrival(tag=one.tag.strip(), count=one.count)).changed.specimens
        added += ids
        names |= dict.fromkeys(ids, one.name) if one.name else {}
    return Welcomed(tuple(added), _named(desk, names) if names else None)


def _named(desk: CollectionDesk, names: dict[str, str]) -> Settled:
    collection: Collection = desk.load()
    with open_lists(desk.outside.places, desk.outside.notice) as lists:
        report = check_opened(desk, collection, lists, KEPT_ONLY, tuple(names))
        return SettleDesk(desk, collection, lists, report, KEPT_ONLY).settle(Orders(take=names), write=True)
