"""A phone: Chromium with storage of its own, which can be killed and started again."""

from __future__ import annotations

import contextlib
import json
import os
import signal
import time
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page, Playwright, expect

from chromium import on_path
from running.workshop import Workshop

expect.set_options(timeout=15_000)  # a test may share its processor with another browser

# nothing that Chromium does on its own: no updates, no reports, no first-run page
FLAGS = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync"
).split()
PHONE = {"width": 390, "height": 844}


def trusting(pin: str) -> str:
    """The flag with which Chromium trusts the server whose key has this SHA-256."""
    return f"--ignore-certificate-errors-spki-list={pin}"


# the whole app is on the phone: from here on it opens every screen without a network
ON_THE_PHONE = "navigator.serviceWorker.ready.then(() => undefined)"

READ_ALL = """async (store) => {
  const names = (await indexedDB.databases()).map((one) => one.name);
  const name = names.find((one) => /^bucktail-[0-9a-f-]{36}$/.test(one));
  const db = await new Promise((done, failed) => {
    const asked = indexedDB.open(name);
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  });
  const rows = await new Promise((done, failed) => {
    const asked = db.transaction(store).objectStore(store).getAll();
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  });
  db.close();
  return JSON.stringify(rows);
}"""


class BenchPhone:
    """One phone at the bench. `camera` is an .mjpeg file shown to its camera.

    `flags` are more of Chromium's own, such as one that has the camera refused. Where a running
    browser is given as `within`, the phone is a context of it: it starts sooner, but what it holds
    is gone once it is closed, and it cannot be killed.
    """

    def __init__(
        self,
        playwright: Playwright,
        workshop: Workshop,
        storage: Path,
        camera: Path | None = None,
        flags: tuple[str, ...] = (),
        within: Browser | None = None,
    ) -> None:
        self.playwright, self.workshop, self.storage = playwright, workshop, storage
        self.camera, self.flags, self.within = camera, flags, within
        self.context: BrowserContext | None = None
        self.page: Page = None  # type: ignore[assignment]

    def open(self, path: str = "/", **options: Any) -> Page:
        """Start the browser and open the app."""
        options = {"viewport": PHONE, "has_touch": True, **options}
        self.context = (
            self.within.new_context(**options) if self.within else self._of_its_own(options)
        )
        self.page = self.context.pages[0] if self.context.pages else self.context.new_page()
        self.page.goto(self.workshop.url + path)
        return self.page

    def _of_its_own(self, options: dict[str, Any]) -> BrowserContext:
        flags = [*FLAGS, trusting(self.workshop.pin)]
        if self.camera:
            flags += ["--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream"]
            flags += [f"--use-file-for-fake-video-capture={self.camera}"]
        return self.playwright.chromium.launch_persistent_context(
            str(self.storage), executable_path=on_path(), args=[*flags, *self.flags], **options
        )

    def pair(self, person: str = "Sam Rivers", device: str = "bench phone") -> Page:
        """Open the pairing link and join."""
        offer = self.workshop.offer()
        page = self.open(f"/#pair={offer.secret}")
        page.get_by_label("Your name").fill(person)
        page.get_by_label("Name of this device").fill(device)
        page.get_by_role("button", name="Join").click()
        expect(page.get_by_role("navigation", name="Screens")).to_be_visible()
        page.evaluate(ON_THE_PHONE)
        return page

    def _wait_for_cookie(self) -> None:
        """Chromium writes cookies to the disk up to 30 s late; a kill before that unpairs."""
        kept = self.storage / "Default" / "Cookies"
        for _ in range(400):
            if kept.is_file() and b"__Host-bucktail" in kept.read_bytes():
                return
            time.sleep(0.1)
        raise AssertionError("the pairing cookie was not written within 40 s")

    def kill(self) -> None:
        """End every process of this browser at once, without a chance to write anything."""
        assert self.within is None, "a phone within a shared browser cannot be killed"
        self._wait_for_cookie()
        for status in Path("/proc").glob("[0-9]*/cmdline"):
            with contextlib.suppress(OSError):
                if str(self.storage) in status.read_text():
                    os.kill(int(status.parent.name), signal.SIGKILL)
        time.sleep(0.3)
        with contextlib.suppress(Exception):
            self.context.close()  # type: ignore[union-attr]
        (self.storage / "SingletonLock").unlink(missing_ok=True)
        self.context = None

    def close(self) -> None:
        """Close the browser as a person does."""
        if self.context is not None:
            self.context.close()
            self.context = None

    def stored(self, store: str) -> list[dict[str, Any]]:
        """All records of one of the phone's stores."""
        rows: list[dict[str, Any]] = json.loads(self.page.evaluate(READ_ALL, store))
        return rows

    def cards(self) -> dict[str, str]:
        """Card id -> the card's text as this phone holds it."""
        return {row["id"]: row["text"] for row in self.stored("cards")}

    def fetched(self, things: int) -> None:
        """Wait until this phone holds at least that many cards."""
        for _ in range(150):
            if len(self.stored("cards")) >= things:
                return
            time.sleep(0.2)
        raise AssertionError(f"{things} cards did not arrive within 30 s")

    def settled(self) -> None:
        """Wait until everything is sent."""
        expect(self.page.locator(".sill")).to_contain_text("all sent", timeout=15_000)
