"""The ways in which a finding may be decided and closed, as facts, for both folds."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from itertools import product
from random import Random

from bucktail.events.findings import CARRIES_OUT, DECISIONS, NO_FAULT
from bucktail.events.fold import fold
from bucktail.events.order import Fact
from running.bodies import uuid_of
from running.story import Story

PART, PHOTO = uuid_of(0xE1), "a" * 64
SEEN = {"what": "Hole oversize, no room for the next rivet", "on": PART}
WHO, WORK_ORDER = "Kim Brook, licensed engineer", "Work order 7"
CASES = 4000
Afterwards = Callable[[Story, Fact | None], object]


def opened(**more: str) -> Story:
    """A finding."""
    story = Story()
    story.tell("finding.opened.v1", {**SEEN, **more})
    return story


def decide(
    story: Story,
    decision: str = "repair",
    who: str | None = WHO,
    device: str = "ann",
    seen: int | None = None,
) -> Fact:
    """Somebody writes what was decided, `who` says so."""
    body = {"decision": decision, "who": who, "what": None}
    return story.tell("finding.decided.v1", body, device, seen)


def close(
    story: Story,
    on: Fact | None = None,
    outcome: str = "repaired",
    evidence: str | None = WORK_ORDER,
    device: str = "ann",
    seen: int | None = None,
) -> Fact:
    """Somebody writes how it ended."""
    body = {"outcome": outcome, "decision": on and on["id"], "evidence": evidence}
    return story.tell("finding.closed.v1", body, device, seen)


def photo(story: Story) -> Fact:
    """A photo is put with it."""
    return story.tell("photo.attached.v1", {"photo": PHOTO, "size": 1000})


def _unseen(story: Story, told: Fact | None) -> Fact:
    """Somebody who was out of reach decides otherwise."""
    return decide(story, "replace", device="cy", seen=1)


def _alike(story: Story, told: Fact | None) -> Fact:
    """Somebody who was out of reach decides the same, and it is closed again."""
    if told:
        story.tell("finding.decided.v1", told["body"], "cy", 1)
    return close(story, told)


AFTERWARDS: dict[str, Afterwards] = {
    "nothing": lambda story, told: None,
    "decided again": lambda story, told: decide(story),
    "decided otherwise unseen": _unseen,
    "decided otherwise unseen, closed again": lambda story, told: (
        _unseen(story, told) and close(story, told)
    ),
    "decided alike unseen, closed again": _alike,
    "photo": lambda story, told: photo(story),
    "decision taken back": lambda story, told: told and story.withdraw(told),
    "closing taken back": lambda story, told: story.withdraw(story.facts[-1]),
    "closed again": lambda story, told: close(story, told),
    "closed again unseen": lambda story, told: close(story, None, NO_FAULT, None, "cy", 1),
}
WAYS = (
    (None, *DECISIONS),
    (WHO, WHO, None, " \t"),
    (*CARRIES_OUT, NO_FAULT),
    ("the last", "the last", "none", "another"),
    (WORK_ORDER, WORK_ORDER, None, " \t"),
    ("none", "before", "after", "removed"),
    (True, True, False),
    tuple(AFTERWARDS),
)


def _case(
    decision: str | None,
    who: str | None,
    outcome: str,
    named: str,
    evidence: str | None,
    shown: str,
    met: bool,
    after: str,
) -> list[Fact]:
    """One case; a closing that has not `met` the decision comes from a phone out of reach."""
    story = opened()
    if shown == "before":
        photo(story)
    told = decide(story, decision, who) if decision else None
    if shown in ("after", "removed"):
        photo(story)
    if shown == "removed":
        story.tell("photo.removed.v1", {"photo": PHOTO})
    on = {"the last": told, "another": story.facts[0]}.get(named)
    close(story, on, outcome, evidence, "ben", None if met else 1)
    AFTERWARDS[after](story, told)
    return story.facts


@cache
def cases() -> list[list[Fact]]:
    """Many cases, always the same ones."""
    return [_case(*way) for way in Random(8).sample(list(product(*WAYS)), CASES)]


def outcome(facts: list[Fact]) -> str:
    """How a finding stands: "closed repaired", or "wants name, evidence"."""
    state = fold(facts)
    if "closed" in state:
        return f"closed {state['closed']['outcome']}"
    return f"wants {', '.join(state['lacks'])}"


def telling(most: int) -> list[list[Fact]]:
    """At most so many cases of each outcome."""
    found: dict[str, list[list[Fact]]] = {}
    for facts in cases():
        found.setdefault(outcome(facts), []).append(facts)
    return [facts for word in sorted(found) for facts in found[word][:most]]
