"""`bucktail offcuts fit`: answers as asked, sentences for what cannot be read."""

from __future__ import annotations

import csv
import io
import json
import math
from collections.abc import Callable
from pathlib import Path
from random import Random

import pytest
from shapely.geometry import Polygon

from bucktail.offcuts.mapped import mapped
from running.outlines import outlines

Ring = list[list[float]]
SQUARE: Ring = [[10, 20], [110, 20], [110, 120], [10, 120], [10, 20]]


def feature(*rings: Ring, kind: str = "Polygon") -> dict[str, object]:
    """One offcut as GeoJSON has it."""
    return {"type": "Feature", "geometry": {"type": kind, "coordinates": list(rings)}}


@pytest.fixture
def ask(tmp_path: Path, bucktail: Callable[..., object]) -> Callable[..., object]:
    """Runs the command on these features and query lines."""

    def run(features: object, *lines: str, head: str = "outline,width_mm,height_mm,grain"):
        where, what = tmp_path / "outlines.geojson", tmp_path / "queries.csv"
        text = json.dumps({"type": "FeatureCollection", "features": features})
        where.write_text(features if isinstance(features, str) else text)
        what.write_text("\n".join([head, *lines]) + "\n")
        return bucktail("offcuts", "fit", where, what)

    return run


def rows(out: str) -> list[dict[str, str]]:
    """The answers."""
    return list(csv.DictReader(io.StringIO(out)))


def test_the_answers_stand_in_the_order_of_the_questions(ask) -> None:
    said = ask([feature(SQUARE)], "0,99,50,any", "0,101,50,along", "0,120.0,5,any", "0,120,5,along")
    assert (said.code, said.err) == (0, "")
    assert said.out.splitlines()[0] == ("outline,width_mm,height_mm,grain,fits,x_mm,y_mm,angle_deg")
    assert [row["fits"] for row in rows(said.out)] == ["yes", "no", "yes", "no"]
    assert rows(said.out)[2]["width_mm"] == "120.0"
    assert said.out.splitlines()[2] == "0,101,50,along,no,,,"


def placed(row: dict[str, str]) -> Polygon:
    """The rectangle of an answer, mm."""
    w, h, x, y, degrees = (
        float(row[name]) for name in ("width_mm", "height_mm", "x_mm", "y_mm", "angle_deg")
    )
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    corners = ((0, 0), (w, 0), (w, h), (0, h))
    return Polygon([(x + u * cos - v * sin, y + u * sin + v * cos) for u, v in corners])


def test_every_yes_lies_in_the_metal_where_the_file_has_it(ask) -> None:
    draw, features, shapes = Random(2), [], []
    for _, made in outlines(51, 12):
        moved = [
            [[x / 1e6 + 37.5, y / 1e6 - 812.25] for x, y in (*ring, ring[0])] for ring in made.rings
        ]
        features.append(feature(*moved))
        shapes.append(Polygon(moved[0], moved[1:]))
    lines = [
        f"{n},{draw.uniform(0.05, 1) * (shape.bounds[2] - shape.bounds[0]):.3f},"
        f"{draw.uniform(0.01, 0.6) * (shape.bounds[3] - shape.bounds[1]):.3f},{grain}"
        for n, shape in enumerate(shapes)
        for grain in ("any", "along") * 8
    ]
    answers = rows(ask(features, *lines).out)
    assert len(answers) == len(lines)
    fitting = [row for row in answers if row["fits"] == "yes"]
    assert 40 < len(fitting) < len(lines)
    for row in fitting:
        assert shapes[int(row["outline"])].covers(placed(row))
        assert row["grain"] == "any" or float(row["angle_deg"]) == 0


def test_a_length_is_rounded_up_before_it_is_claimed(ask) -> None:
    said = ask([feature(SQUARE)], "0,99.9000001,99.9,along", "0,100.0000001,5,along")
    assert [row["fits"] for row in rows(said.out)] == ["yes", "no"]


BAD: dict[str, tuple[object, str]] = {
    "crossed": (feature([[0, 0], [9, 9], [9, 0], [0, 9], [0, 0]]), "crosses side 3"),
    "flat": (feature([[0, 0], [9, 0], [5, 0], [0, 0]]), "Outline 1: "),
    "hole outside": (feature(SQUARE, [[500, 0], [505, 0], [505, 5], [500, 0]]), "lies outside"),
    "sliver": (feature([[0, 0], [900, 0], [900, 0.01], [0, 0]]), "narrower than 0.2 mm"),
    "many": (
        feature([[math.cos(n / 1e4) * 900, math.sin(n / 1e4) * 900] for n in range(60_000)]),
        "60,000 points",
    ),
    "very many": (feature([[n % 7, n % 5] for n in range(200_000)]), "200,000 points"),
    "a line": (feature([[0, 0], [9, 9]], kind="LineString"), "no Polygon"),
    "words": (feature([["a", "b"], [1, 2], [3, 4]]), "not pairs of lengths"),  # type: ignore[list-item]
    "far": (feature([[0, 0], [1e300, 0], [0, 1e300]]), "within 10 km"),
    "half points": (feature([[0], [1], [2]]), "not pairs of lengths"),
    "nothing": ({}, "no Polygon"),
    "no rings": (feature(), "no points"),
    "null": (None, "no Polygon"),
}


@pytest.mark.parametrize("name", BAD)
def test_a_bad_outline_is_explained_and_the_others_are_answered(ask, name: str) -> None:
    bad, sentence = BAD[name]
    said = ask([feature(SQUARE), bad], "1,5,5,any", "0,50,50,any")
    assert said.code == 1
    assert said.err.startswith("bucktail: Outline 1: ") and sentence in said.err
    assert [row["fits"] for row in rows(said.out)] == ["no", "yes"]


def test_points_named_twice_mean_nothing_in_a_file(ask) -> None:
    twice = [point for point in SQUARE for _ in range(3)]
    said = ask([feature(twice)], "0,99,99,any")
    assert (said.code, said.err) == (0, "") and rows(said.out)[0]["fits"] == "yes"


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("1,5,5,any", "Outlines count from 0 to 0."),
        ("-1,5,5,any", "no outline “-1”"),
        ("x,5,5,any", "no outline “x”"),
        ("0,0,5,any", "width_mm is “0”"),
        ("0,5,nan,any", "height_mm is “nan”"),
        ("0,5,1e9,any", "height_mm is “1e9”"),
        ("0,5", "the grain is “”"),
        ("0,5,5,across", "Write any or along."),
        ('0,"5', "Line 3 of the queries"),
    ],
)
def test_a_bad_question_is_explained_and_nothing_is_answered(ask, line: str, sentence: str) -> None:
    said = ask([feature(SQUARE)], "0,5,5,any", line)
    assert said.code == 2 and said.out == ""
    assert sentence in said.err and "Line 3" in said.err


@pytest.mark.parametrize(
    "text", ["", "[]", "{", '{"features": 1}', '{"features": [NaN]}', "[" * 100_000, "\x00"]
)
def test_what_is_no_geojson_is_explained(ask, text: str) -> None:
    said = ask(text, "0,5,5,any")
    assert said.code == 2 and said.out == ""
    assert said.err.startswith("bucktail: The outlines are no GeoJSON")


def test_missing_columns_and_files_are_explained(ask, bucktail, tmp_path: Path) -> None:
    assert "no column grain" in ask([feature(SQUARE)], head="outline,width_mm,height_mm").err
    said = bucktail("offcuts", "fit", tmp_path / "none.geojson", tmp_path / "none.csv")
    assert said.code == 2 and "cannot be read: No such file" in said.err
    binary = tmp_path / "binary"
    binary.write_bytes(b"\xff\xfe\x00")
    assert "no text" in bucktail("offcuts", "fit", binary, binary).err


def test_holes_turned_either_way_and_order_of_columns() -> None:
    hole = [[50, 60], [60, 60], [60, 70], [50, 60]]
    text = json.dumps({"features": [feature(SQUARE, hole), feature(SQUARE[::-1], hole[::-1])]})
    one, other = mapped(text)
    assert one.outline and other.outline
    assert one.outline.area_um2 == other.outline.area_um2 == (10_000 - 50) * 10**6
    assert one.moved == other.moved == (10_000_000, 20_000_000)
