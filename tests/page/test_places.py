"""What each place shows and does: the words of the tasks' results, and files that say the same."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest

from namekeeper.tasks.check import check_folder
from namekeeper.tasks.overview import Show, counts
from namekeeper.tasks.watch import KEPT_ONLY
from tests.page.conftest import Visitor


def rows_of(text: str) -> list[str]:
    return re.findall(r'<tr id="([^"]+)"', text)


def seen(visitor: Visitor, identifier: str) -> str:
    finding = visitor.keeping.view().finding(identifier)
    return f"{finding.specimen.revision} {finding.verdict.digest}"


def entries(animals: Path, identifier: str) -> str:
    return (animals / "specimens" / f"{identifier}.yaml").read_text(encoding="utf-8")


def test_a_tag_is_looked_up(visitor: Visitor) -> None:
    text = visitor.get("/lookup?tags=Mex red knee (B. smithi) 0.0.1%0AGBB").text
    assert "May be any of these: you choose." in text
    assert {"Brachypelma hamorii", "Brachypelma smithi", "Chromatopelma cyaneopubescens"} <= set(
        re.findall(r'name="name\d" value="([^"]+)"', text)
    )
    assert re.search(r'value="Chromatopelma cyaneopubescens" checked', text)  # the only one is chosen
    assert not re.search(r'value="Brachypelma \w+" checked', text)  # of several none is


def test_too_many_tags_are_told_and_kept(visitor: Visitor) -> None:
    text = visitor.get("/lookup?tags=" + "%0A".join(f"GBB {n}" for n in range(300))).text
    assert "at most 200" in text
    assert "GBB 299</textarea>" in text


def test_animals_are_made_of_tags(visitor: Visitor, animals: Path) -> None:
    before = {path.name for path in (animals / "specimens").iterdir()}
    fields = {
        "tag1": "GBB 0.0.2",
        "name1": "Chromatopelma cyaneopubescens",
        "count1": "2",
        "tag2": "spider",
        "count2": "1",
    }
    shown = visitor.follow(visitor.post("/lookup", {**fields, "tag3": "left out", "count3": "0"}))
    new = sorted({path.name for path in (animals / "specimens").iterdir()} - before)
    assert new == ["INV-0001.yaml", "INV-0002.yaml", "INV-0003.yaml"]
    assert "name: Chromatopelma cyaneopubescens" in entries(animals, "INV-0001")
    assert re.search('tag: "?GBB 0.0.2', entries(animals, "INV-0002"))
    assert "names:" not in entries(animals, "INV-0003")
    assert "3 animals are here now: INV-0001 to INV-0003." in shown


@pytest.mark.parametrize("fields", [{"count1": "many"}, {"count1": "2", "name1": "42"}, {"count1": "0"}])
def test_what_cannot_be_an_animal_is_told_and_adds_none(
    fields: dict[str, str], visitor: Visitor, animals: Path
) -> None:
    before = sorted((animals / "specimens").iterdir())
    answer = visitor.post("/lookup", {"tag1": "GBB", "typed": "GBB", **fields})
    assert answer.status_code == 200
    assert 'role="alert"' in answer.text
    assert ">GBB</textarea>" in answer.text
    assert sorted((animals / "specimens").iterdir()) == before


def test_the_animals_are_those_of_the_check(visitor: Visitor) -> None:
    report = check_folder(visitor.keeping.in_view().desk, KEPT_ONLY)
    text = visitor.get("/animals").text
    assert f"{len(report.findings)} animals" in text
    assert f"{len(report.safe)} labels carry an older name" in text
    assert len(rows_of(text)) == 50
    assert rows_of(text) + rows_of(visitor.get("/animals?page=2").text) == [
        finding.specimen.id
        for finding in sorted(report.findings, key=lambda f: _place(report.to_decide, report.safe, f))
    ]


def _place(*orders: object) -> tuple[int, str]:
    *groups, finding = orders
    waits = [one for group in groups for one in group]  # type: ignore[attr-defined]
    late = finding in waits and finding.postponed  # type: ignore[attr-defined]
    number = waits.index(finding) if finding in waits else 999
    return (number + 500 * late, finding.specimen.id.casefold())  # type: ignore[attr-defined]


@pytest.mark.parametrize("show", Show)
def test_each_filter_shows_as_many_as_it_says(show: Show, visitor: Visitor) -> None:
    view = visitor.keeping.view()
    text = visitor.get(f"/animals?show={show}").text
    assert len(rows_of(text)) == min(counts(view)[show], 50)
    assert f'<option value="{show}" selected>' in text


def test_animals_are_found_by_former_names_numbers_and_places(visitor: Visitor) -> None:
    assert rows_of(visitor.get("/animals?q=hw-010").text) == ["HW-010"]
    assert rows_of(visitor.get("/animals?q=avicularia versicolor").text) == ["HW-011"]  # in force: Caribena
    assert "HW-001" in rows_of(visitor.get("/animals?q=hamorii").text)  # offered
    assert rows_of(visitor.get("/animals?q=rack A 11&order=place").text) == ["HW-011"]
    assert "No animal has all of “nothing like it”" in visitor.get("/animals?q=nothing like it").text


def test_a_page_that_is_not_there_is_the_last(visitor: Visitor) -> None:
    assert "Page 2 of 2" in visitor.get("/animals?page=99").text
    assert "Page 1 of 2" in visitor.get("/animals?page=x&show=x&order=x").text


def test_a_file_changed_underneath_is_noticed(visitor: Visitor, animals: Path) -> None:
    assert "rack A 10 · 0.1.0" in visitor.get("/animals?q=HW-010").text or "HW-010" in visitor.get("/animals").text
    file = animals / "specimens" / "HW-010.yaml"
    file.write_text(re.sub(r"place: .*", "place: window sill", file.read_text()))
    assert "window sill" in visitor.get("/animals?q=HW-010").text
    (animals / "specimens" / "HW-011.yaml").unlink()
    assert rows_of(visitor.get("/animals?q=HW-011").text) == []
    (animals / "specimens" / "HW-012.yaml").write_text("tag: [", encoding="utf-8")
    assert "1 file needs a look" in visitor.get("/animals").text


def test_a_folder_that_is_gone_is_told(visitor: Visitor, animals: Path) -> None:
    animals.rename(animals.with_name("elsewhere"))
    answer = visitor.get("/animals")
    assert answer.status_code == 400
    assert "no such folder" in answer.text


def test_the_facts_of_an_animal_are_written(visitor: Visitor, animals: Path) -> None:
    before = entries(animals, "HW-010")
    page = visitor.get("/animal/HW-010").text
    fields = dict(re.findall(r'<input id="f-\w+" name="(\w+)" value="([^"]*)"', page))
    revision = visitor.keeping.view().finding("HW-010").specimen.revision
    answer = visitor.post("/animal/HW-010/facts", {**fields, "place": "window sill", "revision": revision})
    assert "HW-010: place written." in visitor.follow(answer)
    assert entries(animals, "HW-010") == re.sub(r"place: .*", "place: window sill", before)


def test_a_fact_that_cannot_be_one_stays_on_the_page(visitor: Visitor, animals: Path) -> None:
    before = entries(animals, "HW-010")
    answer = visitor.post("/animal/HW-010/facts", {"sex": "two females", "revision": ""})
    assert "is no count like 0.1.0" in answer.text
    assert 'value="two females"' in answer.text
    assert entries(animals, "HW-010") == before


def test_facts_seen_before_another_change_are_not_written(visitor: Visitor, animals: Path) -> None:
    old = visitor.keeping.view().finding("HW-010").specimen.revision
    file = animals / "specimens" / "HW-010.yaml"
    file.write_text(file.read_text() + "# a remark\n")
    now = entries(animals, "HW-010")
    answer = visitor.post("/animal/HW-010/facts", {"place": "window sill", "revision": old})
    assert "edited meanwhile" in answer.text
    assert 'value="window sill"' in answer.text
    assert entries(animals, "HW-010") == now


def test_an_animal_tells_its_names_over_the_years(visitor: Visitor) -> None:
    text = visitor.get("/animal/HW-011").text
    assert re.search(r'role="img" aria-label="Avicularia versicolor since .*; Caribena versicolor since', text)
    assert "&#34;Avicularia versicolor&#34;" in text  # in the search for all of its names


def test_a_safe_name_is_taken_and_taken_back(visitor: Visitor, animals: Path) -> None:
    before = entries(animals, "HW-002")
    fields = {"seen": seen(visitor, "HW-002"), "name": "Tliltocatl vagans", "back": "/animals?q=HW-002"}
    shown = visitor.follow(visitor.post("/decide/HW-002", fields))
    assert "HW-002 is Tliltocatl vagans now. Written." in shown
    after = entries(animals, "HW-002")
    assert after.startswith(before)
    undo = re.search(r'name="seen" value="(HW-002 [0-9a-f]+)"', shown)
    assert undo is not None
    shown = visitor.follow(visitor.post("/undo", {"seen": undo[1]}))
    assert "HW-002 was taken back: it is Brachypelma vagans again. Written." in shown
    assert entries(animals, "HW-002").startswith(after)
    assert "standing: undone" in entries(animals, "HW-002")


@pytest.mark.parametrize(
    ("act", "kind", "told"), [("keep", "kept", "keeps its name"), ("later", "postponed", "is for later")]
)
def test_a_name_is_kept_or_left_for_later(act: str, kind: str, told: str, visitor: Visitor, animals: Path) -> None:
    fields = {"seen": seen(visitor, "HW-007"), "act": act, "note": "as the breeder says"}
    assert told in visitor.follow(visitor.post("/decide/HW-007", fields))
    assert f"kind: {kind}" in entries(animals, "HW-007")
    assert "note: as the breeder says" in entries(animals, "HW-007")


def test_another_name_is_taken_as_it_is_written(visitor: Visitor, animals: Path) -> None:
    fields = {"seen": seen(visitor, "HW-028"), "act": "other", "other": "Brachypelma hamorii"}
    assert "HW-028 is Brachypelma hamorii now" in visitor.follow(visitor.post("/decide/HW-028", fields))
    assert "name: Brachypelma hamorii" in entries(animals, "HW-028")


def test_a_doubt_goes_with_the_name_unless_the_box_is_ticked(visitor: Visitor, animals: Path) -> None:
    """HW-027 came as "Poecilotheria regalis/ornata?"."""
    offered = visitor.get("/decide/HW-027").text
    box = re.search(r"<label class=\"pick\"><input([^>]*)>(.*?)</label>", offered)
    assert box is not None
    assert 'type="checkbox" name="certain"' in box[1]
    assert "checked" not in box[1]  # the keeper says it, nobody else
    assert "take the name without “?”" in unescape(box[2])
    name = "Poecilotheria regalis"
    shown = visitor.follow(visitor.post("/decide/HW-027", {"seen": seen(visitor, "HW-027"), "name": name}))
    assert "the tag is not sure (?), so the name has that too" in shown
    assert 'qualifier: "?"' in entries(animals, "HW-027")
    visitor.post("/undo", {"seen": seen(visitor, "HW-027")})
    before = entries(animals, "HW-027")
    fields = {"seen": seen(visitor, "HW-027"), "name": name, "certain": "yes"}
    shown = visitor.follow(visitor.post("/decide/HW-027", fields))
    assert "Poecilotheria regalis without the doubt that stood there (?)" in shown
    assert "qualifier" not in entries(animals, "HW-027").removeprefix(before)
    assert f"name: {name}" in entries(animals, "HW-027").removeprefix(before)


def test_where_the_tag_is_sure_there_is_no_box(visitor: Visitor) -> None:
    assert 'name="certain"' not in visitor.get("/decide/HW-028").text


def test_a_box_that_was_ticked_is_still_ticked_where_nothing_was_written(visitor: Visitor) -> None:
    fields = {"seen": seen(visitor, "HW-027"), "act": "enter", "certain": "yes"}
    assert 'name="certain" value="yes" checked' in visitor.post("/decide/HW-027", fields).text


def test_an_animal_without_a_name_is_not_said_to_have_one(visitor: Visitor) -> None:
    for path in ("/decide/HW-028", "/animal/HW-028"):
        text = visitor.get(path).text
        assert "It has no name yet, so no source was asked about one." in text
        assert "No source speaks of this name" not in text


def test_enter_in_a_field_takes_no_name_unseen(visitor: Visitor, animals: Path) -> None:
    before = entries(animals, "HW-001")
    answer = visitor.post("/decide/HW-001", {"seen": seen(visitor, "HW-001"), "act": "enter", "note": "a word"})
    assert "no name was chosen" in answer.text
    assert 'value="a word"' in answer.text
    assert entries(animals, "HW-001") == before


def test_all_safe_names_are_taken_and_taken_back(visitor: Visitor, animals: Path) -> None:
    view = visitor.keeping.view()
    shown = visitor.follow(visitor.post("/decide-safe", {"state": view.safe_state}))
    assert f"{len(view.report.safe)} labels have a new name now." in shown
    assert not visitor.keeping.view().report.safe
    fields = re.findall(r'name="seen" value="(\S+ [0-9a-f]+)"', shown)
    assert len(fields) == len(view.report.safe)
    assert "were taken back" in visitor.follow(visitor.post("/undo", {"seen": fields}))
    assert {one.specimen.id for one in visitor.keeping.view().report.safe} == {
        one.specimen.id for one in view.report.safe
    }


def test_safe_names_that_are_others_by_now_are_not_taken(visitor: Visitor, animals: Path) -> None:
    old = visitor.keeping.view().safe_state
    visitor.post("/decide/HW-002", {"seen": seen(visitor, "HW-002"), "name": "Tliltocatl vagans"})
    files = {path: path.read_bytes() for path in (animals / "specimens").iterdir()}
    answer = visitor.post("/decide-safe", {"state": old})
    assert "not the same any more" in answer.text
    assert {path: path.read_bytes() for path in (animals / "specimens").iterdir()} == files


def test_two_windows_do_not_overwrite_each_other(visitor: Visitor, animals: Path) -> None:
    both = seen(visitor, "HW-001")
    visitor.post("/decide/HW-001", {"seen": both, "name": "Brachypelma hamorii"})
    after = entries(animals, "HW-001")
    shown = visitor.follow(visitor.post("/decide/HW-001", {"seen": both, "name": "Brachypelma smithi"}))
    assert "HW-001: not written: its label says Brachypelma hamorii by now" in shown
    assert entries(animals, "HW-001") == after


def test_the_queue_goes_on_behind_the_label(visitor: Visitor) -> None:
    first = visitor.get("/decide").location
    identifier = first.rsplit("/", 1)[1]
    page = visitor.get(first).text
    after = re.search(r'name="next" value="([^"]+)"', page)
    assert after is not None
    answer = visitor.post(first, {"seen": seen(visitor, identifier), "act": "later", "next": after[1]})
    assert answer.location == f"/decide/{after[1]}"


def test_what_left_is_not_decided(visitor: Visitor) -> None:
    answer = visitor.get("/decide/NO-1")
    assert answer.status_code == 400
    assert "there is no animal" in answer.text


def test_every_name_of_a_species_has_a_page(visitor: Visitor) -> None:
    text = visitor.get("/name?name=Avicularia versicolor").text
    assert "Avicularia versicolor is now Caribena versicolor" in text
    assert 'href="https://www.gbif.org/' in text
    assert visitor.get("/name").status_code == 400


def revision(visitor: Visitor, identifier: str) -> str:
    return visitor.keeping.view().finding(identifier).specimen.revision


def test_an_animal_that_left_keeps_its_page(visitor: Visitor, animals: Path) -> None:
    before = revision(visitor, "HW-010")
    fields = {"how": "sold", "on": "2026-10-03", "revision": before}
    assert "HW-010: left." in visitor.follow(visitor.post("/animal/HW-010/left", fields))
    assert re.search(r"left: .*date: 2026-10-03, how: sold", entries(animals, "HW-010"))
    assert "Left on 3 October 2026: sold." in visitor.get("/animal/HW-010").text
    assert rows_of(visitor.get("/animals?q=HW-010").text) == []
    assert "left already" in visitor.post("/animal/HW-010/left", fields).text


def test_a_group_is_counted_and_has_young(visitor: Visitor, animals: Path) -> None:
    fields = {"sex": "0.0.5", "revision": revision(visitor, "HW-003")}
    assert "HW-003: counted." in visitor.follow(visitor.post("/animal/HW-003/count", fields))
    assert "sex: 0.0.5" in entries(animals, "HW-003")
    assert "edited meanwhile" in visitor.post("/animal/HW-003/count", fields).text  # seen before that
    shown = visitor.follow(visitor.post("/animal/HW-010/offspring", {"count": "3"}))
    assert "3 young animals are here now. INV-0001 to INV-0003: takes the name of HW-010" in shown
    assert "name: Acanthoscurria geniculata" in entries(animals, "INV-0002")


@pytest.mark.parametrize(
    ("act", "fields", "told"),
    [
        ("left", {"how": ""}, "how did it leave?"),
        ("left", {"how": "sold", "on": "yesterday"}, "is not a date"),
        ("count", {"sex": "two"}, "is no count like"),
        ("offspring", {"count": "0"}, "is no number of young"),
        ("offspring", {"count": "many"}, "is no number of young"),
    ],
)
def test_an_act_that_cannot_be_done_is_told(
    act: str, fields: dict[str, str], told: str, visitor: Visitor, animals: Path
) -> None:
    before = {path.name: path.read_bytes() for path in (animals / "specimens").iterdir()}
    answer = visitor.post(f"/animal/HW-010/{act}", {**fields, "revision": revision(visitor, "HW-010")})
    assert told in unescape(answer.text)
    assert 'role="alert"' in answer.text
    assert {path.name: path.read_bytes() for path in (animals / "specimens").iterdir()} == before


def test_an_animal_shows_its_label(visitor: Visitor) -> None:
    answer = visitor.get("/animal/HW-010/label.png")
    width, height = (int.from_bytes(answer.data[at : at + 4], "big") for at in (16, 20))  # PNG (ISO 15948), IHDR
    assert width / height == pytest.approx(70 / 37, rel=0.02)  # mm of the default sheet
    assert visitor.get("/animal/NO-1/label.png").status_code == 400
