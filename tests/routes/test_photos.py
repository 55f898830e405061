"""Photos over HTTP: taken up whole or not at all, checked, and given back byte for byte."""

from __future__ import annotations

import errno
import hashlib
import io
import os
import secrets
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from PIL import Image
from werkzeug.test import TestResponse

from bucktail.app import create_app
from bucktail.storage import photos as stored
from bucktail.storage.ids import uuid7
from bucktail.storage.opening import open_workshop
from bucktail.workshop.recorder import Recorder
from running.workshop import now_ms

AT_HOME = {"base_url": "https://localhost"}


def jpeg(colour: str = "steelblue", size: tuple[int, int] = (40, 30)) -> tuple[str, bytes]:
    """A JPEG and its SHA-256."""
    made = io.BytesIO()
    Image.new("RGB", size, colour).save(made, "JPEG")
    return hashlib.sha256(made.getvalue()).hexdigest(), made.getvalue()


def noise(size: int) -> tuple[str, bytes]:
    """Bytes that start like a JPEG, and their SHA-256."""
    data = b"\xff\xd8\xff\xe0" + secrets.token_bytes(size - 4)
    return hashlib.sha256(data).hexdigest(), data


def put(client: FlaskClient, digest: str, data: bytes, **more: Any) -> TestResponse:
    return client.put(f"/api/photos/{digest}", data=data, **AT_HOME, **more)


def get(client: FlaskClient, digest: str, **more: Any) -> TestResponse:
    return client.get(f"/api/photos/{digest}", **AT_HOME, **more)


def lying_in(folder: Path) -> list[str]:
    """Every file in the photos folder, hidden ones too."""
    return sorted(p.name for p in (folder / "photos").rglob("*") if p.is_file())


def test_a_photo_comes_back_byte_for_byte_and_may_be_kept(
    client: FlaskClient, folder: Path
) -> None:
    digest, data = jpeg()
    first = put(client, digest, data)
    assert (first.status_code, first.json) == (201, {"kept": digest, "new": True})
    assert (folder / "photos" / digest[:2] / digest).read_bytes() == data
    answer = get(client, digest)
    assert (answer.status_code, answer.data, answer.mimetype) == (200, data, "image/jpeg")
    assert answer.headers["Cache-Control"] == "private, max-age=31536000, immutable"
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    again = get(client, digest, headers={"If-None-Match": answer.headers["ETag"]})
    assert again.status_code == 304


def test_the_same_photo_twice_is_the_same_photo(client: FlaskClient, folder: Path) -> None:
    digest, data = jpeg()
    put(client, digest, data)
    second = put(client, digest, data)
    assert (second.status_code, second.json) == (200, {"kept": digest, "new": False})
    assert lying_in(folder) == [digest]


@pytest.mark.parametrize(
    ("digest", "data", "status", "word"),
    [
        (jpeg("red")[0], jpeg("blue")[1], 422, "damaged"),
        (hashlib.sha256(b"GIF89a").hexdigest(), b"GIF89a", 415, "not a photo"),
        (hashlib.sha256(b"").hexdigest(), b"", 415, "not a photo"),
        (*noise(stored.LARGEST_PHOTO + 1), 413, "too large"),
        ("ABC", b"", 404, "unknown"),
        ("..%2f..%2fbucktail.db", b"", 405, "http"),
        (jpeg()[0].upper(), jpeg()[1], 404, "unknown"),
    ],
    ids=["another photo", "no JPEG", "nothing", "too large", "no name", "a path", "capitals"],
)
def test_what_is_not_that_photo_is_refused_and_leaves_nothing(
    client: FlaskClient, folder: Path, digest: str, data: bytes, status: int, word: str
) -> None:
    answer = put(client, digest, data)
    assert (answer.status_code, answer.json["problem"]) == (status, word)
    assert answer.json["sentence"].endswith(".")
    assert lying_in(folder) == []


def test_the_largest_photo_is_taken(client: FlaskClient) -> None:
    assert put(client, *noise(stored.LARGEST_PHOTO)).status_code == 201


@pytest.mark.parametrize(
    ("number", "status", "word"),
    [(errno.ENOSPC, 507, "disk full"), (errno.EDQUOT, 507, "disk full"), (errno.EIO, 503, "disk")],
)
def test_a_disk_that_does_not_take_it_is_said_and_leaves_nothing(
    client: FlaskClient,
    folder: Path,
    monkeypatch: pytest.MonkeyPatch,
    number: int,
    status: int,
    word: str,
) -> None:
    digest, data = jpeg()

    def full(_handle: int) -> None:
        raise OSError(number, os.strerror(number))

    with monkeypatch.context() as patched:
        patched.setattr(stored.os, "fsync", full)
        answer = put(client, digest, data)
    assert (answer.status_code, answer.json["problem"]) == (status, word)
    assert "keeps" in answer.json["sentence"]
    assert lying_in(folder) == []
    assert get(client, digest).status_code == 404
    assert put(client, digest, data).status_code == 201


def test_a_photo_that_was_renamed_but_not_noted_is_noted_when_sent_again(
    client: FlaskClient, folder: Path
) -> None:
    digest, data = jpeg()
    path = stored.path_of(folder, digest)
    path.parent.mkdir(parents=True)
    path.write_bytes(data)
    assert put(client, digest, data).status_code == 200
    with open_workshop(folder) as session:
        assert session.get(stored.Photo, digest).size == len(data)


def test_what_the_record_names_and_is_not_here_is_listed(client: FlaskClient, folder: Path) -> None:
    (first, first_bytes), (second, _) = jpeg("red"), jpeg("green")
    with open_workshop(folder) as session:
        recorder = Recorder(session)
        offcut = uuid7(now_ms())
        for digest in (second, first, second):
            recorder.record("photo.attached.v1", {"photo": digest, "size": 1}, offcut)
    listed = client.get("/api/photos/missing", **AT_HOME)
    assert listed.json == {"missing": [second, first]}
    assert listed.headers["Cache-Control"] == "no-store"
    put(client, first, first_bytes)
    assert client.get("/api/photos/missing", **AT_HOME).json == {"missing": [second]}
    not_here = get(client, second)
    assert (not_here.status_code, not_here.json["problem"]) == (404, "not here yet")
    assert not_here.headers["Cache-Control"] == "no-store"


def test_photos_are_for_paired_devices_only(client: FlaskClient, folder: Path) -> None:
    digest, data = jpeg()
    put(client, digest, data)
    stranger = create_app(folder).test_client()
    assert get(stranger, digest).status_code == 401
    assert put(stranger, digest, data).status_code == 401
    assert put(client, digest, data, headers={"Origin": "https://elsewhere"}).status_code == 403
