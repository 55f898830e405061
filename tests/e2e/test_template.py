"""A wanted piece at full size, from its screen: fetched, named, and refused in words."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest
from playwright.sync_api import expect

from bucktail.storage.opening import open_workshop
from bucktail.workshop.recorder import Recorder
from running.looking import overflow, serious, small_targets
from running.phone import BenchPhone
from running.pieces import recorded
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]


def piece(folder: Path, name: str) -> str:
    """A piece wanted with its sum, on record."""
    with open_workshop(folder) as session:
        recorder = Recorder(session)
        (kind, body), (kept, told) = recorded(name)
        subject = recorder.record(kind, body)
        recorder.record(kept, told, subject)
        return subject


def test_a_template_is_fetched_from_the_screen_of_the_piece(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    subject = piece(workshop.folder, "stiffener")
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    page.goto(f"{workshop.url}/wanted/{subject}")
    section = page.locator(".template-of")
    expect(section).to_contain_text("so it must be within reach")
    # the workshop measures in inches
    expect(section.get_by_role("radio", name="US Letter")).to_be_checked()
    section.get_by_text("A4", exact=True).click()
    section.get_by_role("button", name="Pages to print").click()
    expect(section.get_by_role("status")).to_contain_text(re.compile(r"\d pages\. Print at actual"))
    assert serious(page) == [] and small_targets(page) == [] and not overflow(page)
    with page.expect_download() as fetched:
        section.get_by_role("link", name="Open the pages").click()
    assert fetched.value.suggested_filename == "template-a-stiffener.pdf"
    pages = pypdfium2.PdfDocument(Path(fetched.value.path()).read_bytes())
    assert len(pages) == 3
    assert {round(max(one.get_size()) / 72 * 25.4) for one in pages} == {297}

    section.get_by_role("button", name="DXF file").click()
    with page.expect_download() as fetched:
        section.get_by_role("link", name="Open the DXF").click()
    assert b"BEND_LINES" in Path(fetched.value.path()).read_bytes()

    workshop.stop()
    section.get_by_role("button", name="SVG file").click()
    expect(section.get_by_role("alert")).to_contain_text("try again within its reach")
    expect(section.get_by_role("link")).to_have_count(0)
