"""Moments at the bench that the record has to get right."""

from __future__ import annotations

import pytest

from bucktail.events.strip import is_ready, join_strips, look_at, next_operation
from bucktail.parts.operations import operations
from running.bodies import uuid_of
from running.story import Story

SKIN, RIB = uuid_of(0xF1), uuid_of(0xF2)
COUNTERSINK = [row.op for row in operations()].index("countersink")


@pytest.fixture
def story() -> Story:
    """A blank story."""
    return Story()


class TestUndecidable:
    """T1: two phones leave "countersunk?" undecidable."""

    def two_phones(self, story: Story) -> int:
        """Deburred; then one phone says countersunk, the other, out of reach, says it is not."""
        story.line((SKIN, "countersink"), (RIB, "plain"))
        story.step("deburr")
        seen = len(story.facts)
        story.step("countersink", layer=SKIN, by="ann", seen=seen)
        story.step("countersink", "none", layer=SKIN, by="ben", seen=seen)
        return seen

    def test_the_line_says_look_at_the_part(self, story: Story) -> None:
        self.two_phones(story)
        strip = story.state["strips"][SKIN]
        assert strip[COUNTERSINK] == "l"
        assert look_at(strip) == "countersink"
        assert story.flags("two records") == [f"countersink:{SKIN}"]

    def test_it_is_absent_from_ready_to_countersink_and_nothing_later_is_offered(
        self, story: Story
    ) -> None:
        self.two_phones(story)
        strip = story.state["strips"][SKIN]
        assert not is_ready(strip, "countersink")
        assert not is_ready(strip, "rivet")
        assert next_operation(strip) == ""

    def test_it_counts_as_not_done_for_the_part_too(self, story: Story) -> None:
        self.two_phones(story)
        own = "dd-------t-"
        joined = join_strips([own, story.state["strips"][SKIN]])
        assert joined[COUNTERSINK] == "l"
        assert next_operation(joined) == ""

    def test_the_other_layer_is_in_no_doubt(self, story: Story) -> None:
        self.two_phones(story)
        assert look_at(story.state["strips"][RIB]) == ""

    @pytest.mark.parametrize("first", ["ann", "ben"])
    def test_whichever_phone_is_in_reach_first(self, story: Story, first: str) -> None:
        seen = self.two_phones(story)
        if first == "ben":
            one, two = story.facts[seen:]
            one["pos"], two["pos"] = two["pos"], one["pos"]
        assert story.state["strips"][SKIN][COUNTERSINK] == "l"

    @pytest.mark.parametrize("result", ["all", "none"])
    def test_whoever_holds_the_part_answers_it(self, story: Story, result: str) -> None:
        self.two_phones(story)
        story.step("countersink", result, layer=SKIN, by="ben", looked=True)
        strip = story.state["strips"][SKIN]
        assert strip[COUNTERSINK] == ("d" if result == "all" else "t")
        assert next_operation(strip) == ("rivet" if result == "all" else "countersink")
        assert story.flags() == []

    def test_both_said_countersunk_may_be_countersunk_twice(self, story: Story) -> None:
        story.part(ops={"countersink": "do", "rivet": "do"})
        story.step("countersink", by="ann", seen=2)
        story.step("countersink", by="ben", seen=2)
        assert story.state["strip"][COUNTERSINK] == "l"
        assert story.state["next"] == ""


class TestKeptBare:
    """T2: a part that stays bare, primed all the same."""

    def test_the_record_keeps_the_step_and_flags_it(self, story: Story) -> None:
        story.part(ops={"clean": "do", "prime": "bare"})
        story.step("clean")
        primed = story.step("prime")
        flags = [flag for flag in story.state["flags"] if flag["flag"] == "keep bare"]
        assert [(flag["key"], flag["event"]) for flag in flags] == [
            ("prime:inside", primed["id"]),
            ("prime:outside", primed["id"]),
        ]
        assert story.state["strip"][-2] == "b"
        assert primed in story.facts

    def test_taken_back_there_is_no_flag(self, story: Story) -> None:
        story.part(ops={"prime": "bare"})
        story.withdraw(story.step("prime"))
        assert story.flags() == []


class TestLeftOpen:
    """T3: "riveted all" on 164 with 16 left open."""

    OPEN = ({"n": 12, "fills": "nut plates"}, {"n": 4, "fills": "the wing root fairing"})

    def test_records_148_of_164_and_names_what_fills_the_16(self, story: Story) -> None:
        story.line((SKIN, "plain"), (RIB, "plain"), open=list(self.OPEN))
        story.step("deburr")
        riveted = story.step("rivet", open=list(self.OPEN))
        mark = story.mark("rivet")
        assert (mark["is"], mark["done"], mark["of"], mark["open"]) == ("done", 148, 164, 16)
        assert mark["event"] == riveted["id"]
        assert riveted["body"]["open"] == list(self.OPEN)
        assert story.state["line"]["open"] == list(self.OPEN)

    def test_filling_them_leaves_none_open(self, story: Story) -> None:
        story.line((SKIN, "plain"))
        story.step("rivet", open=list(self.OPEN))
        story.step("rivet")
        mark = story.mark("rivet")
        assert (mark["done"], mark["open"]) == (164, 0)

    def test_more_left_open_than_there_are_is_none_done(self, story: Story) -> None:
        story.line((SKIN, "plain"), count=10)
        story.step("rivet", open=list(self.OPEN))
        assert story.mark("rivet")["done"] == 0
