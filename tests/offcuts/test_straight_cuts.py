"""The phone's straight cuts through sheets of any shape, held against another geometry."""

from __future__ import annotations

import json
import subprocess
from math import hypot
from random import Random
from typing import Any

import pytest
from shapely import LineString, Polygon, unary_union

from bucktail.offcuts.cutting import doubled_area
from running.bundle import bundle
from running.cutstock import MM, blank_on, drawn_outline

#: One case a line in; out: the remnants and twice the area of the dust.
ENTRY = """
import { readFileSync } from 'node:fs';
import { cutFree } from 'SRC/offcuts/cutting/straight.ts';
for (const line of readFileSync(0, 'utf-8').split('\\n').filter(Boolean)) {
  const { sheet, blank, kerf, order } = JSON.parse(line);
  const { remnants, doubledDust, cuts } = cutFree(sheet, blank, kerf, order);
  process.stdout.write(JSON.stringify({ remnants, cuts, dust: String(doubledDust) }) + '\\n');
}
"""


def cases(seed: int, count: int) -> list[dict[str, Any]]:
    """Sheets with a blank on each, a saw and an order of its sides."""
    draw = Random(seed)
    made: list[dict[str, Any]] = []
    while len(made) < count:
        sheet = drawn_outline(draw)
        blank = blank_on(draw, sheet)
        if blank is None:
            continue
        order = draw.sample(range(4), 4)
        kerf = draw.choice([0, 0, MM, 3 * MM])
        region = {"outer": sheet.outer, "holes": sheet.holes}
        made.append({"sheet": region, "blank": blank, "kerf": kerf, "order": order})
    return made


@pytest.fixture(scope="module")
def answers(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[dict[str, Any], Any]]:
    """The cases, and what the phone's code says of each."""
    command = bundle(tmp_path_factory.mktemp("cuts"), ENTRY)
    asked = cases(2027, 400)
    done = subprocess.run(
        command, input="\n".join(map(json.dumps, asked)), capture_output=True, text=True, check=True
    )
    return list(zip(asked, map(json.loads, done.stdout.splitlines()), strict=True))


def polygon(region: dict[str, Any]) -> Polygon:
    """The same in the other geometry."""
    return Polygon(region["outer"], region["holes"])


def lengthened(start: list[int], end: list[int], by: float) -> LineString:
    """A cut, so much longer at both ends."""
    (x, y), (u, v) = start, end
    length = hypot(u - x, v - y) or 1
    dx, dy = (u - x) * by / length, (v - y) * by / length
    return LineString([(x - dx, y - dy), (u + dx, v + dy)])


def test_nothing_is_lost(answers: list[tuple[dict[str, Any], Any]]) -> None:
    for case, answer in answers:
        left = sum(
            doubled_area(region["outer"]) + sum(doubled_area(hole) for hole in region["holes"])
            for region in answer["remnants"]
        )
        sheet = case["sheet"]
        whole = doubled_area(sheet["outer"]) + sum(doubled_area(hole) for hole in sheet["holes"])
        assert whole == left + doubled_area(case["blank"]) + int(answer["dust"])


def test_what_stays_is_metal_that_is_there_once(
    answers: list[tuple[dict[str, Any], Any]],
) -> None:
    some_with_a_hole = 0
    for case, answer in answers:
        sheet, blank = polygon(case["sheet"]), Polygon(case["blank"])
        parts = [polygon(region) for region in answer["remnants"]]
        rounding = 4 * sheet.length  # two nanometres to either side of every edge
        assert all(part.is_valid for part in parts)
        assert unary_union(parts).difference(sheet).area <= rounding
        assert sum(part.area for part in parts) - unary_union(parts).area <= rounding
        assert sum(part.intersection(blank).area for part in parts) <= rounding
        some_with_a_hole += any(region["holes"] for region in answer["remnants"])
    assert some_with_a_hole > 20


def test_only_the_width_of_the_cuts_becomes_dust(
    answers: list[tuple[dict[str, Any], Any]],
) -> None:
    for case, answer in answers:
        sheet, blank, kerf = polygon(case["sheet"]), Polygon(case["blank"]), case["kerf"]
        parts = [polygon(region) for region in answer["remnants"]]
        lost = sheet.difference(unary_union([blank, *parts]))
        rounding = 8 * sheet.length
        assert int(answer["dust"]) / 2 == pytest.approx(lost.area, abs=rounding)
        # where a cut leaves the sheet at a slant, its band ends at a slant too
        lines = [lengthened(cut["from"], cut["to"], 20 * kerf) for cut in answer["cuts"]]
        near = unary_union([line.buffer(kerf + 3, cap_style="square") for line in lines])
        assert lost.difference(near.union(blank.buffer(3))).area <= rounding
        if kerf == 0:
            assert lost.area <= rounding
        # what stays keeps its distance from the blank
        assert all(part.distance(blank) >= kerf - 3 for part in parts if kerf)
