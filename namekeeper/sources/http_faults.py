"""Why a question got no answer: status codes and errors of the network libraries as reasons in plain words.

Known inside this package only, where it leaves as a ``Failure`` value; no reason ever holds an address.
"""

from __future__ import annotations

from datetime import UTC, datetime
from email.utils import parsedate_to_datetime
from types import MappingProxyType

from namekeeper.evidence.statements import FailureKind

_PASSING = frozenset({429, 502, 503, 504})
_PLAIN = MappingProxyType(
    {
        401: "it asks for a key",
        403: "it refuses this question",
        404: "it does not know this address",
        429: "too many questions in a short time",
    }
)
# 403 is also how the spider catalogue says that the day's questions are used up.
_REFUSALS = frozenset({401, 403, 429})


class UnansweredError(Exception):
    """A question without a usable answer.

    ``why`` is a full phrase for the keeper and never holds an address with its query, so no key can be in it.
    ``passing`` tells whether the same question may succeed in a moment; ``retry_after`` is in seconds; ``timed_out``
    tells that the service is there and did not answer in time.
    """

    def __init__(
        self,
        kind: FailureKind,
        why: str,
        *,
        passing: bool = False,
        retry_after: float | None = None,
        status: int | None = None,
        timed_out: bool = False,
    ) -> None:
        super().__init__(why)
        self.kind = kind
        self.why = why
        self.passing = passing
        self.retry_after = retry_after
        self.status = status
        self.timed_out = timed_out


def refused(status: int, retry_after: str | None) -> UnansweredError:
    """The fault for a status other than 200."""
    why = _PLAIN.get(status) or (
        "it has a fault of its own" if status >= 500 else "it does not understand the question"
    )
    kind = FailureKind.REFUSED if status in _REFUSALS else FailureKind.BAD_REPLY
    if status in (502, 503, 504):
        kind, why = FailureKind.UNREACHABLE, "it is out of service for the moment"
    return UnansweredError(
        kind, f"{why} (HTTP {status})", passing=status in _PASSING, retry_after=_seconds(retry_after), status=status
    )


def _seconds(retry_after: str | None) -> float | None:
    """``Retry-After`` (RFC 9110, 10.2.3) as seconds from now; None if absent or unreadable."""
    text = (retry_after or "").strip()
    if text.isascii() and text.isdecimal():
        return float(text[:9])
    try:
        then = parsedate_to_datetime(text)
    except (ValueError, TypeError, IndexError):
        return None
    aware = then if then.tzinfo else then.replace(tzinfo=UTC)
    return max(0.0, (aware - datetime.now(UTC)).total_seconds())


def unreachable(error: Exception) -> UnansweredError:
    """The fault for an error of ``requests``, ``urllib3`` or the system."""
    import requests
    import urllib3

    causes = tuple(_causes(error))
    table: tuple[tuple[type[BaseException], str, bool], ...] = (
        (urllib3.exceptions.NameResolutionError, "its host name cannot be resolved (no network?)", False),
        (requests.exceptions.SSLError, "its certificate is not valid: somebody may stand in between", False),
        (urllib3.exceptions.SSLError, "its certificate is not valid: somebody may stand in between", False),
        (requests.exceptions.ProxyError, "the proxy of this network does not let the question through", False),
        (ConnectionRefusedError, "it refuses the connection", False),
        # Also a kind of timeout by its class, so it is looked for first.
        (urllib3.exceptions.NewConnectionError, "it cannot be reached (no network?)", False),
        (requests.Timeout, "it did not answer in time", True),
        (urllib3.exceptions.TimeoutError, "it did not answer in time", True),
    )
    for kind, why, passing in table:
        if any(isinstance(cause, kind) for cause in causes):
            timed_out = kind in (requests.Timeout, urllib3.exceptions.TimeoutError)
            return UnansweredError(FailureKind.UNREACHABLE, why, passing=passing, timed_out=timed_out)
    return UnansweredError(FailureKind.UNREACHABLE, "the connection broke off")


def _causes(error: BaseException) -> list[BaseException]:
    """The error, what it wraps and what came before it."""
    found: list[BaseException] = []
    waiting: list[object] = [error]
    while waiting and len(found) < 20:
        cause = waiting.pop()
        if isinstance(cause, BaseException) and not any(cause is seen for seen in found):
            found.append(cause)
            waiting += [cause.__cause__, cause.__context__, getattr(cause, "reason", None), *cause.args]
    return found
