"""Small programs that go through every operation, with odd values, and what comes out."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from bucktail.rules.cells import Book, Cells
from bucktail.rules.evaluate import Value, run
from bucktail.rules.lengths import Unit
from bucktail.rules.program import number_json, program
from bucktail.rules.recording import (
    Operand,
    Term,
    anything,
    ceil_to,
    constant,
    everything,
    floor_to,
    given,
    given_as,
    how_many,
    joined,
    largest,
    lookup,
    round_to,
    running,
    same,
    say,
    sentences,
    smallest,
    tan_deg,
    total,
    value_at,
    where,
    without_first,
    without_last,
)

BOOK = Book(
    tables={
        "sizes": Cells(
            {"size": 0, "name": 1, "kind": 2},
            (
                (Fraction(3), "three", "a"),
                (Fraction(1), "one", "a"),
                (Fraction(5, 2), "two and a half", "b"),
                (None, "none", "a"),
                (Fraction(5), None, "b"),
            ),
        )
    },
    constants={"half": Fraction(1, 2)},
)
UNITS: tuple[Unit, ...] = ("in", "mm")
#: what is put in for a and b
VALUES: tuple[Value, ...] = (
    None,
    Fraction(0),
    Fraction(1),
    Fraction(-7, 2),
    Fraction(5, 2),
    Fraction(812_800),
    Fraction(10**12 + 1, 3),
    Fraction(90),
    "one",
    "",
    True,
    False,
    [],
    [Fraction(1)],
    [Fraction(3), Fraction(-1, 2)],
    [Fraction(3), None],
    [Fraction(1), Fraction(2), Fraction(3)],
    ["one", "two"],
)


def _outputs(a: Operand, b: Operand) -> dict[str, Operand]:
    def cell(column: str, **how: Any) -> Operand:
        return lookup("sizes", column, **how)

    slots: dict[str, tuple[str, Term]] = {"a": ("number", a), "b": ("word", b)}
    return {
        "add": a + b, "sub": a - b, "mul": a * b, "div": a / b, "half": a * constant("half"),
        "nothing": constant("not there"), "lt": a < b, "le": a <= b, "gt": a > b, "ge": a >= b,
        "and": (a < b) & (b < 3), "or": (a < b) | (b < 3), "not": ~(a < b), "same": same(a, b),
        "all": everything(a, b), "any": anything(a, b), "given": given(a),
        "where": where(a < b, a, b), "where list": where(a, 1, 2), "min": smallest(a, b, 2),
        "max": largest(a, b, -1), "tan": tan_deg(a), "ceil": ceil_to(a, b),
        "floor": floor_to(a, b), "round": round_to(a, b), "whole": round_to(a), "total": total(a),
        "running": running(a), "count": how_many(a), "joined": joined(a, b, 1),
        "first": without_first(a), "last": without_last(a), "second": value_at(a, 1),
        "up": cell("name", up=("size", a)), "down": cell("name", down=("size", a)),
        "exact": cell("size", exact={"name": b}), "in kind": cell("name", exact={"kind": "b"}),
        "near": cell("name", exact={"kind": "a"}, up=("size", a)),
        "empty": cell("name", exact={"size": 5}),
        "length": say("{a}", a=("length", a)), "thickness": say("{a}", a=("thickness", a)),
        "lengths": say("{a}", a=("lengths", a)), "thicknesses": say("{a}", a=("thicknesses", a)),
        "number": say("<{a}>", a=("number", a)), "words": say("{a}", a=("words", a)),
        "both": say("{a} of {b}, {a}", **slots),
        "sentences": sentences(
            None, say("{a}.", a=("word", a)), say("{b}.", b=("number", b)), "End."
        ),
    }  # fmt: skip


OUTPUTS = _outputs(given_as("a"), given_as("b"))
PROGRAM = program(OUTPUTS)


def answers(a: Value, b: Value, unit: Unit) -> dict[str, Value]:
    """What every output is for these values."""
    inputs: Mapping[str, Value] = {"a": a, "b": b}
    return run(PROGRAM, inputs, BOOK, unit)


def plain(value: Value) -> Any:
    """A value as JSON: numbers as {"n": "1/3"}, since JavaScript's own hold 15 figures only."""
    if isinstance(value, Fraction):
        return {"n": f"{value.numerator}/{value.denominator}"}
    return [plain(one) for one in value] if isinstance(value, list) else value


def vectors() -> dict[str, Any]:
    """The book, the program, and its outputs for a quarter of all pairs of values."""
    tables = {
        name: {
            "columns": list(table.columns),
            "rows": [[number_json(c) if isinstance(c, Fraction) else c for c in row]
                     for row in table.rows],
        }
        for name, table in BOOK.tables.items()
    }  # fmt: skip
    rows = []
    for at, a in enumerate(VALUES):
        for other, b in enumerate(VALUES):
            if (at + other) % 4 == 0:
                unit = UNITS[at % 2]
                gives = [plain(one) for one in answers(a, b, unit).values()]
                rows.append([plain(a), plain(b), unit, gives])
    constants = {name: number_json(value) for name, value in BOOK.constants.items()}
    return {
        "book": {"constants": constants, "tables": tables},
        "program": {"steps": list(PROGRAM.steps), "outputs": dict(PROGRAM.outputs)},
        "rows": rows,
    }
