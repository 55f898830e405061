"""I need a piece: reckoned, wanted, made, and in its rivet line, without a network."""

from __future__ import annotations

import json
import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from running.looking import overflow, serious, small_targets
from running.partstock import told, written
from running.phone import BenchPhone
from running.sparline import length, opened, spar_line
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000
NAME = "Shim for rear spar, top"
SHIM = "gap=.032&length=5&width=1/2&alloy=2024-T3&stack=.032;.040&diameter=3/32"


def looked_at(page: Page) -> None:
    """What every screen must be."""
    assert serious(page) == []
    assert small_targets(page) == []
    assert not overflow(page)


def wish_for(page: Page, url: str, line: str) -> None:
    """A shim that is too narrow is not offered, one that is wide enough is wanted for the line."""
    # 5/16 in is less than twice the edge distance of 2 D
    page.goto(f"{url}/reckoner/shim?{SHIM.replace('width=1/2', 'width=5/16')}&for={line}")
    answer = page.get_by_role("region", name="The answer")
    expect(answer.locator(".why")).to_contain_text("too narrow for its rivets by 1/16 in")
    expect(answer.get_by_text("1/32 in short").first).to_be_visible()  # at each side, drawn
    expect(page.get_by_text("it is not offered as a piece")).to_be_visible()
    expect(page.get_by_role("button", name="I want this piece")).to_have_count(0)
    page.goto(f"{url}/reckoner/shim?{SHIM}&for={line}")
    page.get_by_role("button", name="I want this piece").click(timeout=SLOW)
    expect(page.get_by_label("Name")).to_have_value(NAME)
    looked_at(page)
    page.get_by_role("button", name=f"Wanted: {NAME}").click()


def test_a_shim_is_reckoned_wanted_and_made_and_its_line_waits_for_its_rivets(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    line, ids = spar_line(workshop.folder)
    phone, page = opened(workshop, new_phone, line)
    page.goto(f"{workshop.url}/wanted")
    expect(page.get_by_text("No piece is wanted.")).to_be_visible(timeout=SLOW)
    wish_for(page, workshop.url, line)

    expect(page.get_by_text("From .032 in 2024-T3, 5 in × 1/2 in.")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("0.813 mm thick, 127 mm × 12.7 mm")).to_be_visible()
    expect(
        page.get_by_role("img", name=re.compile("A piece from above, 5 in long"))
    ).to_be_visible()
    expect(page.get_by_text("reminder, not an approval").first).to_be_visible()
    expect(page.get_by_text("AC 43.13-1B").first).to_be_visible()
    serve = page.get_by_role("link", name="Which offcuts serve?")
    expect(serve).to_have_attribute(
        "href", "/offcuts?metal=2024-T3&clad=bare&thickness=.032+in&width=5+in&height=1%2F2+in"
    )
    looked_at(page)
    page.get_by_role("link", name="It is made").click()
    # grip .104 in + 1.5 x 3/32 in is .2446 in: -4
    recorded = page.get_by_role("listitem").filter(has_text="They wait to be confirmed")
    expect(recorded).to_contain_text("-3.5 to -4", timeout=SLOW)
    looked_at(page)
    page.get_by_role("button", name=f"Made: {NAME}").click()
    expect(page).to_have_url(re.compile("/part/"), timeout=SLOW)
    expect(page.get_by_role("heading", name=NAME)).to_be_visible(timeout=SLOW)

    wanted, kept, added, steps, met, segments = written(phone)
    assert [wanted["kind"], kept["kind"]] == ["piece.wanted.v1", "sum.kept.v1"]
    assert wanted["group"] == kept["group"] and wanted["subject"] == kept["subject"]
    assert wanted["body"]["lines"] == [line]
    assert (added["body"]["material"], added["body"]["thickness"]["nm"]) == ("2024-T3", 812_800)
    assert steps["subject"] == added["subject"] == met["body"]["part"]
    assert (steps["body"]["holes"]["supplied"], steps["body"]["ops"]["drill"]) == ("none", "do")
    assert len({one["group"] for one in (added, steps, met, segments)}) == 1
    touched = segments["body"]["segments"][-1]
    assert (touched["dash"], touched["was_dash"], touched["confirmed"]) == (8, 7, False)
    assert [one["part"] for one in touched["layers"]] == [
        ids["Skin"],
        added["subject"],
        ids["Spar"],
    ]
    page.goto(f"{workshop.url}/line/{line}")
    confirm = page.get_by_role("button", name="MS20470AD3-4 confirmed")
    expect(confirm).to_be_visible(timeout=SLOW)
    page.goto(f"{workshop.url}/wanted")
    expect(page.get_by_text("All of them are made.")).to_be_visible(timeout=SLOW)

    workshop.start()
    page.reload()
    phone.settled()
    other = new_phone()
    other.pair("Robin Marsh", "second phone")
    other.fetched(6)
    for thing in (line, wanted["subject"], added["subject"]):
        assert json.loads(other.cards()[thing]) == json.loads(phone.cards()[thing])


def test_a_piece_is_changed_made_not_made_after_all_and_no_longer_wanted(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    line, ids = spar_line(workshop.folder)
    piece = ids["Shim"][:-4] + "cafe"
    body = {
        "what": "shim",
        "name": "Packing",
        "alloy": "2024",
        "temper": "T3",
        "clad": "bare",
        "thickness": length(".032"),
        "a": length("5"),
        "b": length(".5"),
        "grain": "any",
        "count": 1,
        "holes": 12,
        "for_parts": [],
        "lines": [line],
    }
    told(workshop.folder, piece, "piece.wanted.v1", body)
    phone, page = opened(workshop, new_phone, line)
    page.goto(f"{workshop.url}/wanted/{piece}/edit")
    page.get_by_role("textbox", name="Second side").fill("wide")
    expect(page.get_by_role("alert").first).to_contain_text("cannot be read as a length")
    page.get_by_role("textbox", name="Second side").fill("5/8")
    looked_at(page)
    page.get_by_role("button", name="Keep the changes").click()
    expect(page.get_by_role("img", name="5 in × 5/8 in")).to_be_visible(timeout=SLOW)

    page.goto(f"{workshop.url}/wanted/{piece}/made")
    page.get_by_role("button", name="Made: Packing").click(timeout=SLOW)
    expect(page).to_have_url(re.compile("/part/"), timeout=SLOW)
    page.goto(f"{workshop.url}/wanted/{piece}/made")  # once is enough
    page.get_by_role("button", name="It was not made after all").click(timeout=SLOW)
    page.get_by_role("button", name="It was not made", exact=True).click()
    expect(page.get_by_role("link", name="It is made")).to_be_visible(timeout=SLOW)

    page.get_by_role("button", name="No longer wanted, or entered by mistake").click()
    page.get_by_role("button", name="No longer wanted", exact=True).click()
    page.get_by_role("button", name="Take this back").first.click(timeout=SLOW)
    expect(page.get_by_role("link", name="It is made")).to_be_visible(timeout=SLOW)
    page.goto(f"{workshop.url}/line/{line}")
    expect(page.get_by_text("74 holes", exact=False).first).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("button", name=re.compile("confirmed"))).to_have_count(0)
    page.goto(f"{workshop.url}/find")
    page.get_by_label("Where is it?").fill("packing")
    expect(page.get_by_text("piece wanted, still to be made")).to_be_visible(timeout=SLOW)

    kinds = [one["kind"] for one in written(phone)]
    assert kinds == [
        *["piece.described.v1", "part.added.v1", "steps.set.v1", "piece.met.v1"],
        *["line.segments.v1", "piece.met.v1", "thing.retired.v1", "event.withdrawn.v1"],
        *["thing.retired.v1", "event.withdrawn.v1"],
    ]
