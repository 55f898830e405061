"""A blank tag, from the printer to a thing: printed, seen by a real camera, put on, found again."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from sqlalchemy import select

from bucktail.storage.opening import open_workshop
from bucktail.storage.tables import StoredEvent
from bucktail.tags.code import grouped
from bucktail.workshop.printing import record_new_tags
from bucktail.workshop.recorder import Recorder
from running import camera
from running.phone import BenchPhone
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000
ENDED = """async (track) => {
  for (let tries = 0; tries < 50 && track.readyState !== 'ended'; tries += 1)
    await new Promise((done) => setTimeout(done, 100));
  return track.readyState === 'ended';
}"""
SEEN = """(state) => {
  Object.defineProperty(document, 'visibilityState', { value: state, configurable: true });
  document.dispatchEvent(new Event('visibilitychange'));
}"""


def scan(page: Page) -> None:
    """Open the scanner from the sill."""
    page.get_by_role("link", name=re.compile("SCAN")).click()


def enter(folder: Path, kind: str, **body: Any) -> str:
    """Enter a thing on the workshop's computer; its id."""
    with open_workshop(folder) as session:
        return Recorder(session).record(kind, body)


def events(folder: Path) -> list[dict[str, Any]]:
    """Everything recorded in the workshop, in order."""
    with open_workshop(folder) as session:
        raws = session.execute(select(StoredEvent.raw).order_by(StoredEvent.position)).scalars()
        return [json.loads(raw) for raw in raws]


def test_a_printed_tag_goes_on_a_new_part(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    (code,) = record_new_tags(workshop.folder, 1)
    phone = new_phone(camera=camera.showing(tmp_path / "tag.mjpeg", camera.printed(code)))
    page = phone.pair()
    phone.settled()
    scan(page)
    page.get_by_role("link", name="A new part").click(timeout=SLOW)
    page.get_by_label("Name").fill("Rib 4")
    page.get_by_label("on the film").check()
    page.get_by_role("button", name="Add Rib 4").click()
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible()
    expect(page.get_by_text(f"{grouped(code)} on the film")).to_be_visible()
    phone.settled()

    told = [event for event in events(workshop.folder) if event["kind"] != "tag.printed.v1"]
    assert {event["kind"] for event in told} == {
        "part.added.v1",
        "steps.set.v1",
        "tag.attached.v1",
    }
    assert len({(event["subject"], event["group"]) for event in told}) == 1  # all or none
    (attached,) = [event for event in told if event["kind"] == "tag.attached.v1"]
    assert (attached["body"], attached["via"]) == ({"code": code, "on": "film"}, code)


def test_a_printed_tag_goes_on_a_thing_already_entered_and_finds_it_again(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    (code,) = record_new_tags(workshop.folder, 1)
    rib = enter(workshop.folder, "part.added.v1", name="Rib 4", number="W-412")
    enter(workshop.folder, "part.added.v1", name="Rib 5", number="W-413")
    phone = new_phone(camera=camera.showing(tmp_path / "tag.mjpeg", camera.printed(code)))
    page = phone.pair()
    phone.settled()

    scan(page)
    expect(page.get_by_role("heading", name="This tag is blank")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text(grouped(code))).to_be_visible()
    page.get_by_role("link", name="A thing already entered").click()
    page.get_by_label("Name or number").fill("412")
    expect(page.get_by_role("button", name="Rib 5")).to_have_count(0)
    page.get_by_role("button", name="Rib 4").click()
    page.get_by_label("on the film").check()
    page.get_by_role("button", name="Put the tag on Rib 4").click()
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible()
    phone.settled()

    told = [event for event in events(workshop.folder) if event["kind"] == "tag.attached.v1"]
    assert [(one["subject"], one["body"], one["via"]) for one in told] == [
        (rib, {"code": code, "on": "film"}, code)
    ]

    scan(page)
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible(timeout=SLOW)
    assert page.url == f"{workshop.url}/part/{rib}"
    assert len(events(workshop.folder)) == 4  # reading a tag records nothing


def test_the_scanner_gives_the_camera_back_and_stop_goes_back(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    phone = new_phone(camera=camera.showing(tmp_path / "bench.mjpeg", None))
    page = phone.pair()
    here = page.url
    scan(page)
    expect(page.get_by_text("Hold the tag inside the outline.")).to_be_visible(timeout=SLOW)
    track = page.evaluate_handle("document.querySelector('video').srcObject.getTracks()[0]")
    assert track.evaluate("track => track.readyState") == "live"
    page.get_by_role("button", name="Type the code").click()
    assert track.evaluate(ENDED)
    page.get_by_role("button", name="Use the camera").click()
    expect(page.get_by_text("Hold the tag inside the outline.")).to_be_visible(timeout=SLOW)

    track = page.evaluate_handle("document.querySelector('video').srcObject.getTracks()[0]")
    page.evaluate(SEEN, "hidden")  # another app comes to the front
    assert track.evaluate(ENDED)
    page.evaluate(SEEN, "visible")
    expect(page.get_by_text("Hold the tag inside the outline.")).to_be_visible(timeout=SLOW)

    page.get_by_role("button", name=re.compile("STOP")).click()
    expect(page.get_by_role("link", name=re.compile("SCAN"))).to_be_visible()
    assert page.url == here


def test_a_tag_is_read_without_a_network(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    (code,) = record_new_tags(workshop.folder, 1)
    phone = new_phone(camera=camera.showing(tmp_path / "tag.mjpeg", camera.printed(code)))
    page = phone.pair()
    phone.settled()
    page.evaluate("navigator.serviceWorker.ready.then(() => undefined)")
    workshop.kill()
    page.reload()
    scan(page)
    expect(page.get_by_role("heading", name="This tag is blank")).to_be_visible(timeout=SLOW)


def test_tags_are_printed_from_the_phone_and_one_of_them_is_scanned(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    phone = new_phone()
    page = phone.pair()
    phone.settled()
    scan(page)
    page.get_by_role("link", name="Print tags").click()
    page.get_by_label("How many").fill("3")
    page.get_by_text("label roll").click()
    page.get_by_label("Width, mm").fill("10")
    page.get_by_role("button", name="Make the sheet").click()
    expect(page.get_by_role("alert")).to_contain_text(
        "does not fit a label of 10 x 25 mm", timeout=SLOW
    )
    assert events(workshop.folder) == []

    page.get_by_label("Width, mm").fill("50")
    page.get_by_role("button", name="Make the sheet").click()
    expect(page.get_by_text("3 tags on 3 pages.")).to_be_visible(timeout=SLOW)
    with page.expect_download() as waiting:
        page.get_by_role("link", name="Open the sheet").click()
    file = tmp_path / "tags.pdf"
    waiting.value.save_as(file)
    expect(page.get_by_text("the 3 blank ones again")).to_be_visible(timeout=SLOW)

    scan(page)
    with page.expect_file_chooser() as chooser:
        page.get_by_text("Photo", exact=True).click()
    label = camera.page_of(file.read_bytes(), 1)
    camera.on_the_bench(label).save(tmp_path / "label.jpg")
    chooser.value.set_files(tmp_path / "label.jpg")
    expect(page.get_by_role("heading", name="This tag is blank")).to_be_visible(timeout=SLOW)
    (run,) = events(workshop.folder)
    assert page.url == f"{workshop.url}/attach/{run['body']['codes'][1]}"
