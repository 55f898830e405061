"""The screen “This workshop”: what is not sent, the devices, pairing another, and settings."""

from __future__ import annotations

import io
from collections.abc import Callable

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Page, expect

from running.phone import BenchPhone
from running.unsent import add_unsent
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000
DAY_MS = 24 * 60 * 60 * 1000


def open_screen(phone: BenchPhone) -> Page:
    """From where one is, by the link that every screen carries."""
    phone.page.get_by_role("link", name="workshop", exact=True).click()
    expect(phone.page.get_by_role("heading", name="This workshop")).to_be_visible(timeout=SLOW)
    return phone.page


def test_what_is_not_sent_is_counted_with_its_age_and_goes_out_on_demand(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    phone = new_phone()
    phone.pair()
    phone.settled()
    page = open_screen(phone)
    expect(page.get_by_text("All sent.")).to_be_visible()
    expect(page.locator(".who")).to_contain_text("Sam Rivers")
    expect(page.locator(".who")).to_contain_text("bench phone")
    expect(page.locator(".who")).to_contain_text(workshop.url)
    expect(page.get_by_text("Bucktail opens here without a network.")).to_be_visible(timeout=SLOW)
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")

    workshop.kill()
    add_unsent(page, ["Rib 4", "Rib 5", "Rib 6"], ago_ms=3 * DAY_MS)
    page.reload()
    expect(page.get_by_text("3 entries not sent yet.")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("The oldest entry is from 3 days ago.")).to_be_visible()
    expect(page.get_by_text("Last exchanged with the workshop computer")).to_be_visible()
    page.get_by_text("What is not sent", exact=True).click()
    expect(page.get_by_text("Rib 5: ")).to_be_visible()
    page.get_by_role("button", name="Send now").click()
    expect(page.get_by_text("cannot be reached").first).to_be_visible(timeout=SLOW)

    workshop.start()
    page.get_by_role("button", name="Send now").click()
    expect(page.get_by_text("All sent.")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("just now")).to_be_visible()
    phone.fetched(3)


def test_what_was_not_taken_up_stands_there_with_the_reason(new_phone: NewPhone) -> None:
    phone = new_phone()
    page = phone.pair()
    phone.settled()
    add_unsent(page, ["Rib 4"])
    add_unsent(page, [""], kind="part.added.v1")
    page.reload()
    phone.settled()
    page = open_screen(phone)
    section = page.get_by_role("region", name="Not taken up")
    expect(section).to_contain_text("record again what is missing")
    expect(section.locator("li")).to_have_count(1)
    expect(section).to_contain_text("Because body.name")


def test_another_device_is_paired_from_the_screen(workshop: Workshop, new_phone: NewPhone) -> None:
    phone = new_phone()
    phone.pair()
    page = open_screen(phone)
    page.get_by_role("button", name="Pair another device").click()
    symbol = page.get_by_role("img", name="Pairing code to scan")
    expect(symbol).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("timer")).to_contain_text("4:5")
    drawn = Image.open(io.BytesIO(symbol.screenshot()))
    (link,) = [found.text for found in zxingcpp.read_barcodes(drawn)]
    assert link.startswith(f"{workshop.url}/#pair=")
    typed = page.locator(".pairing-code .typed").inner_text()

    other = new_phone()
    other_page = other.open()
    other_page.get_by_label("Pairing code").fill(typed)
    other_page.get_by_label("Your name").fill("Kim Brook")
    other_page.get_by_label("Name of this device").fill("office")
    other_page.get_by_role("button", name="Join", exact=True).click()
    expect(page.get_by_text("office has joined.")).to_be_visible(timeout=SLOW)
    expect(page.locator(".devices li")).to_have_count(2)
    expect(page.locator(".devices")).to_contain_text("Kim Brook")

    other_page = open_screen(other)
    expect(other_page.locator(".devices li")).to_have_count(2, timeout=SLOW)
    expect(other_page.locator(".devices li").filter(has_text="this device")).to_contain_text(
        "office"
    )


def test_the_list_of_devices_says_that_it_needs_the_workshop_computer(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    phone = new_phone()
    page = phone.pair()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    workshop.kill()
    page = open_screen(phone)
    expect(page.get_by_text("The list of devices is kept there.")).to_be_visible(timeout=SLOW)
    page.get_by_label("Name of the workshop").fill("Back shed")
    page.get_by_role("button", name="Change for every device").click()
    expect(page.get_by_text("Nothing changed.")).to_be_visible(timeout=SLOW)
    workshop.start()
    page.get_by_role("button", name="Ask again").click()
    expect(page.locator(".devices li")).to_have_count(1, timeout=SLOW)


def test_name_and_unit_reach_every_device(workshop: Workshop, new_phone: NewPhone) -> None:
    phone, other = new_phone(), new_phone()
    phone.pair()
    other.pair(device="office")
    page = open_screen(phone)
    page.get_by_label("Name of the workshop").fill("Back shed")
    page.get_by_label("Millimetres").check()
    page.get_by_role("button", name="Change for every device").click()
    expect(page.get_by_text("Changed for every device.")).to_be_visible(timeout=SLOW)
    expect(page.locator(".who")).to_contain_text("Back shed")
    other_page = open_screen(other)
    other_page.get_by_role("button", name="Send now").click()
    expect(other_page.locator(".who")).to_contain_text("Back shed", timeout=SLOW)
    kept = next(one for one in other.stored("meta") if isinstance(one, dict) and "unit" in one)
    assert (kept["name"], kept["unit"]) == ("Back shed", "mm")


def test_looks_are_kept_and_there_before_anything_is_drawn(new_phone: NewPhone) -> None:
    phone = new_phone()
    page = phone.pair()
    root = page.locator("html")
    expect(root).to_have_attribute("data-theme", "light")
    page.emulate_media(color_scheme="dark")
    expect(root).to_have_attribute("data-theme", "evening")
    page = open_screen(phone)
    page.get_by_label("Light", exact=True).check()
    expect(root).to_have_attribute("data-theme", "light")
    page.get_by_label("Evening").check()
    page.get_by_label("Left hand").check()
    page.emulate_media(color_scheme="light")
    refused: list[str] = []
    page.on("console", lambda said: refused.append(said.text))
    # the app's own script is held back: what stands there now was put there before it
    page.route("**/assets/index-*.js", lambda route: route.abort())
    page.evaluate("navigator.serviceWorker.ready.then((worker) => worker.unregister())")
    page.reload()
    expect(root).to_have_attribute("data-theme", "evening")
    expect(root).to_have_attribute("data-hand", "left")
    assert page.locator("#app > *").count() == 0
    assert page.locator('meta[name="theme-color"]').get_attribute("content") == "#141311"
    assert not [text for text in refused if "Content Security Policy" in text]
