"""What the phone's camera sees: tags from the real printing code, laid on a bench, as a video."""

from __future__ import annotations

import io
import random
from collections.abc import Iterable
from pathlib import Path

import pypdfium2
import qrcode
from PIL import Image, ImageDraw, ImageFilter

from bucktail.tags.sheet import Printing, print_labels
from bucktail.tags.typeset import LabelText

FRAME = (1280, 720)
DPI = 300
POINTS_AN_INCH = 72
METAL = (176, 178, 181)


def printed(code: str, name: str = "", size: str = "normal", paper: str = "50x25mm") -> Image.Image:
    """A label as it comes out of the printer, one pixel a printer dot."""
    how = Printing(size=size, paper=paper, dpi=DPI)
    return page_of(print_labels([(code, LabelText(name))], how).pdf, 0)


def page_of(pdf: bytes, number: int) -> Image.Image:
    """One page of a PDF, counted from 0, as the printer puts it on paper."""
    document = pypdfium2.PdfDocument(pdf)
    picture: Image.Image = document[number].render(scale=DPI / POINTS_AN_INCH).to_pil()
    document.close()
    return picture.convert("RGB")


def foreign(text: str) -> Image.Image:
    """Somebody else's QR code."""
    made: Image.Image = qrcode.make(text, box_size=8).get_image().convert("RGB")
    return made


def damaged(label: Image.Image) -> Image.Image:
    """The label with primer over most of its data squares: found by its corners, not readable.

    29 squares across, the white border of four included; primer on squares 9 to 20 both ways.
    """
    spoiled = label.copy()
    low, high = round(label.height * 13.2 / 29), round(label.height * 24.8 / 29)
    ImageDraw.Draw(spoiled).rectangle((low, low, high, high), fill=(96, 98, 70))
    return spoiled


def on_the_bench(
    label: Image.Image | None,
    width: int = 420,
    turned: float = 8.0,
    frame: tuple[int, int] = FRAME,
    seed: int = 1,
) -> Image.Image:
    """A frame with the label in the middle, `width` pixels wide, on brushed metal with noise."""
    chance = random.Random(seed)
    bench = Image.new("RGB", frame, METAL)
    lines = ImageDraw.Draw(bench)
    for y in range(0, frame[1], 3):
        shade = chance.randrange(160, 192)
        lines.line((0, y, frame[0], y + chance.randrange(-4, 5)), fill=(shade, shade, shade + 3))
    if label is not None:
        height = round(label.height * width / label.width)
        small = label.resize((width, height), Image.Resampling.LANCZOS).convert("RGBA")
        small = small.rotate(turned, Image.Resampling.BICUBIC, expand=True)
        corner = ((frame[0] - small.width) // 2, (frame[1] - small.height) // 2)
        bench.paste(small, corner, small)
    grain = Image.effect_noise(frame, 14).convert("RGB")
    return Image.blend(bench, grain, 0.06).filter(ImageFilter.GaussianBlur(0.6))


def video(path: Path, frames: Iterable[tuple[Image.Image, int]]) -> Path:
    """Write frames, each shown that many thirtieths of a second, as a motion JPEG that loops."""
    with path.open("wb") as file:
        for picture, count in frames:
            jpeg = io.BytesIO()
            picture.save(jpeg, "JPEG", quality=88)
            for _ in range(count):
                file.write(jpeg.getvalue())
    return path


def showing(path: Path, label: Image.Image | None) -> Path:
    """A camera that looks at one label, or at the bare bench."""
    return video(path, [(on_the_bench(label, seed=seed), 2) for seed in range(1, 6)])


def photo(path: Path, label: Image.Image | None, size: tuple[int, int], width: int) -> Path:
    """A photo file, its kind told by the ending of `path`."""
    on_the_bench(label, width=width, frame=size).save(path)
    return path
