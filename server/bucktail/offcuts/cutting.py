"""What cutting a piece leaves: the blanks, the remnants worth keeping, and the dust.

Lengths are whole nanometres. Areas are counted in whole square nanometres, doubled where corners
are not square, so that nothing is rounded on the way: what was there is what was made, what is
left and what became dust, to the last one.

**Rectangles** are cut edge to edge, as shears, snips and a bandsaw cut: each cut goes right across
the piece that is held, along a side of a blank, and parts it in two. What stays is rectangles. The
cut takes its width, the kerf, from the side away from the blank, so a blank keeps its size.
web/src/offcuts/cutting/straight.ts is the same for the phone; tests/vectors/cuts.json holds both
together.

**Outlines** are left whole around the blank grown by the kerf: the difference of the two, exact to
the whole nanometre, which falls apart into as many remnants as it does.

**Section stock** is cut across, in one dimension.

The three are the same act, so `Leaves` is what each of them gives.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from bucktail.rules.materials import SheetMetal

Point = tuple[int, int]
Ring = tuple[Point, ...]
Box = tuple[int, int, int, int]
Axis = Literal["x", "y"]

NM2_PER_UM2 = 1_000_000
#: A shred of less than one square micrometre that is left between two roundings is dust.
LEAST_AREA_NM2 = NM2_PER_UM2


class NotStraight(ValueError):
    """No order of cuts from edge to edge frees these blanks; they have to be cut out."""


@dataclass(frozen=True, slots=True)
class Region:
    """A piece of sheet: outer corners counter-clockwise, those of each hole clockwise (nm)."""

    outer: Ring
    holes: tuple[Ring, ...] = ()

    @property
    def doubled_nm2(self) -> int:
        """Twice its area (nm2), holes taken off."""
        return doubled_area(self.outer) + sum(doubled_area(hole) for hole in self.holes)


@dataclass(frozen=True, slots=True)
class Leaves:
    """What a cut leaves of a sheet. Twice the area of the dust (nm2), so that it is whole."""

    remnants: tuple[Region, ...]
    doubled_dust_nm2: int

    @property
    def dust_um2(self) -> int:
        """The dust as it is recorded: to the nearest whole um2, never below zero."""
        return max(0, (self.doubled_dust_nm2 + NM2_PER_UM2) // (2 * NM2_PER_UM2))


def doubled_area(ring: Sequence[Point]) -> int:
    """Twice the area (nm2) inside corners in order; negative for clockwise ones."""
    onward = [*ring[1:], ring[0]]
    return sum(x * v - u * y for (x, y), (u, v) in zip(ring, onward, strict=True))


def box_ring(box: Box) -> Ring:
    """The corners of a box, counter-clockwise from the lowest left one."""
    x0, y0, x1, y1 = box
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def is_useful(region: Region, least_useful: int) -> bool:
    """False for a remnant narrower (along x or y) than the workshop keeps: recycle it?"""
    xs, ys = [x for x, _ in region.outer], [y for _, y in region.outer]
    return min(max(xs) - min(xs), max(ys) - min(ys)) >= least_useful


def mass_g(metal: SheetMetal, thickness_nm: int, doubled_nm2: int) -> Fraction:
    """Mass (g) of bare sheet, exact: density (kg/m3) x thickness (nm) x area (doubled nm2).

    Source: as rules/weights.py, whose densities these are. 1 kg/m3 x 1 nm x 1 nm2 is 1e-24 g.
    """
    return Fraction(metal.density * thickness_nm * doubled_nm2, 2 * 10**24)


def cut_rectangle(
    a: int, b: int, blanks: Sequence[Box], kerf: int = 0, first: Axis = "x"
) -> Leaves:
    """What is left of a sheet of `a` (x) by `b` (y) after cuts from edge to edge free the blanks.

    Boxes are (x0, y0, x1, y1). `first` "x" cuts along the blanks' upright sides first, right across
    the sheet, and then their level ones; "y" the other way round. Raises ValueError where a blank
    does not lie on the sheet or lies on another, NotStraight where no such order of cuts exists or
    two blanks are closer together than a cut is wide.
    """
    if kerf < 0:
        raise ValueError("a cut is not narrower than nothing")
    sheet: Box = (0, 0, a, b)
    for at, blank in enumerate(blanks):
        if not (_is_box(blank) and _within(blank, sheet)):
            raise ValueError("a blank does not lie on the sheet")
        if any(_overlap(blank, other) for other in blanks[:at]):
            raise ValueError("two blanks lie on each other")
    pieces: list[Box] = []
    dust = _part(sheet, list(blanks), kerf, first, pieces)
    return Leaves(tuple(Region(box_ring(piece)) for piece in pieces), 2 * dust)


def _part(piece: Box, blanks: list[Box], kerf: int, first: Axis, left: list[Box]) -> int:
    """Cut a piece until its blanks are free; adds what stays to `left`, returns the dust (nm2)."""
    if not blanks:
        left.append(piece)
        return 0
    if blanks == [piece]:
        return 0
    for axis in (0, 1) if first == "x" else (1, 0):
        for low, high in _bands(piece, blanks, kerf, axis):
            before, band, after = _across(piece, low, high, axis)
            if any(_overlap(band, blank) for blank in blanks):
                continue
            dust = (band[2] - band[0]) * (band[3] - band[1])
            for side in (before, after):
                if _is_box(side):
                    on_it = [blank for blank in blanks if _within(blank, side)]
                    dust += _part(side, on_it, kerf, first, left)
            return dust
    raise NotStraight("these blanks cannot be freed by cuts from edge to edge")


def _bands(piece: Box, blanks: list[Box], kerf: int, axis: int) -> list[tuple[int, int]]:
    """Where a cut along a side of a blank runs on the piece, from and to along the axis."""
    start, end = piece[axis], piece[axis + 2]
    found = []
    for blank in blanks:
        low, high = blank[axis], blank[axis + 2]
        if low > start:
            found.append((max(low - kerf, start), low))
        if high < end:
            found.append((high, min(high + kerf, end)))
    return sorted(set(found))


def _across(piece: Box, low: int, high: int, axis: int) -> tuple[Box, Box, Box]:
    """The piece before a band across it, the band, and the piece after it."""
    x0, y0, x1, y1 = piece
    if axis == 0:
        return (x0, y0, low, y1), (low, y0, high, y1), (high, y0, x1, y1)
    return (x0, y0, x1, low), (x0, low, x1, high), (x0, high, x1, y1)


def _is_box(box: Box) -> bool:
    return box[0] < box[2] and box[1] < box[3]


def _within(box: Box, outer: Box) -> bool:
    return outer[0] <= box[0] and outer[1] <= box[1] and box[2] <= outer[2] and box[3] <= outer[3]


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def cut_out(sheet: Region, blanks: Sequence[Ring], kerf: int = 0) -> Leaves:
    """What is left of an outline after blanks of any shape are cut out along their own edges.

    Blanks are counter-clockwise corners in the sheet's frame. Raises ValueError where one does not
    lie wholly on the sheet (to 1 um2), lies on another, or the kerf is below zero.
    """
    import pyclipper

    if kerf < 0:
        raise ValueError("a cut is not narrower than nothing")
    metal = [list(sheet.outer), *(list(hole) for hole in sheet.holes)]
    rings = [list(blank) for blank in blanks]
    made = sum(doubled_area(ring) for ring in rings)
    if _doubled(_clip(pyclipper.CT_DIFFERENCE, rings, metal)) > 2 * LEAST_AREA_NM2:
        raise ValueError("a blank does not lie on the sheet")
    if made - _doubled(_clip(pyclipper.CT_UNION, rings, [])) > 2 * LEAST_AREA_NM2:
        raise ValueError("two blanks lie on each other")
    grown = rings
    if kerf:
        offset = pyclipper.PyclipperOffset(miter_limit=4.0)
        offset.AddPaths(rings, pyclipper.JT_MITER, pyclipper.ET_CLOSEDPOLYGON)
        grown = offset.Execute(kerf)
    regions = _clip(pyclipper.CT_DIFFERENCE, metal, grown)
    remnants = tuple(one for one in regions if one.doubled_nm2 >= 2 * LEAST_AREA_NM2)
    return Leaves(remnants, sheet.doubled_nm2 - made - _doubled(remnants))


def _clip(how: int, subject: list[list[Point]], clip: list[list[Point]]) -> list[Region]:
    """One operation on rings, as separate regions with their holes."""
    import pyclipper

    clipper = pyclipper.Pyclipper()
    clipper.AddPaths(subject, pyclipper.PT_SUBJECT, True)
    if clip:
        clipper.AddPaths(clip, pyclipper.PT_CLIP, True)
    # holes run the other way round, so that counting turns leaves them out
    filled = pyclipper.PFT_NONZERO
    tree = clipper.Execute2(how, filled, filled)
    found: list[Region] = []
    waiting = list(tree.Childs)
    while waiting:
        node = waiting.pop()
        holes = tuple(_turned(hole.Contour, -1) for hole in node.Childs)
        found.append(Region(_turned(node.Contour, 1), holes))
        waiting += [island for hole in node.Childs for island in hole.Childs]
    return sorted(found, key=lambda one: (-one.doubled_nm2, one.outer))


def _turned(contour: Sequence[Sequence[int]], way: int) -> Ring:
    """Corners counter-clockwise (way 1) or clockwise (way -1)."""
    ring = tuple((int(x), int(y)) for x, y in contour)
    return ring if doubled_area(ring) * way > 0 else ring[::-1]


def _doubled(regions: Sequence[Region]) -> int:
    return sum(region.doubled_nm2 for region in regions)


def to_corner(region: Region) -> tuple[Region, Point]:
    """The region moved so that its lowest x and y are 0, and where that corner was."""
    x, y = min(u for u, _ in region.outer), min(v for _, v in region.outer)
    moved = [tuple((u - x, v - y) for u, v in ring) for ring in (region.outer, *region.holes)]
    return Region(moved[0], tuple(moved[1:])), (x, y)


@dataclass(frozen=True, slots=True)
class LengthLeaves:
    """What cuts leave of a length of section stock (nm)."""

    remnant: int
    dust: int


def cut_length(length: int, blanks: Sequence[int], kerf: int = 0, dress: int = 0) -> LengthLeaves:
    """Saw blanks one after another off a length; each is left `dress` longer and filed to size.

    A blank that takes all that is there needs no cut. Raises ValueError where they are longer
    together than what is there, or a length, kerf or dress-off is below zero.
    """
    if min(length, kerf, dress, *blanks) < 0:
        raise ValueError("lengths are 0 or more")
    left, made = length, 0
    for blank in blanks:
        if blank + dress > left:
            raise ValueError("the blanks are longer than what is there")
        made += blank
        left = max(0, left - blank - dress - kerf)
    return LengthLeaves(left, length - made - left)
