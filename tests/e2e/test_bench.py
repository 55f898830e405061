"""The first screen: sentences that are true of the record, and the ways that lead from them."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from bucktail.storage.opening import open_workshop
from bucktail.workshop.recorder import Recorder
from running.partstock import written
from running.phone import BenchPhone
from running.tagged import READY, SLOW, Stock, type_code, types
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]


def test_the_bench_says_what_is_ready_and_leads_to_a_run_of_it(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    stock = Stock(workshop.folder)
    shelf = stock.place("Shelf 2")
    box = stock.place("Box 7", "box")
    ribs = [
        stock.part(f"Rib {n}", done=READY["dimple"], inside=box if n == 3 else shelf)
        for n in range(1, 4)
    ]
    with open_workshop(workshop.folder) as session:
        Recorder(session).record("finding.opened.v1", {"on": ribs[0], "what": "A scratch"})
    phone = new_phone()
    page = phone.pair()
    phone.fetched(2 * len(stock.codes) + 1)
    page.goto(workshop.url)
    expect(page.get_by_role("heading", name="Bench")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text(re.compile("^Today you stopped at Rib 3"))).to_be_visible()
    expect(page.get_by_role("region", name="To be settled")).to_have_text(
        "Finding on Rib 1: A scratch, nothing decided yet."
    )
    ready = page.locator("summary", has_text="Dimple")
    expect(ready).to_have_text("Dimple: 3 parts, in Shelf 2 and Box 7.")
    ready.click()
    page.get_by_role("link", name="Scan them: dimple").click()
    expect(page.get_by_role("heading", name="Dimple", exact=True)).to_be_visible(timeout=SLOW)
    types(page)
    type_code(page, stock.codes[ribs[0]])
    expect(page.locator(".kept-word.shown")).to_have_text("Dimpled: Rib 1", timeout=SLOW)
    assert [event["subject"] for event in written(phone)] == [ribs[0]]

    # the run is gone on with from the bench, and another one does not take its place unasked
    page.get_by_role("link", name="bench").click()
    expect(page.get_by_role("link", name="Go on: dimple, 1 part so far")).to_be_visible()
    page.locator("summary", has_text="Clean").click()
    page.get_by_role("link", name="Scan them: clean").click()
    expect(page.get_by_role("heading", name="A run is under way")).to_be_visible()
    page.get_by_role("button", name="Go on: Dimple").click()
    expect(page.get_by_text("1 part so far")).to_be_visible()
    expect(page.get_by_role("list", name="Recorded in this run")).to_contain_text("Rib 1, all 38")


def test_the_bench_finds_things_from_one_field(workshop: Workshop, new_phone: NewPhone) -> None:
    stock = Stock(workshop.folder)
    stock.part("Rib 4", inside=stock.place("Shelf 2"))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(4)
    page.goto(workshop.url)
    page.get_by_label("Where is it?").fill("rib")
    found = page.get_by_role("link", name="Rib 4")
    expect(found).to_contain_text("part, in Shelf 2")
    expect(page.get_by_role("heading", name="Ready now")).to_have_count(0)
    found.click()
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible()


def test_an_empty_workshop_says_what_to_do_first(workshop: Workshop, new_phone: NewPhone) -> None:
    page = new_phone().pair()
    expect(page.get_by_role("heading", name="Bench")).to_be_visible()
    expect(page.get_by_text("Nothing is entered in this workshop yet.")).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("link", name="Scan a blank tag")).to_be_visible()
