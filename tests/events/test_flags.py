"""What a person should look at. A fact out of order is kept and flagged, never refused."""

from __future__ import annotations

import pytest

from running.bodies import uuid_of
from running.story import HOUR, Story

SKIN, RIB = uuid_of(0xD1), uuid_of(0xD2)


@pytest.fixture
def story() -> Story:
    """A blank story."""
    return Story()


def needs(story: Story) -> list[tuple[str, str]]:
    """(key, what should have come first) of everything out of order."""
    flags = story.state["flags"]
    return [(one["key"], one["needs"]) for one in flags if one["flag"] == "out of order"]


class TestOutOfOrder:
    """Only where the steps ask for what comes first."""

    def test_what_should_have_come_first_was_never_done(self, story: Story) -> None:
        story.part(ops={"deburr": "do", "dimple": "do"})
        story.step("dimple")
        assert needs(story) == [("dimple", "deburr")]

    def test_it_came_after(self, story: Story) -> None:
        story.part(ops={"deburr": "do", "dimple": "do"})
        story.step("dimple", "some")
        story.step("deburr")
        assert needs(story) == [("dimple", "deburr")]

    def test_it_came_first(self, story: Story) -> None:
        story.part(ops={"film": "do", "deburr": "do", "dimple": "do"})
        for op in ("film", "deburr", "dimple"):
            story.step(op)
        assert needs(story) == []

    def test_it_is_not_asked_for(self, story: Story) -> None:
        story.part(ops={"deburr": "not", "dimple": "do"})
        story.step("dimple")
        assert needs(story) == []

    def test_it_is_not_finished_although_this_is(self, story: Story) -> None:
        story.part(ops={"deburr": "do", "dimple": "do"})
        story.step("deburr", "some")
        story.step("dimple", "some")
        assert needs(story) == []
        story.step("dimple")
        assert needs(story) == [("dimple", "deburr")]

    def test_each_face_waits_for_its_own_film(self, story: Story) -> None:
        story.part(ops={"film": "do", "clean": "do"})
        story.step("film", sides=["inside"])
        story.step("clean", sides=["inside"])
        assert needs(story) == []
        story.step("clean", sides=["outside"])
        assert needs(story) == [("clean:outside", "film")]

    def test_each_layer_waits_for_itself(self, story: Story) -> None:
        story.line((SKIN, "dimple"), (RIB, "dimple"))
        story.step("deburr", layer=SKIN)
        story.step("dimple", layer=SKIN)
        assert needs(story) == []
        story.step("dimple", layer=RIB)
        assert needs(story) == [(f"dimple:{RIB}", "deburr")]

    def test_the_line_waits_for_all_its_layers(self, story: Story) -> None:
        story.line((SKIN, "plain"), (RIB, "plain"))
        story.step("deburr", layer=SKIN)
        story.step("rivet")
        assert needs(story) == [("rivet", "deburr")]

    def test_nothing_done_is_not_out_of_order(self, story: Story) -> None:
        story.part(ops={"deburr": "do", "dimple": "do"})
        story.step("dimple", "none")
        assert needs(story) == []


class TestKeepBare:
    """A face that must stay bare."""

    def test_primed_all_the_same(self, story: Story) -> None:
        story.part(ops={"prime": "bare"})
        story.step("prime", sides=["inside"])
        assert story.flags("keep bare") == ["prime:inside"]
        assert story.mark("prime:inside")["is"] == "bare"

    def test_said_to_be_not_primed(self, story: Story) -> None:
        story.part(ops={"prime": "bare"})
        story.step("prime", "none")
        assert story.flags("keep bare") == []

    def test_one_of_two_who_had_not_met_says_so(self, story: Story) -> None:
        story.part(ops={"prime": "bare"})
        story.step("prime", "none", by="ann", seen=2)
        story.step("prime", by="ben", seen=2)
        assert story.flags("keep bare") == ["prime:inside", "prime:outside"]


class TestCleanWindow:
    """Primed within the window after cleaning, or flagged."""

    @pytest.mark.parametrize(("hours", "lapsed"), [(7, False), (8, False), (9, True)])
    def test_hours_between(self, story: Story, hours: int, lapsed: bool) -> None:
        story.part(ops={"clean": "do", "prime": "do"}, window_h=8)
        story.step("clean", at=HOUR)
        story.step("prime", at=HOUR * (hours + 1))
        assert bool(story.flags("clean lapsed")) is lapsed

    @pytest.mark.parametrize("window", [None, 0])
    def test_no_window(self, story: Story, window: int | None) -> None:
        story.part(ops={"clean": "do", "prime": "do"}, window_h=window)
        story.step("clean", at=HOUR)
        story.step("prime", at=HOUR * 99)
        assert story.flags("clean lapsed") == []

    def test_one_face_cleaned_again_in_time(self, story: Story) -> None:
        story.part(ops={"clean": "do", "prime": "do"}, window_h=8)
        story.step("clean", at=HOUR)
        story.step("clean", sides=["inside"], at=HOUR * 18)
        story.step("prime", at=HOUR * 20)
        assert story.flags("clean lapsed") == ["prime:outside"]

    def test_never_cleaned_is_out_of_order_and_not_lapsed(self, story: Story) -> None:
        story.part(ops={"clean": "do", "prime": "do"}, window_h=8)
        story.step("prime", at=HOUR * 20)
        assert story.flags("clean lapsed") == []
        assert needs(story) == [("prime:inside", "clean"), ("prime:outside", "clean")]


def test_formed_after_drilling_asks_for_the_hole_match(story: Story) -> None:
    story.part(ops={"form": "do", "drill": "do"})
    story.step("form")
    story.step("drill")
    assert story.flags("check hole match") == []
    story.step("form")
    assert story.flags("check hole match") == ["form"]
    story.step("drill")
    assert story.flags("check hole match") == []
