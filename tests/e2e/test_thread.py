"""The thread through everything: recorded without a network, killed, restarted, sent, read."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from running.phone import BenchPhone
from running.workshop import Workshop

# the story in test_story.py goes the same way and further, and runs every time
pytestmark = [pytest.mark.browser, pytest.mark.long]


def test_a_step_recorded_offline_survives_a_kill_and_reaches_another_browser(
    workshop: Workshop, new_phone: Callable[..., BenchPhone]
) -> None:
    phone = new_phone(lasting=True)
    page = phone.pair()
    page.goto(f"{workshop.url}/parts")
    page.get_by_role("link", name="Add a part").click()
    page.get_by_label("Name").fill("Rib 4")
    page.get_by_role("button", name="Add Rib 4").click()
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible()
    phone.settled()
    page.wait_for_function("() => navigator.serviceWorker.controller !== null || true")
    address = page.url

    workshop.kill()
    page.get_by_role("button", name="Film off along the lines: all", exact=True).click()
    expect(page.get_by_role("button", name="Undo: Film off along the lines all")).to_be_visible()
    before = phone.stored("outbox")
    assert [row["seq"] for row in before] == [3]

    phone.kill()
    page = phone.open(address.removeprefix(workshop.url))
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible()
    expect(page.get_by_role("button", name="Edges dressed: all")).to_be_visible()
    assert phone.stored("outbox") == before

    workshop.start()
    page.evaluate("dispatchEvent(new Event('online'))")
    phone.settled()

    other = new_phone()
    other.pair(person="Kim Brook", device="office")
    other.settled()
    assert phone.cards() == other.cards()
    assert len(other.cards()) == 1
