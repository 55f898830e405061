"""What a template shows: the blank of a piece, its holes, bend lines, and words about it.

Whole nanometres throughout; x runs along side a of the blank, y along side b, from the corner at
its datum edge. Nothing here is reckoned: figures come from the rules.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bucktail.rules.lengths import Unit

NM_PER_MM = 1_000_000
Point = tuple[int, int]
#: along which side of the blank the grain runs; empty where it may run either way
Grain = Literal["a", "b", ""]


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole by its centre; `diameter` is that of the finished hole, None where nobody said."""

    x: int
    y: int
    diameter: int | None


@dataclass(frozen=True, slots=True)
class BendLine:
    """A bend along side a, by the place of its middle line from the datum edge.

    `start` and `end` are its tangent lines, `sight` the line under the nose of the brake with the
    datum edge in it; None where only the middle was recorded. `radius` is inside, `angle` in
    degrees bent through, towards the face that is marked.
    """

    at: int
    angle: int
    radius: int
    start: int | None = None
    end: int | None = None
    sight: int | None = None


@dataclass(frozen=True, slots=True)
class Blank:
    """One flat piece of sheet. `corner` is the radius of its corners, `opening` a rectangle that is
    not cut but shown: the hole in the skin that a patch covers."""

    name: str
    sheet: str
    a: int
    b: int
    grain: Grain = ""
    corner: int = 0
    holes: tuple[Hole, ...] = ()
    bends: tuple[BendLine, ...] = ()
    opening: tuple[Point, Point] | None = None


@dataclass(frozen=True, slots=True)
class Template:
    """All blanks of a piece wanted with what is said of it.

    `facts` are short lines, `remarks` sentences; `code` is the ten symbols of its tag, empty where
    it has none. `made` is the date as it is printed; `unit` that of the lengths on the drawing;
    `hole_size` says how large its holes are.
    """

    name: str
    blanks: tuple[Blank, ...]
    facts: tuple[str, ...]
    remarks: tuple[str, ...]
    cautions: tuple[str, ...]
    code: str
    made: str
    rules: str
    unit: Unit
    hole_size: str = ""
