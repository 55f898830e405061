"""Two phones that had not met: what is wished can lose, and a person settles it by saying it."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from running.phone import BenchPhone
from running.sheetstock import enter, sheet
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000


def reserve(page: Page, name: str) -> None:
    """Speak for the offcut that is open."""
    page.get_by_label("Reserve it for").fill(name)
    page.get_by_role("button", name="Reserve", exact=True).click()
    expect(page.get_by_role("region", name="Reserved")).to_contain_text(f"For {name}.")


def meet(phone: BenchPhone) -> None:
    """Let a phone reach the workshop again, now."""
    phone.page.evaluate("dispatchEvent(new Event('online'))")
    phone.settled()


def test_a_reservation_that_came_second_is_shown_and_settled_by_writing_again(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 8))
    phones = new_phone(), new_phone()
    pages = phones[0].pair(), phones[1].pair(person="Kim Brook", device="second phone")
    for phone, page in zip(phones, pages, strict=True):
        phone.fetched(1)
        page.goto(f"{workshop.url}/offcut/{offcut}")
        expect(page.get_by_label("Reserve it for")).to_be_visible(timeout=SLOW)
    for phone in phones:
        phone.context.set_offline(True)  # type: ignore[union-attr]
    reserve(pages[0], "Rib 4")
    reserve(pages[1], "wing tip")
    for phone in phones:
        phone.context.set_offline(False)  # type: ignore[union-attr]
        meet(phone)
    meet(phones[0])
    for page in pages:
        question = page.get_by_role("region", name="Two different answers on who it is for")
        expect(question).to_contain_text("Rib 4 said Sam Rivers", timeout=SLOW)
        expect(question).to_contain_text("wing tip said Kim Brook")
        # the first to reach the workshop's computer has it
        expect(page.get_by_role("region", name="Reserved")).to_contain_text("For Rib 4.")
    pages[1].get_by_role("button", name="wing tip said Kim Brook").click()
    for phone, page in zip(reversed(phones), reversed(pages), strict=True):
        meet(phone)
        expect(page.get_by_role("region", name="Reserved")).to_contain_text("For wing tip.")
        expect(page.get_by_text("Two different answers")).to_have_count(0)
    assert phones[0].cards() == phones[1].cards()
    assert json.loads(phones[0].cards()[offcut])["state"]["answers"] == []


def test_two_answers_on_the_thickness_hold_the_piece_back_until_someone_measures(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 8))
    phones = new_phone(), new_phone()
    pages = phones[0].pair(), phones[1].pair(person="Kim Brook", device="second phone")
    for phone, page in zip(phones, pages, strict=True):
        phone.fetched(1)
        page.goto(f"{workshop.url}/offcut/{offcut}")
        page.get_by_role("button", name="Put something right").click(timeout=SLOW)
    for phone, page, text in zip(phones, pages, (".040", ".025"), strict=True):
        phone.context.set_offline(True)  # type: ignore[union-attr]
        page.get_by_role("textbox", name="or type it").fill(text)
        page.get_by_role("button", name="Keep the changes").click()
        expect(page.get_by_role("button", name="Put something right")).to_be_visible()
    for phone in phones:
        phone.context.set_offline(False)  # type: ignore[union-attr]
        meet(phone)
    page = pages[1]
    page.goto(f"{workshop.url}/offcuts?width=4&height=3&structure=no")
    expect(page.get_by_text("No offcut serves. 1 comes near.")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("two different answers on the thickness")).to_be_visible()
    page.get_by_role("link", name="12 × 8").click()
    page.get_by_role("button", name=".025 in (0.635 mm) said Kim Brook").click()
    expect(page.get_by_text("Two different answers")).to_have_count(0)
    page.go_back()
    expect(page.get_by_text("1 serves.")).to_be_visible()
