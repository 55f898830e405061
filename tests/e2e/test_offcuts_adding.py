"""Entering an offcut at the bench: few taps, kept whole, and nothing lost over a wrong figure."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from bucktail.workshop.printing import record_new_tags
from running.phone import BenchPhone
from running.sheetstock import enter, fetched, sheet
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000

COUNT_TAPS = """() => {
  window.taps = 0;
  addEventListener('click', (event) => { if (event.isTrusted) window.taps += 1; }, true);
}"""


def side(page: Page, which: str) -> Any:
    """The line to type a side in."""
    return page.get_by_role("textbox", name=f"{which} side")


def answer_all_but_figures(page: Page) -> None:
    """Tap what can be tapped."""
    page.get_by_label("2024-T3").check(timeout=SLOW)
    page.get_by_label("clad", exact=True).check()
    page.get_by_label("mill marking seen").check()
    page.get_by_label("bare metal").check()
    page.get_by_label("grain along the first side").check()


def written(phone: BenchPhone) -> list[dict[str, Any]]:
    """What this phone has written and not sent."""
    return [json.loads(row["text"]) for row in phone.stored("outbox")]


def test_from_a_blank_tag_to_a_kept_offcut_in_ten_taps_without_a_network(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    (code,) = record_new_tags(workshop.folder, 1)
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    page.goto(f"{workshop.url}/attach/{code}")
    expect(page.get_by_role("link", name="A new offcut")).to_be_visible()
    workshop.kill()
    page.evaluate(COUNT_TAPS)
    page.get_by_role("link", name="A new offcut").click()
    page.get_by_label("2024-T3").click(timeout=SLOW)
    page.get_by_label("clad", exact=True).click()
    page.get_by_label("mill marking seen").click()
    page.get_by_label(".032", exact=True).click()
    page.get_by_label("bare metal").click()
    side(page, "First").click()
    page.keyboard.type("12")
    page.keyboard.press("Enter")
    page.keyboard.type("8 1/2")
    page.keyboard.press("Enter")
    page.get_by_label("grain along the 12 side").click()
    page.get_by_label("on the metal").click()
    page.get_by_role("button", name="Keep: 2024-T3 clad .032 in, 12 × 8 1/2").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("2024-T3 clad .032 in")
    assert page.evaluate("window.taps") == 10
    added, tagged = written(phone)
    assert added["kind"] == "offcut.added.v1"
    assert added["body"] == {
        "name": None,
        "alloy": "2024",
        "temper": "T3",
        "clad": "clad",
        "form": "sheet",
        "thickness": {"nm": 812800, "text": ".032 in"},
        "measured": "bare",
        "known_by": "mill marking",
        "shape": {
            "kind": "rectangle",
            "a": {"nm": 304800000, "text": "12"},
            "b": {"nm": 215900000, "text": "8 1/2"},
        },
        "grain": "a",
        "note": None,
    }
    assert (tagged["kind"], tagged["body"]) == ("tag.attached.v1", {"code": code, "on": "metal"})
    assert {added["via"], tagged["via"]} == {code}
    assert added["subject"] == tagged["subject"]
    assert added["group"] == tagged["group"] is not None

    # it is found at once, still without a network
    page.get_by_role("link", name="offcuts", exact=True).click()
    page.get_by_label("Width, in").fill("8")
    page.get_by_label("Height, in").fill("8")
    expect(page.get_by_text("1 serves.")).to_be_visible()
    expect(page.get_by_text("Leaves 4 in × 8 1/2 in, spoils 4 sq in.")).to_be_visible()


def test_a_wrong_figure_is_said_beside_it_and_loses_nothing(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    phone = new_phone()
    page = phone.pair()
    page.goto(f"{workshop.url}/offcut/new")
    keep = page.get_by_role("button", name="Keep")
    keep.click()
    for said in (
        "Say which metal it is",
        "Tap the thickness, or type it.",
        "Type the first side.",
        "Say which way the grain runs",
    ):
        expect(page.get_by_text(said)).to_be_visible()
    answer_all_but_figures(page)
    thickness = page.get_by_role("textbox", name="or type it")
    for text, said in (
        ("abc", "“abc” cannot be read as a length."),
        ("-0.032", "A length cannot be below zero."),
        ("1e9", "Write the figure out in full."),
        ("2 in", "That is thicker than any sheet"),
        ("0", "A length must be more than zero."),
    ):
        thickness.fill(text)
        keep.click()
        expect(page.get_by_text(said)).to_be_visible()
        expect(thickness).to_have_value(text)
    thickness.fill("0.8")
    expect(page.get_by_text("Which did you mean, 0.8 in or 0.8 mm?")).to_be_visible()
    page.get_by_role("button", name="0.8 mm").click()
    expect(page.get_by_text("That is .0315 in.")).to_be_visible()
    side(page, "Second").fill("8")
    side(page, "First").fill("1000000")
    keep.click()
    expect(page.get_by_text("That is longer than 10 m")).to_be_visible()
    expect(side(page, "First")).to_be_focused()
    expect(page.get_by_label("mill marking seen")).to_be_checked()
    assert phone.stored("outbox") == []
    # a look at another screen loses nothing either
    page.get_by_role("link", name="offcuts", exact=True).click()
    page.go_back()
    expect(page.get_by_text("Taken up where you left it.")).to_be_visible()
    expect(page.get_by_label("mill marking seen")).to_be_checked()
    expect(side(page, "Second")).to_have_value("8")
    side(page, "First").fill("300 mm")
    keep.click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("300 mm × 8")
    state = fetched(phone, page.url.split("/")[-1], 1)["state"]
    assert state["thickness"] == {"nm": 800_000, "text": "0.8 mm"}
    assert state["shape"]["a"] == {"nm": 300_000_000, "text": "300 mm"}


def test_what_stands_is_put_right_and_a_piece_used_up_can_be_brought_back(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 6))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    page.goto(f"{workshop.url}/offcut/{offcut}")
    page.get_by_role("button", name="Put something right").click(timeout=SLOW)
    page.get_by_label("grain not known").check()
    page.get_by_role("button", name="Keep the changes").click()
    expect(page.get_by_text("grain not known").last).to_be_visible()
    phone.settled()
    page.get_by_role("button", name="Used up").click()
    page.get_by_role("button", name="Yes, it is used up").click()
    expect(page.get_by_text("Used up,")).to_be_visible()
    page.get_by_role("link", name="offcuts", exact=True).click()
    expect(page.get_by_text("No offcut is entered yet.")).to_be_visible()
    page.go_back()
    page.get_by_role("button", name="Undo: it is still here").click()
    expect(page.get_by_role("button", name="Used up")).to_be_visible()
    other = new_phone()
    other.pair(person="Kim Brook", device="office")
    card = fetched(other, offcut, 4)
    changes = [fact["body"] for fact in card["facts"] if fact["kind"] == "offcut.described.v1"]
    assert changes == [{"grain": "unknown"}]
    assert card["state"]["retired"] is None
