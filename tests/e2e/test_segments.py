"""Rivet lines whose stack changes: a layer comes in, or holes go up a size, without a network."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from running.looking import overflow, serious, small_targets
from running.partstock import written
from running.phone import BenchPhone
from running.sparline import flush_line, opened, shim_in, spar_line
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000


def looked_at(page: Page) -> None:
    assert serious(page) == []
    assert small_targets(page) == []
    assert not overflow(page)


def test_t6_a_shim_in_a_line_changes_its_rivets_and_they_wait_until_confirmed(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    line, ids = spar_line(workshop.folder)
    phone, page = opened(workshop, new_phone, line)
    page.get_by_role("link", name="A layer comes in").click(timeout=SLOW)
    page.get_by_role("button", name="Shim").click(timeout=SLOW)
    page.get_by_label("How many holes?").fill("99")
    expect(page.get_by_role("alert")).to_contain_text("has 74 holes")
    page.get_by_label("How many holes?").fill("12")
    # grip .104 in + 1.5 x 3/32 in is .2446 in: the nearest that is made is -4
    expect(page.get_by_text("-3.5 to -4")).to_be_visible()
    expect(page.get_by_role("img").last).to_be_visible()
    looked_at(page)
    page.get_by_role("button", name="Put it in: 12 holes").click()
    expect(page.get_by_text("62 holes: MS20470AD3-3.5")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("Was -3.5, now -4: confirm.")).to_contain_text(
        "Shim came in between Skin and Spar.", timeout=SLOW
    )
    expect(page.get_by_text("plain hole, .032 in, new here")).to_be_visible()
    looked_at(page)
    (event,) = written(phone)
    rest, touched = event["body"]["segments"]
    assert event["kind"] == "line.segments.v1"
    assert (rest["count"], rest["dash"], rest["confirmed"]) == (62, 7, True)
    assert (touched["count"], touched["dash"], touched["was_dash"]) == (12, 8, 7)
    assert touched["confirmed"] is False
    assert [one["part"] for one in touched["layers"]] == [ids["Skin"], ids["Shim"], ids["Spar"]]


def test_the_layer_that_came_in_is_worked_on_and_its_rivets_are_confirmed_after_a_look(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    line, ids = spar_line(workshop.folder)
    over = shim_in(workshop.folder, line, ids)
    phone, page = opened(workshop, new_phone, line)
    expect(page.get_by_text("12 holes: MS20470AD3-4, not confirmed")).to_be_visible(timeout=SLOW)
    page.locator(".layer-strip", has_text="Shim").get_by_role("button").click()
    expect(page.get_by_role("button", name="Deburred: all 12, Shim")).to_be_visible()

    page.get_by_role("link", name="Another length").first.click()
    page.get_by_text("-4.5: sticks out 1.89 D, too much").click(timeout=SLOW)
    expect(page.get_by_text("The published range is 1.3 to 1.7 D.")).to_be_visible()
    looked_at(page)
    expect(page.get_by_role("button", name="MS20470AD3-4.5 confirmed: 12 holes")).to_be_enabled()
    page.get_by_role("link", name="Back to").click()

    confirm = page.get_by_role("button", name="MS20470AD3-4 confirmed: 12 holes", exact=True)
    confirm.click(timeout=SLOW)
    expect(page.get_by_text("not confirmed")).to_have_count(0)
    page.get_by_role("button", name="Undo: MS20470AD3-4 confirmed 12 holes").click()
    confirm.click(timeout=SLOW)
    expect(confirm).to_have_count(0)
    first, back, again = written(phone)
    assert first["body"] == again["body"] == {"segments": [over[0], {**over[1], "confirmed": True}]}
    assert (back["kind"], back["body"]) == ("event.withdrawn.v1", {"event": first["id"]})
    page.goto(f"{workshop.url}/part/{ids['Shim']}")
    expect(page.get_by_role("link", name="rear spar, top")).to_be_visible(timeout=SLOW)


def test_t6_a_thicker_layer_written_into_the_line_itself_makes_its_rivets_wait(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    line, ids = spar_line(workshop.folder)
    shim_in(workshop.folder, line, ids, confirmed=True)
    phone, page = opened(workshop, new_phone, line)
    page.get_by_role("link", name="Holes, fasteners and layers").click(timeout=SLOW)
    page.get_by_role("textbox", name="Thickness").nth(1).fill(".063")
    keep = page.get_by_role("button", name="Keep the line so")
    keep.click()
    stop = page.get_by_role("dialog", name="The rivets change with it")
    expect(stop).to_contain_text("62 holes: -3.5 to -4. 12 holes: -4 to -4.5.", timeout=SLOW)
    stop.get_by_role("button", name="Go back").click()
    assert written(phone) == []
    keep.click()
    stop.get_by_role("button", name="Keep the line so").click(timeout=SLOW)
    expect(page.get_by_text("12 holes: MS20470AD3-4.5, not confirmed")).to_be_visible(timeout=SLOW)
    changed, segments = written(phone)
    assert changed["kind"] == "line.set.v1"
    assert [one["was_dash"] for one in segments["body"]["segments"]] == [7, 8]


def test_t5_a_piece_that_is_not_entered_is_only_looked_at_with_its_flush_heads(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    line, ids = spar_line(workshop.folder)
    flush_line(workshop.folder, line, ids)
    phone, page = opened(workshop, new_phone, line)
    needs = "needs .0455 in, has .040 in"
    expect(page.get_by_text(needs)).to_be_visible(timeout=SLOW)
    page.get_by_role("link", name="A layer comes in").click()
    page.get_by_role("button", name="Not entered yet").click(timeout=SLOW)
    page.get_by_label("What it is").fill("Filler")
    page.get_by_label("Thickness").fill(".020")
    page.get_by_text("last, beneath Spar").click()
    page.get_by_text("plain hole", exact=True).click()
    expect(page.get_by_text("Filler, .020 in, plain, new")).to_be_visible()
    expect(page.get_by_text(needs)).to_be_visible()
    page.get_by_text("between Skin and Spar").click()
    expect(page.get_by_text("has no room in a plain hole")).to_be_visible()
    expect(page.get_by_role("button", name="Put it in")).to_have_count(0)
    expect(page.get_by_role("link", name="Enter this part")).to_be_visible()
    looked_at(page)
    assert written(phone) == []


def test_t8_a_hole_without_room_for_the_next_rivet_is_not_offered_but_written_down(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    line, _ = spar_line(workshop.folder)
    phone, page = opened(workshop, new_phone, line)
    page.get_by_role("link", name="Holes go up a size").click(timeout=SLOW)
    page.get_by_label("How many holes?").fill("2")
    page.get_by_label("From the hole to the edge").fill("abc")
    expect(page.get_by_role("alert")).to_contain_text("cannot be read as a length")
    page.get_by_label("From the hole to the edge").fill(".1875")
    expect(page.get_by_text("Fails")).to_be_visible()
    expect(page.get_by_text("is 1.5 D")).to_be_visible()
    expect(page.get_by_role("button", name="Drilled out")).to_have_count(0)
    looked_at(page)
    page.get_by_role("button", name="Write it down as a finding").click()
    expect(page.get_by_text("Hole oversize, no room for the next rivet")).to_be_visible(
        timeout=SLOW
    )
    page.get_by_role("link", name="Holes go up a size").click()
    page.get_by_label("How many holes?").fill("2")
    page.get_by_label("From the hole to the edge").fill("5/16")
    page.get_by_label("To the nearest rivet").fill("3/4")
    page.get_by_role("button", name="Drilled out for MS20470AD4").click()
    expect(page.get_by_role("button", name="MS20470AD4-4 confirmed: 2 holes")).to_be_visible(
        timeout=SLOW
    )
    finding, enlarged, segments = written(phone)
    assert finding["kind"] == "finding.opened.v1"
    assert "1.5 D" in finding["body"]["note"]
    assert enlarged["body"] == {"change": "holes enlarged", "holes": 2}
    assert [one["count"] for one in segments["body"]["segments"]] == [72, 2]
