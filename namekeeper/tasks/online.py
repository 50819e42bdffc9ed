"""Ask the open name services for a job: which, how fresh an answer must be, and who could not be asked."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import timedelta

from namekeeper.evidence.interfaces import NameCard
from namekeeper.evidence.statements import CommonName, Failure, Reply
from namekeeper.outside import Outside
from namekeeper.records.specimen import Settings
from namekeeper.tasks.desk import local_lists
from namekeeper.tasks.aka import MoreCards
from namekeeper.tasks.judge_labels import AskOnline


@dataclass(frozen=True, slots=True)
class ServiceWishes:
    """What the keeper wishes of the services: none at all, these keys only, new answers, answers of so many days."""

    keys: tuple[str, ...] = ()
    offline: bool = False
    refresh: bool = False
    max_age: int | None = None


def ask_online(outside: Outside, settings: Settings, wishes: ServiceWishes) -> AskOnline | None:
    """A function that asks the chosen services; None where nothing beyond this machine's lists can answer.

    :raises InputError: for an unknown service or an unsafe address.
    """
    if _nobody(outside, wishes):
        return None
    from namekeeper.sources.freshness import Freshness
    from namekeeper.sources.services.registry import open_services
    from namekeeper.sources.services.spidercatalog_replies import LSID_PREFIX
    from namekeeper.tasks.ask_services import ask_services
    from namekeeper.tasks.identifiers import ListedIdentifiers

    max_age = None if wishes.max_age is None else timedelta(days=wishes.max_age)
    wish = Freshness(wishes.offline, wishes.refresh, max_age)
    services = open_services(
        wishes.keys,
        settings,
        outside.places,
        outside.environ,
        outside.notice,
        outside.clock,
        wish=wish,
        identifier_of=ListedIdentifiers(lambda: local_lists(outside), LSID_PREFIX),
    )

    def ask(names: Sequence[str]) -> Mapping[str, tuple[Reply, ...]]:
        with outside.progress("asking") as step:
            return ask_services(services, names, wish, step)

    return ask


def cards_online(outside: Outside, tell: Callable[[Failure], None]) -> MoreCards:
    """A function that asks every service that lists synonyms; ``tell`` hears of those that could not be asked."""
    from namekeeper.sources.services.registry import open_services
    from namekeeper.tasks.ask_services import ask_cards

    services = open_services((), Settings(), outside.places, outside.environ, outside.notice, outside.clock)

    def more(name: str) -> Sequence[NameCard]:
        answers = ask_cards(services, name)
        for failure in answers.failures:
            tell(failure)
        return answers.cards

    return more


def _nobody(outside: Outside, wishes: ServiceWishes) -> bool:
    """Whether no service may be asked and none has ever answered: then opening them would only cost time."""
    return wishes.offline and not (outside.places.cache / "services").is_dir()


@dataclass(slots=True)
class TagNamesOnline:
    """Interim."""

    outside: Outside
    wishes: ServiceWishes
    failures: dict[str, Failure] = field(default_factory=dict)

    def common(self, words: str) -> Sequence[CommonName] | None:
        return ()

    def scientific(self, names: Sequence[str]) -> Mapping[str, Sequence[Reply]]:
        return {}
