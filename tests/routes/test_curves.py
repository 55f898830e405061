"""Fit curves over HTTP: what a phone fetches, and when the measuring beside the server is woken."""

from __future__ import annotations

import json
from typing import Any

import pytest
from flask import Flask

from bucktail.routes import curves as routes
from bucktail.storage import curves
from bucktail.workshop.measuring import measure_all
from running.browser import Browser, database_of, page
from running.oddstock import ell, odd, told_curve


class Woken:
    """Counts how often it is woken."""

    def __init__(self) -> None:
        self.times = 0

    def wake(self) -> None:
        """Once more."""
        self.times += 1


@pytest.fixture
def woken(app: Flask) -> Woken:
    """The measuring beside the application."""
    made = Woken()
    routes.measured_beside(app, made)  # type: ignore[arg-type]
    return made


def enter(phone: Browser, many: int = 1) -> list[str]:
    """Odd offcuts are entered by the phone; the ids of the entries."""
    events = [phone.pen.write("offcut.added.v1", odd(ell(90, 90, 30, 30))) for _ in range(many)]
    phone.push(*events)
    return [event["id"] for event in events]


def measure(app: Flask) -> None:
    """All that waits is measured."""
    with database_of(app) as session:
        measure_all(session, told_curve, lambda: True)


def fetch(phone: Browser, after: object = 0) -> tuple[dict[str, Any], list[dict[str, Any]]]:
    """The first line and the others."""
    first, *lines = page(phone.get("/api/curves", query_string={"after": after}))
    return json.loads(first), [json.loads(line) for line in lines]


def test_curves_come_once_they_are_measured(app: Flask, phone: Browser) -> None:
    ids = enter(phone, 3)
    assert fetch(phone) == ({"last": 0, "more": False, "waiting": 3}, [])
    measure(app)
    first, lines = fetch(phone)
    assert first == {"last": 3, "more": False, "waiting": 0}
    assert [line["n"] for line in lines] == [1, 2, 3]
    assert {line["event"] for line in lines} == set(ids)
    assert lines[0]["curve"] == json.loads(told_curve(ell(90, 90, 30, 30)))
    assert fetch(phone, 2)[1] == lines[2:]
    assert fetch(phone, 3) == ({"last": 3, "more": False, "waiting": 0}, [])


def test_page_by_page(app: Flask, phone: Browser, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(routes, "PAGE", 2)
    enter(phone, 5)
    measure(app)
    after, seen = 0, []
    for _ in range(3):
        first, lines = fetch(phone, after)
        seen += [line["n"] for line in lines]
        after = first["last"]
        assert first["more"] == (after < 5)
    assert seen == [1, 2, 3, 4, 5]


def test_a_phone_that_knows_more_than_there_is_learns_the_last(app: Flask, phone: Browser) -> None:
    enter(phone)
    measure(app)
    assert fetch(phone, 700) == ({"last": 1, "more": False, "waiting": 0}, [])


@pytest.mark.parametrize("after", ["-1", "x", "1.5", "9" * 30])
def test_a_number_that_is_none_is_refused(phone: Browser, after: str) -> None:
    answer = phone.get("/api/curves", query_string={"after": after})
    assert (answer.status_code, answer.get_json()["problem"]) == (400, "curves")


def test_only_for_those_who_belong(app: Flask) -> None:
    assert app.test_client().get("/api/curves", base_url="https://localhost").status_code == 401


def test_the_pull_says_how_far_the_curves_are(app: Flask, phone: Browser) -> None:
    enter(phone)
    assert json.loads(page(phone.pull())[0])["curves"] == 0
    measure(app)
    assert json.loads(page(phone.pull())[0])["curves"] == 1


def test_an_outline_wakes_the_measuring_and_nothing_else_does(
    app: Flask, phone: Browser, woken: Woken
) -> None:
    phone.push(phone.pen.part())
    phone.pull()
    fetch(phone)
    assert woken.times == 0
    enter(phone)
    assert woken.times == 1
    measure(app)
    phone.push(phone.pen.part())
    phone.pull()
    assert woken.times == 1


def test_what_came_in_beside_the_server_is_found_by_the_next_pull(
    app: Flask, phone: Browser, woken: Woken
) -> None:
    enter(phone)
    phone.pull()
    assert woken.times == 2


def test_what_waits_from_before_is_measured_from_the_start(app: Flask, phone: Browser) -> None:
    enter(phone)
    made = Woken()
    routes.measured_beside(app, made)  # type: ignore[arg-type]
    assert made.times == 1
    measure(app)
    with database_of(app) as session:
        assert curves.waiting(session) == 0
    routes.measured_beside(app, made)  # type: ignore[arg-type]
    assert made.times == 1
