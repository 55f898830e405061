"""A real Chromium for the tests in this folder, and the web app as it was built."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Playwright, sync_playwright

from chromium import on_path
from running.phone import FLAGS, BenchPhone, trusting
from running.workshop import Workshop

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """Playwright, once for all tests."""
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def vouching(tmp_path_factory: pytest.TempPathFactory) -> Workshop:
    """A workshop that was started once: the others take over its certificates."""
    made = Workshop(tmp_path_factory.mktemp("vouching") / "workshop")
    made.start()
    made.kill()
    return made


@pytest.fixture(scope="session")
def browser(playwright: Playwright, vouching: Workshop) -> Iterator[Browser]:
    """One Chromium for all tests that need no flags of their own; take a new context from it."""
    flags = [*FLAGS, trusting(vouching.pin)]
    started = playwright.chromium.launch(executable_path=on_path(), args=flags)
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
def workshop(tmp_path: Path, vouching: Workshop) -> Iterator[Workshop]:
    """A blank workshop, served."""
    served = Workshop(tmp_path / "workshop")
    shutil.copytree(vouching.folder / "authority", served.folder / "authority")
    served.start()
    yield served
    served.kill()


@pytest.fixture
def new_phone(
    playwright: Playwright, browser: Browser, workshop: Workshop, tmp_path: Path, webapp: Path
) -> Iterator[Callable[..., BenchPhone]]:
    """Makes phones for the workshop; all are closed at the end.

    `lasting=True` is for a phone that is closed, killed or updated: one in a browser of its own,
    which still holds everything when it is opened again. A camera or flags need that anyway.
    """
    made: list[BenchPhone] = []

    def make(lasting: bool = False, **options: object) -> BenchPhone:
        shared = None if lasting or options else browser
        storage = tmp_path / f"phone{len(made)}"
        phone = BenchPhone(playwright, workshop, storage, within=shared, **options)  # type: ignore[arg-type]
        made.append(phone)
        return phone

    yield make
    for phone in made:
        phone.close()
