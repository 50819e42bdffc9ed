"""The table of requests in DEVELOPERS.md names every request that an adapter puts, with where and when it was read."""

from __future__ import annotations

import re
from pathlib import Path

from tests.services import live
from tests.services.faithful import ANSWERS, KINDS, faithful
from tests.services.local_server import Asked, serving
from tests.services.local_services import everywhere, service_of

TEXT = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
ROWS = [
    [cell.strip() for cell in line.strip("|\n ").split("|")]
    for line in TEXT.split("<!-- requests -->")[1].split("<!-- end of requests -->")[0].strip().splitlines()[2:]
]


def kind_of(asked: Asked) -> str:
    """The path of a request with what differs from question to question left out."""
    path = re.sub(r"/\d{5,}/|/T\d+/", lambda found: "/{key}/" if found[0][1].isdigit() else "/{id}/", asked.path)
    path = re.sub(r"urn:lsid:.*", "{LSID}", path)
    return re.sub(r"taxa/[\d,]+$", "taxa/{ids}", path.strip("/"))


def test_every_row_is_complete() -> None:
    assert {row[0] for row in ROWS} >= {*ANSWERS, "lists fetch"}
    for service, request, purpose, source, read in ROWS:
        assert all((service, purpose, source)), request
        assert request.startswith(("GET", "POST"))
        assert re.fullmatch(r"2026-11-\d\d|before 2026-11", read), request


def test_every_request_stands_in_the_table(tmp_path: Path) -> None:
    with serving(faithful) as server:
        assert live.main([str(tmp_path)], everywhere(server) | {"NAMEKEEPER_SPIDERCATALOG_KEY": "x"}, KINDS) == 0
        asked = [service_of(one) for one in server.asked]
    told = {key: " ".join(row[1] for row in ROWS if row[0] in (key, "lists fetch")) for key in ANSWERS}
    for key, one in asked:
        kind = kind_of(one)
        last = kind.rpartition("/")[2]
        assert kind in told[key] or f"/{last}" in told[key], (key, kind)
        assert set(one.query) - {"apiKey"} <= set(re.findall(r"[?&](\w+)=", told[key])) | {"apiKey"}, (key, one.query)
