"""A rivet line: made at the part, worked through by layers, not finished while holes are open."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import expect

from running.looking import overflow, serious, small_targets
from running.partstock import part, step, told, written
from running.phone import BenchPhone
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000


def line(skin: str, spar: str, **more: Any) -> dict[str, Any]:
    """The body of a line of 164 holes, of which 16 wait for nut plates."""
    layers = [{"part": skin, "treat": "dimple"}, {"part": spar, "treat": "dimple"}]
    return {
        "name": "rear spar, top",
        "count": 164,
        "supplied": "pilot",
        "head": "flush",
        "fastener": {"kind": "rivet", "text": "3/32"},
        "layers": layers,
        "open": [{"n": 16, "fills": "nut plates"}],
        **more,
    }


def test_t3_riveting_with_16_left_open_records_148_and_is_not_finished(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    skin = part(workshop.folder, "Skin", "skin flush")
    spar = part(workshop.folder, "Spar", "rib")
    subject = skin[:-4] + "beef"
    told(workshop.folder, subject, "line.set.v1", line(skin, spar))
    for op in ("fit", "drill"):
        told(workshop.folder, subject, "step.recorded.v1", step(op, of=164))
    for layer in (skin, spar):
        for op in ("deburr", "dimple"):
            told(workshop.folder, subject, "step.recorded.v1", step(op, of=164, layer=layer))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(3)
    page.goto(f"{workshop.url}/line/{subject}")
    label = "Riveted: 148 of 164, 16 left open for the nut plates"
    button = page.get_by_role("button", name=label, exact=True)
    expect(button).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("Spar is not cleaned or primed yet.")).to_be_visible()
    assert serious(page) == []
    assert small_targets(page) == []
    assert not overflow(page)
    button.click()
    unfinished = page.get_by_text("Not finished: 16 of 164 holes are open, for nut plates.")
    expect(unfinished).to_be_visible(timeout=SLOW)
    (riveted,) = written(phone)
    assert riveted["subject"] == subject
    assert riveted["body"] == {
        "op": "rivet",
        "result": "all",
        "done": 148,
        "of": 164,
        "open": [{"n": 16, "fills": "nut plates"}],
    }
    page.get_by_role("button", name="Riveted: all 164", exact=True).click(timeout=SLOW)
    expect(unfinished).to_have_count(0)
    expect(page.get_by_text("Nothing is open on this line.")).to_be_visible()


def segment(layers: list[Any], name: str, count: int, **more: Any) -> dict[str, Any]:
    """Holes of the line that share one stack, with rivets of -3.5 unless told."""
    told = {"dash": 7, "was_dash": None, "confirmed": True, **more}
    fastener = {"kind": "rivet", "text": "MS20426AD3"}
    return {"name": name, "count": count, "layers": layers, "fastener": fastener, **told}


def test_t6_rivets_of_another_length_are_not_offered_until_someone_confirms_them(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    skin = part(workshop.folder, "Skin", "skin flush")
    spar = part(workshop.folder, "Spar", "rib")
    subject = skin[:-4] + "beef"
    body = line(skin, spar, open=[], supplied="final")
    told(workshop.folder, subject, "line.set.v1", body)
    for layer in (skin, spar):
        for op in ("deburr", "dimple"):
            told(workshop.folder, subject, "step.recorded.v1", step(op, of=164, layer=layer))
    longer = {"dash": 8, "was_dash": 7, "confirmed": False}
    segments = [
        segment(body["layers"], "inboard", 152),
        segment(body["layers"], "over the shim", 12, **longer),
    ]
    told(workshop.folder, subject, "line.segments.v1", {"segments": segments})
    phone = new_phone()
    page = phone.pair()
    phone.fetched(3)
    page.goto(f"{workshop.url}/line/{subject}")
    sentence = "The rivets of 12 holes changed from -3.5 to -4: confirm them first."
    expect(page.get_by_text(f"Not ready to rivet. {sentence}")).to_be_visible(timeout=SLOW)
    riveted = page.get_by_role("button", name="Riveted: all 164", exact=True)
    expect(riveted).to_have_count(0)
    assert serious(page) == []
    assert small_targets(page) == []
    assert not overflow(page)

    page.get_by_role("button", name="Rivet: to do").click()
    riveted.click()
    stop = page.get_by_role("dialog", name="Not ready to rivet")
    expect(stop).to_contain_text(sentence)
    stop.get_by_role("button", name="Do not rivet yet").click()
    assert written(phone) == []

    page.reload()
    page.get_by_role("button", name="MS20426AD3-4 confirmed: 12 holes").click(timeout=SLOW)
    expect(page.get_by_text("Not ready to rivet.")).to_have_count(0)
    riveted.click(timeout=SLOW)
    expect(page.get_by_text("Nothing is open on this line.")).to_be_visible(timeout=SLOW)
    confirmed, rivet = written(phone)
    segments[1]["confirmed"] = True
    assert (confirmed["kind"], confirmed["body"]) == ("line.segments.v1", {"segments": segments})
    assert rivet["body"]["op"] == "rivet"
    expect(page.get_by_role("heading", name="To look at")).to_have_count(0)
    phone.settled()


def test_a_line_is_made_at_the_part_and_shows_in_its_strip(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    skin = part(workshop.folder, "Skin", "skin flush", None)
    spar = part(workshop.folder, "Spar", "rib", None)
    for op in ("film", "edges", "fit", "drill", "deburr"):
        told(workshop.folder, skin, "step.recorded.v1", step(op))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(2)
    page.goto(f"{workshop.url}/part/{skin}")
    page.get_by_role("link", name="A rivet line of its own").click(timeout=SLOW)
    page.get_by_label("Name").fill("nut plates, access hole")
    page.get_by_role("textbox", name="Holes Leave it empty").fill("24")
    page.get_by_label("Fastened by").select_option("nut plate")
    page.get_by_label("flush", exact=True).check()
    page.get_by_role("button", name="Spar").click()
    page.get_by_role("button", name="Make this line").click()
    expect(page.get_by_role("alert")).to_contain_text("the first layer cannot have plain holes")
    page.locator(".layers select").first.select_option("dimple")
    page.get_by_label("Thickness").first.fill(".032")
    page.get_by_role("button", name="Make this line").click()
    expect(page.get_by_role("heading", name="nut plates, access hole")).to_be_visible(timeout=SLOW)

    page.get_by_role("button", name="Trial fitted: all 24", exact=True).click()
    page.get_by_role("button", name="Final drilled: all 24", exact=True).click(timeout=SLOW)
    page.get_by_role("button", name="Deburred: all 24, Skin", exact=True).click(timeout=SLOW)
    page.get_by_role("button", name="Deburred: all 24, Spar", exact=True).click(timeout=SLOW)
    expect(page.get_by_role("button", name="Dimpled: all 24, Skin", exact=True)).to_be_visible()
    (made, *steps) = written(phone)
    assert made["kind"] == "line.set.v1"
    assert made["body"]["layers"] == [
        {"part": skin, "thickness": {"nm": 812_800, "text": ".032"}, "treat": "dimple"},
        {"part": spar, "thickness": None, "treat": "plain"},
    ]
    assert [(one["body"]["op"], one["body"].get("layer")) for one in steps] == [
        ("fit", None),
        ("drill", None),
        ("deburr", skin),
        ("deburr", spar),
    ]
    page.get_by_role("link", name="Skin", exact=True).click()
    deburr = page.get_by_role("button", name="Deburr: done; nut plates, access hole done")
    expect(deburr).to_be_visible(timeout=SLOW)
    phone.settled()  # the workshop's computer takes the line and what was done on it


def test_holes_added_to_a_line_reopen_it_and_a_line_made_by_mistake_goes(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    skin = part(workshop.folder, "Skin", "skin flush")
    subject = skin[:-4] + "beef"
    layers = [{"part": skin, "treat": "dimple"}]
    told(workshop.folder, subject, "line.set.v1", line(skin, skin, layers=layers, open=[]))
    for op in ("fit", "drill"):
        told(workshop.folder, subject, "step.recorded.v1", step(op, of=164))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(2)
    page.goto(f"{workshop.url}/line/{subject}")
    page.get_by_role("link", name="Holes added or enlarged").click(timeout=SLOW)
    page.get_by_label("holes were added").check()
    page.get_by_label("How many holes?").fill("6")
    page.get_by_role("button", name="6 holes added").click()
    again = page.get_by_role("button", name="Final drill: do again, 164 of 170 still good")
    expect(again).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("button", name="Final drilled: all 170", exact=True)).to_be_visible()
    page.get_by_role("link", name="Entered by mistake").click()
    page.get_by_role("button", name="Entered by mistake").click()
    stop = page.get_by_role("dialog", name="Entered by mistake: rear spar, top?")
    stop.get_by_role("button", name="Entered by mistake").click()
    expect(page.get_by_text("Out of the lists, entered by mistake")).to_be_visible(timeout=SLOW)
    page.goto(f"{workshop.url}/part/{skin}")
    expect(page.get_by_role("heading", name="Skin", exact=True)).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("rear spar, top")).to_have_count(0)
