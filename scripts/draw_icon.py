"""Draws the icon: one rivet in side section through two sheets, on a paper-white ground.

One list of shapes in a square of 512 units gives both the SVG and the PNGs that phones ask for, so
the two cannot drift apart. A phone may cut a maskable icon to a circle of 80 % of the width; the
rivet stays inside it, and only the sheets run out to the edges.
"""

from __future__ import annotations

from io import BytesIO

from PIL import Image, ImageDraw

SIDE = 512
PAPER = "#f7f5ef"
INK = "#16181a"
SHEETS = ((0, 222, 512, 253), (0, 259, 512, 290))
SHANK = (222, 200, 290, 312)
FACTORY_HEAD = (166, 112, 346, 312)  # box of the ellipse whose upper half is the domed head
HEAD_BASE = 212
SHOP_HEAD = (196, 300, 316, 356)
SHOP_HEAD_CORNER = 22
PNG_SIDES = (180, 192, 512)
OVERSAMPLE = 4


def svg() -> str:
    """The icon as SVG text."""
    left, top, right, bottom = FACTORY_HEAD
    radius_x, radius_y = (right - left) / 2, (bottom - top) / 2
    sheets = "".join(
        f'<rect x="{a}" y="{b}" width="{c - a}" height="{d - b}"/>' for a, b, c, d in SHEETS
    )
    a, b, c, d = SHANK
    e, f, g, h = SHOP_HEAD
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {SIDE} {SIDE}">'
        f'<rect width="{SIDE}" height="{SIDE}" fill="{PAPER}"/><g fill="{INK}">{sheets}'
        f'<rect x="{a}" y="{b}" width="{c - a}" height="{d - b}"/>'
        f'<path d="M{left} {HEAD_BASE}A{radius_x:g} {radius_y:g} 0 0 1 {right} {HEAD_BASE}Z"/>'
        f'<rect x="{e}" y="{f}" width="{g - e}" height="{h - f}" rx="{SHOP_HEAD_CORNER}"/>'
        "</g></svg>\n"
    )


def png(side: int) -> bytes:
    """The icon as a PNG of the given side in pixels, drawn larger and brought down smooth."""
    scale = side * OVERSAMPLE / SIDE
    big = Image.new("RGB", (side * OVERSAMPLE, side * OVERSAMPLE), PAPER)
    pen = ImageDraw.Draw(big)

    def at(box: tuple[int, int, int, int]) -> list[float]:
        return [edge * scale for edge in box]

    for box in (*SHEETS, SHANK):
        pen.rectangle(at(box), fill=INK)
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
