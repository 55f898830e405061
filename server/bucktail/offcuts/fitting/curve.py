"""The fit curve of an outline: which rectangles fit in it, and where. Made by `measure`.

A curve is two rows of pieces. A piece says: from its narrowest width to its widest the rectangle
whose height changes evenly between two heights fits, with its corner and angle changing evenly too.

Pieces rise in width. Where one ends and the next starts wider, what the next starts with holds for
all between. The row `any` holds rectangles at least as wide as tall, at any angle; the row `along`
those whose width lies along x, the direction of the grain, of any shape. A rectangle that is
narrower or lower than one that fits, fits in the same place.

Everything that a curve says fits, fits (see proof.py); what it denies may still fit by a hair.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Way = Literal["any", "along", "across"]
WAYS: tuple[Way, ...] = ("any", "along", "across")

DEGREE = 1_000_000
VERSION = 1


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of a curve; um and millionths of a degree.

    At its start the rectangle [0, w0] x [0, h0], turned by `angle` about its corner, which lies at
    (x0, y0); at its end the same with w1, h1, x1, y1 and `angle1`.
    """

    angle: int
    w0: int
    h0: int
    x0: int
    y0: int
    w1: int
    h1: int
    x1: int
    y1: int
    angle1: int

    @classmethod
    def of(cls, numbers: Iterable[int]) -> Piece:
        """From nine numbers, or ten where the angle changes on the way."""
        listed = [int(one) for one in numbers]
        if len(listed) not in (9, 10):
            raise ValueError("a piece of a fit curve has nine or ten numbers")
        angle, w0, h0, x0, y0, w1, h1, x1, y1 = listed[:9]
        return cls(angle, w0, h0, x0, y0, w1, h1, x1, y1, listed[-1] if listed[9:] else angle)

    @property
    def numbers(self) -> list[int]:
        """angle, w0, h0, x0, y0, w1, h1, x1, y1, and the angle at the end if it is another."""
        nine = [self.angle, self.w0, self.h0, self.x0, self.y0, self.w1, self.h1, self.x1, self.y1]
        return nine if self.angle1 == self.angle else [*nine, self.angle1]

    def share(self, w: float) -> float:
        """How far along the piece the width `w` is: 0 at or before its start, 1 at its end."""
        if w <= self.w0 or self.w1 <= self.w0:
            return 0.0 if w <= self.w0 else 1.0
        return (w - self.w0) / (self.w1 - self.w0)

    def covers(self, w: int, h: int) -> bool:
        """Whether w x h fits by this piece (um), in whole numbers."""
        if w > self.w1 or h > max(self.h0, self.h1):
            return False
        if w <= self.w0:
            return h <= self.h0
        wide = self.w1 - self.w0
        return h * wide <= self.h0 * wide + (self.h1 - self.h0) * (w - self.w0)


@dataclass(frozen=True, slots=True)
class Witness:
    """Where a rectangle goes: [0, w] x [0, h] turned by `degrees` about its corner (x, y), um."""

    w: float
    h: float
    x: float
    y: float
    degrees: float

    @property
    def corners(self) -> tuple[tuple[float, float], ...]:
        """The four corners, from (x, y) along the width and round."""
        cos, sin = math.cos(math.radians(self.degrees)), math.sin(math.radians(self.degrees))
        return tuple(
            (self.x + u * cos - v * sin, self.y + u * sin + v * cos)
            for u, v in ((0.0, 0.0), (self.w, 0.0), (self.w, self.h), (0.0, self.h))
        )


@dataclass(frozen=True, slots=True)
class Curve:
    """The fit curve of one outline; see the head of this file. `area_um2` is the metal."""

    area_um2: int
    any: tuple[Piece, ...]
    along: tuple[Piece, ...]

    @property
    def knots(self) -> int:
        """How many knots the curve for any angle has: its pieces and one."""
        return len(self.any) + 1 if self.any else 0

    def claims(self, w_um: int, h_um: int, way: Way = "any") -> bool:
        """True only where a rectangle of `w_um` x `h_um` fits.

        `way`: "any" angle; "along", the width along x (the grain); "across", the height along x.
        """
        return self._piece(w_um, h_um, way) is not None

    def witness(self, w_um: int, h_um: int, way: Way = "any") -> Witness | None:
        """Where a rectangle of `w_um` x `h_um` fits; None where the curve does not claim it."""
        piece = self._piece(w_um, h_um, way)
        if piece is None:
            return None
        swapped = _swapped(w_um, h_um, way)
        share = piece.share(h_um if swapped else w_um)
        x = piece.x0 + (piece.x1 - piece.x0) * share
        y = piece.y0 + (piece.y1 - piece.y0) * share
        degrees = (piece.angle + (piece.angle1 - piece.angle) * share) / DEGREE
        return laid(w_um, h_um, swapped, x, y, degrees)

    def largest(self, way: Way = "any") -> tuple[int, int]:
        """Width and height (um) of the largest rectangle by area that the curve claims; 0, 0."""
        best, area = (0, 0), 0.0
        for piece in self.any if way == "any" else self.along:
            dw, dh = piece.w1 - piece.w0, piece.h1 - piece.h0
            shares = [0.0, 1.0]
            if dw and dh < 0:
                shares.append(min(max(-(piece.w0 * dh + piece.h0 * dw) / (2 * dw * dh), 0.0), 1.0))
            for share in shares:
                size = (math.floor(piece.w0 + dw * share), math.floor(piece.h0 + dh * share))
                if size[0] * size[1] > area:
                    best, area = size, size[0] * size[1]
        return (best[1], best[0]) if way == "across" else best

    def to_json(self) -> str:
        """One line of JSON: v, area_um2, any, along; a piece is its numbers."""
        return json.dumps(
            {
                "along": [piece.numbers for piece in self.along],
                "any": [piece.numbers for piece in self.any],
                "area_um2": self.area_um2,
                "v": VERSION,
            },
            separators=(",", ":"),
        )

    @classmethod
    def from_json(cls, text: str) -> Curve:
        """The reverse of `to_json`. Raises ValueError for what is no curve of this version."""
        read = json.loads(text)
        if not isinstance(read, dict) or read.get("v") != VERSION:
            raise ValueError("no fit curve of a version that is known here")
        rows = [tuple(map(Piece.of, read[name])) for name in ("any", "along")]
        return cls(int(read["area_um2"]), rows[0], rows[1])

    def _piece(self, w: int, h: int, way: Way) -> Piece | None:
        if way not in WAYS or w <= 0 or h <= 0:
            raise ValueError("a width and a height above zero, any way, along or across the grain")
        if _swapped(w, h, way):
            w, h = h, w
        row = self.any if way == "any" else self.along
        return next((piece for piece in row if piece.covers(w, h)), None)


def _swapped(w: int, h: int, way: Way) -> bool:
    return way == "across" or (way == "any" and h > w)


def laid(w: int, h: int, swapped: bool, x: float, y: float, degrees: float) -> Witness:
    """w x h where it lies as found, or, `swapped`, where h x w was found at that place.

    On its side its height runs along what was found as the width, so it is turned a quarter
    further about the corner at the far end of that.
    """
    if not swapped:
        return Witness(w, h, x, y, degrees)
    radians = math.radians(degrees)
    return Witness(w, h, x + h * math.cos(radians), y + h * math.sin(radians), degrees + 90)
