"""Places: entered with their tag, moved with what is in them, emptied out, and where is it."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from bucktail.storage.opening import open_workshop
from bucktail.workshop.printing import record_new_tags
from bucktail.workshop.recorder import Recorder
from running.partstock import written
from running.phone import BenchPhone
from running.tagged import SLOW, Stock, type_code, types
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
Open = Callable[[str], Page]
OTHER = "01890000-0000-7000-8000-0000000000aa"
THIRD = "01890000-0000-7000-8000-0000000000bb"


@pytest.fixture
def stock(workshop: Workshop) -> Stock:
    return Stock(workshop.folder)


@pytest.fixture
def phone(new_phone: NewPhone) -> BenchPhone:
    return new_phone()


@pytest.fixture
def opened(workshop: Workshop, phone: BenchPhone, stock: Stock) -> Open:
    """Opens a screen on a phone that has fetched everything that was entered."""

    def at(path: str) -> Page:
        page = phone.pair()
        phone.fetched(2 * len(stock.codes))
        page.goto(workshop.url + path)
        expect(page.locator("main h1")).not_to_have_text("…", timeout=SLOW)
        return page

    return at


def taken(page: Page, place: str) -> None:
    """Take a place from the tree of the picker."""
    row = page.locator(".place-picker").get_by_role("button", name=re.compile(f"^{place}"))
    row.last.click(timeout=SLOW)


def moves(phone: BenchPhone) -> list[tuple[str, str | None]]:
    """(what, to where) of every move this phone wrote."""
    told = [event for event in written(phone) if event["kind"] == "thing.moved.v1"]
    return [(event["subject"], event["body"]["to"]) for event in told]


def kept(page: Page, word: str) -> None:
    """The full-screen word that says it is kept."""
    expect(page.locator(".kept-word.shown")).to_have_text(word, timeout=SLOW)


def groups(events: list[dict[str, Any]]) -> set[str | None]:
    return {event["group"] for event in events}


def test_a_blank_tag_becomes_a_place_in_a_place_by_one_record(
    workshop: Workshop, phone: BenchPhone, stock: Stock, opened: Open
) -> None:
    wall = stock.place("Back wall", "rack")
    (code,) = record_new_tags(workshop.folder, 1)
    page = opened(f"/attach/{code}")
    phone.fetched(3)
    page.get_by_role("link", name="A new place").click(timeout=SLOW)
    page.get_by_role("button", name="Enter this place").click(timeout=SLOW)
    expect(page.get_by_role("alert")).to_have_text("Give the place a name, for example “Shelf 2”.")
    page.get_by_label("Name").fill("Shelf 4")
    page.get_by_label("stuck on").check()
    page.get_by_role("button", name="Say where").click()
    taken(page, "Back wall")
    page.get_by_role("button", name="Enter Shelf 4").click()
    kept(page, "Place entered: Shelf 4")
    expect(page.get_by_role("heading", name="Shelf 4")).to_be_visible()
    expect(page.get_by_role("region", name="Where it lies")).to_contain_text("Lies in: Back wall")

    told = written(phone)
    shelf = told[0]["subject"]
    assert [(event["kind"], event["subject"], event["body"]) for event in told] == [
        ("place.added.v1", shelf, {"name": "Shelf 4", "form": "shelf"}),
        ("tag.attached.v1", shelf, {"code": code, "on": "metal"}),
        ("thing.moved.v1", shelf, {"to": wall}),
    ]
    assert {event["via"] for event in told} == {code}
    assert len(groups(told)) == 1 and told[0]["group"]
    phone.settled()
    assert stock.events()[-3:] == told


def test_a_place_moves_with_what_is_in_it_but_not_into_itself_and_the_move_is_undone(
    workshop: Workshop, phone: BenchPhone, stock: Stock, opened: Open
) -> None:
    wall = stock.place("Back wall", "rack")
    shelf = stock.place("Shelf 2", inside=wall)
    box = stock.place("Box 7", "box", inside=shelf)
    loft = stock.place("Loft", "room")
    rib = stock.part("Rib 4", inside=box)
    page = opened(f"/place/{shelf}")
    workshop.kill()
    expect(page.get_by_role("heading", name="In it: 1 place")).to_be_visible()
    expect(page.get_by_text("With the places below it, 1 part.")).to_be_visible()

    page.get_by_role("button", name="Move", exact=True).click()
    taken(page, "Shelf 2")
    expect(page.get_by_role("alert")).to_have_text(
        "Shelf 2 cannot lie in itself. Choose another place."
    )
    taken(page, "Box 7")
    expect(page.get_by_role("alert")).to_contain_text("Box 7 lies in Shelf 2. Move Box 7 out")
    assert moves(phone) == []
    taken(page, "Loft")
    kept(page, "Shelf 2: in Loft")
    assert moves(phone) == [(shelf, loft)]  # nothing in it was touched, and all of it moved
    page.get_by_role("link", name="places", exact=True).click()
    page.get_by_label("Where is it?").fill("rib 4")
    expect(page.get_by_role("link", name="Rib 4")).to_contain_text("in Loft, Shelf 2, Box 7")

    page.get_by_role("link", name="Rib 4").click()
    expect(page.get_by_text("Lies in: Loft, Shelf 2, Box 7")).to_be_visible(timeout=SLOW)
    page.get_by_role("link", name="Shelf 2").click()
    page.get_by_role("button", name="Undo: Shelf 2: in Loft").click()
    expect(page.get_by_text("Lies in: Back wall")).to_be_visible()
    last = written(phone)[-1]
    assert last["kind"] == "event.withdrawn.v1" and last["subject"] == shelf
    assert rib not in [event["subject"] for event in written(phone)]


def test_a_part_is_moved_by_the_tag_of_a_place_and_its_record_says_so(
    workshop: Workshop, phone: BenchPhone, stock: Stock, opened: Open
) -> None:
    shelf = stock.place("Shelf 2")
    rib, other = stock.part("Rib 4"), stock.part("Rib 5")
    page = opened(f"/part/{rib}")
    where = page.get_by_role("region", name="Where it lies")
    expect(where).to_contain_text("Nobody has said where it lies.", timeout=SLOW)
    where.get_by_role("button", name="Move").click()
    where.get_by_role("button", name="Scan its tag").click()
    types(page)
    type_code(page, stock.codes[other])
    expect(where.get_by_role("alert")).to_contain_text("is on Rib 5, which is no place.")
    type_code(page, stock.codes[shelf])
    kept(page, "Rib 4: in Shelf 2")
    expect(where).to_contain_text("Lies in: Shelf 2")
    assert moves(phone) == [(rib, shelf)]
    expect(page.get_by_role("listitem").filter(has_text="moved it to Shelf 2")).to_be_visible()


def test_two_names_of_a_place_are_settled_as_a_place(
    workshop: Workshop, phone: BenchPhone, stock: Stock, opened: Open
) -> None:
    shelf = stock.place("Shelf 2")
    with open_workshop(workshop.folder) as session:
        for device, name in ((OTHER, "Left shelf"), (THIRD, "Low shelf")):
            recorder = Recorder(session, device)
            recorder.record("place.described.v1", {"name": name}, shelf, base=(0, ""))
    page = opened(f"/place/{shelf}")
    page.get_by_role("button", name="Low shelf").click()
    kept(page, "Name: Low shelf")
    (told,) = written(phone)
    assert (told["kind"], told["body"]) == ("place.described.v1", {"name": "Low shelf"})
    expect(page.get_by_role("heading", name="Low shelf")).to_be_visible()
    phone.settled()
    assert stock.events()[-1] == told


def test_all_of_a_place_goes_to_another_but_what_is_ticked_or_scanned_in_one_record(
    workshop: Workshop, phone: BenchPhone, stock: Stock, opened: Open
) -> None:
    shelf = stock.place("Shelf 2")
    rack = stock.place("Rack", "rack")
    ribs = [stock.part(f"Rib {n}", inside=shelf) for n in range(1, 6)]
    box = stock.place("Box 7", "box", inside=shelf)
    page = opened(f"/place/{shelf}")
    workshop.kill()
    page.get_by_role("link", name="All of this goes to another place").click()
    taken(page, "Box 7")
    expect(page.get_by_role("alert")).to_contain_text("Box 7 cannot lie in itself")
    taken(page, "Rack")
    page.get_by_label("Rib 2").uncheck()
    page.get_by_role("button", name="Scan what stays").click()
    types(page)
    type_code(page, stock.codes[ribs[3]])
    expect(page.get_by_text("Rib 4 stays in Shelf 2.")).to_be_visible()
    expect(page.get_by_label("Rib 4")).not_to_be_checked()
    page.get_by_role("button", name="Move 1 place and 3 parts to Rack").click()
    kept(page, "4 things: in Rack")

    told = written(phone)
    assert {event["kind"] for event in told} == {"thing.moved.v1"}
    assert {event["subject"] for event in told} == {ribs[0], ribs[2], ribs[4], box}
    assert {event["body"]["to"] for event in told} == {rack}
    assert len(groups(told)) == 1 and told[0]["group"]
    page.get_by_role("button", name="Undo: 4 things: in Rack").click()
    kept(page, "Taken back: 4 things: in Rack")
    back = written(phone)[4:]
    assert {event["body"]["event"] for event in back} == {event["id"] for event in told}
    assert len(groups(back)) == 1 and back[0]["group"]
    expect(page.get_by_text("Nothing lies in it.")).to_be_visible()


def test_a_place_goes_only_when_it_is_empty_and_can_come_back(
    phone: BenchPhone, stock: Stock, opened: Open
) -> None:
    shelf = stock.place("Shelf 2")
    stock.part("Rib 4", inside=shelf)
    box = stock.place("Box 7", "box")
    page = opened(f"/place/{shelf}/retire")
    expect(page.get_by_role("alert")).to_have_text(
        "Shelf 2 is not empty: 1 part is in it. Move it first."
    )
    expect(page.get_by_role("button", name="Shelf 2 is no longer there")).to_have_count(0)
    page.get_by_role("link", name="places", exact=True).click()
    page.get_by_role("link", name="Box 7").click()
    page.get_by_role("link", name="This place is no longer there").click()
    page.get_by_role("button", name="Box 7 is no longer there").click()
    kept(page, "No longer there: Box 7")
    expect(page.get_by_role("link", name="Box 7")).to_have_count(0)
    (gone,) = written(phone)
    assert (gone["kind"], gone["subject"]) == ("thing.retired.v1", box)
    assert gone["body"] == {"why": "scrapped"}

    page.get_by_label("Where is it?").fill("box")
    page.get_by_role("link", name="Box 7").click()
    page.get_by_role("button", name="It is there: take that back").click()
    kept(page, "There again: Box 7")
    expect(page.get_by_text("This place is no longer there.", exact=True)).to_have_count(0)


def test_another_name_is_recorded_alone(phone: BenchPhone, stock: Stock, opened: Open) -> None:
    shelf = stock.place("Shelf 2")
    page = opened(f"/place/{shelf}")
    page.get_by_role("link", name="Name, what it is, and a note").click()
    page.get_by_label("Name").fill("Shelf 2, left")
    page.get_by_role("button", name="Keep that").click()
    expect(page.get_by_role("heading", name="Shelf 2, left")).to_be_visible(timeout=SLOW)
    assert [(event["kind"], event["body"]) for event in written(phone)] == [
        ("place.described.v1", {"name": "Shelf 2, left"})
    ]


def test_many_things_are_put_in_a_place_that_is_picked_once(
    workshop: Workshop, phone: BenchPhone, stock: Stock, opened: Open
) -> None:
    shelf = stock.place("Shelf 2")
    box = stock.place("Box 7", "box")
    ribs = [stock.part(f"Rib {n}", hand="left") for n in range(1, 4)]
    page = opened(f"/place/{shelf}")
    page.get_by_role("link", name="Put things here").click()
    types(page)
    workshop.kill()
    for n, rib in enumerate(ribs[:2], start=1):
        type_code(page, stock.codes[rib])
        kept(page, f"In Shelf 2: Rib {n} left")
    type_code(page, stock.codes[ribs[0]])
    expect(page.get_by_text("Rib 1 left was put in Shelf 2 in this run already")).to_be_visible()
    type_code(page, stock.codes[box])
    dialog = page.get_by_role("dialog", name="Box 7 is a place")
    dialog.get_by_role("button", name="Put Box 7 in Shelf 2").click()
    kept(page, "In Shelf 2: Box 7")
    type_code(page, stock.codes[box])
    expect(page.get_by_text("Box 7 was put in Shelf 2 in this run already")).to_be_visible()
    assert moves(phone) == [(thing, shelf) for thing in (*ribs[:2], box)]
    assert groups(written(phone)) == {None}
    page.get_by_role("button", name="Finish").click()
    expect(page.get_by_text("Put in Shelf 2: 3 things.")).to_be_visible()


def test_where_is_it_by_number_and_by_tag(stock: Stock, opened: Open) -> None:
    shelf = stock.place("Shelf 2")
    rib = stock.part("Rib 4", inside=shelf, number="W-412")
    stock.part("Rib 5", number="W-413")
    page = opened("/find")
    field = page.get_by_label("Where is it?")
    found = page.get_by_role("main").get_by_role("list").get_by_role("link")
    field.fill("w-412")
    expect(found).to_have_count(1)
    expect(found).to_contain_text("part, in Shelf 2")
    code = stock.codes[rib]
    field.fill(f"{code[:5].lower()} {code[5:]}")
    expect(found).to_have_count(1)
    expect(found).to_contain_text(f"tag {code[:5]} {code[5:]}")
    field.fill("nothing like it")
    expect(page.get_by_text("Nothing on this phone has this name, number or tag.")).to_be_visible()


def test_two_phones_that_put_two_places_into_each_other_lose_neither(
    workshop: Workshop, stock: Stock, opened: Open
) -> None:
    box = stock.place("Box 7", "box")
    crate = stock.place("Crate", "box")
    with open_workshop(workshop.folder) as session:
        Recorder(session).record("thing.moved.v1", {"to": crate}, box)
        Recorder(session).record("thing.moved.v1", {"to": box}, crate)
    page = opened("/places")
    expect(page.get_by_text("Lies in itself, by way of others: say where it is.")).to_be_visible()
    expect(page.get_by_role("link", name="Crate")).to_be_visible()
    page.get_by_role("link", name="Box 7").click()
    expect(page.get_by_role("alert")).to_have_text(
        "Box 7 lies in Crate, and that lies in Box 7 again. Say where one of them is."
    )
    page.get_by_role("button", name="Move", exact=True).click()
    page.get_by_role("button", name="Nowhere known").click()
    expect(page.get_by_role("alert")).to_have_count(0)
    expect(page.get_by_text("It lies in no other place.")).to_be_visible()
