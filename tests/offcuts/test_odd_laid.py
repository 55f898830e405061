"""Where the phone says to cut in an odd outline, and what it says will stay, held against shapely.

The outlines are measured by the real kernel; the places are worked out by the phone's own code.
"""

from __future__ import annotations

import json
import subprocess
from itertools import pairwise
from math import hypot
from random import Random
from typing import Any

import pytest
from shapely import Polygon

from bucktail.workshop.measuring import fit_curve
from running.bundle import bundle
from running.oddstock import drawn_shape, ell

OUTLINES, ASKED = 60, 40
NM_PER_MM = 1_000_000
LEAST_UM = 25_400
#: A corner is told to the nearest nm.
ROUNDED_NM = 2
WAYS = ("any", "any", "width along a", "width along b")

#: One {"curve", "asked"} a line in; out what is laid for each, null where nothing fits.
ENTRY = """
import { readFileSync } from 'node:fs';
import { fitsOdd, layOdd, spoilsAtLeast } from 'SRC/offcuts/odd.ts';
import { curveFrom } from 'SRC/twins/curve.ts';
for (const line of readFileSync(0, 'utf-8').split('\\n').filter(Boolean)) {
  const { curve: told, asked } = JSON.parse(line);
  const curve = curveFrom(told);
  const laid = asked.map((one) => fitsOdd(curve, one)
    ? { ...layOdd(curve, one), least: spoilsAtLeast(curve, one) } : null);
  process.stdout.write(JSON.stringify(laid) + '\\n');
}
"""

Case = tuple[Polygon, dict[str, Any], dict[str, Any] | None]


def _asked(draw: Random, shape: dict[str, Any]) -> dict[str, Any]:
    """A blank of a size that often fits, as often by little as by much."""
    most = max(x for x, _ in shape["outer"]), max(y for _, y in shape["outer"])
    width, height = (round(draw.uniform(0.02, 0.8) * side) for side in most)
    return {
        "width": max(width, 1),
        "height": max(height, 1),
        "clearance": draw.choice([0, 0, NM_PER_MM, 1_587_500]),
        "way": draw.choice(WAYS),
        "least": draw.choice([LEAST_UM, 0]),
    }


def _small(width: int, height: int) -> dict[str, Any]:
    """A blank at any angle."""
    return {"width": width, "height": height, "clearance": 0, "way": "any", "least": LEAST_UM}


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> list[Case]:
    """The metal, what was asked, and what the phone says."""
    draw = Random(20_271)
    shapes = [ell(400, 300, 80, 60), *(drawn_shape(draw) for _ in range(OUTLINES))]
    asked = [[_asked(draw, shape) for _ in range(ASKED)] for shape in shapes]
    asked[0] = [_small(side * NM_PER_MM, 40 * NM_PER_MM) for side in (20, 30, 50, 70)]
    lines = [
        json.dumps({"curve": json.loads(fit_curve(shape)), "asked": some})
        for shape, some in zip(shapes, asked, strict=True)
    ]
    command = bundle(tmp_path_factory.mktemp("odd"), ENTRY)
    done = subprocess.run(
        command, input="\n".join(lines), capture_output=True, text=True, check=True
    )
    answers = [json.loads(line) for line in done.stdout.splitlines()]
    return [
        (Polygon(shape["outer"], shape["holes"]), one, told)
        for shape, some, said in zip(shapes, asked, answers, strict=True)
        for one, told in zip(some, said, strict=True)
    ]


def fitting(laid: list[Case]) -> list[tuple[Polygon, dict[str, Any], dict[str, Any]]]:
    """Those of which the phone says that they fit."""
    found = [(metal, one, told) for metal, one, told in laid if told]
    assert len(found) > 600
    return found


def test_the_blank_lies_in_the_metal_clear_of_every_edge(laid: list[Case]) -> None:
    for metal, one, told in fitting(laid):
        corners = told["corners"]
        sides = [hypot(x - u, y - v) for (x, y), (u, v) in pairwise(corners)]
        assert abs(sides[0] - one["width"]) < ROUNDED_NM
        assert abs(sides[1] - one["height"]) < ROUNDED_NM
        assert abs(sides[2] - one["width"]) < ROUNDED_NM
        blank = Polygon(corners)
        assert abs(blank.area - one["width"] * one["height"]) < 4 * sum(sides[:2])
        assert blank.exterior.is_ccw
        assert metal.covers(blank)
        clear = blank.distance(metal.boundary)
        assert clear >= one["clearance"] - ROUNDED_NM


def test_the_grain_is_kept(laid: list[Case]) -> None:
    for _, one, told in fitting(laid):
        (x0, y0), (x1, y1), *_ = told["corners"]
        if one["way"] == "width along a":
            assert abs(y1 - y0) < ROUNDED_NM and told["tenths"] == 0
        elif one["way"] == "width along b":
            assert abs(x1 - x0) < ROUNDED_NM and told["tenths"] == 900


def test_what_is_said_to_stay_stays_whole(laid: list[Case]) -> None:
    some = 0
    for metal, one, told in fitting(laid):
        a, b = told["left"]
        least = one["least"] * 1000
        if told["stays"] is None:
            assert (a, b) == (0, 0)
            continue
        some += 1
        stays = Polygon(told["stays"])
        blank = Polygon(told["corners"])
        assert metal.covers(stays.buffer(-ROUNDED_NM, join_style="mitre"))
        assert stays.area >= a * b - ROUNDED_NM * (a + b)
        assert min(a, b) >= max(least - 1000, 0)
        assert stays.buffer(-ROUNDED_NM).disjoint(blank)
        assert stays.distance(blank) >= one["clearance"] - 2 * ROUNDED_NM
    assert some > 300


def test_what_is_spoiled_is_the_metal_less_the_blank_less_what_stays(laid: list[Case]) -> None:
    for metal, one, told in fitting(laid):
        a, b = told["left"]
        um2 = (metal.area - one["width"] * one["height"] - a * b) / 1e6
        # each side is first taken down to whole um
        hair = (one["width"] + one["height"] + a + b) / 1000 + 10
        assert abs(told["spoiled"] - max(um2, 0)) <= hair
        assert told["least"] <= told["spoiled"]


def test_of_an_ell_the_other_leg_stays(laid: list[Case]) -> None:
    for _, _, told in laid[:4]:
        assert told is not None
        # either leg, 400 x 60 or 80 x 300 mm, less what a curve is lower than the metal
        assert told["left"][0] * told["left"][1] > 0.99 * 24_000 * NM_PER_MM**2
