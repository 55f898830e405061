"""The demo's leftover stock."""

from __future__ import annotations

import random
from collections.abc import Iterator
from typing import Any

from bucktail.offcuts.cutting import NM2_PER_UM2, cut_rectangle, is_useful
from bucktail.rules.lengths import Length, read_length
from bucktail.workshop.demo.year import BUILDER, DAY, Entry, evening, rows_of

#: The offcut of the list that is left of a sheet which was cut, how long ago, and that sheet.
LEFT, CUT_DAYS = 37, 62
WHOLE = "offcut whole"


def length(text: str) -> dict[str, Any]:
    """A length as it is recorded. Raises ValueError where the list holds an unreadable one."""
    read = read_length(text, "in")
    if not isinstance(read, Length):
        raise ValueError(f"{text}: {read.sentence}")
    return {"nm": read.nm, "text": text}


def offcuts(end: int, draw: random.Random) -> Iterator[Entry]:
    """Every offcut of the list, entered over the year and put in its place."""
    for i, row in enumerate(rows_of("offcuts")):
        at, about = evening(end, draw.randrange(5, 370), draw), f"offcut {i}"
        body: dict[str, Any] = {
            "alloy": row["alloy"] or None,
            "temper": row["temper"] or None,
            "clad": row["clad"],
            "form": "sheet",
            "thickness": length(row["thickness"]),
            "measured": row["measured"],
            "known_by": row["known_by"],
            "shape": shape(row),
            "grain": row["grain"],
        }
        if i == LEFT:
            at = end - CUT_DAYS * DAY
            yield from cut_apart(at, about, body, row["place"])
            body = {**body, "parent": WHOLE}
        yield Entry(at, BUILDER, "offcut.added.v1", about, body)
        yield Entry(at + 1, BUILDER, "tag.attached.v1", about, {"on": "metal"})
        yield Entry(at + 2, BUILDER, "thing.moved.v1", about, {"to": row["place"]})
        if i == 3:
            kept_for = {"text": "spar doublers, tailplane"}
            yield Entry(end - 3 * DAY, BUILDER, "offcut.reserved.v1", about, kept_for)


def shape(row: dict[str, str]) -> dict[str, Any]:
    """The sheet as a phone records it: two sides, or one with a corner off or a cut-out in it."""
    a, b = length(row["a"]), length(row["b"])
    if not row["off"] and not row["keep"]:
        return {"kind": "rectangle", "a": a, "b": b}
    texts = {"a": row["a"], "b": row["b"], "unit": "in"}
    outer, holes = [[0, 0], [a["nm"], 0], [a["nm"], b["nm"]], [0, b["nm"]]], []
    if row["off"]:
        along, down = (length(text) for text in row["off"].split(" x "))
        outer[2:3] = [[a["nm"], b["nm"] - down["nm"]], [a["nm"] - along["nm"], b["nm"]]]
        texts |= {"off 1": "top right", "off 1 a": along["text"], "off 1 b": down["text"]}
    if row["keep"]:
        x, y, wide, high = (length(text)["nm"] for text in row["keep"].split(" x "))
        holes = [[[x, y], [x, y + high], [x + wide, y + high], [x + wide, y]]]
        names = ("x", "y", "width", "height")
        texts["keep 1"] = "square left bottom"
        texts |= {
            f"keep 1 {name}": text
            for name, text in zip(names, row["keep"].split(" x "), strict=True)
        }
    way = "corner off" if row["off"] else "keep-outs"
    entered = {"way": way, "texts": texts}
    return {"kind": "outline", "outer": outer, "holes": holes, "entered": entered}


def cut_apart(at: int, left: str, body: dict[str, Any], place: str) -> Iterator[Entry]:
    """A larger sheet, and the cut that made the root doubler of it and left this offcut."""
    wide, high = length("2.75 in"), length("4 in")
    b = body["shape"]["b"]
    a = length("20.75 in")
    blank = (0, 0, wide["nm"], high["nm"])
    leaves = cut_rectangle(a["nm"], b["nm"], [blank])
    strip = next(one for one in leaves.remnants if not is_useful(one, b["nm"]))
    corners = [[0, 0], [wide["nm"], 0], [wide["nm"], high["nm"]], [0, high["nm"]]]
    whole = {**body, "shape": {"kind": "rectangle", "a": a, "b": b}}
    yield Entry(at - 200 * DAY, BUILDER, "offcut.added.v1", WHOLE, whole)
    yield Entry(at - 200 * DAY + 1, BUILDER, "thing.moved.v1", WHOLE, {"to": place})
    cut = {
        "made": [{"part": "EL-12-L", "name": "Root doubler", "outline": corners}],
        "remnants": [left],
        "kerf_nm": 0,
        "dust_um2": leaves.dust_um2,
        "recycled_um2": strip.doubled_nm2 // (2 * NM2_PER_UM2),
    }
    yield Entry(at + 3, BUILDER, "offcut.cut.v1", WHOLE, cut)


def sections(end: int, draw: random.Random) -> Iterator[Entry]:
    """Every length of angle, channel and tube, entered in the last months."""
    for i, row in enumerate(rows_of("sections")):
        at, about = evening(end, draw.randrange(5, 120), draw), f"section {i}"
        body: dict[str, Any] = {
            "alloy": row["alloy"],
            "temper": row["temper"],
            "clad": "unknown",
            "form": row["form"],
            "section": {
                "sides": [length(side) for side in row["sides"].split(" x ")],
                "hand": "none",
            },
            "thickness": length(row["wall"]),
            "measured": "bare",
            "known_by": row["known_by"],
            "shape": {
                "kind": "length",
                "length": length(row["length"]),
                "square_ends": int(row["square_ends"]),
            },
            "grain": "unknown",
        }
        yield Entry(at, BUILDER, "offcut.added.v1", about, body)
        yield Entry(at + 1, BUILDER, "tag.attached.v1", about, {"on": "tied"})
        yield Entry(at + 2, BUILDER, "thing.moved.v1", about, {"to": row["place"]})
