"""`bucktail offcuts`: whether rectangles fit in outlines from a file. Opens no workshop."""

from __future__ import annotations

import argparse
import csv
import io
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal, InvalidOperation
from pathlib import Path
from typing import TYPE_CHECKING

from bucktail.commands.paragraphs import Paragraphs

if TYPE_CHECKING:
    from bucktail.offcuts.fitting import Witness
    from bucktail.offcuts.mapped import Mapped

UNREADABLE = 2
ASKED = ("outline", "width_mm", "height_mm", "grain")
ANSWERED = (*ASKED, "fits", "x_mm", "y_mm", "angle_deg")
GRAINS = ("any", "along")
LONGEST_MM = 100_000
UM_PER_MM = 1000
NM_PER_MM = 1_000_000

DESCRIPTION = """
Say which rectangles fit in which offcuts, and where.

OUTLINES is a GeoJSON FeatureCollection with a Polygon in millimetres for each offcut. QUERIES is a
table (CSV) with the columns outline (its place in the file, from 0), width_mm, height_mm and grain:
“any” for any angle, “along” for the width parallel to the outline's x axis.

The answers go to standard output in the same order, with the columns fits (yes or no), x_mm, y_mm
and angle_deg: the rectangle from (0, 0) to (width, height), turned by the angle about its corner at
(0, 0) and then moved to (x, y), lies in the metal. A yes is always so; a no may be wrong by a few
tenths of a millimetre.

The result is 0; 1 where an outline cannot be used (said on standard error; what is asked of it is
answered no); 2 where a file cannot be read, and then nothing is answered.
"""


class _Unread(Exception):
    """A file cannot be read; the text says why."""


@dataclass(frozen=True, slots=True)
class Query:
    """One row of the queries: the words as they stand, and what they say (um, rounded up)."""

    words: tuple[str, str, str, str]
    outline: int
    width: int
    height: int
    along: bool


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command and what it can do."""
    parser = subparsers.add_parser(
        "offcuts",
        help="which rectangles fit in outlines from a file",
        description="Ask about offcuts on the command line, without a workshop.",
    )
    verbs = parser.add_subparsers(dest="verb", required=True, metavar="WHAT")
    fit = verbs.add_parser(
        "fit",
        help="say which rectangles fit in which outlines, and where",
        description=DESCRIPTION,
        formatter_class=Paragraphs,
    )
    fit.add_argument("outlines", type=Path, metavar="OUTLINES", help="GeoJSON, millimetres")
    fit.add_argument("queries", type=Path, metavar="QUERIES", help="CSV, millimetres")
    fit.set_defaults(run=run_fit)


def run_fit(options: argparse.Namespace) -> int:
    """Answer every query; see DESCRIPTION for the exit code."""
    from bucktail.offcuts.mapped import Unmapped, mapped

    try:
        outlines = mapped(_text(options.outlines))
        queries = list(_queries(_text(options.queries), len(outlines)))
    except (_Unread, Unmapped) as trouble:
        print(f"bucktail: {trouble}", file=sys.stderr)
        return UNREADABLE
    spoiled = _say_faults(outlines)
    out = csv.writer(sys.stdout, lineterminator="\n")
    out.writerow(ANSWERED)
    answered = _answers(queries, outlines)
    for n, query in enumerate(queries):
        out.writerow([*query.words, *answered.get(n, ("no", "", "", ""))])
    return 1 if spoiled else 0


def _answers(queries: list[Query], outlines: list[Mapped]) -> dict[int, tuple[str, ...]]:
    """The answers that are yes, by the place of the query; each outline is asked all at once."""
    from bucktail.offcuts.fitting.questions import Asked, Question

    by_outline: dict[int, list[int]] = {}
    for n, query in enumerate(queries):
        by_outline.setdefault(query.outline, []).append(n)
    found: dict[int, tuple[str, ...]] = {}
    for place, numbers in by_outline.items():
        one = outlines[place]
        if one.outline is None:
            continue
        asked = [
            Question(query.width, query.height, "along" if query.along else "any")
            for query in (queries[n] for n in numbers)
        ]
        for n, witness in zip(numbers, Asked(one.outline).answers(asked), strict=True):
            if witness:
                found[n] = _yes(witness, one.moved)
    return found


def _yes(found: Witness, moved: tuple[int, int]) -> tuple[str, ...]:
    x, y = (
        at / UM_PER_MM + by / NM_PER_MM for at, by in zip((found.x, found.y), moved, strict=True)
    )
    return ("yes", f"{x:.6f}", f"{y:.6f}", f"{found.degrees:.9f}")


def _say_faults(outlines: list[Mapped]) -> bool:
    """Name every outline that cannot be used, with the place of each fault; True for any."""
    spoiled = False
    for n, one in enumerate(outlines):
        for fault in one.faults:
            spoiled = True
            where = "; ".join(f"{x / NM_PER_MM:g}, {y / NM_PER_MM:g}" for x, y in fault.points[:1])
            place = f" (at {where} mm)" if where else ""
            print(f"bucktail: Outline {n}: {fault.sentence}{place}", file=sys.stderr)
    return spoiled


def _text(path: Path) -> str:
    try:
        return path.read_text("utf-8-sig")
    except UnicodeDecodeError:
        raise _Unread(f"{path} is no text. Save it as UTF-8.") from None
    except OSError as trouble:
        raise _Unread(f"{path} cannot be read: {trouble.strerror}.") from None


def _queries(text: str, outlines: int) -> Iterator[Query]:
    rows = csv.reader(io.StringIO(text, newline=""))
    try:
        names = [name.strip() for name in next(rows, [])]
        missing = [name for name in ASKED if name not in names]
        if missing:
            raise _Unread(
                f"The queries have no column {' and no column '.join(missing)}. Their first line "
                f"is {','.join(ASKED)}."
            )
        places = [names.index(name) for name in ASKED]
        for row in rows:
            if any(cell.strip() for cell in row):
                yield _query([row[n].strip() if n < len(row) else "" for n in places], outlines)
    except _BadCell as bad:
        raise _Unread(f"Line {rows.line_num} of the queries: {bad}") from None
    except csv.Error as trouble:
        raise _Unread(f"Line {rows.line_num} of the queries cannot be read: {trouble}.") from None


class _BadCell(Exception):
    """What is wrong with a row of the queries."""


def _query(cells: list[str], outlines: int) -> Query:
    outline, width, height, grain = cells
    if not (outline.isascii() and outline.isdigit() and int(outline) < outlines):
        raise _BadCell(
            f"there is no outline “{outline}”. Outlines count from 0 to {outlines - 1}."
            if outlines
            else "the file of outlines is empty."
        )
    if grain not in GRAINS:
        raise _BadCell(f"the grain is “{grain}”. Write any or along.")
    return Query(
        (outline, width, height, grain),
        int(outline),
        _um("width_mm", width),
        _um("height_mm", height),
        grain == "along",
    )


def _um(name: str, text: str) -> int:
    """A length in mm as whole um, rounded up so that no fit is claimed for a hair less."""
    try:
        length = Decimal(text)
    except InvalidOperation:
        length = Decimal("NaN")
    if not length.is_finite() or not 0 < length <= LONGEST_MM:
        raise _BadCell(f"{name} is “{text}”. Write a length in millimetres above 0, such as 120.5.")
    return int((length * UM_PER_MM).to_integral_value(ROUND_CEILING))
