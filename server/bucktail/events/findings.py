"""What was decided about a finding, and whether it is closed. The phone runs the same.

A finding is closed where its standing decision says what was done, a person or body is named as
having decided, and something shows it: a document named, or a photo that was put there by someone
who had seen the decision; one of the damage itself shows no repair. A closing that lacks any of
these is kept and changes nothing. Who had not met decides nothing over each other: where two
decisions differ none stands, and a closing whose writer had not seen the standing decision does
not count. Only what was no fault at all is closed without a decision.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from bucktail.events.order import Fact, arrival_order, heads, saw

DECIDED, CLOSED = "finding.decided.v1", "finding.closed.v1"
#: How a finding is closed -> the decision that this carries out.
CARRIES_OUT = {"repaired": "repair", "used as is": "use as is", "replaced": "replace"}
NO_FAULT = "no fault"
DECISIONS = (*CARRIES_OUT.values(), "ask the maker")


@dataclass(frozen=True, slots=True)
class Ground:
    """What a closing stands on: the decisions that stand, in order of arrival, and what shows."""

    decisions: list[Fact]
    photo: bool

    @property
    def differ(self) -> bool:
        """Two decisions by people who had not met, and not the same."""
        return any(fact["body"] != self.decisions[0]["body"] for fact in self.decisions)


def add_decision(told: list[Fact], state: dict[str, Any]) -> None:
    """Put `decided`, `closed` and `lacks` into the state of a finding.

    `lacks` is what a closing still wants: "decision" (none, one that only asks, or two that
    differ), "name" (who decided), "evidence". It is empty once the finding is closed.
    """
    ground = _ground(told, {photo["photo"] for photo in state["photos"]})
    last = ground.decisions[0] if ground.decisions else None
    if last:
        state["decided"] = {
            **last["body"],
            "event": last["id"],
            "at": last["at"],
            "written_by": last["by"],
        }
    if ground.differ:
        values = [{"event": f["id"], "by": f["by"], "value": f["body"]} for f in ground.decisions]
        state["answers"].append({"about": "decision", "values": values})
    asked = {"outcome": None, "decision": last and last["id"], "evidence": None}
    state["lacks"] = lacking(asked, ground)
    counting = None
    for fact in told:
        if fact["kind"] == CLOSED:
            wanting = lacking(fact["body"], ground, fact)
            counting = counting if wanting else fact
            state["lacks"] = wanting
    if counting:
        closed = {"event": counting["id"], "at": counting["at"], "by": counting["by"]}
        state["closed"], state["lacks"] = {**counting["body"], **closed}, []


def lacking(closing: dict[str, Any], ground: Ground, by: Fact | None = None) -> list[str]:
    """What a closing wants before it counts: one written as `by`, or one that would be written now.

    Its writer must have seen every decision that stands.
    """
    unseen = by is not None and not all(saw(by, fact) for fact in ground.decisions)
    if ground.differ or unseen:
        return ["decision"]
    if closing["outcome"] == NO_FAULT:
        return []
    standing = {fact["id"]: fact["body"] for fact in ground.decisions}
    made = standing.get(closing["decision"])
    carried = CARRIES_OUT.get(closing["outcome"])
    lacks = []
    if not made or made["decision"] not in ([carried] if carried else CARRIES_OUT.values()):
        lacks.append("decision")
    if not made or not _written(made["who"]):
        lacks.append("name")
    if not _written(closing["evidence"]) and not ground.photo:
        lacks.append("evidence")
    return lacks


def _ground(told: list[Fact], photos: set[str]) -> Ground:
    """`photos` are those that are still shown."""
    decisions = sorted(heads([fact for fact in told if fact["kind"] == DECIDED]), key=arrival_order)
    taken = [fact for fact in told if fact["kind"] == "photo.attached.v1"]
    since = [
        fact
        for fact in taken
        if fact["body"]["photo"] in photos and all(saw(fact, one) for one in decisions)
    ]
    return Ground(decisions, bool(decisions) and bool(since))


def _written(text: str | None) -> bool:
    """Any sign above a space: both languages agree on it, whatever they call a blank."""
    return any(sign > " " for sign in text or "")
