"""The fold: from the facts about one thing to its state. The phone runs the same (twins/fold.ts).

Plain fields are kept by *heads*: a value stands until someone who had seen it writes another.
Two values whose writers had not met are two different answers: the first to reach the
workshop's computer is shown, the other is kept beside it until a person writes again.
"""

from __future__ import annotations

from typing import Any

from bucktail.events.marks import line_wants, make_flags, make_marks, part_wants
from bucktail.events.order import Fact, saw, standing
from bucktail.events.strip import make_strip, next_operation

State = dict[str, Any]

#: kind -> the field that takes the whole body; None where each key of the body is a field.
FIELD_KINDS: dict[str, str | None] = {
    "part.added.v1": None,
    "part.described.v1": None,
    "place.added.v1": None,
    "place.described.v1": None,
    "offcut.added.v1": None,
    "offcut.described.v1": None,
    "finding.opened.v1": None,
    "tag.printed.v1": None,
    "steps.set.v1": "steps",
    "line.set.v1": "line",
    "offcut.reserved.v1": "reserved",
}
SORTS = {
    "part.added.v1": "part",
    "line.set.v1": "line",
    "place.added.v1": "place",
    "offcut.added.v1": "offcut",
    "tag.printed.v1": "tags",
    "finding.opened.v1": "finding",
}


def fold(facts: list[Fact]) -> State:
    """State of one thing from all facts about it, in any order. Unknown kinds change nothing."""
    told = [fact for fact in standing(facts) if "body" in fact]
    state: State = {"sort": "unknown", "answers": []}
    for fact in told:
        if state["sort"] == "unknown":
            state["sort"] = SORTS.get(fact["kind"], "unknown")
    _fields(told, state)
    _happenings(told, state)
    _tags(told, state)
    if state["sort"] == "part":
        steps = state.get("steps") or {}
        wants, count = part_wants(steps), (steps.get("holes") or {}).get("count")
        _progress(told, state, wants, count, steps.get("window_h"))
        state["strip"] = make_strip(state["marks"])
        state["next"] = next_operation(state["strip"])
    elif state["sort"] == "line":
        line = state["line"]
        _progress(told, state, line_wants(line), line.get("count"), None)
        state["strips"] = {
            layer["part"]: make_strip(state["marks"], layer["part"]) for layer in line["layers"]
        }
    return state


def _fields(told: list[Fact], state: State) -> None:
    """Field values by heads, and the answers that differ."""
    claims: dict[str, list[tuple[Fact, Any]]] = {}
    for fact in told:
        if fact["kind"] not in FIELD_KINDS:
            continue
        whole = FIELD_KINDS[fact["kind"]]
        for name, value in ({whole: fact["body"]} if whole else fact["body"]).items():
            older = [claim for claim in claims.get(name, []) if not saw(fact, claim[0])]
            claims[name] = [*older, (fact, value)]
    for name in sorted(claims):
        ranked = sorted(claims[name], key=_first_to_reach)
        shown = ranked[0][1]
        state[name] = shown
        if any(value != shown for _, value in ranked):
            values = [{"event": f["id"], "by": f["by"], "value": v} for f, v in ranked]
            state["answers"].append({"about": name, "values": values})


def _first_to_reach(claim: tuple[Fact, Any]) -> tuple[bool, int]:
    """Sort key: what the workshop's computer received first, the phone's own unsent last."""
    position = claim[0]["pos"]
    return (position is None, position if position is not None else claim[0]["seq"])


def _happenings(told: list[Fact], state: State) -> None:
    """Moves, retirements, splits and photos: the latest stands, nothing is refused."""
    state["place"], state["retired"], state["photos"] = None, None, []
    for fact in told:
        kind, body = fact["kind"], fact["body"]
        if kind == "thing.moved.v1":
            state["place"] = body["to"]
            state["moved"] = {"at": fact["at"], "by": fact["by"]}
        elif kind == "thing.retired.v1":
            state["retired"] = {**body, "at": fact["at"], "by": fact["by"]}
        elif kind == "part.split.v1":
            state["pieces"] = state.get("pieces", 1) - sum(part["pieces"] for part in body["into"])
        elif kind == "photo.attached.v1":
            if not any(photo["photo"] == body["photo"] for photo in state["photos"]):
                state["photos"].append({**body, "at": fact["at"]})
        elif kind == "photo.removed.v1":
            state["photos"] = [p for p in state["photos"] if p["photo"] != body["photo"]]
        state["touched"] = fact["at"]


def _tags(told: list[Fact], state: State) -> None:
    """Codes this thing answers to. A claim that lost stays an open answer until settled."""
    tags: dict[str, dict[str, Any]] = {}
    lost: dict[str, dict[str, Any]] = {}
    fixed: dict[str, str] = {}  # how each was last said to be fixed, claims that lost included
    for fact in told:
        kind, body = fact["kind"], fact["body"]
        if kind == "tag.attached.v1":
            fixed[body["code"]] = body["on"]
            if "lost" in fact:
                values = [{"event": fact["id"], "by": fact["by"], "value": fact["lost"]}]
                lost[body["code"]] = {"about": "tag", "code": body["code"], "values": values}
            else:
                tags[body["code"]] = {"code": body["code"], "on": body["on"], "old": False}
        elif kind == "tag.replaced.v1" and body["old"] in tags:
            tags[body["old"]] = {**tags[body["old"]], "old": True}
        elif kind == "answer.settled.v1":
            lost.pop(body["code"], None)
            if body["holds"]:
                on = fixed.get(body["code"], "metal")
                tags[body["code"]] = {"code": body["code"], "on": on, "old": False}
            else:
                tags.pop(body["code"], None)
    state["tags"] = [tags[code] for code in sorted(tags)]
    state["answers"] += [lost[code] for code in sorted(lost)]


def _progress(
    told: list[Fact], state: State, wants: dict[str, str], count: int | None, window: int | None
) -> None:
    """Marks and flags of a part or a rivet line."""
    state["marks"] = make_marks(told, wants, count, state.get("pieces") or 1)
    state["flags"] = make_flags(told, state["marks"], window)
