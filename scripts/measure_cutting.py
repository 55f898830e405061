"""Measures blanks of any shape, where to cut, and cut plans. One run, one table.

    .venv/bin/python scripts/measure_cutting.py [OUTLINES.geojson] [--blanks 400] [--places 40]
        [--plans 4] [--seed 1]

Without a file the outlines are invented (tests/running/outlines.py). Every yes is looked at again
by exact containment. A place is compared with the best of 500 random ones that touch the edge, a
plan with first fit, largest first, bottom left; both are judged more closely than they judge
themselves (in more directions, with every size, on the outlines as they are). Times are of the
processor.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bucktail.offcuts.cutplan.wanted import Progress
    from bucktail.offcuts.outline import Outline

ROOT = Path(__file__).resolve().parent.parent
RANDOM_PLACES = 500
BETTER_S = 4.0


def read_options(arguments: list[str]) -> argparse.Namespace:
    """The options."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("outlines", nargs="?", type=Path, help="GeoJSON, millimetres")
    parser.add_argument("--blanks", type=int, default=400, help="how many blanks are asked")
    parser.add_argument("--places", type=int, default=40, help="how many cuts are placed")
    parser.add_argument("--plans", type=int, default=4, help="how many plans of each sort")
    parser.add_argument("--seed", type=int, default=1, help="of what is drawn at random")
    return parser.parse_args(arguments)


def spread(times: Sequence[float]) -> str:
    """Median, 95 % and most, in ms."""
    ranked = sorted(1000 * one for one in times)
    at = [ranked[min(int(len(ranked) * share), len(ranked) - 1)] for share in (0.5, 0.95, 1)]
    return f"{at[0]:.0f} / {at[1]:.0f} / {at[2]:.0f} ms (median / 95 % / most)"


def measure_blanks(shapes: Sequence[Outline], number: int, draw: Random) -> int:
    """Blanks asked of their own offcut or of another one; how many yeses were false."""
    from shapely import Polygon

    from bucktail.offcuts.blanks import lay
    from bucktail.offcuts.fitting import measure
    from bucktail.offcuts.laying import Blank, Ground
    from running.blanks import planted, polygon

    times: list[float] = []
    plain: list[float] = []
    yes = false = own = missed = 0
    while len(times) < number:
        metal = draw.choice(shapes)
        blank = planted(draw, metal, draw.choice((0.5, 1, 3)), draw.uniform(0.5, 1))
        if blank is None:
            continue
        mine = draw.random() < 0.5
        asked = metal if mine else draw.choice(shapes)
        curve = measure(asked)
        for known, spent in ((curve, times), (None, plain)):
            start = time.process_time()
            found = lay(Ground(asked), Blank(blank), None, known)
            spent.append(time.process_time() - start)
            yes += found is not None
            if found is not None:
                false += not polygon(asked).covers(Polygon(found.ring).buffer(-5))
            own += mine
            missed += mine and found is None
    print(f"blanks of any shape   {2 * number} questions, {yes} yes, {false} of them false")
    print(f"  with 0.5 to 3 mm to spare  {missed} of {own} missed")
    print(f"  with the fit curve         {spread(times)}")
    print(f"  without it                 {spread(plain)}")
    return false


def measure_places(shapes: Sequence[Outline], number: int, draw: Random) -> int:
    """Cuts placed, against the best of many random ones; how many did not lie in the metal."""
    import numpy as np
    from shapely import Polygon

    from bucktail.offcuts.innerfit import rings_of
    from bucktail.offcuts.laying import QUARTER, Ground
    from bucktail.offcuts.placing import best_places
    from bucktail.offcuts.worth import Size, Worth, frames_of
    from running.blanks import MM, polygon, rectangle
    from running.touching import random_places

    sizes = [
        Size(round(25 * 14 ** draw.random()) * MM, round(20 * 10 ** draw.random()) * MM)
        for _ in range(14)
    ]
    times: list[float] = []
    shares: list[float] = []
    middling: list[float] = []
    false = 0
    while len(shares) < number:
        metal, size = draw.choice(shapes), draw.choice(sizes)
        rings = random_places(draw, metal, size.width, size.height, RANDOM_PLACES)
        if not rings:
            continue
        start = time.process_time()
        found = best_places(Ground(metal), rectangle(size.width, size.height), sizes)
        times.append(time.process_time() - start)
        frames = frames_of([*range(0, QUARTER, 10_000_000), *Ground(metal).directions], 14)
        worth = Worth.of(rings_of(metal), sizes, frames)
        still = np.zeros((1, 2))
        values = [float(worth.values(0, np.array(ring, float), still)[0]) for ring in rings]
        if max(values) <= 0:
            continue
        mine = 0.0
        if found:
            ring = found[0].lying.ring
            false += not polygon(metal).covers(Polygon(ring))
            mine = float(worth.values(0, np.array(ring, float), still)[0])
        shares.append(mine / max(values))
        middling.append(sum(values) / len(values) / max(values))
    print(f"where to cut          {number} cuts against the best of {RANDOM_PLACES} random places")
    print(f"  worth kept                 {sum(shares) / number:.1%}, least {min(shares):.1%}")
    print(f"  by a random place          {sum(middling) / number:.1%} on average")
    print(f"  time                       {spread(times)}")
    return false


def _has_time(start: float, progress: Progress) -> bool:
    """A plan that is whole is bettered for a while, as the server does it."""
    return progress.done < progress.of or time.process_time() - start < BETTER_S


def measure_plans(shapes: Sequence[Outline], number: int, kinds: int, draw: Random) -> int:
    """Plans of 40 pieces over 200 offcuts against first fit; how many pieces lie wrong."""
    from bucktail.offcuts.cutplan.greedy import make_plan
    from running.firstfit import boxes_of, drawn_task, faults, first_fit, lost

    rows: dict[str, list[float]] = {"plan": [], "as given": [], "smallest first": []}
    opened = dict.fromkeys(rows, 0)
    missed = dict.fromkeys(rows, 0)
    times: list[float] = []
    wrong = 0
    for _ in range(number):
        task = drawn_task(draw, draw.sample(list(shapes), min(200, len(shapes))), 40, kinds)
        start = time.process_time()
        plan = make_plan(task, partial(_has_time, start))
        times.append(time.process_time() - start)
        ours = boxes_of(plan)
        wrong += faults(task, ours)
        given, small = first_fit(task), first_fit(task, smallest_first=True)
        unplaced = sum(one.count for one in plan.not_placed)
        for name, (laid, left) in zip(rows, ((ours, unplaced), given, small), strict=True):
            rows[name].append(lost(task, laid))
            opened[name] += len(laid)
            missed[name] += left
    print(f"cut plans             {number} of 40 pieces over 200 offcuts, {kinds} kinds of metal")
    for name, each in rows.items():
        against = sum(rows["plan"]) / max(sum(each), 1e-9)
        print(
            f"  {name:<15} loses {sum(each) / number:9.0f} mm2, cuts into "
            f"{opened[name] / number:.1f} offcuts, {missed[name]} pieces unplaced; "
            f"the plan loses {against:.0%} of that"
        )
    print(f"  pieces that lie wrong      {wrong}")
    print(f"  time                       {spread(times)}")
    return wrong


def main(arguments: list[str]) -> int:
    """Measure and print; 1 where something was claimed that is not so."""
    options = read_options(arguments)
    sys.path.insert(0, str(ROOT / "tests"))
    from bucktail.offcuts.mapped import mapped
    from running.outlines import outlines

    draw = Random(options.seed)
    if options.outlines:
        read = mapped(options.outlines.read_text())
        shapes = [one.outline for one in read if one.outline]
    else:
        shapes = [made for _, made in outlines(options.seed, 500)]
    false = measure_blanks(shapes, options.blanks, draw)
    false += measure_places(shapes, options.places, draw)
    for kinds in (10, 3, 1):
        false += measure_plans(shapes, options.plans, kinds, draw)
    return 1 if false else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
