"""Why a question got no answer; known inside this package only, where it leaves as a ``Failure`` value."""

from __future__ import annotations

from namekeeper.evidence.statements import FailureKind


class UnansweredError(Exception):
    """A question without a usable answer.

    ``why`` is a full phrase for the keeper and never holds an address with its query, so no key can be in it.
    ``passing`` tells whether the same question may succeed in a moment; ``retry_after`` is in seconds.
    """

    def __init__(
        self,
        kind: FailureKind,
        why: str,
        *,
        passing: bool = False,
        retry_after: float | None = None,
        status: int | None = None,
    ) -> None:
        super().__init__(why)
        self.kind = kind
        self.why = why
        self.passing = passing
        self.retry_after = retry_after
        self.status = status
