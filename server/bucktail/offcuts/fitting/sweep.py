"""The tallest rectangle of each width at one angle: the kernel's second half.

A rectangle stands with its left side in one trapezoid and its right side in another, and passes
through those between. From each trapezoid the sweep goes right through those that connect with it
and keeps what stays free between the highest bottom and the lowest top passed. For a given width
the height is then the least of three tops less the greatest of three bottoms, each linear in where
the rectangle stands: concave, so its greatest value is at an end or where two of the lines cross.

`widths` rise; `heights` are the best so far and never rise; where a rectangle is found that is
taller, its height, angle (udeg) and corner (u, v) go into `heights`, `angles`, `us`, `vs`, and to
every narrower width for which that is better too. Lengths um.
"""

from __future__ import annotations

import math

from bucktail.offcuts.fitting.compiled import Floats, Wholes, compiled
from bucktail.offcuts.fitting.slabs import count_edges, find_bounds, in_order, place_edges, turn

#: by how much a rectangle has to be taller to count as better (um)
BETTER_UM = 0.5
FAR = 1e18


@compiled
def line(value: float, slope: float, along: float) -> float:
    """The height of a line `along` after the place where it has `value`."""
    return value + slope * along


@compiled
def tallest(
    w: float, least: float, left: Floats, right: Floats, low: float, high: float, found: Floats
) -> bool:
    """The tallest rectangle of width `w` whose sides stand in the trapezoids `left` and `right`.

    A trapezoid is (left bound, right bound, bottom, its slope, top, its slope), heights at the left
    bound. Between `low` and `high` is free on the way. Height, u and v of the lower left corner go
    into `found`; False where none is taller than `least`.
    """
    start, end = max(left[0], right[0] - w), min(left[1], right[1] - w)
    if start > end:
        return False
    span = end - start
    lb, lt = line(left[2], left[3], start - left[0]), line(left[4], left[5], start - left[0])
    rb = line(right[2], right[3], start + w - right[0])
    rt = line(right[4], right[5], start + w - right[0])
    top = min(high, max(lt, lt + left[5] * span), max(rt, rt + right[5] * span))
    bottom = max(low, min(lb, lb + left[3] * span), min(rb, rb + right[3] * span))
    if top - bottom <= least:
        return False
    best, at = least, -1.0
    for case in range(8):
        x = 0.0
        if case == 1:
            x = span
        elif case == 2 and left[5] != right[5]:
            x = (rt - lt) / (left[5] - right[5])
        elif case == 3 and left[3] != right[3]:
            x = (rb - lb) / (left[3] - right[3])
        elif case == 4 and left[5] != 0.0:
            x = (high - lt) / left[5]
        elif case == 5 and right[5] != 0.0:
            x = (high - rt) / right[5]
        elif case == 6 and left[3] != 0.0:
            x = (low - lb) / left[3]
        elif case == 7 and right[3] != 0.0:
            x = (low - rb) / right[3]
        if x < 0.0 or x > span:
            continue
        h = min(high, lt + left[5] * x, rt + right[5] * x) - max(
            low, lb + left[3] * x, rb + right[3] * x
        )
        if h > best:
            best, at = h, x
    if at < 0.0:
        return False
    found[0] = best
    found[1] = start + at
    found[2] = max(low, lb + left[3] * at, rb + right[3] * at)
    return True


@compiled
def take(t: int, s: int, bounds: Floats, at_left: Floats, at_right: Floats, into: Floats) -> None:
    """Trapezoid `t` of slab `s` as `tallest` wants it."""
    wide = bounds[s + 1] - bounds[s]
    into[0] = bounds[s]
    into[1] = bounds[s + 1]
    into[2] = at_left[2 * t]
    into[3] = (at_right[2 * t] - at_left[2 * t]) / wide
    into[4] = at_left[2 * t + 1]
    into[5] = (at_right[2 * t + 1] - at_left[2 * t + 1]) / wide


@compiled
def from_width(widths: Floats, w: float, k: int, end: int) -> int:
    """The first place from `k` on, up to `end`, whose width is at least `w`."""
    while k < end:
        middle = (k + end) // 2
        if widths[middle] < w:
            k = middle + 1
        else:
            end = middle
    return k


@compiled
def keep(
    k: int, angle: int, found: Floats, heights: Floats, angles: Wholes, us: Floats, vs: Floats
) -> None:
    """Write down a better rectangle for width k and for each narrower one that gains by it."""
    while k >= 0 and heights[k] < found[0]:
        heights[k] = found[0]
        angles[k] = angle
        us[k] = found[1]
        vs[k] = found[2]
        k -= 1


@compiled
def improve(
    k: int, end: int, w_most: float, free: float, low: float, high: float, angle: int,
    left: Floats, right: Floats, widths: Floats, found: Floats, heights: Floats, angles: Wholes,
    us: Floats, vs: Floats,
) -> None:  # fmt: skip
    """Try every width from place k up to `w_most` between two trapezoids with `free` height."""
    while k < end and widths[k] <= w_most:
        if heights[k] + BETTER_UM < free and tallest(
            widths[k], heights[k] + BETTER_UM, left, right, low, high, found
        ):
            keep(k, angle, found, heights, angles, us, vs)
        k += 1


@compiled
def first_open(widths: Floats, heights: Floats, k: int, end: int, free: float, closed: bool) -> int:
    """The first place from k on, up to `end`, that a rectangle of height `free` would better.

    With `closed`, widths that already have a rectangle at least as tall as wide are done.
    """
    while k < end and (heights[k] + BETTER_UM >= free or (closed and heights[k] >= widths[k])):
        k += 1
    return k


@compiled
def sweep(
    angle: int, m: int, start: int, end: int, closed: bool, bounds: Floats, first: Wholes,
    at_left: Floats, at_right: Floats, widths: Floats, heights: Floats, angles: Wholes,
    us: Floats, vs: Floats, stack: Wholes, lows: Floats, highs: Floats, left: Floats,
    right: Floats, found: Floats, most_work: int,
) -> int:  # fmt: skip
    """Better `heights` by every rectangle at this angle; see the head of this file.

    Only widths from place `start` up to `end` are looked for. After `most_work` trapezoids it stops
    with what it has; it returns how many it went into.

    `stack`, `lows` and `highs` are room for what is still to be gone into, three, one and one
    places for each; `left`, `right` (6) and `found` (3) are room for one trapezoid, one rectangle.
    """
    room, work = len(lows) - 1, 0
    for s in range(m):
        if work > most_work or start == end or widths[start] > bounds[m] - bounds[s]:
            break
        for t in range(first[s], first[s + 1]):
            take(t, s, bounds, at_left, at_right, left)
            most = max(at_left[2 * t + 1] - at_left[2 * t], at_right[2 * t + 1] - at_right[2 * t])
            stack[0], stack[1], stack[2] = t, s, start
            lows[0], highs[0] = -FAR, FAR
            depth = 1
            while depth > 0:
                depth -= 1
                work += 1
                here, slab, k = stack[3 * depth], stack[3 * depth + 1], stack[3 * depth + 2]
                low, high = lows[depth], highs[depth]
                free = min(
                    most,
                    high - low,
                    max(
                        at_left[2 * here + 1] - at_left[2 * here],
                        at_right[2 * here + 1] - at_right[2 * here],
                    ),
                )
                k = first_open(widths, heights, k, end, free, closed)
                if k == end or widths[k] > bounds[m] - bounds[s]:
                    continue
                if widths[k] <= bounds[slab + 1] - bounds[s]:
                    take(here, slab, bounds, at_left, at_right, right)
                    improve(
                        from_width(widths, bounds[slab] - bounds[s + 1], k, end), end,
                        bounds[slab + 1] - bounds[s], free, low, high, angle, left, right,
                        widths, found, heights, angles, us, vs,
                    )  # fmt: skip
                if slab + 1 == m:
                    continue
                for other in range(first[slab + 1], first[slab + 2]):
                    lowest = max(low, at_right[2 * here], at_left[2 * other])
                    highest = min(high, at_right[2 * here + 1], at_left[2 * other + 1])
                    if highest > lowest and depth < room:
                        stack[3 * depth], stack[3 * depth + 1] = other, slab + 1
                        stack[3 * depth + 2] = k
                        lows[depth], highs[depth] = lowest, highest
                        depth += 1
    return work


@compiled
def sweep_angles(
    done: int, turns: Wholes, starts: Wholes, ends: Wholes, closed: bool, xs: Floats, ys: Floats,
    after: Wholes, turned_x: Floats, turned_y: Floats, order: Wholes, rank: Wholes, bounds: Floats,
    first: Wholes, filled: Wholes, at_left: Floats, at_right: Floats, widths: Floats,
    heights: Floats, angles: Wholes, us: Floats, vs: Floats, stack: Wholes, lows: Floats,
    highs: Floats, left: Floats, right: Floats, found: Floats, work: Wholes,
) -> int:  # fmt: skip
    """`sweep` at each of `turns` (udeg) from place `done` on, for widths `starts` to `ends`.

    The place of the first angle whose slabs have more edges than there is room for, or how many
    angles there are. `work` is what may still be done in all, and for one angle. `turned_x` up to
    `filled` are room, one place a point (`first`: and one).
    """
    while done < len(turns):
        radians = turns[done] * math.pi / 180e6
        turn(xs, ys, math.cos(radians), math.sin(radians), turned_x, turned_y)
        in_order(turned_x, order)
        m = find_bounds(turned_x, order, bounds, rank)
        edges = count_edges(after, rank, m, first)
        if edges > len(at_left):
            return done
        place_edges(turned_x, turned_y, after, rank, bounds, first, filled, at_left, at_right)
        work[0] -= edges + sweep(
            turns[done], m, starts[done], ends[done], closed, bounds, first, at_left, at_right,
            widths, heights, angles, us, vs, stack, lows, highs, left, right, found,
            min(work[0], work[1]),
        )  # fmt: skip
        done += 1
    return done
