"""The fold: from the facts about one thing to its state. The phone runs the same (twins/fold.ts).

Plain fields are kept by *heads*: a value stands until someone who had seen it writes another.
Two values whose writers had not met are two different answers: the first to reach the
workshop's computer is shown, the other is kept beside it until a person writes again.
"""

from __future__ import annotations

from typing import Any

from bucktail.events.cuts import add_cuts
from bucktail.events.findings import add_decision
from bucktail.events.flags import make_flags, segment_flags
from bucktail.events.marks import line_wants, make_marks, part_wants
from bucktail.events.order import Fact, arrival_order, heads, saw, standing
from bucktail.events.strip import layers_along, make_strip, next_operation

State = dict[str, Any]

#: kind -> the field that takes the whole body, "field=key" where it takes one key of the body;
#: None where each key of the body is a field.
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
    "line.segments.v1": None,
    "offcut.reserved.v1": "reserved",
    "piece.wanted.v1": None,
    "piece.described.v1": None,
    "piece.met.v1": "met=part",
}
SORTS = {
    "part.added.v1": "part",
    "line.set.v1": "line",
    "place.added.v1": "place",
    "offcut.added.v1": "offcut",
    "tag.printed.v1": "tags",
    "finding.opened.v1": "finding",
    "piece.wanted.v1": "wanted",
}
#: A card shows this many of the sums kept with a thing, the latest; its facts hold them all.
MOST_SUMS = 50


def fold(facts: list[Fact]) -> State:
    """State of one thing from all facts about it, in any order. Unknown kinds change nothing."""
    told = [fact for fact in standing(facts) if "body" in fact]
    state: State = {"sort": "unknown", "answers": []}
    for fact in told:
        if state["sort"] == "unknown":
            state["sort"] = SORTS.get(fact["kind"], "unknown")
    stated = _fields(told, state)
    _happenings(told, state)
    if (state.get("shape") or {}).get("kind") == "outline":
        state["shape_from"] = stated["shape"]["id"]
    overdrawn = _pieces(told, state, stated.get("pieces"))
    _tags(told, state)
    _sums(told, state)
    if state["sort"] == "offcut":
        add_cuts(told, state)
    elif state["sort"] == "finding":
        add_decision(told, state)
    elif state["sort"] == "part":
        steps = state.get("steps") or {}
        wants, count = part_wants(steps), (steps.get("holes") or {}).get("count")
        _progress(told, state, wants, count, steps.get("window_h"))
        state["strip"] = make_strip(state["marks"])
        state["next"] = next_operation(state["strip"])
        state["flags"] += overdrawn
    elif state["sort"] == "line":
        line, segments = state["line"], state.get("segments", [])
        layers = layers_along(line, segments)
        wants = line_wants({**line, "layers": layers})
        _progress(told, state, wants, line.get("count"), None)
        state["strips"] = {
            layer["part"]: make_strip(state["marks"], layer["part"]) for layer in layers
        }
        waiting = [one for one in segments if not one["confirmed"]]
        state["unconfirmed"] = len(waiting)
        state["flags"] += segment_flags(told, state["marks"], waiting, stated.get("segments"))
    return state


def codes_of(facts: list[Fact]) -> set[str]:
    """The tag codes a thing answers to; the facts about its tags are enough."""
    state: State = {"answers": []}
    _tags([fact for fact in standing(facts) if "body" in fact], state)
    return {tag["code"] for tag in state["tags"]}


def _fields(told: list[Fact], state: State) -> dict[str, Fact]:
    """Field values by heads, and the answers that differ. Returns field -> the fact shown."""
    claims: dict[str, list[Fact]] = {}
    values: dict[tuple[str, str], Any] = {}
    for fact in told:
        if fact["kind"] not in FIELD_KINDS:
            continue
        for name, value in _said(fact).items():
            claims.setdefault(name, []).append(fact)
            values[name, fact["id"]] = value
    stated = {}
    for name in sorted(claims):
        ranked = sorted(heads(claims[name]), key=arrival_order)
        found = [{"event": f["id"], "by": f["by"], "value": values[name, f["id"]]} for f in ranked]
        stated[name], state[name] = ranked[0], found[0]["value"]
        if any(one["value"] != state[name] for one in found):
            state["answers"].append({"about": name, "values": found})
    return stated


def _said(fact: Fact) -> dict[str, Any]:
    """Field -> the value that a fact of FIELD_KINDS gives it."""
    whole, _, key = (FIELD_KINDS[fact["kind"]] or "").partition("=")
    body: dict[str, Any] = fact["body"]
    return {whole: body[key] if key else body} if whole else body


def _happenings(told: list[Fact], state: State) -> None:
    """Moves, retirements and photos: the latest stands, nothing is refused."""
    state["place"], state["retired"], state["photos"] = None, None, []
    for fact in told:
        kind, body = fact["kind"], fact["body"]
        if kind == "thing.moved.v1":
            state["place"] = body["to"]
            state["moved"] = {"at": fact["at"], "by": fact["by"]}
        elif kind == "thing.retired.v1":
            state["retired"] = {**body, "at": fact["at"], "by": fact["by"]}
        elif kind == "photo.attached.v1":
            if not any(photo["photo"] == body["photo"] for photo in state["photos"]):
                state["photos"].append({**body, "at": fact["at"]})
        elif kind == "photo.removed.v1":
            state["photos"] = [p for p in state["photos"] if p["photo"] != body["photo"]]
        state["touched"] = fact["at"]


def _pieces(told: list[Fact], state: State, stated: Fact | None) -> list[dict[str, Any]]:
    """What is left in a bag: the number stated, less what was taken out unknown to its writer.

    Returns a flag where more was taken out than there was.
    """
    splits = [fact for fact in told if fact["kind"] == "part.split.v1"]
    splits = [fact for fact in splits if stated is None or not saw(stated, fact)]
    if not splits:
        return []
    out = sum(part["pieces"] for fact in splits for part in fact["body"]["into"])
    left = state.get("pieces", 1) - out
    state["pieces"] = max(0, left)
    flag = {"flag": "more taken out", "key": "pieces", "event": splits[-1]["id"]}
    return [flag] if left < 0 else []


def _tags(told: list[Fact], state: State) -> None:
    """Codes this thing answers to. A claim that lost stays an open answer until settled."""
    tags: dict[str, dict[str, Any]] = {}
    lost: dict[str, dict[str, Any]] = {}
    on: dict[str, str] = {}
    for fact in told:
        kind, body = fact["kind"], fact["body"]
        code = body.get("code")
        if kind == "tag.attached.v1":
            on[code] = body["on"]
            if "lost" in fact:
                values = [{"event": fact["id"], "by": fact["by"], "value": fact["lost"]}]
                lost[code] = {"about": "tag", "code": code, "values": values}
            else:
                lost.pop(code, None)
                tags[code] = {"code": code, "on": body["on"], "old": False}
        elif kind == "tag.replaced.v1" and body["old"] in tags:
            tags[body["old"]] = {**tags[body["old"]], "old": True}
        elif kind == "answer.settled.v1":
            lost.pop(code, None)
            if body["holds"]:
                tags[code] = {"code": code, "on": on.get(code, "metal"), "old": False}
            else:
                tags.pop(code, None)
    state["tags"] = [tags[code] for code in sorted(tags)]
    state["answers"] += [lost[code] for code in sorted(lost)]


def _sums(told: list[Fact], state: State) -> None:
    """The latest sums kept with this thing, and what the workshop's computer reckons otherwise."""
    kept = []
    for fact in told:
        if fact["kind"] != "sum.kept.v1":
            continue
        one = {**fact["body"], "event": fact["id"], "at": fact["at"], "by": fact["by"]}
        if "verdict" in one["answer"]:
            one["verdict"] = one["answer"]["verdict"]
        if "judged" in fact:
            one["judged"] = fact["judged"]
        kept.append(one)
    if kept:
        state["sums"] = kept[-MOST_SUMS:]


def _progress(
    told: list[Fact], state: State, wants: dict[str, str], count: int | None, window: int | None
) -> None:
    """Marks and flags of a part or a rivet line."""
    state["marks"] = make_marks(told, wants, count, state.get("pieces") or 1)
    state["flags"] = make_flags(told, wants, state["marks"], window)
