"""The spider catalogue is asked for names whose identifier an added list has, and for no others."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tests.services.conftest import SECRET, constructed
from tests.services.local_server import Asked, Canned, LocalServer

Command = Callable[..., Any]


def test_identifiers_come_from_an_added_list(command: Command, tmp_path: Path, server: LocalServer) -> None:
    """Constructed in the columns of the catalogue's daily export; the name is invented."""
    table = tmp_path / "export.csv"
    table.write_text(
        'lsid,name,author\nurn:lsid:nmbe.ch:spidersp:021946,Exemplum nava,"(Blackwall, 1841)"\n', encoding="utf-8"
    )
    columns = [f"--column={pair}" for pair in ("id=lsid", "name=name", "authorship=author")]
    added = command("lists", "add", str(table), "--as", "export", *columns)
    assert added.code == 0, added.err

    folder = tmp_path / "animals"
    (folder / "specimens").mkdir(parents=True)
    for key, name in (("A", "Exemplum nava"), ("B", "Ignotus exemplaris")):
        text = f"names:\n  - name: {name}\n    since: 2020-01-01\n    standing: as-labelled\n"
        (folder / "specimens" / f"{key}.yaml").write_text(text, encoding="utf-8")

    def catalogue(asked: Asked) -> Canned:
        body = constructed("wsc-lsid-valid")
        body["taxon"]["genus"] = "Exemplum"
        return Canned.json(body)

    server.answer = catalogue
    environ = {"NAMEKEEPER_URL_SPIDERCATALOG": server.base, "NAMEKEEPER_SPIDERCATALOG_KEY": SECRET}
    outcome = command("check", str(folder), "--services", "spidercatalog", "--json", environ=environ)
    rows = {row["specimen"]: row for row in json.loads(outcome.out)["results"]}
    assert [asked.path for asked in server.asked] == ["/api/lsid/urn:lsid:nmbe.ch:spidersp:021946"]
    assert "spidercatalog" in {one["source"] for one in rows["A"]["statements"]}
    assert (rows["A"]["standing"], rows["B"]["standing"], outcome.code) == ("current", "unasked", 1)
