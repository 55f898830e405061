"""An odd outline on its way: entered offline, measured beside the server, found by the search."""

from __future__ import annotations

import re
import time
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from bucktail.storage.opening import open_workshop
from bucktail.workshop.recorder import Recorder
from running.looking import picture, serious, use_theme
from running.oddstock import drawn_shape, ell, odd, outline
from running.phone import PHONE, BenchPhone
from running.sheetstock import enter, fetched, sheet
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 60_000  # the first measuring on a machine may have to compile
LATER = "measured when the workshop computer is back"


def ask(page: Page, width: str, height: str, grain: str = "") -> None:
    """Write what is wanted."""
    page.get_by_label("Width, in").fill(width)
    page.get_by_label("Height, in").fill(height)
    if grain:
        page.get_by_label(f"grain {grain}").check()


def served(page: Page, name: str = "odd") -> Any:
    """The answer that is called so."""
    return page.locator(".serves > li").filter(has_text=name)


def record_offline(phone: BenchPhone, body: dict[str, Any]) -> None:
    """An offcut is entered on the phone, as its form does, while the workshop is out of reach."""
    page = phone.page
    page.evaluate(
        """async (body) => {
          const names = (await indexedDB.databases()).map((one) => one.name);
          const name = names.find((one) => /^bucktail-[0-9a-f-]{36}$/.test(one));
          const db = await new Promise((done) => {
            const asked = indexedDB.open(name);
            asked.onsuccess = () => done(asked.result);
          });
          const id = () => crypto.randomUUID().replace(/^(.{14})4/, '$17');
          const read = (store, key) => new Promise((done) => {
            const asked = db.transaction(store).objectStore(store).get(key);
            asked.onsuccess = () => done(asked.result);
          });
          const me = await read('meta', 'identity');
          const seq = ((await read('meta', 'seq')) ?? 0) + 1;
          const head = (await read('meta', 'head')) ?? { position: 0, chain: '' };
          const subject = id();
          const event = { id: id(), kind: 'offcut.added.v1', workshop: me.workshop,
            device: me.device, seq, at: Date.now(), tz: 'UTC', by: me.person, base: head, subject,
            via: null, group: null, body };
          const text = JSON.stringify(event);
          await new Promise((done, failed) => {
            const work = db.transaction(['outbox', 'meta'], 'readwrite');
            work.objectStore('outbox').put({ seq, id: event.id, subject, group: null, text });
            work.objectStore('meta').put(seq, 'seq');
            work.oncomplete = done;
            work.onerror = () => failed(work.error);
          });
          db.close();
        }""",
        body,
    )


def test_an_outline_entered_offline_is_measured_once_the_workshop_is_back_and_then_found(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    enter(workshop.folder, sheet(3, 2))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    workshop.kill()
    record_offline(phone, odd(ell(300, 200, 60, 50), name="odd one"))
    page.goto(f"{workshop.url}/offcuts?width=4&height=1.5")
    # held back, not guessed at; what cannot be is ruled out all the same
    near = page.get_by_role("link", name="odd one")
    expect(near).to_contain_text(LATER, ignore_case=True, timeout=15_000)
    expect(served(page)).to_have_count(0)
    near.click()
    expect(page.locator(".note").filter(has_text=LATER)).to_be_visible()
    page.go_back()
    ask(page, "30", "2")
    expect(page.get_by_role("link", name="odd one")).to_have_count(0)
    ask(page, "4", "1.5")
    workshop.start()
    expect(served(page)).to_be_visible(timeout=SLOW)
    drawing = served(page).get_by_role("img")
    expect(drawing).to_have_accessible_name(re.compile("Cut as drawn: its left side .* spoils "))
    assert {"4", "1 1/2"} <= set(drawing.locator("text").all_text_contents())
    expect(served(page)).to_contain_text("Mark with a marker only.")
    # offline again it is still known
    workshop.kill()
    page.reload()
    expect(served(page)).to_be_visible(timeout=15_000)
    assert phone.stored("outbox") == []


def test_grain_clearance_and_keep_outs_are_kept_in_odd_outlines(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    # a strip 101.6 mm (4 in) wide with a hole in its middle; its grain runs along it
    strip = [(0, 0), (300, 0), (300, 102), (0, 102)]
    hole = [(145, 46), (145, 56), (155, 56), (155, 46)]
    enter(
        workshop.folder,
        odd(outline(strip, hole, way="keep-outs"), name="holed"),
        odd(outline(strip, hole, way="keep-outs"), name="unsure", grain="unknown"),
    )
    phone = new_phone()
    page = phone.pair()
    phone.fetched(2)
    page.goto(f"{workshop.url}/offcuts")
    ask(page, "5", "4")
    expect(page.get_by_text("2 serve.")).to_be_visible(timeout=SLOW)
    ask(page, "6", "4")  # past the hole there is no room for it
    expect(page.get_by_text("No offcut serves. 2 come near.")).to_be_visible()
    ask(page, "5", "4", "along the width")
    expect(page.get_by_text("1 serves. 1 comes near.")).to_be_visible()
    expect(page.get_by_role("link", name="unsure")).to_contain_text("Grain unknown")
    ask(page, "5", "4", "along the height")
    expect(page.get_by_role("link", name="holed")).to_contain_text(
        "1 in too short across the grain"
    )
    ask(page, "5", "4", "any way")
    page.get_by_label("Clear of the edges").fill("1/8")
    expect(page.get_by_text("No offcut serves. 2 come near.")).to_be_visible()


def test_an_outline_that_cannot_be_measured_says_why_and_is_offered_to_be_looked_at(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    crossed = outline([(0, 0), (200, 0), (200, 100), (60, 100), (60, -0.0), (0, 90)])
    crossed["outer"] = [[0, 0], [200_000_000, 0], [200_000_000, 100_000_000], [0, 10_000_000],
                        [60_000_000, 90_000_000]]  # fmt: skip
    (offcut,) = enter(workshop.folder, odd(crossed, name="crossed"))
    phone = new_phone()
    page = phone.pair()
    page.goto(f"{workshop.url}/offcut/{offcut}")
    note = page.locator(".note").filter(has_text="What fits in it cannot be said")
    expect(note).to_be_visible(timeout=SLOW)
    expect(note).to_contain_text("crosses")
    page.goto(f"{workshop.url}/offcuts?width=1&height=1")
    expect(page.get_by_role("link", name="crossed")).to_contain_text("cannot be said")


def test_a_better_cut_is_asked_of_the_workshop_computer(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    enter(workshop.folder, odd(ell(300, 200, 60, 50), name="odd one"))
    phone = new_phone()
    page = phone.pair()
    page.goto(f"{workshop.url}/offcuts?width=4&height=1.5")
    expect(served(page)).to_be_visible(timeout=SLOW)
    served(page).get_by_role("button", name="A better cut").click()
    better = served(page).get_by_role("region", name="A better cut")
    expect(better).to_contain_text(re.compile(r"Leaves [0-9.]+ sq in\."), timeout=SLOW)
    drawn = better.get_by_role("img").locator("text").all_text_contents()
    assert {"4", "1 1/2"} <= set(drawn) or {"A", "B"} <= set(drawn)
    better.scroll_into_view_if_needed()
    picture(page, "odd-search-better")
    # out of reach, what the phone found by itself stands
    workshop.kill()
    page.reload()
    served(page).get_by_role("button", name="A better cut").click()
    expect(served(page).get_by_role("alert")).to_contain_text("The cut drawn above stands.")


def test_the_results_are_sound_to_look_at(workshop: Workshop, new_phone: NewPhone) -> None:
    from random import Random

    draw = Random(5)
    shapes = [ell(400, 300, 90, 70), *(drawn_shape(draw, 500) for _ in range(5))]
    bodies = [odd(shape, name=f"odd {n}") for n, shape in enumerate(shapes)]
    ids = enter(workshop.folder, *bodies, sheet(9, 6))
    with open_workshop(workshop.folder) as session:
        place = Recorder(session).record("place.added.v1", {"name": "Rack 2", "form": "rack"})
        Recorder(session).record("thing.moved.v1", {"to": place}, subject=ids[0])
    phone = new_phone()
    page = phone.pair()
    fetched(phone, ids[0], 2)
    page.goto(f"{workshop.url}/offcuts?width=3&height=2")
    expect(served(page, "odd 0")).to_be_visible(timeout=SLOW)
    time.sleep(0.5)
    for theme in ("light", "evening"):
        use_theme(page, theme)
        assert serious(page) == [], theme
        for number, item in enumerate(page.locator(".serves > li").all()[:6]):
            item.scroll_into_view_if_needed()
            picture(page, f"odd-search-{number}-{theme}")
    page.set_viewport_size({"width": 1280, "height": 800})
    page.locator(".serves > li").first.scroll_into_view_if_needed()
    picture(page, "odd-search-desk")
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    # a place asks for what lies in it alone
    page.goto(f"{workshop.url}/place/{place}")
    page.get_by_role("link", name="Search the offcuts in it").click()
    expect(page.get_by_text("Only what lies in Rack 2.")).to_be_visible()
    ask(page, "3", "2")
    expect(page.get_by_text("1 serves.")).to_be_visible()
    page.get_by_role("button", name="Look everywhere").click()
    expect(page.get_by_text("6 serve.")).to_be_visible()
