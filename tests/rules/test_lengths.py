"""The unit reader. Published: 1 in = 25.4 mm exactly, so 1/64 in = 396 875 nm."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bucktail.rules import lengths
from bucktail.rules.gauges import gauges
from bucktail.rules.lengths import (
    Length,
    NotRead,
    Unit,
    WhichUnit,
    read_length,
    read_thickness,
    round_half_away,
    show_length,
    show_thickness,
)

UNITS = st.sampled_from(["in", "mm"])


def nm(text: str, unit: Unit = "in") -> int:
    read = read_length(text, unit)
    assert isinstance(read, Length), read
    return read.nm


def refused(text: str, unit: Unit = "in") -> str:
    read = read_length(text, unit)
    assert isinstance(read, NotRead), read
    return read.sentence


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        # the international inch: 25.4 mm exactly (NIST SP 811, appendix B)
        ("1 in", "mm", 25_400_000),
        ("1/64", "mm", 396_875),
        ("1/32", "in", 793_750),
        ("1 1/8", "mm", 28_575_000),
        ("1-1/8 in", "mm", 28_575_000),
        ('3/32"', "mm", 2_381_250),
        ("3\u204432\u2033", "mm", 2_381_250),
        ("1\u00bd", "mm", 38_100_000),
        ("1\u20091/8\u201d", "mm", 28_575_000),
        ("0.032in", "mm", 812_800),
        (".032", "in", 812_800),
        ("0,8 mm", "in", 800_000),
        ("0.8mm", "in", 800_000),
        ("1.5mil", "mm", 38_100),
        ("2.5 cm", "in", 25_000_000),
        ("12", "in", 304_800_000),
        ("12", "mm", 12_000_000),
        # rounded once, a half away from zero
        ("0.0000005 mm", "in", 1),
        ("1/3", "mm", 8_466_667),
    ],
)
def test_what_is_typed_at_the_bench_is_read_exactly(text: str, unit: Unit, expected: int) -> None:
    assert nm(text, unit) == expected


# thicknesses in mm, as printed to three decimals in the reference list of sheet thicknesses
@pytest.mark.parametrize(
    ("inch", "mm"),
    [
        (".016", "0.406"), (".020", "0.508"), (".025", "0.635"), (".032", "0.813"),
        (".036", "0.914"), (".040", "1.016"), (".050", "1.27"), (".051", "1.295"),
        (".063", "1.6"), (".064", "1.626"), (".071", "1.803"), (".080", "2.032"),
        (".081", "2.057"), (".090", "2.286"), (".100", "2.54"), (".125", "3.175"),
    ],
)  # fmt: skip
def test_inch_thicknesses_show_the_printed_millimetres(inch: str, mm: str) -> None:
    assert show_thickness(nm(inch), "mm", named=False) == mm
    assert show_thickness(nm(inch), "in", named=False) == inch


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "Nothing is written. " + lengths.ACCEPTED),
        ("abc", "\u201cabc\u201d cannot be read as a length. " + lengths.ACCEPTED),
        ("NaN", "\u201cNaN\u201d cannot be read as a length. " + lengths.ACCEPTED),
        ("-1/2", lengths.NEGATIVE),
        ("\u22125 mm", lengths.NEGATIVE),
        ("0", lengths.ZERO),
        ("0.0000004 mm", lengths.ZERO),
        ("10001 mm", lengths.TOO_LONG),
        ("1e9", lengths.EXPONENT),
        ("1/0", lengths.NO_DENOMINATOR),
        ("1 9/8", lengths.NOT_A_PART),
        ("1 8/8", lengths.NOT_A_PART),
        ("1/2 mm", lengths.INCH_FRACTION),
        ("1,250 mm", lengths.TWO_WAYS),
        ("1 in 3 mm", lengths.TWO_UNITS),
        ("4x5", lengths.TWO_UNITS),
    ],
)
def test_what_is_no_length_gets_its_own_sentence(text: str, sentence: str) -> None:
    assert refused(text) == sentence


def test_the_longest_length_is_ten_metres_to_the_nanometre() -> None:
    assert nm("10000 mm") == 10_000_000_000
    assert refused("10000.000001 mm") == lengths.TOO_LONG


@pytest.mark.parametrize(("text", "unit"), [("0.8", "in"), ("1.6", "in"), (".032", "mm")])
def test_a_thickness_listed_in_the_other_unit_only_is_asked_about(text: str, unit: Unit) -> None:
    answer = read_thickness(text, unit, gauges())
    assert isinstance(answer, WhichUnit)
    assert (answer.inch.text, answer.mm.text) == (f"{text} in", f"{text} mm")
    assert answer.inch.nm == nm(answer.inch.text) and answer.mm.nm == nm(answer.mm.text)
    listed = answer.mm.text if unit == "in" else answer.inch.text
    assert answer.sentence.endswith(f"Only {listed} is a listed sheet thickness.")


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        (".032", "in"),
        ("0.8", "mm"),
        (".8 in", "in"),
        ("1/32", "mm"),
        (".045", "in"),
        ("32 mil", "mm"),
    ],
)
def test_no_question_where_the_unit_is_said_or_nothing_speaks_for_the_other(
    text: str, unit: Unit
) -> None:
    answer = read_thickness(text, unit, gauges())
    assert isinstance(answer, Length)
    assert answer.nm == nm(text, unit)


def test_no_question_where_the_figure_is_listed_in_both_units() -> None:
    half_inch, half_mm = gauges()[-1], gauges()[0]
    both = (replace(half_inch, nm=12_700_000), replace(half_mm, nm=500_000))
    assert read_thickness("0.5", "in", both) == Length(12_700_000, "0.5")
    assert read_thickness("0.5", "mm", both) == Length(500_000, "0.5")
    assert isinstance(read_thickness("0.5", "in", both[1:]), WhichUnit)


def test_a_sheet_thicker_than_an_inch_is_refused() -> None:
    assert read_thickness("12", "in", gauges()) == NotRead(lengths.TOO_THICK)
    assert read_thickness("25.4 mm", "in", gauges()) == Length(25_400_000, "25.4 mm")


def test_one_rounding_a_half_goes_away_from_zero() -> None:
    halves = [Fraction(n, 2) for n in (-5, -3, -1, 1, 3, 5)]
    assert [round_half_away(half) for half in halves] == [-3, -2, -1, 1, 2, 3]
    assert round_half_away(Fraction(249, 100)) == 2


@given(st.text(max_size=60), UNITS)
def test_no_text_makes_the_reader_raise(text: str, unit: Unit) -> None:
    for answer in (read_length(text, unit), read_thickness(text, unit, gauges())):
        if isinstance(answer, NotRead):
            assert answer.sentence.endswith(".")
        if isinstance(answer, Length):
            assert 0 < answer.nm <= lengths.LONGEST_NM


@given(st.text(alphabet="0123456789./,- \"'inmcetrhlou\u00bd\u2044e", max_size=14), UNITS)
def test_nothing_typed_is_read_as_negative_or_absurd(text: str, unit: Unit) -> None:
    answer = read_length(text, unit)
    if isinstance(answer, Length):
        assert 0 < answer.nm <= lengths.LONGEST_NM
        assert answer.text == text.strip(lengths.SPACES)


@given(st.integers(1, 25 * 12 * 64), UNITS)
def test_every_64th_comes_back_from_how_it_is_shown(sixty_fourths: int, unit: Unit) -> None:
    length = sixty_fourths * 396_875
    assert nm(show_length(length, "in"), unit) == length
    assert nm(show_length(length, "in", named=False), "mm") == length or (
        sixty_fourths % 64 == 0  # a bare whole number follows the workshop
    )


@given(st.integers(1, 9_999_999), UNITS)
def test_inch_and_millimetre_agree(ten_thousandths: int, unit: Unit) -> None:
    # n / 10 000 in = n x 2540 nm = n x 0.00254 mm, all whole numbers
    length = min(ten_thousandths, 3_937_007) * 2540
    whole, rest = divmod(length // 2540, 10_000)
    assert nm(f"{whole}.{rest:04d} in", unit) == length
    assert nm(f"{length // 1_000_000}.{length % 1_000_000:06d} mm", unit) == length


@given(st.integers(1, 10_000_000_000), UNITS)
def test_what_is_shown_is_within_half_its_last_place(length: int, unit: Unit) -> None:
    last = {"in": 2540, "mm": 10_000}[unit]
    shown = show_length(length, unit)
    if shown not in (".000 in", "0 mm"):
        read = read_length(shown, unit)
        assert read == NotRead(lengths.TOO_LONG) or abs(nm(shown) - length) * 2 <= last


def test_a_length_below_zero_cannot_be_shown() -> None:
    for show in (show_length, show_thickness):
        with pytest.raises(ValueError, match="below zero"):
            show(-1, "in")
