"""Fills a workshop with the demo: plays the invented year into the record."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

from bucktail.storage.eventlog import head
from bucktail.storage.ids import uuid7
from bucktail.storage.opening import open_workshop
from bucktail.storage.settings import write
from bucktail.storage.tables import Person, Session
from bucktail.tags.code import new_code
from bucktail.workshop.demo.findings import findings
from bucktail.workshop.demo.lines import rivet_lines
from bucktail.workshop.demo.reckoned import pieces
from bucktail.workshop.demo.stock import offcuts, sections
from bucktail.workshop.demo.year import BUILDER, FRIEND, Entry, everything
from bucktail.workshop.recorder import Recorder

NAME = "Demo workshop (invented)"
PEOPLE = {BUILDER: "Robin Marsh", FRIEND: "Ellis Tarn"}
#: Keys of bodies that name another thing of the demo, or several.
REFERENCES = ("to", "assembly", "layer", "part", "for_parts", "lines", "parent", "remnants")


def fill(folder: Path, end: int, seed: int = 20) -> int:
    """Fill the empty workshop in `folder` with a year that ends at `end` (UTC ms).

    Returns the number of entries written; 0 where the workshop already has a record.
    """
    with open_workshop(folder) as session:
        if head(session)[0]:
            return 0
        write(session, "name", NAME)
        draw = random.Random(seed + 1)
        entries = [*everything(end, seed), *rivet_lines(end, draw), *offcuts(end, draw)]
        entries += pieces(end, draw)
        entries += sections(end, random.Random(seed + 2))
        entries += findings(end, random.Random(seed + 3))
        entries.sort(key=lambda entry: entry.at)
        _Player(session, end, draw).play(entries)
        return head(session)[0]


class _Player:
    """Writes entries with the recorders of two phones, in order of time."""

    def __init__(self, session: Session, end: int, draw: random.Random) -> None:
        self.session = session
        self.ids: dict[str, str] = {}
        self.before: dict[str, tuple[int, str]] = {}
        self.recorders = {who: self._phone(name, end) for who, name in PEOPLE.items()}
        start = end - 381 * 86_400_000
        codes: list[str] = []
        while len(codes) < 120:
            codes.append(new_code(draw.randrange, codes))
        Recorder(session).record("tag.printed.v1", {"codes": codes}, at=start)
        self.codes = iter(codes)

    def _phone(self, name: str, end: int) -> Recorder:
        person = uuid7(end)
        self.session.add(Person(id=person, name=name))
        self.session.flush()
        return Recorder(self.session, device=uuid7(end), person=person)

    def play(self, entries: list[Entry]) -> None:
        """Write all entries."""
        for entry in entries:
            subject = self.ids.setdefault(entry.about, uuid7(entry.at))
            base = self.before.get(entry.about) if entry.blind else None
            self.before[entry.about] = head(self.session)
            self.recorders[entry.who].record(
                entry.kind, self._body(entry), subject=subject, at=entry.at, base=base
            )

    def _named(self, value: Any, key: str = "") -> Any:
        """The value with every name of another thing replaced by its id."""
        if isinstance(value, dict):
            return {inner: self._named(one, inner) for inner, one in value.items()}
        if isinstance(value, list):
            return [self._named(one, key) for one in value]
        return self.ids[value] if key in REFERENCES and value is not None else value

    def _body(self, entry: Entry) -> dict[str, Any]:
        body: dict[str, Any] = self._named(entry.body)
        if entry.kind == "tag.attached.v1":
            body["code"] = next(self.codes)
        elif entry.kind == "finding.opened.v1":  # "on" of a tag is the metal or the film
            body["on"] = self.ids[body["on"]]
        return body
