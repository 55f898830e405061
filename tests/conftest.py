"""For every test: browser tests are skipped, with the reason, where there is no Chromium."""

from __future__ import annotations

import os

import pytest

from chromium import on_path


def why_no_chromium() -> str:
    """The sentence to skip with; empty when there is a Chromium."""
    told = os.environ.get("BUCKTAIL_NO_CHROMIUM", "")
    if told or on_path():
        return told
    return "no Chromium is installed; scripts/test installs Debian's where it can"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Skip what is marked `browser` when there is no browser."""
    why = why_no_chromium()
    if not why:
        return
    for item in items:
        if item.get_closest_marker("browser"):
            item.add_marker(pytest.mark.skip(reason=why))
