"""Tables and constants as the rules reckon with them: exact numbers, lengths in nanometres."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from types import MappingProxyType
from typing import TypeAlias

from bucktail.rules.lengths import NM_PER_IN, NM_PER_MM
from bucktail.rules.sources import TableRefused, load_table

Cell: TypeAlias = Fraction | str | None

_NUMBER = re.compile(r"[0-9]*\.?[0-9]+(/[0-9]+)?")
_PER = {"_in": NM_PER_IN, "_mm": NM_PER_MM}
_NAMES = frozenset({"alloy"})  # 2024 is a name, not a number


@dataclass(frozen=True, slots=True)
class Cells:
    """A table for looking up: `columns` by their place, `rows` in printed order."""

    columns: Mapping[str, int]
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True)
class Book:
    """All tables and constants that rules may use. Tests hand in one with a changed cell."""

    tables: Mapping[str, Cells]
    constants: Mapping[str, Fraction]


def exact(text: str) -> Fraction:
    """A printed number: .0078, 1.5, 3/32. Raises TableRefused for anything else."""
    if not _NUMBER.fullmatch(text):
        raise TableRefused(f"{text!r} is not a number")
    above, _, below = text.partition("/")
    return Fraction(above) / Fraction(below or 1)


@cache
def cells(name: str) -> Cells:
    """The table `name`. Columns ending _in or _mm become nanometres; a column is of numbers where
    every cell that is not empty is one; alloy and temper together make a column `metal` (one of
    that name that the file has is `base_metal`)."""
    rows = load_table(name).rows
    names = list(rows[0])
    made = [_column(column, [row[column].strip() for row in rows]) for column in names]
    names = ["base_metal" if column == "metal" else column for column in names]
    if {"alloy", "temper"} <= set(names):
        made.append([f"{row['alloy']}-{row['temper']}" for row in rows])
        names.append("metal")
    columns = MappingProxyType({column: at for at, column in enumerate(names)})
    return Cells(columns, tuple(zip(*made, strict=True)))


def _column(name: str, texts: list[str]) -> list[Cell]:
    told = [text for text in texts if text]
    if name in _NAMES or not told or not all(_NUMBER.fullmatch(text) for text in told):
        return [text or None for text in texts]
    per = _PER.get(name[-3:], 1)
    return [exact(text) * per if text else None for text in texts]


@cache
def constants() -> Mapping[str, Fraction]:
    """Every single number the rules use, by name; those in inches as nanometres."""
    rows = load_table("constants").rows
    per = {"in": NM_PER_IN, "mm": NM_PER_MM}
    found = {row["name"]: exact(row["value"]) * per.get(row["unit"], 1) for row in rows}
    if len(found) != len(rows):
        raise TableRefused("table constants names a number twice")
    return MappingProxyType(found)
