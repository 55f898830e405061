"""The state of a thing from its facts: plain fields, pieces, tags, and what holds for any facts."""

from __future__ import annotations

import json
from random import Random
from typing import Any

import pytest

from bucktail.events.envelope import canonical
from bucktail.events.fold import codes_of, fold
from bucktail.events.order import Fact
from running.bodies import uuid_of
from running.histories import card_of, histories
from running.story import Story

BOX, SHELF = uuid_of(0xE1), uuid_of(0xE2)
CODE, OTHER = "ABCDEFGH12", "ABCDEFGH34"


@pytest.fixture
def story() -> Story:
    """A part."""
    told = Story()
    told.tell("part.added.v1", {"name": "Clip", "pieces": 12})
    return told


class TestFields:
    """A value stands until someone who had seen it writes another."""

    def test_what_is_not_mentioned_stays(self, story: Story) -> None:
        story.tell("part.described.v1", {"note": "bent"})
        state = story.state
        assert (state["name"], state["note"]) == ("Clip", "bent")

    def test_two_who_had_not_met_give_two_answers_and_the_first_to_arrive_is_shown(
        self, story: Story
    ) -> None:
        # the second to arrive says it was written long before
        one = story.tell("part.described.v1", {"name": "Clip 1"}, by="ben", seen=1, at=9_000)
        two = story.tell("part.described.v1", {"name": "Clip 2"}, by="cat", seen=1, at=100)
        state = story.state
        assert state["name"] == "Clip 1"
        (answer,) = state["answers"]
        assert answer["about"] == "name"
        assert [(value["event"], value["value"]) for value in answer["values"]] == [
            (one["id"], "Clip 1"),
            (two["id"], "Clip 2"),
        ]

    def test_writing_again_settles_it(self, story: Story) -> None:
        for who in ("ben", "cat"):
            story.tell("part.described.v1", {"name": who}, by=who, seen=1)
        story.tell("part.described.v1", {"name": "cat"}, by="dan")
        assert story.state["answers"] == []
        assert story.state["name"] == "cat"

    def test_an_outline_says_which_event_it_came_with_and_a_rectangle_does_not(self) -> None:
        rectangle, outline = {"kind": "rectangle"}, {"kind": "outline", "outer": []}
        story = Story()
        first = story.tell("offcut.added.v1", {"shape": outline, "note": "bent"})
        assert story.state["shape_from"] == first["id"]
        story.tell("offcut.described.v1", {"note": "flat again"})
        assert story.state["shape_from"] == first["id"]
        seen = story.tell("offcut.described.v1", {"shape": {**outline, "outer": [1]}})
        assert story.state["shape_from"] == seen["id"]
        story.tell("offcut.described.v1", {"shape": rectangle})
        assert "shape_from" not in story.state

    def test_the_same_answer_twice_is_one(self, story: Story) -> None:
        for who in ("ben", "cat"):
            value = {"nm": 812_800, "text": ".032"}
            story.tell("part.described.v1", {"thickness": value}, by=who, seen=1)
        assert story.state["answers"] == []

    def test_what_a_phone_has_not_sent_gives_way_to_what_arrived(self, story: Story) -> None:
        unsent = story.tell("part.described.v1", {"name": "mine"}, by="ben", seen=1)
        unsent["pos"] = None
        story.tell("part.described.v1", {"name": "theirs"}, by="cat", seen=1)
        assert story.state["name"] == "theirs"

    def test_at_the_same_moment_what_had_seen_the_other_stands(self, story: Story) -> None:
        story.tell("part.described.v1", {"name": "old"}, by="zoe", at=5)
        story.tell("part.described.v1", {"name": "new"}, by="ann", at=5)
        assert story.state["name"] == "new"
        assert story.state["answers"] == []

    def test_a_reservation_that_came_second_is_kept_beside_the_first(self, story: Story) -> None:
        for who in ("ben", "cat"):
            story.tell("offcut.reserved.v1", {"text": who}, by=who, seen=1)
        state = story.state
        assert state["reserved"] == {"text": "ben"}
        assert [one["about"] for one in state["answers"]] == ["reserved"]


class TestPieces:
    """A bag of like parts."""

    def split(self, story: Story, pieces: int, **rest: Any) -> Fact:
        into = [{"id": uuid_of(0xE9), "pieces": pieces}]
        return story.tell("part.split.v1", {"into": into}, **rest)

    def test_what_was_taken_out_is_less(self, story: Story) -> None:
        self.split(story, 3)
        self.split(story, 1)
        assert story.state["pieces"] == 8

    def test_a_count_by_someone_who_knew_of_it_includes_it(self, story: Story) -> None:
        self.split(story, 3)
        story.tell("part.described.v1", {"pieces": 9})
        assert story.state["pieces"] == 9
        self.split(story, 1)
        assert story.state["pieces"] == 8

    def test_a_count_by_someone_who_did_not_know_does_not(self, story: Story) -> None:
        self.split(story, 3, by="ben", seen=1)
        story.tell("part.described.v1", {"pieces": 11}, by="cat", seen=1)
        assert story.state["pieces"] == 8

    def test_more_than_there_was_is_flagged_and_never_less_than_none(self, story: Story) -> None:
        self.split(story, 8, by="ben", seen=1)
        assert story.flags("more taken out") == []
        self.split(story, 8, by="cat", seen=1)
        assert story.state["pieces"] == 0
        assert story.flags("more taken out") == ["pieces"]

    def test_taken_back_they_are_in_it_again(self, story: Story) -> None:
        story.withdraw(self.split(story, 3))
        assert story.state["pieces"] == 12


class TestTags:
    """The codes a thing answers to."""

    def attach(self, story: Story, on: str = "film", **rest: Any) -> Fact:
        return story.tell("tag.attached.v1", {"code": CODE, "on": on}, **rest)

    def settle(self, story: Story, holds: bool) -> Fact:
        return story.tell("answer.settled.v1", {"code": CODE, "holds": holds})

    def test_attached_and_replaced(self, story: Story) -> None:
        self.attach(story)
        story.tell("tag.replaced.v1", {"old": CODE, "new": OTHER})
        story.tell("tag.attached.v1", {"code": OTHER, "on": "metal"})
        assert story.state["tags"] == [
            {"code": CODE, "on": "film", "old": True},
            {"code": OTHER, "on": "metal", "old": False},
        ]
        assert codes_of(story.facts) == {CODE, OTHER}

    def test_a_claim_that_lost_is_an_open_answer(self, story: Story) -> None:
        lost = self.attach(story, lost=BOX)
        state = story.state
        assert state["tags"] == []
        assert state["answers"] == [
            {
                "about": "tag",
                "code": CODE,
                "values": [{"event": lost["id"], "by": "ann", "value": BOX}],
            }
        ]
        assert codes_of(story.facts) == set()

    @pytest.mark.parametrize("holds", [True, False])
    def test_settled(self, story: Story, holds: bool) -> None:
        self.attach(story, on="tied", lost=BOX)
        self.settle(story, holds)
        tags = [{"code": CODE, "on": "tied", "old": False}] if holds else []
        assert story.state["tags"] == tags
        assert story.state["answers"] == []

    def test_attached_again_once_it_is_free(self, story: Story) -> None:
        self.attach(story, lost=BOX)
        self.attach(story)
        assert story.state["answers"] == []
        assert len(story.state["tags"]) == 1

    def test_given_up(self, story: Story) -> None:
        self.attach(story)
        self.settle(story, False)
        assert story.state["tags"] == []


class TestHappenings:
    """What happened is always accepted; the latest stands."""

    def test_moves(self, story: Story) -> None:
        assert story.state["place"] is None
        story.tell("thing.moved.v1", {"to": BOX}, by="ben", seen=1, at=9_000)
        story.tell("thing.moved.v1", {"to": SHELF}, by="cat", seen=1, at=4_000)
        assert story.state["place"] == BOX
        story.tell("thing.moved.v1", {"to": None}, at=10_000)
        assert story.state["place"] is None

    def test_retired_and_taken_back(self, story: Story) -> None:
        gone = story.tell("thing.retired.v1", {"why": "scrapped"})
        assert story.state["retired"]["why"] == "scrapped"
        story.withdraw(gone)
        assert story.state["retired"] is None

    def test_photos(self, story: Story) -> None:
        for digest in ("a", "b", "a"):
            story.tell("photo.attached.v1", {"photo": digest, "size": 1})
        assert [photo["photo"] for photo in story.state["photos"]] == ["a", "b"]
        story.tell("photo.removed.v1", {"photo": "a"})
        assert [photo["photo"] for photo in story.state["photos"]] == ["b"]

    def test_an_unknown_kind_changes_nothing(self, story: Story) -> None:
        before = story.state
        fact = story.tell("newer.kind.v1", {})
        del fact["body"]
        assert story.state == before


def test_the_order_in_which_facts_arrive_changes_nothing() -> None:
    draw = Random(7)
    for history in histories(10_000, 300):
        card = card_of(history.subject, history.facts)
        for _ in range(3):
            shuffled = draw.sample(history.facts, len(history.facts))
            assert card_of(history.subject, shuffled) == card


def test_taking_any_fact_back_and_that_back_again_changes_nothing() -> None:
    draw = Random(8)
    for history in histories(10_000, 300):
        before = fold(history.facts)
        told = Story()
        told.facts = [dict(fact) for fact in history.facts if fact["pos"] is not None]
        if not told.facts:
            continue
        before = fold(told.facts)
        late = max(fact["at"] for fact in told.facts) - 1_790_000_000_000
        taken = draw.choice(told.facts)
        first = told.withdraw(taken, by="zoe", at=late)
        told.withdraw(first, by="amy", at=late)
        assert canonical(fold(told.facts)) == canonical(before)


def test_the_facts_are_left_as_they_were() -> None:
    for history in histories(10_000, 100):
        before = json.dumps(history.facts)
        fold(history.facts)
        assert json.dumps(history.facts) == before


def test_a_state_is_whole_numbers_and_text_only() -> None:
    for history in histories(10_000, 300):
        canonical(fold(history.facts))
