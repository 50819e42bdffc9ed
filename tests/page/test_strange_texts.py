"""Texts of strangers on the page: in replies of services, settings, names of files, tables. They are shown as text."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import pytest
from markupsafe import escape

from namekeeper.faces.page.keeping import Keeping
from namekeeper.outside import Outside
from namekeeper.tasks.check import Report
from tests.conftest import NOW
from tests.page.conftest import Visitor, visitor_of
from tests.page.test_safety import SCRIPT
from tests.services.local_server import Asked, Canned, LocalServer, serving
from tests.services.local_services import accepting, everywhere, is_about_a_name, service_of, well

#: The words of replies that are compared with what was asked: with markup in them the whole reply is refused.
_COMPARED = re.compile("name|term|rank|status|type|^id$|key|code|error|date|created|alias", re.IGNORECASE)
_LINK = "javascript:alert(1)"


def spoiled(value: object, *, names: bool) -> object:
    """A reply with a script in every text, and a link that is one wherever there is a link."""
    match value:
        case dict():
            return {
                key: one if isinstance(one, str) and not names and _COMPARED.search(key) else spoiled(one, names=names)
                for key, one in value.items()
            }
        case list():
            return [spoiled(one, names=names) for one in value]
        case str():
            return _LINK if value.startswith("http") else value + SCRIPT
        case _:
            return value


@pytest.fixture
def server() -> Iterator[LocalServer]:
    with serving(accepting) as running:
        yield running


@pytest.fixture
def online(tmp_path: Path, home: Path, server: LocalServer, monkeypatch: pytest.MonkeyPatch) -> Iterator[Visitor]:
    """The keeper of three animals, whose services are on this machine and are not waited for."""
    monkeypatch.setattr(Outside, "pause", lambda _outside, _seconds: None)
    specimens = tmp_path / "rack" / "specimens"
    specimens.mkdir(parents=True)
    for number, name in enumerate(("Brachypelma vagans", "Chromatopelma cyaneopubescens", "Agra schwarzeneggeri"), 1):
        (specimens / f"A{number}.yaml").write_text(f"names:\n  - name: {name}\n    standing: as-labelled\n")
    environ = {"NAMEKEEPER_HOME": str(home), **everywhere(server)}
    visitor = visitor_of(Keeping.of(Outside.of(tmp_path, environ, lambda: NOW, lambda _text: None)))
    visitor.keeping.patience = 60.0
    visitor.keeping.open(tmp_path / "rack")
    visitor.come_in()
    yield visitor
    visitor.keeping.end(5)


class _Running(HTMLParser):
    """Finds what a browser would run or load of a stranger's."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        own = given.get("src", "/").startswith("/") and (tag != "script" or "src" in given)
        runs = any(name.startswith("on") or re.match(r"\s*(javascript|data):", value) for name, value in given.items())
        if runs or not own:
            self.found.append(f"{tag} {given}")


def running(text: str) -> list[str]:
    """What would run on that page."""
    parser = _Running()
    parser.feed(text)
    return parser.found


@pytest.mark.parametrize("names", [True, False], ids=["in names too", "beside names"])
@pytest.mark.parametrize("reply", [accepting, well])
def test_replies_of_services_are_text(names: bool, reply: object, online: Visitor, server: LocalServer) -> None:
    def answer(asked: Asked) -> Canned:
        document = json.loads((accepting if reply is accepting else well)(asked).body.decode("utf-8", "replace"))
        told = spoiled(document, names=names) if is_about_a_name(asked) else document
        return Canned.json(told, "iso-8859-1" if service_of(asked)[0] == "itis" else "utf-8")

    server.answer = answer
    online.post("/lists/ask")
    job = online.keeping.works.find("services")
    assert job is not None
    assert job.wait(60)
    assert isinstance(job.result, Report)
    assert server.asked
    shown = [online.get(f"/{path}").text for path in ("lists", "animals", *(f"animal/A{n}" for n in (1, 2, 3)))]
    shown += [online.get(f"/decide/A{n}").text for n in (1, 2, 3)]
    shown.append(online.get("/lookup?tags=Agra+catbellai%0Agolden+beetle&ask=services").text)
    assert [running(text) for text in shown if running(text)] == []
    spoke = any(edition.by_service for edition in job.result.editions)
    assert spoke or names


def test_settings_names_of_files_and_of_folders_are_text(visitor: Visitor, animals: Path) -> None:
    quoted = SCRIPT.replace("'", "''")
    (animals / "collection.yaml").write_text(
        f"title: '{quoted}'\nby: '{quoted}'\nlocality: '{quoted}'\nservices: ['{quoted}']\n'{quoted}': x\n"
        f"labels: {{language: '{quoted}', template: '{quoted}', sheet: '{quoted}'}}\n"
    )
    (animals / "specimens" / "<img src=x onerror=alert(1)>.yaml").write_text("tag: x\n")
    (animals / "specimens" / "OK-1.yaml").write_text(f"tag: x\n'{quoted}': 1\n")
    shown = {path: visitor.get(path).text for path in ("/animals", "/lists", "/labels", "/begin", "/animal/OK-1")}
    assert {path: running(text) for path, text in shown.items() if running(text)} == {}
    assert "&lt;img src=x onerror" in shown["/animals"]
    assert "&lt;script&gt;alert(1)" in shown["/lists"]


def test_what_would_run_is_found() -> None:
    assert running(SCRIPT) == ["script {}", "img {'src': 'x', 'onerror': 'alert(1)'}"]
    assert len(running("<a href='javascript:alert(1)'>x</a><p onclick=x>")) == 2


def test_a_table_with_scripts_is_text(visitor: Visitor) -> None:
    table = f'"Sold as{SCRIPT.replace(chr(34), chr(34) * 2)}",Scientific name,Tag\nx,<b>Brachypelma</b> hamorii,GBB\n'
    sent = visitor.post("/begin/table", {"table": (io.BytesIO(table.encode()), f"{SCRIPT}.csv")})
    shown = visitor.get(sent.location).text
    assert running(shown) == []
    assert "&lt;script&gt;" in shown
    assert escape("<b>Brachypelma</b> hamorii' cannot be read as a name") in shown
    assert "0 rows can come in" in shown


@pytest.mark.parametrize("name", ["<b>Brachypelma</b> hamorii", "Brachypelma&nbsp;hamorii", "Brachypelma\u200b x"])
def test_what_is_no_name_is_told_where_it_enters(name: str, visitor: Visitor, animals: Path) -> None:
    before = {path: path.read_bytes() for path in animals.rglob("*.yaml")}
    answers = [
        visitor.post("/decide/HW-001", {"act": "other", "other": name}),
        visitor.post("/decide/HW-001", {"name": name}),
        visitor.post("/lookup", {"tag1": "GBB", "name1": name, "count1": "1", "typed": "GBB"}),
    ]
    for answer in answers:
        assert "holds what stands in no name" in answer.text
        assert running(answer.text) == []
    assert {path: path.read_bytes() for path in animals.rglob("*.yaml")} == before
