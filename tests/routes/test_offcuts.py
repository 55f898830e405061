"""Where to cut, blanks of any shape and cut plans over HTTP."""

from __future__ import annotations

import time
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from shapely import Polygon
from werkzeug.test import TestResponse

from bucktail.storage.opening import open_workshop
from bucktail.workshop.recorder import Recorder
from running.oddstock import ell, odd, outline, ring
from running.sheetstock import enter, inches, sheet

AT_HOME = {"base_url": "https://localhost"}
MM = 1_000_000
ELL = ell(200, 150, 60, 50)


def piece(a: float, b: float, count: int = 1, grain: str = "any") -> dict[str, Any]:
    """The body of piece.wanted: a doubler of the sheets of sheetstock, sides in inches."""
    return {
        "what": "doubler",
        "name": f"doubler {a:g} x {b:g}",
        "alloy": "2024",
        "temper": "T3",
        "clad": "clad",
        "thickness": inches(0.032, ".032"),
        "a": inches(a),
        "b": inches(b),
        "grain": grain,
        "count": count,
    }


def want(folder: Path, *bodies: dict[str, Any]) -> list[str]:
    with open_workshop(folder) as session:
        recorder = Recorder(session)
        made = [recorder.record("piece.wanted.v1", body) for body in bodies]
        session.commit()
        return made


def post(client: FlaskClient, what: str, **asked: Any) -> TestResponse:
    return client.post(f"/api/offcuts/{what}", json=asked, **AT_HOME)


def finished(client: FlaskClient, plan: str) -> dict[str, Any]:
    for _ in range(600):
        told: dict[str, Any] = client.get(f"/api/offcuts/plan/{plan}", **AT_HOME).get_json()
        if told["state"] != "working":
            return told
        time.sleep(0.1)
    raise AssertionError("the plan never ended")


def test_a_cut_keeps_room_for_what_is_wanted(client: FlaskClient, folder: Path) -> None:
    [offcut] = enter(folder, odd(ELL))
    want(folder, piece(5, 1.5), piece(20, 10))
    told = post(client, "place", offcut=offcut, width_nm=50 * MM, height_nm=40 * MM).get_json()
    first, second = told["placements"]
    metal = Polygon(ELL["outer"])
    for one in (first, second):
        assert metal.covers(Polygon(one["corners"]))
        sides = [
            ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
            for (x0, y0), (x1, y1) in pairwise(one["corners"])
        ]
        assert sides == pytest.approx([50 * MM, 40 * MM, 50 * MM])
    assert (first["keeps"], first["of"]) == (1, 1)
    assert first["reason"].startswith("The one size that this workshop asks for")
    assert 0 < first["left_um2"] <= metal.area / MM - 50 * 40 * MM + 1
    assert Polygon(first["corners"]).distance(Polygon(second["corners"])) >= 0
    assert first["corners"] != second["corners"]


def test_grain_clearance_and_what_fills_a_sheet(client: FlaskClient, folder: Path) -> None:
    known, unknown, exact = enter(folder, odd(ELL), odd(ELL, grain="unknown"), sheet(4, 3))
    asked = {"width_nm": 140 * MM, "height_nm": 40 * MM, "grain": "along height"}
    assert len(post(client, "place", offcut=known, **asked).get_json()["placements"]) == 1 + 1
    tall = {**asked, "grain": "along width", "width_nm": 40 * MM, "height_nm": 160 * MM}
    assert post(client, "place", offcut=known, **tall).get_json()["placements"] == []
    refused = post(client, "place", offcut=unknown, **asked)
    assert refused.status_code == 422 and "grain" in refused.get_json()["sentence"]
    whole = {"width_nm": inches(4)["nm"], "height_nm": inches(3)["nm"]}
    [only] = post(client, "place", offcut=exact, **whole).get_json()["placements"]
    assert only["corners"][2] == [inches(4)["nm"], inches(3)["nm"]]
    none = post(client, "place", offcut=exact, clearance_nm=MM, **whole)
    assert none.get_json()["placements"] == []


@pytest.mark.parametrize(
    ("asked", "status"),
    [
        ({"offcut": "x", "width_nm": 1, "height_nm": 1}, 422),
        ({"width_nm": 1, "height_nm": 1}, 422),
        ({"offcut": "018f0000-0000-7000-8000-000000000001", "width_nm": 0, "height_nm": 1}, 422),
        ({"offcut": "018f0000-0000-7000-8000-000000000001", "width_nm": 1, "height_nm": 1}, 404),
    ],
)
def test_a_bad_question_gets_a_sentence(
    client: FlaskClient, asked: dict[str, Any], status: int
) -> None:
    answer = post(client, "place", **asked)
    assert answer.status_code == status
    assert answer.get_json()["sentence"].endswith(".")


def test_which_offcuts_serve_for_a_blank_of_any_shape(client: FlaskClient, folder: Path) -> None:
    small, large, other, free = enter(
        folder,
        odd(outline([(0, 0), (80, 0), (80, 60), (0, 60)])),
        odd(ELL),
        odd(ELL, alloy="6061", temper="T6", clad="bare"),
        odd(ELL, known_by="unknown"),
    )
    triangle = ring([(0, 0), (140, 0), (0, 45)])
    asked = {"outer": triangle, "alloy": "2024", "temper": "T3", "clad": "clad"}
    told = post(client, "blank", **asked).get_json()
    assert [one["offcut"] for one in told["serves"]] == [large]
    assert (told["searched"], told["metal"], told["left"]) == (4, 2, 0)
    assert Polygon(ELL["outer"]).covers(Polygon(told["serves"][0]["ring"]))
    anything = post(client, "blank", outer=triangle, structure=False).get_json()
    assert {one["offcut"] for one in anything["serves"]} == {large, other, free}
    crossed = ring([(0, 0), (100, 0), (0, 50), (100, 50)])
    answer = post(client, "blank", outer=crossed)
    assert answer.status_code == 422 and "crosses" in answer.get_json()["sentence"]
    many = [[x, x % 7] for x in range(2001)]
    assert post(client, "blank", outer=many).status_code == 422
    assert small not in {one["offcut"] for one in anything["serves"]}


def test_a_cut_plan_from_the_wanted_pieces(client: FlaskClient, folder: Path) -> None:
    wide, held = enter(folder, sheet(12, 8), sheet(13, 8))
    with open_workshop(folder) as session:
        Recorder(session).record(
            "offcut.reserved.v1", {"text": "the other wing", "part": None}, subject=held
        )
        session.commit()
    many, long = want(folder, piece(3, 2, 4), piece(12.5, 1))
    answer = post(client, "plan", kerf_nm=2 * MM)
    assert answer.status_code == 202
    told = finished(client, answer.get_json()["id"])
    assert (told["state"], told["done"], told["of"], told["placed"]) == ("done", 5, 5, 4)
    [plan] = told["plan"]["sheets"]
    assert plan["stock"] == wide and plan["straight"] and plan["datum"]["edge"]
    assert {cut["want"] for cut in plan["cuts"]} == {many}
    blanks = [Polygon(cut["corners"]) for cut in plan["cuts"]]
    for n, one in enumerate(blanks):
        assert all(one.distance(other) >= 2 * MM for other in blanks[:n])
    [missing] = told["plan"]["not_placed"]
    assert (missing["want"], missing["count"]) == (long, 1)
    assert post(client, "plan", pieces=[many]).status_code == 202


def test_plans_that_cannot_be_made(client: FlaskClient, folder: Path) -> None:
    nothing = post(client, "plan")
    assert nothing.status_code == 422 and "No piece is wanted" in nothing.get_json()["sentence"]
    want(folder, piece(1, 1, 201))
    assert "201 pieces" in post(client, "plan").get_json()["sentence"]
    unknown = "018f0000-0000-7000-8000-000000000001"
    assert post(client, "plan", pieces=[unknown]).status_code == 422
    assert client.get(f"/api/offcuts/plan/{unknown}", **AT_HOME).status_code == 404
    assert client.delete(f"/api/offcuts/plan/{unknown}", **AT_HOME).status_code == 404


def test_a_plan_is_cancelled(client: FlaskClient, folder: Path) -> None:
    enter(folder, *(sheet(12 + n / 8, 8) for n in range(12)))
    want(folder, *(piece(2 + n / 16, 1 + n / 32, 8) for n in range(20)))
    plan = post(client, "plan").get_json()["id"]
    second = post(client, "plan")
    gone = client.delete(f"/api/offcuts/plan/{plan}", **AT_HOME)
    assert second.status_code == 409 and "Another cut plan" in second.get_json()["sentence"]
    assert gone.status_code == 200
    told = finished(client, plan)
    assert told["state"] == "cancelled" and told["plan"] is None
    assert told["done"] < told["of"]
