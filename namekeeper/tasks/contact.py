"""Who asks the open services: whether anybody can be reached, and saying once what it means if nobody can."""

from __future__ import annotations

from namekeeper.files.memory import recall, remember
from namekeeper.outside import Outside, Remark, RemarkKind
from namekeeper.sources.http_limits import CONTACT_VARIABLE, HttpSettings, contact_in
from namekeeper.words.errors import FileError

NOBODY_TO_REACH = Remark(RemarkKind.NOBODY_TO_REACH, (CONTACT_VARIABLE,))


def somebody_to_reach(outside: Outside, contact: str = "") -> bool:
    """Whether services can reach the project, or the keeper by ``contact`` or the environment."""
    return HttpSettings(contact=contact or contact_in(outside.environ)).reachable


def tell_nobody_to_reach(outside: Outside, contact: str = "") -> None:
    """Say to a keeper whom nobody can reach what that means, once and never again on this machine."""
    if somebody_to_reach(outside, contact):
        return
    told = outside.places.state / "told-of-contact.json"
    try:
        if recall(told) is not None:
            return
        remember(told, {"version": 1, "told": outside.today.isoformat()})
    except FileError:
        pass  # then it is said again next time
    outside.notice(NOBODY_TO_REACH)
