"""The search on the phone: what serves and why, what comes near and why not, and quick enough."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from bucktail.storage.opening import open_workshop
from bucktail.workshop.recorder import Recorder
from running.phone import BenchPhone
from running.sheetstock import enter, fetched, inches, sheet
from running.workshop import Workshop

pytestmark = pytest.mark.browser
NewPhone = Callable[..., BenchPhone]
SLOW = 15_000

TYPE_AND_WAIT = """async (text) => {
  const input = document.querySelector('.blank-width input');
  const start = performance.now();
  input.value = text;
  input.dispatchEvent(new Event('input', { bubbles: true }));
  await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  return performance.now() - start;
}"""


def ask(page: Page, width: str, height: str, **more: str) -> None:
    """Write what is wanted."""
    page.get_by_label("Width, in").fill(width)
    page.get_by_label("Height, in").fill(height)
    if "thickness" in more:
        page.get_by_label("Thickness, in").fill(more["thickness"])
    if "grain" in more:
        page.get_by_label(f"grain {more['grain']}").check()


def near(page: Page, name: str) -> str:
    """What is said of a near miss."""
    text: str = page.get_by_role("link", name=name).inner_text()
    return text


def test_the_search_works_without_a_network_and_says_why(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    enter(
        workshop.folder,
        sheet(12, 8),
        sheet(6, 5),
        sheet(4, 2.75),
        sheet(12, 8, thickness=0.040),
        sheet(12, 8, alloy="6061", temper="T6", clad="bare"),
    )
    phone = new_phone()
    page = phone.pair()
    phone.fetched(5)
    workshop.kill()
    page.get_by_role("link", name="offcuts", exact=True).click()
    expect(page.get_by_text("5 in all.")).to_be_visible()
    page.get_by_role("combobox", name="Metal").select_option("2024-T3")
    ask(page, "4", "3", thickness=".032", grain="along the width")
    expect(page.get_by_text("2 serve. 3 come near.")).to_be_visible()
    first, second = page.locator(".serves > li").all()
    expect(first).to_contain_text("2024-T3 clad .032, 6 × 5")
    expect(first).to_contain_text("grain along its width. Leaves 6 in × 2 in, spoils 6 sq in.")
    expect(second).to_contain_text("2024-T3 clad .032, 12 × 8")
    drawing = first.get_by_role("img")
    expect(drawing).to_have_accessible_name(
        "2024-T3 clad, .032. In a corner, 4 in along the 6 in side and 3 in along the 5 in side, "
        "grain along its width. Leaves 6 in × 2 in, spoils 6 sq in."
    )
    assert set(drawing.locator("text").all_text_contents()) >= {"6 in", "5 in", "4", "3", "grain"}
    expect(first).to_contain_text("Mark with a marker only.")
    expect(first).to_contain_text("A reminder, not approval: the kit maker’s plans come first.")
    assert "1/4 in too short across the grain." in near(page, "4 × 2.75").replace("\n", " ")
    assert "Thicker: .040, wanted .032." in near(page, ".040, 12 × 8")
    assert "6061-T6, wanted 2024-T3." in near(page, "6061-T6")
    ask(page, "40", "30")
    expect(page.get_by_text("No offcut serves. None of the 5 comes near.")).to_be_visible()
    ask(page, "4", "")
    expect(page.get_by_text("Give this side too.")).to_be_visible()
    ask(page, "4", "x")
    expect(page.get_by_text("“x” cannot be read as a length.")).to_be_visible()
    page.get_by_role("button", name="Ask nothing, show all").click()
    expect(page.get_by_text("5 in all.")).to_be_visible()
    assert phone.stored("outbox") == []


def test_t10_what_is_not_confirmed_is_never_offered_for_structure(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    enter(
        workshop.folder,
        sheet(12, 8, thickness=0.031, measured="over film"),
        sheet(13, 8, grain="unknown"),
        sheet(14, 8, known_by="unknown"),
        sheet(15, 8, alloy=None, temper=None),
        sheet(16, 8, thickness=0.025),
    )
    phone = new_phone()
    page = phone.pair()
    phone.fetched(5)
    page.goto(f"{workshop.url}/offcuts")
    ask(page, "4", "3", thickness=".032", grain="along the height")
    expect(page.get_by_label("For structure")).to_be_checked()
    expect(page.get_by_text("No offcut serves. 5 come near.")).to_be_visible(timeout=SLOW)
    assert "Thickness over film, not confirmed." in near(page, ".031, 12 × 8")
    assert "Grain unknown." in near(page, ".032, 13 × 8")
    assert "No mark seen: never for structure." in near(page, ".032, 14 × 8")
    assert "Metal unknown: never for structure" in near(page, ".032, 15 × 8")
    assert "Thinner: .025, wanted .032." in near(page, ".025, 16 × 8")
    # bare at .025 it is offered as .025, and as nothing else
    ask(page, "4", "3", thickness=".025")
    expect(page.locator(".serves > li")).to_have_count(1)
    expect(page.locator(".serves > li")).to_contain_text("2024-T3 clad .025, 16 × 8")
    # not for structure, the others may serve; only what is wanted of the grain still holds
    page.get_by_label("For structure").uncheck()
    ask(page, "4", "3", thickness=".032")
    expect(page.get_by_text("3 serve. 2 come near.")).to_be_visible()
    expect(page.get_by_text("Thickness over film, not confirmed: measure it bare.")).to_be_visible()
    assert "Grain unknown." in near(page, ".032, 13 × 8")


def test_a_part_asks_for_a_piece_like_it_and_reserves_it(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    (offcut,) = enter(workshop.folder, sheet(12, 8))
    with open_workshop(workshop.folder) as session:
        part = Recorder(session).record(
            "part.added.v1",
            {"name": "Rib 4", "material": "2024-T3 clad", "thickness": inches(0.032, ".032")},
        )
    phone = new_phone()
    page = phone.pair()
    phone.fetched(2)
    page.goto(f"{workshop.url}/offcuts?metal=2024-T3&clad=clad&thickness=.032+in&for={part}")
    expect(page.get_by_text("A piece for Rib 4.")).to_be_visible(timeout=SLOW)
    ask(page, "4", "3")
    page.get_by_role("button", name="Reserve it for Rib 4").click()
    expect(page.get_by_text("It is reserved for Rib 4.")).to_be_visible()
    # to anyone else it is taken, and back finds the question as it was
    page.get_by_role("link", name="2024-T3 clad .032, 12 × 8").click()
    expect(page.get_by_role("region", name="Reserved")).to_contain_text("For Rib 4.")
    page.go_back()
    expect(page.get_by_label("Width, in")).to_have_value("4")
    page.goto(f"{workshop.url}/offcuts?width=4&height=3")
    expect(page.get_by_text("No offcut serves. 1 comes near.")).to_be_visible()
    assert "Reserved for Rib 4." in near(page, "12 × 8")
    assert fetched(phone, offcut, 2)["state"]["reserved"] == {"text": "Rib 4", "part": part}


@pytest.mark.long
def test_a_thousand_offcuts_answer_as_quickly_as_one_types(
    workshop: Workshop, new_phone: NewPhone
) -> None:
    sizes = [(2 + n % 37, 1 + n % 23, (0.025, 0.032, 0.040)[n % 3]) for n in range(1000)]
    enter(workshop.folder, *(sheet(a, b, thickness) for a, b, thickness in sizes))
    phone = new_phone()
    page = phone.pair()
    page.goto(f"{workshop.url}/offcuts")
    expect(page.get_by_text("1000 in all.")).to_be_visible(timeout=60_000)
    ask(page, "4", "3", thickness=".032")
    expect(page.get_by_text(" serve.")).to_be_visible()
    times = sorted(page.evaluate(TYPE_AND_WAIT, text) for text in ("5", "6", "7", "8", "9"))
    # a machine shared with other tests; alone it is far below that
    assert times[2] < 400, times
