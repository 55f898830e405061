"""The rulebook: every sum, table and constant together, as the phone gets it, and its version."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict
from fractions import Fraction
from functools import cache
from typing import Any

from bucktail.rules import (
    bends,
    diameters,
    flush,
    holes,
    layout,
    priming,
    radii,
    rivets,
    shop_heads,
    spacing,
    splices,
    substitution,
    upsizing,
    weights,
)
from bucktail.rules.cells import Book, Cell, Cells, cells, constants
from bucktail.rules.pieces import patch, section, shim, stiffener
from bucktail.rules.program import Program, number_json
from bucktail.rules.sums import Recorded, Sum, record

SUMS: tuple[Sum, ...] = (
    *rivets.SUMS,
    *spacing.SUMS,
    *flush.SUMS,
    *holes.SUMS,
    *diameters.SUMS,
    *shop_heads.SUMS,
    *layout.SUMS,
    *upsizing.SUMS,
    *splices.SUMS,
    *radii.SUMS,
    *bends.SUMS,
    *weights.SUMS,
    *priming.SUMS,
    *substitution.SUMS,
    *shim.SUMS,
    *section.SUMS,
    *patch.SUMS,
    *stiffener.SUMS,
)


def sum_named(name: str) -> Sum | None:
    """The sum of that name; None where there is none."""
    return next((one for one in SUMS if one.name == name), None)


@cache
def looked_up() -> tuple[str, ...]:
    """The names of all tables that a sum looks things up in, in order."""
    steps = [step for one in SUMS for step in record(one).program.steps]
    return tuple(sorted({step[1] for step in steps if step[0] == "lookup"}))


@cache
def book() -> Book:
    """The tables and constants that stand."""
    return Book({name: cells(name) for name in looked_up()}, constants())


@cache
def version() -> str:
    """The rulebook's version: the first twelve figures of a SHA-256 over all the phone gets."""
    return hashlib.sha256(canonical(contents()).encode()).hexdigest()[:12]


def canonical(value: Any) -> str:
    """JSON with sorted keys and no spaces."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


@cache
def contents() -> dict[str, Any]:
    """Everything but the version: constants, tables and sums as plain JSON."""
    standing = book()
    return {
        "constants": {key: number_json(value) for key, value in standing.constants.items()},
        "tables": {name: _table(table) for name, table in standing.tables.items()},
        "sums": [_sum(record(one)) for one in SUMS],
    }


def _table(table: Cells) -> dict[str, Any]:
    return {
        "columns": list(table.columns),
        "rows": [[_cell(cell) for cell in row] for row in table.rows],
    }


def _cell(cell: Cell) -> Any:
    return number_json(cell) if isinstance(cell, Fraction) else cell


def _sum(recorded: Recorded) -> dict[str, Any]:
    one = recorded.sum
    return {
        "name": one.name,
        "title": one.title,
        "question": one.question,
        "first": one.first,
        "piece": one.piece,
        "takes": [asdict(take) for take in one.takes],
        "gives": [{"key": gives.key, "label": gives.label} for gives in recorded.gives],
        "caution": recorded.caution,
        **_program(recorded.program),
    }


def _program(made: Program) -> dict[str, Any]:
    return {"steps": list(made.steps), "outputs": dict(made.outputs)}
