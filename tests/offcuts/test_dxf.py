"""Outlines out of DXF files: what is drawn is read, never more metal, and every fault is said."""

from __future__ import annotations

import io
import time
from collections.abc import Callable
from math import cos, pi, sin
from random import Random
from typing import Any

import ezdxf
import pytest
import shapely
from ezdxf.document import Drawing
from hypothesis import given, settings
from hypothesis import strategies as st

from bucktail.offcuts.dxf import DxfRefused, Read, read_outlines, scan
from bucktail.offcuts.outline import MOST_POINTS

MM = 1_000_000
Space = Any
SQUARE = [(0, 0), (100, 0), (100, 50), (0, 50)]


def made(fill: Callable[[Space, Drawing], object], units: int = 4, version: str = "R2010") -> bytes:
    """A DXF file with what `fill` draws."""
    document = ezdxf.new(version)
    document.header["$INSUNITS"] = units
    fill(document.modelspace(), document)
    text = io.StringIO()
    document.write(text)
    return text.getvalue().encode("utf-8")


def written(entities: list[str]) -> bytes:
    """A file with these entities and nothing else, as the oldest programs write it."""
    body = "".join(f"  0\n{one}" for one in entities)
    return f"  0\nSECTION\n  2\nENTITIES\n{body}  0\nENDSEC\n  0\nEOF\n".encode()


def square(space: Space, _: object = None) -> None:
    space.add_lwpolyline(SQUARE, close=True)


def refused(file: bytes, **how: str) -> DxfRefused:
    with pytest.raises(DxfRefused) as caught:
        read_outlines(file, **how)
    return caught.value


def areas(read: Read) -> list[float]:
    """Areas in mm2."""
    return [one.area_um2 / 1e6 for one in read.outlines]


# --- what is read -------------------------------------------------------------------------------


def lines_and_arcs(space: Space, _: Drawing) -> None:
    """A square with a half circle on top and a hole, its lines in no order and every way round."""
    space.add_line((0, 0), (100, 0))
    space.add_line((100, 50), (100, 0))
    space.add_arc((50, 50), 50, 0, 180)
    space.add_line((0, 50), (0, 0.00001))
    space.add_circle((50, 50), 10)
    space.add_text("offcut 7")


def test_lines_and_arcs_are_joined_end_to_end() -> None:
    read = read_outlines(made(lines_and_arcs))
    [outline] = read.outlines
    assert outline.size_nm == (100 * MM, 100 * MM) and len(outline.holes) == 1
    whole = 5000 + pi * 50**2 / 2 - pi * 10**2
    # chords within 0.05 mm of the arcs, on the side where metal is
    assert whole - 0.05 * (pi * 50 + 2 * pi * 10) < areas(read)[0] < whole
    assert read.notes == ("1 texts left out.",) and read.unit == "mm"


@pytest.mark.parametrize(
    ("units", "said", "side", "name"),
    [
        (4, "", 100 * MM, "mm"),
        (1, "", 2540 * MM, "in"),
        (5, "", 1000 * MM, "cm"),
        (1, "mm", 100 * MM, "mm"),
        (0, "mm", 100 * MM, "mm"),
        (0, "in", 2540 * MM, "in"),
    ],
)
def test_the_unit_is_the_files_unless_a_person_says_another(
    units: int, said: str, side: int, name: str
) -> None:
    read = read_outlines(made(square, units), unit=said)
    assert read.outlines[0].size_nm[0] == side and read.unit == name


def test_without_a_unit_it_is_asked_for_with_the_size() -> None:
    def old(space: Space, _: Drawing) -> None:
        space.add_polyline2d(SQUARE, close=True)

    # the oldest files have no place for a unit; 3 is miles
    for file in (made(square, 0), made(square, 3), made(old, 4, version="R12")):
        problem = refused(file)
        assert problem.word == "unit"
        assert "100 by 50" in str(problem) and "millimetres or in inches" in str(problem)


def test_rings_in_rings_are_holes_and_pieces_of_their_own() -> None:
    def draw(space: Space, _: Drawing) -> None:
        square(space)
        space.add_circle((50, 25), 20)
        space.add_circle((50, 25), 5)  # a piece within the hole
        space.add_lwpolyline([(x + 200, y) for x, y in SQUARE[::-1]], close=True)

    read = read_outlines(made(draw))
    assert [len(one.holes) for one in read.outlines] == [0, 1, 0]
    assert areas(read)[0] == 5000
    assert areas(read)[1] == pytest.approx(5000 - pi * 400, abs=8)
    assert areas(read)[2] == pytest.approx(pi * 25, abs=1)


def test_curves_of_polylines_and_blocks_are_read() -> None:
    def draw(space: Space, document: Drawing) -> None:
        # a slot: two straight sides, two half circles
        slot = document.blocks.new("SLOT")
        slot.add_lwpolyline(
            [(0, 0, 0), (20, 0, 1), (20, 10, 0), (0, 10, 1)], format="xyb", close=True
        )
        square(space)
        space.add_blockref("SLOT", (20, 20))
        space.add_blockref("SLOT", (60, 20), dxfattribs={"xscale": 0.5})
        space.add_polyline2d([(5, 5), (10, 5), (10, 10)], close=True)

    [outline] = read_outlines(made(draw)).outlines
    assert len(outline.holes) == 3
    slots = (200 + pi * 25) * 1.5
    assert outline.area_um2 / 1e6 == pytest.approx(5000 - slots - 12.5, abs=6)
    assert outline.area_um2 / 1e6 < 5000 - slots - 12.5


def test_mirrored_arcs_lie_where_they_are_seen() -> None:
    """An arc whose plane is seen from behind has its x counted the other way."""

    def draw(space: Space, _: Drawing) -> None:
        for start, end in (((0, 0), (-100, 0)), ((-100, 50), (-100, 0)), ((0, 50), (0, 0))):
            space.add_line(start, end)
        space.add_arc((50, 50), 50, 0, 180, dxfattribs={"extrusion": (0, 0, -1)})

    [outline] = read_outlines(made(draw)).outlines
    assert outline.size_nm == (100 * MM, 100 * MM)


def test_layers_are_all_taken_or_one() -> None:
    def draw(space: Space, document: Drawing) -> None:
        document.layers.add("frame")
        document.layers.add("old").off()
        square(space)
        space.add_line((0, 0), (500, 500), dxfattribs={"layer": "frame"})
        space.add_circle((50, 25), 5, dxfattribs={"layer": "old"})

    file = made(draw)
    problem = refused(file)
    assert problem.word == "branch" and problem.layers == {"0": 1, "frame": 1, "old": 1}
    read = read_outlines(file, layer="0")
    assert areas(read) == [5000]
    assert read.notes == ("1 on layers that are switched off left out.",)
    assert "on the layer nothing" in str(refused(file, layer="nothing"))


def test_lines_drawn_twice_count_once() -> None:
    read = read_outlines(made(lambda space, _: (square(space), square(space))))
    assert areas(read) == [5000] and read.notes == ("4 lines that were drawn twice left out.",)


@pytest.mark.parametrize("gap", [0.0, 0.001, 0.04])
def test_ends_that_nearly_meet_are_one(gap: float) -> None:
    def draw(space: Space, _: Drawing) -> None:
        space.add_lwpolyline([*SQUARE, (0, gap)])

    assert areas(read_outlines(made(draw)))[0] == pytest.approx(5000, abs=30 * gap + 1e-6)


# --- never more metal than is drawn -------------------------------------------------------------


def bulging(chance: Random) -> list[tuple[float, float, float]]:
    """A ring of corners with arcs of every sort between them, as (x, y, bulge)."""
    count = chance.randint(3, 12)
    ring = []
    for n in range(count):
        angle = 2 * pi * (n + chance.uniform(-0.2, 0.2)) / count
        far = chance.uniform(60, 140)
        bulge = chance.choice((0, 0, chance.uniform(-0.35, 0.35)))
        ring.append((200 + far * cos(angle), 200 + far * sin(angle), bulge))
    return ring


def true_points(entity: Any, count: int = 400) -> list[tuple[float, float]]:
    """Points that lie on an entity exactly, as its own library works them out."""
    kind = entity.dxftype()
    if kind == "LWPOLYLINE":
        return [spot for one in entity.virtual_entities() for spot in true_points(one, count)]
    if kind == "LINE":
        return [(entity.dxf.start.x, entity.dxf.start.y), (entity.dxf.end.x, entity.dxf.end.y)]
    if kind == "ARC":
        low, high = entity.dxf.start_angle, entity.dxf.end_angle
        high += 360 if high <= low else 0
        angles = [low + (high - low) * n / count for n in range(count + 1)]
        return [(spot.x, spot.y) for spot in entity.vertices(angles)]
    if kind == "ELLIPSE":
        params = [2 * pi * n / count for n in range(count)]
        return [(spot.x, spot.y) for spot in entity.vertices(params)]
    tool = entity.construction_tool()
    return [(p.x, p.y) for p in (tool.point(tool.max_t * n / count) for n in range(count + 1))]


def edge_stays_outside(file: bytes) -> None:
    """Read, and ask that no point of a drawn edge lies within the metal that is claimed."""
    try:
        read = read_outlines(file)
    except DxfRefused as problem:
        assert problem.word in ("crossed", "touching"), str(problem)
        return
    document = ezdxf.read(io.StringIO(file.decode("utf-8")))
    outline = read.outlines[0]
    spots = [spot for entity in document.modelspace() for spot in true_points(entity)]
    points = shapely.points(spots)
    metal = shapely.Polygon(
        [(x / MM, y / MM) for x, y in outline.outer],
        [[(x / MM, y / MM) for x, y in hole] for hole in outline.holes],
    )
    deep = shapely.distance(points[shapely.contains(metal, points)], metal.boundary)
    assert deep.size == 0 or deep.max() < 1e-5


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 2**32))
def test_chords_of_arcs_lie_within_the_metal(seed: int) -> None:
    ring = bulging(Random(seed))

    def draw(space: Space, _: Drawing) -> None:
        # the corner at 0, 0 is drawn, so that the reading is not moved
        space.add_lwpolyline(
            [(0, 0, 0), (400, 0, 0), (400, 400, 0), (0, 400, 0)], format="xyb", close=True
        )
        space.add_lwpolyline(ring, format="xyb", close=True)

    edge_stays_outside(made(draw))


@pytest.mark.parametrize("as_hole", [False, True])
@settings(max_examples=10, deadline=None)
@given(seed=st.integers(0, 2**32))
def test_splines_and_ellipses_lie_within_the_metal(as_hole: bool, seed: int) -> None:
    chance = Random(seed)
    count = chance.randint(5, 10)
    fit = []
    for n in range(count):
        angle, far = 2 * pi * n / count, chance.uniform(70, 130)
        fit.append((200 + far * cos(angle), 200 + far * sin(angle), 0.0))

    def draw(space: Space, _: Drawing) -> None:
        if as_hole:
            space.add_lwpolyline([(0, 0), (400, 0), (400, 400), (0, 400)], close=True)
            space.add_ellipse((30, 30), (chance.uniform(5, 25), 3), chance.uniform(0.2, 1))
            space.add_spline([*fit, fit[0]])
        else:
            space.add_spline([*fit, fit[0]])

    file = made(draw)
    if as_hole:
        edge_stays_outside(file)
        return
    [outline] = read_outlines(file).outlines
    spline = next(iter(ezdxf.read(io.StringIO(file.decode())).modelspace()))
    true = shapely.Polygon(true_points(spline, 4000))
    metal = shapely.Polygon([(x / MM, y / MM) for x, y in outline.outer])
    assert metal.area < true.area
    assert true.area - metal.area < 0.06 * true.length


# --- what is refused ----------------------------------------------------------------------------


def test_an_open_outline_is_named_with_the_place_and_the_gap() -> None:
    def draw(space: Space, _: Drawing) -> None:
        space.add_lwpolyline([*SQUARE, (0, 0.8)])

    problem = refused(made(draw))
    assert problem.word == "open" and problem.spots == ((0, 0), (0, 800_000))
    [chain] = problem.rings  # from one loose end to the other, to be drawn
    assert {chain[0], chain[-1]} == {(0, 0), (0, 800_000)} and len(chain) == 5
    assert "open at x 0, y 0, 0.8 mm from the nearest other loose end" in str(problem)
    # as the drawing counts, in inches
    assert "x 0, y 0, 20.3 mm" in str(refused(made(draw, 1)))


def test_a_crossing_is_named_with_the_place_and_its_sides() -> None:
    problem = refused(made(lambda space, _: space.add_lwpolyline(
        [(0, 0), (10, 0), (0, 10), (10, 10)], close=True
    )))  # fmt: skip
    assert problem.word == "crossed" and problem.spots == ((5 * MM, 5 * MM),)
    assert "x 5, y 5" in str(problem) and len(problem.sides) == 2 and problem.rings


def test_a_hole_across_the_edge_and_pieces_across_each_other_are_refused() -> None:
    def over(space: Space, _: Drawing) -> None:
        square(space)
        space.add_circle((100, 25), 10)

    assert refused(made(over)).word == "crossed"

    def two(space: Space, _: Drawing) -> None:
        square(space)
        space.add_lwpolyline([(90, 10), (300, 10), (300, 40), (90, 40)], close=True)

    assert "meet at x 100, y 10" in str(refused(made(two))) or "crosses" in str(refused(made(two)))


@pytest.mark.parametrize(
    ("fill", "word", "said"),
    [
        (lambda s, _: s.add_text("hello"), "nothing", "no line, arc or curve"),
        (lambda s, _: s.add_line((0, 0, 0), (100, 0, 5)), "not flat", "another height"),
        (lambda s, _: s.add_line((0, 0), (float("nan"), 1)), "absurd", "no lengths"),
        (lambda s, _: s.add_line((0, 0), (1e12, 1)), "absurd", "no lengths"),
        (lambda s, _: s.add_circle((0, 0), 1e6), "unit", "which is no offcut"),
        (lambda s, _: s.add_circle((0, 0), 1e-3), "unit", "which is no offcut"),
        (
            lambda s, _: (square(s), s.add_3dface([(1, 1), (2, 1), (2, 2), (1, 2)])),
            "unread",
            "Explode it into lines and arcs",
        ),
        (
            lambda s, _: s.add_lwpolyline([(0, 0), (100, 0), (100, 0.1), (0, 0.1)], close=True),
            "sliver",
            "next to no metal",
        ),
    ],
    ids=["text", "height", "nan", "nowhere", "vast", "speck", "face", "sliver"],
)
def test_what_is_no_outline_says_why(
    fill: Callable[[Space, Drawing], object], word: str, said: str
) -> None:
    problem = refused(made(fill))
    assert (problem.word, said in str(problem)) == (word, True), str(problem)


@pytest.mark.parametrize(
    ("file", "word"),
    [
        (b"", "not dxf"),
        (b"hello world\n" * 1000, "not dxf"),
        (b"\x89PNG\r\n\0\0", "not text"),
        (made(lines_and_arcs)[:-1], "good"),
        (made(lines_and_arcs)[:-3000], "broken"),
        (made(lines_and_arcs).replace(b"AcDbCircle", b"AcDbCi\xff\xfe"), None),
        (made(lines_and_arcs).replace(b"ENTITIES", b"ENTITIEX"), None),
    ],
    ids=["empty", "words", "picture", "whole", "cut", "garbled", "no entities"],
)
def test_files_that_are_none_are_refused_and_never_crash(file: bytes, word: str | None) -> None:
    if word == "good":
        assert read_outlines(file).outlines
    elif word:
        assert refused(file).word == word
    else:
        with_hole = None
        try:
            with_hole = read_outlines(file)
        except DxfRefused:
            return
        # read all the same: then with its hole
        assert len(with_hole.outlines[0].holes) == 1


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 2**32))
def test_damaged_files_are_refused_or_read_never_a_crash(seed: int) -> None:
    chance = Random(seed)
    file = bytearray(made(lines_and_arcs))
    start = file.index(b"ENTITIES")
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(start, len(file))
        file[at] = chance.choice(b"0123456789.-abcXYZ \n")
    try:
        read_outlines(bytes(file))
    except DxfRefused as problem:
        assert str(problem).endswith(".")


def test_a_million_entities_are_refused_within_two_seconds() -> None:
    file = written(["POINT\n 10\n0\n 20\n0\n"] * 1_000_000)
    start = time.process_time()
    problem = refused(file)
    assert time.process_time() - start < 2
    assert problem.word == "too many" and "1,000,000 entities" in str(problem)


def test_a_hundred_thousand_points_are_refused_before_they_are_read() -> None:
    places = "".join(f" 10\n{n % 317}.1\n 20\n{n // 317}.1\n" for n in range(100_000))
    file = written([f"LWPOLYLINE\n  8\n0\n 90\n100000\n 70\n1\n{places}"])
    start = time.process_time()
    assert "points" in str(refused(file))
    assert time.process_time() - start < 1


def test_more_points_than_can_be_measured_are_named() -> None:
    def draw(space: Space, _: Drawing) -> None:
        ring = [2 * pi * n / 2500 for n in range(2500)]
        space.add_lwpolyline([(200 * cos(a), 200 * sin(a)) for a in ring], close=True)

    problem = refused(made(draw))
    assert problem.word == "many" and "2,500 points" in str(problem)


def test_many_curves_are_followed_less_closely_before_they_are_too_many() -> None:
    def draw(space: Space, _: Drawing) -> None:
        space.add_lwpolyline([(0, 0), (1500, 0), (1500, 1500), (0, 1500)], close=True)
        for n in range(60):
            space.add_circle((100 + n % 8 * 180, 100 + n // 8 * 180), 80)

    read = read_outlines(made(draw))
    [outline] = read.outlines
    assert sum(map(len, outline.rings)) <= MOST_POINTS
    assert any(note.startswith("Curves are followed within 0.") for note in read.notes)
    assert outline.area_um2 / 1e6 < 1500**2 - 60 * pi * 80**2


@pytest.mark.parametrize("kind", ["nested", "repeated", "star", "circles"])
def test_small_files_that_grow_are_bounded(kind: str) -> None:
    def draw(space: Space, document: Drawing) -> None:
        inner = document.blocks.new("B0")
        inner.add_circle((0, 0), 1)
        if kind == "nested":
            for n in range(1, 12):
                outer = document.blocks.new(f"B{n}")
                for at in range(10):
                    outer.add_blockref(f"B{n - 1}", (at, 0))
            space.add_blockref("B11", (0, 0))
        else:
            many = {"row_count": 3000, "column_count": 3000, "row_spacing": 3, "column_spacing": 3}
            space.add_blockref("B0", (0, 0), dxfattribs=many)

    if kind == "star":
        ends = [(100 * cos(n), 100 * sin(n)) for n in range(4900)]
        file = written([f"LINE\n 8\n0\n 10\n0\n 20\n0\n 11\n{x}\n 21\n{y}\n" for x, y in ends])
    elif kind == "circles":
        spots = [(n % 70 * 3, n // 70 * 3) for n in range(4900)]
        file = written([f"CIRCLE\n 8\n0\n 10\n{x}\n 20\n{y}\n 40\n1\n" for x, y in spots])
    else:
        file = made(draw)
    start = time.process_time()
    assert refused(file, unit="mm").word in ("nested", "too many", "branch")
    assert time.process_time() - start < 5


def test_the_scan_alone_reads_nothing_it_should_not() -> None:
    scan(made(square))  # does not raise
    value_of_zero = made(square).replace(b"\n 70\n1\n", b"\n 70\n0\n")
    scan(value_of_zero)
