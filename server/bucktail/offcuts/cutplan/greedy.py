"""Makes a cut plan: the largest piece first, each where the stock loses least of its worth.

Worth is what still fits of the sizes that the workshop asks for (worth.py). Worth alone cuts into
ever more offcuts, because the first cut into a large one often costs nothing; so cutting into one
more offcut counts too: `Cutting.opening` x the mean area of the pieces. A plan that crowds the
pieces on the largest offcuts is tried beside, and in the end the pieces of the offcuts that lose
most are laid anew for as long as that helps.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from bucktail.offcuts.cutplan.sequence import sheet_plan
from bucktail.offcuts.cutplan.sheet import Lying, Offer, Sheet
from bucktail.offcuts.cutplan.wanted import GoOn, NotPlaced, Plan, Progress, Stock, Task, Wanted
from bucktail.offcuts.placing import most_weighty
from bucktail.offcuts.worth import Size

#: So many sizes are asked about, and so many offcuts not cut yet are compared for one piece: the
#: smallest that hold it, and a few of the largest.
MOST_SIZES = 10
SMALLEST, LARGEST = 8, 2
#: So many times at most the pieces of an offcut or two are laid anew.
MOST_ROUNDS = 40


@dataclass(frozen=True, slots=True)
class Chosen:
    """The offcut and the place for one piece."""

    sheet: Sheet
    offer: Offer


class Layout:
    """The offcuts while a plan is made, and what found no place on them."""

    def __init__(self, task: Task) -> None:
        asked = task.sizes or [_size_of(want) for want in task.wants]
        sizes = most_weighty(asked, MOST_SIZES)
        self.task = task
        self.sheets = [Sheet(stock, task.cutting, sizes) for stock in task.stock]
        self.sheets.sort(key=lambda sheet: (sheet.area, sheet.stock.id))
        self.missed: Counter[tuple[str, str]] = Counter()
        self._serving: dict[str, list[Sheet]] = {}
        pieces = single_pieces(task.wants)
        area = sum(want.width * want.height for want, _ in pieces) / 1e12
        self.opening = task.cutting.opening * area / max(len(pieces), 1)

    @property
    def cost(self) -> float:
        """What the stock loses, with what cutting into each offcut counts (mm2)."""
        return sum(sheet.lost + self.opening for sheet in self.sheets if sheet.laid)

    @property
    def lying(self) -> list[tuple[Sheet, Lying]]:
        """What lies where, to come back to with `put_back`."""
        return [(sheet, sheet.lying) for sheet in self.sheets if sheet.laid]

    def put_back(self, lying: Sequence[tuple[Sheet, Lying]]) -> None:
        """Lay everything as it lay before."""
        self.clear()
        for sheet, pieces in lying:
            sheet.put_back(pieces)

    def clear(self) -> None:
        """Take every piece off every offcut."""
        for sheet in self.sheets:
            if sheet.laid:
                sheet.clear()

    def serving(self, want: Wanted) -> list[Sheet]:
        """The offcuts of the right metal, the smallest first."""
        if want.id not in self._serving:
            self._serving[want.id] = [
                sheet for sheet in self.sheets if not why_not(self.task, want, sheet.stock)
            ]
        return self._serving[want.id]

    def lay_cheapest(self, want: Wanted, nth: int) -> bool:
        """Lay one piece where it costs least; False where it finds no place."""
        best: Chosen | None = None
        least = float("inf")
        for sheet in _to_compare(self.serving(want), want):
            offer = sheet.offer(want)
            if offer is not None:
                cost = offer.lost + (0.0 if sheet.laid else self.opening)
                if cost < least:
                    best, least = Chosen(sheet, offer), cost
        if best is not None:
            best.sheet.lay(want, nth, best.offer)
        return best is not None

    def lay_first(self, want: Wanted, nth: int) -> bool:
        """Lay one piece on the largest offcut that holds it, those cut into before the others."""
        serving = self.serving(want)
        opened = [sheet for sheet in serving if sheet.laid]
        fresh = [sheet for sheet in serving if not sheet.laid]
        for sheet in itertools.chain(opened[::-1], fresh[::-1]):
            offer = sheet.offer(want)
            if offer is not None:
                sheet.lay(want, nth, offer)
                return True
        return False


def make_plan(task: Task, go_on: GoOn = lambda _: True) -> Plan:
    """Lay every piece of `task.wants` that can be laid on an offcut.

    The same task gives the same plan. Asks `go_on` before each piece and each round of bettering,
    and ends with what there is where it answers False.
    """
    layout = Layout(task)
    pieces = single_pieces(task.wants)
    placed = 0
    for done, (want, nth) in enumerate(pieces):
        if not go_on(Progress(done, len(pieces), placed)):
            for left, _ in pieces[done:]:
                layout.missed[left.id, "The plan was ended before this piece was looked at."] += 1
            return _plan(layout, stopped=True)
        if layout.lay_cheapest(want, nth):
            placed += 1
        else:
            layout.missed[want.id, _reason(task, want, bool(layout.serving(want)))] += 1
    told = Progress(len(pieces), len(pieces), placed)
    if go_on(told):
        _try_few_offcuts(layout, pieces, placed)
    _better(layout, lambda: go_on(told))
    return _plan(layout, stopped=False)


def _try_few_offcuts(layout: Layout, pieces: Sequence[tuple[Wanted, int]], placed: int) -> None:
    """Lay all pieces on as few large offcuts as may be; kept where that costs less."""
    before, cost = layout.lying, layout.cost
    layout.clear()
    count = sum(layout.lay_first(want, nth) for want, nth in pieces)
    if count < placed or layout.cost >= cost:
        layout.put_back(before)


def _better(layout: Layout, go_on: Callable[[], bool]) -> None:
    """Take the pieces off one offcut or two and lay them anew; kept where it costs less.

    The offcuts that cost most come first. Ends after `MOST_ROUNDS`, or when nothing helps.
    """
    rounds = 0
    helped = True
    while helped:
        helped = False
        opened = [sheet for sheet in layout.sheets if sheet.laid]
        opened.sort(key=lambda sheet: (-sheet.lost, sheet.stock.id))
        groups = [(sheet,) for sheet in opened] + list(itertools.pairwise(opened))
        for group in groups:
            if rounds == MOST_ROUNDS or not go_on():
                return
            rounds += 1
            helped |= _laid_anew(layout, [sheet for sheet in group if sheet.laid])


def _laid_anew(layout: Layout, group: Sequence[Sheet]) -> bool:
    """Lay the pieces of some offcuts anew; False, and as it was, where that does not help."""
    before, cost = layout.lying, layout.cost
    pieces = [piece for sheet in group for piece in sheet.laid]
    pieces.sort(key=lambda piece: (-piece.width * piece.height, piece.want.id, piece.nth))
    for sheet in group:
        sheet.clear()
    laid = all(layout.lay_cheapest(one.want, one.nth) for one in pieces)
    if laid and layout.cost < cost - 1e-6:
        return True
    layout.put_back(before)
    return False


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


def _size_of(want: Wanted) -> Size:
    return Size(want.width, want.height, float(want.count))


def single_pieces(wants: Sequence[Wanted]) -> list[tuple[Wanted, int]]:
    """Every single piece, the largest first; those of one want together."""
    ranked = sorted(wants, key=lambda one: (-one.width * one.height, one.id))
    return [(want, nth) for want in ranked for nth in range(1, want.count + 1)]


def _plan(layout: Layout, stopped: bool) -> Plan:
    return Plan(
        tuple(sheet_plan(sheet) for sheet in layout.sheets if sheet.laid),
        tuple(NotPlaced(want, count, why) for (want, why), count in layout.missed.items()),
        stopped,
    )
