"""Offcuts of any shape, entered at the bench without a network from what can be measured there."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Callable
from typing import Any

import ezdxf
import pytest
from playwright.sync_api import Locator, Page, expect

from running.looking import overflow, serious, small_targets
from running.phone import BenchPhone
from running.sheetstock import enter, fetched, sheet
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000
IN = 25_400_000


def line(page: Page | Locator, name: str) -> Locator:
    """A line to type in, by its whole label."""
    return page.get_by_role("textbox", name=re.compile(rf"^{name}"))


def start(page: Page, workshop: Workshop) -> None:
    """A new offcut, with all answered but its shape."""
    page.goto(f"{workshop.url}/offcut/new")
    page.get_by_label("2024-T3").check(timeout=SLOW)
    page.get_by_label("clad", exact=True).check()
    page.get_by_label("mill marking seen").check()
    page.get_by_label(".032", exact=True).check()
    page.get_by_label("bare metal").check()


def keep(page: Page, phone: BenchPhone, name: str) -> dict[str, Any]:
    """Keep it under that name; the body that was written."""
    page.get_by_role("button", name=f"Keep: 2024-T3 clad .032 in, {name}", exact=True).click()
    expect(page.locator("h1")).to_contain_text("2024-T3 clad .032 in")
    body: dict[str, Any] = json.loads(phone.stored("outbox")[-1]["text"])["body"]
    return body


def good(page: Page) -> None:
    """What every screen must be, in both themes."""
    for theme in ("light", "evening"):
        page.evaluate("(to) => { document.documentElement.dataset.theme = to }", theme)
        assert serious(page) == []
    assert small_targets(page) == []
    assert not overflow(page)


def test_a_corner_off_with_a_hole_and_damage_and_the_grain_at_an_angle(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    phone = new_phone()
    page = phone.pair()
    start(page, workshop)
    workshop.kill()
    page.get_by_label("a corner off").check()
    line(page, "First side").fill("12")
    line(page, "Second side").fill("8")
    line(page, "Along the first side").fill("3")
    line(page, "Along the second side").fill("50.8mm")
    page.get_by_role("button", name="A hole, mark or damage in it").click()
    line(page, "How wide across").fill("1")
    line(page, "From the left edge").fill("20")
    line(page, "From the bottom edge").fill("2")
    expect(page.get_by_text("Keep-out 1 lies outside the sheet.")).to_be_visible()
    page.get_by_role("button", name="From the right instead").click()
    line(page, "From the right edge").fill("76.2 mm")
    expect(page.get_by_text("92 sq in of metal.")).to_be_visible()
    page.get_by_role("button", name="Another keep-out").click()
    damage = page.get_by_role("group", name="Keep-out 2")
    damage.get_by_label("mark or damage").check()
    line(damage, "How wide across").fill("1/2")
    damage.get_by_role("button", name="Show the place on the drawing").click()
    drawing = page.locator(".outline-drawing svg")
    box = drawing.bounding_box()
    assert box
    page.touchscreen.tap(box["x"] + box["width"] * 0.3, box["y"] + box["height"] * 0.5)
    expect(line(damage, "From the left edge")).not_to_have_value("")
    page.get_by_label("grain at an angle").check()
    line(page, "Its angle to the first side").fill("30")
    good(page)
    body = keep(page, phone, "12 × 8 in, corner off, 2 keep-outs")
    shape = body["shape"]
    assert (shape["kind"], body["grain"], len(shape["outer"]), len(shape["holes"])) == (
        "outline",
        "a",
        5,
        2,
    )
    assert shape["entered"]["way"] == "corner off"
    texts = shape["entered"]["texts"]
    assert (texts["a"], texts["off 1 b"], texts["keep 1 x"]) == ("12 in", "50.8mm", "76.2 mm")
    assert min(x for x, _ in shape["outer"]) == min(y for _, y in shape["outer"]) == 0
    expect(page.get_by_text("grain at 30° to its first side")).to_be_visible()
    good(page)

    # it is listed, and a near miss until it has been measured
    page.get_by_role("link", name="offcuts", exact=True).click()
    expect(page.get_by_text(".032 in, 12 × 8 in, corner off, 2 keep-outs")).to_be_visible()
    page.get_by_label("Width, in").fill("4")
    page.get_by_label("Height, in").fill("3")
    expect(page.get_by_text("0 serve", exact=False).or_(page.get_by_text("No offcut serves")))
    expect(
        page.get_by_text(re.compile("measured when the workshop computer", re.I))
    ).to_be_visible()


def test_walking_the_sides_says_what_is_wrong_and_undoes_the_last(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    phone = new_phone()
    page = phone.pair()
    start(page, workshop)
    workshop.kill()
    page.get_by_label("walk its sides").check()
    following = page.get_by_role("button", name="Next side")
    for length in ("12", "6", "5", "9"):
        line(page, "Length").fill(length)
        following.click()
        expect(line(page, "Length")).to_be_focused()
    expect(page.get_by_text("Side 4 crosses side 1.")).to_be_visible()
    expect(page.locator(".fault-mark")).to_have_count(1)
    page.get_by_role("button", name="Undo the last side").click()
    expect(page.get_by_text("Side 4 crosses side 1.")).to_have_count(0)
    # side 3 again: it was too short
    page.get_by_role("button", name="Side 3", exact=False).click()
    line(page, "Length").fill("304.8 mm")
    following.click()
    page.get_by_role("button", name="Straight back to the start: 6 in").click()
    page.get_by_label("grain along the first side").check()
    page.get_by_role("button", name="Straight back to the start. Tap to go on").click()
    following.click()
    line(page, "Length").fill("5 63/64")
    expect(page.get_by_text("1/64 in from where the first began: closed on the")).to_be_visible()
    good(page)
    body = keep(page, phone, "12 × 6 in, odd shape")
    assert body["shape"]["entered"]["way"] == "walked"
    assert len(body["shape"]["outer"]) == 4
    # on the safe side: what was measured short is not told as metal
    assert max(x for x, _ in body["shape"]["outer"]) == 12 * IN
    page.get_by_role("button", name="Put something right").click()
    expect(page.get_by_label("walk its sides")).to_be_checked()
    expect(line(page, "Length")).to_have_value("5 63/64 in")


def test_an_open_outline_is_not_kept_and_the_place_is_shown(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    phone = new_phone()
    page = phone.pair()
    start(page, workshop)
    page.get_by_label("walk its sides").check()
    for length in ("12", "6", "10"):
        line(page, "Length").fill(length)
        page.get_by_role("button", name="Next side").click()
    page.get_by_label("grain along the first side").check()
    page.get_by_role("button", name="Keep this offcut").click()
    expect(page.get_by_role("alert")).to_contain_text("Not closed: the last side ends 6 21/64 in")
    expect(page.locator(".outline-drawing .wrong")).to_have_count(1)
    assert phone.stored("outbox") == []


def test_a_rectangle_becomes_an_l_when_it_is_put_right(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 8))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    page.goto(f"{workshop.url}/offcut/{offcut}")
    page.get_by_role("button", name="Put something right").click(timeout=SLOW)
    page.get_by_label("L", exact=True).check()
    page.get_by_label("bottom left").check()
    line(page, "Along the first side").fill("4")
    line(page, "Along the second side").fill("3")
    page.get_by_role("button", name="Keep the changes").click()
    expect(page.get_by_text("12 × 8 in (304.8 × 203.2 mm), L, 84 sq in of metal")).to_be_visible()
    phone.settled()
    card = fetched(phone, offcut, 2)
    assert [fact["body"].keys() for fact in card["facts"][1:]] == [{"shape"}]
    assert card["state"]["shape_from"] == card["facts"][1]["id"]
    assert [0, 3 * IN] in card["state"]["shape"]["outer"]


def test_an_outline_out_of_a_drawing_file(workshop: Workshop, new_phone: NewPhone) -> None:
    phone = new_phone()
    page = phone.pair()
    start(page, workshop)
    page.get_by_label("a drawing file (DXF)").check()
    document = ezdxf.new("R2010")
    document.header["$INSUNITS"] = 0
    space = document.modelspace()
    space.add_lwpolyline([(10, 20), (110, 20), (110, 70), (60, 90), (10, 70)], close=True)
    space.add_lwpolyline([(20, 30), (30, 30), (30, 40), (20, 40)], close=True)
    text = io.StringIO()
    document.write(text)
    file = {"name": "web.dxf", "mimeType": "application/dxf", "buffer": text.getvalue().encode()}
    page.get_by_label("The drawing file").set_input_files([file])  # type: ignore[list-item]
    page.get_by_role("button", name="It is in millimetres").click(timeout=SLOW)
    page.get_by_label("grain not known").check(timeout=SLOW)
    expect(page.locator(".outline-drawing .keep-out")).to_have_count(1)
    body = keep(page, phone, "100 × 70 mm, odd shape, 1 keep-out")
    assert body["shape"]["entered"] == {"way": "dxf", "texts": {"file": "web.dxf", "unit": "mm"}}
    assert len(body["shape"]["outer"]) == 5 and len(body["shape"]["holes"]) == 1
