"""A finding is closed as repaired only on a named decision and on what shows the repair."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page, expect

from running.looking import overflow, serious, small_targets
from running.partstock import part, told, written
from running.phone import BenchPhone
from running.sparline import opened, spar_line
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
WHAT = "Hole oversize, no room for the next rivet"


def looked_at(page: Page) -> None:
    assert serious(page) == []
    assert not overflow(page)
    assert small_targets(page) == []


def test_t8_a_hole_drilled_out_too_near_the_edge_is_repaired_only_on_a_named_decision(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    line, _ = spar_line(workshop.folder)
    phone, page = opened(workshop, new_phone, line)
    page.get_by_role("link", name="Holes go up a size").click()
    page.get_by_label("How many holes?").fill("1")
    page.get_by_label("From the hole to the edge").fill(".1875")
    expect(page.get_by_text("Fails")).to_be_visible()
    expect(page.get_by_text("is 1.5 D")).to_be_visible()
    page.get_by_role("button", name="Write it down as a finding").click()
    page.get_by_role("link", name=WHAT).click()
    expect(page.get_by_text("Nothing is decided yet.")).to_be_visible()
    looked_at(page)

    # nothing decided, nothing shown
    page.get_by_role("link", name="Close it").click()
    page.get_by_role("button", name="Close it").click()
    expect(page.get_by_role("alert")).to_contain_text("It stays open. It wants a decision")
    expect(page.get_by_role("alert")).to_contain_text("the name of who decided; what shows it")
    looked_at(page)

    # a decision without a name
    page.get_by_role("link", name="Say what was decided").click()
    page.get_by_text("Repair it").click()
    page.get_by_role("button", name="Keep this decision").click()
    expect(page.get_by_role("alert")).to_contain_text("Write the name of who decided.")
    looked_at(page)
    page.get_by_label("Who decided?").fill("Kim Brook, licensed engineer")
    page.get_by_label("What is to be done?").fill("Doubler to repair drawing 7")
    page.get_by_role("button", name="Keep this decision").click()
    expect(page.get_by_text("licensed engineer decided to repair it, written")).to_be_visible()
    looked_at(page)

    # nothing shows it
    page.get_by_role("link", name="It is done: close it").click()
    page.get_by_role("button", name="Close it").click()
    expect(page.get_by_role("alert")).to_have_text(
        "It stays open. It wants what shows it: a document named, or a photo put here since "
        "it was decided."
    )
    page.get_by_label("What shows it?").fill("Work order 7")
    page.get_by_role("button", name="Close it").click()
    expect(page.get_by_text("Repaired. Shown by: Work order 7.")).to_be_visible()
    looked_at(page)
    kinds = [one["kind"] for one in written(phone)]
    assert kinds == ["finding.opened.v1", "finding.decided.v1", "finding.closed.v1"]

    # and opened again, it is open
    page.get_by_role("button", name="Open it again").click()
    expect(page.get_by_role("link", name="It is done: close it")).to_be_visible()


def test_t8_a_closing_sent_raw_without_a_decision_closes_nothing(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    line, ids = spar_line(workshop.folder)
    finding = line[:-4] + "f00d"
    told(workshop.folder, finding, "finding.opened.v1", {"on": ids["Spar"], "what": WHAT})
    raw = {"outcome": "repaired", "decision": None, "evidence": "it is fine"}
    told(workshop.folder, finding, "finding.closed.v1", raw)
    phone = new_phone()
    page = phone.pair()
    phone.fetched(5)
    page.goto(f"{workshop.url}/finding/{finding}")
    expect(page.get_by_text("Nothing is decided yet.")).to_be_visible()
    stays = page.get_by_text("It was to be closed: repaired. It stays open.")
    expect(stays).to_contain_text("It wants a decision")
    looked_at(page)
    page.goto(f"{workshop.url}/part/{ids['Spar']}")
    expect(page.get_by_text("Nothing decided yet")).to_be_visible()


def test_what_is_wrong_with_a_part_is_written_down_by_hand_and_a_photo_shows_its_repair(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    rib = part(workshop.folder, "Rib 4")
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    Image.new("RGB", (60, 40), (176, 178, 181)).save(tmp_path / "scratch.jpg")
    Image.new("RGB", (60, 40), (116, 118, 121)).save(tmp_path / "repaired.jpg")
    page.goto(f"{workshop.url}/part/{rib}")
    page.get_by_role("link", name="Something is wrong with it").click()
    expect(page.get_by_role("button", name="Say what is wrong")).to_be_disabled()
    page.get_by_label("What is wrong").fill("A scratch")
    page.get_by_label("Take a photo").set_input_files(tmp_path / "scratch.jpg")
    expect(page.get_by_role("button", name="Leave out")).to_be_visible()
    looked_at(page)
    page.get_by_role("button", name="Write it down as a finding").click()
    page.get_by_role("link", name="Say what was decided").click()
    page.get_by_text("Repair it").click()
    page.get_by_label("Who decided?").fill("Sam Rivers")
    page.get_by_role("button", name="Keep this decision").click()
    page.get_by_role("link", name="It is done: close it").click()
    page.get_by_role("button", name="Close it").click()
    # the photo of the scratch shows no repair
    expect(page.get_by_role("alert")).to_contain_text("It wants what shows it")
    page.get_by_label("Take a photo").set_input_files(tmp_path / "repaired.jpg")
    expect(page.get_by_role("button", name="photo 2")).to_be_visible()
    page.get_by_role("button", name="Close it").click()
    expect(page.get_by_role("region", name="What became of it")).to_contain_text("Repaired.")
    page.goto(f"{workshop.url}/part/{rib}")
    expect(page.get_by_text("Repaired,")).to_be_visible()
    looked_at(page)
