"""What ``aka`` prints."""

from __future__ import annotations

from tests.contract.shapes import MAYBE_TEXT, TEXT, Example, document, many, record

EXAMPLES = {
    "aka": Example(
        document(
            name=TEXT,
            authorship=TEXT,
            former=many(record(name=TEXT, year=MAYBE_TEXT, source=TEXT)),
            common=many(record(name=TEXT, language=TEXT)),
            search=TEXT,
            range=many(TEXT),
            described_in=MAYBE_TEXT,
            as_of=MAYBE_TEXT,
            revised=MAYBE_TEXT,
            links=many(record(title=TEXT, url=TEXT)),
        ),
        ("aka --json Tliltocatl_vagans",),
    )
}
