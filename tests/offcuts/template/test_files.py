"""Templates as DXF and SVG, read back: every line where it was, to the nanometre."""

from __future__ import annotations

import io
from collections import Counter
from decimal import Decimal
from math import pi
from typing import Any
from xml.etree import ElementTree

import ezdxf
import pytest

from bucktail.offcuts.dxf import read_outlines
from bucktail.offcuts.template.drawing import Template
from bucktail.offcuts.template.dxf import template_dxf
from bucktail.offcuts.template.marks import draw
from bucktail.offcuts.template.piece import template_of
from bucktail.offcuts.template.shapes import (
    LAYERS,
    Arrowhead,
    Circle,
    Drawn,
    Line,
    Rectangle,
    Shape,
    Words,
)
from bucktail.offcuts.template.svg import template_svg
from running.pieces import PIECES, wanted

SVG = "{http://www.w3.org/2000/svg}"
CODE = "7K2M9PQ4XZ"


def laid(piece: str, **more: Any) -> tuple[Template, tuple[Drawn, ...]]:
    template = template_of(wanted(piece, **more), "in", "25 Nov 2026", CODE)
    return template, draw(template)


def nm(millimetres: object) -> int:
    """Millimetres as whole nanometres; no rounding is needed where they were whole."""
    exact = Decimal(str(millimetres)) * 1_000_000
    assert abs(exact - round(exact)) < Decimal("0.001"), millimetres
    return round(exact)


def told(shape: Shape, shift: int) -> tuple[Any, ...]:
    """A shape by what a reader must find of it."""
    match shape:
        case Rectangle(layer, a, b, corner):
            return (layer, "outline", (shift, 0), (a, b), corner)
        case Line(layer, start, end):
            return (layer, "line", (start[0] + shift, start[1]), (end[0] + shift, end[1]))
        case Circle(layer, centre, diameter):
            return (layer, "circle", (centre[0] + shift, centre[1]), diameter)
        case Arrowhead(layer, corners):
            return (layer, "arrow", *sorted((x + shift, y) for x, y in corners))
        case Words(layer, at, _, text, upright):
            return (layer, "words", (at[0] + shift, at[1]), text, upright)


def expected(drawn: tuple[Drawn, ...], second: int) -> Counter[Any]:
    """All shapes; those of the second blank stand further to the right."""
    return Counter(
        told(shape, second if number else 0)
        for number, one in enumerate(drawn)
        for shape in one.shapes
    )


def shift_of(drawn: tuple[Drawn, ...]) -> int:
    """By how much the second blank is moved: 20 mm of room between the two."""
    return drawn[0].reach[2] + 20_000_000 - drawn[1].reach[0] if len(drawn) > 1 else 0


def read_dxf(file: bytes) -> tuple[Counter[Any], list[str]]:
    """What a DXF holds, and the lines of text beneath the drawing."""
    document = ezdxf.read(io.StringIO(file.decode("utf-8")))
    assert document.dxfversion == "AC1024"  # R2010
    assert (document.header["$INSUNITS"], document.header["$MEASUREMENT"]) == (4, 1)
    assert {layer.dxf.name for layer in document.layers} >= set(LAYERS)
    found: Counter[Any] = Counter()
    story = []
    for entity in document.modelspace():
        layer, kind = entity.dxf.layer, entity.dxftype()
        if kind == "LINE":
            ends = [(nm(end.x), nm(end.y)) for end in (entity.dxf.start, entity.dxf.end)]
            found[(layer, "line", *ends)] += 1
        elif kind == "CIRCLE":
            centre = entity.dxf.center
            found[(layer, "circle", (nm(centre.x), nm(centre.y)), nm(2 * entity.dxf.radius))] += 1
        elif kind == "SOLID":
            corners = [entity.dxf.vtx0, entity.dxf.vtx1, entity.dxf.vtx2]
            found[(layer, "arrow", *sorted((nm(p.x), nm(p.y)) for p in corners))] += 1
        elif kind == "LWPOLYLINE":
            found[outline_of(layer, entity)] += 1
        elif entity.dxf.halign:
            at = entity.dxf.align_point
            words = (nm(at.x), nm(at.y)), entity.dxf.text, bool(entity.dxf.rotation)
            found[(layer, "words", *words)] += 1
        else:
            story.append(entity.dxf.text)
    return found, story


def outline_of(layer: str, entity: Any) -> tuple[Any, ...]:
    """A rectangle, perhaps with rounded corners: quarter circles, by their bulges."""
    assert entity.closed
    points = [(nm(x), nm(y)) for x, y, _ in entity.get_points("xyb")]
    across, up = [x for x, _ in points], [y for _, y in points]
    low = min(across), min(up)
    size = max(across) - low[0], max(up) - low[1]
    bulges = [bulge for _, _, bulge in entity.get_points("xyb") if bulge]
    corner = 0
    if bulges:
        # a bulge is the tangent of a quarter of the angle
        assert bulges == pytest.approx([2**0.5 - 1] * 4)
        corner = points[0][0] - low[0]
        assert len(points) == 8
    return (layer, "outline", low, size, corner)


@pytest.mark.parametrize("name", PIECES)
def test_the_dxf_is_read_back_equal(name: str) -> None:
    template, drawn = laid(name)
    found, story = read_dxf(template_dxf(template, drawn))
    assert found == expected(drawn, shift_of(drawn))
    assert [line for line in (*template.facts, *template.cautions) if line not in story] == []
    assert any(CODE[:5] in line for line in story)


@pytest.mark.parametrize("name", PIECES)
def test_our_own_reader_finds_the_blank_in_it(name: str) -> None:
    """The layer of the edges alone: nothing but the blank, and the filler beside it."""
    template, drawn = laid(name)
    read = read_outlines(template_dxf(template, drawn), layer="OUTLINE")
    found = sorted((one.size_nm, one.area_um2) for one in read.outlines)
    for (size, area), blank in zip(
        found, sorted(template.blanks, key=lambda b: (b.a, b.b)), strict=True
    ):
        assert size == (blank.a, blank.b)
        # chords of rounded corners are on the side where metal is
        whole = blank.a * blank.b - (4 - pi) * blank.corner**2
        assert 0 <= whole - area * 1e6 <= 2 * pi * blank.corner * 50_000 + 1e6


def read_svg(file: bytes) -> Counter[Any]:
    """What an SVG holds, in nm with y up."""
    root = ElementTree.fromstring(file)
    wide, tall = (root.attrib[key] for key in ("width", "height"))
    assert wide.endswith("mm") and tall.endswith("mm")
    # one unit of the drawing is a millimetre
    assert root.attrib["viewBox"].split()[2:] == [wide.removesuffix("mm"), tall.removesuffix("mm")]
    found: Counter[Any] = Counter()
    for number, blank in enumerate(root.findall(f"{SVG}g"), start=1):
        assert blank.attrib["id"] == f"blank-{number}"
        moved = blank.attrib.get("transform", "translate(0 0)")
        shift = nm(moved.removeprefix("translate(").split()[0])
        for layer in blank.findall(f"{SVG}g"):
            for one in layer:
                found[shape_of(layer.attrib["class"], one, shift)] += 1
    return found


def shape_of(layer: str, one: ElementTree.Element, shift: int) -> tuple[Any, ...]:
    at = {key: nm(value) for key, value in one.attrib.items() if key in NUMBERS}
    match one.tag.removeprefix(SVG):
        case "line":
            start, end = (at["x1"] + shift, -at["y1"]), (at["x2"] + shift, -at["y2"])
            return (layer, "line", start, end)
        case "circle":
            return (layer, "circle", (at["cx"] + shift, -at["cy"]), round(2 * at["r"]))
        case "rect":
            low = (at["x"] + shift, -at["y"] - at["height"])
            return (layer, "outline", low, (at["width"], at["height"]), at.get("rx", 0))
        case "polygon":
            points = [pair.split(",") for pair in one.attrib["points"].split()]
            return (layer, "arrow", *sorted((nm(x) + shift, -nm(y)) for x, y in points))
        case _:
            upright = "rotate(-90" in one.attrib.get("transform", "")
            return (layer, "words", (at["x"] + shift, -at["y"]), one.text, upright)


NUMBERS = {"x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "width", "height", "rx"}


@pytest.mark.parametrize("name", PIECES)
def test_the_svg_is_read_back_equal(name: str) -> None:
    template, drawn = laid(name)
    found = read_svg(template_svg(template, drawn))
    shift = drawn[0].reach[2] + 20_000_000 - drawn[1].reach[0] if len(drawn) > 1 else 0
    assert found == expected(drawn, shift)


ODD = 'A <b>"shim"</b> & ]]> %%c é 主翼 🛩️ \x00\x07\u2028\ud800 \t end'


def test_a_name_of_any_signs_does_no_harm() -> None:
    template, drawn = laid("shim", name=ODD, temper="T3\n<&>")
    root = ElementTree.fromstring(template_svg(template, drawn))
    assert root.findtext(f"{SVG}title") == template.name
    assert template.name.startswith('A <b>"shim"</b> & ]]>') and template.name.endswith("end")
    _, story = read_dxf(template_dxf(template, drawn))
    assert story[0].startswith(template.name)
    assert laid("shim", name="\x07")[0].name == "piece"


@pytest.mark.parametrize("digits", [0, 1, 500_000, 123_456_789, 25_400_000_000])
def test_nanometres_are_written_out_exactly(digits: int) -> None:
    from bucktail.offcuts.template.svg import mm

    assert Decimal(mm(digits)) * 1_000_000 == digits
    assert Decimal(mm(-digits)) * 1_000_000 == -digits
    assert Decimal(mm(digits, halved=True)) * 2_000_000 == digits
