"""What comes of the bench sums: pieces wanted, segments of rivet lines, sums kept with a thing."""

from __future__ import annotations

from typing import Any

import pytest

from bucktail.events.fold import MOST_SUMS
from running.bodies import uuid_of
from running.story import Story

SKIN, RIB, SHIM = uuid_of(0xD1), uuid_of(0xD2), uuid_of(0xD3)
PIECE: dict[str, Any] = {
    "what": "shim",
    "name": "Shim under rib 4",
    "clad": "bare",
    "thickness": {"nm": 812_800, "text": ".032"},
    "a": {"nm": 50_800_000, "text": "2"},
    "b": {"nm": 19_050_000, "text": "3/4"},
    "grain": "any",
    "count": 1,
}
SUM: dict[str, Any] = {
    "sum": "edge",
    "inputs": {"left": "3/16", "hole": "1/8"},
    "unit": "in",
    "rulebook": "0123456789ab",
    "answer": {"verdict": "fails", "left_d": "1.5"},
}


def segment(dash: int | None, was: int | None, confirmed: bool) -> dict[str, Any]:
    """Twelve holes with one stack."""
    return {
        "name": "over the shim",
        "count": 12,
        "layers": [{"part": SKIN, "treat": "dimple"}, {"part": SHIM, "treat": "plain"}],
        "fastener": {"kind": "rivet", "text": "MS20426AD3"},
        "dash": dash,
        "was_dash": was,
        "confirmed": confirmed,
    }


LONGER, SAME = segment(8, 7, False), segment(7, 7, True)


@pytest.fixture
def story() -> Story:
    """A blank story."""
    return Story()


class TestPieceWanted:
    """It is wanted until it is met, and again when it is not."""

    def test_it_is_described_like_any_other_thing(self, story: Story) -> None:
        story.tell("piece.wanted.v1", PIECE)
        assert story.state["sort"] == "wanted"
        assert "met" not in story.state
        story.tell("piece.described.v1", {"count": 3, "why": None})
        assert (story.state["count"], story.state["name"]) == (3, PIECE["name"])

    def test_met_and_wanted_again(self, story: Story) -> None:
        story.tell("piece.wanted.v1", PIECE)
        met = story.tell("piece.met.v1", {"part": SHIM})
        assert story.state["met"] == SHIM
        story.tell("piece.met.v1", {"part": None})
        assert story.state["met"] is None
        story.withdraw(story.facts[-1])
        assert story.state["met"] == SHIM
        story.withdraw(met)
        assert "met" not in story.state

    def test_two_who_had_not_met_made_it_each(self, story: Story) -> None:
        story.tell("piece.wanted.v1", PIECE)
        story.tell("piece.met.v1", {"part": SHIM}, by="ann")
        story.tell("piece.met.v1", {"part": RIB}, by="ben", seen=1)
        (answer,) = story.state["answers"]
        assert answer["about"] == "met"
        assert [one["value"] for one in answer["values"]] == [SHIM, RIB]
        assert story.state["met"] == SHIM

    def test_it_can_be_an_entry_by_mistake(self, story: Story) -> None:
        story.tell("piece.wanted.v1", PIECE)
        story.tell("thing.retired.v1", {"why": "entered by mistake"})
        assert story.state["retired"]["why"] == "entered by mistake"


class TestSegments:
    """Rivets whose length changed wait until someone confirms it."""

    @pytest.fixture(autouse=True)
    def line(self, story: Story) -> None:
        """A line of two layers."""
        story.line((SKIN, "dimple"), (RIB, "plain"))

    def test_a_line_of_one_stack_has_none(self, story: Story) -> None:
        assert "segments" not in story.state
        assert story.state["unconfirmed"] == 0
        assert story.flags() == []

    def test_they_wait_until_all_are_confirmed(self, story: Story) -> None:
        told = story.tell("line.segments.v1", {"segments": [LONGER, LONGER, SAME]})
        assert story.state["segments"] == [LONGER, LONGER, SAME]
        assert story.state["unconfirmed"] == 2
        (flag,) = story.state["flags"]
        assert flag == {
            "flag": "rivet length not confirmed",
            "key": "rivet",
            "event": told["id"],
        }
        story.tell("line.segments.v1", {"segments": [segment(8, 7, True), SAME]})
        assert story.state["unconfirmed"] == 0
        assert story.flags() == []

    @pytest.mark.parametrize("result", ["all", "some"])
    def test_riveting_meanwhile_is_kept_and_named_until_it_is_recorded_again(
        self, story: Story, result: str
    ) -> None:
        for op in ("deburr", "dimple"):
            story.step(op)
        story.tell("line.segments.v1", {"segments": [LONGER]})
        rivet = story.step("rivet", result)
        assert story.mark("rivet")["event"] == rivet["id"]
        assert story.flags("rivet length not confirmed") == ["rivet"]
        assert story.flags("riveted before confirmed") == ["rivet"]
        story.tell("line.segments.v1", {"segments": [segment(8, 7, True)]})
        assert story.flags() == ["rivet"]
        story.step("rivet", result)
        assert story.flags() == []

    def test_riveting_before_the_stack_changed_is_not_named(self, story: Story) -> None:
        for op in ("deburr", "dimple", "rivet"):
            story.step(op)
        story.tell("line.segments.v1", {"segments": [LONGER]})
        assert story.flags() == ["rivet"]
        assert story.flags("riveted before confirmed") == []

    def test_none_riveted_is_not_named(self, story: Story) -> None:
        story.tell("line.segments.v1", {"segments": [LONGER]})
        story.step("rivet", "none")
        assert story.flags("riveted before confirmed") == []

    def test_two_who_had_not_met_changed_it_differently(self, story: Story) -> None:
        story.tell("line.segments.v1", {"segments": [LONGER]}, by="ann")
        story.tell("line.segments.v1", {"segments": [SAME]}, by="ben", seen=1)
        assert [one["about"] for one in story.state["answers"]] == ["segments"]
        assert story.state["unconfirmed"] == 1

    def test_a_layer_that_came_in_is_worked_on_like_the_others(self, story: Story) -> None:
        assert list(story.state["strips"]) == [SKIN, RIB]
        told = story.tell("line.segments.v1", {"segments": [LONGER]})
        assert list(story.state["strips"]) == [SKIN, RIB, SHIM]
        assert story.mark(f"deburr:{SHIM}:inside")["want"] == "do"
        assert story.mark(f"dimple:{SHIM}")["is"] == "not"
        story.withdraw(told)
        assert list(story.state["strips"]) == [SKIN, RIB]

    def test_taken_back_there_are_none(self, story: Story) -> None:
        story.withdraw(story.tell("line.segments.v1", {"segments": [LONGER]}))
        assert "segments" not in story.state
        assert story.state["unconfirmed"] == 0


class TestSums:
    """A sum stays with what it was reckoned for."""

    def test_it_stands_with_who_and_when(self, story: Story) -> None:
        story.part()
        assert "sums" not in story.state
        told = story.tell("sum.kept.v1", {**SUM, "note": "left of hole 3"})
        (kept,) = story.state["sums"]
        assert kept == {
            **SUM,
            "note": "left of hole 3",
            "verdict": "fails",
            "event": told["id"],
            "at": told["at"],
            "by": "ann",
        }

    def test_what_the_workshops_computer_reckons_stands_beside_it(self, story: Story) -> None:
        judged = {"rulebook": "ba9876543210", "answer": {"verdict": "check"}}
        story.part()
        story.tell("sum.kept.v1", SUM, judged=judged)
        (kept,) = story.state["sums"]
        assert (kept["answer"], kept["judged"]) == (SUM["answer"], judged)

    def test_the_latest_fifty_without_what_was_taken_back(self, story: Story) -> None:
        story.part()
        told = [story.tell("sum.kept.v1", SUM) for _ in range(MOST_SUMS + 2)]
        story.withdraw(told[-1])
        kept = [one["event"] for one in story.state["sums"]]
        assert kept == [fact["id"] for fact in told[1:-1]]

    def test_without_a_verdict_there_is_none(self, story: Story) -> None:
        story.part()
        story.tell("sum.kept.v1", {**SUM, "answer": {}})
        assert "verdict" not in story.state["sums"][0]
