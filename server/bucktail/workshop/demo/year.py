"""The invented year: what was done when, by whom, written as two phones would have written it.

Everything is drawn from one seed, so two demo workshops differ only in their ids and in the day
on which the year ends.
"""

from __future__ import annotations

import csv
import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from importlib.resources import files
from typing import Any

from bucktail.parts.operations import operations
from bucktail.parts.templates import templates

DAY = 86_400_000
HOUR = 3_600_000
BUILDER, FRIEND = "builder", "friend"

#: How many days before the end an assembly was begun, and was last worked on.
SEASONS = {"rudder": (372, 236), "tailplane": (228, 4), "lelev": (118, 2), "relev": (33, 1)}

#: Stage of a part -> the last operation done. A stage may end with "-part": that one partly.
STAGES = {
    "new": "",
    "film": "film",
    "edged": "edges",
    "fitted": "fit",
    "drilled": "drill",
    "deburred": "deburr",
    "dimpled": "countersink",
    "cleaned": "clean",
    "primed": "prime",
    "riveted": "rivet",
    "again": "deburr",
    "look": "deburr",
    "two-names": "deburr",
}


@dataclass(frozen=True)
class Entry:
    """One thing that was written: when (UTC ms), by whom, about what (a key of this module).

    `blind` entries were written by someone whose phone had not met the one before.
    """

    at: int
    who: str
    kind: str
    about: str
    body: dict[str, Any] = field(default_factory=dict)
    blind: bool = False


def rows_of(name: str) -> list[dict[str, str]]:
    """The rows of one of the demo's lists."""
    text = files("bucktail.workshop.demo").joinpath(f"{name}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


def evening(end: int, days_ago: float, draw: random.Random) -> int:
    """A moment between six and ten in the evening, some days before the end (UTC ms)."""
    day = (end - int(days_ago) * DAY) // DAY * DAY
    return min(day + 18 * HOUR + draw.randrange(4 * HOUR), end - HOUR)


def needs(template: str, count: int) -> dict[str, Any]:
    """The body of a steps.set event for a template. Raises KeyError for an unknown one."""
    found = {one.template: one for one in templates()}[template]
    return {
        "template": found.template,
        "ops": dict(found.ops),
        "holes": {"count": count, "supplied": found.supplied},
        "open": [],
        "along_lines": found.along_lines,
        "final_after_dimple": False,
        "die": None,
        "window_h": found.window_h,
    }


def places(end: int) -> Iterator[Entry]:
    """The places, entered on the first evening."""
    start = end - 380 * DAY
    for i, row in enumerate(rows_of("places")):
        at = start + i * 60_000
        body = {"name": row["name"], "form": row["form"]}
        yield Entry(at, BUILDER, "place.added.v1", row["key"], body)
        if row["in"]:
            yield Entry(at + 1000, BUILDER, "thing.moved.v1", row["key"], {"to": row["in"]})


def part(row: dict[str, str], end: int, draw: random.Random) -> Iterator[Entry]:
    """One part: entered, told what it needs, put somewhere, and worked on as far as it got."""
    about, (first, last) = row["number"], SEASONS[row["assembly"]]
    at = evening(end, first + draw.randrange(6), draw)
    count = int(row["holes"])
    added: dict[str, Any] = {"name": row["name"], "number": row["number"]}
    added |= {
        "pieces": int(row["pieces"]),
        "hand": row["hand"] or None,
        "assembly": row["assembly"],
    }
    yield Entry(at, BUILDER, "part.added.v1", about, added)
    steps = needs(row["template"], count)
    if row["stage"] == "look":
        steps["ops"] |= {"dimple": "not", "countersink": "do"}
    yield Entry(at + 1, BUILDER, "steps.set.v1", about, steps)
    yield Entry(at + 2, BUILDER, "tag.attached.v1", about, {"on": _fixed(row)})
    yield Entry(at + 3, BUILDER, "thing.moved.v1", about, {"to": row["place"]})
    yield from _work(row, steps, end, draw, first - 6, last)


def _fixed(row: dict[str, str]) -> str:
    """How the tag is fixed: bags for handfuls, film on skins, else on the metal."""
    if int(row["pieces"]) > 1:
        return "bag"
    return "film" if row["stage"] == "new" else "metal"


def _work(
    row: dict[str, str],
    steps: dict[str, Any],
    end: int,
    draw: random.Random,
    first: int,
    last: int,
) -> Iterator[Entry]:
    stage = row["stage"].removesuffix("-part")
    names = [op.op for op in operations()]
    reached = names.index(STAGES[stage]) + 1 if STAGES[stage] else 0
    asked = [
        op
        for op in names[:reached]
        if "do" in (steps["ops"].get(op), steps["ops"].get(f"{op}:inside"))
    ]
    count, about = int(row["holes"]), row["number"]
    cleaned = 0
    for i, op in enumerate(asked):
        partly = row["stage"].endswith("-part") and i == len(asked) - 1
        days = first - (first - last) * (i + 1) / len(asked)
        who = FRIEND if draw.random() < 0.2 else BUILDER
        body: dict[str, Any] = {"op": op, "result": "some" if partly else "all"}
        body |= {"done": round(count * 0.7) if partly else None, "of": count if partly else None}
        if op == "prime":
            body |= {"coats": 1, "lot": f"batch {draw.randrange(3, 9)}"}
        at = evening(end, days, draw) + i * 60_000
        if op == "prime" and asked[i - 1] == "clean":
            at = cleaned + HOUR  # a clean face is primed the same evening
        cleaned = at
        yield Entry(at, who, "step.recorded.v1", about, body)
    yield from _trouble(row, end)


def _trouble(row: dict[str, str], end: int) -> Iterator[Entry]:
    """The few things that did not go smoothly."""
    about, at = row["number"], end - 2 * DAY + 19 * HOUR
    if row["stage"] == "again":
        body = {"change": "holes added", "holes": 4, "note": "Four more for the angle behind."}
        yield Entry(at, BUILDER, "metal.changed.v1", about, body)
    if row["stage"] == "look":
        body = {"op": "countersink", "result": "all", "done": None, "of": None}
        yield Entry(at, BUILDER, "step.recorded.v1", about, body)
        yield Entry(at + HOUR, FRIEND, "step.recorded.v1", about, body, blind=True)
    if row["stage"] == "two-names":
        yield Entry(at, BUILDER, "part.described.v1", about, {"name": "Tab front spar"})
        yield Entry(at + HOUR, FRIEND, "part.described.v1", about, {"name": "Trim tab spar"}, True)


def everything(end: int, seed: int = 20) -> list[Entry]:
    """All entries of places and parts in the order they were written; offcuts are in stock.py."""
    draw = random.Random(seed)
    entries = list(places(end))
    for row in rows_of("parts"):
        entries += part(row, end, draw)
    return sorted(entries, key=lambda entry: entry.at)
