"""Single questions to one outline, without measuring its whole curve first.

The same sweeps, but only for the widths that are asked for and only until each question is
answered: a few milliseconds for a handful of questions. A yes is proved as the pieces of a curve
are. Where the sweeps come near what is asked for and do not reach it, the whole curve is measured
and asked as well.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bucktail.offcuts.fitting.angles import HALF_TURN, Front, Sweeper
from bucktail.offcuts.fitting.compiled import listed
from bucktail.offcuts.fitting.curve import DEGREE, Curve, Piece, Way, Witness, laid
from bucktail.offcuts.fitting.knots import SLACK_UM, Prover
from bucktail.offcuts.fitting.measure import measure, rings_um
from bucktail.offcuts.fitting.search import FINE_TURN, GRID, directions
from bucktail.offcuts.fitting.simplify import simplified
from bucktail.offcuts.outline import Outline

#: how far the edge may be moved inwards before the search (um)
TOLERANCE_UM = 20.0
#: a height found that is less than asked for by no more than this share is looked into further
NEARLY = 0.1


@dataclass(frozen=True, slots=True)
class Question:
    """Does a rectangle of `w` x `h` (um) fit, at any angle, along x or across it?"""

    w: int
    h: int
    way: Way


class Asked:
    """One outline, asked about one set of questions after another."""

    def __init__(self, outline: Outline) -> None:
        self._outline = outline
        rings = rings_um(outline)
        self._inner = simplified(rings, TOLERANCE_UM)
        self._prover = Prover(rings)
        self._curve: Curve | None = None

    def answers(self, questions: Sequence[Question]) -> list[Witness | None]:
        """Where each rectangle fits; None where it does not, or only by a hair."""
        found: dict[Question, Witness | None] = {}
        for upright in (True, False):
            same = [one for one in questions if (one.way != "any") is upright]
            found.update(self._answered(same, upright))
        return [found[one] for one in questions]

    def _answered(
        self, questions: Iterable[Question], upright: bool
    ) -> dict[Question, Witness | None]:
        sizes = {one: _size(one) for one in questions}
        if not sizes:
            return {}
        needs = _Needs(sizes.values())
        self._look(needs, upright)
        found: dict[Question, Witness | None] = {}
        for question, (w, h) in sizes.items():
            place = needs.place(w, h)
            if place and self._prover.proves(place):
                degrees = place.angle / DEGREE
                found[question] = laid(
                    question.w, question.h, (w, h) != (question.w, question.h),
                    place.x0, place.y0, degrees,
                )  # fmt: skip
            elif needs.nearly(w, h):
                self._curve = self._curve or measure(self._outline)
                found[question] = self._curve.witness(question.w, question.h, question.way)
            else:
                found[question] = None
        return found

    def _look(self, needs: _Needs, upright: bool) -> None:
        """Sweep until every question is answered or nothing better turns up."""
        sweeper, whole = Sweeper(self._inner), (0, len(needs.widths))
        if upright:
            sweeper.sweep({0: whole}, needs.front)
            return
        edges = directions(self._inner)
        for angles in (edges, [one for one in range(0, HALF_TURN, GRID) if one not in edges]):
            sweeper.sweep(dict.fromkeys(angles, whole), needs.front)
            if not needs.open():
                return
        step = GRID // 2
        while needs.open() and step * needs.widths[-1] > FINE_TURN:
            near = {
                (angle + way * step) % HALF_TURN for _, angle in needs.open() for way in (-1, 1)
            }
            sweeper.sweep(dict.fromkeys(near, whole), needs.front)
            step //= 2


def _size(question: Question) -> tuple[int, int]:
    """Width and height as they are looked for: at any angle the longer side is the width."""
    w, h = question.w, question.h
    turned = question.way == "across" or (question.way == "any" and h > w)
    return (h, w) if turned else (w, h)


class _Needs:
    """The widths asked for, the greatest height wanted of each, and what has been found."""

    def __init__(self, sizes: Iterable[tuple[int, int]]) -> None:
        tallest: dict[int, int] = {}
        for w, h in sizes:
            tallest[w] = max(tallest.get(w, 0), h)
        self._wanted = sorted(tallest.items())
        self._place = {w: n for n, (w, _) in enumerate(self._wanted)}
        self.widths = [w + 2 * SLACK_UM for w, _ in self._wanted]
        self.front = Front.empty(self.widths, False)

    def open(self) -> list[tuple[int, int]]:
        """Height wanted and angle in use of every width that is not tall enough yet."""
        rows = zip(self._wanted, listed(self.front.heights), listed(self.front.angles), strict=True)
        return [(h, angle) for (_, h), found, angle in rows if found < h + 2 * SLACK_UM]

    def nearly(self, w: int, h: int) -> bool:
        """Whether what was found falls short of w x h by little."""
        return bool(self.front.heights[self._place[w]] > h * (1 - NEARLY))

    def place(self, w: int, h: int) -> Piece | None:
        """Where w x h stands, in the middle of the height found; None where that is too low."""
        n = self._place[w]
        spare = float(self.front.heights[n]) - h
        if spare < 2 * SLACK_UM:
            return None
        angle = int(self.front.angles[n])
        u, v = float(self.front.us[n]) + SLACK_UM, float(self.front.vs[n]) + spare / 2
        cos, sin = math.cos(math.radians(angle / DEGREE)), math.sin(math.radians(angle / DEGREE))
        x, y = round(u * cos - v * sin), round(u * sin + v * cos)
        return Piece.of([angle, w, h, x, y, w, h, x, y])
