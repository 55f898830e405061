"""Runs a recorded program. The phone's twin is web/src/twins/rules.ts.

Values: Fraction, str, bool, None, or a list of these. Arithmetic, rounding and comparing go through
lists element by element; a single value is used with each. Nothing raises: what cannot be worked
out (a value not given, division by zero, lists of different lengths) is None.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import Any, TypeAlias

from bucktail.rules.cells import Book, Cell, Cells
from bucktail.rules.lengths import Unit, round_half_away, show_length, show_thickness
from bucktail.rules.program import Program
from bucktail.rules.tangent import tangent

Value: TypeAlias = Fraction | str | bool | Sequence[Any] | None


def run(program: Program, inputs: Mapping[str, Value], book: Book, unit: Unit) -> dict[str, Value]:
    """The outputs of `program`. `inputs` as rules/reading makes them; one left out is None."""
    values: list[Value] = []
    for op, *args in program.steps:
        match op:
            case "is":
                values.append(_literal(args[0]))
            case "input":
                values.append(inputs.get(args[0]))
            case "constant":
                values.append(book.constants.get(args[0]))
            case "slice":
                found = values[args[0]]
                values.append(found[args[1] : args[2]] if isinstance(found, list) else None)
            case "lookup":
                values.append(_lookup(book.tables[args[0]], values, *args[1:]))
            case "say":
                values.append(_say(args[0], args[1], values, unit))
            case _:
                values.append(_OPERATIONS[op](*(values[at] for at in args)))
    return {name: values[at] for name, at in program.outputs.items()}


def _literal(value: Any) -> Value:
    if isinstance(value, list):
        return Fraction(value[0], value[1])
    return Fraction(value) if type(value) is int else value


def _each(work: Callable[..., Value], needs: type) -> Callable[..., Value]:
    """`work` on single values of the type it needs, made to go through lists."""

    def through(*terms: Value) -> Value:
        lists = [term for term in terms if isinstance(term, list)]
        if not lists:
            fit = all(isinstance(term, needs) and not isinstance(term, bool) for term in terms)
            return work(*terms) if fit else None
        length = len(lists[0])
        if any(len(one) != length for one in lists):
            return None
        return [
            through(*(term[at] if isinstance(term, list) else term for term in terms))
            for at in range(length)
        ]

    return through


def _flat(terms: Sequence[Value]) -> list[Value]:
    out: list[Value] = []
    for term in terms:
        out += term if isinstance(term, list) else [term]
    return out


def _same(one: Value, other: Value) -> Value:
    return type(one) is type(other) and isinstance(one, Fraction | str | bool) and one == other


def _best(choose: Callable[[list[Any]], Any]) -> Callable[..., Value]:
    def work(*terms: Value) -> Value:
        numbers = [one for one in _flat(terms) if isinstance(one, Fraction)]
        return choose(numbers) if numbers else None

    return work


def _total(*terms: Value) -> Value:
    numbers = [one for one in _flat(terms) if isinstance(one, Fraction)]
    return sum(numbers, Fraction(0)) if len(numbers) == len(_flat(terms)) else None


def _running(term: Value) -> Value:
    if not isinstance(term, list):
        return None
    return [_total(term[: at + 1]) for at in range(len(term))]


def _sentences(*terms: Value) -> Value:
    told = [one for one in terms if isinstance(one, str)]
    return " ".join(told) if told else None


_OPERATIONS: dict[str, Callable[..., Value]] = {
    "add": _each(lambda a, b: a + b, Fraction),
    "sub": _each(lambda a, b: a - b, Fraction),
    "mul": _each(lambda a, b: a * b, Fraction),
    "div": _each(lambda a, b: a / b if b else None, Fraction),
    "lt": _each(lambda a, b: a < b, Fraction),
    "le": _each(lambda a, b: a <= b, Fraction),
    "tan": _each(tangent, Fraction),
    "ceil": _each(lambda v, s: math.ceil(v / s) * s if s else None, Fraction),
    "floor": _each(lambda v, s: math.floor(v / s) * s if s else None, Fraction),
    "round": _each(lambda v, s: round_half_away(v / s) * s if s else None, Fraction),
    "same": _same,
    "all": lambda *terms: all(one is True for one in _flat(terms)),
    "any": lambda *terms: any(one is True for one in _flat(terms)),
    "not": lambda term: term is not True,
    "given": lambda term: term is not None,
    "where": lambda condition, then, otherwise: then if condition is True else otherwise,
    "min": _best(min),
    "max": _best(max),
    "total": _total,
    "running": _running,
    "count": lambda term: Fraction(len(term)) if isinstance(term, list) else None,
    "joined": lambda *terms: _flat(terms),
    "sentences": _sentences,
}


def _lookup(
    table: Cells, values: Sequence[Value], column: str, exact: list[Any], near: list[Any] | None
) -> Value:
    at, rows = table.columns, table.rows
    for name, key in exact:
        rows = tuple(row for row in rows if _same(row[at[name]], values[key]) is True)
    if near:
        how, name, key = near
        rows = _nearest(rows, at[name], values[key], 1 if how == "up" else -1)
    return rows[0][at[column]] if rows else None


def _nearest(
    rows: Sequence[tuple[Cell, ...]], place: int, sought: Value, sign: int
) -> tuple[tuple[Cell, ...], ...]:
    """The row whose cell is nearest to what is sought, not below it (sign 1) or not above (-1)."""
    gaps: list[tuple[Fraction, tuple[Cell, ...]]] = []
    for row in rows:
        cell = row[place]
        if isinstance(cell, Fraction) and isinstance(sought, Fraction):
            gaps.append(((cell - sought) * sign, row))
    near = [one for one in gaps if one[0] >= 0]
    return (min(near, key=lambda one: one[0])[1],) if near else ()


def _say(template: str, slots: list[Any], values: Sequence[Value], unit: Unit) -> Value:
    words = template
    for slot, form, at in slots:
        text = written(form, values[at], unit)
        if text is None:
            return None
        words = words.replace(f"{{{slot}}}", text)
    return words


def written(form: str, value: Value, unit: Unit) -> str | None:
    """A value as it stands in a sentence; None where it does not fit the format.

    Lengths are shown without a sign, in the unit asked for; a list is joined with " + ".
    Numbers have at most three decimals.
    """
    if form in ("lengths", "thicknesses", "words"):
        if not isinstance(value, list):
            return None
        each = [written(form.removesuffix("es") if form == "thicknesses" else form[:-1], one, unit)
                for one in value]  # fmt: skip
        told = [text for text in each if text is not None]
        return " + ".join(told) if len(told) == len(each) else None
    if form == "word":
        return value if isinstance(value, str) else None
    if not isinstance(value, Fraction) or isinstance(value, bool):
        return None
    if form == "number":
        return decimal(value, 3)
    nm = abs(round_half_away(value))
    return show_length(nm, unit) if form == "length" else show_thickness(nm, unit)


def decimal(value: Fraction, places: int) -> str:
    """A number rounded to at most `places` decimals, without zeros at its end: 1.3, 0.5."""
    scaled = round_half_away(value * 10**places)
    sign, digits = ("-" if scaled < 0 else ""), str(abs(scaled)).rjust(places + 1, "0")
    whole, after = digits[:-places], digits[-places:].rstrip("0")
    return f"{sign}{whole}.{after}" if after else f"{sign}{whole}"
