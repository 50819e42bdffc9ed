"""What a keeper's command asks of the open services: which of them, how fresh, and only where they are needed.

Nothing here opens a service, or loads what that takes, before the first question.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import timedelta
from typing import TYPE_CHECKING, NamedTuple, TypeVar

from namekeeper.evidence.interfaces import CommonNameSource, NameCard, NameList, NameSource
from namekeeper.evidence.statements import Answer, CommonName, Failure, FailureKind, Reply
from namekeeper.outside import Outside, Remark, RemarkKind, Work
from namekeeper.words.errors import InputError

if TYPE_CHECKING:
    from namekeeper.records.specimen import Settings
    from namekeeper.sources.kept_answers import Freshness
    from namekeeper.sources.services.service import Service
    from namekeeper.tasks.ask_services import NamesAtHand
    from namekeeper.tasks.judge_labels import AskOnline

_V = TypeVar("_V")
_HELD = 10_000
#: What sources beyond this machine have on a species of that canonical name.
MoreCards = Callable[[str], Sequence[NameCard]]


#: In place of the key of a service: none is asked.
NO_SERVICE = "none"


class ServiceWishes(NamedTuple):
    """``keys`` chooses services, none if it holds "none", as the collection says if empty.

    ``offline`` asks nobody, ``refresh`` asks again even where an answer is kept, ``max_age`` (days) where it is older.
    ``by_updates`` asks services that tell what they changed for that first.
    """

    keys: tuple[str, ...] = ()
    offline: bool = False
    refresh: bool = False
    max_age: int | None = None
    by_updates: bool = False


def ask_online(
    outside: Outside, settings: Settings, wishes: ServiceWishes, lists: Sequence[NameList] = ()
) -> AskOnline | None:
    """A function that asks the chosen services; None where nothing beyond this machine's lists can answer.

    ``lists`` tell services the authorship and the identifiers of names.

    :raises InputError: for an unknown service or an unsafe address.
    """
    if _nobody(outside, wishes):
        return None
    from namekeeper.tasks.ask_services import NamesAtHand, ask_services

    known = NamesAtHand(lists)
    services = _name_services(_opened(outside, settings, wishes, known), outside, wishes)

    def ask(names: Mapping[str, str]) -> Mapping[str, tuple[Reply, ...]]:
        known.labelled |= names
        with outside.progress(Work.ASKING) as step:
            return ask_services(services, names, step)

    return ask


def cards_online(outside: Outside, lists: Sequence[NameList], tell: Callable[[Failure], None]) -> MoreCards:
    """A function that asks every service that lists synonyms; ``tell`` hears of those that could not be asked.

    ``lists`` tell services the authorship and the identifiers of names.

    :raises InputError: for an unsafe address.
    """
    from namekeeper.tasks.ask_services import NamesAtHand, ask_cards

    opened = _opened(outside, None, ServiceWishes(), NamesAtHand(lists))
    services = _name_services(opened, outside, ServiceWishes())

    def more(name: str) -> Sequence[NameCard]:
        answers = ask_cards(services, name)
        for failure in answers.failures:
            tell(failure)
        return answers.cards

    return more


def _forget_oldest(held: dict[str, _V]) -> None:
    """Make room for the answer to one question; kept answers of the services have what was forgotten."""
    while len(held) >= _HELD:
        del held[next(iter(held))]


class TagNamesOnline:
    """Asks the services for what stands on tags and in no list, each name once; opens them at the first question.

    At most :data:`_HELD` answers of each kind are remembered, and those to one tag more.
    ``failures`` holds one for every service that was meant to be asked and could not be, by its key.
    """

    def __init__(self, outside: Outside, wishes: ServiceWishes, settings: Settings | None = None) -> None:
        self.outside = outside
        self.wishes = wishes
        self.settings = settings
        self.failures: dict[str, Failure] = {}
        self._commons: dict[str, tuple[CommonName, ...] | None] = {}
        self._names: dict[str, tuple[Reply, ...]] = {}
        self._for_commons: Sequence[CommonNameSource] | None = None
        self._for_names: Sequence[NameSource] | None = None

    def common(self, words: str) -> Sequence[CommonName] | None:
        """What the services say of a common name; None if nothing, and one that was meant to be asked failed."""
        if _nobody(self.outside, self.wishes):
            return ()
        if words not in self._commons:
            _forget_oldest(self._commons)
            self._commons[words] = self._ask_common(words)
        return self._commons[words]

    def scientific(self, names: Sequence[str]) -> Mapping[str, Sequence[Reply]]:
        """What the services say of scientific names."""
        if _nobody(self.outside, self.wishes):
            return {}
        from namekeeper.tasks.ask_services import ask_services

        if self._for_names is None:
            opened = _opened(self.outside, self.settings, self.wishes)
            self._for_names = _name_services(opened, self.outside, self.wishes)
        _forget_oldest(self._names)
        new = [name for name in names if name not in self._names]
        with self.outside.progress(Work.ASKING) as step:
            self._names |= ask_services(self._for_names, new, step) if new else {}
        replies = {name: self._names.get(name, ()) for name in names}
        self._note(reply for own in replies.values() for reply in own if not isinstance(reply, Answer))
        return replies

    def _ask_common(self, words: str) -> tuple[CommonName, ...] | None:
        from namekeeper.sources.services.service import CommonNameService
        from namekeeper.tasks.ask_services import ask_common_names

        if self._for_commons is None:
            opened = _opened(self.outside, self.settings, self.wishes)
            self._for_commons = [service for service in opened if isinstance(service, CommonNameService)]
        with self.outside.progress(Work.ASKING) as step:
            step(0, None, words)
            answers = ask_common_names(self._for_commons, words)
        failed = self._note(answers.failures)
        return None if failed and not answers.names else answers.names

    def _note(self, failures: Iterable[Failure]) -> bool:
        """Remember the first failure of a service; whether there was one that is not the keeper's own wish."""
        meant = [failure for failure in failures if failure.kind is not FailureKind.OFFLINE]
        for failure in meant:
            self.failures.setdefault(failure.edition.source, failure)
        return bool(meant)


def _nobody(outside: Outside, wishes: ServiceWishes) -> bool:
    """Whether no service may be asked and none has ever answered: then opening them would only cost time."""
    return wishes.offline and not (outside.places.cache / "services").is_dir()


def _opened(
    outside: Outside, settings: Settings | None, wishes: ServiceWishes, known: NamesAtHand | None = None
) -> tuple[Service, ...]:
    """The chosen services; ``settings`` None where no collection is at hand."""
    from namekeeper.records.specimen import Settings
    from namekeeper.sources.services.registry import contact_of, open_services
    from namekeeper.tasks.contact import tell_nobody_to_reach

    settings = settings or Settings()
    opened = open_services(
        outside, settings, wishes.keys, _freshness(wishes), known=known, by_updates=wishes.by_updates
    )
    if opened and not wishes.offline:
        tell_nobody_to_reach(outside, contact_of(settings, outside.environ))
    return opened


def _name_services(opened: Sequence[Service], outside: Outside, wishes: ServiceWishes) -> tuple[NameSource, ...]:
    """Those that are asked scientific names; the keeper hears of those that were chosen in vain."""
    from namekeeper.sources.services.service import NameService

    for service in opened:
        if wishes.keys and not isinstance(service, NameService):
            outside.notice(Remark(RemarkKind.COMMON_NAMES_ONLY, (service.profile.title,)))
    return tuple(service for service in opened if isinstance(service, NameService))


def _freshness(wishes: ServiceWishes) -> Freshness:
    from namekeeper.sources.kept_answers import Freshness

    try:
        max_age = None if wishes.max_age is None else timedelta(days=wishes.max_age)
    except OverflowError:
        what = f"{wishes.max_age} days are more than can be reckoned with"
        raise InputError(what, remedy="give --max-age in days, such as 30") from None
    return Freshness(wishes.offline, wishes.refresh, max_age)
