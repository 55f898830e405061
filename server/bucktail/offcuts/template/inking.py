"""The lines of a template put on a page: which are heavy, which are broken, and at what scale."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from bucktail.offcuts.template.drawing import NM_PER_MM, Point
from bucktail.offcuts.template.pen import POINTS_A_MM, Pen, Spot
from bucktail.offcuts.template.shapes import (
    Arrowhead,
    Box,
    Circle,
    Layer,
    Line,
    Rectangle,
    Shape,
    Words,
    apart,
    box_of,
    grown,
)


@dataclass(frozen=True, slots=True)
class Look:
    """Width of a line in mm, and its dashes and gaps."""

    width: float
    dash: tuple[float, ...] = ()


LOOKS: dict[Layer, Look] = {
    "OUTLINE": Look(0.35),
    "HOLES": Look(0.18),
    "HOLE_CENTRES": Look(0.13),
    "BEND_LINES": Look(0.25, (6, 1, 0.8, 1)),
    "BEND_TANGENTS": Look(0.13, (0.8, 0.8)),
    "SIGHT_LINES": Look(0.18, (3, 1.2)),
    "OPENING": Look(0.18, (1.6, 1.2)),
    "GRAIN": Look(0.25),
    "DIMENSIONS": Look(0.13),
    "NOTES": Look(0.13),
}
OVERSHOOT = NM_PER_MM  # of line widths and of type beyond its box


@dataclass(frozen=True, slots=True)
class Place:
    """Where a part of the drawing lies on a page: `window` (nm) has its top left corner at `left`,
    `top` (mm); `scale` 1 is full size."""

    window: Box
    left: float
    top: float
    scale: float = 1.0

    def spot(self, point: Point) -> Spot:
        """A point of the drawing on the page, in mm."""
        across = (point[0] - self.window[0]) * self.scale / NM_PER_MM
        down = (self.window[3] - point[1]) * self.scale / NM_PER_MM
        return (self.left + across, self.top + down)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height on the page, in mm."""
        left, bottom, right, top = self.window
        return ((right - left) * self.scale / NM_PER_MM, (top - bottom) * self.scale / NM_PER_MM)


def ink(pen: Pen, shapes: Iterable[Shape], place: Place, small: bool = False) -> None:
    """Put the shapes on the page, those that reach into the window, clipped to it.

    `small` leaves out words, arrows and lengths: for a drawing too small to read them.
    """
    there = [one for one in shapes if not apart(grown(box_of(one), OVERSHOOT), place.window)]
    if small:
        there = [one for one in there if isinstance(one, Rectangle | Line | Circle)]
        there = [one for one in there if one.layer in ("OUTLINE", "HOLES", "BEND_LINES", "OPENING")]
    with pen.within(place.left, place.top, *place.size):
        for layer, look in LOOKS.items():
            drawn = Look(look.width / 2, (1.2, 0.6) if look.dash else ()) if small else look
            _layer(pen, [one for one in there if one.layer == layer], drawn, place)


def _layer(pen: Pen, shapes: list[Shape], look: Look, place: Place) -> None:
    lines = [one for one in shapes if isinstance(one, Line)]
    pen.lines(
        [(place.spot(one.start), place.spot(one.end)) for one in lines], look.width, look.dash
    )
    rings = [one for one in shapes if isinstance(one, Circle)]
    pen.circles(
        [(place.spot(one.centre), one.diameter * place.scale / NM_PER_MM) for one in rings],
        look.width,
    )
    heads = [one for one in shapes if isinstance(one, Arrowhead)]
    pen.fill([[place.spot(corner) for corner in one.corners] for one in heads])
    for one in shapes:
        if isinstance(one, Rectangle):
            low, high = place.spot((0, one.b)), place.spot((one.a, 0))
            pen.rounded(low, high, one.corner * place.scale / NM_PER_MM, look.width)
        elif isinstance(one, Words):
            points = one.height * place.scale / NM_PER_MM * POINTS_A_MM
            pen.middle(one.text, place.spot(one.at), points, one.upright, one.bold)
