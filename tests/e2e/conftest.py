"""A real Chromium for the tests in this folder, and the web app as it was built."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Playwright, sync_playwright

from chromium import on_path
from running.phone import BenchPhone
from running.workshop import Workshop

ROOT = Path(__file__).resolve().parents[2]

# nothing that Chromium does on its own: no updates, no reports, no first-run page
QUIET_FLAGS = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync"
).split()


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """Playwright, once for all tests."""
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    """One Chromium for all tests that need no flags of their own; take a new context from it."""
    started = playwright.chromium.launch(executable_path=on_path(), args=QUIET_FLAGS)
    yield started
    started.close()


@pytest.fixture(scope="session")
def webapp() -> Path:
    """The folder with the built web app, checked against its own list of files."""
    folder = ROOT / "server" / "bucktail" / "webapp"
    if not (folder / "sw.js").is_file():
        pytest.fail("The web app is not built yet: run scripts/run --setup-only first.")
    for name in re.findall(r"url:[`\"']/([^`\"']+)[`\"']", (folder / "sw.js").read_text()):
        assert (folder / name).is_file(), f"{name} is listed in sw.js but was not built"
    return folder


@pytest.fixture
def workshop(tmp_path: Path) -> Iterator[Workshop]:
    """A blank workshop, served."""
    served = Workshop(tmp_path / "workshop")
    served.start()
    yield served
    served.kill()


@pytest.fixture
def new_phone(
    playwright: Playwright, workshop: Workshop, tmp_path: Path, webapp: Path
) -> Iterator[Callable[..., BenchPhone]]:
    """Makes phones for the workshop; all are closed at the end."""
    made: list[BenchPhone] = []

    def make(**options: object) -> BenchPhone:
        phone = BenchPhone(playwright, workshop, tmp_path / f"phone{len(made)}", **options)  # type: ignore[arg-type]
        made.append(phone)
        return phone

    yield make
    for phone in made:
        phone.close()
