"""What the phone makes of typed answers is sound to the workshop's computer, and they find the same
outlines at fault."""

from __future__ import annotations

import json
import math
import subprocess
from collections import Counter
from random import Random
from typing import Any

import pytest

from bucktail.offcuts.outline import faults, outline
from bucktail.sync.wire.shapes import Outline
from running.bundle import bundle

MM = 1_000_000
#: A question a line in: {"asked", "lean"} for a shape; {"outer", "holes"} for its faults alone.
ENTRY = """
import { readFileSync } from 'node:fs';
import { faultsIn } from 'SRC/offcuts/outline/faults.ts';
import { trace } from 'SRC/offcuts/outline/reading.ts';
import { areaUm2 } from 'SRC/offcuts/outline/rings.ts';
import { recorded } from 'SRC/offcuts/outline/texts.ts';
for (const line of readFileSync(0, 'utf-8').split('\\n').filter(Boolean)) {
  const { asked, lean, outer, holes } = JSON.parse(line);
  let told;
  if (outer) told = { faults: faultsIn(outer, holes).map(({ code }) => code) };
  else {
    const { problems, faults, region } = trace(asked, 'mm');
    told = { problems, faults: faults.map(({ code }) => code) };
    if (region) {
      const shape = recorded(region, asked, lean, 'mm');
      told = { ...told, shape, area: areaUm2(shape) };
    }
  }
  process.stdout.write(JSON.stringify(told) + '\\n');
}
"""


@pytest.fixture(scope="module")
def phone(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    """The command that answers as the phone does."""
    return bundle(tmp_path_factory.mktemp("phone"), ENTRY)


def told(phone: list[str], questions: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The phone's answers."""
    asked = "\n".join(json.dumps(question) for question in questions)
    done = subprocess.run(phone, input=asked, capture_output=True, encoding="utf-8", check=True)
    return [json.loads(line) for line in done.stdout.splitlines()]


def typed(draw: Random, low: float, high: float) -> str:
    """A length as a person might type it, in mm or in 64ths of an inch."""
    value = draw.uniform(low, high)
    if draw.random() < 0.6:
        return f"{value:.1f}"
    whole, part = divmod(round(value / 25.4 * 64), 64)
    return f"{whole} {part}/64" if whole and part else f"{whole or part / 64} in"


def keep(draw: Random) -> dict[str, str]:
    """A keep-out, now and then over an edge or outside."""
    return {
        "sort": draw.choice(["round", "square", "mark"]),
        "x": draw.choice(["0", typed(draw, 1, 300)]),
        "y": draw.choice(["0", typed(draw, 1, 200)]),
        "fromX": draw.choice(["left", "right"]),
        "fromY": draw.choice(["bottom", "top"]),
        "width": typed(draw, 2, 60),
        "height": typed(draw, 2, 60),
    }


def question(draw: Random) -> dict[str, Any]:
    """Answers to the shape question."""
    way = draw.choice(["two sides", "corner off", "ell", "triangle", "walked", "offsets"])
    corners = ["bottom left", "bottom right", "top right", "top left"]
    side = {"angle": "", "curve": "", "rise": ""}
    walked = [
        {
            **side,
            "length": typed(draw, 80, 300),
            "corner": draw.choice(["square", "out", "out"]),
            "angle": f"{draw.uniform(60, 170):.1f}",
            "curve": draw.choice(["", "", "in", "out"]),
            "rise": typed(draw, 2, 20),
        }
        for _ in range(draw.randint(2, 4))
    ]
    spread = sorted(draw.uniform(0, 2 * math.pi) for _ in range(draw.randint(3, 9)))
    points = [
        {"x": f"{200 + 150 * math.cos(at):.1f}", "y": f"{200 + 190 * math.sin(at):.2f}"}
        for at in spread
    ]
    shape = {
        "way": way,
        "c": typed(draw, 200, 400),
        "offs": [
            {"corner": corner, "a": typed(draw, 5, 120), "b": typed(draw, 5, 90)}
            for corner in draw.sample(corners, draw.randint(1, 3))
        ],
        "sides": walked,
        "back": True,
        "points": points,
        "keeps": [keep(draw) for _ in range(draw.randint(0, 4))],
        "lean": "",
        "given": None,
    }
    asked = {"a": typed(draw, 250, 500), "b": typed(draw, 190, 300), "shape": shape}
    return {"asked": asked, "lean": draw.choice([None, draw.randint(1, 179_999_999)])}


def test_every_outline_that_the_phone_makes_is_sound(phone: list[str]) -> None:
    draw = Random(6)
    questions = [question(draw) for _ in range(500)]
    ways: Counter[str] = Counter()
    for asked, answer in zip(questions, told(phone, questions), strict=True):
        if "shape" not in answer:
            assert answer["problems"] or answer["faults"], asked
            continue
        shape = answer["shape"]
        assert Outline().validate(shape) == {}, asked
        found = outline(shape["outer"], shape["holes"])
        assert [list(point) for point in found.outer] == shape["outer"], asked
        assert [[list(at) for at in ring] for ring in found.holes] == shape["holes"], asked
        assert found.area_um2 == answer["area"], asked
        ways[shape["entered"]["way"]] += 1
        ways["holes"] += bool(shape["holes"])
    for way in ("keep-outs", "corner off", "ell", "triangle", "walked", "offsets", "holes"):
        assert ways[way] > 20, ways


def spoiled_ring(draw: Random) -> list[list[int]]:
    """A star that is sound, crossed, or touches itself, on a coarse grid so that points meet."""
    count = draw.randint(3, 9)
    grid = draw.choice([MM, 40 * MM])
    ring = []
    for n in range(count):
        angle, reach = 2 * math.pi * (n + draw.random()) / count, draw.uniform(50, 200) * MM
        at = (250 * MM + reach * math.cos(angle), 250 * MM + reach * math.sin(angle))
        ring.append([round(one / grid) * grid for one in at])
    if draw.random() < 0.5:
        one, other = draw.sample(range(count), 2)
        ring[one], ring[other] = ring[other], ring[one]
    return ring


def test_both_find_the_same_outlines_at_fault(phone: list[str]) -> None:
    draw = Random(9)
    questions = []
    for _ in range(1500):
        x, y, size = draw.randint(0, 12) * 40 * MM, draw.randint(0, 12) * 40 * MM, 40 * MM
        hole = [[x, y], [x, y + size], [x + size, y + size], [x + size, y]]
        holes = [hole] if draw.random() < 0.5 else []
        questions.append({"outer": spoiled_ring(draw), "holes": holes})
    seen: Counter[bool] = Counter()
    for asked, answer in zip(questions, told(phone, questions), strict=True):
        outer = [tuple(at) for at in asked["outer"]]
        holes = [[tuple(at) for at in hole] for hole in asked["holes"]]
        here = faults(outer, holes)  # type: ignore[arg-type]
        assert bool(here) == bool(answer["faults"]), (asked, here, answer)
        seen[bool(here)] += 1
    assert min(seen[True], seen[False]) > 200, seen
