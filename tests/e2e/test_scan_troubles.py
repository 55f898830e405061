"""What the scanner says when there is no tag to read, and the two ways without a camera."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page, expect

from bucktail.storage.opening import open_workshop
from bucktail.tags.code import grouped, with_check_symbols
from bucktail.workshop.printing import record_new_tags
from bucktail.workshop.recorder import Recorder
from running import camera
from running.phone import BenchPhone
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 20_000
STRANGER = with_check_symbols("ABCDEFGH")  # well formed, and printed by nobody here


@pytest.fixture
def scanning(workshop: Workshop, new_phone: NewPhone, tmp_path: Path) -> Callable[..., Page]:
    """Opens the scanner of a phone whose camera looks at a label."""

    def start(label: Image.Image | None, **options: object) -> Page:
        phone = new_phone(camera=camera.showing(tmp_path / "seen.mjpeg", label), **options)
        phone.pair()
        phone.settled()
        phone.page.get_by_role("link", name=re.compile("SCAN")).click()
        return phone.page

    return start


def tagged(folder: Path, name: str, code: str) -> str:
    """Enter a part with a tag on it; its id."""
    with open_workshop(folder) as session:
        recorder = Recorder(session)
        part = recorder.record("part.added.v1", {"name": name})
        recorder.record("tag.attached.v1", {"code": code, "on": "metal"}, part)
        return part


# --- by the camera --------------------------------------------------------------------------------


def test_a_foreign_symbol_is_named_and_scanning_goes_on(scanning: Callable[..., Page]) -> None:
    page = scanning(camera.foreign("https://example.org/offer?<b>now</b>"))
    said = page.get_by_text("This is not one of our tags")
    expect(said).to_be_visible(timeout=SLOW)
    expect(said).to_contain_text("https://example.org/offer?<b>now</b>")
    expect(page.get_by_text("Hold the tag inside the outline.")).to_be_visible()


def test_ten_symbols_that_do_not_belong_together_are_not_repaired(
    workshop: Workshop, scanning: Callable[..., Page]
) -> None:
    (code,) = record_new_tags(workshop.folder, 1)
    tagged(workshop.folder, "Rib 4", code)
    wrong = code[:4] + ("8" if code[4] == "7" else "7") + code[5:]
    page = scanning(camera.foreign(wrong))
    expect(page.get_by_text("do not belong together")).to_be_visible(timeout=SLOW)
    assert page.url.endswith("/scan")


def test_a_damaged_tag_is_called_damaged(workshop: Workshop, scanning: Callable[..., Page]) -> None:
    (code,) = record_new_tags(workshop.folder, 1)
    page = scanning(camera.damaged(camera.printed(code)))
    expect(page.get_by_text("This QR code cannot be read")).to_be_visible(timeout=SLOW)
    assert page.url.endswith("/scan")


def test_a_tag_nobody_here_knows_can_be_used_or_left(scanning: Callable[..., Page]) -> None:
    page = scanning(camera.printed(STRANGER))
    expect(page.get_by_text("not one that this device knows")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("The workshop computer does not know it either")).to_be_visible()
    page.get_by_role("link", name="Use this tag anyway").click()
    expect(page.get_by_role("heading", name="What does this tag go on?")).to_be_visible()
    expect(page.get_by_text(grouped(STRANGER))).to_be_visible()


def test_a_tag_printed_a_moment_ago_is_asked_for(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    phone = new_phone(camera=camera.showing(tmp_path / "new.mjpeg", camera.printed(STRANGER)))
    page = phone.pair()
    phone.settled()
    with open_workshop(workshop.folder) as session:
        Recorder(session).record("tag.printed.v1", {"codes": [STRANGER]})
    page.get_by_role("link", name=re.compile("SCAN")).click()
    expect(page.get_by_role("heading", name="This tag is blank")).to_be_visible(timeout=SLOW)


def test_a_refused_camera_says_what_to_do_and_leaves_two_ways(
    scanning: Callable[..., Page],
) -> None:
    page = scanning(None, flags=("--use-fake-ui-for-media-stream=deny",))
    told = page.get_by_role("alert")
    expect(told).to_contain_text("may not use the camera", timeout=SLOW)
    expect(told).to_contain_text("allow the camera, and try again")
    expect(page.get_by_role("button", name="Try again")).to_be_visible()
    expect(page.get_by_label("Take or choose a photo of a tag")).to_be_enabled()
    expect(page.get_by_role("button", name="Type the code")).to_be_enabled()


def test_a_replaced_tag_finds_the_thing_and_says_so(
    workshop: Workshop, scanning: Callable[..., Page]
) -> None:
    old, new = record_new_tags(workshop.folder, 2)
    part = tagged(workshop.folder, "Rib 4", old)
    with open_workshop(workshop.folder) as session:
        recorder = Recorder(session)
        recorder.record("tag.attached.v1", {"code": new, "on": "tied"}, part)
        recorder.record("tag.replaced.v1", {"old": old, "new": new}, part)
    page = scanning(camera.printed(old))
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible(timeout=SLOW)
    note = f"This tag, {grouped(old)}, was replaced by {grouped(new)}."
    expect(page.get_by_text(note)).to_be_visible()
    page.reload()  # reached by its address now, not by the tag
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible()
    expect(page.get_by_text(note)).to_have_count(0)


def test_the_address_in_a_tag_leads_where_the_tag_does(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    code, blank = record_new_tags(workshop.folder, 2)
    part = tagged(workshop.folder, "Rib 4", code)
    phone = new_phone()
    page = phone.pair()
    phone.settled()
    page.goto(f"{workshop.url}/tag/{code}")
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible(timeout=SLOW)
    assert page.url == f"{workshop.url}/part/{part}"
    page.goto(f"{workshop.url}/tag/{blank}")
    expect(page.get_by_role("heading", name="This tag is blank")).to_be_visible(timeout=SLOW)
    page.goto(f"{workshop.url}/tag/{STRANGER}")
    expect(page.get_by_text("not one that this device knows")).to_be_visible(timeout=SLOW)
    page.goto(f"{workshop.url}/tag/{code[:9]}")
    expect(page.get_by_text("1 is missing")).to_be_visible(timeout=SLOW)


# --- from a photo ---------------------------------------------------------------------------------


def choose(page: Page, file: Path) -> None:
    """Choose a photo, as from the phone's library."""
    with page.expect_file_chooser() as chooser:
        page.get_by_text("Photo", exact=True).click()
    chooser.value.set_files(file)


def test_photos_of_every_kind(workshop: Workshop, new_phone: NewPhone, tmp_path: Path) -> None:
    (code,) = record_new_tags(workshop.folder, 1)
    tagged(workshop.folder, "Rib 4", code)
    phone = new_phone()  # no camera at all
    page = phone.pair()
    phone.settled()
    page.get_by_role("link", name=re.compile("SCAN")).click()
    expect(page.get_by_text("No camera was found on this device.")).to_be_visible(timeout=SLOW)

    heic = tmp_path / "tag.heic"
    heic.write_bytes(b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + bytes(500))
    choose(page, heic)
    expect(page.get_by_text("cannot open that file as a picture")).to_be_visible(timeout=SLOW)
    choose(page, camera.photo(tmp_path / "bare.jpg", None, (1600, 1200), 0))
    expect(page.get_by_text("No tag was found in this photo.")).to_be_visible(timeout=SLOW)
    choose(page, camera.photo(tmp_path / "tag.png", camera.printed(code), (1600, 1200), 500))
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible(timeout=SLOW)


@pytest.mark.long
def test_a_photo_of_40_megapixels_with_a_small_tag_in_it(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    (code,) = record_new_tags(workshop.folder, 1)
    tagged(workshop.folder, "Rib 4", code)
    label = camera.printed(code)
    # 310 of 7,300 pixels: at 1,600 a square is below two pixels, so only a second look reads it
    file = camera.photo(tmp_path / "large.jpg", label, (7300, 5480), 310)
    page = new_phone().pair()
    page.get_by_role("link", name=re.compile("SCAN")).click()
    choose(page, file)
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible(timeout=60_000)


# --- typed ----------------------------------------------------------------------------------------


def test_the_last_four_symbols_suggest_and_a_tap_takes(
    workshop: Workshop, scanning: Callable[..., Page]
) -> None:
    codes = record_new_tags(workshop.folder, 3)
    tagged(workshop.folder, "Rib 4", codes[0])
    page = scanning(None)
    page.get_by_role("button", name="Type the code").click()
    field = page.get_by_label("Code on the tag")
    field.fill(codes[0][-4:].lower())
    suggestion = page.get_by_role("button", name=grouped(codes[0]))
    expect(suggestion).to_contain_text("Rib 4")
    field.press("Enter")
    assert page.url.endswith("/scan")  # never taken without a tap
    field.fill(codes[1])
    expect(page.get_by_role("button", name=grouped(codes[1]))).to_contain_text("blank")
    field.fill(grouped(codes[0]))
    suggestion.click()
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible()


def test_typing_what_is_no_tag_is_told(workshop: Workshop, scanning: Callable[..., Page]) -> None:
    (code,) = record_new_tags(workshop.folder, 1)
    page = scanning(None)
    page.get_by_role("button", name="Type the code").click()
    field = page.get_by_label("Code on the tag")
    field.fill("UUUU")
    expect(page.get_by_text("“U” in place 1 is never used on a tag.")).to_be_visible()
    wrong = "".join("8" if symbol == "7" else "7" for symbol in code)
    field.fill(wrong)
    expect(page.get_by_text("do not belong together")).to_be_visible()
    field.fill(STRANGER)
    page.get_by_role("button", name=grouped(STRANGER)).click()
    expect(page.get_by_text("not one that this device knows")).to_be_visible()
