"""Over HTTP: pairing another device, removing one, settings, and files of what was not sent."""

from __future__ import annotations

import json
import secrets
import uuid
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import zxingcpp
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from bucktail.app import create_app
from bucktail.rules.rulebook import version
from bucktail.storage.ids import uuid7
from bucktail.storage.opening import open_session
from bucktail.storage.pairing_store import StoredPairings
from bucktail.workshop.origin import settle
from bucktail.workshop.pairing import PairingDesk
from bucktail.workshop.ports import Ports
from running.workshop import now_ms

AT_HOME = {"base_url": "https://localhost"}


class Machine:
    """A computer of which nothing is asked when the address is given."""

    def host_name(self) -> str:
        return "bench"

    def look_up(self, name: str) -> frozenset[str]:
        return frozenset()

    def has_address(self, address: str) -> bool:
        return True

    def lan_address(self) -> str | None:
        return None


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "workshop").mkdir()
    settle(tmp_path / "workshop", Ports(8443, 8480), Machine(), "bench.local")
    return tmp_path / "workshop"


@pytest.fixture
def app(folder: Path) -> Flask:
    return create_app(folder)


@pytest.fixture
def join(app: Flask, folder: Path) -> Iterator[Callable[..., tuple[FlaskClient, dict[str, Any]]]]:
    """Pairs another browser; gives it and what it was told."""

    def pair(answer: str = "", device_name: str = "phone") -> tuple[FlaskClient, dict[str, Any]]:
        browser = app.test_client()
        names = {"device_name": device_name, "person_name": "Sam", "device": uuid7(now_ms())}
        joined = post(browser, "/api/pair", json={"answer": answer or secret(folder), **names})
        assert joined.status_code == 200, joined.text
        return browser, joined.get_json()

    yield pair


def secret(folder: Path) -> str:
    with open_session(folder) as session:
        desk = PairingDesk(
            StoredPairings(session), now_ms, secrets.token_bytes, lambda: uuid7(now_ms())
        )
        return desk.start().secret


def post(browser: FlaskClient, path: str, **more: Any) -> TestResponse:
    return browser.post(path, **AT_HOME, **more)


def devices(browser: FlaskClient) -> dict[str, dict[str, Any]]:
    listed = browser.get("/api/devices", **AT_HOME).get_json()["devices"]
    return {device["name"]: device for device in listed}


def entry(told: dict[str, Any], seq: int, **changes: Any) -> bytes:
    """An entry as the device that was told `told` writes it."""
    made = {
        "id": uuid7(now_ms()),
        "kind": "part.added.v1",
        "workshop": told["workshop"],
        "device": told["device"],
        "seq": seq,
        "at": now_ms(),
        "tz": "UTC",
        "by": told["person"],
        "base": {"position": 0, "chain": ""},
        "subject": uuid7(now_ms()),
        "via": None,
        "group": None,
        "body": {"name": f"Rib {seq}"},
        **changes,
    }
    return json.dumps(made).encode()


def file_of(told: dict[str, Any], *entries: bytes, **changes: Any) -> bytes:
    head = {"bucktail": "outbox", "version": 1, "workshop": told["workshop"]}
    head |= {"entries": len(entries), **changes}
    return b"\n".join([json.dumps(head).encode(), *entries, b""])


def test_an_offer_leads_to_the_address_the_phones_know(join) -> None:
    browser, _ = join()
    offered = post(browser, "/api/devices/offer").get_json()
    assert offered["link"].startswith("https://bench.local:8443/#pair=")
    assert offered["trust"] == "http://bench.local:8480/"
    assert 290_000 < offered["for_ms"] <= 300_000
    dark = np.array([[int(cell) for cell in row] for row in offered["rows"]], np.uint8)
    assert not dark[:4].any() and not dark[:, :4].any() and not dark[-4:].any()
    image = (255 * (1 - dark)).astype(np.uint8).repeat(5, axis=0).repeat(5, axis=1)
    assert [found.text for found in zxingcpp.read_barcodes(image)] == [offered["link"]]


@pytest.mark.parametrize("way", ["link", "typed"])
def test_an_offer_pairs_one_more_device_and_both_see_it(join, way) -> None:
    browser, _ = join(device_name="bench phone")
    offered = post(browser, "/api/devices/offer").get_json()
    other, told = join(offered[way], device_name="office")
    assert (told["device_name"], told["person_name"]) == ("office", "Sam")
    assert set(devices(browser)) == set(devices(other)) == {"bench phone", "office"}
    assert devices(browser)["bench phone"]["this"] is True
    assert devices(other)["bench phone"]["this"] is False


def test_a_browser_that_is_not_paired_gets_nothing(app) -> None:
    stranger = app.test_client()
    for path in ("/api/devices/offer", "/api/settings", "/api/outbox", "/api/push"):
        answer = post(stranger, path, json={})
        assert (answer.status_code, answer.get_json()["problem"]) == (401, "not paired")
    assert stranger.get("/api/devices", **AT_HOME).status_code == 401


def test_a_removed_device_is_out_with_its_next_request(join) -> None:
    browser, _ = join(device_name="bench phone")
    other, told = join(device_name="office")
    assert other.get("/api/pull", **AT_HOME).status_code == 200
    assert post(browser, f"/api/devices/{told['device']}/revoke").status_code == 200
    refused = post(other, "/api/push", data=entry(told, 1))
    assert refused.status_code == 401
    assert "was removed from the workshop" in refused.get_json()["sentence"]
    assert devices(browser)["office"]["revoked_at"] is not None


def test_removing_a_device_that_there_is_not(join) -> None:
    browser, _ = join()
    assert post(browser, f"/api/devices/{uuid.uuid4()}/revoke").status_code == 404


def test_name_and_unit_change_for_every_device(join) -> None:
    browser, _ = join()
    other, _ = join()
    changed = post(browser, "/api/settings", json={"name": " Back   shed ", "unit": "mm"})
    assert changed.get_json() == {"name": "Back shed", "unit": "mm", "sawing": {}}
    first = json.loads(other.get("/api/pull", **AT_HOME).text.splitlines()[0])
    assert (first["name"], first["unit"]) == ("Back shed", "mm")
    assert post(browser, "/api/settings", json={"unit": "in"}).get_json()["name"] == "Back shed"


def test_what_sawing_takes_is_said_for_every_device_and_taken_back(join) -> None:
    browser, _ = join()
    other, _ = join()
    kerf, none = {"nm": 1_000_000, "text": "1 mm"}, {"nm": 0, "text": "0"}
    said = post(browser, "/api/settings", json={"sawing": {"kerf": kerf, "dress_off": none}})
    assert said.get_json()["sawing"] == {"kerf": kerf, "dress_off": none}
    first = json.loads(other.get("/api/pull", **AT_HOME).text.splitlines()[0])
    assert first["sawing"] == {"kerf": kerf, "dress_off": none}
    back = post(browser, "/api/settings", json={"sawing": {"kerf": None}})
    assert back.get_json()["sawing"] == {"dress_off": none}
    for wrong in ({"kerf": {"nm": -1, "text": ""}}, {"blade": kerf}, {"kerf": 1}):
        assert post(browser, "/api/settings", json={"sawing": wrong}).status_code == 422
    first = json.loads(other.get("/api/pull", **AT_HOME).text.splitlines()[0])
    assert first["sawing"] == {"dress_off": none}


def test_the_rules_are_told_by_their_version(join) -> None:
    browser, _ = join()
    assert browser.get("/api/rules", **AT_HOME).get_json() == {"version": version()}


@pytest.mark.parametrize(
    "wrong", [{"unit": "ft"}, {"name": ""}, {"name": "  "}, {"name": "x" * 61}, {"colour": "red"}]
)
def test_settings_that_cannot_be_are_refused_and_nothing_changed(join, wrong) -> None:
    browser, told = join()
    answer = post(browser, "/api/settings", json={"unit": "mm", **wrong})
    assert answer.status_code == 422
    assert next(iter(wrong)) in answer.get_json()["sentence"]
    first = json.loads(browser.get("/api/pull", **AT_HOME).text.splitlines()[0])
    assert (first["name"], first["unit"]) == (told["name"], told["unit"])


def test_a_file_of_a_removed_device_is_brought_in_by_another(join) -> None:
    browser, _ = join()
    _other, told = join()
    post(browser, f"/api/devices/{told['device']}/revoke")
    data = file_of(told, entry(told, 1), entry(told, 2))
    done = post(browser, "/api/outbox", data=data).get_json()
    assert (done["stored"], done["known"], done["aside"]) == (2, 0, [])
    done = post(browser, "/api/outbox", data=data).get_json()
    assert (done["stored"], done["known"]) == (0, 2)
    pulled = browser.get("/api/pull", **AT_HOME).text
    assert "Rib 1" in pulled and "Rib 2" in pulled


def test_the_file_of_another_workshop_is_refused(join) -> None:
    browser, told = join()
    foreign = {**told, "workshop": str(uuid.uuid4())}
    answer = post(browser, "/api/outbox", data=file_of(foreign, entry(foreign, 1)))
    assert (answer.status_code, answer.get_json()["problem"]) == (409, "other workshop")
    mixed = file_of(told, entry(told, 1), entry(foreign, 2))
    assert post(browser, "/api/outbox", data=mixed).status_code == 409
    assert "Rib" not in browser.get("/api/pull", **AT_HOME).text


def test_damaged_lines_are_reported_by_number(join) -> None:
    browser, told = join()
    data = file_of(told, entry(told, 1), entry(told, 2)[:-5], entry(told, 3), entries=4)
    done = post(browser, "/api/outbox", data=data).get_json()
    assert (done["stored"], done["missing"]) == (2, 1)
    assert [one["line"] for one in done["aside"]] == [3]


def test_something_else_than_such_a_file_is_refused(join) -> None:
    browser, _ = join()
    answer = post(browser, "/api/outbox", data=b"\xff\xd8\xff\xe0")
    assert answer.status_code == 422
    assert "not a file of unsent entries" in answer.get_json()["sentence"]
