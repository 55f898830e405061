"""The service worker in a real browser: opens without a network, hands over only when asked."""

from __future__ import annotations

import shutil
import threading
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from running.program import DESCRIPTION, publish_next

pytestmark = pytest.mark.browser

POLICY = (
    "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; "
    "worker-src 'self'; connect-src 'self'"
)


class Handler(SimpleHTTPRequestHandler):
    """Serves a folder as the real server does: content policy, pages for every path, an /api/."""

    def __init__(self, *arguments: object, site: Site) -> None:
        self.site = site
        super().__init__(*arguments, directory=str(site.folder))  # type: ignore[arg-type]

    def do_GET(self) -> None:
        self.site.asked.append(self.path)
        if self.path.startswith("/api/"):
            self.send_error(404)
            return
        if not (self.site.folder / self.path.lstrip("/")).is_file():
            self.path = "/index.html"
        super().do_GET()

    def end_headers(self) -> None:
        self.send_header("Content-Security-Policy", POLICY)
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def log_message(self, format: str, *arguments: object) -> None:
        pass


class Site:
    """A copy of the built web app on a port of its own, which can go away and come back."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.asked: list[str] = []
        self.port = 0
        self.start()

    @property
    def address(self) -> str:
        return f"http://localhost:{self.port}"

    def start(self) -> None:
        handler = partial(Handler, site=self)
        self.server = ThreadingHTTPServer(("127.0.0.1", self.port), handler)
        self.port = self.server.server_port
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def stop(self) -> None:
        self.server.shutdown()
        self.server.server_close()

    def publish_next(self, mark: str, page_too: bool = True) -> None:
        """Put a new version there that differs in its page only, marked in the description."""
        publish_next(self.folder, mark, page_too)


@pytest.fixture
def site(webapp: Path, tmp_path: Path) -> Iterator[Site]:
    shutil.copytree(webapp, tmp_path / "webapp")
    running = Site(tmp_path / "webapp")
    yield running
    running.stop()


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport={"width": 390, "height": 844})
    yield context
    context.close()


def visit(phone: BrowserContext, site: Site, path: str = "/") -> Page:
    page = phone.new_page()
    page.goto(site.address + path)
    expect(page.locator("#app > *").first).to_be_attached()
    return page


def first_visit(phone: BrowserContext, site: Site) -> Page:
    """Visit and wait until the app is on the phone."""
    page = visit(phone, site)
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    expect_caches(page, 1)
    return page


def app_caches(page: Page) -> list[str]:
    names: list[str] = page.evaluate("caches.keys()")
    return [name for name in names if name.startswith("bucktail-app-")]


def expect_caches(page: Page, count: int) -> None:
    """Wait until so many versions of the app are on the phone."""
    for _ in range(100):
        if len(app_caches(page)) == count:
            return
        page.wait_for_timeout(50)
    assert len(app_caches(page)) == count


def look_for_next(page: Page) -> str:
    """Have the browser look for a new version; how it ended: waiting, or none."""
    state: str = page.evaluate(
        """async () => {
            const registration = await navigator.serviceWorker.ready;
            await registration.update().catch(() => undefined);
            for (let i = 0; i < 100; i += 1) {
                if (registration.waiting) return 'waiting';
                if (!registration.installing) return 'none';
                await new Promise((done) => setTimeout(done, 50));
            }
            return 'still installing';
        }"""
    )
    return state


def mark_of(page: Page) -> str:
    mark = page.locator('meta[name="description"]').get_attribute("content")
    return mark or ""


def test_every_page_opens_from_cold_with_the_server_gone(phone: BrowserContext, site: Site) -> None:
    first_visit(phone, site).close()
    site.stop()
    try:
        for path in ("/", "/t/ABCDE12345", "/parts?show=all"):
            page = visit(phone, site, path)
            fonts = "document.fonts.load('16px B612').then((found) => found.length)"
            assert page.evaluate(fonts) == 1
            page.close()
    finally:
        site.start()


def test_what_is_sent_and_asked_of_the_server_is_never_answered_from_the_phone(
    phone: BrowserContext, site: Site
) -> None:
    page = first_visit(phone, site)
    page.reload()
    assert page.evaluate("navigator.serviceWorker.controller !== null")
    site.asked.clear()
    assert page.evaluate("fetch('/api/probe').then((answer) => answer.status)") == 404
    assert "/api/probe" in site.asked
    site.stop()
    try:
        gone = "fetch('/api/probe').then(() => 'answered', () => 'no network')"
        assert page.evaluate(gone) == "no network"
    finally:
        site.start()


def test_a_new_version_waits_until_the_page_asks_and_fetches_only_what_changed(
    phone: BrowserContext, site: Site
) -> None:
    page = first_visit(phone, site)
    old = app_caches(page)
    site.publish_next("next")
    site.asked.clear()
    assert look_for_next(page) == "waiting"
    assert site.asked == ["/sw.js", "/index.html"]
    expect_caches(page, 2)
    other = visit(phone, site)  # a second page: still the old version, and it stays so
    other.wait_for_timeout(300)
    assert mark_of(other) != "next"
    assert len(app_caches(page)) == 2
    other.close()
    page.evaluate(
        """async () => {
            const { waiting } = await navigator.serviceWorker.ready;
            const handover = new Promise((done) => {
                navigator.serviceWorker.addEventListener('controllerchange', done, { once: true });
            });
            waiting.postMessage({ type: 'activate' });
            await handover;
        }"""
    )
    expect_caches(page, 1)
    assert app_caches(page) != old
    site.stop()
    try:
        assert mark_of(visit(phone, site)) == "next"
    finally:
        site.start()


def test_a_version_that_waits_takes_over_at_a_cold_start(phone: BrowserContext, site: Site) -> None:
    page = first_visit(phone, site)
    site.publish_next("next")
    assert look_for_next(page) == "waiting"
    page.close()
    page = visit(phone, site)
    expect(page.locator('meta[name="description"][content="next"]')).to_be_attached()
    expect_caches(page, 1)


def test_half_an_update_changes_nothing_and_is_made_whole_later(
    phone: BrowserContext, site: Site
) -> None:
    page = first_visit(phone, site)
    old = app_caches(page)
    site.publish_next("half", page_too=False)
    assert look_for_next(page) == "none"
    assert app_caches(page) == old
    site.stop()
    try:
        assert mark_of(visit(phone, site)) != "half"
    finally:
        site.start()
    shown = site.folder / "index.html"
    shown.write_bytes(DESCRIPTION.sub(rb'\1"half"', shown.read_bytes()))
    assert look_for_next(page) == "waiting"
