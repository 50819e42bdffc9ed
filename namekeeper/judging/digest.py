"""A short word for what was judged: it changes only when something new is said."""

from __future__ import annotations

from hashlib import blake2b

from namekeeper.judging.change import name_key
from namekeeper.judging.conclusions import Outcome
from namekeeper.judging.facts import LabelFacts


def digest(facts: LabelFacts, outcome: Outcome) -> str:
    """Over the name, the outcome and the positions of sources; not over days, editions, order, how many agree."""
    positions = {f"{vote.view}:{','.join(sorted(vote.keys))}" for vote in facts.ballot.counting}
    parts = [
        name_key(facts.question.name),
        outcome.standing,
        outcome.proposed.name if outcome.proposed else "",
        *sorted({name_key(one.name) for one in outcome.choices}),
        *sorted(positions),
    ]
    return blake2b("\n".join(parts).encode(), digest_size=8).hexdigest()
