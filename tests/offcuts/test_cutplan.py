"""Cut plans: what is promised holds for any pieces and any stock."""

from __future__ import annotations

from itertools import islice
from random import Random

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely import Polygon

from bucktail.offcuts.cutplan.greedy import make_plan, why_not
from bucktail.offcuts.cutplan.sequence import cutting_order, datum_of
from bucktail.offcuts.cutplan.wanted import Cutting, Plan, Progress, Stock, Task, Wanted
from bucktail.offcuts.outline import Outline, outline
from bucktail.offcuts.worth import Size
from running.blanks import MM, polygon
from running.firstfit import boxes_of, drawn_task, faults, first_fit, lost
from running.outlines import outlines

SIZES = tuple(Size(w * MM, h * MM) for w, h in ((250, 120), (160, 90), (90, 60), (50, 30)))


def anything(_want: Wanted, _stock: Stock) -> str:
    return ""


def sheet(a: int, b: int) -> Outline:
    return outline([(0, 0), (a, 0), (a, b), (0, b)])


def task(wants: list[Wanted], stock: list[Stock], kerf: int, **more: int) -> Task:
    return Task(tuple(wants), tuple(stock), Cutting(kerf, **more), SIZES, anything)


def check(plan: Plan, asked: Task) -> int:
    """Everything a plan promises; how many pieces it has."""
    stock = {one.id: one for one in asked.stock}
    wants = {one.id: one for one in asked.wants}
    placed: dict[str, set[int]] = {}
    for made in plan.sheets:
        metal = polygon(stock[made.stock].metal)
        blanks = [Polygon(cut.corners) for cut in made.cuts]
        # corners of a plan turned off the axes are rounded to whole nm
        slack = 0 if made.angle == 0 else 2
        for cut, blank in zip(made.cuts, blanks, strict=True):
            want = wants[cut.want]
            assert why_not(asked, want, stock[made.stock]) == ""
            placed.setdefault(cut.want, set()).add(cut.nth)
            c = np.array(cut.corners, dtype=float)
            sides = np.hypot(*(c[1] - c[0])), np.hypot(*(c[2] - c[1]))
            assert sides == pytest.approx((want.width, want.height), abs=slack)
            room = blank.buffer(asked.cutting.clearance, join_style="mitre")
            assert metal.covers(room.buffer(-slack) if slack else room)
            spans = cut.along[1] - cut.along[0], cut.off[1] - cut.off[0]
            assert sorted(spans) == pytest.approx(sorted((want.width, want.height)), abs=3)
            if want.grain != "any":
                along_x = abs(c[1][0] - c[0][0]) > abs(c[1][1] - c[0][1])
                grain_x = stock[made.stock].grain == "a"
                assert along_x == (grain_x == (want.grain == "along width"))
        for n, one in enumerate(blanks):
            for other in blanks[:n]:
                # shapely's distance is off by a few units in its last place
                assert one.distance(other) >= asked.cutting.kerf - 1e-6
    missing = {one.want: 0 for one in plan.not_placed}
    for one in plan.not_placed:
        missing[one.want] += one.count
        assert one.reason.endswith(".")
    for want in asked.wants:
        assert len(placed.get(want.id, ())) + missing.get(want.id, 0) == want.count
    return sum(map(len, placed.values()))


@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.integers(0, 10_000), st.integers(0, 4_000_000), st.sampled_from([0, 0, 1_234_567]))
def test_pieces_lie_inside_a_kerf_apart(seed: int, kerf: int, clearance: int) -> None:
    draw = Random(seed)
    stock = [
        Stock(f"o{n}", "", metal, draw.choice(("a", "b", "unknown")))
        for n, (_, metal) in enumerate(islice(outlines(seed, 5), 5))
    ]
    wants = [
        Wanted(
            f"w{n}",
            "",
            draw.randrange(15 * MM, 180 * MM),
            draw.randrange(15 * MM, 120 * MM),
            draw.randint(1, 3),
            draw.choice(("any", "along width", "along height")),
        )
        for n in range(4)
    ]
    asked = task(wants, stock, kerf, clearance=clearance)
    check(make_plan(asked), asked)


def test_what_fills_a_sheet_to_the_nanometre_fits() -> None:
    kerf = 1_587_500
    stock = [Stock("o", "", sheet(3 * 50_800_000 + 2 * kerf, 2 * 25_400_000 + kerf))]
    asked = task([Wanted("w", "", 50_800_000, 25_400_000, 6)], stock, kerf)
    plan = make_plan(asked)
    assert check(plan, asked) == 6
    assert plan.sheets[0].straight
    tight = task([Wanted("w", "", 50_800_000, 25_400_000, 6)], stock, kerf + 1)
    assert check(make_plan(tight), tight) < 6


def test_grain_and_reservations_are_kept() -> None:
    stock = [
        Stock("known", "", sheet(200 * MM, 60 * MM), "a"),
        Stock("unknown", "", sheet(300 * MM, 300 * MM)),
        Stock("held", "", sheet(300 * MM, 300 * MM), "a", "p1", "the other wing"),
    ]
    along = Wanted("along", "", 150 * MM, 50 * MM, 1, "along width")
    across = Wanted("across", "", 150 * MM, 50 * MM, 1, "along height")
    own = Wanted("own", "", 290 * MM, 290 * MM, 1, "along width", frozenset({"p1"}))
    asked = task([along, across, own], stock, 0)
    plan = make_plan(asked)
    assert check(plan, asked) == 2
    assert {made.stock: made.cuts[0].want for made in plan.sheets} == {
        "known": "along",
        "held": "own",
    }
    [missing] = plan.not_placed
    assert missing.want == "across" and "room" in missing.reason


def test_why_nothing_serves_is_said() -> None:
    wants = (Wanted("w", "", 10 * MM, 10 * MM, 2),)
    none = Task(wants, (), Cutting(0), SIZES, anything)
    assert make_plan(none).not_placed[0].reason == "There is no offcut to cut it from."
    stock = (Stock("o", "", sheet(50 * MM, 50 * MM)),)
    other = Task(wants, stock, Cutting(0), SIZES, lambda want, stock: "6061-T6, wanted 2024-T3")
    [missing] = make_plan(other).not_placed
    assert missing.count == 2 and "6061-T6, wanted 2024-T3" in missing.reason


def test_a_plan_tells_how_far_it_is_and_stops_when_asked() -> None:
    told: list[Progress] = []

    def go_on(progress: Progress) -> bool:
        told.append(progress)
        return progress.done < 3

    asked = task(
        [Wanted("w", "", 40 * MM, 30 * MM, 5)], [Stock("o", "", sheet(400 * MM, 300 * MM))], 0
    )
    plan = make_plan(asked, go_on)
    assert plan.stopped and check(plan, asked) == 3
    assert [progress.done for progress in told] == [0, 1, 2, 3]
    assert told[-1] == Progress(3, 5, 3)


def test_the_same_task_gives_the_same_plan() -> None:
    stock = [Stock(f"o{n}", "", metal) for n, (_, metal) in enumerate(islice(outlines(3, 6), 6))]
    wants = [Wanted(f"w{n}", "", (30 + 9 * n) * MM, 25 * MM, 2) for n in range(5)]
    asked = task(wants, stock, 2 * MM)
    assert make_plan(asked) == make_plan(asked)


def test_another_offcut_is_opened_only_for_what_it_saves() -> None:
    stock = [Stock(f"o{n}", "", sheet(400 * MM, 300 * MM)) for n in range(4)]
    wants = [Wanted("w", "", 40 * MM, 30 * MM, 4)]
    asked = Task(tuple(wants), tuple(stock), Cutting(0, 0, 1.0), SIZES, anything)
    assert len(make_plan(asked).sheets) == 1


def test_the_farthest_is_cut_first_and_what_is_not_straight_is_said() -> None:
    rows = [(0, 0, 10, 5), (12, 0, 20, 5), (0, 7, 20, 12)]
    assert cutting_order(rows) == ([2, 1, 0], True)
    wheel = [(0, 0, 10, 5), (12, 0, 17, 10), (7, 12, 17, 17), (0, 7, 5, 17)]
    order, straight = cutting_order(wheel)
    assert sorted(order) == [0, 1, 2, 3] and not straight
    assert cutting_order([]) == ([], True)


def test_the_datum_is_the_longest_edge_along_the_frame() -> None:
    corner_off = ((0, 0), (300, 0), (300, 100), (200, 200), (0, 200))
    datum = datum_of(corner_off, 0)
    assert (datum.start, datum.end, datum.edge) == ((0, 0), (300, 0), True)
    triangle = ((0, 0), (300, 40), (50, 200))
    line = datum_of(triangle, 0)
    assert not line.edge and line.start[1] == line.end[1] == 0


@pytest.mark.parametrize(("seed", "kinds"), [(21, 4), (22, 1)])
def test_a_plan_loses_less_than_first_fit(seed: int, kinds: int) -> None:
    metals = [metal for _, metal in islice(outlines(seed, 30), 30)]
    asked = drawn_task(Random(seed), metals, 12, kinds)
    plan = make_plan(asked)
    check(plan, asked)
    ours = boxes_of(plan)
    laid, missed = first_fit(asked)
    assert faults(asked, ours) == faults(asked, laid) == 0
    assert sum(one.count for one in plan.not_placed) <= missed
    assert lost(asked, ours) <= 0.72 * lost(asked, laid)
