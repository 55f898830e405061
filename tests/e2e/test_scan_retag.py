"""A thing gets another tag, and one tag that two phones put on two things is settled."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from bucktail.storage.cards import state_of
from bucktail.storage.opening import open_workshop
from bucktail.storage.tables import Code
from bucktail.tags.code import grouped
from bucktail.workshop.printing import record_new_tags
from bucktail.workshop.recorder import Recorder
from running import camera
from running.phone import BenchPhone
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000


def parts(folder: Path, *names: str) -> list[str]:
    """Enter parts on the workshop's computer; their ids."""
    with open_workshop(folder) as session:
        recorder = Recorder(session)
        return [recorder.record("part.added.v1", {"name": name}) for name in names]


def state(folder: Path, thing: str) -> dict[str, Any]:
    """How a thing stands in the workshop's record."""
    with open_workshop(folder) as session:
        found = state_of(session, thing)
        assert found is not None
        return found


def put_on(page: Page, code: str, name: str, how: str) -> None:
    """Put a typed tag on a thing already entered."""
    page.get_by_role("link", name=re.compile("SCAN")).click()
    page.get_by_role("button", name="Type the code").click()
    page.get_by_label("Code on the tag").fill(code)
    page.get_by_role("button", name=grouped(code)).click()
    page.get_by_role("link", name="A thing already entered").click()
    page.get_by_role("button", name=name).click()
    page.get_by_label(how).check()
    page.get_by_role("button", name=f"Put the tag on {name}").click()
    expect(page.get_by_role("heading", name=name)).to_be_visible(timeout=SLOW)


def test_another_tag_takes_the_place_of_the_first_in_one_record(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    old, new = record_new_tags(workshop.folder, 2)
    (rib,) = parts(workshop.folder, "Rib 4")
    with open_workshop(workshop.folder) as session:
        Recorder(session).record("tag.attached.v1", {"code": old, "on": "film"}, rib)
    phone = new_phone(camera=camera.showing(tmp_path / "new.mjpeg", camera.printed(new)))
    phone.pair()
    phone.settled()
    page = phone.page
    page.goto(f"{workshop.url}/part/{rib}")
    page.get_by_role("link", name="Change the tag").click()
    expect(page.get_by_text(f"Tag {grouped(new)} for")).to_be_visible(timeout=SLOW)
    page.get_by_label("tied on").check()
    expect(page.get_by_label(grouped(old))).to_be_checked()
    workshop.kill()
    page.get_by_role("button", name="Put the tag on Rib 4").click()
    expect(page.get_by_role("heading", name="Rib 4")).to_be_visible()
    kept = [json.loads(row["text"]) for row in phone.stored("outbox")]
    assert [one["kind"] for one in kept] == ["tag.attached.v1", "tag.replaced.v1"]
    assert kept[0]["group"] == kept[1]["group"] is not None
    workshop.start()
    page.evaluate("dispatchEvent(new Event('online'))")
    phone.settled()
    assert sorted(state(workshop.folder, rib)["tags"], key=lambda tag: bool(tag["old"])) == [
        {"code": new, "on": "tied", "old": False},
        {"code": old, "on": "film", "old": True},
    ]

    # the same tag, fixed another way
    page.get_by_role("link", name="Change the tag").click()
    page.get_by_text("stays, fixed another way").click()
    page.get_by_label("on the metal").check()
    page.get_by_role("button", name="Keep that").click()
    expect(page.get_by_text(f"{grouped(new)} on the metal")).to_be_visible()


def test_a_tag_in_use_is_not_put_on_another_thing(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    (code,) = record_new_tags(workshop.folder, 1)
    rib, other = parts(workshop.folder, "Rib 4", "Rib 5")
    with open_workshop(workshop.folder) as session:
        Recorder(session).record("tag.attached.v1", {"code": code, "on": "metal"}, rib)
    phone = new_phone(camera=camera.showing(tmp_path / "used.mjpeg", camera.printed(code)))
    phone.pair()
    phone.settled()
    page = phone.page
    page.goto(f"{workshop.url}/retag/{other}")
    refusal = page.get_by_text(f"{grouped(code)} is on Rib 4. Take a blank tag.")
    expect(refusal).to_be_visible(timeout=SLOW)
    page.goto(f"{workshop.url}/attach/{code}")
    expect(page.get_by_role("heading", name="This tag is in use")).to_be_visible()


def test_two_phones_put_one_tag_on_two_things_and_a_person_settles_it(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    (code,) = record_new_tags(workshop.folder, 1)
    rib, other = parts(workshop.folder, "Rib 4", "Rib 5")
    first, second = new_phone(), new_phone()
    for phone, person in ((first, "Sam Rivers"), (second, "Kim Brook")):
        phone.pair(person=person, device=f"phone of {person}")
        phone.settled()
    workshop.kill()
    put_on(first.page, code, "Rib 4", "on the film")
    put_on(second.page, code, "Rib 5", "tied on")
    workshop.start()
    for phone in (first, second):
        phone.page.evaluate("dispatchEvent(new Event('online'))")
        phone.settled()
    first.page.evaluate("dispatchEvent(new Event('online'))")  # to learn of the other claim

    for phone, thing in ((first, rib), (second, other)):
        phone.page.goto(f"{workshop.url}/part/{thing}")
        question = phone.page.get_by_role("region", name=f"Which thing carries tag {grouped(code)}")
        expect(question).to_contain_text("Rib 4 and Rib 5", timeout=SLOW)
    question.get_by_role("button", name="Rib 5").click()
    expect(question).to_have_count(0)
    second.settled()

    assert state(workshop.folder, rib)["tags"] == []
    assert state(workshop.folder, other)["tags"] == [{"code": code, "on": "tied", "old": False}]
    assert state(workshop.folder, rib)["answers"] == state(workshop.folder, other)["answers"] == []
    with open_workshop(workshop.folder) as session:
        found = session.get(Code, code)
        assert found is not None and found.thing == other
    first.page.evaluate("dispatchEvent(new Event('online'))")
    expect(first.page.get_by_text("Two phones put the tag")).to_have_count(0, timeout=SLOW)
    first.settled()
    assert first.cards() == second.cards()
