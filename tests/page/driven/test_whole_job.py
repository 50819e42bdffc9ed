"""The keeper's whole way in a browser: first visit, decisions, two windows, a killed server; without scripts too."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from namekeeper.faces.page.server import PageServer
from namekeeper.faces.page.sheet_process import SheetMaker
from namekeeper.outside import Outside, Work
from tests.conftest import NOWHERE
from tests.page.driven.conftest import came_in, press, serving

Served = tuple[PageServer, str]


def file_of(animals: Path, identifier: str) -> str:
    return (animals / "specimens" / f"{identifier}.yaml").read_text(encoding="utf-8")


def address(page: Page) -> str:
    """The beginning of every address of this server."""
    found = re.match(r"http://[^/]+", page.url)
    assert found is not None
    return found[0]


def download_of(page: Page) -> bytes:
    with page.expect_download() as waiting:
        page.get_by_role("link", name="Open the PDF").click()
    return Path(waiting.value.path()).read_bytes()


@pytest.mark.parametrize("script", [True, False], ids=["with scripts", "by HTML alone"])
def test_from_the_first_visit_to_a_pdf(
    script: bool, browser: Browser, tmp_path: Path, home: Path, maker: SheetMaker
) -> None:
    with serving(tmp_path, home, maker, None) as (_, link), came_in(browser, link, java_script_enabled=script) as page:
        expect(page.get_by_role("heading", level=1)).to_have_text("Where shall your animals live?")
        page.get_by_label("Name of the folder").fill("Back room")
        page.get_by_role("button", name="Make it").click()
        page.get_by_label("What stands on their tags").fill("GBB 0.1\nMex red knee (B. smithi) 0.0.1")
        page.get_by_role("button", name="See what they may be").click()
        expect(page.get_by_role("radio", name=re.compile("Chromatopelma"))).to_be_checked()
        page.get_by_role("button", name="Add them to Back room").click()
        expect(page.get_by_role("heading", level=1)).to_have_text("Print their labels")
        expect(page.get_by_text("2 labels on 1 sheet.")).to_be_visible()
        place = page.get_by_role("checkbox", name=re.compile("^Place 1,"))
        place.press("Space")
        expect(place).to_be_checked()
        page.get_by_role("button", name="Make the PDF").click()
        assert download_of(page).startswith(b"%PDF-")
        page.get_by_role("button", name="Yes, remember it").click()
        expect(page.get_by_text("2 labels remembered as printed.")).to_be_visible()
    animals = home / "documents" / "Back room"
    assert "name: Chromatopelma cyaneopubescens" in file_of(animals, "INV-0001")
    assert "names:" not in file_of(animals, "INV-0002")
    assert all("kind: printed" in file_of(animals, one) for one in ("INV-0001", "INV-0002"))


def test_a_table_is_brought_in(browser: Browser, tmp_path: Path, home: Path, maker: SheetMaker) -> None:
    table = tmp_path / "stock.csv"
    table.write_text("Sold as,Scientific name,Shelf\nGBB 0.1,Chromatopelma cyaneopubescens,A 1\nred knee,,A 2\n")
    with serving(tmp_path, home, maker, None) as (_, link), came_in(browser, link) as page:
        page.get_by_role("button", name="Make it").click()
        page.get_by_label("A table:").set_input_files(table)
        page.get_by_role("button", name="Read the table").click()
        expect(page.get_by_text("2 rows can come in")).to_be_visible()
        page.get_by_role("button", name="Bring in 2 animals").click()
        expect(page.get_by_text("2 animals are here now.")).to_be_visible()
    assert len(list((home / "documents" / "My animals" / "specimens").iterdir())) == 2


def test_decisions_by_keys_and_taken_back(keeper: Page, animals: Path) -> None:
    keeper.goto(f"{address(keeper)}/decide/HW-001")
    press(keeper, "1")
    expect(keeper.get_by_text("HW-001 is Brachypelma hamorii now. Written.")).to_be_visible()
    assert "name: Brachypelma hamorii" in file_of(animals, "HW-001")
    press(keeper, "u")
    expect(keeper.get_by_text("HW-001 was taken back: it is Brachypelma smithi again.")).to_be_visible()
    keeper.goto(f"{address(keeper)}/decide/HW-007")
    press(keeper, "k")
    expect(keeper.get_by_text("HW-007 keeps its name. Written.")).to_be_visible()
    assert "kind: kept" in file_of(animals, "HW-007")


def test_keys_are_letters_while_one_types_and_can_be_switched_off(keeper: Page, animals: Path) -> None:
    before = file_of(animals, "HW-001")
    keeper.goto(f"{address(keeper)}/decide/HW-001")
    keeper.get_by_label("A note to go with it").fill("")
    keeper.get_by_label("A note to go with it").type("k1l")
    expect(keeper.get_by_label("A note to go with it")).to_have_value("k1l")
    keeper.get_by_role("button", name="Switch keys off").click()
    press(keeper, "k")
    keeper.reload()
    keeper.evaluate("sent = []; addEventListener('submit', event => sent.push(event.type), true)")
    press(keeper, "1")
    assert keeper.evaluate("sent") == []
    assert keeper.url.endswith("/decide/HW-001")
    assert file_of(animals, "HW-001") == before


def test_two_windows_and_a_file_changed_underneath(keeper: Page, animals: Path) -> None:
    keeper.goto(f"{address(keeper)}/decide/HW-001")
    other = keeper.context.new_page()
    other.goto(keeper.url)
    other.get_by_role("button", name=re.compile("Take it.*Brachypelma hamorii")).click()
    expect(other.get_by_text("HW-001 is Brachypelma hamorii now. Written.")).to_be_visible()
    keeper.get_by_role("button", name="Keep the name").click()
    expect(keeper.get_by_text("HW-001: not written: its label says Brachypelma hamorii by now")).to_be_visible()
    file = animals / "specimens" / "HW-002.yaml"
    keeper.goto(f"{address(keeper)}/animals?q=HW-002")
    file.write_text(file.read_text() + "# a remark of the keeper\n")
    keeper.get_by_role("button", name="Take it").click()
    expect(keeper.get_by_text("HW-002: not written: its file was edited meanwhile")).to_be_visible()
    assert file.read_text().endswith("# a remark of the keeper\n")


def test_back_and_the_filter_in_the_address(keeper: Page) -> None:
    keeper.goto(f"{address(keeper)}/animals")
    keeper.get_by_label("Show").select_option("newer")
    keeper.get_by_role("button", name="Show").click()
    expect(keeper).to_have_url(re.compile("show=newer"))
    keeper.get_by_role("link", name="HW-002", exact=True).click()
    expect(keeper).to_have_url(re.compile("/animal/HW-002"))
    keeper.go_back()
    expect(keeper).to_have_url(re.compile("show=newer"))
    expect(keeper.get_by_label("Show")).to_have_value("newer")
    keeper.reload()
    expect(keeper.get_by_label("Show")).to_have_value("newer")


def test_a_killed_server_leaves_what_was_typed(browser: Browser, animals: Path, home: Path) -> None:
    words = [sys.executable, "-m", "namekeeper", "browse", str(animals), "--no-open"]
    environ = {**os.environ, **NOWHERE, "NAMEKEEPER_HOME": str(home), "PYTHONUNBUFFERED": "1"}
    with subprocess.Popen(words, env=environ, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as running:
        try:
            assert running.stdout is not None
            link = running.stdout.readline().rsplit(" ", 1)[1].strip()
            with came_in(browser, link) as page:
                expect(page.get_by_role("heading", level=1)).to_have_text("Animals")
                page.goto(f"{address(page)}/animal/HW-010")
                page.get_by_label("Where it stands").fill("window sill")
                running.kill()
                running.wait(30)
                page.get_by_role("button", name="Save the facts").click()
                expect(page.get_by_role("alert")).to_contain_text("Namekeeper is closed: nothing was sent.")
                expect(page.get_by_label("Where it stands")).to_have_value("window sill")
        finally:
            running.kill()


def test_the_page_closes_the_server(keeper: Page) -> None:
    keeper.goto(f"{address(keeper)}/lookup")
    keeper.get_by_role("button", name="Close Namekeeper").click()
    expect(keeper.get_by_role("heading", level=1)).to_have_text("Namekeeper is closed")


def test_all_safe_names_by_html_alone(browser: Browser, served: Served, animals: Path) -> None:
    with came_in(browser, served[1], java_script_enabled=False) as page:
        page.get_by_role("button", name=re.compile(r"^Take all \d+ new names$")).click()
        expect(page.get_by_text("labels have a new name now. Written.")).to_be_visible()
        assert "name: Tliltocatl vagans" in file_of(animals, "HW-002")
        page.get_by_role("button", name="Undo").click()
        expect(page.get_by_text("labels were taken back. Written.")).to_be_visible()


def test_a_place_is_marked_at_once(keeper: Page) -> None:
    keeper.goto(f"{address(keeper)}/labels?only=HW-010")
    box = keeper.get_by_role("checkbox", name=re.compile("^Place 2,"))
    took = box.evaluate(
        """box => [...Array(9).keys()].map(() => {
            const start = performance.now();
            box.click();
            const drawn = getComputedStyle(box.nextElementSibling).display;
            return [drawn, performance.now() - start];
        })"""
    )
    assert {drawn for drawn, _ in took[::2]} == {"flex"}
    assert {drawn for drawn, _ in took[1::2]} == {"none"}
    assert min(time for _, time in took) <= 50  # ms, before the keeper sees it, while nothing else is done


def test_three_tasks_take_few_clicks_and_keys(keeper: Page, served: Served) -> None:
    """What may this tag be: at most 2; decide three proposals: 6; print the changed labels: 4, beyond typing."""
    keeper.goto(f"{address(keeper)}/lookup")
    expect(keeper.locator("textarea:focus, input:focus")).to_be_visible()  # the field has the focus already
    keeper.keyboard.type("GBB 0.1")
    keeper.get_by_role("button", name="Look up").click()  # 1
    expect(keeper.get_by_text("One species.")).to_be_visible()
    keeper.get_by_role("link", name="To decide").click()  # 1
    expect(keeper).to_have_url(re.compile("/decide/HW-"))
    for _ in range(3):
        before = keeper.url
        press(keeper, "l")  # 2 to 4
        expect(keeper).not_to_have_url(before)
    keeper.get_by_role("link", name="Labels").click()  # 1
    keeper.get_by_role("button", name="Make the PDF").click()  # 2
    assert download_of(keeper).startswith(b"%PDF-")  # 3
    keeper.get_by_role("button", name="Yes, remember it").click()  # 4
    expect(keeper.get_by_text("remembered as printed.")).to_be_visible()


class _Elsewhere(BaseHTTPRequestHandler):
    """A site of somebody else, which frames the page and sends it forms."""

    page = ""

    def do_GET(self) -> None:
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        self.wfile.write(type(self).page.encode())

    def log_message(self, *_words: object) -> None:
        """Says nothing."""


@pytest.fixture
def elsewhere(served: Served) -> Iterator[str]:
    home = f"http://{served[0].guard.host}"
    form = f'<form method="post" action="{home}/decide-safe"><button>Win</button></form>'
    _Elsewhere.page = f'<iframe src="{home}/animals"></iframe>{form}'
    server = HTTPServer(("127.0.0.1", 0), _Elsewhere)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()


def test_no_other_site_frames_the_page_or_sends_it_a_form(keeper: Page, elsewhere: str, animals: Path) -> None:
    before = {path: path.read_bytes() for path in (animals / "specimens").iterdir()}
    page = keeper.context.new_page()
    page.goto(elsewhere)
    assert all("Hollin Weir" not in frame.content() for frame in page.frames[1:])
    page.get_by_role("button", name="Win").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("This came from another site")
    assert {path: path.read_bytes() for path in (animals / "specimens").iterdir()} == before


def test_what_goes_on_is_told_in_its_line_and_the_button_stays(keeper: Page, served: Served) -> None:
    go_on, far = threading.Event(), [3]

    def waits(outside: Outside) -> None:
        with outside.progress(Work.ADDING) as step:
            while not go_on.is_set():
                step(far[0], 10)
                outside.pause(0.05)

    try:
        job = served[0].keeping.works.start("list", "Adding a list", waits)
        keeper.goto(f"{address(keeper)}/lookup")
        line = keeper.get_by_role("status").filter(has_text="Adding a list")
        expect(line).to_contain_text("3 of 10")
        stop = keeper.get_by_role("button", name=re.compile("^Stop.*Adding a list"))
        stop.evaluate("button => { button.focus(); window.first = button; }")
        far[0] = 7
        expect(line).to_contain_text("7 of 10")
        assert keeper.evaluate("document.activeElement === window.first")  # neither focus nor a click is lost
        keeper.get_by_role("link", name="Animals").click()  # it goes on when the page is left
        expect(keeper.get_by_role("status").filter(has_text="Adding a list")).to_contain_text("7 of 10")
        keeper.get_by_role("button", name=re.compile("^Stop.*Adding a list")).click()
        assert job.wait(60)
        expect(keeper.get_by_role("button", name=re.compile("^Stop.*Adding a list"))).to_have_count(0)
    finally:
        go_on.set()
