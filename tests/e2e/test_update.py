"""A new version of the app, while entries wait on the phone: offered, never forced, and nothing of
them lost; not on the way to the next version, nor on the way back."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, Route, expect
from sqlalchemy import select

from bucktail.storage.opening import open_session, open_workshop
from bucktail.storage.tables import StoredEvent
from bucktail.workshop.printing import record_new_tags
from bucktail.workshop.recorder import Recorder
from running.phone import BenchPhone
from running.program import build_next, copy_program, publish_next
from running.unsent import add_unsent, texts
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 20_000
RIBS = [f"Rib {number}" for number in range(1, 51)]

LOOK_FOR_NEXT = """async () => {
  const registration = await navigator.serviceWorker.ready;
  await registration.update();
  for (let i = 0; i < 200 && !registration.waiting; i += 1)
    await new Promise((done) => setTimeout(done, 50));
  return registration.waiting !== null;
}"""


def mark_of(page: Page) -> str:
    return page.locator('meta[name="description"]').get_attribute("content") or ""


def hold_back(page: Page) -> list[Route]:
    """Nothing the phone sends arrives from now on, though everything else does."""
    asked: list[Route] = []

    def refuse(route: Route) -> None:
        asked.append(route)
        route.abort()

    page.context.route("**/api/push", refuse)
    return asked


def let_go(page: Page) -> None:
    page.context.unroute("**/api/push")
    page.evaluate("dispatchEvent(new Event('online'))")


def received(workshop: Workshop) -> list[str]:
    """What the record holds, as it was received, in order."""
    with open_session(workshop.folder) as session:
        rows = session.execute(select(StoredEvent.raw).order_by(StoredEvent.position)).scalars()
        return [raw.decode() for raw in rows]


def wait_with_fifty(phone: BenchPhone) -> list[str]:
    """Fifty entries that cannot go out; gives them as they stand on the phone."""
    page = phone.page
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    hold_back(page)
    add_unsent(page, RIBS)
    page.reload()
    expect(page.locator(".sill")).to_contain_text("50 not sent yet", timeout=SLOW)
    waiting = texts(phone.stored("outbox"))
    assert [json.loads(text)["body"]["name"] for text in waiting] == RIBS
    return waiting


def restart_into_next(page: Page, mark: str) -> None:
    """Take what is offered; the page comes again as the version with that mark."""
    offer = page.get_by_role("status").filter(has_text="A new version is on this device.")
    expect(offer).to_contain_text("What is not sent yet stays here", timeout=SLOW)
    offer.get_by_role("button", name="Restart now").click()
    expect(page.locator(f'meta[name="description"][content="{mark}"]')).to_be_attached(timeout=SLOW)
    expect(page.locator(".sill")).to_contain_text("50 not sent yet", timeout=SLOW)


def test_an_update_offered_while_entries_wait_loses_none_and_they_are_sent_after(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    webapp = copy_program(tmp_path / "program")
    workshop.kill()
    workshop.program = tmp_path / "program"
    workshop.start()
    phone = new_phone(lasting=True)
    page = phone.pair()
    waiting = wait_with_fifty(phone)
    first = mark_of(page)

    publish_next(webapp, "next")
    assert page.evaluate(LOOK_FOR_NEXT)
    assert texts(phone.stored("outbox")) == waiting
    page.reload()  # it waits for the person as long as something is not sent
    expect(page.get_by_text("A new version is on this device.")).to_be_visible(timeout=SLOW)
    page.wait_for_timeout(500)
    assert mark_of(page) == first

    restart_into_next(page, "next")
    assert texts(phone.stored("outbox")) == waiting
    expect(page.get_by_text("A new version is on this device.")).to_have_count(0)

    publish_next(webapp, "third")
    assert page.evaluate(LOOK_FOR_NEXT)
    page.close()  # with no page open the browser itself may let the next version take over
    assert phone.context is not None
    phone.page = page = phone.context.new_page()
    page.goto(f"{workshop.url}/parts")
    expect(page.locator(".sill")).to_contain_text("50 not sent yet", timeout=SLOW)
    assert texts(phone.stored("outbox")) == waiting
    let_go(page)
    phone.settled()
    assert received(workshop) == waiting
    assert len(phone.cards()) == 50


def tagged_parts(workshop: Workshop, names: list[str]) -> tuple[str, dict[str, str]]:
    """A shelf, and name -> tag of parts that lie nowhere yet."""
    codes = dict(zip(names, record_new_tags(workshop.folder, len(names)), strict=True))
    with open_workshop(workshop.folder) as session:
        recorder = Recorder(session)
        shelf = recorder.record("place.added.v1", {"name": "Shelf 2", "form": "shelf"})
        for name, code in codes.items():
            part = recorder.record("part.added.v1", {"name": name})
            recorder.record("tag.attached.v1", {"code": code, "on": "metal"}, part)
    return shelf, codes


def scan(page: Page, code: str, so_far: str) -> None:
    page.get_by_label("Code on the tag").fill(code)
    page.get_by_role("list", name="Tags like this").get_by_role("button").first.click()
    expect(
        page.get_by_role("status").filter(has_text="so far").filter(has_text=so_far)
    ).to_be_visible(timeout=SLOW)


def test_an_update_waits_until_a_run_is_over_and_loses_nothing_of_it(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    webapp = copy_program(tmp_path / "program")
    workshop.kill()
    workshop.program = tmp_path / "program"
    workshop.start()
    shelf, codes = tagged_parts(workshop, ["Rib 4", "Rib 5", "Rib 6"])
    phone = new_phone(lasting=True)
    page = phone.pair()
    phone.settled()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    hold_back(page)
    page.goto(f"{workshop.url}/run?place={shelf}")
    page.get_by_role("button", name="Type the code").click(timeout=SLOW)
    scan(page, codes["Rib 4"], "Rib 4")

    publish_next(webapp, "next")
    assert page.evaluate(LOOK_FOR_NEXT)
    scan(page, codes["Rib 5"], "Rib 5")
    offer = page.get_by_text("A new version is on this device.")
    expect(offer).to_have_count(0)
    scan(page, codes["Rib 6"], "Rib 6")
    expect(offer).to_have_count(0)
    page.get_by_role("button", name="Finish", exact=True).click()
    expect(offer).to_be_visible(timeout=SLOW)
    waiting = texts(phone.stored("outbox"))
    assert len(waiting) == 3

    page.get_by_role("button", name="Restart now").click()
    expect(page.locator('meta[name="description"][content="next"]')).to_be_attached(timeout=SLOW)
    expect(page.locator(".sill")).to_contain_text("3 not sent yet", timeout=SLOW)
    assert texts(phone.stored("outbox")) == waiting
    let_go(page)
    phone.settled()
    assert received(workshop)[-3:] == waiting


@pytest.mark.long
def test_the_next_version_and_the_one_before_read_the_same_waiting_entries(
    workshop: Workshop, new_phone: NewPhone, tmp_path: Path
) -> None:
    """The next version wants its copies in another shape, so it fetches them anew in time; what
    waits is never touched by either. Then the workshop goes back to the version before."""
    copy_program(tmp_path / "old")
    changes = {"src/store/copies.ts": ("COPIES_VERSION = 1;", "COPIES_VERSION = 2;")}
    build_next(tmp_path / "new", "next", changes)
    workshop.kill()
    workshop.program = tmp_path / "old"
    workshop.start()
    phone = new_phone(lasting=True)
    page = phone.pair()
    add_unsent(page, ["Spar web"])
    page.reload()
    phone.settled()
    (spar,) = received(workshop)
    waiting = wait_with_fifty(phone)
    first = mark_of(page)

    for program, mark in ((tmp_path / "new" / "server", "next"), (tmp_path / "old", first)):
        workshop.kill()
        workshop.program = program
        workshop.start()
        assert page.evaluate(LOOK_FOR_NEXT)
        restart_into_next(page, mark)
        assert texts(phone.stored("outbox")) == waiting
        for text in (spar, waiting[-1]):  # what was fetched, and what only this phone has
            page.goto(f"{workshop.url}/part/{json.loads(text)['subject']}")
            expect(page.get_by_role("heading", level=1)).to_have_text(
                json.loads(text)["body"]["name"], timeout=SLOW
            )

    let_go(page)
    phone.settled()
    assert received(workshop) == [spar, *waiting]
    assert len(phone.cards()) == 51
