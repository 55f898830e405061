"""Measures the phone's search over 5,000 offcuts in a slowed-down Chromium, and the plain way too.

Half of the offcuts are rectangles, half odd outlines with their fit curves; metals, thicknesses and
wants are drawn at random, always the same ones. The phone's own code runs in Chromium at a quarter
of this machine's speed. The plain way, in the same run on the same wants: keep what the blank's box
fits into by size and area, try the tightest first with shapely at many places and angles, and stop
at five. How often its first suggestion before trying would have been wrong is counted too.
"""

from __future__ import annotations

import argparse
import json
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING, Any

from in_venv import go_inside
from prepare_web import MODULES, WEB, find_node

if TYPE_CHECKING:
    from playwright.sync_api import Browser

OFFCUTS = 5000
DISTINCT = 250  # outlines measured; the others are the same ones in other metals
WANTS = 80
SLOWER = 4
FRAME_MS = 16.7
MM = 1_000_000
METALS = (("2024", "T3"), ("2024", "T3"), ("6061", "T6"), ("7075", "T6"))
THICKNESSES = (508_000, 635_000, 812_800, 1_016_000, 1_270_000, 1_600_200)

ENTRY = """
import { search } from 'SRC/offcuts/search.ts';
import { pieceOfRow, shopIn } from 'SRC/offcuts/piece.ts';
import { curveFrom } from 'SRC/twins/curve.ts';

globalThis.measure = (rows, curves, wants) => {
  const packed = curves.map(curveFrom);
  const all = rows.map((row) => pieceOfRow(row, { of: (event) => packed[event] }, () => undefined));
  const shop = shopIn('mm');
  const asked = (want) => {
    const start = performance.now();
    const found = search(want, all, shop);
    return { ms: performance.now() - start, found };
  };
  for (const want of wants.slice(0, 10)) asked(want); // as after the first few keys
  // each asked three times, its middle time counts: other programs run on this machine too
  const rounds = [0, 1, 2].map(() => wants.map(asked));
  return wants.map((_, n) => {
    const { found } = rounds[0][n];
    const [, ms] = rounds.map((round) => round[n].ms).sort((one, other) => one - other);
    return { ms, first: found.serves[0]?.offcut.id ?? null,
      serve: found.serves.length + found.more_serve };
  });
};
"""


def stock(draw: Random, count: int, outlines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Offcuts as a phone's rows hold them; `shape_from` is the number of an outline, if any."""
    made = []
    for number in range(count):
        odd = draw.randrange(len(outlines)) if number % 2 else None
        sides = {"a": draw.uniform(30, 1200), "b": draw.uniform(30, 600)}
        sheet = {side: {"nm": round(mm * MM), "text": ""} for side, mm in sides.items()}
        alloy, temper = draw.choice(METALS)
        fields = {
            "name": f"piece {number}",
            "alloy": alloy,
            "temper": temper,
            "clad": draw.choice(["clad", "bare"]),
            "form": "sheet",
            "thickness": {"nm": draw.choice(THICKNESSES), "text": ""},
            "measured": draw.choice(["bare"] * 9 + ["over film"]),
            "known_by": draw.choice(["mill marking"] * 9 + ["unknown"]),
            "shape": {"kind": "rectangle", **sheet} if odd is None else outlines[odd],
            "grain": draw.choice(["a", "a", "b", "unknown"]),
            "shape_from": odd,
        }
        row = {"id": str(number), "sort": "offcut", "codes": [], "oldCodes": [], "doubts": []}
        made.append({**row, "place": None, "retired": False, "fields": fields})
    return made


def wants(draw: Random, count: int) -> list[dict[str, Any]]:
    """What is asked for; every fourth of any metal and thickness, the hardest for the search."""
    made = []
    for number in range(count):
        alloy, temper = draw.choice(METALS)
        any_metal = number % 4 == 0
        gauge = {"kind": "gauge", "nm": draw.choice(THICKNESSES)}
        made.append(
            {
                "alloy": None if any_metal else alloy,
                "temper": None if any_metal else temper,
                "cladding": "any",
                "thickness": {"kind": "any"} if any_metal else gauge,
                "width_nm": round(draw.uniform(15, 400) * MM),
                "height_nm": round(draw.uniform(10, 250) * MM),
                "grain": draw.choice(["any", "any", "along width", "along height"]),
                "clearance_nm": draw.choice([0, 0, 1_587_500]),
                "structure": number % 2 == 0,
                "wanted_for": None,
            }
        )
    return made


def bundled(folder: Path) -> str:
    """The phone's search as one script for a browser."""
    source, made = folder / "entry.ts", folder / "entry.js"
    source.write_text(ENTRY.replace("SRC", (WEB / "src").as_posix()), encoding="utf-8")
    bundler = [find_node().program, str(MODULES / "rolldown" / "bin" / "cli.mjs"), str(source)]
    options = ["--file", str(made), "--format", "iife", "--minify"]
    subprocess.run([*bundler, *options], check=True, capture_output=True, cwd=WEB)
    return made.read_text(encoding="utf-8")


def measured(
    browser: Browser, script: str, given: tuple[Any, Any, Any], slower: Iterable[int]
) -> dict[int, list[dict[str, Any]]]:
    """How many times slower -> what each search took (ms) and found."""
    page = browser.new_page()
    page.add_script_tag(content=script)
    control = page.context.new_cdp_session(page)
    found = {}
    for rate in slower:
        control.send("Emulation.setCPUThrottlingRate", {"rate": rate})
        found[rate] = page.evaluate("([all, curves, wants]) => measure(all, curves, wants)", given)
    page.close()
    return found


def in_chromium(
    script: str, given: tuple[Any, Any, Any], slower: Iterable[int]
) -> dict[int, list[dict[str, Any]]]:
    """The same in a browser of its own."""
    from playwright.sync_api import sync_playwright

    from chromium import on_path

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=on_path(), args=["--no-sandbox"])
        found = measured(browser, script, given, slower)
        browser.close()
    return found


class PlainWay:
    """Box filter, then shapely, on the same stock."""

    ANGLES = range(0, 90, 5)
    STEPS = 8
    ENOUGH = 5

    def __init__(self, rows: list[dict[str, Any]]) -> None:
        from shapely import Polygon

        self.offcuts = [row["fields"] for row in rows]
        self.metal = [Polygon(self._ring(one), self._holes(one)) for one in self.offcuts]
        self.boxes = [one.bounds for one in self.metal]

    @staticmethod
    def _ring(offcut: dict[str, Any]) -> list[tuple[float, float]]:
        shape = offcut["shape"]
        if shape["kind"] == "outline":
            return [(x / MM, y / MM) for x, y in shape["outer"]]
        a, b = shape["a"]["nm"] / MM, shape["b"]["nm"] / MM
        return [(0, 0), (a, 0), (a, b), (0, b)]

    @staticmethod
    def _holes(offcut: dict[str, Any]) -> list[list[tuple[float, float]]]:
        rings = offcut["shape"].get("holes", [])
        return [[(x / MM, y / MM) for x, y in ring] for ring in rings]

    def tightest(self, want: dict[str, Any]) -> list[int]:
        """What the box says, the smallest first, of the metal and thickness wanted."""
        k = 2 * want["clearance_nm"]
        w, h = (want["width_nm"] + k) / MM, (want["height_nm"] + k) / MM
        long, short = max(w, h), min(w, h)
        found = []
        for n, (offcut, box) in enumerate(zip(self.offcuts, self.boxes, strict=True)):
            a, b = box[2], box[3]
            if min(a, b) < short or max(a, b) < long or self.metal[n].area < w * h:
                continue
            thickness = want["thickness"].get("nm", offcut["thickness"]["nm"])
            if want["alloy"] in (None, offcut["alloy"]) and thickness == offcut["thickness"]["nm"]:
                found.append(n)
        return sorted(found, key=lambda n: self.metal[n].area)

    def fits(self, n: int, want: dict[str, Any]) -> bool:
        """Whether some place and angle of a grid holds the blank."""
        from shapely import box
        from shapely.affinity import rotate, translate
        from shapely.prepared import prep

        k = 2 * want["clearance_nm"]
        blank = box(0, 0, (want["width_nm"] + k) / MM, (want["height_nm"] + k) / MM)
        metal, (_, _, a, b) = prep(self.metal[n]), self.boxes[n]
        angles = self.ANGLES if want["grain"] == "any" else [0, 90]
        for turned in (rotate(blank, angle + q) for angle in angles for q in (0, 90)):
            x0, y0, x1, y1 = turned.bounds
            spare_a, spare_b = a - (x1 - x0), b - (y1 - y0)
            if min(spare_a, spare_b) < 0:
                continue
            for i in range(self.STEPS + 1):
                for j in range(self.STEPS + 1):
                    at = (spare_a * i / self.STEPS - x0, spare_b * j / self.STEPS - y0)
                    if metal.covers(translate(turned, *at)):
                        return True
        return False

    def answer(self, want: dict[str, Any]) -> tuple[float, list[int], bool | None]:
        """ms, what it suggests, and whether the first by box alone fits (None: there is none)."""
        start = time.perf_counter()
        listed = self.tightest(want)
        suggested: list[int] = []
        first: bool | None = None
        for n in listed:
            fits = self.fits(n, want)
            first = fits if first is None else first
            if fits:
                suggested.append(n)
                if len(suggested) == self.ENOUGH:
                    break
        return (time.perf_counter() - start) * 1000, suggested, first


def middle_and_most(times: list[float]) -> tuple[float, float, float]:
    """Median, 95 % and longest."""
    ordered = sorted(times)
    return statistics.median(ordered), ordered[int(len(ordered) * 0.95)], ordered[-1]


def data(
    distinct: int = DISTINCT, asked: int = WANTS, seed: int = 2026
) -> tuple[list[dict[str, Any]], list[Any], list[dict[str, Any]]]:
    """Offcuts, curves and wants."""
    from bucktail.workshop.measuring import fit_curve
    from running.oddstock import drawn_shape

    draw = Random(seed)
    outlines = [drawn_shape(draw) for _ in range(distinct)]
    curves = [json.loads(fit_curve(shape)) for shape in outlines]
    return stock(draw, OFFCUTS, outlines), curves, wants(draw, asked)


def main(arguments: list[str]) -> int:
    """Measure and print; 1 where the search takes longer than a frame at 95 %."""
    parser = argparse.ArgumentParser(prog="measure_search", description=__doc__.splitlines()[0])
    parser.add_argument("--plain-wants", type=int, default=24, help="asked of the plain way too")
    options = parser.parse_args(arguments)
    offcuts, curves, asked = data()
    with tempfile.TemporaryDirectory() as folder:
        found = in_chromium(bundled(Path(folder)), (offcuts, curves, asked), (1, SLOWER))
    for rate, answers in found.items():
        times = middle_and_most([one["ms"] for one in answers])
        print(
            f"search of {OFFCUTS} in Chromium, {rate} times slower: median {times[0]:.1f} ms, "
            f"95 % {times[1]:.1f} ms, longest {times[2]:.1f} ms"
        )
    slow = middle_and_most([one["ms"] for one in found[SLOWER]])[1]
    plain = PlainWay(offcuts)
    some = [plain.answer(want) for want in asked[: options.plain_wants]]
    times = middle_and_most([ms for ms, _, _ in some])
    firsts = [first for _, _, first in some if first is not None]
    print(
        f"box filter, then shapely, at full speed: median {times[0]:.0f} ms, 95 % {times[1]:.0f} "
        f"ms; of {len(firsts)} first suggestions by the box alone {firsts.count(False)} are wrong"
    )
    return 0 if slow <= FRAME_MS else 1


if __name__ == "__main__":
    go_inside()
    sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "tests"))
    sys.exit(main(sys.argv[1:]))
