"""Templates of steps: what a part of a usual sort needs, as a first guess to be adjusted."""

from __future__ import annotations

import csv
from dataclasses import asdict, dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from bucktail.parts.operations import SIDES, Operation, operations

WANTS = ("do", "not", "bare")
SUPPLIED = ("none", "pilot", "final")


@dataclass(frozen=True)
class Template:
    """One row of templates.csv.

    `ops` is written as in a steps.set event: operation, or operation:side where the sides differ,
    -> do, not or bare. `together` holds groups of operations that one tap records. `window_h` is
    in hours.
    """

    template: str
    name: str
    text: str
    ops: dict[str, str]
    supplied: str
    along_lines: bool
    window_h: int
    together: tuple[tuple[str, ...], ...]


def _read_cell(row: Operation, cell: str) -> dict[str, str]:
    """`do`, or `inside do|outside not` -> keys of steps. Raises ValueError for another word."""
    if "|" not in cell:
        wants = {row.op: cell}
    elif row.sided:
        wants = {f"{row.op}:{side}": want for side, want in map(str.split, cell.split("|"))}
    else:
        raise ValueError(f"{row.op} has no sides: {cell!r}")
    keys = {row.op} if "|" not in cell else {f"{row.op}:{side}" for side in SIDES}
    if set(wants) != keys or not set(wants.values()) <= set(WANTS):
        raise ValueError(
            f"{row.op}: {cell!r} is not do, not or bare, for each side where it says so"
        )
    return wants


def _read(row: dict[str, str]) -> Template:
    key = row["template"]
    try:
        ops: dict[str, str] = {}
        for operation in operations():
            ops |= _read_cell(operation, row[operation.op])
        together = tuple(
            tuple(group.split("|")) for group in row["together"].split("/") if row["together"]
        )
        unknown = {op for group in together for op in group} - {one.op for one in operations()}
        if unknown or row["supplied"] not in SUPPLIED or row["along_lines"] not in ("yes", "no"):
            raise ValueError(f"unknown word in {sorted(unknown)}, supplied or along_lines")
        hours = int(row["window_h"])
    except ValueError as wrong:
        raise ValueError(f"templates.csv, {key}: {wrong}") from wrong
    along = row["along_lines"] == "yes"
    return Template(key, row["name"], row["text"], ops, row["supplied"], along, hours, together)


def read_templates(text: str) -> tuple[Template, ...]:
    """Templates from the text of a table. Raises ValueError naming the row that is wrong."""
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    table = tuple(_read(row) for row in rows)
    names = [one.template for one in table]
    twice = {name for name in names if names.count(name) > 1}
    if twice:
        raise ValueError(f"templates.csv: {sorted(twice)} stands there twice")
    return table


@cache
def templates() -> tuple[Template, ...]:
    """All templates, in the order they are offered."""
    return read_templates(
        files("bucktail.parts").joinpath("templates.csv").read_text(encoding="utf-8")
    )


def steps_for(template: str, count: int | None = None) -> dict[str, Any]:
    """The body of a steps.set event for a template as it stands; `count` holes, None uncounted.

    Raises KeyError for a template that is not in the table.
    """
    found = {one.template: one for one in templates()}[template]
    return {
        "template": template,
        "ops": dict(found.ops),
        "holes": {"count": count, "supplied": found.supplied},
        "open": [],
        "along_lines": found.along_lines,
        "final_after_dimple": False,
        "die": None,
        "window_h": found.window_h,
    }


def for_phone() -> list[dict[str, object]]:
    """The table as the phone gets it (written by scripts/generate)."""
    return [asdict(one) for one in templates()]
