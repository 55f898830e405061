"""A rule is written down as it is called: nothing branches unseen, nothing is rounded unseen."""

from __future__ import annotations

from fractions import Fraction

import pytest

from bucktail.rules.program import number_json, program
from bucktail.rules.recording import (
    ceil_to,
    constant,
    given_as,
    lookup,
    operand,
    same,
    say,
    where,
)


@pytest.mark.parametrize(
    "branch",
    [
        lambda a: bool(a),
        lambda a: a and 1,
        lambda a: a or 1,
        lambda a: not a,
        lambda a: 1 if a > 2 else 0,
        lambda a: 1 < a < 3,
        lambda a: [one for one in (1,) if a],
        lambda a: min(a, 2),
        lambda a: sorted([a, operand(1)]),
    ],
)
def test_an_operand_refuses_to_be_branched_on(branch) -> None:
    with pytest.raises(TypeError, match="may not branch"):
        branch(given_as("thickness"))


@pytest.mark.parametrize("compare", [lambda a: a == 1, lambda a: a != 1])
def test_operands_are_compared_with_same(compare) -> None:
    with pytest.raises(TypeError, match="same"):
        compare(given_as("thickness"))


@pytest.mark.parametrize(
    "use",
    [
        lambda a: operand(0.1),
        lambda a: a * 0.1,
        lambda a: 0.1 * a,
        lambda a: a + float("nan"),
        lambda a: where(a > 1, 0.5, 2),
        lambda a: ceil_to(a, 0.5),
    ],
)
def test_a_rule_reckons_with_no_floats(use) -> None:
    with pytest.raises(TypeError, match="exact"):
        use(given_as("thickness"))


def test_the_steps_stand_in_working_order_and_each_once() -> None:
    thickness = given_as("thickness")
    twice = thickness * constant("diameter most") + thickness * constant("diameter most")
    made = program({"one": twice, "other": thickness * constant("diameter most")})
    assert [list(step) for step in made.steps] == [
        ["input", "thickness"],
        ["constant", "diameter most"],
        ["mul", 0, 1],
        ["add", 2, 2],
    ]
    assert made.outputs == {"one": 3, "other": 2}
    for at, step in enumerate(made.steps):
        assert all(arg < at for arg in step[1:] if isinstance(arg, int))


def test_numbers_are_written_exactly() -> None:
    assert number_json(Fraction(3)) == 3
    assert number_json(Fraction(-3, 8)) == [-3, 8]
    assert program({"x": operand(Fraction(1, 3))}).steps == (["is", [1, 3]],)
    assert program({"x": operand(True)}).steps == (["is", True],)
    assert program({"x": operand(1)}).steps == (["is", 1],)
    assert program({"x": operand(None)}).steps == (["is", None],)


def test_a_lookup_goes_one_way() -> None:
    with pytest.raises(ValueError, match="up or down"):
        lookup("gauges", "text", up=("a", 1), down=("b", 2))


@pytest.mark.parametrize(
    ("template", "slots"),
    [
        ("needs {t}", {"t": ("inches", 1)}),
        ("needs {t}", {"u": ("length", 1)}),
        ("needs", {"t": ("length", 1)}),
    ],
)
def test_a_sentence_is_checked_when_it_is_written(template, slots) -> None:
    with pytest.raises(ValueError, match="unknown format or place"):
        say(template, **slots)


def test_words_and_numbers_are_not_mixed_up() -> None:
    made = program({"x": same(operand("1"), operand(1))})
    assert made.steps[:2] == (["is", "1"], ["is", 1])
