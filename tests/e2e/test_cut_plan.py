"""The cut plan: several pieces over all offcuts, made by the workshop's computer."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from bucktail.storage.opening import open_workshop
from bucktail.workshop.recorder import Recorder
from running.looking import overflow, picture, serious, small_targets
from running.phone import BenchPhone
from running.sheetstock import enter, inches, sheet
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 30_000


def looked_at(page: Page) -> None:
    assert serious(page) == []
    assert not overflow(page)
    assert small_targets(page) == []


def wanted(workshop: Workshop, name: str, a: float, b: float, count: int = 1) -> str:
    """A piece wanted of the metal of sheetstock; its id."""
    body = {
        "what": "doubler",
        "name": name,
        "alloy": "2024",
        "temper": "T3",
        "clad": "clad",
        "thickness": inches(0.032, ".032"),
        "a": inches(a),
        "b": inches(b),
        "grain": "any",
        "count": count,
        "for_parts": [],
        "lines": [],
    }
    with open_workshop(workshop.folder) as session:
        return Recorder(session).record("piece.wanted.v1", body)


def test_pieces_wanted_are_planned_over_the_offcuts_and_go_on_paper(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    wanted(workshop, "Doubler at rib 4", 4, 2, 2)
    wanted(workshop, "Shim", 6, 0.75)
    wanted(workshop, "Skin patch", 40, 30)
    enter(workshop.folder, sheet(8, 5), sheet(20, 12, 0.040))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(5)
    page.goto(f"{workshop.url}/wanted")
    page.get_by_role("link", name="Cut plan").click()
    looked_at(page)
    page.get_by_label("A cut takes").fill("1/16")
    page.get_by_role("button", name="Make the plan").click()
    expect(page.get_by_text("3 pieces from one offcut.")).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("listitem").filter(has_text="Skin patch")).to_be_visible()
    rows = page.get_by_role("row").filter(has_text=re.compile("Doubler at rib 4|Shim"))
    expect(rows).to_have_count(3)
    drawn = page.get_by_role("img", name=re.compile("with 3 pieces to cut"))
    expect(drawn).to_be_visible()
    looked_at(page)
    picture(page, "cut-plan-made-phone-light")
    page.emulate_media(media="print")
    expect(page.get_by_role("button", name="Make the plan")).to_be_hidden()
    picture(page, "cut-plan-made-paper")
    page.emulate_media(media="screen")

    # what is left out is not planned, and a figure that is none is said
    page.get_by_label(re.compile("Skin patch")).uncheck()
    page.get_by_label("A cut takes").fill("wide")
    page.get_by_role("button", name="Make the plan").click()
    expect(page.get_by_role("alert")).to_contain_text("cannot be read as a length")
    page.get_by_label("A cut takes").fill("")
    workshop.stop()
    page.get_by_role("button", name="Make the plan").click()
    expect(page.get_by_role("alert")).to_contain_text("A cut plan needs the workshop computer.")
    expect(page.get_by_text("Skin patch, ")).to_have_count(0)


def test_a_workshop_without_wishes_says_what_a_cut_plan_is(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    page = new_phone().pair()
    page.goto(f"{workshop.url}/cut-plan")
    expect(page.get_by_text("No piece is wanted.")).to_be_visible()
    expect(page.get_by_role("link", name="I need a piece")).to_be_visible()
