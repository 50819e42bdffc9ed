"""Names asked of the services for a tag that the lists on this machine do not know."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from namekeeper.evidence.interfaces import CommonNameSource, NameSource
from namekeeper.evidence.statements import Answer, CommonName, Failure, FailureKind, Reply
from namekeeper.faces.cli.context import Context


@dataclass(slots=True)
class CommonNamesOnline:
    """Asks every service that knows common names, each name once; opens them at the first question."""

    context: Context
    offline: bool
    failures: dict[str, Failure] = field(default_factory=dict)
    _services: Sequence[CommonNameSource] | None = field(default=None, init=False)
    _answers: dict[str, tuple[CommonName, ...] | None] = field(default_factory=dict, init=False)

    def __call__(self, words: str) -> Sequence[CommonName] | None:
        if _nobody(self.context, self.offline):
            return ()
        if words not in self._answers:
            self._answers[words] = self._ask(words)
        return self._answers[words]

    @property
    def failed(self) -> bool:
        """Whether a service that was meant to be asked could not be."""
        return bool(self.failures)

    def tell(self) -> None:
        """One line for each service that could not be asked."""
        for failure in self.failures.values():
            self.context.console.say(f"{failure.edition.title} could not be asked: {failure.why}")

    def _ask(self, words: str) -> tuple[CommonName, ...] | None:
        """What the services say; None if they say nothing and one that was meant to be asked failed."""
        from namekeeper.tasks.ask_services import ask_common_names

        with self.context.console.progress("asking services") as step:
            step(0, None, words)
            answers = ask_common_names(self._opened(), words)
        failures = [failure for failure in answers.failures if failure.kind is not FailureKind.OFFLINE]
        for failure in failures:
            self.failures.setdefault(failure.edition.source, failure)
        return None if failures and not answers.names else answers.names

    def _opened(self) -> Sequence[CommonNameSource]:
        from namekeeper.records.specimen import Settings
        from namekeeper.sources.freshness import Freshness
        from namekeeper.sources.services.registry import common_name_services

        if self._services is None:
            context = self.context
            wish = Freshness(offline=self.offline)
            self._services = common_name_services(
                (), Settings(), context.places, context.environ, context.console.say, context.clock, wish=wish
            )
        return self._services


@dataclass(slots=True)
class ScientificNamesOnline:
    """Asks every service that knows scientific names; opens them at the first question."""

    context: Context
    offline: bool
    failures: dict[str, Failure] = field(default_factory=dict)
    _services: Sequence[NameSource] | None = field(default=None, init=False)
    _answers: dict[str, tuple[Reply, ...]] = field(default_factory=dict, init=False)

    def __call__(self, names: Sequence[str]) -> Mapping[str, Sequence[Reply]]:
        if _nobody(self.context, self.offline):
            return {}
        from namekeeper.tasks.ask_services import ask_services

        new = [name for name in names if name not in self._answers]
        with self.context.console.progress("asking services") as step:
            self._answers |= ask_services(self._opened(), new, progress=step) if new else {}
        replies = {name: self._answers.get(name, ()) for name in names}
        for reply in (reply for own in replies.values() for reply in own):
            if not isinstance(reply, Answer) and reply.kind is not FailureKind.OFFLINE:
                self.failures.setdefault(reply.edition.source, reply)
        return replies

    def _opened(self) -> Sequence[NameSource]:
        from namekeeper.records.specimen import Settings
        from namekeeper.sources.freshness import Freshness
        from namekeeper.sources.services.registry import open_services

        if self._services is None:
            context = self.context
            wish = Freshness(offline=self.offline)
            self._services = open_services(
                (), Settings(), context.places, context.environ, context.console.say, context.clock, wish=wish
            )
        return self._services


def _nobody(context: Context, offline: bool) -> bool:
    """Whether no service may be asked and none has ever answered: then opening them would only cost time."""
    return offline and not (context.places.cache / "services").is_dir()
