"""Angle, channel and tube: entered, found with what stays after the cut, and planned together."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from running.phone import BenchPhone
from running.sheetstock import enter, inches, sheet
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000


def angle(length: float, legs: tuple[float, float] = (1, 0.75), **change: Any) -> dict[str, Any]:
    """The body of offcut.added: a marked length of 6061-T6 angle with one square end."""
    return {
        **sheet(1, 1, thickness=0.063),
        "alloy": "6061",
        "temper": "T6",
        "clad": "unknown",
        "form": "angle",
        "section": {"sides": [inches(leg) for leg in legs], "hand": "none"},
        "shape": {"kind": "length", "length": inches(length), "square_ends": 1},
        "grain": "unknown",
        **change,
    }


def box(page: Page, name: str) -> Any:
    """A line to type in."""
    return page.get_by_role("textbox", name=name)


def test_a_length_of_angle_is_entered_and_found_without_a_network(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    phone = new_phone()
    page = phone.pair()
    page.goto(f"{workshop.url}/offcut/new")
    expect(page.get_by_label("sheet", exact=True)).to_be_checked()
    workshop.kill()
    page.get_by_label("angle", exact=True).check()
    page.get_by_role("button", name="Keep this offcut").click()
    for said in ("Say which metal it is", "Type the one leg.", "Tap the wall", "how long it is."):
        expect(page.get_by_text(said)).to_be_visible()
    page.get_by_label("6061-T6", exact=True).check()
    page.get_by_label("mill marking seen").check()
    box(page, "One leg").fill("1")
    box(page, "Other leg").fill("1/32")
    page.get_by_label(".063", exact=True).check()
    page.get_by_label("bare metal").check()
    box(page, "How long it is").fill("24")
    page.get_by_label("one square").check()
    expect(page.get_by_text("A leg is no longer than the wall is thick.")).to_be_visible()
    box(page, "Other leg").fill("3/4")
    page.get_by_role("button", name="Keep: 6061-T6 angle 1 × 3/4 × .063 in, 24 long").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("24 long")
    expect(page.get_by_text("One end square and dressed; plain, for either hand.")).to_be_visible()
    (added,) = (json.loads(row["text"])["body"] for row in phone.stored("outbox"))
    assert added["form"] == "angle"
    assert added["section"] == {
        "sides": [{"nm": 25400000, "text": "1"}, {"nm": 19050000, "text": "3/4"}],
        "hand": "none",
    }
    length = {"nm": 609600000, "text": "24"}
    assert added["shape"] == {"kind": "length", "length": length, "square_ends": 1}

    page.get_by_role("link", name="Others of this section").click()
    expect(page.get_by_text("1 serves.")).to_be_visible()
    page.get_by_label("Length, in").fill("6")
    serves = page.locator(".serves > li")
    expect(serves).to_contain_text("Measure from the square end. Mark 6 1/32 in")
    expect(serves).to_contain_text("Leaves 17 29/32 in, spoils 3/32 in.")
    expect(page.get_by_text("Reckoned with 1/16 in for a saw cut")).to_be_visible()
    page.get_by_label("Length, in").fill("24")
    miss = page.get_by_role("link", name="24 long")
    expect(miss).to_contain_text("1/32 in too short once its ends are dressed.")
    page.get_by_label("sheet", exact=True).check()
    expect(page.get_by_label("Width, in")).to_be_visible()


def test_a_cut_list_spoils_the_least_useful_stock_and_keeps_what_the_saw_takes(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    enter(workshop.folder, angle(24), angle(9, (0.75, 1)), angle(12, known_by="unknown"))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(3)
    page.goto(f"{workshop.url}/workshop")
    box(page, "Width of a saw cut").fill("1/8")
    page.get_by_role("button", name="Keep what the saw takes").click()
    expect(page.get_by_text("Changed for every device.")).to_be_visible(timeout=SLOW)
    page.goto(f"{workshop.url}/offcuts?form=angle&length=8")
    page.get_by_role("link", name="Cut several lengths").click()
    first = page.get_by_role("group", name="Length A")
    expect(first.get_by_role("textbox", name="Length, in")).to_have_value("8")
    page.get_by_role("button", name="Another length").click()
    second = page.get_by_role("group", name="Length B")
    second.get_by_role("textbox", name="Length, in").fill("5")
    second.get_by_role("textbox", name="How many").fill("2")
    second.get_by_role("textbox", name="What for").fill("clips")
    said = "All 3 pieces from 2 lengths. No other way spoils less useful stock."
    expect(page.get_by_text(said)).to_be_visible()
    lengths = page.locator(".one-length")
    long = lengths.filter(has_text="24 long")
    # the second mark: the first piece, its dress-off, the kerf, the dress-off of the next, and on
    rows = long.locator("tbody tr").all_inner_texts()
    marks = [row.split("\t")[0].replace("\xa0", " ") for row in rows]
    assert marks == ["5 1/32", "10 7/32"]
    short = lengths.filter(has_text="9 long")
    expect(short).to_contain_text("8 1/32")
    near = page.locator(".not-cut")
    expect(near).to_contain_text("No mark seen: never for structure.")
    # one length is cut: its piece goes from the list, and what is left is an offcut of its own
    long.get_by_role("button", name="It is cut as drawn").click()
    expect(page.get_by_text("13 21/32 in stays as an offcut of its own.")).to_be_visible()
    page.get_by_role("button", name="Yes, it is cut").click()
    expect(page.get_by_text("The piece from one length.")).to_be_visible()
    phone.settled()
    phone.fetched(4)
    (remnant,) = (
        state
        for state in (json.loads(card)["state"] for card in phone.cards().values())
        if state.get("parent")
    )
    assert remnant["shape"]["length"] == {"nm": 346_868_750, "text": "13 21/32 in"}
    assert (remnant["alloy"], remnant["form"]) == ("6061", "angle")
    page.get_by_role("button", name="Another length").click()
    second.get_by_role("textbox", name="Length, in").fill("5")
    second.get_by_role("textbox", name="How many").fill("9")
    expect(page.get_by_text("cannot be had").first).to_be_visible()
    page.emulate_media(media="print")
    expect(page.get_by_role("button", name="Another length")).to_be_hidden()
    expect(page.locator(".on-paper")).to_have_text("6061-T6 angle 1 × 3/4 × .063 in")
