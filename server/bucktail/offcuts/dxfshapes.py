"""The lines and curves of a DXF document as straight and bent shapes, in the drawing's own unit.

Blocks are opened, layers that are off are left out, and what cannot be read as a line but might be
an edge is refused: metal must not be guessed at.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from math import atan2, cos, hypot, isfinite, pi, radians, sin
from typing import TYPE_CHECKING, Any, TypeAlias

from bucktail.offcuts.chords import Piece, Spot, Trace, traced

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.entities import DXFEntity

MOST_SHAPES = 5_000
MOST_NESTED = 4  # blocks within blocks
LARGEST = 1e9  # of a coordinate, in the drawing's unit
LEVEL = 1e-3  # heights that differ by less are the same
#: what is no edge, by the DXF's own names, in words
NO_EDGE = {
    "TEXT": "texts", "MTEXT": "texts", "ATTRIB": "texts", "ATTDEF": "texts",
    "DIMENSION": "dimensions", "ARC_DIMENSION": "dimensions", "LEADER": "dimensions",
    "MULTILEADER": "dimensions", "MLEADER": "dimensions", "TOLERANCE": "dimensions",
    "HATCH": "hatches", "POINT": "points", "XLINE": "construction lines",
    "RAY": "construction lines", "VIEWPORT": "views", "IMAGE": "pictures", "WIPEOUT": "pictures",
    "ACAD_TABLE": "tables",
}  # fmt: skip


class Unread(ValueError):
    """Something in a drawing that no outline may be made of. The message is a sentence."""

    def __init__(self, word: str, sentence: str) -> None:
        super().__init__(sentence)
        self.word = word


@dataclass(frozen=True, slots=True)
class Straight:
    """A straight line."""

    start: Spot
    end: Spot


@dataclass(frozen=True, slots=True)
class Bent:
    """A curve by its trace, smooth between the parameters of `breaks`."""

    trace: Trace
    breaks: tuple[float, ...]


Shape: TypeAlias = Straight | Bent


@dataclass(slots=True)
class Content:
    """What a drawing holds: its edges, how much is on each layer, and what was left out."""

    shapes: list[Shape] = field(default_factory=list)
    layers: Counter[str] = field(default_factory=Counter)
    left_out: Counter[str] = field(default_factory=Counter)
    level: float | None = None

    def add(self, shape: Shape) -> None:
        """One more edge. Raises Unread where there are too many."""
        self.shapes.append(shape)
        if len(self.shapes) > MOST_SHAPES:
            raise Unread(
                "too many",
                f"With its blocks this drawing has more than {MOST_SHAPES:,} lines and curves. "
                "Save the outline of the offcut alone in a file of its own.",
            )

    def spot(self, place: Any) -> Spot:
        """A place of the drawing. Raises Unread where it is absurd, or at another height."""
        x, y, z = float(place[0]), float(place[1]), float(place[2])
        if not all(isfinite(one) and abs(one) < LARGEST for one in (x, y, z)):
            raise Unread(
                "absurd", "A point of this drawing is nowhere: its figures are no lengths."
            )
        if self.level is None:
            self.level = z
        if abs(z - self.level) > LEVEL:
            raise Unread(
                "not flat",
                f"The drawing is not flat: at x {x:.6g}, y {y:.6g} it has another height than "
                "elsewhere. Save it as a flat drawing.",
            )
        return x, y


def pieces_of(shape: Shape, scale: float, tolerance: float) -> list[Piece]:
    """A shape as pieces in nm; `scale` is nm in a unit of the drawing, `tolerance` nm."""
    if isinstance(shape, Straight):
        return [Piece(_times(shape.start, scale), _times(shape.end, scale))]

    def trace(at: float) -> tuple[Spot, Spot]:
        spot, way = shape.trace(at)
        return _times(spot, scale), way

    return traced(trace, shape.breaks, tolerance)


def _times(spot: Spot, scale: float) -> Spot:
    return spot[0] * scale, spot[1] * scale


def layers_of(document: Drawing) -> Counter[str]:
    """The layers on which something is drawn that may be an edge, with how much."""
    return Counter(
        str(entity.dxf.get("layer", "0"))
        for entity in document.modelspace()
        if entity.dxftype() not in NO_EDGE
    )


def collect(document: Drawing, layer: str, content: Content) -> None:
    """Take up all edges of a document, or those of one layer. Raises Unread."""
    hidden = {one.dxf.name.lower() for one in document.layers if one.is_off() or one.is_frozen()}
    _collect(document.modelspace(), content, layer.lower(), hidden, "0", 0)


def _collect(
    entities: Iterable[DXFEntity],
    content: Content,
    layer: str,
    hidden: set[str],
    around: str,
    depth: int,
) -> None:
    """Take up entities; what lies on layer 0 of a block is on the layer the block was put on."""
    for entity in entities:
        kind = entity.dxftype()
        own = str(entity.dxf.get("layer", "0"))
        own = around if own == "0" and depth else own
        if own.lower() in hidden:
            content.left_out["on layers that are switched off"] += 1
        elif kind == "INSERT":
            if depth >= MOST_NESTED:
                raise Unread(
                    "nested", "Blocks lie within blocks too deep in this drawing. Explode them."
                )
            for one in _opened(entity):
                _collect(one, content, layer, hidden, own, depth + 1)
        elif kind in NO_EDGE:
            content.left_out[NO_EDGE[kind]] += 1
        elif not layer or own.lower() == layer:
            for shape in _edges(entity, content):
                content.add(shape)


def _opened(insert: Any) -> Iterator[Iterable[DXFEntity]]:
    """What a block puts into the drawing, as often as it is put there."""
    if insert.mcount > MOST_SHAPES:
        raise Unread("too many", "A block is repeated too often in this drawing. Explode it.")
    for one in insert.multi_insert() if insert.mcount > 1 else (insert,):
        yield one.virtual_entities(skipped_entity_callback=_not_opened)


def _not_opened(entity: DXFEntity, _reason: str) -> None:
    if entity.dxftype() not in NO_EDGE:
        raise _unreadable(entity.dxftype())


def _unreadable(kind: str) -> Unread:
    return Unread(
        "unread",
        f"This drawing has an entity of the kind {kind}, which may be an edge and cannot be read. "
        "Explode it into lines and arcs.",
    )


def _edges(entity: Any, content: Content) -> Iterator[Shape]:
    """The shapes of one entity. Raises Unread for one that is not read."""
    kind = entity.dxftype()
    if kind == "LINE":
        yield Straight(content.spot(entity.dxf.start), content.spot(entity.dxf.end))
    elif kind in ("ARC", "CIRCLE"):
        yield _arc(entity, content, kind == "CIRCLE")
    elif kind == "ELLIPSE":
        yield _ellipse(entity, content)
    elif kind == "SPLINE":
        yield _spline(entity, content)
    elif kind == "LWPOLYLINE" or (
        kind == "POLYLINE" and (entity.is_2d_polyline or entity.is_3d_polyline)
    ):
        for one in entity.virtual_entities():
            yield from _edges(one, content)
    else:
        raise _unreadable(kind)


def _arc(entity: Any, content: Content, whole: bool) -> Bent:
    centre, radius, ocs = entity.dxf.center, float(entity.dxf.radius), entity.ocs()
    start = 0.0 if whole else radians(entity.dxf.start_angle)
    end = 2 * pi if whole else radians(entity.dxf.end_angle)
    while end <= start:
        end += 2 * pi

    def place(x: float, y: float) -> Spot:
        return content.spot(ocs.to_wcs((centre.x + x, centre.y + y, centre.z)))

    # an arc in another plane would not lie level
    middle, right, up = place(0, 0), place(radius, 0), place(0, radius)
    ax, ay = right[0] - middle[0], right[1] - middle[1]
    bx, by = up[0] - middle[0], up[1] - middle[1]
    return Bent(_turning(middle, (ax, ay), (bx, by)), (start, end))


def _turning(middle: Spot, one: Spot, other: Spot) -> Trace:
    """Round a middle: middle + one cos t + other sin t."""

    def trace(at: float) -> tuple[Spot, Spot]:
        c, s = cos(at), sin(at)
        spot = middle[0] + one[0] * c + other[0] * s, middle[1] + one[1] * c + other[1] * s
        return spot, (other[0] * c - one[0] * s, other[1] * c - one[1] * s)

    return trace


def _ellipse(entity: Any, content: Content) -> Bent:
    centre, major, minor = entity.dxf.center, entity.dxf.major_axis, entity.minor_axis
    middle = content.spot(centre)
    content.spot(centre + major)
    content.spot(centre + minor)
    start, end = float(entity.dxf.start_param), float(entity.dxf.end_param)
    if not (isfinite(start) and isfinite(end)) or abs(start) > 100 or abs(end) > 100:
        raise Unread("absurd", "An ellipse of this drawing begins or ends nowhere.")
    while end <= start + 1e-12:
        end += 2 * pi
    return Bent(_turning(middle, (major.x, major.y), (minor.x, minor.y)), (start, end))


def _spline(entity: Any, content: Content) -> Bent:
    tool = entity.construction_tool()
    for point in tool.control_points:
        content.spot(point)
    knots = sorted({float(knot) for knot in tool.knots()})
    low, high = float(tool.knots()[tool.order - 1]), float(tool.knots()[-tool.order])
    breaks = [low, *(knot for knot in knots if low < knot < high), high]
    short = (high - low) * 1e-7

    def trace(at: float) -> tuple[Spot, Spot]:
        point, way = tool.derivative(min(max(at, low), high), 1)
        spot = content.spot(point)
        if hypot(way.x, way.y) > 1e-12:
            return spot, (float(way.x), float(way.y))
        # it stands still here: the way it goes is that to a place a little further
        ahead = tool.point(min(at + short, high))
        behind = tool.point(max(at - short, low))
        angle = atan2(ahead.y - behind.y, ahead.x - behind.x)
        return spot, (cos(angle), sin(angle))

    for at in breaks:  # one that cannot be followed is found here, not later
        trace(at)
    return Bent(trace, tuple(breaks))
