"""Makes a cut plan: the largest piece first, each where the stock loses least of its worth.

Worth is what still fits of the sizes that the workshop asks for (worth.py). Worth alone cuts into
ever more offcuts, because the first cut into a large one often costs nothing; so cutting into one
more offcut counts too: `Cutting.opening` x the mean worth of what would be cut into.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bucktail.offcuts.cutplan.sequence import sheet_plan
from bucktail.offcuts.cutplan.sheet import Offer, Sheet
from bucktail.offcuts.cutplan.wanted import GoOn, NotPlaced, Plan, Progress, Stock, Task, Wanted
from bucktail.offcuts.placing import most_weighty
from bucktail.offcuts.worth import Size

#: So many sizes are asked about, and so many offcuts not cut yet are compared for one piece: the
#: smallest that hold it, and a few of the largest.
MOST_SIZES = 10
SMALLEST, LARGEST = 10, 3


@dataclass(frozen=True, slots=True)
class Chosen:
    """The offcut and the place for one piece."""

    sheet: Sheet
    offer: Offer


def make_plan(task: Task, go_on: GoOn = lambda _: True) -> Plan:
    """Lay every piece of `task.wants` that can be laid on an offcut.

    Deterministic: the same task gives the same plan. Asks `go_on` before each piece and ends with
    what there is where it answers False.
    """
    sizes = most_weighty(task.sizes or [_size_of(want) for want in task.wants], MOST_SIZES)
    sheets = [Sheet(stock, task.cutting, sizes) for stock in task.stock]
    sheets.sort(key=lambda sheet: (sheet.area, sheet.stock.id))
    pieces = _pieces(task.wants)
    missed: Counter[tuple[str, str]] = Counter()
    placed = 0
    for done, (want, nth) in enumerate(pieces):
        if not go_on(Progress(done, len(pieces), placed)):
            for left, _ in pieces[done:]:
                missed[left.id, "The plan was ended before this piece was looked at."] += 1
            return _plan(sheets, missed, stopped=True)
        chosen, reason = _choose(task, sheets, want)
        if chosen is None:
            missed[want.id, reason] += 1
            continue
        chosen.sheet.lay(want, nth, chosen.offer)
        placed += 1
    go_on(Progress(len(pieces), len(pieces), placed))
    return _plan(sheets, missed, stopped=False)


def _choose(task: Task, sheets: Sequence[Sheet], want: Wanted) -> tuple[Chosen | None, str]:
    """Where a piece costs least; where it finds no place, why."""
    best: Chosen | None = None
    least = float("inf")
    serving = [sheet for sheet in sheets if not why_not(task, want, sheet.stock)]
    for sheet in _to_compare(serving, want):
        offer = sheet.offer(want)
        if offer is None:
            continue
        cost = offer.lost
        if not sheet.laid:
            cost += task.cutting.opening * _typical(want)
        if cost < least:
            best, least = Chosen(sheet, offer), cost
    if best is not None:
        return best, ""
    return None, _reason(task, want, bool(serving))


def _to_compare(serving: Sequence[Sheet], want: Wanted) -> Iterator[Sheet]:
    """Those cut into already, then the smallest of the others that hold it, and some large ones."""
    yield from (sheet for sheet in serving if sheet.laid)
    fresh = [
        sheet for sheet in serving if not sheet.laid and sheet.area >= want.width * want.height
    ]
    found = 0
    for sheet in fresh:
        if found == SMALLEST:
            break
        if sheet.offer(want) is not None:
            found += 1
            yield sheet
    yield from fresh[-LARGEST:]


def why_not(task: Task, want: Wanted, stock: Stock) -> str:
    """Why an offcut is out of the question for a piece, whatever its size; else empty."""
    if stock.reserved is not None and stock.reserved not in want.own:
        return f"reserved for {stock.reserved_text}" if stock.reserved_text else "reserved"
    if want.grain != "any" and stock.grain == "unknown":
        return "grain not known"
    return task.serves(want, stock)


def _reason(task: Task, want: Wanted, some_serve: bool) -> str:
    if some_serve:
        return "No offcut of the right metal has room for it beside the other pieces."
    whys = Counter(why_not(task, want, stock) for stock in task.stock)
    if not whys:
        return "There is no offcut to cut it from."
    most, count = min(whys.items(), key=lambda item: (-item[1], item[0]))
    return f"No offcut serves; {count} of {len(task.stock)}: {most}."


def _typical(want: Wanted) -> float:
    """The area of a piece, mm2: what the worth of an offcut is counted in."""
    return want.width * want.height / 1e12


def _size_of(want: Wanted) -> Size:
    return Size(want.width, want.height, float(want.count))


def _pieces(wants: Sequence[Wanted]) -> list[tuple[Wanted, int]]:
    """Every single piece, the largest first; those of one want together."""
    ranked = sorted(wants, key=lambda one: (-one.width * one.height, one.id))
    return [(want, nth) for want in ranked for nth in range(1, want.count + 1)]


def _plan(sheets: Sequence[Sheet], missed: Counter[tuple[str, str]], stopped: bool) -> Plan:
    return Plan(
        tuple(sheet_plan(sheet) for sheet in sheets if sheet.laid),
        tuple(NotPlaced(want, count, why) for (want, why), count in missed.items()),
        stopped,
    )
