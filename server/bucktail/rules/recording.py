"""Operands that write down what is done with them, so that a rule is written once.

A rule is a Python function. It is called once, with operands, and what it did becomes a short
program of steps (`program`) which `evaluate` runs here and web/src/twins/rules.ts on the phone.
Nothing can branch unseen: an operand refuses `if`, `and`, `or` and `not`.

Values are exact fractions (lengths in nanometres), words, yes or no, lists of these, or None for
what is not given. Nothing raises while a program runs: what cannot be worked out is None, and None
runs through to whatever is made of it.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, TypeAlias

Plain: TypeAlias = int | Fraction | str | bool | None
Term: TypeAlias = "Operand | Plain"

#: how a value is written in a sentence; see evaluate.written
FORMATS = ("length", "thickness", "lengths", "thicknesses", "number", "word", "words")


class Operand:
    """One step of a program, with the steps it stands on. Arithmetic goes through lists too."""

    __slots__ = ("args", "op")

    def __init__(self, op: str, *args: Any) -> None:
        self.op = op
        self.args = args

    def __add__(self, other: Term) -> Operand:
        return _step("add", self, other)

    def __radd__(self, other: Term) -> Operand:
        return _step("add", other, self)

    def __sub__(self, other: Term) -> Operand:
        return _step("sub", self, other)

    def __rsub__(self, other: Term) -> Operand:
        return _step("sub", other, self)

    def __mul__(self, other: Term) -> Operand:
        return _step("mul", self, other)

    def __rmul__(self, other: Term) -> Operand:
        return _step("mul", other, self)

    def __truediv__(self, other: Term) -> Operand:
        return _step("div", self, other)

    def __rtruediv__(self, other: Term) -> Operand:
        return _step("div", other, self)

    def __lt__(self, other: Term) -> Operand:
        return _step("lt", self, other)

    def __le__(self, other: Term) -> Operand:
        return _step("le", self, other)

    def __gt__(self, other: Term) -> Operand:
        return _step("lt", other, self)

    def __ge__(self, other: Term) -> Operand:
        return _step("le", other, self)

    def __and__(self, other: Term) -> Operand:
        return _step("all", self, other)

    def __or__(self, other: Term) -> Operand:
        return _step("any", self, other)

    def __invert__(self) -> Operand:
        return _step("not", self)

    def __bool__(self) -> bool:
        raise TypeError("a rule may not branch on an operand; use where(), &, | and ~")

    def __eq__(self, other: object) -> bool:
        raise TypeError("compare operands with same()")

    __hash__ = object.__hash__


def operand(term: Term) -> Operand:
    """An operand as it is; a plain value as a step that gives it. Floats are refused."""
    if isinstance(term, Operand):
        return term
    if isinstance(term, float):
        raise TypeError("a rule reckons with exact values: use a table, a constant or a Fraction")
    return Operand("is", Fraction(term) if type(term) is int else term)


def _step(op: str, *terms: Term) -> Operand:
    return Operand(op, *(operand(term) for term in terms))


def given_as(name: str) -> Operand:
    """What the builder typed for `name`, read; None where it was left out."""
    return Operand("input", name)


def constant(name: str) -> Operand:
    """A number of tables/constants.csv by its name; lengths are in nanometres."""
    return Operand("constant", name)


def given(term: Term) -> Operand:
    """Yes where the value is there, no where it is None."""
    return _step("given", term)


def where(condition: Term, then: Term, otherwise: Term = None) -> Operand:
    """`then` where the condition is yes; `otherwise` where it is no or cannot be told."""
    return _step("where", condition, then, otherwise)


def same(one: Term, other: Term) -> Operand:
    """Yes where both are the same number or word; no for lists and where one is not given."""
    return _step("same", one, other)


def one_of(term: Term, *words: str) -> Operand:
    """Yes where the value is one of the words."""
    return _step("any", *(same(term, word) for word in words))


def everything(*conditions: Term) -> Operand:
    """Yes where every condition, or every one in a list, is yes."""
    return _step("all", *conditions)


def anything(*conditions: Term) -> Operand:
    """Yes where at least one condition, or one in a list, is yes."""
    return _step("any", *conditions)


def smallest(*terms: Term) -> Operand:
    """The smallest of the values and of the lists' values; what is not given is passed over."""
    return _step("min", *terms)


def largest(*terms: Term) -> Operand:
    """The largest of the values and of the lists' values; what is not given is passed over."""
    return _step("max", *terms)


def tan_deg(angle: Term) -> Operand:
    """Tangent of an angle from 0 to less than 90 degrees, rounded to nine decimals."""
    return _step("tan", angle)


def ceil_to(value: Term, step: Term = 1) -> Operand:
    """The next multiple of `step` that is not below `value`."""
    return _step("ceil", value, step)


def floor_to(value: Term, step: Term = 1) -> Operand:
    """The last multiple of `step` that is not above `value`."""
    return _step("floor", value, step)


def round_to(value: Term, step: Term = 1) -> Operand:
    """The nearest multiple of `step`; half-way goes away from zero (lengths.round_half_away)."""
    return _step("round", value, step)


def total(term: Term) -> Operand:
    """The sum of a list."""
    return _step("total", term)


def running(term: Term) -> Operand:
    """The running sums of a list: as many as it has values."""
    return _step("running", term)


def how_many(term: Term) -> Operand:
    """How many values a list has."""
    return _step("count", term)


def joined(*terms: Term) -> Operand:
    """One list of all the values, in order; a single value counts as a list of one."""
    return _step("joined", *terms)


def without_first(term: Term) -> Operand:
    """A list without its first value."""
    return Operand("slice", operand(term), 1, None)


def without_last(term: Term) -> Operand:
    """A list without its last value."""
    return Operand("slice", operand(term), 0, -1)


def value_at(term: Term, place: int) -> Operand:
    """The number at a place of a list, counted from 0; 0 where the list is shorter."""
    return total(Operand("slice", operand(term), place, place + 1))


def lookup(
    table: str,
    column: str,
    *,
    exact: Mapping[str, Term] | None = None,
    up: tuple[str, Term] | None = None,
    down: tuple[str, Term] | None = None,
) -> Operand:
    """A cell of a table; None where no row serves or the cell is empty.

    `exact` names columns whose cell must be the same. `up` takes, of the rows left, the one with
    the smallest value of its column that is not below the term; `down` the largest not above it.
    """
    if (up is not None) and (down is not None):
        raise ValueError("a lookup goes up or down, not both")
    how, key = ("up", up) if up else ("down", down)
    near = (how, key[0], operand(key[1])) if key else None
    keys = tuple((name, operand(term)) for name, term in (exact or {}).items())
    return Operand("lookup", table, column, keys, near)


def say(template: str, **slots: tuple[str, Term]) -> Operand:
    """A sentence with slots: `say("needs {t}", t=("thickness", needed))`.

    The first of a slot's pair is one of FORMATS. Where a slot is not given there is no sentence.
    """
    for name, (form, _) in slots.items():
        if form not in FORMATS or f"{{{name}}}" not in template:
            raise ValueError(f"slot {name!r} of {template!r}: unknown format or place")
    filled = tuple((name, form, operand(term)) for name, (form, term) in slots.items())
    return Operand("say", template, filled)


def sentences(*terms: Term) -> Operand:
    """The sentences that are given, with a space between; None where there is none."""
    return _step("sentences", *terms)
