"""Telling a short story about one thing as facts: who wrote what, and what they had seen."""

from __future__ import annotations

from typing import Any

from bucktail.events.fold import State, fold
from bucktail.events.order import Fact
from running.bodies import uuid_of

START = 1_790_000_000_000
SECOND, HOUR = 1000, 3_600_000
STEPS: dict[str, Any] = {
    "template": "",
    "ops": {},
    "holes": {"count": 20, "supplied": "final"},
    "open": [],
    "along_lines": False,
    "final_after_dimple": False,
    "die": None,
    "window_h": None,
}


class Story:
    """Facts in the order in which they arrive. Who writes has seen everything, unless told.

    `seen` is the position that the writer had seen; devices are "ann", "ben" and so on.
    """

    def __init__(self) -> None:
        self.facts: list[Fact] = []
        self.seqs: dict[str, int] = {}

    def tell(
        self,
        kind: str,
        body: dict[str, Any],
        by: str = "ann",
        seen: int | None = None,
        at: int | None = None,
        **more: Any,
    ) -> Fact:
        """One more fact; `at` in ms after the start (default: a second after the one before)."""
        position = len(self.facts) + 1
        self.seqs[by] = self.seqs.get(by, 0) + 1
        fact: Fact = {
            "id": uuid_of(0xC000 + position),
            "kind": kind,
            "device": by,
            "seq": self.seqs[by],
            "at": START + (position * SECOND if at is None else at),
            "pos": position,
            "base": position - 1 if seen is None else seen,
            "by": by,
            "via": None,
            "body": body,
            **more,
        }
        self.facts.append(fact)
        return fact

    def part(self, **steps: Any) -> Fact:
        """A part, and what it needs: `ops` and other keys of steps.set."""
        self.tell("part.added.v1", {"name": "Skin"})
        return self.tell("steps.set.v1", {**STEPS, **steps})

    def line(self, *layers: tuple[str, str], **more: Any) -> Fact:
        """A rivet line of (part, how treated) layers."""
        body = {
            "name": "Line 1",
            "count": 164,
            "supplied": "final",
            "head": "flush",
            "fastener": {"kind": "rivet", "text": "3-4"},
            "layers": [{"part": part, "treat": treat} for part, treat in layers],
            "open": [],
        }
        return self.tell("line.set.v1", {**body, **more})

    def step(self, op: str, result: str = "all", **told: Any) -> Fact:
        """A step; keys that are no part of the body go to `tell`."""
        rest = {key: told.pop(key) for key in ("by", "seen", "at") if key in told}
        body = {"op": op, "result": result, "done": None, "of": None, **told}
        return self.tell("step.recorded.v1", body, **rest)

    def metal(self, change: str, holes: int | None = None, **rest: Any) -> Fact:
        """The metal was changed."""
        body: dict[str, Any] = {"change": change}
        if holes is not None:
            body["holes"] = holes
        return self.tell("metal.changed.v1", body, **rest)

    def withdraw(self, fact: Fact, **rest: Any) -> Fact:
        """An earlier fact is taken back."""
        return self.tell("event.withdrawn.v1", {"event": fact["id"]}, **rest)

    @property
    def state(self) -> State:
        """How the thing stands."""
        return fold(self.facts)

    def mark(self, key: str) -> dict[str, Any]:
        """How one operation stands."""
        mark: dict[str, Any] = self.state["marks"][key]
        return mark

    def flags(self, word: str = "") -> list[str]:
        """The keys of the flags with this word."""
        return [flag["key"] for flag in self.state["flags"] if word in ("", flag["flag"])]
