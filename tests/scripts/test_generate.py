"""Generated files: what is stale is named, what nothing makes any more goes."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

import draw_icon
import generate

NAME = "web/src/generated/table.json"


@pytest.fixture
def top(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A checkout of its own for the generator."""
    monkeypatch.setattr(generate, "ROOT", tmp_path)
    return tmp_path


def test_a_missing_or_changed_file_is_stale_until_it_is_written(top: Path) -> None:
    files = {NAME: b"1\n"}
    assert generate.stale(files) == [NAME]
    generate.write(files)
    assert generate.stale(files) == []
    (top / NAME).write_text("2\n")
    assert generate.stale(files) == [NAME]


def test_a_file_that_nothing_makes_any_more_is_named_and_removed(top: Path) -> None:
    generate.write({NAME: b"1\n"})
    assert generate.stale({}) == [NAME]
    generate.write({})
    assert not (top / NAME).exists()


def test_two_generators_may_not_write_one_file(monkeypatch: pytest.MonkeyPatch) -> None:
    twice = ("draw_icon:outputs", "draw_icon:outputs")
    monkeypatch.setattr(generate, "GENERATORS", twice)
    with pytest.raises(SystemExit, match="is made twice"):
        generate.everything()


def test_the_icon_is_a_rivet_on_paper_white_with_both_heads_inside_the_safe_circle() -> None:
    centre, safe = draw_icon.SIDE / 2, 0.4 * draw_icon.SIDE
    for left, top, right, bottom in (draw_icon.FACTORY_HEAD, draw_icon.SHOP_HEAD):
        low = bottom if top > centre else (top + bottom) / 2
        for x, y in ((left, low), (right, low), ((left + right) / 2, top)):
            assert (x - centre) ** 2 + (y - centre) ** 2 <= safe**2
    picture = Image.open(BytesIO(draw_icon.png(180)))
    middle, corner = picture.getpixel((90, 90)), picture.getpixel((2, 2))
    assert (middle, corner) == (rgb(draw_icon.INK), rgb(draw_icon.PAPER))


def rgb(colour: str) -> tuple[int, ...]:
    return tuple(bytes.fromhex(colour.removeprefix("#")))
