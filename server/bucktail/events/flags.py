"""What a person should look at: out of order, kept bare yet worked on, doubts, lapses."""

from __future__ import annotations

from typing import Any

from bucktail.events.marks import Mark, make_records, spoken_of
from bucktail.events.order import Fact, heads
from bucktail.parts.operations import Operation, operations

Flag = dict[str, Any]
HOUR_MS = 3_600_000


def make_flags(
    facts: list[Fact], wants: dict[str, str], marks: dict[str, Mark], window_h: int | None
) -> list[Flag]:
    """All flags, {flag, key, event} and where it applies {needs}, in table order."""
    flags: list[Flag] = []
    records, first = make_records(facts, wants), _first_progress(facts, wants)
    table = {row.op: row for row in operations()}
    for key, mark in marks.items():
        row = table[key.split(":")[0]]
        if "event" not in mark:
            continue
        if mark["want"] == "bare" and any(_progress(record) for record in records[key]):
            flags.append({"flag": "keep bare", "key": key, "event": mark["event"]})
        if mark["doubt"]:
            flags.append({"flag": "two records", "key": key, "event": mark["event"]})
        if mark["is"] not in ("done", "part"):
            continue
        flags += _out_of_order(row, key, marks, first, table)
        cleaned = marks.get(key.replace("prime", "clean", 1), mark)
        late = mark["at"] - cleaned.get("at", mark["at"])
        if row.op == "prime" and window_h and late > window_h * HOUR_MS:
            flags.append({"flag": "clean lapsed", "key": key, "event": mark["event"]})
    return flags + _metal_flags(facts)


def segment_flags(
    told: list[Fact], marks: dict[str, Mark], waiting: list[dict[str, Any]], stated: Fact | None
) -> list[Flag]:
    """Flags of a rivet line whose rivets wait for someone to confirm their length.

    `waiting` are the segments not confirmed, `stated` is the fact they stand in. Riveting that was
    recorded while some waited is named too, until it is recorded again.
    """
    flags = []
    if waiting and stated:
        word = "rivet length not confirmed"
        flags.append({"flag": word, "key": "rivet", "event": stated["id"]})
    rivet, segments = marks["rivet"], []
    riveted = rivet.get("event") if rivet["is"] in ("done", "part") else None
    for fact in told:
        if fact["kind"] == "line.segments.v1":
            segments = fact["body"]["segments"]
        elif fact["id"] == riveted and not all(one["confirmed"] for one in segments):
            word = "riveted before confirmed"
            flags.append({"flag": word, "key": "rivet", "event": fact["id"]})
    return flags


def _progress(fact: Fact) -> bool:
    """Whether a fact says that something of an operation was done."""
    return bool(fact["kind"] == "step.recorded.v1" and fact["body"]["result"] != "none")


def _first_progress(facts: list[Fact], wants: dict[str, str]) -> dict[str, int]:
    """Key -> when something of it was first done, whether or not that record still stands."""
    first: dict[str, int] = {}
    table = {row.op: row for row in operations()}
    for fact in filter(_progress, facts):
        for key in spoken_of(table[fact["body"]["op"]], fact["body"], wants):
            first.setdefault(key, fact["at"])
    return first


def _apart(key: str, row: Operation) -> tuple[str, str]:
    """The layer and the side in a key; "" where it has none."""
    names = key.split(":")
    side = names[-1] if row.sided else ""
    layered = row.scope.startswith("layer") and len(names) == (3 if row.sided else 2)
    return (names[1] if layered else "", side)


def _concerns(key: str, row: Operation, earlier: str, earlier_row: Operation) -> bool:
    """Whether one target has to wait for another: those of its own layer, and of its own face."""
    (layer, side), (other_layer, other_side) = _apart(key, row), _apart(earlier, earlier_row)
    if layer and other_layer and layer != other_layer:
        return False
    return not (row.scope == earlier_row.scope == "face" and side != other_side)


def _out_of_order(
    row: Operation,
    key: str,
    marks: dict[str, Mark],
    first: dict[str, int],
    table: dict[str, Operation],
) -> list[Flag]:
    """Flags for operations that should have come before this one and, by the record, did not."""
    flags = []
    mark = marks[key]
    for before in row.after:
        asked = [
            k
            for k, m in marks.items()
            if k.split(":")[0] == before
            and m["want"] == "do"
            and _concerns(key, row, k, table[before])
        ]
        if not asked:
            continue
        begun = min((first[k] for k in asked if k in first), default=None)
        late = begun is None or begun > mark["at"]
        unfinished = mark["is"] == "done" and any(marks[k]["is"] != "done" for k in asked)
        if late or unfinished:
            flags.append(
                {"flag": "out of order", "key": key, "needs": before, "event": mark["event"]}
            )
    return flags


def _metal_flags(facts: list[Fact]) -> list[Flag]:
    """Forming after drilling, and the same change told twice by two who had not met."""
    flags = []
    drilled, formed = False, None
    for fact in filter(_progress, facts):
        if fact["body"]["op"] == "drill":
            drilled, formed = True, None
        elif fact["body"]["op"] == "form" and drilled:
            formed = fact
    if formed:
        flags.append({"flag": "check hole match", "key": "form", "event": formed["id"]})
    for change in ("trimmed", "holes enlarged"):
        told = [f for f in facts if f["kind"] == "metal.changed.v1"]
        told = heads([f for f in told if f["body"]["change"] == change])
        if len(told) > 1:
            flags.append({"flag": "look", "key": change, "event": told[0]["id"]})
    return flags
