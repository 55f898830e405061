"""The operations table: what is done to a part, at which scope, after what, and what undoes it."""

from __future__ import annotations

import csv
from dataclasses import asdict, dataclass
from functools import cache
from importlib.resources import files

SIDES = ("inside", "outside")
CHANGES = ("trimmed", "holes added", "holes enlarged", "touched")
SCOPES = ("part", "face", "line", "layer", "layer-side")


@dataclass(frozen=True)
class Operation:
    """One row of operations.csv. `after` names operations, `undone_by` operations or changes."""

    op: str
    name: str
    done_word: str
    letter: str
    scope: str
    after: tuple[str, ...]
    undone_by: tuple[str, ...]
    harmful: bool

    @property
    def sided(self) -> bool:
        """True where each side (inside, outside) is recorded by itself."""
        return self.scope in ("face", "layer-side")

    @property
    def on_holes(self) -> bool:
        """True where the operation is done on the holes of a rivet line."""
        return self.scope in ("line", "layer", "layer-side")


def _words(cell: str) -> tuple[str, ...]:
    return tuple(word for word in cell.split("|") if word)


@cache
def operations() -> tuple[Operation, ...]:
    """All operations in working order. Raises ValueError for a row that names an unknown word."""
    text = files("bucktail.parts").joinpath("operations.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    table = tuple(
        Operation(
            op=row["op"],
            name=row["name"],
            done_word=row["done_word"],
            letter=row["letter"],
            scope=row["scope"],
            after=_words(row["after"]),
            undone_by=_words(row["undone_by"]),
            harmful=row["harmful"] == "yes",
        )
        for row in rows
    )
    names = {row.op for row in table}
    for row in table:
        unknown = (set(row.after) - names) | (set(row.undone_by) - names - set(CHANGES))
        if unknown or row.scope not in SCOPES:
            raise ValueError(f"operations.csv, {row.op}: unknown {sorted(unknown) or row.scope}")
    return table


def for_phone() -> list[dict[str, object]]:
    """The table as the phone gets it (written by scripts/generate)."""
    return [asdict(row) | {"sided": row.sided, "on_holes": row.on_holes} for row in operations()]
