"""Every screen, full, empty and in error: looked at in two sizes, checked by axe in two themes.

The screens are read from the app's own table, so one that nobody thought of here fails.
"""

from __future__ import annotations

import re
import shutil
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright, expect

from bucktail.storage.cards import states
from bucktail.storage.opening import open_session
from bucktail.workshop.demo.build import fill
from running.looking import (
    PICTURES,
    ROOT,
    SIZES,
    THEMES,
    overflow,
    picture,
    serious,
    small_targets,
    use_theme,
)
from running.phone import BenchPhone
from running.workshop import Workshop

pytestmark = pytest.mark.browser

TABLE = (ROOT / "web" / "src" / "shell" / "routes.ts").read_text()
NOBODY = "01890000-0000-7000-8000-000000000000"


def words_of(table: str) -> list[str]:
    """The first words of the paths in one of the app's two tables of screens."""
    found = re.search(rf"export const {table}.*?= \{{(.*?)\n\}};", TABLE, re.DOTALL)
    assert found, f"{table} is not in routes.ts as this test expects it"
    return re.findall(r"^  '?([\w-]+)'?[:,]", found.group(1), re.MULTILINE)


# a sum of each sort of drawing, and one that takes all that can be typed
SUMS = {
    "rivet": "stack=.032;.040;.032;&was=.032;.040;&diameter=1/8&head=flush",
    "flush": "thickness=.040&diameter=3/32&under=.032",
    "edge": "edge=3/16&diameter=1/8",
    "hole": "diameter=3/32",
    "layout": "diameter=1/8&length=10&rows=2&width=1.25",
    "flat": "thickness=.040&radius=1/8&legs=1;2;1;",
    "shim": "gap=.032&length=6&width=3/8&alloy=2024-T3&stack=.032;.040;&diameter=1/8",
    "primer": "area=4.8m2&solids=52&film=.8mil&transfer=60&mix=4:1:1",
    "substitute": "alloy=2024-T3&thickness=.032&offered_alloy=6061-T6&offered_thickness=.040",
}
LISTS, ONES = words_of("LISTS"), words_of("ONES")
# what opens on the screen of a thing, by the words of its path before and after the thing's id
SHEETS = (
    "line/edit line/metal line/layer line/size line/length line/finding line/retire part/edit "
    "part/metal part/needs part/split part/finding part/retire wanted/made wanted/edit "
    "finding/decide finding/close"
).split()


def one(word: str) -> str:
    """The name of the pictures of one thing, where the list it stands in has the same word."""
    return f"{word}-one" if word in LISTS else word


class Looked:
    """A workshop, a phone paired with it, and the ids of one thing of every sort."""

    def __init__(self, phone: BenchPhone, ids: dict[str, str]) -> None:
        self.phone, self.page, self.ids = phone, phone.page, ids


def _ids(folder: Path) -> dict[str, str]:
    """For each word of ONES, what stands after it in a path."""
    with open_session(folder) as session:
        parts = {state["number"]: subject for subject, state in states(session, "part")}
        by_sort = {
            sort: next(iter(states(session, sort)), (NOBODY, {}))[0]
            for sort in ("place", "offcut", "finding")
        }
        lines = [subject for subject, state in states(session, "line") if "segments" in state]
        wanted = [subject for subject, state in states(session, "wanted") if not state.get("met")]
        sheets = [
            subject
            for subject, state in states(session, "offcut")
            if state["form"] == "sheet" and "cut" not in state
        ]
        sheet = next((state for _, state in states(session, "tags")), None)
        code = sheet["codes"][-1] if sheet else NOBODY
    return {
        **by_sort,
        "line": next(iter(lines), NOBODY),
        "wanted": next(iter(wanted), NOBODY),
        "offcut": next(iter(sheets), NOBODY),
        "cut": next(iter(sheets), NOBODY),
        "part": parts.get("TP-01-R", NOBODY),
        "steps": parts.get("TP-01-R", NOBODY),
        "attach": code,
        "tag": code,
        "retag": parts.get("TP-01-R", NOBODY),
        "reckoner": "rivet",
    }


@pytest.fixture(scope="module")
def shown(
    playwright: Playwright, tmp_path_factory: pytest.TempPathFactory, webapp: Path
) -> Iterator[dict[str, Looked]]:
    """Two phones: one of the demo workshop, one of a workshop without anything in it."""
    shutil.rmtree(PICTURES, ignore_errors=True)  # a stale picture must not stand for a new one
    folder = tmp_path_factory.mktemp("screens")
    fill(folder / "demo", int(time.time() * 1000))
    looked: dict[str, Looked] = {}
    served = []
    for name in ("demo", "empty"):
        workshop = Workshop(folder / name)
        workshop.start()
        phone = BenchPhone(playwright, workshop, folder / f"{name}-phone")
        phone.pair()
        phone.fetched({"demo": 120, "empty": 0}[name])
        looked[name] = Looked(phone, _ids(workshop.folder))
        served.append((workshop, phone))
    yield looked
    for workshop, phone in served:
        phone.close()
        workshop.stop()


def look_at(looked: Looked, path: str, name: str) -> None:
    """Open a screen, keep its pictures, and hold it to what every screen must be."""
    page = looked.page
    page.set_viewport_size(SIZES["phone"])  # type: ignore[arg-type]
    page.goto(looked.phone.workshop.url + path)
    expect(page.locator("main h1")).to_be_visible()
    page.wait_for_load_state("networkidle")
    for theme in THEMES:
        use_theme(page, theme)
        page.wait_for_timeout(150)
        assert serious(page) == [], f"{path}, {theme}"
        for size, pixels in SIZES.items():
            page.set_viewport_size(pixels)  # type: ignore[arg-type]
            assert not overflow(page), f"{path} is wider than the {size}"
            picture(page, f"{name}-{size}-{theme}")
        page.set_viewport_size(SIZES["phone"])  # type: ignore[arg-type]
    assert small_targets(page) == [], path


@pytest.mark.parametrize("word", ["", *LISTS])
def test_a_screen_of_the_demo(shown: dict[str, Looked], word: str) -> None:
    look_at(shown["demo"], f"/{word}", f"{word or 'first'}-full")


@pytest.mark.parametrize("word", ["", *LISTS])
def test_a_screen_with_nothing_in_it_yet(shown: dict[str, Looked], word: str) -> None:
    look_at(shown["empty"], f"/{word}", f"{word or 'first'}-empty")


@pytest.mark.parametrize("word", ONES)
def test_the_screen_of_one_thing(shown: dict[str, Looked], word: str) -> None:
    look_at(shown["demo"], f"/{word}/{shown['demo'].ids[word]}", f"{one(word)}-full")


@pytest.mark.long
@pytest.mark.parametrize("path", SHEETS)
def test_a_sheet_of_a_thing(shown: dict[str, Looked], path: str) -> None:
    word, sheet = path.split("/")
    look_at(shown["demo"], f"/{word}/{shown['demo'].ids[word]}/{sheet}", f"{word}-{sheet}-full")


@pytest.mark.parametrize("word", ONES)
def test_the_screen_of_a_thing_that_is_not_there(shown: dict[str, Looked], word: str) -> None:
    look_at(shown["empty"], f"/{word}/{NOBODY}", f"{one(word)}-error")


@pytest.mark.long
@pytest.mark.parametrize(("name", "typed"), SUMS.items())
def test_a_sum_with_its_answer(shown: dict[str, Looked], name: str, typed: str) -> None:
    look_at(shown["demo"], f"/reckoner/{name}?{typed}", f"reckoner-{name}-full")


def test_an_address_without_a_screen(shown: dict[str, Looked]) -> None:
    look_at(shown["demo"], "/nowhere", "nowhere-error")


def test_the_first_screen_of_a_browser_that_is_not_paired(
    shown: dict[str, Looked], playwright: Playwright, tmp_path: Path
) -> None:
    stranger = BenchPhone(playwright, shown["empty"].phone.workshop, tmp_path / "stranger")
    page: Page = stranger.open("/")
    expect(page.get_by_role("button", name="Join")).to_be_visible()
    looked = Looked(stranger, {})
    look_at(looked, "/", "pair-full")
    stranger.close()


def test_no_screen_lacks_its_pictures(shown: dict[str, Looked]) -> None:
    wanted = [f"{word or 'first'}-{state}" for word in ["", *LISTS] for state in ("full", "empty")]
    wanted += [f"{one(word)}-{state}" for word in ONES for state in ("full", "error")]
    for name in [*wanted, "pair-full", "nowhere-error"]:
        for size in SIZES:
            for theme in THEMES:
                assert (PICTURES / f"{name}-{size}-{theme}.png").is_file(), name
