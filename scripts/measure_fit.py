"""Measures the fit curves: how true, how complete, how short, how fast. One run, one table.

    .venv/bin/python scripts/measure_fit.py [OUTLINES.geojson] [--number 500] [--seed 1]
        [--claims 100000] [--questions 20] [--plain]

Without a file the outlines are invented (tests/running/outlines.py). False claims are looked for by
exact containment, half of the claims within 0.3 mm of the curve. Misses are looked for against the
same sweep at far finer angles, on the outline as it is. `--plain` runs without the compiler.
"""

from __future__ import annotations

import argparse
import os
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from random import Random

ROOT = Path(__file__).resolve().parent.parent


def read_options(arguments: list[str]) -> argparse.Namespace:
    """The options."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("outlines", nargs="?", type=Path, help="GeoJSON, millimetres")
    parser.add_argument("--number", type=int, default=500, help="how many outlines at most")
    parser.add_argument("--seed", type=int, default=1, help="of what is drawn at random")
    parser.add_argument("--claims", type=int, default=100_000, help="claims checked exactly")
    parser.add_argument("--questions", type=int, default=20, help="widths of each outline asked")
    parser.add_argument("--plain", action="store_true", help="without the compiler")
    return parser.parse_args(arguments)


def main(arguments: list[str]) -> int:
    """Measure and print; 1 where a claim was false."""
    options = read_options(arguments)
    if options.plain:
        os.environ["BUCKTAIL_PLAIN_PYTHON"] = "1"
    sys.path.insert(0, str(ROOT / "tests"))
    from bucktail.offcuts.fitting import Way
    from bucktail.offcuts.fitting.compiled import COMPILED
    from bucktail.offcuts.fitting.measure import measure
    from bucktail.offcuts.fitting.ready import ready
    from bucktail.offcuts.mapped import mapped
    from running.fitting import check_claims, missed
    from running.outlines import outlines

    draw = Random(options.seed)
    if options.outlines:
        read = mapped(options.outlines.read_text())
        shapes = [one.outline for one in read if one.outline][: options.number]
    else:
        shapes = [made for _, made in outlines(options.seed, options.number)]
    ready()
    times: list[float] = []
    busy: list[float] = []
    curves = []
    for shape in shapes:
        wall, cpu = time.perf_counter(), time.process_time()
        curves.append(measure(shape))
        times.append((time.perf_counter() - wall) * 1000)
        busy.append((time.process_time() - cpu) * 1000)
    print(f"{len(shapes)} outlines, {'compiled' if COMPILED else 'plain Python'}")
    print(f"  {'':34}{'median':>9}{'mean':>9}{'95 %':>9}{'most':>9}")
    _row("ms for an outline", times)
    _row("ms of the processor for an outline", busy)
    _row("knots, any angle", [curve.knots for curve in curves])
    _row("knots, along the grain", [len(curve.along) + 1 for curve in curves])
    _row("bytes of the curve", [len(curve.to_json()) for curve in curves])

    each = -(-options.claims // len(shapes))
    claims = [
        check_claims(shape, curve, each, draw) for shape, curve in zip(shapes, curves, strict=True)
    ]
    yes, false = sum(one.claimed for one in claims), sum(one.false for one in claims)
    print(
        f"claims checked by exact containment: {sum(one.asked for one in claims):,} asked, "
        f"{yes:,} claimed, {false} false"
    )
    ways: tuple[tuple[str, Way], ...] = (("any angle", "any"), ("along the grain", "along"))
    for name, way in ways:
        for what, least, most in (
            ("ordinary sizes", 1_000, None),
            ("0.5 to 1 mm to spare", 500, 1_000),
        ):
            _missed(
                f"{name}, {what}",
                [
                    missed(shape, curve, options.questions, draw, way, least, most)
                    for shape, curve in zip(shapes, curves, strict=True)
                ],
            )
    return 1 if false else 0


def _row(name: str, values: Sequence[float]) -> None:
    ranked = sorted(values)
    print(
        f"  {name:34}{ranked[len(ranked) // 2]:9.1f}{sum(ranked) / len(ranked):9.1f}"
        f"{ranked[int(len(ranked) * 0.95)]:9.1f}{ranked[-1]:9.1f}"
    )


def _missed(name: str, counts: Sequence[tuple[int, int]]) -> None:
    asked, gone = sum(one for one, _ in counts), sum(other for _, other in counts)
    print(f"  {name:40} {gone:5} missed of {asked:,} ({100 * gone / max(asked, 1):.3f} %)")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
