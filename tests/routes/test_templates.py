"""Templates over HTTP: the three forms, the tag, the paper, and what is refused."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from bucktail.app import create_app
from bucktail.storage.opening import open_workshop
from bucktail.storage.settings import write
from bucktail.tags.code import grouped, with_check_symbols
from bucktail.workshop.recorder import Recorder
from running.pieces import length, recorded

AT_HOME = {"base_url": "https://localhost"}
CODE, OTHER = with_check_symbols("7K2M9PQ4"), with_check_symbols("AB12CD34")


def piece(folder: Path, name: str = "shim", **more: Any) -> str:
    """A piece wanted with its sum, on record; its id."""
    with open_workshop(folder) as session:
        recorder = Recorder(session)
        (kind, body), *others = recorded(name, **more)
        subject = recorder.record(kind, body)
        for other, told in others:
            recorder.record(other, told, subject)
        return subject


def asked(client: FlaskClient, subject: str, form: str = "pdf", **query: str) -> TestResponse:
    return client.get(f"/api/wanted/{subject}/template.{form}", query_string=query, **AT_HOME)


@pytest.mark.parametrize(
    ("form", "kind", "start"),
    [
        ("pdf", "application/pdf", b"%PDF-"),
        ("dxf", "image/vnd.dxf", b"  0\nSECTION"),
        ("svg", "image/svg+xml", b"<?xml"),
    ],
)
def test_a_piece_comes_in_each_form(
    client: FlaskClient, folder: Path, form: str, kind: str, start: bytes
) -> None:
    answer = asked(client, piece(folder, name="shim"), form)
    assert answer.status_code == 200, answer.text
    assert answer.mimetype == kind and answer.data.startswith(start)
    assert answer.headers["Content-Disposition"] == (
        f'attachment; filename="template-a-shim.{form}"'
    )
    assert answer.headers.get("Bucktail-Pages") == ("1" if form == "pdf" else None)


def test_the_paper_goes_with_the_workshops_unit_or_as_asked(
    client: FlaskClient, folder: Path
) -> None:
    subject = piece(folder)

    def width(**query: str) -> int:
        [page] = pypdfium2.PdfDocument(asked(client, subject, **query).data)
        return round(page.get_size()[0] / 72 * 25.4)

    assert (width(), width(paper="a4"), width(paper="letter")) == (216, 210, 216)
    with open_workshop(folder) as session:
        write(session, "unit", "mm")
    assert width() == 210
    refused = asked(client, subject, paper="a3")
    assert refused.status_code == 422 and "a4 or letter" in refused.get_json()["sentence"]


def test_the_tag_is_that_of_the_piece_or_of_the_part_it_became(
    client: FlaskClient, folder: Path
) -> None:
    plain, tagged, made = piece(folder), piece(folder), piece(folder)
    with open_workshop(folder) as session:
        recorder = Recorder(session)
        recorder.record("tag.attached.v1", {"code": CODE, "on": "bag"}, tagged)
        part = recorder.record("part.added.v1", {"name": "Shim"})
        recorder.record("tag.attached.v1", {"code": OTHER, "on": "metal"}, part)
        recorder.record("piece.met.v1", {"part": part}, made)

    def words(subject: str) -> str:
        [page] = pypdfium2.PdfDocument(asked(client, subject).data)
        return str(page.get_textpage().get_text_range())

    assert "tag" not in words(plain)
    assert f"tag {grouped(CODE)}" in words(tagged)
    assert f"tag {grouped(OTHER)}" in words(made)


def test_what_is_not_there_is_refused_in_a_sentence(client: FlaskClient, folder: Path) -> None:
    subject = piece(folder)
    with open_workshop(folder) as session:
        part = Recorder(session).record("part.added.v1", {"name": "Rib"})
    for nobody in (part, subject[:-4] + "0000", "nonsense"):
        answer = asked(client, nobody)
        assert answer.status_code == 404
        assert "has not reached the workshop computer" in answer.get_json()["sentence"]
    assert asked(client, subject, "png").status_code == 404


def test_a_piece_of_many_pages_is_refused_on_paper_and_made_as_dxf(
    client: FlaskClient, folder: Path
) -> None:
    subject = piece(folder, a=length(4_000_000_000), b=length(3_000_000_000))
    answer = asked(client, subject)
    assert answer.status_code == 422
    assert "Take the DXF or the SVG" in answer.get_json()["sentence"]
    assert asked(client, subject, "dxf").status_code == 200


def test_only_paired_devices_get_one(folder: Path) -> None:
    subject = piece(folder)
    stranger = create_app(folder).test_client()
    assert asked(stranger, subject).status_code == 401


def test_nothing_of_the_drawing_is_loaded_before_it_is_asked_for() -> None:
    """Starting the workshop must stay quick."""
    import subprocess
    import sys

    names = "('ezdxf', 'shapely', 'bucktail.offcuts.template.pdf')"
    code = f"import sys, bucktail.app; print([n for n in {names} if n in sys.modules])"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"
