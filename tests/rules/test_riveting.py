"""The riveting sums: moments that must come out right, equalities that must meet, words said."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

import pytest

from bucktail.rules.evaluate import Value, run
from bucktail.rules.lengths import NM_PER_IN
from bucktail.rules.program import program
from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.recording import Operand, given_as
from bucktail.rules.rulebook import book
from bucktail.rules.spacing import edge_least, pitch_least, row_gap_usual

SAID = {"verdict", "why", "source", "caution", "read_as"}


def answer(asked: str) -> Mapping[str, Any]:
    """The answer to a line as it is typed after `bucktail reckon`."""
    name, *pairs = asked.split()
    found = reckon(name, dict(pair.split("=", 1) for pair in pairs), "in")
    assert not isinstance(found, Unread), found
    return found


def refused(asked: str) -> Unread:
    """What cannot be reckoned with in such a line."""
    name, *pairs = asked.split()
    found = reckon(name, dict(pair.split("=", 1) for pair in pairs), "in")
    assert isinstance(found, Unread), found
    return found


# moments


@pytest.mark.parametrize(
    "asked",
    [
        "rivet stack=.032,.040 diameter=1/8 kind=pulled",
        "rivet stack=.032,.040 diameter=1/8 kind=pulled maker_grip_least=.063",
        "rivet stack=.032,.040 diameter=1/8 kind=pulled maker_grip_least=.063 maker_grip_most=.125",
        "rivet stack=.032,.040 diameter=1/8 kind=pulled maker_hole=.129",
        "rivet stack=.032,.040 diameter=1/8 kind=pulled head=flush maker_grip_least=.063 "
        "maker_grip_most=.125 maker_hole=.129",
        "rivet stack=.032,.040 diameter=1/8 kind=reduced-head head=flush",
        "flush thickness=.040 diameter=3/32 angle=120",
        "flush thickness=.040 diameter=3/32 angle=120 under=.032",
        "flush thickness=.040 diameter=3/32 angle=99.9",
        "flush thickness=.040 diameter=1/16",
        "upsize diameter=1/8 stack=.032,.040 edge=3/8 pitch=1/2 kind=pulled",
        "upsize diameter=1/8 stack=.032,.040 edge=3/8 pitch=1/2 kind=reduced-head head=flush",
    ],
)
def test_t4_what_is_not_covered_has_no_figure_anywhere(asked: str) -> None:
    found = answer(asked)
    assert found["verdict"] == "not covered"
    assert set(found) == SAID
    assert found["why"]
    assert not re.search(r"[0-9]", found["why"])


def test_t4_a_pulled_rivet_with_all_its_makers_data_is_judged_by_them() -> None:
    data = "maker_grip_least=.063 maker_grip_most=.125 maker_hole=.129"
    found = answer(f"rivet stack=.032,.040 diameter=1/8 kind=pulled {data}")
    assert found["verdict"] == "meets"
    assert (found["grip_mm"], found["hole_mm"]) == (1.8288, 3.2766)
    assert "dash" not in found and "exact_length_mm" not in found
    assert "maker" in found["source"]
    assert answer(f"rivet stack=.032,.025 diameter=1/8 kind=pulled {data}")["verdict"] == "fails"
    assert answer(f"rivet stack=.063 diameter=1/8 kind=pulled {data}")["verdict"] == "meets"
    assert answer(f"rivet stack=.125 diameter=1/8 kind=pulled {data}")["verdict"] == "meets"
    assert answer(f"rivet stack=.126 diameter=1/8 kind=pulled {data}")["verdict"] == "fails"


def test_t5_a_countersink_under_a_dimpled_skin_needs_a_thicker_sheet() -> None:
    found = answer("flush thickness=.040 diameter=3/32 under=.032")
    assert found["verdict"] == "fails"
    assert found["needed_mm"] == pytest.approx(0.0455 * 25.4, abs=0.0013)
    assert ".0455 in" in found["why"] and ".040 in" in found["why"]
    assert answer("flush thickness=.040 diameter=3/32")["verdict"] == "meets"
    assert answer("flush thickness=.050 diameter=3/32 under=.032")["verdict"] == "meets"


def test_t6_a_shim_in_a_line_of_three_and_a_half_makes_it_four() -> None:
    before = answer("rivet stack=.020,.020 diameter=1/8")
    assert before["part_number"] == "MS20470AD4-3.5"
    after = answer("rivet stack=.020,.032,.020 diameter=1/8 was=.020,.020")
    assert (after["was_dash"], after["dash"]) == (3.5, 4)
    assert after["part_number"] == "MS20470AD4-4"
    assert "changes from -3.5 to -4" in after["why"]
    assert "stays -3.5" in answer("rivet stack=.020,.025 diameter=1/8 was=.020,.020")["why"]


def test_t8_a_hole_drilled_out_too_near_the_edge_fails() -> None:
    found = answer("upsize diameter=3/32 to=1/8 stack=.032,.032 edge=.1875 pitch=1/2")
    assert found["verdict"] == "fails"
    assert found["edge_d"] == 1.5
    assert (found["edge_min_mm"], found["edge_short_mm"]) == (6.35, 1.5875)
    assert found["why"].startswith("The edge distance of 3/16 in is 1.5 D: short by 1/16 in.")
    for offered in ("part_number", "dash", "drill", "hole_mm"):
        assert offered not in found
    assert answer("edge edge=.1875 diameter=1/8")["verdict"] == "fails"


def test_t8_where_all_holds_the_next_size_is_offered() -> None:
    found = answer("upsize diameter=3/32 stack=.040,.040 edge=1/4 pitch=3/8")
    assert found["verdict"] == "meets"
    assert found["to_diameter_mm"] == 3.175
    assert (found["part_number"], found["dash"]) == ("MS20470AD4-4.5", 4.5)
    assert (found["drill"], found["hole_mm"]) == ("#30", 3.2639)
    assert "At most 20 %" in found["why"] and "no more than 10" in found["why"]


@pytest.mark.parametrize(
    ("change", "verdict", "said"),
    [
        ("edge=.249", "fails", "edge distance"),
        ("pitch=.374", "fails", "pitch"),
        ("rows=2", "fails", "Each of several rows needs 4 D"),
        ("rows=4", "not covered", "single, double and triple"),
        ("head=flush", "fails", "needs 2.5 D"),
        ("stack=.025,.025", "check", "one size over"),
        ("stack=.016,.016", "check", "one size over"),
        ("stack=.140,.040", "fails", "thinner than the thickest sheet"),
        ("hole=.129", "fails", "larger than the .1285 in"),
        ("hole=.128", "meets", "At most"),
        ("to=5/32", "not covered", "up by one size"),
    ],
)
def test_t8_each_thing_is_looked_at_again(change: str, verdict: str, said: str) -> None:
    line = "diameter=3/32 stack=.040,.040 edge=1/4 pitch=3/8".split()
    key = change.split("=")[0]
    kept = [pair for pair in line if not pair.startswith(f"{key}=")]
    found = answer(" ".join(["upsize", *kept, change]))
    assert found["verdict"] == verdict
    assert said in found["why"]


@pytest.mark.parametrize(
    ("change", "verdict", "needed"),
    [
        ("stack=.040,.032", "fails", 1.27),  # was countersunk for 3/32, cannot be dimpled now
        ("stack=.050,.032", "meets", 1.27),
        ("stack=.032,.032", "meets", None),  # was dimpled
        ("stack=.032,.050 treatment=dimple-on-countersink", "fails", 0.042 * 25.4 + 0.00976 * 25.4),
        ("stack=.032,.063 treatment=dimple-on-countersink", "meets", None),
        ("stack=.050,.032 treatment=dimple", "check", None),
        ("stack=.038,.032 treatment=countersink", "fails", 1.27),
    ],
)
def test_t8_the_flush_layer_is_looked_at_again(
    change: str, verdict: str, needed: float | None
) -> None:
    found = answer(f"upsize diameter=3/32 edge=3/8 pitch=1/2 head=flush {change}")
    assert found["verdict"] == verdict, found
    if needed:
        assert found["needed_mm"] == pytest.approx(needed, abs=0.002)


# exact equalities meet


def worth(made: Operand, **inputs: Value) -> Value:
    """What a quantity is for these inputs."""
    return run(program({"x": made}), inputs, book(), "in")["x"]


@pytest.mark.parametrize("sixty_fourths", range(4, 33))
def test_exact_multiples_of_any_diameter_are_exact(sixty_fourths: int) -> None:
    """9/32 in is 2 x 9/64 in, and so on for every sixty-fourth."""
    diameter = Fraction(sixty_fourths * NM_PER_IN, 64)
    rows = given_as("rows")
    d = given_as("d")
    assert worth(edge_least(d, "protruding"), d=diameter) == diameter * 2
    assert worth(edge_least(d, "flush"), d=diameter) == diameter * 5 / 2
    assert worth(pitch_least(d, rows), d=diameter, rows=Fraction(1)) == diameter * 3
    assert worth(pitch_least(d, rows), d=diameter, rows=Fraction(3)) == diameter * 4
    assert worth(row_gap_usual(d, d * 4), d=diameter) == diameter * 3


@pytest.mark.parametrize(
    "asked",
    [
        "edge edge=1/4 diameter=1/8",
        "edge edge=.1875 diameter=3/32",
        "edge edge=5/16 diameter=5/32",
        "edge edge=6.35mm diameter=1/8",
        "edge edge=7.9375mm diameter=1/8 head=flush",
        "edge edge=15/64 diameter=3/32 head=flush",
        "edge edge=1 diameter=1/4",
        "edge edge=1/2 diameter=1/8",
        "layout diameter=3/32 length=3 pitch=9/32",
        "layout diameter=3/32 length=21/32 per_row=2 pitch=9/32",
        "layout diameter=1/8 length=7/8 per_row=2",
        "layout diameter=1/8 length=7/8 edge=1/4 per_row=2 pitch=3/8",
        "layout diameter=1/8 length=10 rows=2 width=.875 pitch=1/2",
        "layout diameter=1/8 length=2 width=1/2",
        "shophead diameter=1/8 measured_diameter=.175 measured_height=.0475",
        "shophead diameter=1/8 measured_diameter=.210 measured_height=.080",
        "diameter sheets=.125 line=1/8",
        "diameter sheets=1/16,.040 line=3/16",
        "flush thickness=1.016mm diameter=3/32",
    ],
)
def test_exact_equalities_meet(asked: str) -> None:
    assert answer(asked)["verdict"] == "meets"


@pytest.mark.parametrize(
    ("asked", "verdict"),
    [
        ("edge edge=.2499 diameter=1/8", "fails"),
        ("layout diameter=1/8 length=.874 per_row=2", "fails"),
        ("layout diameter=1/8 length=10 rows=2 width=.874 pitch=1/2", "check"),
        ("layout diameter=1/8 length=10 rows=2 width=.8125 pitch=1/2", "check"),
        ("layout diameter=1/8 length=10 rows=2 width=.8124 pitch=1/2", "fails"),
        ("edge edge=6.349mm diameter=1/8", "fails"),
        ("edge edge=.501 diameter=1/8", "check"),
        ("layout diameter=3/32 length=3 pitch=.281", "fails"),
        ("layout diameter=1/8 length=8 pitch=1", "meets"),
        ("layout diameter=1/8 length=8 pitch=1.001", "check"),
        ("layout diameter=1/8 length=8 pitch=1.5", "check"),
        ("layout diameter=1/8 length=8 pitch=1.501", "fails"),
        ("shophead diameter=1/8 measured_diameter=.1625 measured_height=.0375", "check"),
        ("shophead diameter=1/8 measured_diameter=.1624 measured_height=.063", "fails"),
        ("shophead diameter=1/8 measured_diameter=.188 measured_height=.0374", "fails"),
        ("shophead diameter=1/8 measured_diameter=.2101 measured_height=.063", "fails"),
        ("shophead diameter=1/8 measured_diameter=.188 measured_height=.0801", "fails"),
        ("diameter sheets=.126 line=1/8", "fails"),
        ("diameter sheets=.032 line=5/32", "check"),
        ("diameter sheets=.032 line=3/16", "fails"),
        ("diameter sheets=.020 line=1/16", "fails"),
        ("diameter sheets=.084", "not covered"),
        ("flush thickness=1.0mm diameter=3/32", "meets"),
    ],
)
def test_beside_the_limits(asked: str, verdict: str) -> None:
    assert answer(asked)["verdict"] == verdict


# words and figures of the layout


def test_a_strip_that_is_too_small_says_by_how_much() -> None:
    found = answer("layout diameter=1/8 length=2 per_row=8 rows=2 width=3/4")
    assert found["verdict"] == "fails"
    assert found["length_short_mm"] == pytest.approx((2 * 0.25 + 7 * 0.5 - 2) * 25.4)
    assert found["width_short_mm"] == pytest.approx((0.8125 - 0.75) * 25.4)
    assert "short by 2 in" in found["why"]
    assert "too narrow by 1/16 in" in found["why"]


def test_a_strip_too_short_for_one_rivet_has_no_layout() -> None:
    found = answer("layout diameter=1/8 length=.4")
    assert found["verdict"] == "fails"
    assert "short by .100 in" in found["why"]
    assert "count" not in found and "pitch_mm" not in found


def test_a_row_is_filled_at_four_diameters_and_fits() -> None:
    for length in ("1", "1.7", "2.31", "7", "33"):
        found = answer(f"layout diameter=1/8 length={length}")
        span = (found["per_row"] - 1) * found.get("pitch_mm", 0)
        assert span + 2 * found["first_mm"] == pytest.approx(float(length) * 25.4, abs=0.001)
        assert found["first_mm"] >= found["edge_min_mm"]
        if "pitch_d" in found:
            assert 4 <= found["pitch_d"] < 8


def test_a_row_that_is_kept_stands_in_the_middle() -> None:
    found = answer("layout diameter=1/8 length=5 pitch=1/2 per_row=9")
    assert (found["count"], found["pitch_mm"], found["first_mm"]) == (9, 12.7, 12.7)


def test_clearance_to_a_bend_is_a_measure() -> None:
    found = answer("layout diameter=1/8 length=5 bend=3/8 tool=1/4")
    assert (found["verdict"], found["bend_clear_mm"]) == ("meets", 3.175)
    without = answer("layout diameter=1/8 length=5 bend=3/8")
    assert (without["verdict"], without["bend_clear_mm"]) == ("check", 6.35)
    touching = answer("layout diameter=1/8 length=5 bend=3/16 tool=1/4")
    assert (touching["verdict"], touching["bend_clear_mm"]) == ("fails", -1.5875)
    assert "reaches 1/16 in past" in touching["why"]


def test_a_layout_says_how_to_mark_out() -> None:
    assert "No graphite pencil" in answer("layout diameter=1/8 length=5")["caution"]


def test_a_new_joint_is_advice_and_a_line_is_judged() -> None:
    new = answer("diameter sheets=.032,.020")
    assert (new["verdict"], new["diameter_mm"]) == ("check", 3.175)
    assert "inside_band" not in new
    assert "keeps the rivet of the plans" in new["why"]
    assert answer("diameter sheets=.032,.020 line=1/8")["inside_band"] == "yes"
    assert answer("diameter sheets=.032,.020 line=3/16")["inside_band"] == "no"


def test_the_worst_is_said_first() -> None:
    why = answer("upsize diameter=3/32 to=1/8 stack=.032,.032 edge=.1875")["why"]
    assert why.index("short by") < why.index("Measure to the next") < why.index("usual one")


def test_what_makes_no_sense_together_is_refused() -> None:
    line = "diameter=1/8 stack=.032,.032 edge=3/8"
    assert refused(f"upsize {line} to=1/8").key == "to"
    assert refused(f"upsize {line} to=3/32").key == "to"
    assert refused(f"upsize {line} treatment=dimple").key == "treatment"
    one_layer = "upsize diameter=1/8 stack=.032 edge=3/8 head=flush"
    assert refused(f"{one_layer} treatment=dimple-on-countersink").key == "stack"
    grips = "maker_grip_least=.125 maker_grip_most=.063"
    assert refused(f"rivet stack=.032 diameter=1/8 {grips}").key == "maker_grip_most"


@pytest.mark.parametrize(
    "name", ["rivet stack=.032,.040", "hole", "diameter sheets=.020 line=1/16"]
)
def test_the_smallest_rivets_are_not_for_structure(name: str) -> None:
    small = "" if "line" in name else " diameter=1/16"
    found = answer(name + small)
    assert found["verdict"] in ("check", "fails")
    assert "3/32 in" in found["why"]
