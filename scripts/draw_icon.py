"""Draws the icon: one rivet in side section through two sheets, on a paper-white ground.

One list of shapes in a square of 512 units gives both the SVG and the PNGs that phones ask for, so
the two cannot drift apart. A phone may cut a maskable icon to a circle of 80 % of the width; the
rivet stays inside it, and only the sheets run out to the edges.
"""

from __future__ import annotations

from io import BytesIO

from PIL import Image, ImageDraw

Box = tuple[int, int, int, int]
SIDE = 512
PAPER = "#f7f5ef"
INK = "#16181a"
SHEETS = ((0, 196, 512, 250), (0, 262, 512, 316))
HOLE = (
    196,
    196,
    316,
    316,
)  # a little paper around the shank, so that it reads as a thing of its own
SHANK = (208, 178, 304, 340)
FACTORY_HEAD = (152, 92, 360, 276)  # box of the ellipse whose upper half is the domed head
SHOP_HEAD = (182, 328, 330, 386)
SHOP_HEAD_CORNER = 24
PNG_SIDES = (180, 192, 512)
OVERSAMPLE = 4


def svg() -> str:
    """The icon as SVG text."""
    left, top, right, bottom = FACTORY_HEAD
    across, up = (right - left) // 2, (bottom - top) // 2
    base = top + up
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {SIDE} {SIDE}" fill="{INK}">'
        + rectangle((0, 0, SIDE, SIDE), f'fill="{PAPER}"')
        + "".join(rectangle(sheet) for sheet in SHEETS)
        + rectangle(HOLE, f'fill="{PAPER}"')
        + rectangle(SHANK)
        + f'<path d="M{left} {base}a{across} {up} 0 0 1 {2 * across} 0z"/>'
        + rectangle(SHOP_HEAD, f'rx="{SHOP_HEAD_CORNER}"')
        + "</svg>\n"
    )


def rectangle(box: Box, more: str = "") -> str:
    """An SVG rectangle from (left, top, right, bottom)."""
    left, top, right, bottom = box
    size = f'width="{right - left}" height="{bottom - top}"'
    return f'<rect x="{left}" y="{top}" {size} {more}/>'.replace(" />", "/>")


def png(side: int) -> bytes:
    """The icon as a PNG of the given side in pixels, drawn larger and brought down smooth."""
    scale = side * OVERSAMPLE / SIDE
    big = Image.new("RGB", (side * OVERSAMPLE, side * OVERSAMPLE), PAPER)
    pen = ImageDraw.Draw(big)

    def at(box: Box) -> list[float]:
        return [edge * scale for edge in box]

    for sheet in SHEETS:
        pen.rectangle(at(sheet), fill=INK)
    pen.rectangle(at(HOLE), fill=PAPER)
    pen.rectangle(at(SHANK), fill=INK)
    pen.pieslice(at(FACTORY_HEAD), 180, 360, fill=INK)
    pen.rounded_rectangle(at(SHOP_HEAD), SHOP_HEAD_CORNER * scale, fill=INK)
    out = BytesIO()
    big.resize((side, side), Image.Resampling.LANCZOS).save(out, "PNG", optimize=True)
    return out.getvalue()


def outputs() -> dict[str, str | bytes]:
    """The icon files of the web app."""
    files: dict[str, str | bytes] = {"web/public/icons/icon.svg": svg()}
    for side in PNG_SIDES:
        files[f"web/public/icons/icon-{side}.png"] = png(side)
    return files
