"""The step strip: one letter per operation, in table order, for lists, filters and the drawing.

``-`` not needed, ``b`` keep bare, ``t`` to do, ``p`` partly, ``d`` done, ``a`` do again,
``l`` look at the part.
"""

from __future__ import annotations

from typing import Any

from bucktail.parts.operations import operations

LETTER = {"not": "-", "bare": "b", "todo": "t", "part": "p", "done": "d", "again": "a", "look": "l"}


def _one(words: list[str]) -> str:
    """The letter of one operation from the words of its targets: the least prepared speaks."""
    asked = [word for word in words if word not in ("not", "bare")]
    if not asked:
        return "b" if "bare" in words else "-"
    for word in ("look", "again", "part"):
        if word in asked:
            return LETTER[word]
    if "todo" in asked:
        return "p" if "done" in asked else "t"
    return "d"


def make_strip(marks: dict[str, Any], layer: str | None = None) -> str:
    """The strip of a part (layer None), or of one layer of a rivet line with the line's own."""
    letters = []
    for row in operations():
        words = []
        for key, mark in marks.items():
            names = key.split(":")
            mine = layer is None or row.scope == "line" or (len(names) > 1 and names[1] == layer)
            if names[0] == row.op and mine:
                words.append(mark["is"])
        letters.append(_one(words))
    return "".join(letters)


def join_strips(strips: list[str]) -> str:
    """A part's strip together with those of its layers in rivet lines: the least prepared."""
    word = {letter: name for name, letter in LETTER.items()}
    return "".join(
        _one([word[letter] for letter in column]) for column in zip(*strips, strict=True)
    )


def is_ready(strip: str, op: str) -> bool:
    """Whether this operation is open, in no doubt, and everything that comes first is done."""
    letter = {row.op: strip[i] for i, row in enumerate(operations())}
    after = next(row.after for row in operations() if row.op == op)
    return letter[op] in "tpa" and all(letter[before] in "db-" for before in after)


def look_at(strip: str) -> str:
    """The operation in doubt: someone has to look at the part before it goes on. Else empty."""
    return next((row.op for i, row in enumerate(operations()) if strip[i] == "l"), "")


def next_operation(strip: str) -> str:
    """The operation to offer next; empty when nothing is open or all is blocked.

    What has to be looked at is never offered, nor anything that comes later in the table.
    """
    for i, row in enumerate(operations()):
        if strip[i] == "l":
            return ""
        if is_ready(strip, row.op):
            return row.op
    return ""


def layers_along(line: dict[str, Any], segments: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """All layers of a rivet line: those of its own, and those of each of its segments."""
    found: list[dict[str, Any]] = [*line["layers"]]
    for segment in segments:
        found += segment["layers"]
    return found
