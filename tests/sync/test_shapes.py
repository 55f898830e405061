"""The shape of an offcut on the wire: what is taken up, and a sentence for all else."""

from __future__ import annotations

import json
from typing import Any

import pytest

from bucktail.events.envelope import Unreadable, canonical
from bucktail.sync.wire.reading import LARGEST_EVENT, read_event
from bucktail.sync.wire.shapes import LONGEST_NM, MOST_HOLES, MOST_POINTS, MOST_TEXTS
from running.bodies import uuid_of
from running.pen import Pen
from running.sheetstock import sheet

PEN = Pen(uuid_of(1))
MM = 1_000_000
CORNER_OFF = [[0, 0], [300 * MM, 0], [300 * MM, 100 * MM], [200 * MM, 200 * MM], [0, 200 * MM]]
HOLE = [[10 * MM, 10 * MM], [10 * MM, 20 * MM], [20 * MM, 20 * MM]]
TOLD = {"way": "corner off", "texts": {"a": "300 mm"}}
SHAPE = {"kind": "outline", "outer": CORNER_OFF, "holes": [HOLE], "entered": TOLD}


def written(shape: Any) -> bytes:
    """The bytes of an offcut entered with this shape."""
    event = PEN.write("offcut.added.v1", {**sheet(12, 6), "shape": shape})
    return json.dumps(event, separators=(",", ":")).encode()


def why(shape: Any) -> str:
    """The sentence with which it is set aside."""
    with pytest.raises(Unreadable) as caught:
        read_event(written(shape))
    assert caught.value.event is not None  # kept, and shown with its sentence
    return str(caught.value)


@pytest.mark.parametrize(
    "shape",
    [
        SHAPE,
        {**SHAPE, "holes": []},
        {**SHAPE, "outer": [[0, 0], [LONGEST_NM, 0], [LONGEST_NM, LONGEST_NM]]},
        sheet(12, 6)["shape"],
    ],
)
def test_a_shape_is_kept_as_it_was_written(shape: dict[str, Any]) -> None:
    event = read_event(written(shape))
    assert event.body is not None
    assert event.body["shape"] == shape


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"outer": CORNER_OFF[::-1]}, "not counter-clockwise"),
        ({"outer": CORNER_OFF[:2]}, "3 to 2000 corners"),
        ({"outer": [[5, 5]] * 3}, "not counter-clockwise"),
        ({"outer": [[x + 1, y] for x, y in CORNER_OFF]}, "are not 0"),
        ({"outer": [[x, y + 1] for x, y in CORNER_OFF]}, "are not 0"),
        ({"outer": [[-1, 0], [5, 0], [5, 5]]}, "0 to 10 m"),
        ({"outer": [[0, 0], [LONGEST_NM + 1, 0], [5, 5]]}, "0 to 10 m"),
        ({"outer": [[0, 0], [5.0, 0], [5, 5]]}, "only whole numbers"),
        ({"outer": [[0, 0], [True, 0], [5, 5]]}, "whole nm"),
        ({"outer": [[0, 0], ["5", 0], [5, 5]]}, "whole nm"),
        ({"outer": [[0, 0], [5, 0, 0], [5, 5]]}, "two numbers"),
        ({"outer": [[0, 0], {"x": 5, "y": 0}, [5, 5]]}, "two numbers"),
        ({"outer": "everything"}, "corners"),
        ({"outer": None}, "null"),
        ({"holes": [HOLE[::-1]]}, "not clockwise"),
        ({"holes": [HOLE] * (MOST_HOLES + 1)}, "Longer than"),
        ({"holes": None}, "null"),
        ({"entered": {"way": "guessed", "texts": {}}}, "Must be one of"),
        ({"entered": {"way": "dxf", "texts": {str(n): "" for n in range(MOST_TEXTS + 1)}}}, "Long"),
        ({"entered": {"way": "dxf", "texts": {"a": "x" * 201}}}, "Longer than"),
        ({"entered": {"way": "dxf", "texts": {"a": 12}}}, "string"),
        ({"kind": "circle"}, "Its kind is none of"),
        ({"kind": ["outline"]}, "Its kind is none of"),
        ({"more": 1}, "Unknown field"),
    ],
)
def test_a_malformed_one_is_set_aside_with_a_sentence(change: dict[str, Any], said: str) -> None:
    assert said in why({**SHAPE, **change})


@pytest.mark.parametrize("shape", [None, "rectangle", [], 5])
def test_what_is_no_shape_at_all_is_set_aside(shape: Any) -> None:
    why(shape)


def many(points: int) -> list[list[int]]:
    """A long comb of so many corners, with large coordinates."""
    top = [[LONGEST_NM - n, LONGEST_NM - n % 2] for n in range(points - 3)]
    return [[0, 0], [LONGEST_NM, 0], [LONGEST_NM, 1], *top][:points]


def test_as_many_corners_as_are_taken_go_into_one_event() -> None:
    shape = {"kind": "outline", "outer": many(MOST_POINTS), "holes": [], "entered": TOLD}
    assert len(written(shape)) < LARGEST_EVENT - 6_000
    read_event(written(shape))
    shape = {**shape, "outer": many(MOST_POINTS - 2), "holes": [HOLE]}
    assert f"More than {MOST_POINTS} corners in all" in why(shape)
    assert json.loads(canonical(shape)) == shape
