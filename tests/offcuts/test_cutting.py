"""What a cut leaves: nothing is lost and nothing comes of nothing, however often one cuts."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, unary_union

from bucktail.offcuts.cutting import (
    Axis,
    Box,
    Leaves,
    NotStraight,
    Region,
    Ring,
    box_ring,
    cut_length,
    cut_out,
    cut_rectangle,
    doubled_area,
    is_useful,
    mass_g,
    to_corner,
)
from bucktail.rules.materials import sheet_metal
from bucktail.rules.reckon import Unread, reckon
from running.cutstock import blank_on, drawn_outline

IN = 25_400_000
MM = 1_000_000
T3 = sheet_metal("2024", "T3")


def boxes(leaves: Leaves) -> list[Box]:
    """Rectangular remnants as boxes."""
    return sorted((r.outer[0][0], r.outer[0][1], *r.outer[2]) for r in leaves.remnants)


def test_the_first_cut_goes_right_across() -> None:
    blank = (0, 0, 4 * IN, 3 * IN)
    upright = cut_rectangle(12 * IN, 8 * IN, [blank])
    assert boxes(upright) == [(0, 3 * IN, 4 * IN, 8 * IN), (4 * IN, 0, 12 * IN, 8 * IN)]
    level = cut_rectangle(12 * IN, 8 * IN, [blank], first="y")
    assert boxes(level) == [(0, 3 * IN, 12 * IN, 8 * IN), (4 * IN, 0, 12 * IN, 3 * IN)]
    assert upright.dust_um2 == level.dust_um2 == 0


def test_a_saw_takes_its_width_from_what_stays() -> None:
    leaves = cut_rectangle(100 * MM, 80 * MM, [(0, 0, 40 * MM, 30 * MM)], kerf=MM)
    assert boxes(leaves) == [
        (0, 31 * MM, 40 * MM, 80 * MM),
        (41 * MM, 0, 100 * MM, 80 * MM),
    ]
    # one cut of 80 mm and one of 40 mm, 1 mm wide
    assert leaves.dust_um2 == 120 * 10**6


def test_a_strip_narrower_than_the_saw_is_dust() -> None:
    leaves = cut_rectangle(100 * MM, 80 * MM, [(0, 0, 99_500_000, 80 * MM)], kerf=MM)
    assert leaves.remnants == ()
    assert leaves.dust_um2 == 40 * 10**6


def test_a_blank_that_is_the_whole_sheet_needs_no_cut() -> None:
    assert cut_rectangle(IN, IN, [(0, 0, IN, IN)], kerf=MM) == Leaves((), 0)


def test_a_blank_in_from_the_edges_is_freed_by_four_cuts() -> None:
    leaves = cut_rectangle(10 * IN, 10 * IN, [(IN, IN, 4 * IN, 4 * IN)])
    assert boxes(leaves) == [
        (0, 0, IN, 10 * IN),
        (IN, 0, 4 * IN, IN),
        (IN, 4 * IN, 4 * IN, 10 * IN),
        (4 * IN, 0, 10 * IN, 10 * IN),
    ]


def test_several_blanks_in_one_strip() -> None:
    row: list[Box] = [(n * 21 * MM, 0, n * 21 * MM + 20 * MM, 30 * MM) for n in range(3)]
    leaves = cut_rectangle(100 * MM, 80 * MM, row, kerf=MM, first="y")
    assert boxes(leaves) == [(0, 31 * MM, 100 * MM, 80 * MM), (63 * MM, 0, 100 * MM, 30 * MM)]
    assert leaves.dust_um2 == (100 + 3 * 30) * 10**6


def test_blanks_in_a_ring_cannot_be_freed_from_edge_to_edge() -> None:
    ring: list[Box] = [
        (0, 0, 2 * IN, IN),
        (2 * IN, 0, 3 * IN, 2 * IN),
        (IN, 2 * IN, 3 * IN, 3 * IN),
        (0, IN, IN, 3 * IN),
    ]
    with pytest.raises(NotStraight):
        cut_rectangle(3 * IN, 3 * IN, ring)
    left = cut_out(Region(box_ring((0, 0, 3 * IN, 3 * IN))), [box_ring(one) for one in ring])
    assert [one.doubled_nm2 for one in left.remnants] == [2 * IN * IN]


@pytest.mark.parametrize(
    "blanks",
    [
        [(0, 0, 13 * IN, IN)],
        [(-1, 0, IN, IN)],
        [(IN, 0, IN, IN)],
        [(0, 0, 2 * IN, IN), (IN, 0, 3 * IN, IN)],
    ],
)
def test_a_blank_that_is_not_there_is_refused(blanks: list[Box]) -> None:
    with pytest.raises(ValueError):
        cut_rectangle(12 * IN, 8 * IN, blanks)


def test_blanks_closer_than_the_saw_is_wide_are_not_straight() -> None:
    with pytest.raises(NotStraight):
        cut_rectangle(12 * IN, IN, [(0, 0, IN, IN), (IN + MM // 2, 0, 2 * IN, IN)], kerf=MM)


# --- any outline


def ell(side: int = 10 * IN, leg: int = 4 * IN) -> Region:
    """An L with two legs of the same width."""
    corners = ((0, 0), (side, 0), (side, leg), (leg, leg), (leg, side), (0, side))
    return Region(corners)


def test_a_cut_across_a_leg_parts_an_ell() -> None:
    leaves = cut_out(ell(), [box_ring((0, 4 * IN, 4 * IN, 6 * IN))])
    assert sorted(one.doubled_nm2 // (2 * IN * IN) for one in leaves.remnants) == [16, 40]
    assert leaves.doubled_dust_nm2 == 0


def test_a_blank_from_the_middle_leaves_a_hole() -> None:
    sheet = Region(box_ring((0, 0, 10 * IN, 10 * IN)))
    leaves = cut_out(sheet, [box_ring((4 * IN, 4 * IN, 6 * IN, 6 * IN))], kerf=MM)
    (left,) = leaves.remnants
    assert len(left.holes) == 1 and doubled_area(left.holes[0]) < 0
    grown = 2 * IN + 2 * MM
    assert leaves.doubled_dust_nm2 == 2 * (grown * grown - 4 * IN * IN)


def test_a_blank_that_sticks_out_of_an_outline_is_refused() -> None:
    with pytest.raises(ValueError, match="does not lie on the sheet"):
        cut_out(ell(), [box_ring((3 * IN, 3 * IN, 6 * IN, 6 * IN))])
    over_hole = Region(ell().outer, (((IN, IN), (IN, 2 * IN), (2 * IN, 2 * IN), (2 * IN, IN)),))
    with pytest.raises(ValueError, match="does not lie on the sheet"):
        cut_out(over_hole, [box_ring((0, 0, 3 * IN, 3 * IN))])


def test_narrow_remnants_are_told_from_useful_ones() -> None:
    strip = Region(box_ring((0, 0, 20 * IN, IN - 1)))
    assert not is_useful(strip, IN)
    assert is_useful(strip, IN - 1)


# --- nothing is lost

sides = st.integers(min_value=5 * MM, max_value=1_500 * MM)
kerfs = st.sampled_from([0, 1, MM, 1_600_000, 3 * MM])


def drawn_blank(draw: Random, piece: Box) -> Box:
    """Some blank on a piece, often in a corner or as wide as it is."""
    x0, y0, x1, y1 = piece
    low_x, high_x = sorted(draw.randint(x0, x1) for _ in range(2))
    low_y, high_y = sorted(draw.randint(y0, y1) for _ in range(2))
    if draw.random() < 0.6:
        low_x, low_y = x0, y0
    if draw.random() < 0.2:
        low_x, high_x = x0, x1
    return (low_x, low_y, max(high_x, low_x + 1), max(high_y, low_y + 1))


@settings(max_examples=150, deadline=None)
@given(sides, sides, kerfs, st.integers(0, 10**9), st.integers(1, 12))
def test_area_and_mass_are_kept_through_any_sequence_of_square_cuts(
    a: int, b: int, kerf: int, seed: int, cuts: int
) -> None:
    draw = Random(seed)
    assert T3 is not None
    stock: list[tuple[int, int]] = [(a, b)]
    made = dust = recorded = 0
    for _ in range(cuts):
        if not stock:
            break
        width, height = stock.pop(draw.randrange(len(stock)))
        blank = drawn_blank(draw, (0, 0, width, height))
        if blank[2] > width or blank[3] > height:
            stock.append((width, height))
            continue
        first: Axis = draw.choice(("x", "y"))
        leaves = cut_rectangle(width, height, [blank], kerf, first)
        for region in leaves.remnants:
            (x0, y0), (x1, y1) = region.outer[0], region.outer[2]
            stock.append((x1 - x0, y1 - y0))
        made += (blank[2] - blank[0]) * (blank[3] - blank[1])
        dust += leaves.doubled_dust_nm2
        recorded += 1
        # the record holds whole um2: right to half of one for every cut
        assert abs(2 * 10**6 * leaves.dust_um2 - leaves.doubled_dust_nm2) <= 10**6
        none_lie_on_another([box_ring(blank), *(one.outer for one in leaves.remnants)])
    left = sum(width * height for width, height in stock)
    assert 2 * a * b == 2 * made + 2 * left + dust
    thickness = 812_800
    weighed = [mass_g(T3, thickness, area) for area in (2 * made, 2 * left, dust)]
    assert sum(weighed, Fraction(0)) == mass_g(T3, thickness, 2 * a * b)


def none_lie_on_another(rings: list[Ring]) -> None:
    """No two of these share more than an edge."""
    shapes = [Polygon(ring) for ring in rings]
    whole = sum(one.area for one in shapes)
    assert unary_union(shapes).area == pytest.approx(whole, rel=1e-12)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**9), st.integers(1, 6), kerfs)
def test_area_and_mass_are_kept_through_any_sequence_of_cuts_on_outlines(
    seed: int, cuts: int, kerf: int
) -> None:
    draw = Random(seed)
    sheet = drawn_outline(draw)
    stock, made, dust = [sheet], 0, 0
    for _ in range(cuts):
        region = stock.pop(draw.randrange(len(stock)))
        blank = blank_on(draw, region)
        if blank is None:
            stock.append(region)
            continue
        leaves = cut_out(region, [blank], kerf)
        metal = Polygon(region.outer, region.holes)
        for one in leaves.remnants:
            left = Polygon(one.outer, one.holes)
            assert left.is_valid
            assert left.difference(metal).area <= 2 * metal.length  # a nanometre along its edge
        none_lie_on_another([blank])
        taken = Polygon(blank).buffer(kerf, join_style="mitre").intersection(metal)
        expected = taken.area - Polygon(blank).area
        assert leaves.doubled_dust_nm2 / 2 == pytest.approx(
            expected, rel=1e-6, abs=2 * metal.length + 2 * 10**6
        )
        stock += [to_corner(one)[0] for one in leaves.remnants]
        made += doubled_area(blank)
        dust += leaves.doubled_dust_nm2
        if not stock:
            break
    assert T3 is not None
    left_over = sum(one.doubled_nm2 for one in stock)
    assert sheet.doubled_nm2 == made + left_over + dust
    parts = [mass_g(T3, 635_000, doubled) for doubled in (made, left_over, dust)]
    assert sum(parts, Fraction(0)) == mass_g(T3, 635_000, sheet.doubled_nm2)


@given(
    st.integers(0, 4_000 * MM),
    st.lists(st.integers(1, 900 * MM), max_size=8),
    kerfs,
    st.integers(0, 2 * MM),
)
def test_length_is_kept(length: int, blanks: list[int], kerf: int, dress: int) -> None:
    try:
        leaves = cut_length(length, blanks, kerf, dress)
    except ValueError:
        assert sum(blanks) + dress * len(blanks) + kerf * max(len(blanks) - 1, 0) > length
        return
    assert sum(blanks) + leaves.remnant + leaves.dust == length
    assert 0 <= leaves.dust <= (kerf + dress) * len(blanks)
    if leaves.remnant:
        assert leaves.dust == (kerf + dress) * len(blanks)


def test_the_mass_is_that_of_the_bench_sum() -> None:
    assert T3 is not None
    asked = {"alloy": "2024-T3", "thickness": ".032", "length": "10", "width": "4"}
    answer = reckon("mass", asked, "in")
    assert not isinstance(answer, Unread)
    assert float(mass_g(T3, 812_800, 2 * 10 * IN * 4 * IN)) == pytest.approx(
        float(answer["mass_g"]),
        abs=0.0005,  # told to a milligram
    )
