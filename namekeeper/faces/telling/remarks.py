"""What a job says on its way, one sentence a kind; and where it was stopped, how far it came and what is left."""

from __future__ import annotations

from types import MappingProxyType

from namekeeper.outside import Remark, RemarkKind, StoppedError, Work

#: ``{0}`` stands for what the remark is about.
_SENTENCES = MappingProxyType(
    {
        # GBIF (API usage page) and Wikimedia (user-agent policy, T400119) say so of clients that lead to nobody.
        RemarkKind.NOBODY_TO_REACH: (
            "Questions to the open name services go out without an address at which anybody could be reached. Some "
            "services slow down or block such clients without a word. To give yours, set "
            "{0}=you@example.org in the environment, or for the checks of one collection 'contact' "
            "below 'services' in its collection.yaml."
        ),
        RemarkKind.COMMON_NAMES_ONLY: "{0} knows common names only and is not asked here",
        RemarkKind.BEING_WRITTEN: "{0}; what it has not written yet is not in here",
        RemarkKind.NOT_KEPT_AS_OURS: "it is not remembered that this file is ours, and --replace is needed then: {0}",
    }
)


def remark_line(said: str | Remark) -> str:
    """One line; what a file or an error says stands as it is."""
    return said if isinstance(said, str) else _SENTENCES[said.kind].format(*said.about)


#: What became of the work of each kind that was stopped.
_LEFT = MappingProxyType(
    {
        Work.CHECKING: "nothing was changed",
        Work.ASKING: "every answer that came is kept, and the next run goes on from there",
        Work.READING: "nothing was written",
        Work.WRITING: "either all was written or nothing",
        Work.ADDING: "no list was changed",
        Work.FETCHING: "what came is kept, and the next fetch goes on from there",
        Work.COMPARING: "nothing was changed",
        Work.GATHERING: "no label was drawn",
        Work.FITTING: "no label was drawn",
        Work.DRAWING: "no file was written",
        Work.ANSWERING: "no file was written",
    }
)


def stopped_line(stop: KeyboardInterrupt) -> str:
    """One line for a job that the keeper stopped."""
    if not isinstance(stop, StoppedError) or stop.work is None:
        return "stopped; what was finished is kept"
    steps = f"{stop.done} of {stop.total}" if stop.total else str(stop.done)
    came = f" after {steps}" if stop.done else ""
    return f"stopped while {stop.work}{came}: {_LEFT[stop.work]}"
