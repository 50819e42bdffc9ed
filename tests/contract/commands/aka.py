"""What ``aka`` prints."""

from __future__ import annotations

from tests.contract.shapes import (
    FAILURE,
    HOW,
    MAYBE_DAY,
    MAYBE_TEXT,
    STANDING,
    TEXT,
    YES_NO,
    Example,
    document,
    many,
    maybe,
    record,
)

EXAMPLES = {
    "aka": Example(
        document(
            name=TEXT,
            authorship=TEXT,
            former=many(record(name=TEXT, authorship=TEXT, year=MAYBE_DAY, source=TEXT, standing=STANDING)),
            common=many(record(name=TEXT, language=TEXT, kind=TEXT)),
            sold_as=many(
                record(**{"name": TEXT, "from": MAYBE_DAY, "cleared": MAYBE_DAY, "ended": MAYBE_DAY, "source": TEXT})
            ),
            cautions=many(
                record(
                    taxon=TEXT,
                    topic=TEXT,
                    statement=TEXT,
                    listed_as=MAYBE_TEXT,
                    year=MAYBE_DAY,
                    weight=MAYBE_TEXT,
                    source=TEXT,
                    verified=YES_NO,
                )
            ),
            search=TEXT,
            range=many(TEXT),
            described_in=MAYBE_TEXT,
            as_of=MAYBE_DAY,
            revised=MAYBE_DAY,
            links=many(record(title=TEXT, url=TEXT)),
            led=MAYBE_TEXT,
            led_by=maybe(record(how=HOW, matched=TEXT)),
            failures=many(FAILURE),
        ),
        ("aka --json Tliltocatl_vagans",),
    )
}
