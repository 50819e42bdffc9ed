"""``namekeeper lookup``: many tags, single ones, dates, bad input, services."""

from __future__ import annotations

from tests.recorded.scenario import Scenario, run, runs
from tests.recorded.scenarios.tags import SOME, TAGS

_OFF = "lookup --offline"

SCENARIOS = (
    Scenario("lookup-many", (run(f"{_OFF} --from tags.txt"),), {"tags.txt": TAGS}),
    Scenario("lookup-many-json", (run(f"{_OFF} --from tags.txt --json"),), {"tags.txt": TAGS}),
    Scenario(
        "lookup-single",
        (
            *runs(
                f"{_OFF} 'Mex red knee (B. smithi) 0.0.1 2cm'",
                f"{_OFF} GBB",
                f"{_OFF} Brachypelma hamorii 0.1",
                f"{_OFF} 'Brachypelma hamorii' 'GBB' 'pinktoe'",
                f"{_OFF} 'Brachypelma sp.'",
                f"{_OFF} 'P. metallica / regalis? 0.1 5-6cm BL CB gooty £30'",
                f"{_OFF} 'Haplopelma lividum' --json",
                f"{_OFF} 'Chilean rose hair 3 inch' --json",
                f"{_OFF} 'Grammostla pulchra'",
                f"{_OFF} 'Quuxia neverheard'",
                f"{_OFF} '0.1 5cm £30'",
                f"{_OFF} 'Poecilotheria sp. lowland'",
                f"{_OFF} --json -- -0.1-",
                f"{_OFF} 'Lasiodora parahybana × klugi'",
            ),
            run(f"{_OFF} 'B. smithi 0.1' GBB", terminal=True),
            run(f"{_OFF} 'B. smithi 0.1' --json", terminal=True),
            run(f"{_OFF} 'B. smithi 0.1'", terminal=True, environ={"NO_COLOR": "1"}),
        ),
    ),
    Scenario(
        "lookup-dates-and-streams",
        (
            *(run(f"{_OFF} --on {day} --from some.txt") for day in ("2000", "2014-05", "2017", "2018-01-01", "2026")),
            run(f"{_OFF} --on 2005 'Brachypelma smithi' --json"),
            run(f"{_OFF} --on 2024-05-03 'Brachypelma smithi' --json"),
            run(f"{_OFF} --on 12.03.2009 'Brachypelma smithi'"),
            run(f"{_OFF} --from -", stdin=SOME),
            run(f"{_OFF} --from - --json", stdin="GBB\r\nOBT\r\n"),
            run(f"{_OFF} --from -", stdin=""),
        ),
        {"some.txt": SOME},
    ),
    Scenario(
        "lookup-bad-input",
        (
            *runs(
                "lookup --offline",
                f"{_OFF} --from missing.txt",
                f"{_OFF} --from .",
                f"{_OFF} --from empty.txt",
                f"{_OFF} --from empty.txt --json",
                f"{_OFF} --from latin1.txt",
                f"{_OFF} --from utf16.txt",
                f"{_OFF} --from binary.bin",
                f"{_OFF} --from marked.txt",
                f"{_OFF} --from marked.txt GBB",
                f"{_OFF} ''",
                f"{_OFF} ' '",
                f"{_OFF} --on tomorrow GBB",
                f"{_OFF} --on 2014-13 GBB",
                f"{_OFF} --on 03/04/2023 GBB",
                f"{_OFF} --sideways GBB",
                f"{_OFF} {'Brachypelma ' * 40}",
                f"{_OFF} --json {'x' * 500}",
            ),
            run(f"{_OFF} 'red\x1b[31mknee\x07 \u202egnorts'"),
            run(f"{_OFF} 'a\x00b' --json"),
        ),
        {
            "empty.txt": "\n\n  \n",
            "latin1.txt": "Mygale à genoux rouges\n".encode("latin-1"),
            "utf16.txt": "GBB 0.1\n".encode("utf-16"),
            "binary.bin": bytes(range(256)),
            "marked.txt": "\ufeffGBB\n",
        },
    ),
    Scenario(
        "lookup-online",
        (
            run("lookup 'Ursus maritimus 0.1' --json", service="accepting"),
            run("lookup 'Ursus maritimus 0.1'", service="accepting", days=1),
            run("lookup 'Ursus maritimus 0.1' --offline"),
            run('lookup "Colt\'s-foot Bell 2cm"', service="moth"),
            run('lookup "Colt\'s-foot Bell 2cm" --offline --json'),
            run("lookup 'Brachypelma hamorii'", service="refusing"),
            run("lookup 'Ursus arctos' --json", service="refusing"),
            run("lookup 'Quuxia neverheard'", service="a login page"),
            run("lookup 'Quuxia secunda' 'silver moon bear'", service="no sense"),
            run("lookup 'Quuxia tertia' 'GBB'", service="gbif refuses"),
            run("lookup GBB", environ={"NAMEKEEPER_URL_GBIF": "http://example.org"}),
            run("lookup 'Quuxia quarta'", environ={"NAMEKEEPER_URL_GBIF": "http://example.org"}),
        ),
    ),
)
