"""From the best rectangles of many widths to a few proved pieces that lie close under them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bucktail.offcuts.fitting.angles import DEGREE, HALF_TURN, Rings, Stand
from bucktail.offcuts.fitting.compiled import floats, wholes
from bucktail.offcuts.fitting.curve import Piece
from bucktail.offcuts.fitting.proof import proved

#: widths and heights are floored to this (um), after the slack on every side
STEP_UM = 50
SLACK_UM = 1.0
#: a rectangle less than the best by this in width and height (um) is claimed
CLOSE_UM = 250
#: what a piece that turns is made smaller by on every side, so that it may stray on the way (um)
SHAVES_UM = (0, 40, 90)


Gap = tuple[float, float]


class Prover:
    """Proves pieces against one outline, given as rings of points in um."""

    def __init__(self, rings: Rings) -> None:
        points = [point for ring in rings for point in ring]
        after, start = list(range(1, len(points) + 1)), 0
        for ring in rings:
            after[start + len(ring) - 1] = start
            start += len(ring)
        self._xs, self._ys = floats([x for x, _ in points]), floats([y for _, y in points])
        self._after, self._hints = wholes(after), wholes(len(points))
        self._size = math.hypot(max(self._xs) - min(self._xs), max(self._ys) - min(self._ys))
        self._one, self._other = floats(6), floats(6)

    def proves(self, piece: Piece) -> bool:
        """Whether every rectangle that the piece claims lies within the outline."""
        move = floats(
            [
                piece.x0, piece.y0, piece.w0, piece.h0, math.radians(piece.angle / DEGREE),
                piece.x1, piece.y1, piece.w1, piece.h1, math.radians(piece.angle1 / DEGREE),
            ]
        )  # fmt: skip
        return bool(
            proved(
                move, self._xs, self._ys, self._after, self._size, self._one, self._other,
                self._hints,
            )
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Placed:
    """A rectangle in the outline's own frame, in whole um and udeg, a little smaller than found."""

    angle: int
    w: int
    h: int
    x: int
    y: int


def placed(stand: Stand, shave: float = 0.0) -> Placed | None:
    """`stand` with the slack and `shave` taken off on every side; None where nothing stays."""
    off = SLACK_UM + shave
    w = math.floor((stand.w - 2 * off) / STEP_UM) * STEP_UM
    h = math.floor((stand.h - 2 * off) / STEP_UM) * STEP_UM
    if w <= 0 or h <= 0:
        return None
    radians = math.radians(stand.angle / DEGREE)
    cos, sin = math.cos(radians), math.sin(radians)
    # what flooring takes off is shared by both sides
    u = stand.u + (stand.w - w) / 2
    v = stand.v + (stand.h - h) / 2
    return Placed(stand.angle, w, h, round(u * cos - v * sin), round(u * sin + v * cos))


def between(one: Placed, other: Placed) -> Piece:
    """The piece from one rectangle to the other, turning the short way round."""
    if abs(other.angle - one.angle) > HALF_TURN // 2:
        other = _turned_over(other, -1 if other.angle > one.angle else 1)
    return Piece(
        one.angle, one.w, one.h, one.x, one.y, other.w, other.h, other.x, other.y, other.angle
    )


def _turned_over(one: Placed, way: int) -> Placed:
    """The same rectangle half a turn further (`way` 1) or back (-1): from its far corner."""
    radians = math.radians(one.angle / DEGREE)
    cos, sin = math.cos(radians), math.sin(radians)
    x, y = one.x + one.w * cos - one.h * sin, one.y + one.w * sin + one.h * cos
    return Placed(one.angle + way * HALF_TURN, one.w, one.h, round(x), round(y))


def pieces(stands: Sequence[Stand], prover: Prover) -> tuple[tuple[Piece, ...], list[Gap]]:
    """Proved pieces under the front of `stands` (rising in width, falling in height).

    Also the gaps, as pairs of widths, that no piece spans and that hide more than CLOSE_UM.
    """
    choice = _Choice(stands, prover)
    made: list[Piece] = []
    gaps: list[Gap] = []
    i, reached = 0, 0
    while i < len(stands):
        piece, end = choice.longest(i)
        if piece and piece.w1 > reached:
            made.append(piece)
            reached = piece.w1
        if end == i and i + 1 < len(stands):
            one, other = stands[i], stands[i + 1]
            if min(other.w - one.w, one.h - other.h) > CLOSE_UM / 2:
                gaps.append((one.w, other.w))
        # the next piece starts where this one ends, unless nothing follows
        i = end if i < end < len(stands) - 1 else end + 1
    return tuple(made), gaps


def without_taller(row: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """A row for rectangles at least as wide as tall, without a first piece that adds none.

    That is so where the next piece holds all of the first that is no taller than wide.
    """
    return row[1:] if len(row) > 1 and row[1].h0 >= row[0].w1 else row


class _Choice:
    """The choice of pieces from one row of stands."""

    def __init__(self, stands: Sequence[Stand], prover: Prover) -> None:
        self._stands, self._prover = stands, prover
        self._placed: dict[tuple[int, int], Placed | None] = {}
        self._owed = [
            (math.floor(one.w - CLOSE_UM), math.floor(one.h - CLOSE_UM)) for one in stands
        ]

    def longest(self, i: int) -> tuple[Piece | None, int]:
        """The piece from stand `i` that goes farthest, and the stand at its end."""
        last = len(self._stands) - 1
        best, end, beyond, stride = None, i, last + 1, 1
        while end + 1 < beyond:
            # twice as far each time until one fails, then halving
            tried = min(end + stride, last) if beyond > last else (end + beyond) // 2
            piece = self._piece(i, tried)
            if piece:
                best, end, stride = piece, tried, stride * 2
            else:
                beyond = tried
        if best:
            return best, end
        flat = self._at(i, 0)
        piece = between(flat, flat) if flat else None
        return (piece if piece and self._prover.proves(piece) else None), i

    def _at(self, i: int, shave: int) -> Placed | None:
        if (i, shave) not in self._placed:
            self._placed[i, shave] = placed(self._stands[i], shave)
        return self._placed[i, shave]

    def _piece(self, i: int, j: int) -> Piece | None:
        """A proved piece from stand i to stand j that is close to all between, if there is one."""
        turns = self._stands[i].angle != self._stands[j].angle
        for shave in SHAVES_UM if turns else SHAVES_UM[:1]:
            one, other = self._at(i, shave), self._at(j, shave)
            if one is None or other is None or other.w < one.w:
                return None
            piece = between(one, other)
            if not _covers_all(piece, self._owed[i : j + 1]):
                return None  # and making it smaller makes it no closer
            if self._prover.proves(piece):
                return piece
        return None


def _covers_all(piece: Piece, owed: Sequence[tuple[int, int]]) -> bool:
    """Whether the piece covers every width and height of `owed`; as Piece.covers, but quick."""
    w0, h0, w1 = piece.w0, piece.h0, piece.w1
    wide, rise = max(w1 - w0, 1), piece.h1 - piece.h0
    for w, h in owed:
        past = w - w0 if w > w0 else 0
        if w > w1 or (h - h0) * wide > rise * past:
            return False
    return True
