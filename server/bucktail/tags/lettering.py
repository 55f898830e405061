"""Lettering on labels: which characters can be set, how wide a line is, how it is made to fit.

The face is Atkinson Hyperlegible, drawn to keep look-alike letters apart; a name with letters
it lacks (Greek, Cyrillic and others) borrows those from Noto Sans. Both come as packages with
their font files. What neither has, such as an emoji or Chinese, is set as a question mark and
reported, never passed over in silence.

Lengths are printer dots, type sizes points.
"""

from __future__ import annotations

import logging
import unicodedata
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

from fpdf import FPDF
from fpdf.fonts import TTFFont

from bucktail.tags.ink import POINTS_AN_INCH

CAP_HEIGHT = 0.668  # of the type size, in Atkinson Hyperlegible
LINE = 1.18  # from one line of text to the next, of the type size
TEXT_LEAST_POINTS = 5.0
ELLIPSIS = "…"
_MISSING = "?"
_FACES = {
    ("label", ""): ("fontpkg_atkinson_hyperlegible", "AtkinsonHyperlegible-Regular.ttf"),
    ("label", "B"): ("fontpkg_atkinson_hyperlegible", "AtkinsonHyperlegible-Bold.ttf"),
    ("other", ""): ("fontpkg_noto_sans", "NotoSans[wdth,wght].ttf"),
}
# building a font subset is logged table by table; a label needs none of it
logging.getLogger("fontTools").setLevel(logging.WARNING)


@dataclass(frozen=True)
class Line:
    """A line of text set to fit: `cut` is True when its end had to be left off."""

    text: str
    points: float
    cut: bool


def _font_file(family: str, style: str) -> Path:
    package, name = _FACES[(family, style)]
    return Path(str(files(package) / "files" / name))


class Lettering:
    """Measures and sets text on one PDF whose unit is the point."""

    def __init__(self, pdf: FPDF, dpi: int) -> None:
        self._pdf = pdf
        self.dpi = dpi
        self._has: dict[str, frozenset[int]] = {}
        self._widths: dict[tuple[str, bool], float] = {}

    def _load(self, family: str) -> frozenset[int]:
        """Put a family's fonts into the document once; returns the characters they have."""
        if family not in self._has:
            for name, style in _FACES:
                if name == family:
                    self._pdf.add_font(family, style, _font_file(family, style))
            font = self._pdf.fonts[family]
            self._has[family] = frozenset(font.cmap if isinstance(font, TTFFont) else ())
        return self._has[family]

    def _in(self, family: str, character: str) -> bool:
        return ord(character) in self._load(family)

    def printable(self, text: str) -> tuple[str, bool]:
        """The text as it can be set on one line, and whether a character had to be replaced.

        Line breaks and runs of spaces become one space. Letters are composed where they can be;
        invisible characters and accents no letter takes are dropped.
        """
        composed = " ".join(unicodedata.normalize("NFC", text).split())
        kept: list[str] = []
        replaced = False
        for character in composed:
            if unicodedata.category(character) == "Cf":
                continue
            if self._in("label", character) or self._in("other", character):
                kept.append(character)
            elif unicodedata.category(character) not in ("Mn", "Me"):
                kept.append(_MISSING)
                replaced = True
        return "".join(kept), replaced

    def dots(self, points: float) -> float:
        """A length in points, such as a type size, in dots."""
        return points * self.dpi / POINTS_AN_INCH

    def _runs(self, text: str) -> list[tuple[str, str]]:
        runs: list[tuple[str, str]] = []
        for character in text:
            family = "label" if self._in("label", character) else "other"
            if runs and runs[-1][0] == family:
                runs[-1] = (family, runs[-1][1] + character)
            else:
                runs.append((family, character))
        return runs

    def _choose(self, family: str, bold: bool, points: float) -> None:
        self._load(family)
        self._pdf.set_font(family, "B" if bold and family == "label" else "", points)

    def width(self, text: str, points: float, bold: bool = False) -> float:
        """Width in dots of text that `printable` has passed."""
        at_100 = self._widths.get((text, bold))
        if at_100 is None:
            at_100 = 0.0
            for family, run in self._runs(text):
                self._choose(family, bold, 100)
                at_100 += float(self._pdf.get_string_width(run))
            self._widths[(text, bold)] = at_100
        return self.dots(at_100 * points / 100)

    def put(self, text: str, left: float, baseline: float, points: float, bold: bool) -> None:
        """Set text from `left` on, standing on `baseline`."""
        x, y = (dots * POINTS_AN_INCH / self.dpi for dots in (left, baseline))
        for family, run in self._runs(text):
            self._choose(family, bold, points)
            self._pdf.text(x, y, run)
            x += float(self._pdf.get_string_width(run))

    def fit(self, text: str, width: float, points: float) -> Line:
        """Set a line at `points`; text too wide for it loses its end to an ellipsis."""
        if self.width(text, points) <= width:
            return Line(text, points, False)
        low, high = 0, len(text)
        while low < high:
            middle = (low + high + 1) // 2
            if self.width(text[:middle].rstrip() + ELLIPSIS, points) <= width:
                low = middle
            else:
                high = middle - 1
        return Line(text[:low].rstrip() + ELLIPSIS, points, True)

    def wrap(self, text: str, width: float, points: float, most: int) -> list[Line]:
        """Break text at spaces into at most `most` lines, as few as will do and evenly filled.

        Where it needs more, the last line takes the rest and is cut to fit.
        """
        lines = self._broken(text, width, points, most)
        if len(lines) < 2 or lines[-1].cut:
            return lines
        narrow, wide = width / len(lines), width
        for _ in range(6):  # the narrowest measure that breaks it into no more lines
            middle = (narrow + wide) / 2
            tried = self._broken(text, middle, points, len(lines))
            if tried[-1].cut:
                narrow = middle
            else:
                wide, lines = middle, tried
        return lines

    def _broken(self, text: str, width: float, points: float, most: int) -> list[Line]:
        words = text.split(" ")
        lines: list[Line] = []
        while words and len(lines) < most - 1:
            count = len(words)
            while count > 1 and self.width(" ".join(words[:count]), points) > width:
                count -= 1
            if count == 1 and self.width(words[0], points) > width:
                break  # a word wider than the line: the last line cuts it
            lines.append(Line(" ".join(words[:count]), points, False))
            words = words[count:]
        if words:
            lines.append(self.fit(" ".join(words), width, points))
        return lines
