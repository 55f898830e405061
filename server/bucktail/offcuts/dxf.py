"""Outlines out of a DXF file.

Bounded before anything is parsed: bytes, entities and points are counted by a quick scan. What is
wrong is said with the place, in the file's own unit, so that it can be found in the drawing.
"""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bucktail.offcuts.chords import Spot
from bucktail.offcuts.crossings import Side, meetings
from bucktail.offcuts.dxfshapes import Bent, Content, Shape, Unread, collect, layers_of, pieces_of
from bucktail.offcuts.joining import (
    JOIN,
    NotClosed,
    Region,
    regions_of,
    ring_points,
    rings_of,
    without_doubles,
)
from bucktail.offcuts.outline import MOST_POINTS, Outline, OutlineFaulty, Ring, outline, tidied
from bucktail.offcuts.rectangle import LONGEST_NM

if TYPE_CHECKING:
    from ezdxf.document import Drawing

MOST_BYTES = 12 * 1024 * 1024
MOST_ENTITIES = 10_000
MOST_PLACES = 20_000  # points of polylines, splines and all else
MOST_OUTLINES = 50
MOST_RINGS = 400
LEAST_NM, LARGEST_NM = 2_000_000.0, 2.0 * LONGEST_NM  # of all that is drawn
NM_PER_MM = 1_000_000
ALONE = "Save the outline of the offcut alone in a file of its own."
BROKEN = "This DXF is broken off or damaged and cannot be read whole. Save the drawing again."
#: chords as near as this to the curve, in nm; the coarser ones where there are too many points
TOLERANCES = (50_000.0, 100_000.0, 200_000.0, 500_000.0)

#: nm in a unit, and its name, by the number that $INSUNITS has for it in the DXF reference
UNITS: dict[int, tuple[float, str]] = {
    1: (25_400_000.0, "in"), 2: (304_800_000.0, "ft"), 4: (1_000_000.0, "mm"),
    5: (10_000_000.0, "cm"), 6: (1_000_000_000.0, "m"), 9: (25_400.0, "mil"),
    10: (914_400_000.0, "yd"), 13: (1_000.0, "µm"), 14: (100_000_000.0, "dm"),
}  # fmt: skip
SAID = {"mm": UNITS[4], "in": UNITS[1]}

# a line with the code 0 and under it a name: the start of an entity; a value 0 has a code beneath
_ENTITY = re.compile(rb"(?:^|\n)[ \t]*0[ \t]*\r?\n[ \t]*([A-Z][A-Z0-9_]*)")
_PLACE = re.compile(rb"\n[ \t]*1[01][ \t]*\r?\n")
_FRAMEWORK = frozenset({b"SECTION", b"ENDSEC", b"EOF", b"TABLE", b"ENDTAB", b"CLASS"})


class DxfRefused(ValueError):
    """A file no outline comes of. `word` is a fixed name of the reason, the message what to do.

    `spots` and `sides` are where the fault is, `rings` what was found so far, nm in the drawing's
    own frame; `layers` the layers that have lines, with how many.
    """

    def __init__(
        self,
        word: str,
        sentence: str,
        spots: Sequence[Spot] = (),
        sides: Sequence[Side] = (),
        rings: Sequence[Ring] = (),
    ) -> None:
        super().__init__(sentence)
        self.word, self.sides, self.rings = word, tuple(sides), tuple(rings)
        self.spots = tuple((round(x), round(y)) for x, y in spots)
        self.layers: dict[str, int] = {}


@dataclass(frozen=True, slots=True)
class Read:
    """What a file held: outlines, the largest first, the unit they were read in, what was left out,
    and the layers that have lines, with how many."""

    outlines: tuple[Outline, ...]
    unit: str
    notes: tuple[str, ...]
    layers: dict[str, int]


def read_outlines(file: bytes, unit: str = "", layer: str = "") -> Read:
    """All closed outlines of a DXF with their holes.

    `unit` is mm or in where a person said so, which counts more than the file; `layer` takes one
    layer alone. Raises DxfRefused.
    """
    scan(file)
    content = Content()
    try:
        document = _parsed(file)
        _collect(document, layer, content)
        return _read(document, content, unit, layer)
    except Unread as problem:
        refused = DxfRefused(problem.word, str(problem))
        refused.layers = dict(content.layers)
        raise refused from None
    except DxfRefused as refused:
        refused.layers = dict(content.layers)
        raise


def scan(file: bytes) -> None:
    """Refuse what is no DXF, or too large, in a fraction of a second. Raises DxfRefused."""
    if b"\0" in file[:4096]:
        raise DxfRefused(
            "not text", "This is no DXF written as text. Save the drawing as an ASCII DXF."
        )
    entities = sum(found[1] not in _FRAMEWORK for found in _ENTITY.finditer(file))
    if not entities and b"SECTION" not in file[:4096]:
        raise DxfRefused("not dxf", "This is no DXF file. Choose another file.")
    if not file[-64:].rstrip().endswith(b"EOF"):
        raise DxfRefused("broken", BROKEN)
    if entities > MOST_ENTITIES:
        raise DxfRefused(
            "too many",
            f"This drawing has {entities:,} entities; at most {MOST_ENTITIES:,} are read. {ALONE}",
        )
    places = sum(1 for _ in _PLACE.finditer(file))
    if places > MOST_PLACES:
        raise DxfRefused(
            "too many",
            f"This drawing has {places:,} points; at most {MOST_PLACES:,} are read, and an outline "
            f"may have {MOST_POINTS:,}. Save it with fewer points.",
        )
    if len(file) > MOST_BYTES:
        raise DxfRefused(
            "too large",
            f"This file has {len(file) >> 20} MB; at most {MOST_BYTES >> 20} MB are read. {ALONE}",
        )


def _parsed(file: bytes) -> Drawing:
    """The document; one that is not as it should be is mended where that can be done."""
    import ezdxf  # costs a third of a second: only where a DXF is read
    from ezdxf import recover

    try:
        text = file.decode("utf-8", errors="replace")
        return ezdxf.read(io.StringIO(text, newline=None))
    except Exception:  # whatever a broken file does to a parser
        try:
            document, auditor = recover.read(io.BytesIO(file), errors="ignore")
        except Exception:
            raise DxfRefused("broken", BROKEN) from None
    # what was mended may have lost an edge
    if auditor.has_errors or auditor.has_fixes:
        raise DxfRefused("broken", BROKEN)
    return document


def _collect(document: Drawing, layer: str, content: Content) -> None:
    """Take up the edges of the drawing. Raises Unread, and DxfRefused where an entity is broken."""
    try:
        content.layers.update(layers_of(document))
        collect(document, layer, content)
    except Unread:
        raise
    except Exception:  # whatever an entity without its own figures does to its library
        raise DxfRefused("broken", BROKEN) from None


def _read(document: Drawing, content: Content, unit: str, layer: str) -> Read:
    if not content.shapes:
        where = f" on the layer {layer}" if layer else ""
        raise DxfRefused("nothing", f"There is no line, arc or curve{where} in this drawing.")
    scale, name = _unit(document, content, unit)
    _likely(content, scale, name)
    for tolerance in TOLERANCES:
        regions, doubles = _regions(content, scale, tolerance)
        rings = [
            tuple(tuple(ring_points(ring)) for ring in (region.outer, *region.holes))
            for region in regions
        ]
        if max(sum(map(len, one)) for one in rings) <= MOST_POINTS:
            break
    notes = [f"{count} {what} left out." for what, count in sorted(content.left_out.items())]
    if doubles:
        notes.append(f"{doubles} lines that were drawn twice left out.")
    if tolerance > TOLERANCES[0]:
        notes.append(f"Curves are followed within {tolerance / NM_PER_MM:g} mm.")
    return Read(_checked(rings, scale, name), name, tuple(notes), dict(content.layers))


def _unit(document: Drawing, content: Content, unit: str) -> tuple[float, str]:
    """Nanometres in a unit of the drawing, and its name. Raises DxfRefused where nobody said."""
    if unit:
        return SAID[unit]
    told = document.header.get("$INSUNITS", 0)
    if told in UNITS:
        return UNITS[told]
    wide, high = _size(content)
    raise DxfRefused(
        "unit",
        f"The file does not say its unit. What is drawn is {wide:.6g} by {high:.6g}: say whether "
        "that is in millimetres or in inches.",
    )


def _size(content: Content) -> tuple[float, float]:
    """About how wide and how high all that is drawn is, in the drawing's unit."""
    spots = [spot for shape in content.shapes for spot in _reach(shape)]
    wide, high = (max(one) - min(one) for one in zip(*spots, strict=True))
    return wide, high


def _likely(content: Content, scale: float, name: str) -> None:
    """Refuse a drawing that is too small or too large to be an offcut: its unit is another."""
    wide, high = _size(content)
    if LEAST_NM <= max(wide, high) * scale <= LARGEST_NM:
        return
    raise DxfRefused(
        "unit",
        f"Read in {name}, what is drawn is {wide * scale / NM_PER_MM:.3g} by "
        f"{high * scale / NM_PER_MM:.3g} mm, which is no offcut. Say whether the drawing is in "
        "millimetres or in inches.",
    )


def _reach(shape: Shape) -> list[Spot]:
    if isinstance(shape, Bent):
        low, high = shape.breaks[0], shape.breaks[-1]
        return [shape.trace(low + (high - low) * part / 8)[0] for part in range(9)]
    return [shape.start, shape.end]


def _regions(content: Content, scale: float, tolerance: float) -> tuple[list[Region], int]:
    alone = sum(isinstance(shape, Bent) and _closed(shape) for shape in content.shapes)
    if alone > MOST_RINGS:  # before any of them is followed
        raise _too_many_rings(alone)
    curves = [pieces_of(shape, scale, tolerance) for shape in content.shapes]
    kept, doubles = without_doubles(curves)
    try:
        rings = rings_of(kept)
    except NotClosed as problem:
        raise _not_closed(problem, scale) from None
    if not rings:
        raise DxfRefused("nothing", "All lines of this drawing are shorter than can be measured.")
    if len(rings) > MOST_RINGS:
        raise _too_many_rings(len(rings))
    regions = regions_of(rings)
    if len(regions) > MOST_OUTLINES:
        raise DxfRefused(
            "too many",
            f"This drawing has {len(regions)} pieces that lie apart; at most {MOST_OUTLINES} are "
            f"read. {ALONE}",
        )
    return regions, doubles


def _closed(shape: Bent) -> bool:
    """A curve that ends where it begins, such as a circle."""
    (x0, y0), (x1, y1) = (shape.trace(at)[0] for at in (shape.breaks[0], shape.breaks[-1]))
    return abs(x0 - x1) + abs(y0 - y1) < 1e-9 * (1 + abs(x0) + abs(y0))


def _too_many_rings(count: int) -> DxfRefused:
    return DxfRefused(
        "too many",
        f"This drawing has {count} closed outlines; at most {MOST_RINGS} are read. {ALONE}",
    )


def _not_closed(problem: NotClosed, scale: float) -> DxfRefused:
    where = place_words(problem.spots[0], scale)
    chains = [tuple((round(x), round(y)) for x, y in chain) for chain in problem.chains]
    if problem.code == "branch":
        sentence = (
            f"More than two lines meet at {where}, so it is not clear which way the edge goes. "
            "Take out what is not an edge, or choose the layer that has the edges."
        )
        return DxfRefused("branch", sentence, problem.spots, rings=chains)
    gap = ""
    if problem.nearest is not None:
        gap = f", {problem.nearest / NM_PER_MM:.3g} mm from the nearest other loose end"
    sentence = (
        f"The outline is open at {where}{gap}. Close it there (ends up to {JOIN / NM_PER_MM:g} mm "
        "apart are taken as one), or choose the layer that has the edges."
    )
    return DxfRefused("open", sentence, problem.spots, rings=chains)


def place_words(spot: Spot, scale: float) -> str:
    """Where something is, as the drawing counts."""
    x, y = (round(one / scale, 4) + 0.0 for one in spot)
    return f"x {x:g}, y {y:g}"


def _checked(rings: Sequence[tuple[Ring, ...]], scale: float, unit: str) -> tuple[Outline, ...]:
    """The outlines, each sound and none across another."""
    tidy = [[tidied(ring) for ring in one] for one in rings]
    everything = [ring for one in tidy for ring in one]
    found = []
    for outer, *holes in tidy:
        try:
            found.append(outline(outer, holes))
        except OutlineFaulty as problem:
            fault = problem.faults[0]
            where = f" That is at {place_words(fault.points[0], scale)}." if fault.points else ""
            raise DxfRefused(
                fault.code, fault.sentence + where, fault.points, fault.sides, everything
            ) from None
    if len(tidy) > 1:
        _apart(everything, scale)
    return tuple(sorted(found, key=lambda one: -one.area_um2))


def _apart(rings: Sequence[Ring], scale: float) -> None:
    """No two rings of the whole drawing may meet. Raises DxfRefused."""
    sides = [list(zip(ring, [*ring[1:], *ring[:1]], strict=True)) for ring in rings]
    met = meetings(sides, 1)
    if met:
        raise DxfRefused(
            "crossed",
            f"Two outlines meet at {place_words(met[0].at, scale)}. Draw them apart, or choose the "
            "layer that has the edges.",
            (met[0].at,),
            met[0].sides,
            rings,
        )
