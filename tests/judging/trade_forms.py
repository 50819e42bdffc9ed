"""Trade forms on labels: never taken for a species, never safe, and the described species offered where one is known.

``data/trade_forms.csv`` holds the forms with their sources; ``argument`` says why a described one is not offered.
"""

from __future__ import annotations

from dataclasses import replace

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.verdicts import Verdict
from namekeeper.judging.ballot import Trust
from namekeeper.judging.change import name_key
from namekeeper.judging.question import known_here, question_of, what_to_ask
from namekeeper.judging.verdict import judge
from namekeeper.records.specimen import NameEntry
from tests.judging.build import TODAY, day
from tests.judging.tally import Tally, rows


def on_label(text: str, starter: NameList) -> Verdict:
    entry = NameEntry(text)
    question = replace(known_here(question_of(entry), [starter]), label_date=day("2012"))
    replies = [reply for name in what_to_ask(question) for reply in starter.ask([name])]
    return judge(question, replies, Trust(), TODAY)


def count(starter: NameList) -> tuple[Tally, Tally]:
    """Forms that stay what they are, and described forms that are offered."""
    kept = Tally("trade forms: none taken for a species, none safe")
    offered = Tally("trade forms since described: the species is offered")
    for row in rows("trade_forms.csv"):
        verdict = on_label(row["trade_form"], starter)
        described = " ".join(row["described_as"].split(" ")[:2])
        taken = verdict.safe or (
            verdict.proposed is not None and name_key(verdict.proposed.name) == name_key(described)
        )
        kept.count(row["trade_form"], taken, False)
        if described:
            names = {name_key(choice.name) for choice in verdict.choices}
            offered.count(f"{row['trade_form']} as {described}", name_key(described) in names, True, row["argument"])
    return kept, offered
