"""A run: one pick, then one scan after another, each judged before it is recorded."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from running import camera
from running.partstock import COUNT_TAPS, written
from running.phone import BenchPhone
from running.tagged import FEEL, READY, SLOW, Stock, stopped, type_code, types
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]


@pytest.fixture
def stock(workshop: Workshop) -> Stock:
    return Stock(workshop.folder)


@pytest.fixture
def begin(workshop: Workshop, new_phone: NewPhone, stock: Stock) -> Callable[..., BenchPhone]:
    """Opens the choice of runs on a phone that has fetched everything."""

    def start(**options: Any) -> BenchPhone:
        phone = new_phone(**options)
        page = phone.pair()
        phone.fetched(2 * len(stock.codes))  # every thing, and the tag that was printed for it
        page.goto(f"{workshop.url}/run")
        expect(page.get_by_role("heading", name="One step on many parts")).to_be_visible(
            timeout=SLOW
        )
        return phone

    return start


def pick(page: Page, operation: str) -> None:
    """The one pick of a run."""
    page.get_by_role("button", name=re.compile(f"^{operation}")).click(timeout=SLOW)
    expect(page.get_by_role("heading", name=operation, exact=True)).to_be_visible()


def scan(page: Page, code: str, word: str) -> None:
    """Type a code, and wait for the full-screen word that says it is kept."""
    type_code(page, code)
    expect(page.locator(".kept-word.shown")).to_have_text(word, timeout=SLOW)


def steps(phone: BenchPhone) -> list[dict[str, Any]]:
    return [event for event in written(phone) if event["kind"] == "step.recorded.v1"]


def choose(page: Page, label: str | re.Pattern[str]) -> None:
    """Answer the full stop."""
    page.get_by_role("dialog").get_by_role("button", name=label).click()
    expect(page.get_by_role("dialog")).to_have_count(0)


def test_T7_one_of_the_wrong_hand_stops_before_recording_and_the_other_eleven_keep(
    workshop: Workshop, stock: Stock, begin: Callable[..., BenchPhone]
) -> None:
    ribs = [
        stock.part(f"Rib {n}", done=READY["dimple"], hand="right" if n == 7 else "left")
        for n in range(1, 13)
    ]
    phone = begin()
    page = phone.page
    pick(page, "Dimple")
    types(page)
    workshop.kill()
    page.evaluate(FEEL)
    for n, rib in enumerate(ribs, start=1):
        code = stock.codes[rib]
        if n != 7:
            scan(page, code, f"Dimpled: Rib {n} left")
            continue
        page.evaluate("window.felt = []")
        type_code(page, code)
        stopped(page, "Wrong hand: Rib 7 right")
        assert len(steps(phone)) == 6  # nothing is recorded of it, before the answer or after
        felt = page.evaluate("window.felt")
        assert ["tone", 196] in felt and ["vibration", 600] in felt
        assert ["tone", 880] not in felt
        choose(page, "Put it aside")
        assert len(steps(phone)) == 6
    told = steps(phone)
    assert [event["subject"] for event in told] == [rib for n, rib in enumerate(ribs) if n != 6]
    assert [event["via"] for event in told] == [stock.codes[event["subject"]] for event in told]
    assert {event["group"] for event in told} == {None}  # each by itself
    assert len({event["id"] for event in told}) == 11
    for event in told:
        assert event["body"] == {"op": "dimple", "result": "all", "done": 38, "of": 38}

    page.get_by_role("button", name="Finish").click()
    expect(page.get_by_text("Dimpled: 11 parts.")).to_be_visible()
    expect(page.get_by_text("Left out: Rib 7 right (wrong hand).")).to_be_visible()
    workshop.start()
    page.evaluate("dispatchEvent(new Event('online'))")
    phone.settled()
    assert stock.events("step.recorded.v1")[-11:] == told


def test_the_same_step_on_twelve_parts_is_one_tap_and_twelve_scans_by_the_camera(
    stock: Stock, begin: Callable[..., BenchPhone], tmp_path: Path
) -> None:
    ribs = [stock.part(f"Rib {n}", done=READY["dimple"]) for n in range(1, 13)]
    frames = (
        camera.on_the_bench(camera.printed(stock.codes[rib]), width=300, frame=(640, 480), seed=n)
        for n, rib in enumerate(ribs)
    )
    seconds = 1.2
    film = camera.video(tmp_path / "twelve.mjpeg", ((one, round(30 * seconds)) for one in frames))
    phone = begin(camera=film)
    page = phone.page
    page.evaluate(COUNT_TAPS)
    pick(page, "Dimple")
    expect(page.get_by_text(re.compile("^12 parts so far"))).to_be_visible(timeout=60_000)
    assert page.evaluate("window.taps") == 1
    told = steps(phone)
    assert {event["subject"] for event in told} == set(ribs)
    assert len(told) == 12  # the film begins again: what is scanned twice is recorded once
    assert {event["group"] for event in told} == {None}
    expect(page.get_by_text("is recorded in this run already")).to_be_visible(timeout=SLOW)


def test_T2_a_part_to_keep_bare_is_named_in_a_prime_run_and_recording_it_opens_a_finding(
    stock: Stock, begin: Callable[..., BenchPhone]
) -> None:
    rib = stock.part("Rib 4", done=READY["prime"])
    horn = stock.part("Rudder horn", "coated steel")
    phone = begin()
    page = phone.page
    pick(page, "Prime")
    page.get_by_role("button", name="Change").click()
    page.get_by_label("Lot").fill("B 7")
    page.get_by_role("button", name="Go on scanning").click()
    types(page)
    scan(page, stock.codes[rib], "Primed: Rib 4")
    type_code(page, stock.codes[horn])
    stopped(page, "Keep Rudder horn bare")
    assert [event["subject"] for event in steps(phone)] == [rib]
    choose(page, "Done all the same: record it")
    expect(page.locator(".kept-word.shown")).to_have_text("Primed: Rudder horn", timeout=SLOW)
    step, finding = written(phone)[-2:]
    assert step["subject"] == horn and step["body"]["lot"] == "B 7"
    assert finding["kind"] == "finding.opened.v1"
    assert finding["body"]["on"] == horn and finding["body"]["op"] == "prime"
    assert finding["subject"] not in (horn, rib)
    assert finding["group"] == step["group"] is not None

    # the way back takes the finding with it, in one record
    page.get_by_role("button", name="Undo last").click()
    expect(page.locator(".kept-word.shown")).to_have_text("Taken back: Rudder horn", timeout=SLOW)
    back = written(phone)[-2:]
    assert [event["body"]["event"] for event in back] == [finding["id"], step["id"]]
    assert [event["subject"] for event in back] == [finding["subject"], horn]
    assert back[0]["group"] == back[1]["group"] is not None
    phone.settled()
    page.get_by_role("link", name="bench").click()
    expect(page.get_by_text("Finding on")).to_have_count(0)


def test_a_run_goes_on_after_a_reload_and_can_be_undone_one_by_one_or_whole(
    workshop: Workshop, stock: Stock, begin: Callable[..., BenchPhone]
) -> None:
    ribs = [stock.part(f"Rib {n}") for n in range(1, 5)]
    phone = begin()
    page = phone.page
    page.evaluate("navigator.serviceWorker.ready.then(() => undefined)")
    workshop.kill()
    pick(page, "Form")
    types(page)
    for n, rib in enumerate(ribs[:3], start=1):
        scan(page, stock.codes[rib], f"Formed: Rib {n}")
    page.reload()
    types(page)
    scan(page, stock.codes[ribs[3]], "Formed: Rib 4")
    listed = page.get_by_role("list", name="Recorded in this run").get_by_role("listitem")
    expect(listed).to_have_text([re.compile(f"Rib {n}") for n in (4, 3, 2, 1)])

    type_code(page, stock.codes[ribs[3]])
    expect(page.get_by_text("Rib 4 is recorded in this run already")).to_be_visible()
    made = steps(phone)
    assert [event["subject"] for event in made] == ribs

    page.get_by_role("button", name="Undo last").click()
    expect(listed).to_have_count(3)
    (back,) = written(phone)[4:]
    assert back["kind"] == "event.withdrawn.v1"
    assert (back["subject"], back["body"]["event"]) == (ribs[3], made[3]["id"])

    page.get_by_role("button", name="Undo the whole run").click()
    choose(page, "Take back 3 parts")
    expect(listed).to_have_count(0)
    whole = written(phone)[5:]
    assert [event["body"]["event"] for event in whole] == [one["id"] for one in made[2::-1]]
    assert len({event["group"] for event in whole}) == 1 and whole[0]["group"]
    # taken back, it can be scanned again
    scan(page, stock.codes[ribs[0]], "Formed: Rib 1")


def test_what_is_no_part_or_was_done_is_said_and_records_nothing(
    stock: Stock, begin: Callable[..., BenchPhone]
) -> None:
    shelf = stock.place("Shelf 2")
    done = stock.part("Rib 4", done=("form",))
    web = stock.part("Web", "web")
    phone = begin()
    page = phone.page
    pick(page, "Form")
    types(page)
    type_code(page, stock.codes[shelf])
    expect(page.get_by_text("Shelf 2 is a place. This run is for parts: form.")).to_be_visible()
    type_code(page, stock.codes[web])
    expect(page.get_by_text("The steps of Web do not ask for form.")).to_be_visible()
    type_code(page, stock.codes[done])
    expect(page.get_by_text("Rib 4 was formed before. Nothing is recorded.")).to_be_visible()
    assert written(phone) == []
    page.get_by_role("button", name="Record it again").click()
    expect(page.locator(".kept-word.shown")).to_have_text("Formed: Rib 4", timeout=SLOW)
    assert [event["subject"] for event in steps(phone)] == [done]


def test_what_would_harm_or_comes_too_early_stops_in_full(
    stock: Stock, begin: Callable[..., BenchPhone]
) -> None:
    before = ("edges", "fit", "drill")
    cap = stock.part("Spar cap", "thick countersunk", done=(*before, "deburr", "countersink"))
    early = stock.part("Stiff angle", "thick countersunk", done=("edges", "fit"))
    phone = begin()
    page = phone.page
    pick(page, "Countersink")
    types(page)
    type_code(page, stock.codes[cap])
    stopped(page, "Spar cap is countersunk already")
    choose(page, "Put it aside")
    type_code(page, stock.codes[early])
    stopped(page, "Not yet: Stiff angle")
    expect(page.get_by_role("dialog")).to_contain_text("it comes first: final drill")
    assert written(phone) == []
    choose(page, "Record countersunk anyway")
    expect(page.locator(".kept-word.shown")).to_have_text("Countersunk: Stiff angle", timeout=SLOW)
    assert [event["subject"] for event in steps(phone)] == [early]


def test_T7_a_part_drilled_at_its_station_stops_in_a_run_for_another(
    stock: Stock, begin: Callable[..., BenchPhone]
) -> None:
    rudder = stock.place("Rudder", "assembly")
    flap = stock.place("Flap", "assembly")
    drilled = ("edges", "fit", "drill")
    angle = stock.part("Angle", "angle", drilled, station="S 52", assembly=flap)
    own = stock.part("Horn angle", "angle", drilled, station="S 3", assembly=rudder)
    phone = begin()
    page = phone.page
    pick(page, "Deburr")
    page.get_by_role("button", name="Change").click()
    page.get_by_label("Only for the assembly").select_option("Rudder")
    page.get_by_role("button", name="Go on scanning").click()
    types(page)
    page.evaluate(FEEL)
    type_code(page, stock.codes[angle])
    stopped(page, "Angle belongs at S 52")
    felt = page.evaluate("window.felt")
    assert ["tone", 196] in felt and ["vibration", 600] in felt
    choose(page, "Put it aside")
    assert written(phone) == []
    scan(page, stock.codes[own], "Deburred: Horn angle")
    assert [event["subject"] for event in steps(phone)] == [own]
