"""What a phone could not send comes in as a file, once, byte for byte, or is refused in words."""

from __future__ import annotations

import base64
import hashlib
import io
import json
import uuid
from pathlib import Path

import pytest
from PIL import Image
from sqlalchemy import select

from bucktail.storage.opening import open_workshop
from bucktail.storage.pairing_store import people
from bucktail.storage.photos import path_of
from bucktail.storage.tables import SetAside, StoredEvent


def stored(folder: Path) -> list[bytes]:
    with open_workshop(folder) as session:
        rows = session.execute(select(StoredEvent.raw).order_by(StoredEvent.position))
        return list(rows.scalars())


def aside(folder: Path) -> list[bytes]:
    with open_workshop(folder) as session:
        return list(session.execute(select(SetAside.raw)).scalars())


@pytest.fixture
def bring(bucktail, folder, tmp_path):
    """Write a file and import it."""

    def run(data: bytes):
        (tmp_path / "phone.jsonl").write_bytes(data)
        return bucktail("outbox", "import", tmp_path / "phone.jsonl", "--workshop", folder)

    return run


def test_entries_come_in_byte_for_byte_and_only_once(bring, phone_file, folder) -> None:
    phone_file.add_part("Rib 4")
    phone_file.add_part("Spar web Ω")
    said = bring(phone_file.data())
    assert (said.code, said.err) == (0, "")
    assert said.out == "2 entries taken up, 0 known already, 0 set aside.\n"
    assert stored(folder) == phone_file.lines
    again = bring(phone_file.data())
    assert (again.code, again.out) == (0, "0 entries taken up, 2 known already, 0 set aside.\n")
    assert stored(folder) == phone_file.lines


def test_a_file_that_went_through_a_mail_program_is_the_same_file(
    bring, phone_file, folder
) -> None:
    phone_file.add_part("Rib 4")
    phone_file.add_part("Rib 5")
    data = b"\xef\xbb\xbf" + phone_file.data(ends=b"\r\n")
    assert bring(data).code == 0
    assert stored(folder) == phone_file.lines


def test_the_file_of_another_workshop_is_refused_and_nothing_stored(
    bring, phone_file, folder
) -> None:
    phone_file.workshop = str(uuid.uuid4())
    phone_file.add_part("Rib 4")
    said = bring(phone_file.data())
    assert said.code == 1
    assert "belongs to another workshop" in said.err
    assert "Nothing was taken up" in said.err
    assert (stored(folder), aside(folder)) == ([], [])


def test_one_foreign_entry_among_our_own_stores_nothing_either(bring, phone_file, folder) -> None:
    phone_file.add_part("Rib 4")
    phone_file.add_part("Rib 5", workshop=str(uuid.uuid4()))
    said = bring(phone_file.data())
    assert (said.code, stored(folder), aside(folder)) == (1, [], [])


def test_damaged_lines_are_named_kept_and_listed_and_the_rest_comes_in(
    bring, bucktail, phone_file, folder
) -> None:
    first, broken, last = (phone_file.add_part(name) for name in ("Rib 4", "Rib 5", "Rib 6"))
    phone_file.lines[1] = broken[:-9]
    said = bring(phone_file.data())
    assert said.code == 1
    assert "2 entries taken up, 0 known already, 1 set aside." in said.out
    assert "line 3: it is not readable" in said.out
    assert stored(folder) == [first, last]
    assert aside(folder) == [broken[:-9]]
    shown = bucktail("outbox", "list", "--workshop", folder)
    assert shown.code == 0
    assert "1 entry set aside" in shown.out
    assert "because it is not readable" in shown.out


def test_an_entry_with_wrong_content_is_listed_with_what_it_is(
    bring, bucktail, phone_file, folder
) -> None:
    phone_file.add_part("", id="0190b7a2-3b5c-7d1e-8f00-000000000001")
    assert "line 2: body.name: " in bring(phone_file.data()).out
    shown = bucktail("outbox", "list", "--workshop", folder).out
    assert "part.added.v1 0190b7a2-3b5c-7d1e-8f00-000000000001" in shown
    assert "from a device that is not known here" in shown


def test_a_file_cut_short_says_how_much_is_missing(bring, phone_file, folder) -> None:
    for number in range(5):
        phone_file.add_part(f"Rib {number}")
    whole = phone_file.data()
    said = bring(whole[: whole.index(phone_file.lines[3])])
    assert said.code == 1
    assert "3 entries taken up" in said.out
    assert "2 entries that it promises not in it" in said.out
    assert bring(whole).out.startswith("2 entries taken up, 3 known already")
    assert stored(folder) == phone_file.lines


def test_a_lost_first_line_does_not_lose_the_rest(bring, phone_file, folder) -> None:
    phone_file.add_part("Rib 4")
    assert bring(phone_file.lines[0] + b"\n").code == 0
    assert stored(folder) == phone_file.lines


@pytest.mark.parametrize(
    "data", [b"", b"\n\n", b"Dear Sam,\n", b"\xff\xd8\xff\xe0", b"[1]\n", b'{"name": "x"}\n']
)
def test_something_else_is_refused_with_where_to_get_the_file(bring, folder, data) -> None:
    said = bring(data)
    assert said.code == 1
    assert "not a file of unsent entries" in said.err
    assert "This workshop" in said.err
    assert aside(folder) == []


def test_a_file_of_a_newer_version_is_refused(bring, phone_file, folder) -> None:
    phone_file.add_part("Rib 4")
    said = bring(phone_file.data(version=2))
    assert (said.code, stored(folder)) == (1, [])
    assert "newer Bucktail" in said.err


def test_a_file_that_is_not_there(bucktail, folder, tmp_path) -> None:
    said = bucktail("outbox", "import", tmp_path / "no.jsonl", "--workshop", folder)
    assert said.code == 1
    assert "no.jsonl cannot be read" in said.err


def test_who_recorded_is_entered_where_the_record_does_not_know_them(
    bring, phone_file, folder
) -> None:
    phone_file.add_part("Rib 4")
    bring(phone_file.data())
    with open_workshop(folder) as session:
        assert people(session)[phone_file.person] == "Sam Rivers"


def test_photos_come_along(bring, phone_file, folder) -> None:
    kept = io.BytesIO()
    Image.new("RGB", (8, 8), "white").save(kept, "JPEG")
    jpeg = kept.getvalue()
    digest = hashlib.sha256(jpeg).hexdigest()
    photo = {"photo": digest, "size": len(jpeg)}
    phone_file.add_part("Rib 4")
    phone_file.add_part("", kind="photo.attached.v1", body=photo)
    good = {"photo": digest, "jpeg": base64.b64encode(jpeg).decode()}
    bad = {"photo": "0" * 64, "jpeg": good["jpeg"]}
    lines = [json.dumps(one).encode() for one in (good, bad)]
    said = bring(phone_file.data(*lines))
    assert "2 entries taken up, 0 known already, 0 set aside." in said.out
    assert "1 photo kept, 1 not." in said.out
    assert "line 5: The photo arrived damaged" in said.out
    assert path_of(folder, digest).read_bytes() == jpeg


def test_an_empty_list_says_so(bucktail, folder) -> None:
    said = bucktail("outbox", "list", "--workshop", folder)
    assert said.out == "Nothing is set aside: every entry that arrived is in the record.\n"
