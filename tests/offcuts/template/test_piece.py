"""What a template shows of a piece: the holes and bends of its sum, nothing that is not there."""

from __future__ import annotations

import itertools
from typing import Any

import pytest

from bucktail.offcuts.template.drawing import Hole, Template
from bucktail.offcuts.template.marks import draw
from bucktail.offcuts.template.piece import template_of
from bucktail.offcuts.template.shapes import Words, apart, box_of
from running.pieces import PIECES, answered, length, wanted

INCH = 25_400_000


def of(name: str, **more: Any) -> Template:
    return template_of(wanted(name, **more), "in", "25 Nov 2026")


def test_the_row_of_a_shim_by_hand() -> None:
    """6 in long for 3/32: 2 D and 1/16 in to the ends, 4 D from hole to hole."""
    # (6 - 2 x .25) / .375 is 14.67: 15 holes, 14 pitches are 5.25, .375 is left at each end
    [blank] = of("shim").blanks
    wanted_at = [(round((0.375 + 0.375 * at) * INCH), 5 * INCH // 16) for at in range(15)]
    assert [(hole.x, hole.y) for hole in blank.holes] == wanted_at
    # drill 40 is .098 in
    assert {hole.diameter for hole in blank.holes} == {2_489_200}
    assert blank.grain == "" and blank.bends == ()


def test_the_holes_of_a_splice_are_the_same_on_both_sides_of_the_joint() -> None:
    _, _, answer = answered("splice")
    [blank] = of("splice").blanks
    assert len(blank.holes) == answer["holes"] == 54
    mirrored = {(blank.a - hole.x, hole.y) for hole in blank.holes}
    assert mirrored == {(hole.x, hole.y) for hole in blank.holes}
    # none in a bend, and each leg has its rivets: 7, 13 and 7 on a side
    parts = [0, *(at for bend in blank.bends for at in (bend.start or 0, bend.end or 0)), blank.b]
    legs = list(zip(parts[::2], parts[1::2], strict=True))
    counts = [sum(low < hole.y < high for hole in blank.holes) for low, high in legs]
    assert counts == [2 * count for count in answer["counts"]]


def test_a_patch_has_its_rows_before_and_behind_the_hole() -> None:
    _, _, answer = answered("lap patch")
    [blank] = of("lap patch").blanks
    assert len(blank.holes) == 2 * answer["count"]
    assert blank.opening is not None
    (left, low), (right, high) = blank.opening
    # the hole is 6 in along the load and 8 in across it
    assert (right - left, high - low) == (6 * INCH, 8 * INCH)
    assert all(hole.x < left or hole.x > right for hole in blank.holes)
    assert blank.corner == INCH // 4


@pytest.mark.parametrize("name", PIECES)
def test_no_hole_is_nearer_to_an_edge_or_to_another_than_its_rule_allows(name: str) -> None:
    _, _, answer = answered(name)
    blank = of(name).blanks[0]
    edge = round((answer.get("edge_min_mm") or answer["edge_mm"]) * 1e6)
    for hole in blank.holes:
        assert edge - 1 <= hole.x <= blank.a - edge + 1
        assert edge - 1 <= hole.y <= blank.b - edge + 1
    # rows stand 3/4 of the pitch apart at the least (rules/spacing)
    for one, other in itertools.combinations(blank.holes, 2):
        apart_by = ((one.x - other.x) ** 2 + (one.y - other.y) ** 2) ** 0.5
        assert apart_by >= 2.4 * (one.diameter or 0)


@pytest.mark.parametrize("name", ["stiffener", "long stiffener", "splice"])
def test_bends_lie_as_the_sum_has_them(name: str) -> None:
    _, _, answer = answered(name)
    blank = of(name).blanks[0]
    for key, field in (("lines", "at"), ("starts", "start"), ("ends", "end")):
        told = answer[f"bend_{key}_mm"]
        assert [getattr(bend, field) for bend in blank.bends] == [round(x * 1e6) for x in told]
    for bend, sight in zip(blank.bends, answer["sight_lines_mm"], strict=True):
        # one radius in from the tangent line that is held under the nose of the brake
        assert bend.sight == round(sight * 1e6) == (bend.start or 0) + bend.radius
        assert (bend.start or 0) < bend.at < (bend.end or 0) and bend.angle == 90
    assert blank.grain == "b"


def test_a_blank_that_is_not_the_sums_any_more_has_no_holes_and_says_so() -> None:
    changed = of("shim", b=length(16 * 1_000_000))
    assert changed.blanks[0].holes == ()
    assert "Where its holes are is not recorded: take them from the plans." in changed.remarks
    assert "Holes: 15, not placed here." in changed.facts


def test_a_piece_without_a_sum_has_the_bends_that_are_recorded() -> None:
    bends = [
        {"at": length(19_050_000), "angle": 60, "radius": length(2_381_250)},
        {"at": length(999_000_000), "angle": 90, "radius": length(2_381_250)},  # beyond the blank
    ]
    laid = of("stiffener", sums=[], bends=bends, holes=None)
    [bend] = laid.blanks[0].bends
    assert (bend.at, bend.angle, bend.start, bend.sight) == (19_050_000, 60, None, None)
    assert any("Bend up 60° on the line 3/4 in (19.05 mm)" in fact for fact in laid.facts)
    assert not any("oles" in line for line in (*laid.facts, *laid.remarks))


def test_a_piece_that_fails_as_the_rules_stand_has_no_hole_marked() -> None:
    state = wanted("shim")
    state["sums"][0]["inputs"]["width"] = "5/16"
    state["b"] = length(5 * INCH // 16)
    laid = template_of(state, "in", "25 Nov 2026")
    assert laid.blanks[0].holes == ()
    assert laid.remarks[0].startswith("As the rules stand it FAILS")
    assert "too narrow for its rivets" in laid.remarks[1]


def test_another_number_of_holes_than_the_record_says_is_remarked() -> None:
    laid = of("shim", holes=12)
    assert "The record says 12 holes, the sum places 15: look again." in laid.remarks


def test_a_sum_that_cannot_be_reckoned_any_more_is_passed_over() -> None:
    state = wanted("shim")
    good = state["sums"][0]
    state["sums"] = [
        good,
        {"sum": "no-such-sum", "inputs": {}, "unit": "in"},
        {"sum": "edge", "inputs": {"edge": "1/4", "diameter": "1/8"}, "unit": "in"},
        {"sum": "shim", "inputs": {"gap": "wide"}, "unit": "in"},
    ]
    assert len(template_of(state, "mm", "25 Nov 2026").blanks[0].holes) == 15


def test_both_units_are_said_the_workshops_first() -> None:
    state = wanted("shim")
    inches, metric = (template_of(state, unit, "") for unit in ("in", "mm"))
    assert "Blank: 6 in × 5/8 in (152.4 mm × 15.88 mm)" in inches.facts
    assert "Blank: 152.4 mm × 15.88 mm (6 in × 5/8 in)" in metric.facts
    assert inches.blanks[0].sheet == ".032 in (0.813 mm), 2024-T3 clad"


@pytest.mark.parametrize("name", PIECES)
def test_words_on_the_blank_stand_clear_of_holes_and_of_each_other(name: str) -> None:
    for drawn in draw(of(name)):
        notes = [shape for shape in drawn.shapes if isinstance(shape, Words)]
        notes = [one for one in notes if one.layer in ("NOTES", "GRAIN")]
        holes = [box_of(one) for one in drawn.shapes if one.layer in ("HOLES", "HOLE_CENTRES")]
        for one in notes:
            assert all(apart(box_of(one), hole) for hole in holes), one.text
        for one, other in itertools.combinations(notes, 2):
            assert apart(box_of(one), box_of(other)), (one.text, other.text)


def test_a_hole_of_no_known_size_is_a_centre_alone() -> None:
    from bucktail.offcuts.template.drawing import Blank
    from bucktail.offcuts.template.marks import shapes_of

    shapes = shapes_of(
        Blank("x", "", 50 * 10**6, 40 * 10**6, holes=(Hole(10**7, 10**7, None),)), "mm"
    )
    layers = [shape.layer for shape in shapes]
    assert layers.count("HOLE_CENTRES") == 2 and "HOLES" not in layers
