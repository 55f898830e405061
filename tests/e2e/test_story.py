"""The bench loop whole: printed tag, part, dead network, killed browser, another browser."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page, expect
from sqlalchemy import select

from bucktail.storage.opening import open_workshop
from bucktail.storage.photos import path_of
from bucktail.storage.tables import StoredEvent
from bucktail.workshop.printing import record_new_tags
from running import camera
from running.phone import BenchPhone
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000


def keep(page: Page, label: str) -> None:
    """Tap the button that says what it records, and wait until it is kept."""
    page.get_by_role("button", name=label, exact=True).click(timeout=SLOW)
    undo = f"Undo: {label.replace(': ', ' ', 1)}"
    expect(page.get_by_role("button", name=undo, exact=True)).to_be_visible(timeout=SLOW)


def enter_part(page: Page) -> str:
    """From the scanner, which sees the blank tag, to the new part's screen; its path."""
    page.get_by_role("link", name=re.compile("SCAN")).click()
    page.get_by_role("link", name="A new part").click(timeout=SLOW)
    page.get_by_label("Name").fill('Skin "5" =1+1 \N{RIGHTWARDS ARROW} left')
    page.get_by_label("What sort of part is it?").select_option(label="Skin with flush heads")
    page.get_by_role("textbox", name=re.compile("^Holes")).fill("164")
    page.get_by_label("on the metal").check()
    page.get_by_role("button", name=re.compile("^Add Skin")).click()
    expect(page.get_by_role("button", name="Film off along the lines: all")).to_be_visible(
        timeout=SLOW
    )
    return page.evaluate("location.pathname")


def enter_offcut(page: Page, url: str, code: str, photo: Path) -> None:
    """From a blank tag to a kept offcut with a photo."""
    page.goto(f"{url}/attach/{code}")
    page.get_by_role("link", name="A new offcut").click(timeout=SLOW)
    page.get_by_label("2024-T3").check(timeout=SLOW)
    page.get_by_label("clad", exact=True).check()
    page.get_by_label("mill marking seen").check()
    page.get_by_label(".032", exact=True).check()
    page.get_by_label("bare metal").check()
    page.get_by_role("textbox", name="First side").fill("12")
    page.get_by_role("textbox", name="Second side").fill("8 1/2")
    page.get_by_label(re.compile("grain along the (12|first) side")).check()
    page.get_by_label("on the metal").check()
    page.get_by_text("Photo or note").click()
    page.get_by_label("Take a photo").set_input_files(photo)
    expect(page.get_by_alt_text("as it will be kept")).to_be_visible(timeout=SLOW)
    page.get_by_role("button", name=re.compile("^Keep: 2024-T3")).click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("2024-T3 clad .032 in")


def test_the_bench_loop_from_printed_tag_to_another_browser(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    for_part, for_offcut = record_new_tags(workshop.folder, 2)
    phone = new_phone(camera=camera.showing(tmp_path / "tag.mjpeg", camera.printed(for_part)))
    page = phone.pair()
    phone.fetched(1)
    part = enter_part(page)
    for label in ("Film off along the lines: all", "Edges dressed: all", "Trial fitted: all 164"):
        keep(page, label)
    keep(page, "Final drilled: all 164")
    keep(page, "Deburred: all 164")
    page.get_by_role("button", name="some …").click()
    page.keyboard.type("120")
    keep(page, "Dimpled: 120 of 164")
    phone.settled()

    workshop.kill()
    page.reload()  # the network is gone and the app opens all the same
    keep(page, "Dimpled: all 164")
    keep(page, "Cleaned: inside")
    keep(page, "Primed: inside")
    photo = tmp_path / "photo.jpg"
    Image.linear_gradient("L").resize((1600, 1200)).convert("RGB").save(photo)
    enter_offcut(page, workshop.url, for_offcut, photo)
    page.goto(f"{workshop.url}/offcuts")
    page.get_by_role("textbox", name=re.compile("^Width")).fill("4")
    page.get_by_role("textbox", name=re.compile("^Height")).fill("2")
    expect(page.get_by_text(re.compile("^1 serves"))).to_be_visible(timeout=SLOW)
    before = phone.stored("outbox")
    assert [json.loads(row["text"])["kind"] for row in before] == [
        *["step.recorded.v1"] * 3,
        "offcut.added.v1",
        "tag.attached.v1",
        "photo.attached.v1",
    ]

    phone.kill()
    page = phone.open(part)
    expect(page.get_by_role("button", name=re.compile("^Riveted: "))).to_be_visible(timeout=SLOW)
    assert phone.stored("outbox") == before

    workshop.start()
    page.evaluate("dispatchEvent(new Event('online'))")
    phone.settled()
    other = new_phone()
    other.pair(person="Kim Brook", device="office")
    other.fetched(3)
    assert other.cards() == phone.cards()
    with open_workshop(workshop.folder) as session:
        stored = session.execute(select(StoredEvent.raw)).scalars().all()
    assert {row["text"].encode() for row in before} <= set(stored)
    (attached,) = [json.loads(row["text"]) for row in before if "photo.attached" in row["text"]]
    assert path_of(workshop.folder, attached["body"]["photo"]).is_file()
