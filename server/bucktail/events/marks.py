"""How far each operation is: one mark per operation and target, from the facts about a thing.

A target is a rivet line's layer and a side, where the operation has them; the key is
``op[:layer][:side]``. A record carries the absolute result. A mark falls back to "again" when
something that undoes it happened that its record had not seen, and to "look" when doing it
twice could cost the part and the facts do not settle whether it was done.
"""

from __future__ import annotations

from typing import Any

from bucktail.events.order import Fact, heads, reading_order, saw
from bucktail.parts.operations import SIDES, Operation, operations

Mark = dict[str, Any]
HOUR_MS = 3_600_000
RANK = {"look": 0, "todo": 1, "again": 2, "part": 3, "done": 4}


def keys_of(row: Operation, layer: str | None, sides: list[str] | None) -> list[str]:
    """The mark keys that one record speaks of."""
    stem = f"{row.op}:{layer}" if layer and row.scope.startswith("layer") else row.op
    return [f"{stem}:{side}" for side in sides or SIDES] if row.sided else [stem]


def part_wants(steps: dict[str, Any] | None) -> dict[str, str]:
    """What a part's steps ask: key -> do, not or bare. A face may differ from its operation."""
    asked = (steps or {}).get("ops", {})
    holes = (steps or {}).get("holes", {})
    wants = {}
    for row in operations():
        word = asked.get(row.op, "not")
        if row.on_holes and holes.get("count") == 0:
            word = "not"
        if row.op == "drill" and holes.get("supplied") == "final":
            word = "not"
        for key in keys_of(row, None, None):
            wants[key] = asked.get(key, word)
    return wants


def line_wants(line: dict[str, Any]) -> dict[str, str]:
    """What a rivet line asks of its layers, from how each layer is treated."""
    final = line.get("supplied") == "final"
    wants = {}
    for row in operations():
        if row.scope == "line":
            word = "not" if final and row.op in ("fit", "drill") else "do"
            wants[row.op] = word
        elif row.scope.startswith("layer"):
            for layer in line.get("layers", []):
                treated = row.op == "deburr" or row.op == layer["treat"]
                for key in keys_of(row, layer["part"], None):
                    wants[key] = "do" if treated else "not"
    return wants


def _undoings(row: Operation, facts: list[Fact]) -> list[Fact]:
    """Facts that set this operation back: changes of the metal, or other operations done."""
    found = []
    for fact in facts:
        body = fact["body"]
        if fact["kind"] == "metal.changed.v1":
            word = body["change"]
        elif fact["kind"] == "step.recorded.v1" and body["result"] != "none":
            word = body["op"]
        else:
            continue
        if word in row.undone_by:
            found.append(fact)
    return found


def _worth(record: Fact, row: Operation, undoings: list[Fact], count: int | None) -> Mark:
    """One record's result, set back by every undoing that it had not seen."""
    body = record["body"]
    of = body["of"] if body.get("of") is not None else count
    left_open = sum(hole["n"] for hole in body.get("open") or [])
    done, result, word = body.get("done"), body["result"], "part"
    if result == "all":
        done, word = (None if of is None else max(0, of - left_open)), "done"
    elif result == "none":
        done, word = 0, "todo"
    for fact in undoings:
        if word == "todo" or saw(record, fact):
            continue
        change, k = fact["body"].get("change"), fact["body"].get("holes")
        word = "look" if word == "look" else "again"
        if row.harmful and (change == "holes enlarged" or k is None):
            word = "look"
        elif change == "holes added" and k is not None and of is not None:
            of += k
        elif change == "holes enlarged" and k is not None and done is not None:
            done = max(0, done - k)
        elif change in ("holes added", "holes enlarged"):
            done = 0
    return {
        "is": word,
        "done": done,
        "of": of,
        "open": left_open,
        "at": record["at"],
        "by": record["by"],
        "event": record["id"],
    }


def _mark(row: Operation, records: list[Fact], undoings: list[Fact], count: int | None) -> Mark:
    """The mark of one key: the least prepared of the records that still stand."""
    left = heads(records)
    worths = [_worth(record, row, undoings, count) for record in left]
    worths.sort(key=lambda w: (RANK[w["is"]], -1 if w["done"] is None else w["done"], w["event"]))
    mark = worths[0]
    mark["doubt"] = len({(w["is"], w["done"]) for w in worths}) > 1
    if row.harmful and len(left) > 1 and worths[-1]["is"] != "todo":
        mark["is"] = "look"
    return mark


def make_marks(
    facts: list[Fact], wants: dict[str, str], count: int | None, pieces: int
) -> dict[str, Mark]:
    """All marks: key -> {is, want, done, of, open, at, by, event, doubt}, keys in table order.

    `count` is the number of holes (None unknown), `pieces` the number of pieces in a bag.
    """
    marks: dict[str, Mark] = {}
    for row in operations():
        records: dict[str, list[Fact]] = {k: [] for k in wants if k.split(":")[0] == row.op}
        for fact in facts:
            body = fact["body"]
            if fact["kind"] == "step.recorded.v1" and body["op"] == row.op:
                for key in keys_of(row, body.get("layer"), body.get("sides")):
                    records.setdefault(key, []).append(fact)
        undoings = _undoings(row, facts)
        whole = count if row.on_holes else (pieces if pieces > 1 else None)
        for key, told in records.items():
            want = wants.get(key, "not")
            if told:
                marks[key] = {"want": want, **_mark(row, told, undoings, whole)}
            else:
                marks[key] = {"want": want, "is": "todo", "done": None, "of": whole, "open": 0}
            if want != "do" and marks[key]["is"] == "todo":
                marks[key]["is"] = want
            elif want == "bare":
                marks[key]["is"] = "bare"
    return marks


def make_flags(
    facts: list[Fact], marks: dict[str, Mark], window_h: int | None
) -> list[dict[str, Any]]:
    """What a person should look at: out of order, kept bare yet worked on, doubts, lapses."""
    flags: list[dict[str, Any]] = []
    first = _first_progress(facts)
    for row in operations():
        for key, mark in marks.items():
            if key.split(":")[0] != row.op or "event" not in mark:
                continue
            if mark["want"] == "bare":
                flags.append({"flag": "keep bare", "key": key, "event": mark["event"]})
            if mark["doubt"]:
                flags.append({"flag": "two records", "key": key, "event": mark["event"]})
            if mark["is"] not in ("done", "part"):
                continue
            flags += _out_of_order(row, key, mark, marks, first)
            cleaned = marks.get(key.replace("prime", "clean", 1), mark)
            if row.op == "prime" and window_h and "at" in cleaned:
                if mark["at"] - cleaned["at"] > window_h * HOUR_MS:
                    flags.append({"flag": "clean lapsed", "key": key, "event": mark["event"]})
    return flags + _metal_flags(facts)


def _first_progress(facts: list[Fact]) -> dict[str, Fact]:
    """Operation -> the first record that says something of it was done."""
    first: dict[str, Fact] = {}
    for fact in facts:
        if fact["kind"] == "step.recorded.v1" and fact["body"]["result"] != "none":
            first.setdefault(fact["body"]["op"], fact)
    return first


def _out_of_order(
    row: Operation, key: str, mark: Mark, marks: dict[str, Mark], first: dict[str, Fact]
) -> list[dict[str, Any]]:
    """Flags for operations that should have come before this one and, by the record, did not."""
    flags = []
    for before in row.after:
        asked = [m for k, m in marks.items() if k.split(":")[0] == before and m["want"] == "do"]
        if not asked:
            continue
        begun = first.get(before)
        late = begun is None or begun["at"] > mark["at"]
        unfinished = mark["is"] == "done" and any(m["is"] != "done" for m in asked)
        if late or unfinished:
            flags.append(
                {"flag": "out of order", "key": key, "needs": before, "event": mark["event"]}
            )
    return flags


def _metal_flags(facts: list[Fact]) -> list[dict[str, Any]]:
    """Forming after drilling, and the same change told twice by two who had not met."""
    flags = []
    drilled = formed = None
    for fact in facts:
        if fact["kind"] == "step.recorded.v1" and fact["body"]["result"] != "none":
            if fact["body"]["op"] == "drill":
                drilled, formed = fact, None
            elif fact["body"]["op"] == "form" and drilled:
                formed = fact
    if formed:
        flags.append({"flag": "check hole match", "key": "form", "event": formed["id"]})
    for change in ("trimmed", "holes enlarged"):
        told = [f for f in facts if f["kind"] == "metal.changed.v1"]
        told = heads([f for f in told if f["body"]["change"] == change])
        if len(told) > 1:
            event = min(told, key=reading_order)["id"]
            flags.append({"flag": "look", "key": change, "event": event})
    return flags
