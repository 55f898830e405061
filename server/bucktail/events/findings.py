"""What was decided about a finding, and whether it is closed.

A finding is closed where its standing decision says what was done, a person or body is named as
having decided, and something shows it: a document named, or a photo with the finding. A closing
that lacks any of these is kept and changes nothing; so does one that stands on a decision which was
taken back or overtaken by a later one. Only what was no fault at all is closed without a decision.
"""

from __future__ import annotations

from typing import Any

from bucktail.events.order import Fact

DECIDED, CLOSED = "finding.decided.v1", "finding.closed.v1"
#: How a finding is closed -> the decision that this carries out.
CARRIES_OUT = {"repaired": "repair", "used as is": "use as is", "replaced": "replace"}
NO_FAULT = "no fault"
DECISIONS = (*CARRIES_OUT.values(), "ask the maker")


def add_decision(told: list[Fact], state: dict[str, Any]) -> None:
    """Put `decided`, `closed` and `lacks` into the state of a finding.

    `lacks` is what a closing still wants: "decision" (none, or one that only asks), "name" (who
    decided), "evidence". It is empty once the finding is closed.
    """
    decisions = [fact for fact in told if fact["kind"] == DECIDED]
    last = decisions[-1] if decisions else None
    if last:
        state["decided"] = {
            **last["body"],
            "event": last["id"],
            "at": last["at"],
            "written_by": last["by"],
        }
    closings = [fact for fact in told if fact["kind"] == CLOSED]
    counting = [fact for fact in closings if not lacking(fact["body"], last, state)]
    if counting:
        one = counting[-1]
        state["closed"] = {**one["body"], "event": one["id"], "at": one["at"], "by": one["by"]}
        state["lacks"] = []
        return
    asked = (
        closings[-1]["body"] if closings else {"outcome": None, "decision": None, "evidence": None}
    )
    if last and not closings:
        asked = {**asked, "decision": last["id"]}
    state["lacks"] = lacking(asked, last, state)


def lacking(closing: dict[str, Any], decision: Fact | None, state: dict[str, Any]) -> list[str]:
    """What a closing wants before it counts, given the standing decision and the photos."""
    if closing["outcome"] == NO_FAULT:
        return []
    made = decision["body"] if decision and decision["id"] == closing["decision"] else None
    carried = CARRIES_OUT.get(closing["outcome"])
    decided = made is not None and made["decision"] in CARRIES_OUT.values()
    lacks = []
    if not decided or (carried and made and made["decision"] != carried):
        lacks.append("decision")
    if not made or not made["who"]:
        lacks.append("name")
    if not closing["evidence"] and not state["photos"]:
        lacks.append("evidence")
    return lacks
