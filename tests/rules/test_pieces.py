"""Pieces against answers worked by hand from the published rules named beside each."""

from __future__ import annotations

import re
from typing import Any

import pytest

from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.rulebook import sum_named
from bucktail.sync.wire.reckoned import GRAINS

SAID = {"verdict", "why", "source", "caution", "read_as"}
SHIM = "gap=.032 length=6 width=5/8 alloy=2024-T3 stack=.020,.020 diameter=1/8 head=protruding"
FRAME = "legs=.6,2.0 thickness=.040 alloy=2017-T3 diameter=1/8 radius=1/8 use=intermediate-frame"
ANGLE = "legs=1,1 thickness=.032 alloy=2024-T3 clad=yes diameter=1/8"
LAP = "along=1.5 across=10 thickness=.032 alloy=2017-T3 clad=yes diameter=1/8"
FLUSH = "form=flush along=1.5 across=2 thickness=.032 alloy=2024-T3 diameter=1/8"
CHANNEL = (
    "legs=1,2,1 length=12 thickness=.040 alloy=2024-T3 radius=.16 stack=.032 diameter=1/8 "
    "head=protruding"
)
PIECES = {"shim": SHIM, "section-splice": FRAME, "patch": LAP, "stiffener": CHANNEL}


def reckoned(name: str, typed: str, change: str = "", unit: str = "in") -> Any:
    """What comes of a piece typed as the command takes it; `change` replaces or adds inputs."""
    inputs = dict(pair.split("=", 1) for pair in f"{typed} {change}".split())
    return reckon(name, inputs, "mm" if unit == "mm" else "in")


def answer(name: str, typed: str, change: str = "") -> dict[str, Any]:
    found = reckoned(name, typed, change)
    assert not isinstance(found, Unread), found
    return dict(found)


def inches(*values: float) -> Any:
    return pytest.approx([value * 25.4 for value in values], abs=1e-5)


# --- shim


def test_t6_a_shim_of_032_in_a_line_of_three_and_a_half_makes_it_four() -> None:
    # FAA-H-8083-31 Figure 4-76, grip + 1.5 D in sixteenths of an inch; halves are made (AC 43.13-1B
    # paragraph 4-57a(4)): .040 + .1875 is 3.64, so 3.5; .072 + .1875 is 4.152, so 4
    found = answer("shim", SHIM)
    assert (found["was_dash"], found["dash"]) == (3.5, 4)
    assert found["part_number"] == "MS20470AD4-4"
    assert "The rivets of the line change from -3.5 to -4." in found["why"]
    # (4/16 - .072) / .125 = 1.424 D: inside 1.3 to 1.7 D
    assert found["protrusion_d"] == pytest.approx(1.424)
    assert found["verdict"] == "meets"


def test_a_thin_shim_may_leave_the_rivets_as_they_are() -> None:
    # .064 + .1875 is 4.02 sixteenths, .080 + .1875 is 4.28: from 4 to 4.5
    found = answer("shim", SHIM, "gap=.016 stack=.032,.032")
    assert (found["was_dash"], found["dash"]) == (4, 4.5)
    # .028 + .1875 is 3.45, .044 + .1875 is 3.70: both 3.5
    found = answer("shim", SHIM, "gap=.016 stack=.012,.016")
    assert (found["was_dash"], found["dash"]) == (3.5, 3.5)
    assert "rivets of the line" not in found["why"]


def test_the_row_of_a_shim_keeps_the_edge_and_the_usual_pitch() -> None:
    # edge to mark out 2 D + 1/16 = 5/16 (FAA-H-8083-31A); pitch 4 D = 1/2 (NAVEDTRA 14018);
    # (6 - 2 x 5/16) / .5 = 10.75, so 11 rivets; ten pitches are 5, the first at (6 - 5) / 2
    found = answer("shim", SHIM)
    assert (found["holes"], found["rows"]) == (11, 1)
    assert (found["edge_mm"], found["edge_min_mm"]) == (7.9375, 6.35)
    assert (found["pitch_mm"], found["first_mm"], found["rows_at_mm"]) == (12.7, 12.7, [7.9375])
    assert (found["blank_a_mm"], found["blank_b_mm"]) == (152.4, 15.875)
    # 3 D is the least in one row: AC 43.13-1B paragraph 4-57c(1); 5.375 / .375 = 14.3
    found = answer("shim", SHIM, "pitch=3/8")
    assert (found["verdict"], found["holes"]) == ("meets", 15)
    assert answer("shim", SHIM, "pitch=.374")["verdict"] == "fails"


@pytest.mark.parametrize(
    ("change", "short"),
    [
        # 2 D each side for protruding heads, 2.5 D for flush: AL0992, Rivet Selection, page 63
        ("width=3/8", "too narrow for its rivets by 1/8 in: with 1/4 in to each edge"),
        ("width=1/2 head=flush", "too narrow for its rivets by 1/8 in: with 5/16 in to each edge"),
        ("length=7/16", "too short for its rivets by 1/16 in"),
        ("width=.499", "too narrow for its rivets by .001 in"),
    ],
)
def test_a_shim_too_small_for_its_rivets_says_by_how_much(change: str, short: str) -> None:
    found = answer("shim", SHIM, change)
    assert found["verdict"] == "fails"
    assert short in found["why"]


def test_a_shim_just_wide_and_long_enough_meets() -> None:
    found = answer("shim", SHIM, "width=1/2 length=1/2")
    assert (found["verdict"], found["holes"], found["width_needed_mm"]) == ("meets", 1, 12.7)


def test_a_gap_is_filled_with_the_thickest_sheet_that_goes_in() -> None:
    # .040 and .050 are stock; .005 left open is common practice's most
    found = answer("shim", SHIM, "gap=.049")
    assert (found["thickness_mm"], found["verdict"]) == (1.016, "check")
    assert found["gap_left_mm"] == pytest.approx(0.2286)
    assert ".009 in stays open" in found["why"]
    found = answer("shim", SHIM, "gap=.045")
    assert (found["verdict"], found["gap_left_mm"]) == ("meets", 0.127)
    found = answer("shim", SHIM, "gap=.015")
    assert found["verdict"] == "fails" and "thickness_mm" not in found and "dash" not in found
    assert "thin enough for a gap of .015 in" in found["why"]


def test_a_dimpled_shim_is_said() -> None:
    found = answer("shim", SHIM, "head=flush")
    assert found["verdict"] == "check" and "dimpled with them" in found["why"]
    assert found["part_number"].startswith("MS20426AD4-")


# --- splice of a section


def test_the_frame_of_figure_4_20_has_three_in_the_flange_and_eight_in_the_web() -> None:
    # AC 43.13-1B, Figure 4-20: 2017-T3, .040, 1/8 AD: .6 x 6.2 = 3.72, 4, x 60 % = 2.4, 3;
    # 2.0 x 6.2 = 12.4, 13, x 60 % = 7.8, 8
    found = answer("section-splice", FRAME)
    assert found["counts"] == [3, 8]
    assert found["per_inch"] == 6.2
    assert found["holes"] == 22
    # heavier than the frame, and longer than twice the web
    assert found["thickness_mm"] > 1.016
    assert found["blank_a_mm"] > 2 * 2 * 25.4


def test_no_leg_of_a_splice_has_less_area_than_what_it_splices() -> None:
    # AC 43.13-1B, paragraph 4-58k: each leg width x thickness, a narrower bar thicker
    for legs, thickness in ((".6,2.0", 0.040), ("1,2,1", 0.063), (".75,.75", 0.032)):
        found = answer("section-splice", FRAME, f"legs={legs} thickness={thickness} use=full")
        spliced = [float(one) * thickness * 25.4**2 for one in legs.split(",")]
        splice = [one * found["thickness_mm"] for one in found["legs_mm"]]
        assert all(new >= old for new, old in zip(splice, spliced, strict=True)), found
    # .5 x .032 = .016 in2; inside it is .468: .032 x .5 / .468 = .0342, the next sheet is .040;
    # .25 x .063 over .187 asks .0842: not the next sheet .080 but .090
    assert answer("section-splice", ANGLE, "legs=.5,.5")["thickness_mm"] == pytest.approx(1.016)
    found = answer("section-splice", ANGLE, "legs=.25,1 thickness=.063")
    assert found["thickness_mm"] == pytest.approx(0.090 * 25.4)


def test_the_flat_of_a_splice_has_its_bends_where_the_handbook_puts_them() -> None:
    # inside .040 the legs are .56 and 1.96; in .050 with R 1/8 the setback is .175 (AC 43.13-1B
    # paragraph 4-56b) and the allowance (.01743 x .125 + .0078 x .050) x 90 = .2311875
    found = answer("section-splice", FRAME)
    assert found["legs_mm"] == inches(0.56, 1.96)
    assert found["flats_mm"] == inches(0.385, 1.785)
    assert found["bend_starts_mm"] == inches(0.385)
    assert found["bend_ends_mm"] == inches(0.6161875)
    assert found["blank_b_mm"] == pytest.approx(2.4011875 * 25.4, abs=1e-5)
    assert found["grain"] == "b"


def test_the_rows_of_a_splice_stand_clear_of_edge_and_bend() -> None:
    # flange: .385 less 2 D = .25 to the edge less half the head of .250 = .125 leaves .010: one
    # row, .005 from either limit. web: 1.785 less the same leaves 1.410: eight rivets in three
    # rows of three, 3 D apart (75 % of 4 D), which leaves .66 over, half before the first row
    found = answer("section-splice", FRAME)
    assert (found["rows"], found["in_row"]) == ([1, 3], [3, 3])
    assert found["pitch_mm"] == 12.7 and found["row_gap_mm"] == 9.525
    assert found["first_rows_mm"] == inches(0.255, 0.6161875 + 0.125 + 0.33)
    assert found["first_mm"] == 7.9375


def test_the_length_of_a_splice_is_twice_what_the_rivets_need_and_the_damage() -> None:
    # Table 4-9 for .032 and 1/8: 6.2; 7 in each leg, in two rows of four; 2 x 5/16 + 3 x 1/2 is
    # 2 1/8 on each side
    found = answer("section-splice", ANGLE)
    assert found["counts"] == [7, 7]
    assert found["blank_a_mm"] == pytest.approx(4.25 * 25.4)
    assert "It is 4 1/4 in long: 2 1/8 in for the rivets on each side of the joint." in found["why"]
    found = answer("section-splice", ANGLE, "damage=2")
    assert found["blank_a_mm"] == pytest.approx(6.25 * 25.4)
    assert "6 1/4 in long: 2 1/8 in for the rivets on each side, 2 in between" in found["why"]
    assert "whether or not the section is cut through" in found["why"]
    found = answer("section-splice", FRAME, "damage=1")
    assert found["blank_a_mm"] == pytest.approx(5.001 * 25.4)
    assert "more than twice the widest leg, and 1 in for the damage" in found["why"]


@pytest.mark.parametrize(
    ("use", "count"),
    # notes to Tables 4-9 to 4-11: 1 in of .032 at 6.2 is 7; 60 % 4.2; 80 % 5.6
    [("full", 7), ("intermediate-frame", 5), ("fuselage-stringer", 6),
     ("wing-upper-stringer", 6), ("wing-lower-stringer", 7)],
)  # fmt: skip
def test_the_share_of_the_number_goes_by_where_the_section_is(use: str, count: int) -> None:
    assert answer("section-splice", ANGLE, f"use={use}")["counts"] == [count, count]


def test_a_section_is_not_a_lap() -> None:
    found = reckoned("section-splice", ANGLE, "use=lap")
    assert isinstance(found, Unread) and found.key == "use"


def test_a_flat_bar_needs_an_edge_on_both_sides() -> None:
    # 2 D each side: 1/2 in; AL0992, Rivet Selection, page 63
    bar = "legs=.499 thickness=.032 alloy=2024-T3 diameter=1/8"
    found = answer("section-splice", bar)
    assert found["verdict"] == "fails"
    assert "too narrow for a row of rivets by .001 in" in found["why"]
    found = answer("section-splice", bar, "legs=.5")
    assert found["verdict"] == "meets"
    assert (found["first_rows_mm"], found["grain"]) == ([6.35], "any")


def test_a_leg_without_room_and_a_sheet_without_a_heavier_one_fail() -> None:
    found = answer("section-splice", ANGLE, "legs=.5,1")
    assert found["verdict"] == "fails" and "too narrow for a row of rivets by" in found["why"]
    assert "blank_a_mm" not in found and "holes" not in found
    found = answer("section-splice", ANGLE, "thickness=.125 diameter=1/4")
    assert found["verdict"] == "fails" and "no listed sheet is heavy enough" in found["why"]
    assert "thickness_mm" not in found


def test_a_rivet_of_a_stringer_is_at_most_a_quarter_of_the_leg() -> None:
    # AC 43.13-1B, paragraph 4-58l
    assert "a quarter" not in answer("section-splice", ANGLE, "diameter=3/16")["why"]
    found = answer("section-splice", ANGLE, "diameter=3/16 legs=.74,1")
    assert "at most a quarter of the leg's width: .185 in" in found["why"]


# --- patch


def test_a_lap_patch_ten_inches_wide_takes_the_37_rivets_of_4_58g() -> None:
    # AC 43.13-1B, paragraph 4-58g: .032, 1/8 AD, 10 in by Table 4-10: 4.9 x 10 = 49, x 75 % is
    # 36.75, 37; two rows of 19 at most
    found = answer("patch", LAP)
    assert (found["count"], found["per_inch"], found["rows"], found["in_row"]) == (37, 4.9, 2, 19)
    # 4 D in each of two rows (Figure 4-5(A) by the example), rows 75 % of it apart
    assert (found["pitch_mm"], found["row_gap_mm"]) == (12.7, 9.525)
    # margin: two edges of 5/16 and a gap of 3/8
    assert found["margin_mm"] == 25.4
    assert found["rows_at_mm"] == inches(5 / 16, 11 / 16)
    assert [found["blank_a_mm"], found["blank_b_mm"]] == inches(3.5, 12)
    # 18 pitches of 1/2 in the middle of 12
    assert found["first_mm"] == 38.1
    assert found["thickness_mm"] == 0.8128
    assert "Rivets on each side of the hole: 37, in 2 rows." in found["why"]


def test_clad_2024_takes_the_cautious_of_its_two_tables() -> None:
    # Table 4-9: 6.2 x 10 = 62, x 75 % is 46.5, 47; in three rows, as two of 21 are too few
    found = answer("patch", LAP, "alloy=2024-T3")
    assert (found["count"], found["rows"], found["in_row"]) == (47, 3, 16)
    assert found["rows_at_mm"] == inches(5 / 16, 11 / 16, 17 / 16)


def test_a_patch_of_one_row_says_so() -> None:
    found = answer("patch", LAP, "across=2 per_side=5")
    assert "Rivets on each side of the hole: 5, in one row." in found["why"]
    assert "row_gap_mm" not in found and found["rows_at_mm"] == [7.9375]
    assert found["margin_mm"] == 15.875


def test_more_than_three_rows_fail() -> None:
    found = answer("patch", LAP, "across=1 per_side=10")
    assert found["verdict"] == "fails" and "do not go into three rows" in found["why"]
    assert "blank_a_mm" not in found


def test_flush_heads_are_not_covered_unless_the_plans_number_is_entered() -> None:
    # the tables are for protruding heads: AC 43.13-1B, Tables 4-9 to 4-11
    for form in ("lap", "flush"):
        found = answer("patch", FLUSH, f"form={form} head=flush")
        assert (found["verdict"], set(found)) == ("not covered", SAID)
    found = answer("patch", FLUSH, "head=flush per_side=9")
    assert (found["count"], found["rows"], found["in_row"]) == (9, 2, 5)
    assert "per_inch" not in found


def test_a_flush_patch_has_a_heavier_doubler_and_a_filler_of_the_skins_sheet() -> None:
    # Navy training course, page 13-37; the next heavier sheet after .032 is .040; filler 1/32 in
    # smaller all round is common practice. Table 4-9, the full number: 6.2 x 2 = 12.4, 13
    found = answer("patch", FLUSH)
    assert found["count"] == 13
    assert (found["thickness_mm"], found["filler_thickness_mm"]) == (1.016, 0.8128)
    assert found["filler_a_mm"] == pytest.approx(1.4375 * 25.4)
    assert found["filler_b_mm"] == pytest.approx(1.9375 * 25.4)
    assert not [key for key in answer("patch", LAP) if key.startswith("filler")]
    found = answer("patch", FLUSH, "thickness=.125 diameter=1/4")
    assert found["verdict"] == "fails" and "No listed sheet is the next heavier" in found["why"]
    found = answer("patch", FLUSH, "along=1/16")
    assert "filler_a_mm" not in found and "too small for a filler" in found["why"]


@pytest.mark.parametrize(("skin", "grain"), [("along", "a"), ("across", "b"), ("unknown", "any")])
def test_a_patch_lies_with_its_grain_as_the_skins(skin: str, grain: str) -> None:
    found = answer("patch", LAP, f"grain={skin}")
    assert found["grain"] == grain
    assert ("Find the grain" in found["why"]) is (skin == "unknown")


# --- stiffener


def test_the_handbook_channel_as_a_stiffener() -> None:
    # FAA-H-8083-31, chapter 4: U channel of .040, R .16, legs 1, 2, 1: setback .20, flats .80,
    # 1.60, .80; allowance (.01743 x .16 + .0078 x .040) x 90 = .279072; 3.758 in wide
    found = answer("stiffener", CHANNEL)
    assert found["flats_mm"] == inches(0.8, 1.6, 0.8)
    assert found["blank_b_mm"] == pytest.approx(3.758144 * 25.4, abs=1e-5)
    assert found["bend_starts_mm"] == inches(0.8, 2.679072)
    assert found["bend_ends_mm"] == inches(1.079072, 2.958144)
    # middles; and one radius in from where the bend begins
    assert found["bend_lines_mm"] == inches(0.939536, 2.818608)
    assert found["sight_lines_mm"] == inches(0.96, 2.839072)
    assert found["grain"] == "b"
    # (12 - 2 x 5/16) / .5 = 22.75
    assert (found["holes"], found["first_mm"], found["rows_at_mm"]) == (23, 12.7, [7.9375])


def test_a_riveted_leg_too_narrow_says_by_how_much() -> None:
    # needs 2 D = .250 to the edge and half of the head's .250 to the bend tangent: .375; a leg of
    # 1/2 with a setback of .200 has .300
    found = answer("stiffener", CHANNEL, "legs=1/2,1/2")
    assert found["verdict"] == "fails"
    assert "too narrow by .075 in: its straight part of .300 in needs 3/8 in" in found["why"]
    assert "rows_at_mm" not in found
    found = answer("stiffener", CHANNEL, "legs=.575,1/2")
    assert found["verdict"] == "check" and found["rows_at_mm"] == [6.35]
    found = answer("stiffener", CHANNEL, "legs=.195,1")
    assert found["verdict"] == "fails" and "shorter than its bends take" in found["why"]
    assert not {"blank_b_mm", "flats_mm", "bend_starts_mm"} & set(found)


def test_a_stiffener_too_short_for_two_edges_fails() -> None:
    found = answer("stiffener", CHANNEL, "length=3/8")
    assert found["verdict"] == "fails" and "too short for its rivets by 1/8 in" in found["why"]
    assert answer("stiffener", CHANNEL, "length=1/2")["holes"] == 1


@pytest.mark.parametrize(
    ("radius", "verdict"),
    # AC 43.13-1B, Table 4-6: 2024-T3 in the .064 column is 3 t to 5 t: .120 to .200 at .040
    [(".119", "fails"), (".120", "check"), (".199", "check"), (".200", "meets"), ("", "meets")],
)
def test_the_radius_is_held_against_table_4_6(radius: str, verdict: str) -> None:
    typed = CHANNEL.replace("radius=.16 ", f"radius={radius} " if radius else "")
    found = answer("stiffener", typed)
    assert found["verdict"] == verdict
    if radius == ".119":
        assert "tighter than the least published, .120 in" in found["why"]
    if not radius:
        assert found["radius_mm"] == pytest.approx(0.2 * 25.4)


def test_the_radius_of_a_splice_is_held_against_the_sheet_of_the_splice() -> None:
    # .040 for a section of .032: 3 t is .120
    assert answer("section-splice", ANGLE, "radius=.120")["verdict"] == "check"
    found = answer("section-splice", ANGLE, "radius=.119")
    assert found["verdict"] == "fails" and "tighter than the least published" in found["why"]


# --- all


@pytest.mark.parametrize(
    ("name", "change"),
    [
        ("section-splice", "alloy=3003-H14"),
        ("section-splice", "thickness=.012"),
        ("section-splice", "diameter=1/16"),
        ("patch", "alloy=3003-H14"),
        ("patch", "thickness=.190"),
        ("patch", "diameter=1/16"),
        ("patch", "alloy=6061-T6 clad=no"),
    ],
)
def test_what_is_not_covered_has_no_figure(name: str, change: str) -> None:
    found = answer(name, PIECES[name], change)
    assert (found["verdict"], set(found)) == ("not covered", SAID)
    assert not re.search("[0-9]", found["why"])


def test_no_published_radius_is_not_covered_where_something_bends() -> None:
    # 2017 is not in Table 4-6
    found = answer("section-splice", FRAME.replace("radius=1/8 ", ""))
    assert (found["verdict"], set(found)) == ("not covered", SAID)
    assert "Enter the radius of the plans" in found["why"]
    found = answer("section-splice", FRAME)
    assert found["verdict"] == "check" and "is not published: bend a strip" in found["why"]


@pytest.mark.parametrize(
    ("name", "change", "key"),
    [
        ("shim", "gap=-.032", "gap"),
        ("shim", "gap=0", "gap"),
        ("shim", "width=wide", "width"),
        ("shim", "diameter=1/7", "diameter"),
        ("section-splice", "legs=1,two", "legs"),
        ("section-splice", "use=wing", "use"),
        ("patch", "form=round", "form"),
        ("patch", "per_side=0", "per_side"),
        ("patch", "grain=up", "grain"),
        ("stiffener", "legs=1", "legs"),
        ("stiffener", "length=1e9", "length"),
        ("stiffener", "alloy=unobtainium", "alloy"),
    ],
)
def test_bad_input_is_refused_in_a_sentence(name: str, change: str, key: str) -> None:
    found = reckoned(name, PIECES[name], change)
    assert isinstance(found, Unread), found
    assert found.key == key
    assert re.match("[A-Z“]", found.sentence) and found.sentence.endswith((".", "?"))


@pytest.mark.parametrize(
    ("name", "metric"),
    [
        ("shim", "gap=.8128mm length=152.4mm width=15.875mm stack=.508mm,.508mm"),
        ("section-splice", "legs=15.24mm,50.8mm thickness=1.016mm radius=3.175mm"),
        ("patch", "along=38.1mm across=254mm thickness=.8128mm"),
        (
            "stiffener",
            "legs=25.4mm,50.8mm,25.4mm length=304.8mm stack=.8128mm thickness=1.016mm "
            "radius=4.064mm",
        ),
    ],
)
def test_inch_and_metric_agree(name: str, metric: str) -> None:
    inch = answer(name, PIECES[name])
    other = reckoned(name, PIECES[name], metric, "mm")
    assert not isinstance(other, Unread)
    for key in set(inch) - {"why", "read_as"}:
        assert other[key] == inch[key], key


@pytest.mark.parametrize("name", PIECES)
def test_a_piece_can_be_wanted_as_it_comes(name: str) -> None:
    found = answer(name, PIECES[name])
    assert found["grain"] in GRAINS
    for key in ("thickness_mm", "blank_a_mm", "blank_b_mm"):
        assert found[key] > 0
    assert "reminder, not an approval" in found["caution"]
    one = sum_named(name)
    assert one is not None and one.piece


@pytest.mark.parametrize(
    ("name", "key", "values", "output"),
    [
        ("shim", "length", ("1/2", "1", "1.5", "3", "3.01", "6", "24"), "holes"),
        ("shim", "gap", (".016", ".019", ".020", ".033", ".126"), "thickness_mm"),
        ("section-splice", "damage", ("1/64", "1/2", "1", "5"), "blank_a_mm"),
        ("patch", "across", ("1", "1.5", "2", "5", "10"), "count"),
        ("patch", "across", ("1", "1.5", "2", "5", "10"), "blank_b_mm"),
        ("patch", "along", ("1", "1.5", "2", "5"), "blank_a_mm"),
        ("stiffener", "length", ("1/2", "1", "3", "12"), "holes"),
        ("stiffener", "legs", ("1,2", "1.1,2", "1.1,2.2"), "blank_b_mm"),
    ],
)
def test_more_is_never_less(name: str, key: str, values: tuple[str, ...], output: str) -> None:
    figures = [answer(name, PIECES[name], f"{key}={value}")[output] for value in values]
    assert figures == sorted(figures)
    assert figures[0] < figures[-1]


def test_a_wider_leg_never_has_fewer_rivets() -> None:
    counts = [
        answer("section-splice", ANGLE, f"legs=1,{width}")["counts"][1]
        for width in ("1", "1.1", "1.5", "2", "3", "6")
    ]
    assert counts == sorted(counts) and counts[0] < counts[-1]


def test_clad_sheet_is_reckoned_where_the_alloy_is_clad() -> None:
    # 2017 bare and clad stand in Table 4-10; 5052 is not sold clad
    assert answer("patch", LAP, "clad=no")["count"] == answer("patch", LAP)["count"]
    assert "clad yes" in answer("patch", LAP)["read_as"]
    found = answer("patch", LAP, "alloy=5052-H32 clad=yes")
    assert (found["verdict"], set(found)) == ("not covered", SAID)


def test_table_4_11_is_taken_by_its_own_note() -> None:
    # .032, 1/8 in 5052: the note's 160 % gives 1 / (1.6 x .1285) = 4.864 against a cell of 4.7
    found = answer("patch", LAP, "alloy=5052-H32 clad=no")
    assert found["per_inch"] == pytest.approx(1 / (1.6 * 0.1285), abs=1e-3)
    # 48.64, 49, x 75 % is 36.75
    assert found["count"] == 37
