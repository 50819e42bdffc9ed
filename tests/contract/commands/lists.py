"""What ``lists`` prints."""

from __future__ import annotations

from tests.contract.shapes import COUNT, MAYBE_TEXT, STANDINGS, TEXT, YES_NO, Example, document, many, record

LIST = record(key=TEXT, edition=TEXT, in_use=YES_NO, names=COUNT, readable=YES_NO, licence=MAYBE_TEXT)
NAMES = "lists add names.csv --as own --edition 1"
KIND = {"enum": [*STANDINGS, "new", "gone"]}
ADDED = document(key=TEXT, names=COUNT, skipped=many(record(line=COUNT, why=TEXT)))
EXAMPLES = {
    "lists": Example(document(lists=many(LIST)), ("lists --json",)),
    "lists add": Example(ADDED, (f"{NAMES} --json",)),
    "lists fetch": Example(ADDED, ()),
    "lists compare": Example(
        document(changes=many(record(id=MAYBE_TEXT, old=MAYBE_TEXT, new=MAYBE_TEXT, kind=KIND))),
        (NAMES, "lists compare own later.csv --json"),
    ),
    "lists use": Example(document(key=TEXT, edition=TEXT), (NAMES, "lists use own@1 --json")),
    "lists remove": Example(document(removed=many(TEXT)), (NAMES, "lists remove own --json --yes")),
}
