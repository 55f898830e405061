"""Histories of one thing, drawn at random and the same for the same seed.

Two or three devices write about a thing. Each is now and then out of reach, so their events arrive
late and in another order than they were written, and what one has seen of the others differs. The
workshop's computer is played with the same functions that it uses itself.
"""

from __future__ import annotations

import json
import re
from functools import cache
from random import Random
from typing import Any

from bucktail.events.envelope import Event, canonical, fact_of
from bucktail.events.fold import fold
from bucktail.events.order import Fact, reading_order
from bucktail.sync.times import effective_time
from bucktail.sync.wire.bodies import KINDS
from running.bodies import Drawer, uuid_of

START = 1_790_000_000_000
#: What may happen to a thing of each sort, and how often.
SORTS: dict[str, tuple[str, ...]] = {
    "part.added.v1": (
        ("step.recorded.v1",) * 12
        + ("steps.set.v1", "metal.changed.v1", "event.withdrawn.v1") * 3
        + ("tag.attached.v1", "answer.settled.v1", "tag.replaced.v1")
        + ("part.split.v1", "part.described.v1", "thing.moved.v1", "thing.retired.v1")
        + ("photo.attached.v1", "photo.removed.v1", "sum.kept.v1", "newer.kind.v1")
    ),
    "line.set.v1": (
        ("step.recorded.v1",) * 12
        + ("line.set.v1", "metal.changed.v1", "event.withdrawn.v1") * 2
        + ("line.segments.v1", "line.segments.v1", "sum.kept.v1")
        + ("newer.kind.v1",)
    ),
    "offcut.added.v1": (
        "offcut.described.v1",
        "offcut.reserved.v1",
        "offcut.cut.v1",
        "tag.attached.v1",
        "thing.moved.v1",
        "thing.retired.v1",
        "event.withdrawn.v1",
    ),
    "finding.opened.v1": (
        ("finding.decided.v1", "finding.closed.v1") * 3
        + ("photo.attached.v1", "photo.removed.v1", "event.withdrawn.v1")
    ),
    "place.added.v1": ("place.described.v1", "thing.moved.v1", "event.withdrawn.v1"),
    "piece.wanted.v1": (
        "piece.described.v1",
        "piece.met.v1",
        "sum.kept.v1",
        "thing.moved.v1",
        "thing.retired.v1",
        "event.withdrawn.v1",
    ),
    "": tuple(sorted(KINDS)),  # anything on anything
}
FIRST = (
    ("part.added.v1",) * 6
    + ("line.set.v1",) * 3
    + ("offcut.added.v1", "place.added.v1", "piece.wanted.v1", "finding.opened.v1", "")
)


class History:
    """One thing's history: `facts` as its card carries them, and what a phone shows of it."""

    def __init__(self, seed: int) -> None:
        self.draw = draw = Random(seed)
        self.count = 0
        self.subject = uuid_of(seed % 1000 + 1)
        self.parts = [uuid_of(n) for n in (2001, 2002, 2003)]
        self.drawer = Drawer(draw, self.parts)
        self.first = draw.choice(FIRST)
        self.stored: list[Fact] = []
        self.devices = [_Device(uuid_of(3001 + n), draw) for n in range(draw.choice([2, 2, 3]))]
        self.clock = START
        for _ in range(draw.randint(3, 26)):
            self._turn()
        self.behind: list[Fact] = []
        if draw.random() < 0.7:
            for device in self.devices:
                self._push(device)
        else:
            self.behind = self.devices[0].written
        self.facts = [*self.stored, *self.behind]

    def _turn(self) -> None:
        """One device writes something, or one comes within reach."""
        device = self.draw.choice(self.devices)
        # two devices that write within the same second meet more often than time alone would say
        self.clock += self.draw.choice([0, 0, 1000, 1000, 3_600_000, 30_000_000])
        if self.draw.random() < 0.35:
            self._push(device)
            device.base = len(self.stored)
            return
        kinds = SORTS[self.first]
        kind = self.draw.choice(kinds) if self.count or not self.first else self.first
        if self.draw.random() < 0.03:
            kind = self.draw.choice(sorted(KINDS))
        self._write(device, kind)

    def _write(self, device: _Device, kind: str) -> None:
        self.count += 1
        device.seq += 1
        body = self.drawer.body(kind) if kind in KINDS else None
        event_id = uuid_of(4000 + self.count)
        self.drawer.events.append(event_id)
        event = Event(
            raw=b"",
            id=event_id,
            kind=kind,
            workshop=uuid_of(1),
            device=device.id,
            seq=device.seq,
            at=self.clock + device.wrong_by,
            tz="Europe/Oslo",
            by=uuid_of(5000 + self.draw.randint(0, 1)),
            base=device.base,
            base_chain="",
            subject=self.subject,
            via=self.draw.choice([None, self.drawer.codes[0]]),
            group=None,
            body=body,
        )
        lost = None
        if kind == "tag.attached.v1" and self.draw.random() < 0.35:
            lost = self.draw.choice(self.parts)
        judged = None
        if kind == "sum.kept.v1" and self.draw.random() < 0.35:
            judged = {"rulebook": "0123456789ab", "answer": {"verdict": "check", "least_d": "2"}}
        device.written.append(fact_of(event, None, event.at, lost, judged))

    def _push(self, device: _Device) -> None:
        """What a device has written arrives, and gets its position and time."""
        for fact in device.written:
            seen = [f["at"] for f in self.stored if f["pos"] <= fact["base"]]
            own = [f["at"] for f in self.stored if f["device"] == device.id]
            at = effective_time(
                fact["at"], -device.measured, max([*seen, *own[-1:], 0]), self.clock
            )
            self.stored.append({**fact, "pos": len(self.stored) + 1, "at": at})
        device.written = []


class _Device:
    """A phone: what it has seen, its wrong clock, and what it has not sent."""

    def __init__(self, name: str, draw: Random) -> None:
        self.id, self.seq, self.base = name, 0, 0
        self.wrong_by = draw.choice([0, 0, 0, 5_000, -7_200_000, 40_000_000])
        self.measured = self.wrong_by if draw.random() < 0.8 else 0
        self.written: list[Fact] = []


def card_of(subject: str, facts: list[Fact]) -> str:
    """The card's text, as the workshop's computer writes it."""
    state = fold(facts)
    ordered = sorted(facts, key=reading_order)
    return canonical({"facts": ordered, "id": subject, "sort": state["sort"], "state": state})


@cache
def histories(first: int, count: int) -> list[History]:
    """The histories of `count` seeds from `first` on."""
    return [History(seed) for seed in range(first, first + count)]


def short(facts: list[Fact]) -> str:
    """The facts as JSON with every counted UUID written `~n`, to keep files small."""
    text = json.dumps(facts, ensure_ascii=False, separators=(",", ":"))
    return re.sub(r"00000000-0000-7000-8000-0*([0-9a-f]+)", r"~\1", text)


def long(text: str) -> list[dict[str, Any]]:
    """The facts from what `short` made."""
    full = re.sub(r"~([0-9a-f]+)", lambda m: uuid_of(int(m[1], 16)), text)
    facts: list[dict[str, Any]] = json.loads(full)
    return facts
