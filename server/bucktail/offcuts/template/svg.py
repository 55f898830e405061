"""A template as SVG: millimetres at full size, one group for each meaning.

Coordinates are decimals of a millimetre with up to six places: nanometres come back exactly. Here
y runs down; the far edge of the blank is uppermost.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from xml.sax.saxutils import escape

from bucktail.offcuts.template.drawing import NM_PER_MM, Template
from bucktail.offcuts.template.inking import LOOKS, Look
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

BETWEEN = 20 * NM_PER_MM  # from one blank to the next
AROUND = 5 * NM_PER_MM
LETTERING = "'Atkinson Hyperlegible', Verdana, sans-serif"


def template_svg(template: Template, drawn: Sequence[Drawn]) -> bytes:
    """The SVG as UTF-8. A second blank stands to the right of the first."""
    low, high = min(one.reach[1] for one in drawn), max(one.reach[3] for one in drawn)
    shifts, right = [], drawn[0].reach[0]
    for one in drawn:
        shifts.append(right - one.reach[0])
        right += one.reach[2] - one.reach[0] + BETWEEN
    whole = (drawn[0].reach[0] - AROUND, low - AROUND, right - BETWEEN + AROUND, high + AROUND)
    wide, tall = mm(whole[2] - whole[0]), mm(whole[3] - whole[1])
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{tall}mm"'
        f' viewBox="{mm(whole[0])} {mm(-whole[3])} {wide} {tall}"'
        ' fill="none" stroke="black" stroke-linecap="butt">',
        f"<title>{escape(template.name)}</title>",
        f"<desc>{escape(_story(template))}</desc>",
    ]
    for number, (one, shift) in enumerate(zip(drawn, shifts, strict=True), start=1):
        moved = f' transform="translate({mm(shift)} 0)"' if shift else ""
        lines.append(f'<g id="blank-{number}"{moved}><title>{escape(one.blank.name)}</title>')
        lines += _layers(one.shapes)
        lines.append("</g>")
    return "\n".join([*lines, "</svg>", ""]).encode("utf-8")


def _story(template: Template) -> str:
    tag = [f"Tag {template.code[:5]} {template.code[5:]}."] if template.code else []
    stamp = f"At full size, millimetres. {template.made}, rules {template.rules}."
    sheets = [f"{blank.name}: {blank.sheet}." for blank in template.blanks]
    return "\n".join([stamp, *tag, *sheets, *template.facts, *template.remarks, *template.cautions])


def _layers(shapes: tuple[Shape, ...]) -> Iterator[str]:
    for layer in LAYERS:
        there = [shape for shape in shapes if shape.layer == layer]
        if there:
            yield f'<g class="{layer}"{_look(LOOKS[layer])}>'
            for shape in there:
                yield _shape(shape)
            yield "</g>"


def _look(look: Look) -> str:
    dash = f' stroke-dasharray="{" ".join(f"{one:g}" for one in look.dash)}"' if look.dash else ""
    return f' stroke-width="{look.width:g}"{dash}'


def _shape(shape: Shape) -> str:
    match shape:
        case Rectangle(a=a, b=b, corner=corner):
            rounded = f' rx="{mm(corner)}" ry="{mm(corner)}"' if corner else ""
            return f'<rect x="0" y="{mm(-b)}" width="{mm(a)}" height="{mm(b)}"{rounded}/>'
        case Line(start=(x1, y1), end=(x2, y2)):
            return f'<line x1="{mm(x1)}" y1="{mm(-y1)}" x2="{mm(x2)}" y2="{mm(-y2)}"/>'
        case Circle(centre=(x, y), diameter=diameter):
            half = mm(diameter, halved=True)
            return f'<circle cx="{mm(x)}" cy="{mm(-y)}" r="{half}"/>'
        case Arrowhead(corners=corners):
            points = " ".join(f"{mm(x)},{mm(-y)}" for x, y in corners)
            return f'<polygon points="{points}" fill="black" stroke="none"/>'
        case Words():
            return _words(shape)


def _words(words: Words) -> str:
    x, y = words.at
    at = f'x="{mm(x)}" y="{mm(-y)}"'
    turn = f' transform="rotate(-90 {mm(x)} {mm(-y)})"' if words.upright else ""
    bold = ' font-weight="bold"' if words.bold else ""
    return (
        f'<text {at} font-size="{mm(words.height)}" font-family="{LETTERING}"{bold}{turn} '
        f'text-anchor="middle" dominant-baseline="central" fill="black" stroke="none">'
        f"{escape(words.text)}</text>"
    )


def mm(nm: int, halved: bool = False) -> str:
    """Whole nanometres as millimetres, written out exactly; `halved` for half of them."""
    tenths = nm * (5 if halved else 10)  # of a nanometre
    sign, tenths = ("-", -tenths) if tenths < 0 else ("", tenths)
    whole, after = divmod(tenths, 10 * NM_PER_MM)
    decimals = f"{after:07d}".rstrip("0")
    return f"{sign}{whole}.{decimals}" if decimals else f"{sign}{whole}"
