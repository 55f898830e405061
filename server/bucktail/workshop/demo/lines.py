"""The demo's rivet lines: joints that go through several parts."""

from __future__ import annotations

import random
from collections.abc import Iterator
from typing import Any

from bucktail.parts.operations import operations
from bucktail.workshop.demo.year import BUILDER, HOUR, SEASONS, Entry, evening, rows_of


def rivet_lines(end: int, draw: random.Random) -> Iterator[Entry]:
    """Every line, set at the end of its assembly's season and worked on as far as it got."""
    for row in rows_of("lines"):
        _, last = SEASONS[row["assembly"]]
        at, about = evening(end, last + 2, draw), f"line {row['name']}"
        layers = [layer.split(":") for layer in row["layers"].split("|")]
        holes, _, fills = row["open"].partition(":")
        body: dict[str, Any] = {
            "name": row["name"],
            "assembly": row["assembly"],
            "count": int(row["count"]),
            "supplied": row["supplied"],
            "head": row["head"],
            "fastener": {"kind": "rivet", "text": row["fastener"]},
            "layers": [{"part": part, "thickness": None, "treat": treat} for part, treat in layers],
            "open": [{"n": int(holes), "fills": fills}] if holes else [],
        }
        yield Entry(at, BUILDER, "line.set.v1", about, body)
        for i, op in enumerate(word for word in row["done"].split("|") if word):
            scope = {one.op: one.scope for one in operations()}[op]
            targets = [part for part, _ in layers] if scope.startswith("layer") else [None]
            for part in targets:
                step = {"op": op, "result": "all", "done": None, "of": None, "layer": part}
                yield Entry(at + (i + 1) * HOUR // 4, BUILDER, "step.recorded.v1", about, step)
