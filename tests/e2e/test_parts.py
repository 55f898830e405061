"""A part at the bench: one tap records a step, a slip is undone, and a mistake is stopped first."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from running.partstock import COUNT_TAPS, part, step, told, written
from running.phone import BenchPhone
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000
OTHER = "01890000-0000-7000-8000-0000000000aa"


def opened(workshop: Workshop, phone: BenchPhone, subject: str, name: str) -> Page:
    """The screen of a part that the phone has fetched, with the taps counted from here."""
    page = phone.pair()
    phone.fetched(1)
    page.goto(f"{workshop.url}/part/{subject}")
    expect(page.get_by_role("heading", name=name, exact=True)).to_be_visible(timeout=SLOW)
    page.evaluate(COUNT_TAPS)
    return page


def keep(page: Page, label: str) -> None:
    """Tap the button that says what it records, and wait until it is kept."""
    page.get_by_role("button", name=label, exact=True).click(timeout=SLOW)
    undo = f"Undo: {label.replace(': ', ' ', 1)}"
    expect(page.get_by_role("button", name=undo, exact=True)).to_be_visible(timeout=SLOW)


def test_a_step_on_an_open_part_is_one_tap_and_some_of_it_three(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    subject = part(workshop.folder, "Rib 4")
    phone = new_phone()
    page = opened(workshop, phone, subject, "Rib 4")
    workshop.kill()
    assert written(phone) == []  # opening a part records nothing
    keep(page, "Formed: all")
    assert page.evaluate("window.taps") == 1
    keep(page, "Edges dressed: all")
    keep(page, "Trial fitted: all 164")
    keep(page, "Final drilled: all 164")
    assert page.evaluate("window.taps") == 4
    page.get_by_role("button", name="some …").click(timeout=SLOW)
    page.keyboard.type("120")
    keep(page, "Deburred: 120 of 164")
    assert page.evaluate("window.taps") == 6
    expect(page.get_by_role("button", name="Deburr: 120 of 164", exact=True)).to_be_visible()
    expect(page.get_by_role("heading", name="What was done, 5 not sent yet")).to_be_visible()
    assert [event["body"]["op"] for event in written(phone)] == [
        "form",
        "edges",
        "fit",
        "drill",
        "deburr",
    ]
    assert written(phone)[-1]["body"] == {
        "op": "deburr",
        "result": "some",
        "done": 120,
        "of": 164,
        "sides": ["inside", "outside"],
    }


def test_a_long_press_asks_how_far_and_records_nothing(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    subject = part(workshop.folder, "Rib 4")
    phone = new_phone()
    page = opened(workshop, phone, subject, "Rib 4")
    button = page.get_by_role("button", name="Formed: all", exact=True)
    button.click(delay=900)
    expect(page.get_by_text("Form: how far?")).to_be_visible()
    page.get_by_role("button", name="Record nothing").click()
    expect(button).to_be_visible()
    assert written(phone) == []


def test_another_operation_is_chosen_in_the_strip_and_undone(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    subject = part(workshop.folder, "Rib 4")
    phone = new_phone()
    page = opened(workshop, phone, subject, "Rib 4")
    page.get_by_role("button", name="Dimple: to do").click()
    keep(page, "Dimpled: all 164")
    expect(
        page.get_by_text("Dimple is recorded, and deburr was not done before it")
    ).to_be_visible()
    page.get_by_role("button", name="Undo: Dimpled all 164").click(timeout=SLOW)
    expect(page.get_by_role("button", name="Dimple: to do")).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("button", name="Undo: Dimpled all 164")).to_have_count(0)
    expect(page.locator("s", has_text="dimpled, all 164")).to_be_visible()
    made, gone = written(phone)
    assert (gone["kind"], gone["subject"], gone["body"]) == (
        "event.withdrawn.v1",
        subject,
        {"event": made["id"]},
    )


def test_an_older_own_entry_is_taken_back_from_what_was_done(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    subject = part(workshop.folder, "Rib 4")
    phone = new_phone()
    page = opened(workshop, phone, subject, "Rib 4")
    keep(page, "Formed: all")
    page.reload()
    expect(page.get_by_role("button", name="Undo: Formed all")).to_have_count(0)
    page.get_by_role("button", name="Sam Rivers: formed, all").click(timeout=SLOW)
    page.get_by_role("button", name="Take this back").click()
    page.get_by_role("dialog").get_by_role("button", name="Take it back").click()
    expect(page.get_by_role("button", name="Form: to do")).to_be_visible(timeout=SLOW)


def test_t2_keep_bare_stops_before_anything_is_recorded_and_opens_a_finding(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    subject = part(workshop.folder, "Hinge bracket", "hinge", 4)
    phone = new_phone()
    page = opened(workshop, phone, subject, "Hinge bracket")
    page.get_by_role("button", name="Prime: keep bare").click()
    page.get_by_role("button", name="Primed: all", exact=True).click()
    stop = page.get_by_role("dialog", name="Keep Hinge bracket bare")
    expect(stop).to_be_visible()
    box = stop.bounding_box()
    assert box and (box["width"], box["height"]) == (390, 844)
    stop.get_by_role("button", name="Leave it bare").click()
    expect(stop).to_have_count(0)
    assert written(phone) == []

    page.get_by_role("button", name="Primed: all", exact=True).click(timeout=SLOW)
    page.get_by_role("button", name="Record it anyway").click()
    expect(page.get_by_text("Primed where it should stay bare")).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("button", name="Prime: keep bare")).to_be_visible()
    primed, finding = written(phone)
    assert (primed["kind"], finding["kind"]) == ("step.recorded.v1", "finding.opened.v1")
    assert primed["group"] == finding["group"] is not None
    assert finding["body"]["on"] == subject != finding["subject"]
    phone.settled()  # the workshop's computer takes both


def test_look_at_the_part_is_asked_and_settled_by_the_one_who_holds_it(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    subject = part(workshop.folder, "Spar cap", "thick countersunk", 20)
    for op in ("edges", "fit", "drill", "deburr"):
        told(workshop.folder, subject, "step.recorded.v1", step(op))
    told(workshop.folder, subject, "step.recorded.v1", step("countersink", "all", of=20))
    blind = step("countersink", "none", done=0, of=20)
    told(workshop.folder, subject, "step.recorded.v1", blind, device=OTHER, base=(0, ""))
    phone = new_phone()
    page = opened(workshop, phone, subject, "Spar cap")
    expect(page.get_by_role("heading", name="Look at the part: countersunk?")).to_be_visible()
    expect(page.get_by_role("button", name="Countersunk: all 20")).to_have_count(0)
    page.get_by_role("button", name="Yes, all 20").click()
    expect(page.get_by_role("button", name="Countersink: all 20")).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("button", name="Cleaned: all", exact=True)).to_be_visible()
    (answer,) = written(phone)
    assert answer["body"]["looked"] is True
    assert (answer["body"]["result"], answer["body"]["done"]) == ("all", 20)


def test_film_with_the_tag_on_it_is_not_thrown_away_unwarned(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    subject = part(workshop.folder, "Skin", "skin flush")
    attached = {"code": "0000000000", "on": "film"}
    told(workshop.folder, subject, "tag.attached.v1", attached)
    phone = new_phone()
    page = opened(workshop, phone, subject, "Skin")
    page.get_by_role("button", name="Film off along the lines: all", exact=True).click()
    stop = page.get_by_role("dialog", name="The tag is on the film")
    stop.get_by_role("button", name="Not yet").click()
    expect(stop).to_have_count(0)
    assert written(phone) == []
    page.get_by_role("button", name="Film off along the lines: all", exact=True).click(timeout=SLOW)
    stop.get_by_role("button", name="The tag is safe: record film off").click()
    expect(page.get_by_role("button", name="Edges dressed: all", exact=True)).to_be_visible()
    assert len(written(phone)) == 1


def test_film_edges_and_holes_of_a_small_part_are_one_tap_and_one_undo(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    subject = part(workshop.folder, "Shim", "small clip", 4)
    phone = new_phone()
    page = opened(workshop, phone, subject, "Shim")
    keep(page, "Film off, edges dressed and deburred: all")
    assert page.evaluate("window.taps") == 1
    assert [event["body"]["op"] for event in written(phone)] == ["film", "edges", "deburr"]
    expect(page.get_by_role("button", name="Cleaned and primed: all", exact=True)).to_be_visible()
    undo = page.get_by_role("button", name="Undo: Film off, edges dressed and deburred all")
    undo.click(timeout=SLOW)
    expect(page.get_by_role("button", name="Deburr: to do")).to_be_visible(timeout=SLOW)
    assert len(written(phone)) == 6


def test_two_different_names_stand_side_by_side_until_one_is_chosen(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    subject = part(workshop.folder, "Rib 4")
    told(workshop.folder, subject, "part.described.v1", {"name": "Rib 4 left"})
    other = {"name": "Rib 4 inboard"}
    told(workshop.folder, subject, "part.described.v1", other, device=OTHER, base=(2, ""))
    phone = new_phone()
    page = opened(workshop, phone, subject, "Rib 4 left")
    asked = page.get_by_role("region", name="Two different answers: name")
    expect(asked).to_contain_text("Which is right?")
    asked.get_by_role("button", name="Rib 4 inboard").click()
    expect(page.get_by_role("heading", name="Rib 4 inboard", exact=True)).to_be_visible()
    expect(asked).to_have_count(0)
