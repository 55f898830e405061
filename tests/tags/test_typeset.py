"""The words on a label: all there, or reported; never outside their room."""

from __future__ import annotations

import unicodedata

import pytest
from fpdf import FPDF
from hypothesis import given, settings
from hypothesis import strategies as st

from bucktail.tags.lettering import Lettering
from bucktail.tags.typeset import (
    CODE_LEAST_POINTS,
    TEXT_LEAST_POINTS,
    Block,
    LabelText,
    typeset,
)

DPI = 300
MM = DPI / 25.4
GROUPS = ("8BWQM", "0D5S2")
LETTERING = Lettering(FPDF(unit="pt"), DPI)
NAMES = st.text(
    st.characters(codec="utf-8", categories=("L", "N", "P", "S", "Z", "M", "C")), max_size=60
)


def set_in(width_mm: float, height_mm: float, text: LabelText) -> Block:
    return typeset(LETTERING, width_mm * MM, height_mm * MM, GROUPS, text, (16, 11))


def height_of(block: Block) -> float:
    code, text = block.ems
    return LETTERING.dots(code * block.code_points + text * block.text_points) / MM


@settings(max_examples=60, deadline=None)
@given(
    st.floats(9, 60),
    st.floats(4.5, 60),
    st.builds(LabelText, NAMES, st.lists(NAMES, max_size=4).map(tuple), st.booleans()),
)
def test_words_keep_to_their_room_and_nothing_is_lost_in_silence(
    width: float, height: float, text: LabelText
) -> None:
    block = set_in(width, height, text)
    assert height_of(block) <= height + 1e-6
    for group in GROUPS:
        assert LETTERING.width(group, block.code_points, bold=True) <= width * MM + 1e-6
    for line in block.lines:
        assert LETTERING.width(line.text, line.points) <= width * MM + 1e-6 or line.text == "…"
    asked = [LETTERING.printable(each)[0] for each in (text.name, *text.detail)]
    whole = " ".join(each for each in asked if each)
    kept = " ".join(line.text for line in block.lines)
    assert kept == whole or block.notes
    assert block.arrow == text.grain_arrow or block.notes
    if block.lines or block.arrow:
        assert block.text_points >= TEXT_LEAST_POINTS
    assert block.code_points >= CODE_LEAST_POINTS - 1.2, "five wide symbols may need a little less"


def test_the_code_takes_the_room_when_it_stands_alone() -> None:
    assert set_in(40, 25, LabelText()).code_points == 16
    low = set_in(40, 6, LabelText())
    assert 10 < low.code_points < 11 and low.lines == () and low.notes == ()


def test_type_shrinks_before_anything_is_cut() -> None:
    name = "Outboard leading edge skin, left"
    sizes = [set_in(width, 20, LabelText(name)).text_points for width in (60, 30, 20, 14)]
    assert sizes == sorted(sizes, reverse=True) and sizes[0] == 11 > sizes[-1]
    assert all(not set_in(width, 20, LabelText(name)).notes for width in (60, 30, 20, 14))


def test_a_name_too_long_loses_its_end_and_says_so() -> None:
    block = set_in(14, 9, LabelText("Outboard leading edge skin, left, lower, forward"))
    assert block.lines[-1].text.endswith("…")
    assert block.notes == (f"shortened to “{block.lines[-1].text}”",)


def test_lines_are_broken_evenly() -> None:
    block = set_in(20, 25, LabelText("Shelf three, bay B"))
    texts = [line.text for line in block.lines]
    assert " ".join(texts) == "Shelf three, bay B"
    assert "B" not in texts, "no single letter on a line of its own"


def test_on_a_small_label_alloy_thickness_and_grain_come_before_the_name() -> None:
    text = LabelText("From the upper skin", ("2024-T3 clad", ".032 in bare", "620 x 180 mm"), True)
    block = set_in(15, 11, text)
    assert [line.text for line in block.lines] == ["2024-T3 clad", ".032 in bare"]
    assert block.arrow
    assert block.notes == ("no room for “From the upper skin”", "no room for “620 x 180 mm”")


@pytest.mark.parametrize(
    ("asked", "printed", "replaced"),
    [
        ("Rib 4", "Rib 4", False),
        ("  two\n\tlines \r\n", "two lines", False),
        ("e\u0301tai", "\u00e9tai", False),
        ("Нервюра Ωμέγα", "Нервюра Ωμέγα", False),
        ("“left” & ‘right’ ½ 3×4 ≥ 5°", "“left” & ‘right’ ½ 3×4 ≥ 5°", False),
        ("box \U0001f9f0", "box ?", True),
        ("日本", "??", True),
        ("a\u202eb\u200bc\ufe0f", "abc", False),
        ("bell\x07", "bell?", True),
        ("half \ud800", "half ?", True),
    ],
)
def test_what_can_be_set(asked: str, printed: str, replaced: bool) -> None:
    assert LETTERING.printable(asked) == (printed, replaced)
    assert unicodedata.is_normalized("NFC", printed)


def test_signs_without_a_letterform_are_reported() -> None:
    assert set_in(40, 25, LabelText("日本")).notes == (
        "has letters or signs that cannot be printed; they show as ?",
    )


def test_zero_width_text_costs_nothing() -> None:
    assert LETTERING.width("", 10) == 0
    assert LETTERING.fit("", 0, 10).text == ""
