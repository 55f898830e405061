"""One act: an offcut becomes a part and what stays, offline, and can be taken back whole."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from bucktail.storage.opening import open_workshop
from bucktail.tags.code import new_code
from bucktail.workshop.recorder import Recorder
from running.looking import PICTURES, overflow, picture, serious, small_targets, use_theme
from running.phone import BenchPhone
from running.sheetstock import enter, fetched, inches, sheet
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000
TAG, NEW_TAG = new_code(lambda n: 5 % n, []), new_code(lambda n: 7 % n, [])


def pieces(phone: BenchPhone) -> dict[str, dict[str, Any]]:
    """States of all cards on the phone, by id."""
    return {name: json.loads(text)["state"] for name, text in phone.cards().items()}


def looked_at(page: Page, name: str) -> None:
    """Pictures in both lights and on a desk, and what a machine can find wrong."""
    assert serious(page) == []
    assert small_targets(page) == []
    assert not overflow(page)
    whole(page, name)
    use_theme(page, "evening")
    whole(page, f"{name} evening")
    use_theme(page, "light")
    page.set_viewport_size({"width": 1280, "height": 800})
    page.wait_for_timeout(150)
    assert not overflow(page)
    whole(page, f"{name} wide")
    page.set_viewport_size({"width": 390, "height": 844})


def whole(page: Page, name: str) -> None:
    """All of the screen."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=str(PICTURES / f"{name}.png"), full_page=True)


def cut(page: Page, name: str) -> None:
    """Say that the cut was made, and wait until it is kept."""
    page.get_by_role("button", name="It is cut").click()
    expect(page.get_by_text(f"Cut: {name}", exact=True)).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("heading", name="Cut on")).to_be_visible(timeout=SLOW)


def test_a_piece_wanted_is_cut_from_what_the_search_found(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 8))
    wanted = want(workshop, tag_on=offcut)
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    page.goto(f"{workshop.url}/offcuts?metal=2024-T3&clad=clad&thickness=.032&width=4&height=3")
    page.get_by_role("link", name="Cut it").click(timeout=SLOW)
    expect(page.get_by_role("radio", name="Doubler at rib 4, wanted")).to_be_checked()
    expect(page.get_by_text("Way 1 of")).to_be_visible()
    phone.context.set_offline(True)  # type: ignore[union-attr]
    looked_at(page, "cutting, a piece wanted")
    page.get_by_text("a saw, 1/16 in wide").click()
    expect(page.get_by_role("heading", name="A: 7 15/16 × 8 in")).to_be_visible()
    page.locator("figure").screenshot(path=str(PICTURES / "cutting, the drawing.png"))
    page.get_by_role("button", name="Change the tag of B").click()
    page.get_by_text("a new tag").click()
    expect(page.get_by_role("region", name="Tag reader")).to_be_visible(timeout=SLOW)
    page.get_by_role("button", name="It is cut").click()
    expect(page.get_by_text("Scan the new tag, or say that it has none yet.")).to_be_visible()
    page.get_by_role("button", name="Type the code").click()
    page.get_by_label("Code on the tag").fill(NEW_TAG)
    page.get_by_role("button", name="blank, on nothing yet").click()
    page.get_by_text("tied on").click()
    whole(page, "cutting, a tag for what stays")
    cut(page, "Doubler at rib 4")
    looked_at(page, "cutting, the offcut that was cut")
    phone.context.set_offline(False)  # type: ignore[union-attr]
    page.evaluate("dispatchEvent(new Event('online'))")
    phone.settled()
    fetched(phone, offcut, 3)
    states = pieces(phone)
    (told,) = states[offcut]["cut"]
    assert told["made"][0]["name"] == "Doubler at rib 4"
    assert states[wanted]["met"] == told["made"][0]["part"]
    left = [states[one] for one in told["remnants"]]
    sides = sorted((one["shape"]["a"]["text"], one["shape"]["b"]["text"]) for one in left)
    assert sides == [("4", "4 15/16"), ("7 15/16", "8")]
    assert {one["grain"] for one in left} == {"a"} and {one["parent"] for one in left} == {offcut}
    # the tag went on with the larger piece, and the other has a new one
    tags = {one["shape"]["a"]["text"]: one["tags"][0]["code"] for one in left}
    assert tags == {"7 15/16": TAG, "4": NEW_TAG}
    assert all(not one["answers"] for one in left)
    # what was cut is in no list and in no search; what stays is
    page.goto(f"{workshop.url}/offcuts?width=12&height=7&structure=no")
    expect(page.get_by_text("No offcut serves")).to_be_visible(timeout=SLOW)
    page.goto(f"{workshop.url}/offcuts?width=7&height=7&structure=no")
    expect(page.get_by_text("1 serves.")).to_be_visible(timeout=SLOW)
    page.get_by_role("link", name="7 15/16").click()
    expect(page.get_by_text("Left of 2024-T3 clad .032, 12 × 8, cut on")).to_be_visible()
    whole(page, "cutting, what is left")


def want(workshop: Workshop, tag_on: str) -> str:
    """A piece of 4 x 3 in is wanted, and the offcut has a tag; the id of the piece."""
    with open_workshop(workshop.folder) as session:
        recorder = Recorder(session)
        recorder.record("tag.printed.v1", {"codes": [TAG, NEW_TAG]})
        recorder.record("tag.attached.v1", {"code": TAG, "on": "metal"}, subject=tag_on)
        body = {
            "what": "doubler",
            "name": "Doubler at rib 4",
            "alloy": "2024",
            "temper": "T3",
            "clad": "clad",
            "thickness": inches(0.032, ".032"),
            "a": inches(4),
            "b": inches(3),
            "grain": "a",
            "count": 1,
        }
        return recorder.record("piece.wanted.v1", body)


def test_a_cut_is_taken_back_whole(workshop: Workshop, new_phone: NewPhone) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 8))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    page.goto(f"{workshop.url}/offcut/{offcut}")
    page.get_by_role("link", name="Cut it").click(timeout=SLOW)
    page.get_by_label("Name of the part").fill("Clip")
    page.get_by_role("textbox", name="First side", exact=True).fill("9")
    page.get_by_role("textbox", name="Second side", exact=True).fill("9")
    expect(page.get_by_text("It does not fit on this offcut")).to_be_visible()
    page.get_by_role("textbox", name="First side", exact=True).fill("6")
    page.get_by_role("textbox", name="Second side", exact=True).fill("2")
    page.get_by_label("How many").fill("2")
    expect(page.get_by_text("Cut into 2 × Clip.")).to_be_visible()
    expect(page.get_by_text("Upright, right across, 6 in from the left end.")).to_be_visible()
    page.get_by_role("button", name="Another way").click()
    whole(page, "cutting, two in a row")
    cut(page, "Clip")
    expect(page.get_by_role("link", name="2 × Clip")).to_be_visible()
    page.get_by_role("button", name="Undo: this cut was not made").click()
    page.get_by_role("button", name="It was not cut").click()
    expect(page.get_by_role("link", name="Cut it")).to_be_visible()
    page.goto(f"{workshop.url}/offcuts")
    expect(page.get_by_role("link", name="12 × 8")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("1 in all")).to_be_visible()
    page.goto(f"{workshop.url}/parts")
    expect(page.get_by_text("Clip")).to_have_count(0)


def test_two_phones_cut_the_same_metal(workshop: Workshop, new_phone: NewPhone) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 8))
    phones = new_phone(), new_phone()
    pages = phones[0].pair(), phones[1].pair(person="Kim Brook", device="second phone")
    for phone, page, width in zip(phones, pages, ("4", "6"), strict=True):
        phone.fetched(1)
        page.goto(f"{workshop.url}/cut/{offcut}?width={width}&height=8")
        page.get_by_label("Name of the part").fill(f"Clip {width}", timeout=SLOW)
        phone.context.set_offline(True)  # type: ignore[union-attr]
        cut(page, f"Clip {width}")
    for phone, page in zip((*phones, phones[0]), (*pages, pages[0]), strict=True):
        phone.context.set_offline(False)  # type: ignore[union-attr]
        page.evaluate("dispatchEvent(new Event('online'))")
        phone.settled()
    for page in pages:
        expect(page.get_by_text("Two phones cut the same metal")).to_be_visible(timeout=SLOW)
        expect(page.get_by_role("link", name="Clip 4")).to_be_visible()
        expect(page.get_by_role("link", name="Clip 6")).to_be_visible()
    page = pages[0]
    whole(page, "cutting, two phones")
    page.get_by_role("link", name="Clip 6").click()
    expect(page.get_by_text("Two phones cut the same metal")).to_be_visible(timeout=SLOW)
    # neither remnant is offered until someone measured it
    page.goto(f"{workshop.url}/offcuts?width=5&height=5&structure=no")
    expect(page.get_by_text("No offcut serves. 2 come near.")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("since it was measured: measure again")).to_have_count(2)
    expect(page.get_by_text("They were cut on two phones that had not met")).to_be_visible()
    page.get_by_role("link", name="6 × 8").click()
    page.get_by_role("button", name="It is there, and measures as it says here").click()
    expect(page.get_by_text("Two phones cut the same metal")).to_have_count(0)
    page.go_back()
    expect(page.get_by_text("1 serves.")).to_be_visible(timeout=SLOW)


def test_section_stock_is_sawn_and_what_is_short_is_recycled(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    angle = {
        "form": "angle",
        "section": {"sides": [inches(1), inches(0.75, "3/4")], "hand": "none"},
        "shape": {"kind": "length", "length": inches(20), "square_ends": 1},
        "grain": "unknown",
        "clad": "bare",
        "alloy": "6061",
        "temper": "T6",
    }
    (offcut,) = enter(workshop.folder, sheet(1, 1, 0.063, **angle))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    page.goto(f"{workshop.url}/cut/{offcut}")
    page.get_by_label("Name of the part").fill("Stiffener", timeout=SLOW)
    page.get_by_label("Length").fill("11")
    page.get_by_label("How many").fill("2")
    expect(page.get_by_text("more than there is")).to_be_visible()
    page.get_by_label("Length").fill("6 1/4")
    expect(page.get_by_text("stays", exact=False).first).to_be_visible()
    looked_at(page, "cutting, section stock")
    cut(page, "Stiffener")
    phone.settled()
    fetched(phone, offcut, 2)
    states = pieces(phone)
    (told,) = states[offcut]["cut"]
    (rest,) = [states[one] for one in told["remnants"]]
    assert rest["form"] == "angle" and rest["section"] == angle["section"]
    kerf_and_ends = 2 * (0.0625 + 0.03125) + 0.03125
    assert rest["shape"]["length"]["nm"] == round((20 - 12.5 - kerf_and_ends) * 25_400_000)


def test_an_odd_sheet_leaves_odd_pieces(workshop: Workshop, new_phone: NewPhone) -> None:
    nm = 25_400_000
    outer = [[0, 0], [12 * nm, 0], [12 * nm, 5 * nm], [9 * nm, 8 * nm], [0, 8 * nm]]
    shape = {
        "kind": "outline",
        "outer": outer,
        "holes": [],
        "entered": {"way": "corner off", "texts": {"a": "12", "b": "8"}},
    }
    (offcut,) = enter(workshop.folder, sheet(1, 1, shape=shape, grain="b"))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    page.goto(f"{workshop.url}/cut/{offcut}?width=6&height=3&grain=along+width")
    page.get_by_label("Name of the part").fill("Gusset", timeout=SLOW)
    expect(page.get_by_role("img", name="Gusset cut from the offcut")).to_be_visible()
    page.get_by_role("button", name="Another way").click()
    page.get_by_role("button", name="Another way").click()
    looked_at(page, "cutting, an odd sheet")
    cut(page, "Gusset")
    phone.settled()
    fetched(phone, offcut, 2)
    states = pieces(phone)
    (told,) = states[offcut]["cut"]
    left = [states[one] for one in told["remnants"]]
    assert any(one["shape"]["kind"] == "outline" for one in left)
    for one in left:
        assert one["grain"] == "b"
        if one["shape"]["kind"] == "outline":
            assert one["shape"]["entered"]["way"] == "remnant"
            assert min(x for x, _ in one["shape"]["outer"]) == 0


def test_metal_of_unknown_origin_stops_before_anything_is_kept(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 8, alloy=None, temper=None, known_by="unknown"))
    want(workshop, tag_on=offcut)
    phone = new_phone()
    page = phone.pair()
    phone.fetched(2)
    page.goto(f"{workshop.url}/cut/{offcut}?width=4&height=3")
    expect(page.get_by_role("radio", name="Doubler at rib 4, wanted")).to_be_checked(timeout=SLOW)
    page.get_by_role("button", name="It is cut").click()
    expect(page.get_by_text("Not what the piece asks for")).to_be_visible()
    expect(page.get_by_text("Not offered for structure").first).to_be_visible()
    picture(page, "cutting, stopped")
    page.get_by_role("button", name="Do not cut it from this").click()
    expect(page.get_by_role("button", name="It is cut")).to_be_visible()
    assert phone.stored("outbox") == []
    assert "cut" not in pieces(phone)[offcut]
