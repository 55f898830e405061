"""Cutting is always believed; two who cut the same metal unseen by each other are both named."""

from __future__ import annotations

from typing import Any

import pytest

from running.bodies import uuid_of
from running.sheetstock import inches, sheet
from running.story import START, Story

REST, OTHER_REST, CLIP = uuid_of(0xE1), uuid_of(0xE2), uuid_of(0xE3)


def cut(*remnants: str, name: str = "Clip", part: str | None = None) -> dict[str, Any]:
    """The body of offcut.cut."""
    corners = [[0, 0], [25_400_000, 0], [25_400_000, 25_400_000], [0, 25_400_000]]
    return {
        "made": [{"part": part, "name": name, "outline": corners}],
        "remnants": list(remnants),
        "kerf_nm": 0,
        "dust_um2": 0,
    }


@pytest.fixture
def story() -> Story:
    """One offcut, entered."""
    told = Story()
    told.tell("offcut.added.v1", sheet(12, 8))
    return told


def test_an_offcut_that_was_not_cut_says_nothing_of_it(story: Story) -> None:
    assert not {"cut", "flags", "sized_at"} & set(story.state)


def test_a_cut_says_what_was_made_and_what_is_left(story: Story) -> None:
    fact = story.tell("offcut.cut.v1", cut(REST, part=CLIP))
    assert story.state["cut"] == [
        {
            "event": fact["id"],
            "at": fact["at"],
            "by": "ann",
            "made": [{"part": CLIP, "name": "Clip"}],
            "remnants": [REST],
        }
    ]
    assert "flags" not in story.state


def test_taking_the_cut_back_brings_the_offcut_back(story: Story) -> None:
    story.withdraw(story.tell("offcut.cut.v1", cut(REST)))
    assert "cut" not in story.state


def test_two_cuts_that_had_not_met_are_both_shown_and_flagged(story: Story) -> None:
    first = story.tell("offcut.cut.v1", cut(REST), by="ann", seen=1)
    second = story.tell("offcut.cut.v1", cut(OTHER_REST), by="ben", seen=1)
    assert [one["remnants"] for one in story.state["cut"]] == [[REST], [OTHER_REST]]
    assert story.flags() == ["cut"]
    story.withdraw(second)
    assert [one["event"] for one in story.state["cut"]] == [first["id"]]
    assert "flags" not in story.state


def test_a_second_cut_by_someone_who_knew_of_the_first_is_no_doubt(story: Story) -> None:
    story.tell("offcut.cut.v1", cut(REST), by="ann")
    story.tell("offcut.cut.v1", cut(), by="ben")
    assert len(story.state["cut"]) == 2
    assert "flags" not in story.state


def test_a_cut_by_one_size_while_another_measured_it_anew_is_flagged(story: Story) -> None:
    shape = {"kind": "rectangle", "a": inches(11), "b": inches(8)}
    story.tell("offcut.described.v1", {"shape": shape}, by="ben", seen=1)
    story.tell("offcut.cut.v1", cut(REST), by="ann", seen=1)
    assert story.flags("cut by another size") == ["shape"]
    assert story.state["sized_at"] == START + 2000


def test_sizes_told_before_the_cut_or_after_it_are_no_doubt(story: Story) -> None:
    shape = {"kind": "rectangle", "a": inches(11), "b": inches(8)}
    story.tell("offcut.described.v1", {"shape": shape}, by="ben")
    story.tell("offcut.cut.v1", cut(REST), by="ann")
    story.tell("offcut.described.v1", {"note": "dent"}, by="ben", seen=1)
    story.tell("offcut.described.v1", {"shape": shape}, by="ben")
    assert "flags" not in story.state


def test_a_remnant_names_the_offcut_that_it_came_from() -> None:
    told = Story()
    told.tell("offcut.added.v1", sheet(8, 4, parent=REST))
    assert told.state["parent"] == REST


def test_a_cut_told_of_something_else_changes_nothing() -> None:
    told = Story()
    told.tell("place.added.v1", {"name": "Rack"})
    told.tell("offcut.cut.v1", cut(REST))
    assert "cut" not in told.state
