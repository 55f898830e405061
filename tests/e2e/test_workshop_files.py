"""A device that is removed keeps what it has not sent, and that reaches the record as a file."""

from __future__ import annotations

import base64
import hashlib
import io
import json
import subprocess
import sys
import uuid
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page, Playwright, expect

from bucktail.storage.photos import path_of
from running.phone import BenchPhone
from running.unsent import add_unsent, names, texts
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000


def open_screen(phone: BenchPhone) -> Page:
    phone.page.goto(f"{phone.workshop.url}/workshop")
    expect(phone.page.get_by_role("heading", name="This workshop")).to_be_visible(timeout=SLOW)
    return phone.page


def save_file(page: Page, path: Path) -> Path:
    page.get_by_text("By file instead").click()
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save what is not sent as a file").first.click()
    assert saved.value.suggested_filename.endswith(".jsonl")
    saved.value.save_as(path)
    expect(page.get_by_text("It stays on this device too.")).to_be_visible()
    return path


def choose_file(page: Page, path: Path) -> None:
    page.get_by_text("By file instead").click()
    page.get_by_label("Bring in such a file").set_input_files(path)


def outbox_import(workshop: Workshop, path: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "bucktail.cli", "outbox", "import", str(path)]
    command += ["--workshop", str(workshop.folder)]
    return subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)


@pytest.fixture
def other_workshop(tmp_path: Path) -> Iterator[Workshop]:
    served = Workshop(tmp_path / "other")
    served.start()
    yield served
    served.kill()


def test_a_removed_device_keeps_what_it_has_and_brings_it_in_as_a_file(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    lost, office = new_phone(), new_phone()
    lost.pair(device="bench phone")
    lost.settled()
    office.pair(person="Kim Brook", device="office")

    page = open_screen(office)
    page.get_by_role("button", name="Remove bench phone").click()
    stop = page.get_by_role("dialog", name="Remove bench phone?")
    expect(stop).to_contain_text("stays in the record")
    stop.get_by_role("button", name="Keep it").click()
    expect(page.get_by_role("button", name="Remove bench phone")).to_be_visible()
    page.get_by_role("button", name="Remove bench phone").click()
    stop.get_by_role("button", name="Remove bench phone").click()
    expect(page.get_by_role("button", name="Remove bench phone")).to_have_count(0, timeout=SLOW)
    page.get_by_text("Removed devices").click()
    expect(page.get_by_text("Sam Rivers; removed")).to_be_visible()

    # at once: with its next request it is out
    status = "fetch('/api/pull?position=0').then((answer) => answer.status)"
    assert lost.page.evaluate(status) == 401
    add_unsent(lost.page, ["Rib 4", "Rib Ω 5"])
    waiting = lost.stored("outbox")
    page = open_screen(lost)
    expect(page.get_by_text("does not know this device")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("2 entries not sent yet.")).to_be_visible()
    file = save_file(page, tmp_path / "saved.jsonl")
    assert lost.stored("outbox") == waiting
    lines = file.read_text("utf-8").splitlines()
    assert lines[1:] == texts(waiting)
    assert json.loads(lines[0])["device_name"] == "bench phone"

    done = outbox_import(workshop, file)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "2 entries taken up, 0 known already, 0 set aside.\n"
    page = open_screen(office)
    office.settled()
    page.goto(f"{workshop.url}/parts")
    expect(page.get_by_text("Rib Ω 5")).to_be_visible(timeout=SLOW)

    # paired again, it sends what it has, and the record has it once
    lost.page.goto(f"{workshop.url}/#pair={workshop.offer().secret}")
    lost.page.get_by_role("button", name="Join", exact=True).click()
    lost.settled()
    assert names(lost.stored("sent")) == ["Rib 4", "Rib Ω 5"]
    lost.fetched(2)
    assert len(lost.cards()) == 2


def test_a_file_is_brought_in_by_another_device_and_only_into_its_own_workshop(
    workshop: Workshop,
    other_workshop: Workshop,
    new_phone: NewPhone,
    playwright: Playwright,
    tmp_path: Path,
) -> None:
    phone, office = new_phone(), new_phone()
    page = phone.pair()
    phone.settled()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    workshop.kill()
    add_unsent(page, ["Rib 4", "Rib 5", "Rib 6"])
    page.reload()
    page.get_by_role("link", name="workshop", exact=True).click()
    file = save_file(page, tmp_path / "saved.jsonl")
    phone.close()
    workshop.start()

    # damaged on the way: one line is spoilt, one is missing
    lines = file.read_bytes().splitlines(keepends=True)
    spoilt = tmp_path / "spoilt.jsonl"
    spoilt.write_bytes(b"".join([lines[0], lines[1], lines[2].replace(b'"kind"', b'"kin\xff"')]))
    office.pair(person="Kim Brook", device="office")
    page = open_screen(office)
    choose_file(page, spoilt)
    told = page.get_by_role("status").filter(has_text="taken up")
    expect(told).to_contain_text("1 entry taken up", timeout=SLOW)
    expect(told).to_contain_text("Set aside, line 3: it is not readable")
    expect(told).to_contain_text("The file ends too early: 1 entry missing.")
    page.get_by_label("Bring in such a file").set_input_files(file)
    expect(told).to_contain_text("2 entries taken up, 1 known already.", timeout=SLOW)
    page.get_by_label("Bring in such a file").set_input_files(
        {"name": "x.jsonl", "mimeType": "text/plain", "buffer": b"Dear Sam,\n"}
    )
    expect(page.get_by_role("alert")).to_contain_text("not a file of unsent entries", timeout=SLOW)
    page.goto(f"{workshop.url}/parts")
    for name in ("Rib 4", "Rib 5", "Rib 6"):
        expect(page.get_by_text(name)).to_be_visible(timeout=SLOW)

    stranger = BenchPhone(playwright, other_workshop, tmp_path / "stranger")
    page = stranger.pair()
    try:
        page = open_screen(stranger)
        choose_file(page, file)
        alert = page.get_by_role("alert")
        expect(alert).to_contain_text("belong to another workshop", timeout=SLOW)
        assert stranger.cards() == {}
    finally:
        stranger.close()
    refused = outbox_import(other_workshop, file)
    assert (refused.returncode, refused.stdout) == (1, "")
    assert "belongs to another workshop" in refused.stderr


def test_what_another_workshop_never_got_is_found_and_saved(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    """The computer was set up anew under the same address: it is another workshop."""
    phone = new_phone()
    page = phone.pair()
    phone.settled()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    workshop.kill()
    add_unsent(page, ["Rib 4"])
    old = {str(uuid.UUID(json.loads(text)["workshop"])) for text in texts(phone.stored("outbox"))}
    for name in ("bucktail.db", "bucktail.db-journal"):
        (workshop.folder / name).unlink(missing_ok=True)
    workshop.start()
    page.goto(f"{workshop.url}/#pair={workshop.offer().secret}")
    page.get_by_role("button", name="Join", exact=True).click()
    expect(page.get_by_role("navigation", name="Screens")).to_be_visible(timeout=SLOW)
    page = open_screen(phone)
    left = page.get_by_role("region", name="From another workshop")
    expect(left).to_contain_text("1 of its entries", timeout=SLOW)
    with page.expect_download() as saved:
        left.get_by_role("button", name="Save what is not sent as a file").click()
    saved.value.save_as(tmp_path / "saved.jsonl")
    lines = (tmp_path / "saved.jsonl").read_text().splitlines()
    assert {json.loads(line)["workshop"] for line in lines} == old
    assert json.loads(lines[1])["body"] == {"name": "Rib 4"}


PUT_PHOTO = """async ([digest, base64]) => {
  const name = (await indexedDB.databases()).map((one) => one.name)
    .find((one) => /^bucktail-[0-9a-f-]{36}$/.test(one));
  const db = await new Promise((done, failed) => {
    const asked = indexedDB.open(name);
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  });
  const bytes = Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
  const writing = db.transaction('photos', 'readwrite');
  const blob = new Blob([bytes], { type: 'image/jpeg' });
  writing.objectStore('photos').put({ digest, bytes: blob, sent: false, at: Date.now() });
  await new Promise((done) => { writing.oncomplete = done; });
  db.close();
}"""


@pytest.mark.long
def test_photos_that_were_not_sent_go_along_in_the_file(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    kept = io.BytesIO()
    Image.effect_noise((600, 400), 60).convert("RGB").save(kept, "JPEG", quality=90)
    jpeg = kept.getvalue()
    digest = hashlib.sha256(jpeg).hexdigest()
    phone, office = new_phone(), new_phone()
    page = phone.pair()
    phone.settled()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    workshop.kill()
    add_unsent(page, [""], kind="photo.attached.v1", body={"photo": digest, "size": len(jpeg)})
    page.evaluate(PUT_PHOTO, [digest, base64.b64encode(jpeg).decode()])
    page.reload()
    page.get_by_role("link", name="workshop", exact=True).click()
    expect(page.get_by_text("1 entry and 1 photo not sent yet.")).to_be_visible(timeout=SLOW)
    file = save_file(page, tmp_path / "saved.jsonl")
    phone.close()
    workshop.start()

    office.pair(person="Kim Brook", device="office")
    page = open_screen(office)
    choose_file(page, file)
    told = page.get_by_role("status").filter(has_text="taken up")
    expect(told).to_contain_text("1 entry taken up, 1 photo kept.", timeout=SLOW)
    assert path_of(workshop.folder, digest).read_bytes() == jpeg
    path_of(workshop.folder, digest).unlink()
    done = outbox_import(workshop, file)
    assert (done.returncode, done.stderr) == (0, "")
    assert "0 entries taken up, 1 known already" in done.stdout
    assert path_of(workshop.folder, digest).read_bytes() == jpeg
