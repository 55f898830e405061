"""The bench sums on the phone, without a network: reckoned, refused, kept, opened again."""

from __future__ import annotations

import json
import re
import time
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from bucktail.rules.rulebook import version
from running.looking import overflow, serious, small_targets
from running.partstock import part, told, written
from running.phone import BenchPhone
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]


def fit_for_the_bench(page: Page) -> None:
    """What every screen must be."""
    assert serious(page) == []
    assert small_targets(page) == []
    assert not overflow(page)


def reckon_a_rivet(page: Page) -> None:
    """By taps only, as with gloves on."""
    page.get_by_role("button", name="Add .032 in").click()
    expect(page.get_by_text("Still to give: rivet diameter.")).to_be_visible()
    page.get_by_role("radio", name="1/8 inch").click()
    page.get_by_role("button", name="Add .040 in").click()
    expect(page.locator(".answer-head")).to_contain_text("MS20470AD4-4")
    expect(page.locator(".answer-head")).to_contain_text("Meets")


def test_a_rivet_is_reckoned_without_a_network_and_kept_with_a_part(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    rib = part(workshop.folder, "Nose rib", "rib")
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    workshop.stop()
    page.get_by_role("navigation", name="Screens").get_by_role("link", name="reckoner").click()
    first = page.locator("main > .questions > li b")
    asked = ["Rivet length", "Edge left", "Dimple or countersink", "Drill"]
    expect(first).to_have_text(asked)
    expect(page.get_by_role("link", name="Mass of a sheet")).to_be_hidden()
    page.get_by_text("No drawing for this").click()
    expect(page.get_by_role("link", name="Mass of a sheet")).to_be_visible()
    page.get_by_role("link", name="Rivet length").click()
    reckon_a_rivet(page)
    fit_for_the_bench(page)
    # what it stands on is always in sight under it, and it is read out once
    expect(page.get_by_text("A reminder, not an approval")).to_be_visible()
    expect(page.get_by_text("AC 43.13-1B, paragraph 4-57a(4)")).to_be_visible()
    expect(page.get_by_role("img", name=re.compile("joint in side section"))).to_be_visible()
    expect(page.locator("[aria-live=polite]").last).to_have_text(
        re.compile(r"^Meets\. Rivet: MS20470AD4-4\.")
    )
    page.get_by_role("button", name="Keep this").click()
    page.get_by_label("Note").fill("front holes")
    page.get_by_role("button", name="Nose rib").click()
    expect(page.get_by_role("button", name="Undo: Kept MS20470AD4-4, meets")).to_be_visible()
    (kept,) = written(phone)
    assert (kept["subject"], kept["body"]["note"]) == (rib, "front holes")
    assert kept["body"]["rulebook"] == version()
    page.get_by_role("link", name="Nose rib").click()
    row = page.locator(".kept-sums li")
    expect(row).to_contain_text("Rivet length: MS20470AD4-4")
    expect(row).to_contain_text("Meets")
    fit_for_the_bench(page)
    page.go_back()
    expect(page.locator(".answer-head")).to_contain_text("MS20470AD4-4")


def test_t5_and_what_cannot_be_read(workshop: Workshop, new_phone: NewPhone) -> None:
    phone = new_phone()
    page = phone.pair()
    workshop.stop()
    page.goto(f"{workshop.url}/reckoner/flush")
    sheet = page.get_by_role("textbox", name="Sheet", exact=True)
    sheet.fill(".040")
    page.get_by_role("radio", name="3/32 inch").click()
    page.get_by_text("More", exact=False).first.click()
    page.get_by_role("textbox", name="Dimpled skin above it").fill(".032")
    answer = page.locator(".answer-head")
    expect(answer).to_contain_text("Fails")
    expect(answer).to_contain_text(".0455 in")
    expect(page.locator(".why")).to_contain_text("it needs .0455 in, has .040 in")
    fit_for_the_bench(page)
    sheet.fill("thick")
    expect(answer).to_have_text("No answer: sheet cannot be read.")
    expect(page.get_by_text("“thick” cannot be read as a length.")).to_be_visible()
    expect(sheet).to_have_attribute("aria-invalid", "true")
    described = sheet.get_attribute("aria-describedby")
    expect(page.locator(f"#{described}")).to_contain_text("Write inches as 1/32")
    expect(page.locator(".why")).to_have_count(0)
    fit_for_the_bench(page)
    page.get_by_role("button", name="Clear").click()
    expect(answer).to_have_text("Still to give: sheet; rivet diameter.")
    page.goto(f"{workshop.url}/reckoner/nothing")
    expect(page.get_by_role("link", name="All sums")).to_be_visible()


def sums_of(phone: BenchPhone, subject: str) -> list[Any]:
    """The sums on a card once it came back: it is sent a moment before it is fetched."""
    for _ in range(75):
        sums: list[Any] = json.loads(phone.cards()[subject])["state"].get("sums", [])
        if sums:
            return sums
        time.sleep(0.2)
    raise AssertionError("no sum came back within 15 s")


def test_a_line_opens_its_rivet_and_keeps_it(workshop: Workshop, new_phone: NewPhone) -> None:
    skin, spar = (part(workshop.folder, name, "rib") for name in ("Skin", "Spar"))
    line = skin[:-4] + "beef"
    thick = [{"nm": 812800, "text": ".032"}, {"nm": 1016000, "text": ".040"}]
    body = {
        "name": "rear spar, top",
        "count": 20,
        "supplied": "pilot",
        "head": "flush",
        "fastener": {"kind": "rivet", "text": "MS20426AD4-3.5"},
        "layers": [
            {"part": one, "thickness": length, "treat": "dimple"}
            for one, length in zip((skin, spar), thick, strict=True)
        ],
        "open": [],
    }
    told(workshop.folder, line, "line.set.v1", body)
    phone = new_phone()
    page = phone.pair()
    phone.fetched(3)
    page.goto(f"{workshop.url}/line/{line}")
    page.get_by_role("link", name="Rivet for this stack").click()
    expect(page.locator(".answer-head")).to_contain_text("MS20426AD4-4")
    expect(page.get_by_text("For rear spar, top.")).to_be_visible()
    page.get_by_role("button", name="Keep this").click()
    page.get_by_role("button", name="Keep it with rear spar, top").click()
    undo = page.get_by_role("button", name="Undo: Kept MS20426AD4-4, meets")
    expect(undo).to_be_visible()
    phone.settled()
    (kept,) = sums_of(phone, line)
    assert kept["inputs"]["stack"] == ".032 in,.040 in"
    assert "judged" not in kept  # the computer reckons the same
    page.emulate_media(media="print")
    foot = page.locator(".print-foot")
    expect(foot).to_be_visible()
    expect(foot).to_contain_text(f"Rules {version()}")
    expect(page.get_by_role("button", name="Print")).to_be_hidden()
    expect(page.locator(".sill")).to_be_hidden()
    expect(page.locator(".drawn svg")).to_be_visible()
    page.emulate_media(media="screen")
    undo.click()
    expect(undo).to_have_count(0)
    page.goto(f"{workshop.url}/line/{line}")
    expect(page.get_by_role("link", name="Rivet for this stack")).to_be_visible()
    expect(page.locator(".kept-sums")).to_have_count(0)
