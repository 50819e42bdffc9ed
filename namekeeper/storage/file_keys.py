"""The keys of a specimen's file and of ``collection.yaml``."""

from __future__ import annotations

# Order is the order in which new files are written.
SPECIMEN_KEYS = ("tag", "acquired", "sex", "locality", "common", "stage", "from", "place", "note", "caution", "size",
                 "price", "papers", "left", "names", "decisions")  # fmt: skip
ENTRY_KEYS = ("name", "authorship", "since", "recorded", "standing", "according_to", "source", "retrieved", "link",
              "licence", "decided_by", "note", "qualifier", "trade_form", "form", "undoes")  # fmt: skip
DECISION_KEYS = ("kind", "recorded", "name", "digest", "proposed", "note", "decided_by", "undoes")
PAPER_KEYS = ("kind", "number", "date", "name")
LEFT_KEYS = ("date", "how")
SETTINGS_KEYS = (
    *("title", "trust_order", "locality", "labels", "printer", "services", "by"),
    *("licence", "rights_holder", "id_prefix"),
)
