"""Rivet lines whose stack changes: a layer comes in, or holes go up a size, without a network."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from running.looking import overflow, serious, small_targets
from running.partstock import written
from running.phone import BenchPhone
from running.sparline import opened, spar_line
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
    expect(page.get_by_text("MS20470AD3-3.5, 62 holes")).to_be_visible(timeout=SLOW)
    confirm = page.get_by_role("button", name="Confirm MS20470AD3-4, 12 holes")
    expect(confirm).to_be_visible()
    expect(page.get_by_text("over Shim, -4")).to_be_visible(timeout=SLOW)
    looked_at(page)
    (event,) = written(phone)
    rest, touched = event["body"]["segments"]
    assert event["kind"] == "line.segments.v1"
    assert (rest["count"], rest["dash"], rest["confirmed"]) == (62, 7, True)
    assert (touched["count"], touched["dash"], touched["was_dash"]) == (12, 8, 7)
    assert touched["confirmed"] is False
    assert [one["part"] for one in touched["layers"]] == [ids["Skin"], ids["Shim"], ids["Spar"]]


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
    expect(page.get_by_role("button", name="Confirm MS20470AD4-4, 2 holes")).to_be_visible(
        timeout=SLOW
    )
    finding, enlarged, segments = written(phone)
    assert finding["kind"] == "finding.opened.v1"
    assert "1.5 D" in finding["body"]["note"]
    assert enlarged["body"] == {"change": "holes enlarged", "holes": 2}
    assert [one["count"] for one in segments["body"]["segments"]] == [72, 2]
