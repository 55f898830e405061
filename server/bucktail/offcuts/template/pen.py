"""Drawing on a page of a PDF in millimetres from its top left corner; one ink."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import AbstractContextManager
from math import cos, pi, sin, tan

from fpdf import FPDF
from fpdf.drawing import PaintedPath

from bucktail.tags.lettering import LINE, Lettering

POINTS_A_MM = 72 / 25.4
#: tenths of a millimetre are the dots that the lettering counts in
TENTHS_AN_INCH = 254
Spot = tuple[float, float]
_QUARTER = 4 / 3 * tan(pi / 8)  # handles of the curve nearest to a quarter circle


class Pen:
    """Lines, curves and words; coordinates and widths in mm, type sizes in points."""

    def __init__(self, pdf: FPDF) -> None:
        self.pdf = pdf
        self.lettering = Lettering(pdf, TENTHS_AN_INCH)

    def lines(
        self, pieces: Sequence[tuple[Spot, Spot]], width: float, dash: Sequence[float] = ()
    ) -> None:
        """Straight lines, in dashes and gaps of these lengths where given."""
        if not pieces:
            return
        path = self._stroke(width, dash)
        for start, end in pieces:
            path.move_to(*_points(start))
            path.line_to(*_points(end))
        self._put(path)

    def circles(self, circles: Sequence[tuple[Spot, float]], width: float) -> None:
        """Circles by centre and diameter."""
        if not circles:
            return
        path = self._stroke(width)
        for centre, diameter in circles:
            _circle(path, centre, diameter / 2)
        self._put(path)

    def rounded(self, low: Spot, high: Spot, corner: float, width: float) -> None:
        """A rectangle between two corners with rounded corners."""
        path = self._stroke(width)
        (left, top), (right, bottom) = low, high
        if not corner:
            path.move_to(*_points((left, top)))
            for spot in ((right, top), (right, bottom), (left, bottom)):
                path.line_to(*_points(spot))
            path.close()
            self._put(path)
            return
        centres = (
            ((right - corner, top + corner), -90),
            ((right - corner, bottom - corner), 0),
            ((left + corner, bottom - corner), 90),
            ((left + corner, top + corner), 180),
        )
        path.move_to(*_points((left + corner, top)))
        for centre, start in centres:
            path.line_to(*_points(_on(centre, corner, start)))
            _quarter(path, centre, corner, start)
        path.close()
        self._put(path)

    def fill(self, shapes: Sequence[Sequence[Spot]]) -> None:
        """Filled shapes by their corners."""
        if not shapes:
            return
        path = PaintedPath()
        path.style.fill_color = "#000000"
        path.style.stroke_color = None
        for first, *others in shapes:
            path.move_to(*_points(first))
            for spot in others:
                path.line_to(*_points(spot))
            path.close()
        self._put(path)

    def words(
        self, text: str, at: Spot, points: float, bold: bool = False, hold: str = "start"
    ) -> float:
        """A line of text standing on `at`, from there on or ending there; returns its width."""
        shown, _ = self.lettering.printable(text)
        wide = self.width(shown, points, bold)
        left = at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[hold]
        self.lettering.put(shown, left * 10, at[1] * 10, points, bold)
        return wide

    def middle(self, text: str, at: Spot, points: float, upright: bool, bold: bool) -> None:
        """A line of text whose middle is at `at`, on white; upright reads from below."""
        shown, _ = self.lettering.printable(text)
        x, y = at
        wide, cap = self.width(shown, points, bold), points / POINTS_A_MM * 0.668
        with self.turned(90 if upright else 0, at):
            self.lettering.put(shown, (x - wide / 2) * 10, (y + cap / 2) * 10, points, bold)

    def paragraph(
        self, text: str, at: Spot, width: float, points: float, bold: bool = False
    ) -> float:
        """Text broken into lines of this width, the first below `at`; returns how high they are."""
        shown, _ = self.lettering.printable(text)
        high = points / POINTS_A_MM * LINE
        y = at[1]
        words, line = shown.split(" "), ""
        for word in [*words, ""]:
            longer = f"{line} {word}".strip()
            if word and (not line or self.width(longer, points, bold) <= width):
                line = longer
                continue
            y += high
            fitted = self.lettering.fit(line, width * 10, points)
            self.lettering.put(fitted.text, at[0] * 10, (y - high * 0.22) * 10, points, bold)
            line = word
        return y - at[1]

    def height(self, text: str, width: float, points: float, bold: bool = False) -> float:
        """How high that paragraph will be."""
        shown, _ = self.lettering.printable(text)
        lines, line = 1, ""
        for word in shown.split(" "):
            longer = f"{line} {word}".strip()
            if line and self.width(longer, points, bold) > width:
                lines, line = lines + 1, word
            else:
                line = longer
        return lines * points / POINTS_A_MM * LINE

    def width(self, text: str, points: float, bold: bool = False) -> float:
        """Width of a line of text."""
        return self.lettering.width(text, points, bold) / 10

    def within(
        self, left: float, top: float, wide: float, high: float
    ) -> AbstractContextManager[None]:
        """Nothing is drawn outside this rectangle."""
        clip: AbstractContextManager[None] = self.pdf.rect_clip(
            left * POINTS_A_MM, top * POINTS_A_MM, wide * POINTS_A_MM, high * POINTS_A_MM
        )
        return clip

    def turned(self, degrees: float, about: Spot) -> AbstractContextManager[None]:
        """What is drawn is turned about a spot, against the clock."""
        turn: AbstractContextManager[None] = self.pdf.rotation(degrees, *_points(about))
        return turn

    def _stroke(self, width: float, dash: Sequence[float] = ()) -> PaintedPath:
        path = PaintedPath()
        path.style.fill_color = None
        path.style.stroke_color = "#000000"
        path.style.stroke_width = width * POINTS_A_MM
        path.style.stroke_dash_pattern = [one * POINTS_A_MM for one in dash] or None
        path.style.auto_close = False
        return path

    def _put(self, path: PaintedPath) -> None:
        with self.pdf.drawing_context() as context:
            context.add_item(path, clone=False)


def _points(spot: Spot) -> Spot:
    return (spot[0] * POINTS_A_MM, spot[1] * POINTS_A_MM)


def _on(centre: Spot, radius: float, degrees: float) -> Spot:
    angle = degrees * pi / 180
    return (centre[0] + radius * cos(angle), centre[1] + radius * sin(angle))


def _circle(path: PaintedPath, centre: Spot, radius: float) -> None:
    path.move_to(*_points(_on(centre, radius, 0)))
    for start in (0, 90, 180, 270):
        _quarter(path, centre, radius, start)
    path.close()


def _quarter(path: PaintedPath, centre: Spot, radius: float, start: float) -> None:
    """A quarter circle with the clock from `start` degrees (0 is right, 90 down)."""
    angle, ahead = start * pi / 180, (start + 90) * pi / 180
    first, last = _on(centre, radius, start), _on(centre, radius, start + 90)
    reach = radius * _QUARTER
    path.curve_to(
        *_points((first[0] - reach * sin(angle), first[1] + reach * cos(angle))),
        *_points((last[0] + reach * sin(ahead), last[1] - reach * cos(ahead))),
        *_points(last),
    )
