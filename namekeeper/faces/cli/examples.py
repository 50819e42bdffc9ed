"""Two lines that show each command and act at work; its help begins with them."""

from __future__ import annotations

from types import MappingProxyType

#: By the words a command begins with. Files and ids are those of an invented collection.
EXAMPLES = MappingProxyType(
    {
        "lookup": ('lookup "Mex red knee 0.0.1 2cm"', "lookup --from tags.txt --on 2014"),
        "check": ("check my-animals", "check my-animals --offline -o report.html"),
        "settle": ("settle my-animals --take-safe --write", "settle my-animals --write"),
        "history": ("history my-animals INV-0007", "history my-animals --year 2024"),
        "aka": ('aka "Tliltocatl vagans"', 'aka --online "Brachypelma hamorii"'),
        "labels": ("labels my-animals --due -o labels.pdf", "labels my-animals --only INV-0007 --preview label.png"),
        "lists": ("lists", "lists add checklist.csv --as mine"),
        "lists add": (
            "lists add checklist.zip --as catalogue --edition 2026-07",
            "lists add spiders.csv --as mine --column name=Species --complete-for Theraphosidae",
        ),
        "lists fetch": ("lists fetch Theraphosidae --as tarantulas", "lists fetch Scolopendra --as centipedes"),
        "lists compare": (
            "lists compare mine@2025 mine@2026",
            "lists compare starter checklist.csv --collection my-animals -o changes.html",
        ),
        "lists use": ("lists use mine@2026", "lists use mine@2025"),
        "lists remove": ("lists remove mine@2025", "lists remove mine"),
        "collection": ("collection new my-animals", 'collection add my-animals --tag "GBB 0.1 5 cm"'),
        "collection new": ("collection new my-animals", "collection new 'Insect room'"),
        "collection add": (
            'collection add my-animals --tag "GBB 0.1 5 cm"',
            "collection add my-animals --from INV-0007 --count 12 --acquired today",
        ),
        "collection verify": ("collection verify my-animals", "collection verify my-animals --accept --write"),
        "collection left": (
            "collection left my-animals INV-0007 --how sold --write",
            "collection left my-animals INV-0007 --how died --on 2026-03-12 --write",
        ),
        "collection count": (
            "collection count my-animals INV-0007 1.2.5",
            "collection count my-animals INV-0007 0.0.40 --write",
        ),
        "collection join": (
            "collection join my-animals INV-0007 INV-0008",
            "collection join my-animals INV-0007 INV-0008 INV-0009 --write",
        ),
        "collection set": (
            'collection set my-animals INV-0007 "place=shelf 2"',
            "collection set my-animals INV-0007 sex=0.1.0 acquired=2024-05 --write",
        ),
        "collection import": (
            "collection import my-animals animals.xlsx",
            'collection import my-animals animals.csv --column "tag=Sold as" --write',
        ),
        "collection export": (
            "collection export my-animals -o animals.csv",
            "collection export my-animals -o animals.zip --as dwca",
        ),
        "collection stock": (
            "collection stock my-animals",
            "collection stock my-animals --on 2025-12-31 -o stock.csv",
        ),
        "tables": ("tables my-animals feeding.xlsx", "tables my-animals sales.csv --column Species --write"),
        "services": ("services", "services --live"),
        "browse": ("browse my-animals", "browse"),
        "pocket": ("pocket my-animals -o pocket.html", "pocket my-animals --with place,note -o pocket.html"),
        "completion": ("completion bash", "completion fish"),
        "demo": ("demo", "demo -o my-sample"),
    }
)


def examples_of(begin: str) -> str:
    """The lines as they stand above a help text; empty for what has none."""
    lines = "".join(f"  namekeeper {line}\n" for line in EXAMPLES.get(begin, ()))
    return f"For example:\n{lines}\n" if lines else ""
