"""What a job says on its way: one sentence a kind."""

from __future__ import annotations

from types import MappingProxyType

from namekeeper.outside import Remark, RemarkKind

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
