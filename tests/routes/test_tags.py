"""Tags on paper over HTTP: recorded with the sheet, or not at all."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from bucktail.app import create_app
from bucktail.storage.codes import all_codes
from bucktail.storage.opening import open_workshop
from bucktail.tags.code import grouped
from bucktail.workshop.printing import record_new_tags
from bucktail.workshop.recorder import Recorder

AT_HOME = {"base_url": "https://localhost"}


def sheet(client: FlaskClient, **asked: Any) -> TestResponse:
    return client.post("/api/tags/sheet", json=asked, **AT_HOME)


def known(folder: Path) -> set[str]:
    with open_workshop(folder) as session:
        return all_codes(session)


def words(pdf: bytes) -> str:
    pages = pypdfium2.PdfDocument(pdf)
    return " ".join(page.get_textpage().get_text_range() for page in pages)


def test_new_tags_are_recorded_with_their_sheet(client: FlaskClient, folder: Path) -> None:
    answer = sheet(client, new=23)
    assert (answer.status_code, answer.mimetype) == (200, "application/pdf")
    assert (answer.headers["Bucktail-Tags"], answer.headers["Bucktail-Pages"]) == ("23", "2")
    codes, printed = known(folder), words(answer.data)
    assert len(codes) == 23
    assert all(code[:5] in printed and code[5:] in printed for code in codes)


def test_a_tag_printed_again_carries_what_it_is_on(client: FlaskClient, folder: Path) -> None:
    (code,) = record_new_tags(folder, 1)
    with open_workshop(folder) as session:
        recorder = Recorder(session)
        part = recorder.record("part.added.v1", {"name": "Rib 4"})
        recorder.record("tag.attached.v1", {"code": code, "on": "metal"}, part)
    answer = sheet(client, codes=[grouped(code)], paper="50x25mm", dpi=203)
    assert answer.status_code == 200
    assert "Rib 4" in words(answer.data)
    assert known(folder) == {code}


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({}, "Say either how many new tags"),
        ({"new": 1, "codes": ["ABCDEFGHMP"]}, "Say either how many new tags"),
        ({"new": 0}, "new"),
        ({"new": 201}, "new"),
        ({"new": "3"}, "new"),
        ({"codes": []}, "codes"),
        ({"codes": ["ABCDEFGH00"]}, "do not belong together"),
        ({"new": 3, "size": "huge"}, "The size 'huge' is not known"),
        ({"new": 3, "paper": "b5"}, "The paper 'b5' is not known"),
        ({"new": 3, "dpi": 72}, "72 dots an inch is not offered"),
        ({"new": 3, "paper": "12x8mm"}, "label"),
        ({"new": 3, "skip": 21}, "This sheet has 21 labels"),
    ],
)
def test_what_cannot_be_printed_is_told_and_makes_no_tag(
    client: FlaskClient, folder: Path, asked: dict[str, Any], said: str
) -> None:
    answer = sheet(client, **asked)
    assert answer.status_code == 422
    assert answer.json is not None
    assert said in answer.json["sentence"]
    assert known(folder) == set()


def test_a_browser_that_is_not_paired_prints_nothing(folder: Path) -> None:
    stranger = create_app(folder).test_client()
    assert sheet(stranger, new=1).status_code == 401
    assert known(folder) == set()


def test_a_failure_while_drawing_takes_the_new_tags_back(
    client: FlaskClient, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise MemoryError

    monkeypatch.setattr("bucktail.routes.tags.print_labels", fail)
    assert sheet(client, new=3).status_code == 500
    assert known(folder) == set()
