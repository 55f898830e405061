"""Who may in, from where, and the headers that keep it so: every route, also on this computer."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from flask import Flask
from werkzeug.routing import Rule
from werkzeug.test import TestResponse

from bucktail.routes.guard import LARGEST_BODY, OPEN, POLICY
from running.browser import HOME, Browser, database_of
from running.pen import new_id

REFUSALS = {"problem", "sentence"}


def every(app: Flask) -> Iterator[tuple[str, str, Rule]]:
    """(method, address, rule) of every route, with something put into its variables."""
    adapter = app.url_map.bind("localhost")
    for rule in app.url_map.iter_rules():
        kinds = rule._converters
        values: dict[str, Any] = {
            name: new_id() if kind.regex.startswith("[A-Fa-f0-9]{8}") else "a" * 64
            for name, kind in kinds.items()
        }
        for method in sorted((rule.methods or set()) - {"OPTIONS"}):
            yield method, adapter.build(rule.endpoint, values, method), rule


def refused(answer: TestResponse, status: int, word: str) -> None:
    """A refusal in the one shape, with a sentence."""
    assert answer.status_code == status, answer.text
    told = answer.get_json()
    assert set(told) == REFUSALS
    assert told["problem"] == word
    assert told["sentence"].endswith(".")


def test_every_route_of_the_api_refuses_a_browser_that_is_not_paired(app: Flask) -> None:
    looked_at = 0
    for method, address, rule in every(app):
        if not rule.rule.startswith("/api/") or rule.rule in OPEN:
            continue
        for browser in (app.test_client(), app.test_client()):
            browser.set_cookie("__Host-bucktail-00000000", "made up", domain="localhost")
            answer = browser.open(address, method=method, base_url=HOME)
            assert answer.status_code == 401, f"{method} {address}: {answer.status_code}"
            if method != "HEAD":
                refused(answer, 401, "not paired")
            looked_at += 1
    assert looked_at > 15


def test_only_pairing_is_open() -> None:
    assert set(OPEN) == {"/api/pair"}


def test_this_computer_is_no_exception(app: Flask) -> None:
    for host in ("https://localhost", "https://localhost:8443", "http://localhost"):
        answer = app.test_client().get(
            "/api/pull", base_url=host, environ_base={"REMOTE_ADDR": "127.0.0.1"}
        )
        refused(answer, 401, "not paired")


@pytest.mark.parametrize(
    "path", ["/api/none", "/api/", "/api/push/more", "/api//pull", "/api/pair/"]
)
def test_an_address_that_is_none_tells_a_stranger_nothing(app: Flask, path: str) -> None:
    answer = app.test_client().get(path, base_url=HOME, follow_redirects=True)
    refused(answer, 401, "not paired")


def test_an_address_that_is_none_is_told_to_a_phone(phone: Browser) -> None:
    refused(phone.get("/api/none"), 404, "unknown")
    assert set(phone.post("/api/none").get_json()) == REFUSALS
    assert phone.post("/api/none").status_code in (404, 405)
    assert set(phone.get("/api/push").get_json()) == REFUSALS


@pytest.mark.parametrize(
    "host",
    ["evil.example", "evil.example:443", "localhost.evil.example", "127.0.0.1", "[::1]", "local"],
)
def test_another_name_is_not_answered_to(app: Flask, phone: Browser, host: str) -> None:
    for method, address, _ in every(app):
        answer = phone.client.open(address, method=method, base_url=f"https://{host}")
        assert answer.status_code == 421
        assert answer.headers["Content-Security-Policy"] == POLICY


@pytest.mark.parametrize("host", ["localhost", "localhost:8443", "bench.local", "bench.local:443"])
def test_its_own_names_are(app: Flask, host: str) -> None:
    answer = app.test_client().get("/api/pull", base_url=f"https://{host}")
    assert answer.status_code == 401


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "https://evil.example"},
        {"Origin": "http://localhost"},
        {"Origin": "https://localhost:9999"},
        {"Origin": "https://bench.local"},
        {"Origin": "null"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Sec-Fetch-Site": "none"},
        {"Sec-Fetch-Site": "cross-site", "Origin": "https://localhost"},
    ],
    ids=str,
)
def test_another_page_changes_nothing_although_the_phone_is_paired(
    app: Flask, phone: Browser, headers: dict[str, str]
) -> None:
    for method, address, rule in every(app):
        if method in ("GET", "HEAD"):
            continue
        answer = phone.client.open(address, method=method, base_url=HOME, headers=headers)
        assert answer.status_code == 403, f"{method} {rule.rule}"
    assert phone.cards() == {}


def test_its_own_pages_do(phone: Browser) -> None:
    headers = {"Origin": HOME, "Sec-Fetch-Site": "same-origin"}
    answer = phone.post("/api/push", data=b"", headers=headers)
    assert answer.status_code == 200


def test_every_answer_carries_the_headers(app: Flask, phone: Browser) -> None:
    stranger = app.test_client()
    for method, address, rule in every(app):
        for browser in (phone.client, stranger):
            answer = browser.open(address, method=method, base_url=HOME)
            headers = answer.headers
            assert headers["Content-Security-Policy"], rule.rule
            assert "default-src 'none'" in headers["Content-Security-Policy"]
            assert headers["X-Content-Type-Options"] == "nosniff"
            assert headers["Referrer-Policy"] == "no-referrer"
            assert headers["Cross-Origin-Opener-Policy"] == "same-origin"
            assert headers["Cross-Origin-Resource-Policy"] == "same-origin"
            assert "camera=(self)" in headers["Permissions-Policy"]
            if rule.rule.startswith("/api/") and answer.status_code >= 400:
                assert headers["Cache-Control"] == "no-store"


def test_the_policy_lets_nothing_in_from_elsewhere() -> None:
    parts = dict(part.strip().split(" ", 1) for part in POLICY.split(";"))
    assert parts["default-src"] == "'none'"
    assert parts["script-src"] == "'self' 'wasm-unsafe-eval'"
    assert parts["connect-src"] == "'self'"
    assert parts["frame-ancestors"] == parts["base-uri"] == parts["form-action"] == "'none'"
    assert "unsafe-inline" not in POLICY and "http" not in POLICY and "*" not in POLICY


def test_the_token_is_out_of_reach_of_scripts_and_other_sites(app: Flask) -> None:
    phone = Browser(app)
    (cookie,) = phone.client._cookies.values()
    assert cookie.key.startswith("__Host-bucktail-")
    assert cookie.secure and cookie.http_only and cookie.same_site == "Strict"
    assert cookie.path == "/"
    with database_of(app) as session:
        dump = "".join(session.connection().connection.driver_connection.iterdump())  # type: ignore[union-attr]
    assert cookie.value not in dump


def test_a_removed_phone_is_refused_at_once(app: Flask, phone: Browser) -> None:
    other = Browser(app, "other", "Kim")
    assert phone.push(phone.pen.part()).status_code == 200
    assert other.post(f"/api/devices/{phone.pen.device}/revoke").status_code == 200
    refused(phone.pull(), 401, "not paired")
    refused(phone.push(phone.pen.part()), 401, "not paired")
    assert "keeps what it has not sent" in phone.pull().get_json()["sentence"]
    assert len(other.cards()) == 1


def test_a_body_that_is_too_large_is_refused_in_the_same_shape(phone: Browser) -> None:
    answer = phone.post("/api/push", data=b"x" * (LARGEST_BODY + 1))
    assert answer.status_code == 413
    assert set(answer.get_json()) == REFUSALS
    assert phone.cards() == {}
