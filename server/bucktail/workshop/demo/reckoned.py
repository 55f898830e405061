"""What the demo's builder reckoned: pieces wanted, a line whose stack changes, and sums kept."""

from __future__ import annotations

import random
from collections.abc import Iterator
from typing import Any

from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.rulebook import version
from bucktail.sync.judging import kept_answer
from bucktail.workshop.demo.stock import length
from bucktail.workshop.demo.year import BUILDER, Entry, evening, rows_of

MINUTE = 60_000
SHIMMED = "line Left skin to rear spar"
FASTENER = {"kind": "rivet", "text": "MS20426AD3"}
SKIN = ("TP-01-L", ".025", "dimple")
SHIM = ("wanted shim", ".032", "dimple")
SPAR = ("TP-03", ".032", "dimple")


def answered(name: str, inputs: dict[str, str]) -> dict[str, Any]:
    """The answer to a sum, in inches. Raises ValueError where it cannot be reckoned."""
    answer = reckon(name, inputs, "in")
    if isinstance(answer, Unread):
        raise ValueError(f"{name}: {answer.sentence}")
    return answer


def pieces(end: int, draw: random.Random) -> Iterator[Entry]:
    """Every piece of the list, wanted some days before the end; some are made by now."""
    for row in rows_of("wanted"):
        about, at = f"wanted {row['key']}", evening(end, int(row["days"]), draw)
        body: dict[str, Any] = {
            key: row[key] for key in ("what", "name", "why", "alloy", "temper", "clad", "grain")
        }
        body |= {key: length(row[key]) for key in ("thickness", "a", "b")}
        body |= {"count": int(row["count"]), "holes": int(row["holes"])}
        body |= {"for_parts": row["for"].split("|"), "lines": []}
        if row["lines"]:
            body["lines"] = [f"line {row['lines']}"]
        if row["bend"]:
            place, angle, radius = row["bend"].split(":")
            bend = {"at": length(place), "angle": int(angle), "radius": length(radius)}
            body["bends"] = [bend]
        yield Entry(at, BUILDER, "piece.wanted.v1", about, body)
        if row["met"]:
            yield Entry(at + 90 * MINUTE, BUILDER, "piece.met.v1", about, {"part": row["met"]})
        if row["key"] == "shim":
            yield from shimmed(at + 10 * MINUTE)


def shimmed(at: int) -> Iterator[Entry]:
    """The shim joins a line: its rivets there get longer, which nobody has confirmed yet."""
    stacks = [[SKIN, SPAR], [SKIN, SHIM, SPAR], [SKIN, SPAR]]
    was = _stack(stacks[0])
    inputs = {"stack": _stack(stacks[1]), "diameter": "3/32", "head": "flush", "was": was}
    longer = answered("rivet", inputs)
    before = round(2 * longer["was_dash"])
    segments = [
        {
            "name": name,
            "count": count,
            "layers": [
                {"part": part, "thickness": length(thick), "treat": treat}
                for part, thick, treat in stack
            ],
            "fastener": FASTENER,
            "dash": before if stack is not stacks[1] else round(2 * longer["dash"]),
            "was_dash": None if stack is not stacks[1] else before,
            "confirmed": stack is not stacks[1],
        }
        for stack, name, count in zip(
            stacks, ("inboard", "over the shim", "outboard"), (64, 12, 88), strict=True
        )
    ]
    yield kept(at, SHIMMED, "rivet", inputs, "Over the shim.")
    yield Entry(at + MINUTE, BUILDER, "line.segments.v1", SHIMMED, {"segments": segments})
    edge = {"edge": "3/16", "diameter": "1/8"}
    yield kept(at + 2 * MINUTE, "TP-08", "edge", edge, "Upper left corner.")


def kept(at: int, about: str, name: str, inputs: dict[str, str], note: str) -> Entry:
    """A sum kept with a thing, with the answer that these rules give."""
    body = {
        "sum": name,
        "inputs": inputs,
        "unit": "in",
        "rulebook": version(),
        "answer": kept_answer(answered(name, inputs)),
        "note": note,
    }
    return Entry(at, BUILDER, "sum.kept.v1", about, body)


def _stack(layers: list[tuple[str, str, str]]) -> str:
    return ",".join(thick for _, thick, _ in layers)
