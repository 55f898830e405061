"""The bibliography, and the tables that stand on it.

Every table and rule names a source of this list. A table is a CSV file in rules/tables that opens
with comment lines naming its title, source, unit, range and the day it was checked; `load_table`
refuses one that does not. Rows may name a source of their own in a column called `source`.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

Seen = Literal["read", "secondary", "worked out", "common practice", "from memory"]
SEEN: tuple[Seen, ...] = ("read", "secondary", "worked out", "common practice", "from memory")
HEADINGS = ("title", "source", "unit", "range", "checked-on")


class TableRefused(ValueError):
    """A table or rule that may not be used; the message says what it lacks."""


@dataclass(frozen=True, slots=True)
class Source:
    """One entry of the bibliography.

    `seen` says how it was seen: the document itself or a page-level copy was read; only a secondary
    page that sums it up; worked out from facts that were read; common practice; or from memory.
    """

    id: str
    title: str
    document: str
    paragraph: str
    seen: Seen


@dataclass(frozen=True, slots=True)
class Table:
    """A loaded table. `rows` map column names to the text of the cell."""

    name: str
    title: str
    sources: tuple[Source, ...]
    unit: str
    range: str
    checked_on: str
    rows: tuple[Mapping[str, str], ...]


@cache
def bibliography() -> Mapping[str, Source]:
    """All sources by id. Raises TableRefused for an entry that is incomplete or stands twice."""
    return read_bibliography(_text("bibliography.csv"))


def read_bibliography(text: str) -> Mapping[str, Source]:
    """The sources written in `text` (the CSV of tables/bibliography.csv)."""
    sources: dict[str, Source] = {}
    for row in csv.DictReader(line for line in text.splitlines() if not line.startswith("#")):
        seen = next((word for word in SEEN if word == row["seen"]), None)
        if seen is None or not all(row[key] for key in ("id", "title", "document", "paragraph")):
            raise TableRefused(f"bibliography: the entry {row['id']!r} is incomplete")
        if row["id"] in sources:
            raise TableRefused(f"bibliography: {row['id']!r} stands twice")
        sources[row["id"]] = Source(
            row["id"], row["title"], row["document"], row["paragraph"], seen
        )
    return sources


def source(source_id: str) -> Source:
    """The source of that id. Raises TableRefused where the bibliography has none."""
    found = bibliography().get(source_id)
    if found is None:
        raise TableRefused(f"no source {source_id!r} in the bibliography")
    return found


@cache
def load_table(name: str) -> Table:
    """The table rules/tables/<name>.csv. Raises TableRefused where it does not say its source."""
    return read_table(name, _text(f"{name}.csv"))


def read_table(name: str, text: str) -> Table:
    """A table from the text of its file. Raises TableRefused, naming what is missing or unknown."""
    lines = text.splitlines()
    said: dict[str, str] = {}
    for line in lines:
        heading = re.fullmatch(r"#\s*([a-z-]+):\s*(\S.*?)\s*", line)
        if heading and heading[1] in HEADINGS:
            if heading[1] in said:
                raise TableRefused(f"table {name}: {heading[1]} is said twice")
            said[heading[1]] = heading[2]
    missing = [word for word in HEADINGS if word not in said]
    if missing:
        raise TableRefused(f"table {name} does not say its {', '.join(missing)}")
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", said["checked-on"]):
        raise TableRefused(f"table {name}: checked-on is not a day like 2026-11-25")
    rows = tuple(csv.DictReader(line for line in lines if line and not line.startswith("#")))
    if not rows or any(None in row or None in row.values() for row in rows):
        raise TableRefused(f"table {name} is empty or has a row of the wrong length")
    named = [word.strip() for word in said["source"].split(",")]
    named += [row["source"] for row in rows if "source" in row]
    return Table(
        name=name,
        title=said["title"],
        sources=tuple(source(source_id) for source_id in dict.fromkeys(named)),
        unit=said["unit"],
        range=said["range"],
        checked_on=said["checked-on"],
        rows=rows,
    )


def _text(file_name: str) -> str:
    return files("bucktail.rules").joinpath("tables", file_name).read_text(encoding="utf-8")
