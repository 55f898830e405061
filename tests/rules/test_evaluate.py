"""What every operation of a program gives, and that none of them raises."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any

import pytest

from bucktail.rules.evaluate import decimal, run, written
from bucktail.rules.program import program
from bucktail.rules.tangent import tangent
from running.programs import BOOK, OUTPUTS, PROGRAM, UNITS, VALUES, answers

F = Fraction

EXPECTED: tuple[tuple[str, Any, Any, Any], ...] = (
    ("add", F(1, 3), F(1, 6), F(1, 2)),
    ("sub", F(1), F(5, 2), F(-3, 2)),
    ("mul", [F(2), F(3)], F(1, 2), [F(1), F(3, 2)]),
    ("add", [F(1), F(2)], [F(10), F(20)], [F(11), F(22)]),
    ("add", [F(1), F(2)], [F(10)], None),
    ("add", [F(1), None], F(1), [F(2), None]),
    ("add", None, F(1), None),
    ("add", "1", F(1), None),
    ("add", True, F(1), None),
    ("div", F(1), F(0), None),
    ("div", F(1), F(3), F(1, 3)),
    ("div", [F(1), F(2)], F(0), [None, None]),
    ("half", F(3), None, F(3, 2)),
    ("nothing", None, None, None),
    ("lt", F(1), F(1), False),
    ("le", F(1), F(1), True),
    ("gt", F(2), F(1), True),
    ("ge", F(1), F(2), False),
    ("lt", None, F(1), None),
    ("lt", [F(1), F(5)], F(3), [True, False]),
    ("and", F(1), F(2), True),
    ("and", None, F(2), False),
    ("or", None, F(2), True),
    ("or", None, None, False),
    ("not", F(1), F(2), False),
    ("not", None, F(2), True),
    ("all", True, [True, True], True),
    ("all", True, None, False),
    ("all", [F(1)], True, False),
    ("any", False, [False, True], True),
    ("any", None, "yes", False),
    ("same", "one", "one", True),
    ("same", F(2), F(4, 2), True),
    ("same", F(1), True, False),
    ("same", F(1), "1", False),
    ("same", None, None, False),
    ("same", [F(1)], [F(1)], False),
    ("given", None, None, False),
    ("given", F(0), None, True),
    ("given", [], None, True),
    ("where", F(1), F(2), F(1)),
    ("where", F(3), F(2), F(2)),
    ("where", None, F(2), F(2)),
    ("where list", [True], None, F(2)),
    ("min", F(5), [F(1), F(3)], F(1)),
    ("min", None, "one", F(2)),
    ("max", [], None, F(-1)),
    ("max", True, [F(7), None], F(7)),
    ("ceil", F(7), F(2), F(8)),
    ("ceil", F(8), F(2), F(8)),
    ("ceil", F(-7), F(2), F(-6)),
    ("floor", F(7), F(2), F(6)),
    ("floor", F(-7), F(2), F(-8)),
    ("round", F(7, 4), F(1, 2), F(2)),
    ("round", F(5, 4), F(1, 2), F(3, 2)),
    ("round", F(-5, 4), F(1, 2), F(-3, 2)),
    ("round", F(1), F(0), None),
    ("whole", F(5, 2), None, F(3)),
    ("whole", [F(-5, 2), F(49, 100)], None, [F(-3), F(0)]),
    ("total", [F(1), F(2)], None, F(3)),
    ("total", [F(1), None], None, None),
    ("total", F(4), None, F(4)),
    ("total", [], None, F(0)),
    ("running", [F(1), F(2), F(3)], None, [F(1), F(3), F(6)]),
    ("running", [F(1), None, F(3)], None, [F(1), None, None]),
    ("running", F(1), None, None),
    ("count", [F(1), None], None, F(2)),
    ("count", F(1), None, None),
    ("joined", [F(1)], "x", [F(1), "x", F(1)]),
    ("first", [F(1), F(2)], None, [F(2)]),
    ("last", [F(1), F(2)], None, [F(1)]),
    ("last", F(1), None, None),
    ("second", [F(1), F(2)], None, F(2)),
    ("second", [F(1)], None, F(0)),
    ("up", F(1), None, "one"),
    ("up", F(11, 10), None, "two and a half"),
    ("up", F(3), None, "three"),
    ("up", F(6), None, None),
    ("up", None, None, None),
    ("up", "3", None, None),
    ("down", F(1, 2), None, None),
    ("down", F(29, 10), None, "two and a half"),
    ("down", F(100), None, None),  # the row of 5 has no name
    ("exact", None, "one", F(1)),
    ("exact", None, "four", None),
    ("exact", None, None, None),
    ("in kind", None, None, "two and a half"),
    ("near", F(2), None, "three"),
    ("near", F(4), None, None),
    ("empty", None, None, None),
    ("length", F(396_875), None, "1/64 in"),
    ("thickness", F(812_800), None, ".032 in"),
    ("length", F(-396_875), None, "1/64 in"),
    ("thicknesses", [F(812_800), F(1_016_000)], None, ".032 in + .040 in"),
    ("lengths", [F(396_875), None], None, None),
    ("lengths", F(396_875), None, None),
    ("number", F(1, 3), None, "<0.333>"),
    ("number", F(-1, 2), None, "<-0.5>"),
    ("number", True, None, None),
    ("words", ["a", "b"], None, "a + b"),
    ("words", [F(1)], None, None),
    ("both", F(2), "pipes", "2 of pipes, 2"),
    ("both", None, "pipes", None),
    ("sentences", "Yes", F(2), "Yes. 2. End."),
    ("sentences", None, None, "End."),
)


@pytest.mark.parametrize(("output", "a", "b", "gives"), EXPECTED)
def test_an_operation(output: str, a: Any, b: Any, gives: Any) -> None:
    found = answers(a, b, "in")[output]
    assert found == gives
    assert type(found) is type(gives)


def test_every_operation_is_among_those_tried() -> None:
    assert {output for output, *_ in EXPECTED} >= set(OUTPUTS) - {"tan"}
    steps = {step[0] for step in PROGRAM.steps}
    from bucktail.rules.evaluate import _OPERATIONS

    assert steps >= set(_OPERATIONS)


def test_nothing_raises_whatever_is_put_in() -> None:
    for a in VALUES:
        for b in VALUES:
            for unit in UNITS:
                assert set(answers(a, b, unit)) == set(OUTPUTS)


def test_an_input_that_is_left_out_is_none() -> None:
    outputs = run(PROGRAM, {}, BOOK, "in")
    assert outputs["add"] is None
    assert outputs["given"] is False


def test_lengths_are_shown_in_the_unit_asked_for() -> None:
    assert answers(Fraction(800_000), None, "mm")["thickness"] == "0.8 mm"
    assert answers(Fraction(12_700_000), None, "mm")["length"] == "12.7 mm"
    assert answers(Fraction(12_700_000), None, "in")["length"] == "1/2 in"


@pytest.mark.parametrize("degrees", [0, 1, 7.5, 15, 22.5, 30, 45, 60, 67.5, 75, 89, 89.5])
def test_the_tangent_to_nine_decimals(degrees: float) -> None:
    found = tangent(Fraction(degrees))
    assert found is not None
    assert abs(float(found) - math.tan(math.radians(degrees))) < 6e-10
    assert (found * 10**9).denominator == 1


@pytest.mark.parametrize("degrees", [Fraction(-1), Fraction(90), Fraction(180), Fraction(10**9)])
def test_no_tangent_outside_a_bend(degrees: Fraction) -> None:
    assert tangent(degrees) is None


def test_known_tangents_are_exact() -> None:
    assert tangent(Fraction(0)) == 0
    assert tangent(Fraction(45)) == 1
    assert tangent(Fraction(60)) == Fraction(1_732_050_808, 10**9)
    assert tangent(Fraction("89.9")) == Fraction(572_957_213_354, 10**9)


def test_decimals_end_without_zeros_and_halves_go_away_from_zero() -> None:
    assert decimal(Fraction(1, 2000), 3) == "0.001"
    assert decimal(Fraction(-1, 2000), 3) == "-0.001"
    assert decimal(Fraction(-1, 3000), 3) == "0"
    assert decimal(Fraction(1230, 100), 3) == "12.3"
    assert decimal(Fraction(100), 3) == "100"


def test_a_value_that_does_not_fit_its_format_is_not_written() -> None:
    assert written("length", "1", "in") is None
    assert written("word", Fraction(1), "in") is None
    assert written("number", True, "in") is None
    assert written("lengths", None, "in") is None


def test_a_step_of_a_newer_rulebook_is_not_passed_over() -> None:
    made = program({"x": OUTPUTS["add"]})
    newer = type(made)((*made.steps, ["power", 0, 1]), {"x": len(made.steps)})
    with pytest.raises(KeyError):
        run(newer, {}, BOOK, "in")
