"""A workshop with places and tagged parts in it, for tests that scan many of them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, expect
from sqlalchemy import select

from bucktail.parts.templates import steps_for
from bucktail.storage.opening import open_workshop
from bucktail.storage.tables import StoredEvent
from bucktail.workshop.printing import record_new_tags
from bucktail.workshop.recorder import Recorder

SLOW = 15_000
READY = {
    "dimple": ("form", "edges", "fit", "drill", "deburr"),
    "prime": ("form", "edges", "fit", "drill", "deburr", "dimple", "clean"),
}

#: What the phone does to ears and hand, written down: tones in Hz, vibrations in ms.
FEEL = """() => {
  window.felt = [];
  navigator.vibrate = (pattern) => { window.felt.push(['vibration', pattern]); return true; };
  const start = OscillatorNode.prototype.start;
  OscillatorNode.prototype.start = function (...when) {
    window.felt.push(['tone', Math.round(this.frequency.value)]);
    return start.apply(this, when);
  };
}"""


class Stock:
    """Enters things on the workshop's computer; every one has a tag of its own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.codes: dict[str, str] = {}  # id -> code

    def _enter(self, kind: str, body: dict[str, Any], inside: str | None, more: Any = ()) -> str:
        (code,) = record_new_tags(self.folder, 1)
        with open_workshop(self.folder) as session:
            recorder = Recorder(session)
            thing = recorder.record(kind, body)
            recorder.record("tag.attached.v1", {"code": code, "on": "metal"}, thing)
            if inside:
                recorder.record("thing.moved.v1", {"to": inside}, thing)
            for what, about in more:
                recorder.record(what, about, thing)
        self.codes[thing] = code
        return thing

    def place(self, name: str, form: str = "shelf", inside: str | None = None) -> str:
        """Enter a place; its id."""
        return self._enter("place.added.v1", {"name": name, "form": form}, inside)

    def part(
        self,
        name: str,
        template: str = "rib",
        done: tuple[str, ...] = (),
        inside: str | None = None,
        **fields: Any,
    ) -> str:
        """Enter a part on which some operations are done; its id."""
        more: list[tuple[str, dict[str, Any]]] = [("steps.set.v1", steps_for(template, count=38))]
        for op in done:
            body = {"op": op, "result": "all", "done": None, "of": None}
            more.append(("step.recorded.v1", body))
        return self._enter("part.added.v1", {"name": name, **fields}, inside, more)

    def events(self, kind: str = "") -> list[dict[str, Any]]:
        """What is recorded, of one kind or all, in order."""
        with open_workshop(self.folder) as session:
            raws = session.execute(select(StoredEvent.raw).order_by(StoredEvent.position)).scalars()
            told = [json.loads(raw) for raw in raws]
        return [event for event in told if not kind or event["kind"] == kind]


def type_code(page: Page, code: str) -> None:
    """Type a code where the reader asks for it, and tap the tag that it suggests."""
    page.get_by_label("Code on the tag").fill(code[-5:])
    tags = page.get_by_role("list", name="Tags like this").get_by_role("button")
    tags.filter(has_text=f"{code[:5]} {code[5:]}").click(timeout=SLOW)


def types(page: Page) -> None:
    """Put the reader to typing."""
    page.get_by_role("button", name="Type the code").click(timeout=SLOW)


def stopped(page: Page, title: str) -> None:
    """A full stop of this title covers the screen."""
    dialog = page.get_by_role("dialog", name=title)
    expect(dialog).to_be_visible(timeout=SLOW)
    box, size = dialog.bounding_box(), page.viewport_size
    assert box and size
    assert (box["width"], box["height"]) == (size["width"], size["height"])
