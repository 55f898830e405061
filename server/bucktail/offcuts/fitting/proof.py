"""That a rectangle that slides and turns from one place to another stays within an outline.

This is what the soundness of a fit curve stands on; how a piece was found does not matter here.

A rectangle (corner x, y; width w, height h; angle) goes from one place to another with all five
changing evenly. It lies in the metal all the way when its middle starts there and no side of the
outline ever enters it. A side (a segment) and a rectangle are apart when one of six lines separates
them: the four lines of the rectangle's own sides, or the segment's line with the rectangle wholly
on either hand (separation of convex sets). How far they are apart by one such line is the least of
some functions of the way gone. While the angle stands still each is linear, so what holds at both
ends holds between. While it turns by A in all, their second derivative is at most

    A^2 D + 2 |A| M        (D: farthest point from the corner, M: how far corner or size go)

so between two places a share d of the way apart they fall short of the chord by at most an eighth
of that times d^2; the separation at both places has to be greater by that. The way is halved until
it is, a few times at most; what is not proved then is not claimed. Lengths um, angles radians.
"""

from __future__ import annotations

import math

from bucktail.offcuts.fitting.compiled import Floats, Wholes, compiled

#: the separation asked for beyond what the turning needs (um): far more than floats are out by
SURE_UM = 0.05
#: the way is cut into at most this many stretches
MOST_STRETCHES = 64


@compiled
def within(xs: Floats, ys: Floats, after: Wholes, x: float, y: float) -> bool:
    """Whether a point lies in the metal: an odd number of sides to its right."""
    odd = False
    for i in range(len(xs)):
        j = after[i]
        if (ys[i] > y) != (ys[j] > y) and x < xs[i] + (xs[j] - xs[i]) * (y - ys[i]) / (
            ys[j] - ys[i]
        ):
            odd = not odd
    return odd


@compiled
def stand_at(move: Floats, share: float, into: Floats) -> None:
    """The rectangle at `share` of the way: x, y, w, h, cosine, sine. `move` is five and five."""
    for n in range(4):
        into[n] = move[n] + (move[n + 5] - move[n]) * share
    angle = move[4] + (move[9] - move[4]) * share
    into[4] = math.cos(angle)
    into[5] = math.sin(angle)


@compiled
def apart(stand: Floats, px: float, py: float, qx: float, qy: float, way: int) -> float:
    """By how much line `way` (0 to 5) separates the rectangle from the segment; below 0: not."""
    w: float = stand[2]
    h: float = stand[3]
    cos: float = stand[4]
    sin: float = stand[5]
    ax: float = px - stand[0]
    ay: float = py - stand[1]
    bx: float = qx - stand[0]
    by: float = qy - stand[1]
    if way < 2:
        pu, qu = cos * ax + sin * ay, cos * bx + sin * by
        return -max(pu, qu) if way == 0 else min(pu, qu) - w
    if way < 4:
        pv, qv = cos * ay - sin * ax, cos * by - sin * bx
        return -max(pv, qv) if way == 2 else min(pv, qv) - h
    dx, dy = bx - ax, by - ay
    long = math.sqrt(dx * dx + dy * dy)
    corner = (dy * ax - dx * ay) / long
    along = w * (dx * sin - dy * cos) / long
    across = h * (dx * cos + dy * sin) / long
    if way == 4:
        return corner + min(along, 0.0) + min(across, 0.0)
    return -corner - max(along, 0.0) - max(across, 0.0)


@compiled
def kept_apart(
    one: Floats, other: Floats, xs: Floats, ys: Floats, after: Wholes, need: float, hints: Wholes
) -> bool:
    """Whether each side of the outline is separated by the same line at both stands by `need`.

    `hints` keeps for each side the line that did it last.
    """
    for i in range(len(xs)):
        j = after[i]
        proved = False
        for turn in range(6):
            way = (hints[i] + turn) % 6
            if (
                apart(one, xs[i], ys[i], xs[j], ys[j], way) >= need
                and apart(other, xs[i], ys[i], xs[j], ys[j], way) >= need
            ):
                hints[i] = way
                proved = True
                break
        if not proved:
            return False
    return True


@compiled
def proved(
    move: Floats, xs: Floats, ys: Floats, after: Wholes, size: float, one: Floats, other: Floats,
    hints: Wholes,
) -> bool:  # fmt: skip
    """Whether the rectangle stays in the metal on the way `move`; see the head of this file.

    `move`: x, y, w, h, angle at the start and then at the end. `size`: no two points of the outline
    are farther apart. `one`, `other` (6) and `hints` (one for each point) are room.
    """
    stand_at(move, 0.0, one)
    half_w, half_h = one[2] / 2, one[3] / 2
    x = one[0] + one[4] * half_w - one[5] * half_h
    y = one[1] + one[5] * half_w + one[4] * half_h
    if not within(xs, ys, after, x, y):
        return False
    turned = abs(move[9] - move[4])
    goes = math.hypot(move[5] - move[0], move[6] - move[1])
    grows = math.hypot(move[7] - move[2], move[8] - move[3])
    bend = turned * turned * size + 2.0 * turned * max(goes, grows)
    done, parts = 0.0, 1
    while done < 1.0:
        share = 1.0 / parts
        stand_at(move, done, one)
        stand_at(move, min(done + share, 1.0), other)
        if kept_apart(one, other, xs, ys, after, SURE_UM + bend * share * share / 8, hints):
            done += share
            if done > 1.0 - 1e-9:
                return True
        elif parts >= MOST_STRETCHES:
            return False
        else:
            parts *= 2
    return True
