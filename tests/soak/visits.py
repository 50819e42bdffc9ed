"""What the visitor of the page does, and what the keeper does to the files by hand."""

from __future__ import annotations

import os
import signal
import time
from contextlib import nullcontext
from itertools import cycle, islice
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import quote

import requests

from tests.soak.page import Page, Shown

if TYPE_CHECKING:
    from tests.soak.soaking import Soak

VIEWS = (
    "/animals", "/animals?show=due", "/decide", "/labels", "/lists", "/begin", "/labels/sheet.png",
    "/name?name=Brachypelma%20vagans", "/lookup?tags=GBB%200.1%0AMex%20red%20rump",
    "/lookup?tags=Avicularia%20versicolor&ask=services",
)  # fmt: skip


def visit(soak: Soak) -> None:
    """One act on the page; sometimes the disk of its server is full, sometimes another server is killed at it."""
    act = soak.visits.draw()
    full = act not in (_killed, _killed_at_journal) and soak.random.random() < 0.2
    soak.report.counts[f"page: {act.__name__.strip('_')}{' with a full disk' if full else ''}"] += 1
    with soak.page.with_a_full_disk(soak.random.choice((0, 100, 1000))) if full else nullcontext():
        act(soak, soak.page)


def look_at_everything(page: Page, requests: int = len(VIEWS)) -> None:
    """As many requests of all kinds, in turn; the services are asked once."""
    for view in (VIEWS[-1], *islice(cycle(VIEWS[:-1]), requests - 1)):
        _right(page.get(view), view, 400)


def facts_at_once(soak: Soak) -> float | None:
    """When a form with a new fact was sent, if it was written."""
    soak.report.counts["page: facts"] += 1
    return _facts(soak, soak.page)


def _right(shown: Shown, what: str, *codes: int) -> Shown:
    assert shown.status in (200, *codes), f"{what}: {shown.status} {shown.text[-3000:]}"
    return shown


def _look(soak: Soak, page: Page) -> None:
    for view in soak.random.sample(VIEWS, 3):
        _right(page.get(view), view, 400)


def _facts(soak: Soak, page: Page) -> float | None:
    identifier, value = soak.random.choice([one for one in soak.model.ids() if one.startswith("HW")]), soak.fresh()
    shown = page.get(f"/animal/{identifier}")
    if shown.status != 200 or not shown.field("csrf_token"):
        return None
    soak.model.asked(identifier, "note", value)
    names = ("place", "sex", "stage", "common", "caution", "locality", "acquired", "from", "size", "price", "revision")
    fields = {name: shown.field(name) for name in names}
    sent = time.monotonic()
    done = _right(page.post(f"/animal/{identifier}/facts", shown, {**fields, "note": value}), "facts", 400)
    if f"{identifier}: note written" in done.told:
        soak.model.written(identifier, "note", value)
        return sent
    assert done.fault, f"neither written nor refused: {done.text[-3000:]}"
    soak.report.counts["page: refused in words"] += 1
    return None


def _later(soak: Soak, page: Page) -> None:
    """Of the label that waits first, or of any."""
    identifier, text = soak.random.choice([one for one in soak.model.ids() if one.startswith("HW")]), soak.fresh()
    shown = page.get(f"/decide/{identifier}")
    if shown.status != 200 or not shown.field("seen"):
        return
    soak.model.unsure_texts.add((identifier, text))
    fields = {"seen": shown.field("seen"), "act": "later", "note": text}
    done = _right(page.post(f"/decide/{identifier}", shown, fields), "later", 400)
    if 'class="said"' in done.told and "Nothing was written" not in done.told:
        soak.model.texts[identifier].add(text)
        soak.model.acknowledged += 1


def _keep_tag(soak: Soak, page: Page) -> None:
    tag = f"soak GBB {soak.fresh()}"
    shown = page.get(f"/lookup?tags={quote(tag)}")
    if shown.status != 200:
        return
    soak.model.tags[tag] = {0, 1}
    done = _right(page.post("/lookup", shown, {"tag1": tag, "count1": "1", "typed": tag}), "keep a tag", 400)
    if "is here now" in done.told:
        soak.model.tags[tag] = {1}
        soak.model.acknowledged += 1
    else:
        assert done.fault, f"neither written nor refused: {done.text[-3000:]}"


def _killed(soak: Soak, _page: Page) -> None:
    """Another page of the same collection, killed at any time while it is asked."""
    _another_killed(soak, None, soak.random.choice((0.001, 0.02, 0.05, 0.1, 0.3)))


def _killed_at_journal(soak: Soak, _page: Page) -> None:
    """Another page of the same collection, killed with its journal written."""
    _another_killed(soak, soak.random.randrange(3), 60.0)


def _another_killed(soak: Soak, steps: int | None, patience: float) -> None:
    """``steps`` as of a page; ``patience``: seconds after which it is killed anyway."""
    other = Page(soak.folder, soak.environ, soak.root / "other.log", steps)
    tag = f"soak {soak.fresh()}"
    soak.model.tags[tag] = {0, 1}
    try:
        shown = other.get("/lookup?tags=GBB")
        hidden = {name: shown.field(name) for name in ("csrf_token", "collection")}
        other.session.post(
            f"{other.base.split('/start/')[0]}/lookup", data={**hidden, "tag1": tag, "count1": "1", "typed": tag},
            timeout=patience, allow_redirects=False,
        )  # fmt: skip
    except requests.RequestException:
        pass
    finally:
        if steps is not None:
            assert other.process.wait(30) == -signal.SIGKILL, "it wrote, and was not killed"
        other.kill()
    log = (soak.root / "other.log").read_text(encoding="utf-8", errors="replace")
    assert "Traceback" not in log, log[-3000:]


#: As often as each stands here.
VISITS = (*(_look,) * 4, *(_facts,) * 4, *(_later,) * 3, *(_keep_tag,) * 2, _killed, _killed_at_journal)
BY_HAND = ("remark", "place", "break", "new", "same")


def edit_by_hand(soak: Soak) -> None:
    """As an editor does it: the file is written anew beside and put in its place, or simply overwritten."""
    mend(soak)
    ids = soak.model.ids()
    own = [one for one in ids if one.startswith("HW")]
    kind = "delete" if len(ids) > soak.most_animals else soak.by_hand.draw()
    soak.report.counts[f"by hand: {kind}"] += 1
    identifier = soak.random.choice(own)
    path = soak.folder / "specimens" / f"{identifier}.yaml"
    text = path.read_text(encoding="utf-8")
    if kind == "remark":
        remark = f"# {soak.fresh()}"
        _save(soak, path, f"{text.rstrip()}\n{remark}\n")
        soak.model.texts[identifier].add(remark)
    elif kind == "place":
        value = soak.fresh()
        kept = [line for line in text.splitlines(keepends=True) if not line.startswith("place:")]
        _save(soak, path, f"place: {value}\n" + "".join(kept))
        soak.model.facts[identifier, "place"] = {value}
    elif kind == "break":
        soak.model.broken[identifier] = text
        _save(soak, path, f"{text}\n{{ : broken [\n")
    elif kind == "new":
        new = f"own-{soak.fresh()}"
        _save(soak, path.with_name(f"{new}.yaml"), f"tag: mine {new}\n")
        soak.model.adopt(new)
    elif kind == "same":
        os.utime(path)
    else:
        for gone in [one for one in ids if not one.startswith("HW")][: len(ids) // 2]:
            (soak.folder / "specimens" / f"{gone}.yaml").unlink()
            soak.model.forget(gone)
        soak.model.count_tags()


def mend(soak: Soak) -> None:
    """What was broken by hand is put right again."""
    for identifier, text in soak.model.broken.items():
        _save(soak, soak.folder / "specimens" / f"{identifier}.yaml", text)
    soak.model.broken.clear()


def _save(soak: Soak, path: Path, text: str) -> None:
    if soak.random.random() < 0.5:
        path.write_text(text, encoding="utf-8")
        return
    beside = path.with_name(f"~{path.name}.tmp")
    beside.write_text(text, encoding="utf-8")
    beside.replace(path)
