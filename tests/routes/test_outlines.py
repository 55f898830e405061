"""A DXF sent by the phone: its outlines, or where the fault is."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import ezdxf
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from bucktail.app import create_app

AT_HOME = {"base_url": "https://localhost"}


def dxf(fill: Callable[[Any], object], units: int = 4) -> bytes:
    """A DXF file with what `fill` draws."""
    document = ezdxf.new("R2010")
    document.header["$INSUNITS"] = units
    fill(document.modelspace())
    text = io.StringIO()
    document.write(text)
    return text.getvalue().encode("utf-8")


def plate(space: Any) -> None:
    space.add_lwpolyline([(10, 20), (110, 20), (110, 70), (10, 70)], close=True)
    space.add_lwpolyline([(20, 30), (30, 30), (30, 40), (20, 40)], close=True)


def send(client: FlaskClient, file: bytes | None, **form: str) -> TestResponse:
    data: dict[str, Any] = dict(form)
    if file is not None:
        data["file"] = (io.BytesIO(file), "plate.dxf")
    return client.post(
        "/api/offcuts/outline", data=data, content_type="multipart/form-data", **AT_HOME
    )


def test_a_plate_with_a_hole(client: FlaskClient) -> None:
    answer = send(client, dxf(plate))
    assert answer.status_code == 200
    told = answer.get_json()
    mm = 1_000_000
    [outline] = told["outlines"]
    assert sorted(outline["outer"]) == [[0, 0], [0, 50 * mm], [100 * mm, 0], [100 * mm, 50 * mm]]
    [hole] = outline["holes"]
    # clockwise, moved with the outline
    assert sorted(hole) == [
        [10 * mm, 10 * mm],
        [10 * mm, 20 * mm],
        [20 * mm, 10 * mm],
        [20 * mm] * 2,
    ]
    assert (outline["area_um2"], outline["unit"]) == (4_900_000_000, "mm")
    assert told["layers"] == {"0": 2} and told["notes"] == []


def test_a_unit_that_nobody_said_is_asked_for_and_then_taken(client: FlaskClient) -> None:
    file = dxf(plate, 0)
    refused = send(client, file)
    assert refused.status_code == 422
    assert refused.get_json()["problem"] == "unit" and "100 by 50" in refused.get_json()["sentence"]
    told = send(client, file, unit="in").get_json()
    assert told["outlines"][0]["area_um2"] == 4900 * 25_400**2
    assert send(client, file, unit="furlong").status_code == 422


def test_a_fault_comes_with_where_to_draw_it(client: FlaskClient) -> None:
    bow = dxf(lambda space: space.add_lwpolyline([(0, 0), (10, 0), (0, 10), (10, 10)], close=True))
    refused = send(client, bow)
    told = refused.get_json()
    assert refused.status_code == 422 and told["problem"] == "crossed"
    assert told["at"] == [[5_000_000, 5_000_000]]
    assert len(told["sides"]) == 2 and len(told["rings"][0]) == 4
    loose = send(client, dxf(lambda space: space.add_line((0, 0), (10, 0)))).get_json()
    assert loose["problem"] == "open" and loose["at"] == [[0, 0], [10_000_000, 0]]


def test_one_layer_is_taken_where_it_is_chosen(client: FlaskClient) -> None:
    def draw(space: Any) -> None:
        plate(space)
        space.add_line((0, 0), (10, 20), dxfattribs={"layer": "notes"})

    file = dxf(draw)
    refused = send(client, file).get_json()
    assert refused["problem"] == "branch" or refused["problem"] == "open"
    assert refused["layers"] == {"0": 2, "notes": 1}
    assert send(client, file, layer="0").status_code == 200


def test_what_is_sent_is_bounded(client: FlaskClient) -> None:
    assert send(client, None).get_json()["sentence"] == "Choose a DXF file."
    assert send(client, b"no drawing").get_json()["problem"] == "not dxf"
    large = send(client, b"0\n" * (9 * 1024 * 1024))
    assert large.status_code == 413 and "12 MB" in large.get_json()["sentence"]


def test_only_paired_devices_send_one(folder: Path) -> None:
    assert send(create_app(folder).test_client(), dxf(plate)).status_code == 401
