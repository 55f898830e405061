"""Parts for tests: entered on the workshop's computer, and what a phone wrote about them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from bucktail.parts.templates import steps_for
from bucktail.storage.opening import open_workshop
from bucktail.workshop.recorder import Recorder
from running.phone import BenchPhone

COUNT_TAPS = """() => {
  window.taps = 0;
  addEventListener('click', (event) => { if (event.isTrusted) window.taps += 1; }, true);
}"""


def part(
    folder: Path, name: str, template: str = "rib", count: int | None = 164, **steps: Any
) -> str:
    """Enter a part and what it needs; its id. `steps` replace fields of the template's."""
    with open_workshop(folder) as session:
        recorder = Recorder(session)
        subject = recorder.record("part.added.v1", {"name": name})
        body = {**steps_for(template, count=count), **steps}
        recorder.record("steps.set.v1", body, subject)
        return subject


def told(folder: Path, subject: str, kind: str, body: dict[str, Any], **how: Any) -> None:
    """Record one more event about a thing, as the workshop's computer or another device."""
    device = how.pop("device", None)
    with open_workshop(folder) as session:
        Recorder(session, device).record(kind, body, subject, **how)


def step(op: str, result: str = "all", **more: Any) -> dict[str, Any]:
    """The body of a step recorded."""
    return {"op": op, "result": result, "done": None, "of": None, **more}


def written(phone: BenchPhone) -> list[dict[str, Any]]:
    """What this phone has written, sent or not, in order."""
    waiting = phone.stored("outbox")  # first, for what is sent meanwhile is then among the sent
    texts = {row["seq"]: row["text"] for row in [*waiting, *phone.stored("sent")]}
    return [json.loads(texts[seq]) for seq in sorted(texts)]
