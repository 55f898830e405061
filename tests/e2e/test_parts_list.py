"""The list of parts, and what is changed about one: found fast among thousands, nothing lost."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from running.looking import THEMES, overflow, serious, small_targets, use_theme
from running.partstock import part, step, told, written
from running.phone import BenchPhone
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000

# copies one part's row in the phone's own storage, as a workshop with so many parts would have it
MANY_ROWS = """async (many) => {
  const name = (await indexedDB.databases()).map((one) => one.name)
    .find((one) => /^bucktail-[0-9a-f-]{36}$/.test(one));
  const db = await new Promise((done) => {
    const asked = indexedDB.open(name);
    asked.onsuccess = () => done(asked.result);
  });
  const transaction = db.transaction('rows', 'readwrite');
  const store = transaction.objectStore('rows');
  const [row] = await new Promise((done) => {
    const asked = store.getAll();
    asked.onsuccess = () => done(asked.result);
  });
  for (let at = 0; at < many; at += 1)
    store.put({ ...row, id: `${row.id.slice(0, -6)}${String(at).padStart(6, '0')}`,
      name: `Rib ${at}`, touched: at });
  await new Promise((done) => { transaction.oncomplete = done; });
  db.close();
}"""
TIME_A_SEARCH = """async (words) => {
  const field = document.querySelector('input[type=search]');
  const started = performance.now();
  field.value = words;
  field.dispatchEvent(new Event('input', { bubbles: true }));
  await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  return performance.now() - started;
}"""


def test_an_empty_list_says_what_to_do_and_a_part_is_added_without_a_tag(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    phone = new_phone()
    page = phone.pair()
    page.goto(f"{workshop.url}/parts")
    expect(page.get_by_role("link", name="Scan a blank tag")).to_be_visible(timeout=SLOW)
    page.get_by_role("link", name="Add a part").click()
    page.get_by_role("button", name="Add", exact=True).click()
    expect(page.get_by_role("alert")).to_contain_text("Give the part a name")
    page.get_by_label("Name").fill("Rib 4")
    page.get_by_label("left", exact=True).check()
    page.get_by_label("What sort of part is it?").select_option("rib")
    page.get_by_role("textbox", name="Holes 0 where it has none").fill("30")
    page.get_by_text("Assembly, station, material and the rest").click()
    page.get_by_label("Thickness").fill("banana")
    page.get_by_role("button", name="Add Rib 4").click()
    assert written(phone) == []  # what cannot be read is not kept, and nothing typed is lost
    page.get_by_label("Thickness").fill("0.8 mm")
    page.get_by_role("button", name="Add Rib 4").click()
    expect(page.get_by_role("button", name="Formed: all", exact=True)).to_be_visible(timeout=SLOW)
    added, needs = written(phone)
    assert added["group"] == needs["group"] is not None
    thickness = {"nm": 800_000, "text": "0.8 mm"}
    assert added["body"] == {"name": "Rib 4", "hand": "left", "thickness": thickness}
    assert needs["body"]["holes"] == {"count": 30, "supplied": "pilot"}


def test_parts_are_found_by_state_and_by_words(workshop: Workshop, new_phone: NewPhone) -> None:
    done = part(workshop.folder, "Rib 4", "small clip")
    part(workshop.folder, "Rib 5", "small clip")
    for op in ("film", "edges", "deburr"):
        told(workshop.folder, done, "step.recorded.v1", step(op, of=164))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(2)
    page.goto(f"{workshop.url}/parts")
    listed = page.locator(".part-list li")
    expect(listed).to_have_count(2, timeout=SLOW)
    expect(page.get_by_role("img", name="Done: film off, edges, deburr.")).to_be_visible()
    page.get_by_text("All parts, last touched first").click()
    page.get_by_label("deburred", exact=True).select_option("yes")
    page.get_by_label("primed", exact=True).select_option("not yet")
    expect(listed).to_have_count(1)
    expect(listed).to_contain_text("Rib 4")
    expect(page.get_by_text("Parts deburred and not yet primed")).to_be_visible()
    for theme in THEMES:
        use_theme(page, theme)
        assert serious(page) == []
    assert small_targets(page) == []
    page.get_by_label("Find parts").fill("rib 5")
    page.get_by_role("button", name="Show all parts").click()
    expect(listed).to_have_count(2)


def test_five_thousand_parts_stay_quick(workshop: Workshop, new_phone: NewPhone) -> None:
    part(workshop.folder, "Rib", "rib")
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    page.evaluate(MANY_ROWS, 5000)
    page.goto(f"{workshop.url}/parts")
    expect(page.get_by_text("5001 parts")).to_be_visible(timeout=SLOW)
    listed = page.locator(".part-list li")
    assert listed.count() <= 120
    page.evaluate(TIME_A_SEARCH, "rib 1")  # the first search reads every part once
    assert page.evaluate(TIME_A_SEARCH, "rib 49") < 1000
    expect(page.get_by_text("of 5001 parts")).to_be_visible()
    page.evaluate(TIME_A_SEARCH, "")
    before = listed.count()
    page.mouse.wheel(0, 60_000)
    page.wait_for_function(
        "(before) => document.querySelectorAll('.part-list li').length > before", arg=before
    )


def test_what_it_needs_what_changed_and_what_it_is_called(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    subject = part(workshop.folder, "Rib 4", "rib", 164)
    for op in ("form", "edges", "fit", "drill", "deburr"):
        told(workshop.folder, subject, "step.recorded.v1", step(op, of=164))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    page.goto(f"{workshop.url}/part/{subject}/needs")
    page.get_by_role("combobox", name="Dimple", exact=True).select_option("not")
    page.get_by_role("combobox", name="Prime", exact=True).select_option(
        "inside; keep outside bare"
    )
    for theme in THEMES:
        use_theme(page, theme)
        assert serious(page) == []
    assert not overflow(page)
    page.get_by_role("button", name="This is what it needs").click()
    expect(page.get_by_role("button", name="Dimple: not needed")).to_be_visible(timeout=SLOW)
    expect(
        page.get_by_role("button", name="Prime: inside to do, outside keep bare")
    ).to_be_visible()

    page.get_by_role("link", name="The metal changed").click()
    page.get_by_label("holes were added").check()
    page.get_by_label("How many holes?").fill("4")
    page.get_by_role("button", name="4 holes added").click()
    again = page.get_by_role("button", name="Deburr: do again, 164 of 168 still good")
    expect(again).to_be_visible(timeout=SLOW)

    page.get_by_role("link", name="Name, number and the rest").click()
    expect(page.get_by_role("button", name="Nothing changed")).to_be_disabled()
    page.get_by_label("Station", exact=False).fill("F12")
    page.get_by_role("button", name="Keep the changes").click()
    expect(page.get_by_text("station F12")).to_be_visible(timeout=SLOW)
    kinds = [event["kind"] for event in written(phone)]
    assert kinds == ["steps.set.v1", "metal.changed.v1", "steps.set.v1", "part.described.v1"]
    assert written(phone)[-1]["body"] == {"station": "F12"}
    assert written(phone)[2]["body"]["holes"]["count"] == 168


def test_pieces_leave_a_bag_and_a_part_leaves_the_lists_and_comes_back(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    bag = part(workshop.folder, "Clip", "bag", 2)
    told(workshop.folder, bag, "part.described.v1", {"pieces": 12})
    told(workshop.folder, bag, "step.recorded.v1", step("edges", done=12, of=12))
    phone = new_phone()
    page = phone.pair()
    phone.fetched(1)
    page.goto(f"{workshop.url}/part/{bag}")
    page.get_by_role("link", name="Take pieces out of this bag").click(timeout=SLOW)
    page.get_by_label("Pieces").fill("12")
    expect(page.get_by_role("alert")).to_contain_text("At least one has to stay")
    page.get_by_label("Pieces").fill("3")
    page.get_by_label("Name of what is taken out").fill("Clip, left row")
    page.get_by_role("button", name="Take out 3 pieces").click()
    expect(page.get_by_role("heading", name="Clip, left row")).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("button", name="Edges: all 3")).to_be_visible()
    page.get_by_role("link", name="Scrapped, or entered by mistake").click()
    page.get_by_role("button", name="Scrapped", exact=True).click()
    page.get_by_role("dialog").get_by_role("button", name="Scrapped").click()
    # not the link that begins with the same word: it may still stand before the step is kept
    expect(page.locator(".note", has_text="Scrapped, ")).to_be_visible(timeout=SLOW)
    page.goto(f"{workshop.url}/parts")
    expect(page.locator(".part-list li")).to_have_count(1, timeout=SLOW)
    expect(page.get_by_text("9 pieces")).to_be_visible()
    page.go_back()
    page.get_by_role("button", name="Take this back").first.click(timeout=SLOW)
    expect(page.get_by_role("button", name="Edges: all 3")).to_be_visible(timeout=SLOW)
    phone.settled()
