"""I need a piece: reckoned, wanted, made, and in its rivet line, without a network."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from running.looking import overflow, serious, small_targets
from running.partstock import written
from running.phone import BenchPhone
from running.sparline import opened, spar_line
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000
SHIM = "gap=.032&length=5&width=1/2&alloy=2024-T3&stack=.032;.040&diameter=3/32"


def test_a_shim_is_reckoned_wanted_and_made_and_its_line_waits_for_its_rivets(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    line, ids = spar_line(workshop.folder)
    phone, page = opened(workshop, new_phone, line)
    page.goto(f"{workshop.url}/wanted")
    expect(page.get_by_text("No piece is wanted.")).to_be_visible(timeout=SLOW)

    # 5/16 in is less than twice the edge distance of 2 D
    page.goto(f"{workshop.url}/reckoner/shim?{SHIM.replace('width=1/2', 'width=5/16')}&for={line}")
    why = page.get_by_role("region", name="The answer").locator(".why")
    expect(why).to_contain_text("too narrow for its rivets by 1/16 in", timeout=SLOW)
    expect(page.get_by_text("it is not offered as a piece")).to_be_visible()
    expect(page.get_by_role("button", name="I want this piece")).to_have_count(0)

    page.goto(f"{workshop.url}/reckoner/shim?{SHIM}&for={line}")
    page.get_by_role("button", name="I want this piece").click(timeout=SLOW)
    expect(page.get_by_label("Name")).to_have_value("Shim for rear spar, top")
    for found in (serious(page), small_targets(page), overflow(page)):
        assert not found
    page.get_by_role("button", name="Wanted: Shim for rear spar, top").click()
    expect(page.get_by_text("From .032 in 2024-T3, 5 in × 1/2 in.")).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("link", name="Which offcuts serve?")).to_be_visible()
    for found in (serious(page), small_targets(page), overflow(page)):
        assert not found
    page.get_by_role("link", name="It is made").click()
    # grip .104 in + 1.5 x 3/32 in is .2446 in: -4
    expect(page.get_by_text("-3.5 to -4")).to_be_visible(timeout=SLOW)
    for found in (serious(page), small_targets(page), overflow(page)):
        assert not found
    page.get_by_role("button", name="Made: Shim for rear spar, top").click()
    expect(page.get_by_role("heading", name="Shim for rear spar, top")).to_be_visible(timeout=SLOW)

    wanted, kept, added, steps, met, segments = written(phone)
    assert [wanted["kind"], kept["kind"]] == ["piece.wanted.v1", "sum.kept.v1"]
    assert wanted["body"]["lines"] == [line]
    assert (added["body"]["material"], added["body"]["thickness"]["nm"]) == ("2024-T3", 812_800)
    assert steps["subject"] == added["subject"] == met["body"]["part"]
    assert len({one["group"] for one in (added, steps, met, segments)}) == 1
    touched = segments["body"]["segments"][-1]
    assert (touched["dash"], touched["was_dash"], touched["confirmed"]) == (8, 7, False)
    assert [one["part"] for one in touched["layers"]] == [
        ids["Skin"],
        added["subject"],
        ids["Spar"],
    ]
    page.goto(f"{workshop.url}/line/{line}")
    confirm = page.get_by_role("button", name="Confirm MS20470AD3-4")
    expect(confirm).to_be_visible(timeout=SLOW)
    page.goto(f"{workshop.url}/wanted")
    expect(page.get_by_text("All of them are made.")).to_be_visible(timeout=SLOW)
