"""Fit curves made up, and what they claim: held against the phone's look-up (twins/curve.ts).

The curves are drawn at random in the form that measuring gives them. They belong to no outline;
that what is claimed of real ones is so, other tests show.
"""

from __future__ import annotations

import json
from collections.abc import Iterator

from bucktail.offcuts.fitting.curve import DEGREE, WAYS, Curve, Piece, Way
from bucktail.offcuts.vectors import Draw

CURVES = 60
ASKED = 40
Question = tuple[int, int, Way]


def _row(draw: Draw, pieces: int, at_angle_0: bool) -> tuple[Piece, ...]:
    """Pieces that rise in width and, all but now and then, fall in height."""
    row: list[Piece] = []
    w, h = draw.between(50, 400_000), draw.between(1_000, 900_000)
    for _ in range(pieces):
        wide = 0 if draw.between(0, 7) == 0 else draw.between(1, 200_000)
        fall = draw.between(-200, h // 3)
        angle = 0 if at_angle_0 else draw.between(0, 180 * DEGREE - 1)
        on = angle if at_angle_0 or draw.between(0, 2) else angle + draw.between(0, 90_000)
        x, y = draw.between(0, 500_000), draw.between(-3, 500_000)
        ends = [w, h, x, y, w + wide, max(h - fall, 50), x + draw.between(-90, 900), y]
        row.append(Piece.of([angle, *ends, on]))
        w, h = w + wide, row[-1].h1
    return tuple(row)


def _questions(draw: Draw, row: tuple[Piece, ...]) -> Iterator[Question]:
    """Half of them within a few um of what the row gives."""
    for n in range(ASKED):
        piece = row[draw.between(0, len(row) - 1)]
        w = draw.between(max(piece.w0 - 30, 1), piece.w1 + 3)
        h = round(piece.h0 + (piece.h1 - piece.h0) * piece.share(w)) + draw.between(-2, 2)
        if n % 2:
            w, h = draw.between(1, 900_000), draw.between(1, 900_000)
        if n % 4 == 0:
            w, h = h, w
        yield max(w, 1), max(h, 1), WAYS[n % 3]


def _answer(curve: Curve, question: Question) -> list[object]:
    """[w, h, way, the corners of the place in thousandths of a um], none where it does not fit."""
    found = curve.witness(*question)
    corners = [[round(at * 1000) for at in corner] for corner in found.corners] if found else None
    return [*question, corners]


def outputs() -> dict[str, str]:
    """Generated files by their path in the repository.

    Each line is {"curve": as phones get it, "asked": [[w, h, way, corners or null]]}.
    """
    draw = Draw(1_000_003)
    lines = []
    for n in range(CURVES):
        row, along = _row(draw, 1 + n % 17, False), _row(draw, 1 + n % 9, True)
        curve = Curve(draw.between(1, 10**12), row, along)
        asked = [*_questions(draw, row), *_questions(draw, along)]
        answers = json.dumps([_answer(curve, one) for one in asked], separators=(",", ":"))
        lines.append(f'{{"curve":{curve.to_json()},"asked":{answers}}}')
    return {"tests/vectors/curve.json": "[\n" + ",\n".join(lines) + "\n]\n"}
