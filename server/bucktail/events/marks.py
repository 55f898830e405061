"""How far each operation is: one mark per operation and target, from the facts about a thing.

A target is a rivet line's layer and a side, where the operation has them; the key is
``op[:layer][:side]``. A record carries the absolute result. A mark falls back to "again" when
something that undoes it happened that its record had not seen, and to "look" when doing it
twice could cost the part and the facts do not settle whether it was done. Holes added to a
countersunk line are not in doubt: they are the ones that are not countersunk, so that is "part".
"""

from __future__ import annotations

from typing import Any

from bucktail.events.order import Fact, heads, saw
from bucktail.parts.operations import SIDES, Operation, operations

Mark = dict[str, Any]
Records = dict[str, list[Fact]]
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
        struck = row.on_holes and holes.get("count") == 0
        struck = struck or (row.op == "drill" and holes.get("supplied") == "final")
        for key in keys_of(row, None, None):
            wants[key] = "not" if struck else asked.get(key, asked.get(row.op, "not"))
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
                    # a part folded round is two layers of the same line
                    wants[key] = "do" if treated or wants.get(key) == "do" else "not"
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
        if k == 0:
            continue
        if row.harmful and (change != "holes added" or k is None):
            word = "look"
        elif word != "look":
            word = "part" if row.harmful else "again"
        if not row.on_holes:
            continue
        if change == "holes added" and k is not None:
            of = None if of is None else of + k
        elif change == "holes enlarged" and k is not None:
            done = None if done is None else max(0, done - k)
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


def _mark(row: Operation, left: list[Fact], undoings: list[Fact], count: int | None) -> Mark:
    """The mark of one key: the least prepared of the records that still stand."""
    worths = [_worth(record, row, undoings, count) for record in left]
    worths.sort(key=lambda w: (RANK[w["is"]], -1 if w["done"] is None else w["done"], w["event"]))
    mark = worths[0]
    mark["doubt"] = len({(w["is"], w["done"]) for w in worths}) > 1
    if row.harmful and len(left) > 1 and worths[-1]["is"] != "todo":
        mark["is"], mark["doubt"] = "look", True
    return mark


def spoken_of(row: Operation, body: dict[str, Any], wants: dict[str, str]) -> list[str]:
    """The keys a record speaks of, in a thing that has these wants.

    A record without a layer on a rivet line speaks of every layer that asks for the operation.
    """
    layer, sides = body.get("layer"), body.get("sides")
    keys, plain = keys_of(row, layer, sides), keys_of(row, None, sides)
    if layer is not None and plain[0] in wants:
        return plain
    if layer is not None or plain[0] in wants or not row.scope.startswith("layer"):
        return keys
    asked = [key for key, want in wants.items() if key.startswith(row.op + ":") and want == "do"]
    of_sides = [key for key in asked if not row.sided or key.split(":")[-1] in (sides or SIDES)]
    return of_sides or keys


def make_records(facts: list[Fact], wants: dict[str, str]) -> Records:
    """Key -> the step records about it that still stand, in table order of the operations."""
    found: Records = {}
    for row in operations():
        told: Records = {key: [] for key in wants if key.split(":")[0] == row.op}
        for fact in facts:
            if fact["kind"] == "step.recorded.v1" and fact["body"]["op"] == row.op:
                for key in spoken_of(row, fact["body"], wants):
                    told.setdefault(key, []).append(fact)
        found.update({key: heads(records) for key, records in told.items()})
    return found


def make_marks(
    facts: list[Fact], wants: dict[str, str], count: int | None, pieces: int
) -> dict[str, Mark]:
    """All marks: key -> {is, want, done, of, open, at, by, event, doubt}, keys in table order.

    `count` is the number of holes (None unknown), `pieces` the number of pieces in a bag.
    """
    marks: dict[str, Mark] = {}
    records = make_records(facts, wants)
    for row in operations():
        undoings = _undoings(row, facts)
        whole = count if row.on_holes else (pieces if pieces > 1 else None)
        for key in [key for key in records if key.split(":")[0] == row.op]:
            want, told = wants.get(key, "not"), records[key]
            if told:
                marks[key] = {"want": want, **_mark(row, told, undoings, whole)}
            else:
                marks[key] = {"want": want, "is": "todo", "done": None, "of": whole, "open": 0}
            if want != "do" and marks[key]["is"] == "todo":
                marks[key]["is"] = want
            elif want == "bare":
                marks[key]["is"] = "bare"
    return marks
