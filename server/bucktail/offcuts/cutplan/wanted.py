"""What a cut plan is made of: pieces wanted, the stock, how it is cut, and the plan itself.

Lengths are whole nm, angles millionths of a degree, counter-clockwise; points lie in the frame of
their offcut.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from bucktail.offcuts.innerfit import Metal
from bucktail.offcuts.laying import Grain, WantedGrain
from bucktail.offcuts.worth import Size

Point = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Wanted:
    """A rectangular piece wanted, `count` times. `own` are ids that a reservation may name."""

    id: str
    name: str
    width: int
    height: int
    count: int = 1
    grain: WantedGrain = "any"
    own: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Stock:
    """An offcut that may be cut.

    `reserved` is None where it is free, else the id of what it is reserved for ("" where that is
    told in words only); `reserved_text` says for what.
    """

    id: str
    name: str
    metal: Metal
    grain: Grain = "unknown"
    reserved: str | None = None
    reserved_text: str = ""


@dataclass(frozen=True, slots=True)
class Cutting:
    """How it is cut.

    `kerf` stays free between any two pieces, `clearance` between a piece and the offcut's edge.
    `opening` is what cutting into one more offcut counts, as a share of the mean area of a piece.
    """

    kerf: int
    clearance: int = 0
    opening: float = 0.25


#: Why an offcut's metal does not serve for a piece, in words; empty where it does.
Serves = Callable[[Wanted, Stock], str]


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a plan has come: pieces dealt with, of how many, and how many of them are placed."""

    done: int
    of: int
    placed: int


#: Told of every step; a plan goes on while it answers True.
GoOn = Callable[[Progress], bool]


@dataclass(frozen=True, slots=True)
class Cut:
    """One piece on one offcut.

    `corners` go round it; the first to the second is its width. `along` and `off` are its two
    running dimensions: from the datum corner along the datum edge, and from the datum edge.
    """

    want: str
    nth: int
    corners: tuple[Point, Point, Point, Point]
    along: Point
    off: Point


@dataclass(frozen=True, slots=True)
class Datum:
    """Where running dimensions start: from the corner `start` along the line to `end`.

    `edge` is False where no edge of the offcut runs that way; then it is a line through its
    outermost point, to be marked first.
    """

    start: Point
    end: Point
    edge: bool


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """What is cut from one offcut, in cutting order.

    `straight` is True where every piece comes free by cuts right across what is left. `lost` is
    the worth it loses and `worth` what it had (mm2, see worth.py).
    """

    stock: str
    angle: int
    datum: Datum
    cuts: tuple[Cut, ...]
    straight: bool
    worth: float
    lost: float


@dataclass(frozen=True, slots=True)
class NotPlaced:
    """So many pieces of a want that found no place, and why."""

    want: str
    count: int
    reason: str


@dataclass(frozen=True, slots=True)
class Plan:
    """A whole plan. `stopped` is True where it was ended before every piece was looked at."""

    sheets: tuple[SheetPlan, ...]
    not_placed: tuple[NotPlaced, ...]
    stopped: bool = False


@dataclass(frozen=True, slots=True)
class Task:
    """All that `make_plan` needs; `sizes` are what the workshop asks for (see worth.py)."""

    wants: tuple[Wanted, ...]
    stock: tuple[Stock, ...]
    cutting: Cutting
    sizes: tuple[Size, ...]
    serves: Serves
