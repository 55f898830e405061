"""How a browser joins a workshop: by link, by typed code, by camera; and what keeps it out."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from bucktail.workshop.origin import remembered
from bucktail.workshop.pairing_code import pairing_link
from running import camera
from running.phone import BenchPhone
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000
IPHONE = (
    "Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like "
    "Gecko) Version/18.5 Mobile/15E148 Safari/604.1"
)


def join(page: Page, person: str = "Sam Rivers") -> None:
    page.get_by_label("Your name").fill(person)
    page.get_by_role("button", name="Join", exact=True).click()


def expect_joined(page: Page) -> None:
    expect(page.get_by_role("navigation", name="Screens")).to_be_visible(timeout=SLOW)


def type_code(page: Page, code: str) -> None:
    page.get_by_label("Pairing code").fill(code)


def test_a_link_needs_only_the_name_and_leaves_no_secret_in_the_address(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    secret = workshop.offer().secret
    page = new_phone().open(f"/#pair={secret}")
    expect(page.get_by_label("Your name")).to_be_focused()
    assert secret not in page.url
    join(page)
    expect_joined(page)
    page.go_back()
    assert secret not in page.url


def test_a_typed_code_may_be_typed_as_people_type(workshop: Workshop, new_phone: NewPhone) -> None:
    typed = workshop.offer().typed.lower()
    page = new_phone().open()
    type_code(page, f" {typed[:4]}-{typed[4:].replace('0', 'o').replace('1', 'l')} ")
    join(page)
    expect_joined(page)
    page.reload()
    expect_joined(page)


def test_five_wrong_codes_close_the_typing_and_the_link_still_works(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    offer = workshop.offer()
    # the computer printed one of its own when it started; both are closed by the same tries
    wrong = "00000000" if offer.typed != "00000000" else "11111111"
    page = new_phone().open()
    told = page.get_by_role("alert")
    for left in ("4 more tries", "3 more tries", "2 more tries", "1 more try", "now closed"):
        type_code(page, wrong)
        join(page)
        expect(told).to_contain_text(left, timeout=SLOW)
        expect(page.get_by_label("Your name")).to_have_value("Sam Rivers")
        expect(page.get_by_label("Pairing code")).to_have_value(wrong)
    type_code(page, offer.typed)
    join(page)
    expect(told).to_contain_text("Too many wrong codes", timeout=SLOW)
    page.goto(f"{workshop.url}/#pair={offer.secret}")
    join(page)
    expect_joined(page)


def test_a_link_works_once(workshop: Workshop, new_phone: NewPhone) -> None:
    secret = workshop.offer().secret
    page = new_phone().open(f"/#pair={secret}")
    join(page)
    expect_joined(page)
    other = new_phone().open(f"/#pair={secret}")
    join(other)
    expect(other.get_by_role("alert")).to_contain_text("has been used", timeout=SLOW)
    other.get_by_role("button", name="Another code").click()
    type_code(other, workshop.offer().typed)
    join(other)
    expect_joined(other)


def test_the_code_on_the_computer_is_read_by_the_camera(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    at = remembered(workshop.folder)
    assert at is not None
    link = pairing_link(at.url, workshop.offer().secret)
    seen = camera.showing(tmp_path / "pairing.mjpeg", camera.foreign(link))
    page = new_phone(camera=seen).open()
    page.get_by_role("button", name="Scan the pairing code").click()
    expect(page.get_by_text("The pairing code has been read.")).to_be_visible(timeout=SLOW)
    expect(page.get_by_label("Your name")).to_be_focused()
    join(page)
    expect_joined(page)


def test_another_symbol_is_named_as_no_pairing_code(new_phone: NewPhone, tmp_path: Path) -> None:
    seen = camera.showing(tmp_path / "other.mjpeg", camera.foreign("https://example.org/"))
    page = new_phone(camera=seen).open()
    page.get_by_role("button", name="Scan the pairing code").click()
    expect(page.get_by_text("This is not a pairing code.")).to_be_visible(timeout=SLOW)
    page.get_by_role("button", name="Type the code").click()
    expect(page.get_by_label("Pairing code")).to_be_visible()


def test_out_of_reach_says_so_and_keeps_what_was_typed(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    page = new_phone().open()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    workshop.kill()
    type_code(page, "7KQ2 M0XD")
    join(page)
    expect(page.get_by_role("alert")).to_contain_text("same network", timeout=SLOW)
    expect(page.get_by_label("Pairing code")).to_have_value("7KQ2 M0XD")
    workshop.start()
    type_code(page, workshop.offer().typed)
    join(page)
    expect_joined(page)


def test_a_device_that_belongs_already_is_told_and_stays_one_device(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    phone = new_phone()
    page = phone.pair()
    before = phone.stored("meta")
    page.goto(f"{workshop.url}/#pair={workshop.offer().secret}")
    expect(page.get_by_text("belongs to “My workshop” already")).to_be_visible()
    expect(page.get_by_label("Your name")).to_have_value("Sam Rivers")
    page.get_by_role("link", name="Go on without joining").click()
    expect_joined(page)
    page.goto(f"{workshop.url}/#pair={workshop.offer().secret}")
    page.get_by_label("Name of this device").fill("shop phone")
    join(page, "Kim Brook")
    expect_joined(page)
    page.goto(f"{workshop.url}/workshop")
    expect(page.locator(".who")).to_contain_text("Kim Brook")
    expect(page.locator(".devices li")).to_have_count(1)
    expect(page.locator(".devices li")).to_contain_text("shop phone")
    assert [one["device"] for one in before if isinstance(one, dict) and "device" in one] == [
        one["device"] for one in phone.stored("meta") if isinstance(one, dict) and "device" in one
    ]


def test_an_iphone_is_told_to_install_first(new_phone: NewPhone) -> None:
    page = new_phone().open(user_agent=IPHONE)
    expect(page.get_by_text("Add to Home Screen")).to_be_visible()
    expect(page.get_by_text("install Bucktail first")).to_be_visible()
    other = new_phone().open()
    expect(other.get_by_role("button", name="Join", exact=True)).to_be_visible()
    expect(other.get_by_text("install Bucktail first")).to_have_count(0)
