"""What a writer had seen decides, not what a clock said."""

from __future__ import annotations

import pytest

from bucktail.events.order import heads, reading_order, saw, standing
from running.story import Story


@pytest.fixture
def story() -> Story:
    """A blank story."""
    return Story()


def ids(facts: list[dict[str, object]]) -> list[object]:
    """The ids of facts."""
    return [fact["id"] for fact in facts]


def test_a_device_has_seen_its_own_earlier_events_and_what_it_had_fetched(story: Story) -> None:
    first = story.step("film")
    own = story.step("film", seen=0)
    blind = story.step("film", by="ben", seen=1)
    assert saw(own, first) and not saw(first, own)
    assert saw(blind, first) and not saw(blind, own) and not saw(own, blind)


def test_nobody_has_seen_what_a_phone_has_not_sent(story: Story) -> None:
    unsent = {**story.step("film"), "pos": None}
    assert not saw(story.step("film", by="ben", seen=99), unsent)


def test_heads_hold_although_the_times_are_the_same_and_the_names_the_wrong_way_round(
    story: Story,
) -> None:
    old = story.step("film", by="zoe", at=0)
    new = story.step("film", by="ann", at=0)
    ordered = sorted(story.facts, key=reading_order)
    assert ids(ordered) == ids([new, old])  # by the name of the device
    assert heads(ordered) == [new]


def test_two_who_had_not_met_are_both_heads_until_a_third_has_seen_both(story: Story) -> None:
    one = story.step("film", by="ann", seen=0)
    two = story.step("film", by="ben", seen=0)
    assert heads(story.facts) == [one, two]
    third = story.step("film", by="ben", seen=2)
    assert heads(story.facts) == [third]


def test_claims_to_have_seen_each_other_in_a_circle_leave_one(story: Story) -> None:
    a, b = story.step("film", by="ann", seen=9), story.step("film", by="ben", seen=9)
    assert saw(a, b) and saw(b, a)
    assert heads(story.facts) == [b]
    assert heads([]) == []


def test_two_events_of_a_device_with_the_same_number_are_as_of_two_who_had_not_met(
    story: Story,
) -> None:
    one = story.step("countersink")
    two = {**story.step("countersink"), "seq": one["seq"]}
    assert heads([one, two]) == [one, two]


class TestTakingBack:
    """Withdrawals, and withdrawals of withdrawals."""

    def test_what_is_taken_back_is_gone_and_so_is_the_taking_back(self, story: Story) -> None:
        gone = story.step("film")
        story.withdraw(gone)
        assert standing(story.facts) == []

    def test_taken_back_twice_and_three_times(self, story: Story) -> None:
        fact = story.step("film")
        first = story.withdraw(fact)
        second = story.withdraw(first)
        assert standing(story.facts) == [fact]
        story.withdraw(second)
        assert standing(story.facts) == []

    def test_at_the_same_moment_by_devices_named_the_wrong_way_round(self, story: Story) -> None:
        fact = story.step("film", by="ann", at=0)
        first = story.withdraw(fact, by="zoe", at=0)
        story.withdraw(first, by="ann", at=0)
        assert standing(story.facts) == [fact]

    def test_by_two_who_had_not_met_counts_once(self, story: Story) -> None:
        fact = story.step("film")
        story.withdraw(fact, by="ann", seen=1)
        second = story.withdraw(fact, by="ben", seen=1)
        story.withdraw(second, by="ben")
        assert standing(story.facts) == []

    def test_whatever_arrives_first(self, story: Story) -> None:
        fact = story.step("film")
        first = story.withdraw(fact)
        second = story.withdraw(first)
        first["pos"], second["pos"], fact["pos"] = 3, 1, 2
        assert standing(story.facts) == [fact]

    def test_many_times(self, story: Story) -> None:
        last = fact = story.step("film")
        for times in range(1, 61):
            last = story.withdraw(last)
            assert standing(story.facts) == ([] if times % 2 else [fact])

    def test_of_what_is_not_there_changes_nothing(self, story: Story) -> None:
        story.withdraw({"id": "elsewhere"})
        fact = story.step("film")
        assert standing(story.facts) == [fact]

    def test_of_itself_or_in_a_circle_is_survived(self, story: Story) -> None:
        fact = story.step("film")
        own = story.tell("event.withdrawn.v1", {"event": fact["id"]})
        own["body"]["event"] = own["id"]
        a = story.withdraw(fact)
        b = story.withdraw(a)
        a["body"]["event"] = b["id"]
        assert standing(story.facts) == [fact]

    def test_without_a_body_takes_nothing_back(self, story: Story) -> None:
        fact = story.step("film")
        del story.withdraw(fact)["body"]
        assert standing(story.facts) == [fact]
