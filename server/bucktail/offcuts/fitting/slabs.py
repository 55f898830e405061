"""An outline turned by an angle and cut into upright slabs of trapezoids: the kernel's first half.

Lengths are floats in um. The outline comes as `xs`, `ys` and `after` (the place of each point's
successor in its ring). After `cut`, slab s lies between `bounds[s]` and `bounds[s + 1]`; its
trapezoids are `first[s]` up to `first[s + 1]`; trapezoid t has its bottom at place 2 t and its top
at 2 t + 1 of `at_left` and `at_right` (heights at the slab's two bounds).
"""

from __future__ import annotations

from bucktail.offcuts.fitting.compiled import Floats, Wholes, compiled

#: points nearer than this in x share a bound (um); the proof of each piece allows for far more
SAME_UM = 0.001


@compiled
def turn(xs: Floats, ys: Floats, cos: float, sin: float, us: Floats, vs: Floats) -> None:
    """The points in the frame of a rectangle that lies at the angle: u along it, v across."""
    for i in range(len(xs)):
        us[i] = cos * xs[i] + sin * ys[i]
        vs[i] = cos * ys[i] - sin * xs[i]


@compiled
def in_order(us: Floats, order: Wholes) -> None:
    """Sort the places in `order` by u; they are nearly sorted from the last angle."""
    n = len(order)
    gap = 1
    while gap < n // 9:
        gap = 3 * gap + 1
    while gap > 0:
        for i in range(gap, n):
            mine = order[i]
            key = us[mine]
            j = i
            while j >= gap and us[order[j - gap]] > key:
                order[j] = order[j - gap]
                j -= gap
            order[j] = mine
        gap //= 3


@compiled
def find_bounds(us: Floats, order: Wholes, bounds: Floats, rank: Wholes) -> int:
    """The distinct u of the points into `bounds`, each point's place there into `rank`; slabs."""
    m = 0
    bounds[0] = us[order[0]]
    rank[order[0]] = 0
    for i in range(1, len(order)):
        p = order[i]
        if us[p] > bounds[m] + SAME_UM:
            m += 1
            bounds[m] = us[p]
        rank[p] = m
    return m


@compiled
def count_edges(after: Wholes, rank: Wholes, m: int, first: Wholes) -> int:
    """How many edges pass through each slab, summed up into `first` as trapezoids; edges in all."""
    for s in range(m + 1):
        first[s] = 0
    for i in range(len(after)):
        a, b = rank[i], rank[after[i]]
        if a > b:
            a, b = b, a
        if a < b:
            first[a] += 1
            first[b] -= 1
    live = 0
    total = 0
    for s in range(m):
        live += first[s]
        first[s] = total // 2
        total += live
    first[m] = total // 2
    return total


@compiled
def place_edges(
    us: Floats,
    vs: Floats,
    after: Wholes,
    rank: Wholes,
    bounds: Floats,
    first: Wholes,
    filled: Wholes,
    at_left: Floats,
    at_right: Floats,
) -> None:
    """Put each edge into the slabs it passes through, from the bottom up."""
    for s in range(len(filled)):
        filled[s] = 0
    for i in range(len(after)):
        p, q = i, after[i]
        if rank[p] > rank[q]:
            p, q = q, p
        if rank[p] == rank[q]:
            continue
        slope = (vs[q] - vs[p]) / (us[q] - us[p])
        left = vs[p]
        for s in range(rank[p], rank[q]):
            right = vs[q] if s + 1 == rank[q] else vs[p] + slope * (bounds[s + 1] - us[p])
            base = 2 * first[s]
            k = base + filled[s]
            filled[s] += 1
            key = left + right
            while k > base and at_left[k - 1] + at_right[k - 1] > key:
                at_left[k] = at_left[k - 1]
                at_right[k] = at_right[k - 1]
                k -= 1
            at_left[k] = left
            at_right[k] = right
            left = right
