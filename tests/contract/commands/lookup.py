"""What ``lookup`` prints."""

from __future__ import annotations

from tests.contract.shapes import CANDIDATE, COUNT, FAILURE, READING, TEXT, Example, document, many, record

EXAMPLES = {
    "lookup": Example(
        document(
            results=many(
                record(
                    tag=TEXT,
                    reading=READING,
                    answer={"enum": ["one", "several", "guess", "genus", "none", "unasked"]},
                    candidates=many(CANDIDATE),
                    failures=many(FAILURE),
                )
            ),
            too_long=many(COUNT),
            failures=many(FAILURE),
        ),
        ("lookup --offline --json GBB_0.1 nothing",),
    )
}
