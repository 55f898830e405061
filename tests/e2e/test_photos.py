"""Photos: made on the phone without a network, and byte for byte the same on the other disk."""

from __future__ import annotations

import base64
import hashlib
import io
import json
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Locator, Page, expect

from bucktail.storage.opening import open_workshop
from bucktail.storage.photos import path_of
from bucktail.workshop.recorder import Recorder
from running.phone import BenchPhone
from running.sheetstock import enter, sheet
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000
GPS = 0x8825  # the tag under which a camera writes where it was (Exif 2.3, 4.6.3)

READ_PHOTOS = """async () => {
  const name = (await indexedDB.databases()).map((one) => one.name)
    .find((one) => /^bucktail-[0-9a-f-]{36}$/.test(one));
  const db = await new Promise((done) => {
    const asked = indexedDB.open(name);
    asked.onsuccess = () => done(asked.result);
  });
  const kept = await new Promise((done) => {
    const asked = db.transaction('photos').objectStore('photos').getAll();
    asked.onsuccess = () => done(asked.result);
  });
  db.close();
  return Promise.all(kept.map(async ({ digest, bytes, sent }) => {
    const text = Array.from(new Uint8Array(await bytes.arrayBuffer()), (b) =>
      String.fromCharCode(b)).join('');
    return { digest, sent, bytes: btoa(text) };
  }));
}"""


def picture(path: Path, size: tuple[int, int], where: bool = True) -> Path:
    """A picture as a camera writes it, turned by its own orientation tag, with its position."""
    image = Image.linear_gradient("L").resize(size).convert("RGB")
    exif = Image.Exif()
    exif[0x0112] = 6  # orientation: to be turned by a quarter (Exif 2.3, 4.6.4)
    exif[0x010F] = "SECRET MAKER"
    if where:
        exif[GPS] = {1: "N", 2: (51.0, 28.0, 40.0)}
    image.save(path, "JPEG", exif=exif)
    return path


def take(page: Page, file: Path | dict[str, Any]) -> None:
    """Use the camera."""
    page.get_by_label("Take a photo").set_input_files(file)  # type: ignore[arg-type]


def kept_on(phone: BenchPhone) -> list[dict[str, Any]]:
    """The photos on this phone, bytes and all."""
    kept: list[dict[str, Any]] = phone.page.evaluate(READ_PHOTOS)
    return [{**one, "bytes": base64.b64decode(one["bytes"])} for one in kept]


def width_of(image: Locator) -> int:
    """Of a picture as it is shown, in its own pixels; 0 while it is not drawn."""
    return int(image.evaluate("(img) => (img.complete ? img.naturalWidth : 0)"))


def open_offcut(phone: BenchPhone, offcut: str) -> Page:
    """A phone of the workshop with the offcut's screen open."""
    page = phone.pair()
    phone.fetched(1)
    page.goto(f"{phone.workshop.url}/offcut/{offcut}")
    expect(page.get_by_label("Take a photo")).to_be_attached(timeout=SLOW)
    return page


def test_a_photo_of_forty_megapixels_taken_offline_reaches_the_other_browser(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 8))
    phone = new_phone()
    page = open_offcut(phone, offcut)
    workshop.kill()
    take(page, picture(tmp_path / "large.jpg", (7304, 5478)))
    expect(page.get_by_text("Photo kept")).to_be_attached(timeout=30_000)
    expect(page.get_by_role("region", name="Photos").get_by_role("img")).to_be_visible()
    (photo,) = kept_on(phone)
    assert hashlib.sha256(photo["bytes"]).hexdigest() == photo["digest"]
    assert not photo["sent"]
    made = Image.open(io.BytesIO(photo["bytes"]))
    # turned upright, and no side longer than it may be
    assert (made.format, made.size) == ("JPEG", (1920, 2560))
    assert not made.getexif()
    assert b"Exif" not in photo["bytes"]
    assert b"SECRET" not in photo["bytes"]
    (written,) = [json.loads(row["text"]) for row in phone.stored("outbox")]
    assert written["kind"] == "photo.attached.v1"
    assert written["body"] == {
        "photo": photo["digest"],
        "size": len(photo["bytes"]),
        "caption": None,
    }
    # the record and the photo: two things are not sent yet
    expect(page.locator(".sill")).to_contain_text("2 not sent yet")

    workshop.start()
    page.evaluate("dispatchEvent(new Event('online'))")
    phone.settled()
    assert path_of(workshop.folder, photo["digest"]).read_bytes() == photo["bytes"]
    (still,) = kept_on(phone)
    assert still == {**photo, "sent": True}

    other = new_phone()
    other_page = open_offcut(other, offcut)
    shown = other_page.get_by_role("region", name="Photos").get_by_role("img")
    expect(shown).to_be_visible(timeout=SLOW)
    assert width_of(shown) == 1920
    assert kept_on(other) == []
    other_page.get_by_role("region", name="Photos").get_by_role("button", name="photo 1").click()
    other_page.get_by_role("button", name="No longer show it").click()
    expect(shown).to_have_count(0)
    other_page.get_by_role("button", name="Show it again").click()
    expect(shown).to_be_visible()


def test_a_photo_is_entered_together_with_its_offcut(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    phone = new_phone()
    page = phone.pair()
    page.goto(f"{workshop.url}/offcut/new")
    for answer in ("6061-T6", "kit part", ".040", "over film", "grain not known"):
        page.get_by_label(answer, exact=True).check(timeout=SLOW)
    page.get_by_role("textbox", name="First side").fill("5")
    page.get_by_role("textbox", name="Second side").fill("4")
    page.get_by_text("Photo or note").click()
    take(page, picture(tmp_path / "small.jpg", (400, 300)))
    expect(page.get_by_alt_text("as it will be kept")).to_be_visible()
    assert phone.stored("photos") == []
    page.get_by_role("button", name="Keep: 6061-T6").click()
    expect(page.get_by_role("region", name="Photos").get_by_role("img")).to_be_visible()
    (photo,) = kept_on(phone)
    assert Image.open(io.BytesIO(photo["bytes"])).size == (300, 400)
    phone.settled()
    assert path_of(workshop.folder, photo["digest"]).read_bytes() == photo["bytes"]


def test_what_is_no_picture_is_said_and_records_nothing(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 8))
    phone = new_phone()
    page = open_offcut(phone, offcut)
    for name, content in (("a.heic", b"\0\0\0 ftypheic"), ("b.jpg", b""), ("c.jpg", b"\xff\xd8")):
        take(page, {"name": name, "mimeType": "image/jpeg", "buffer": content})
        expect(page.get_by_text("This picture cannot be read on this phone.")).to_be_visible()
    assert phone.stored("outbox") == phone.stored("photos") == []


def leave_room(phone: BenchPhone, more: int) -> None:
    """Leave so many bytes on this phone; call it with the app's page open."""
    page = phone.page
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    used = page.evaluate("async () => (await navigator.storage.estimate()).usage")
    browser = phone.context.new_cdp_session(page)  # type: ignore[union-attr]
    quota = {"origin": phone.workshop.url, "quotaSize": used + more}
    browser.send("Storage.overrideQuotaForOrigin", quota)
    # Chromium asks anew how much room there is once nothing of the site has been open for 2 s
    page.goto("about:blank")
    time.sleep(3)


def test_a_full_phone_keeps_the_record_and_refuses_the_photo_by_name(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    phone = new_phone(lasting=True)  # only such a browser can be told how much room there is
    page = phone.pair()
    leave_room(phone, 1_000_000)
    page.goto(f"{workshop.url}/offcut/new")
    for answer in ("6061-T6", "kit part", ".040", "bare metal", "grain not known"):
        page.get_by_label(answer, exact=True).check(timeout=SLOW)
    page.get_by_role("textbox", name="First side").fill("5")
    page.get_by_role("textbox", name="Second side").fill("4")
    page.get_by_text("Photo or note").click()
    # noise does not shrink: some megabytes
    Image.effect_noise((2560, 1900), 120).convert("RGB").save(tmp_path / "noise.jpg", quality=95)
    take(page, tmp_path / "noise.jpg")
    expect(page.get_by_alt_text("as it will be kept")).to_be_visible(timeout=SLOW)
    workshop.kill()
    page.get_by_role("button", name="Keep: 6061-T6").click()
    expect(page.get_by_role("heading", name="Photo not kept")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("The photo was not kept: the phone is full.")).to_be_visible()
    expect(page.get_by_text("Everything else is kept.")).to_be_visible()
    page.get_by_role("button", name="Go on").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("6061-T6")
    kinds = [json.loads(row["text"])["kind"] for row in phone.stored("outbox")]
    assert kinds == ["offcut.added.v1"]
    assert phone.stored("photos") == []


def test_a_photo_that_is_still_on_another_phone_is_said_to_be_not_here_yet(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 8))
    data = picture(tmp_path / "elsewhere.jpg", (64, 48), where=False).read_bytes()
    digest = hashlib.sha256(data).hexdigest()
    with open_workshop(workshop.folder) as session:
        body = {"photo": digest, "size": len(data), "caption": None}
        Recorder(session).record("photo.attached.v1", body, offcut)
    page = open_offcut(new_phone(), offcut)
    photos = page.get_by_role("region", name="Photos")
    expect(photos).to_contain_text("Photo not here yet", timeout=SLOW)
    # it arrives from the phone that has it, and is shown at the next exchange
    path = path_of(workshop.folder, digest)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
    page.evaluate("dispatchEvent(new Event('online'))")
    expect(photos.get_by_role("img")).to_be_visible(timeout=SLOW)


def test_a_photo_that_the_workshop_lost_goes_out_again(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 8))
    phone = new_phone()
    page = open_offcut(phone, offcut)
    take(page, picture(tmp_path / "photo.jpg", (640, 480)))
    expect(page.get_by_text("Photo kept")).to_be_attached(timeout=SLOW)
    phone.settled()
    (photo,) = kept_on(phone)
    path = path_of(workshop.folder, photo["digest"])
    assert path.read_bytes() == photo["bytes"]
    path.unlink()
    page.reload()  # each time it is opened the phone asks what is missing
    expect(page.get_by_role("region", name="Photos").get_by_role("img")).to_be_visible()
    for _ in range(100):
        if path.is_file():
            break
        page.wait_for_timeout(100)
    assert path.read_bytes() == photo["bytes"]
