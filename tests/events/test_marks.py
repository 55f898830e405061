"""How far each operation is. Order, undoing and what is harmful to repeat: parts/operations.csv."""

from __future__ import annotations

from typing import Any

import pytest

from running.bodies import uuid_of
from running.story import HOUR, Story

SKIN, RIB = uuid_of(0xD1), uuid_of(0xD2)
ALL = dict.fromkeys(("film", "edges", "deburr", "countersink", "clean", "prime", "rivet"), "do")


@pytest.fixture
def story() -> Story:
    """A blank story."""
    return Story()


def words(story: Story, op: str) -> set[str]:
    """How the targets of an operation stand."""
    marks = story.state["marks"].items()
    return {mark["is"] for key, mark in marks if key.split(":")[0] == op}


class TestWanted:
    """What the steps ask of a part, and how a line treats its layers."""

    def test_an_operation_and_one_face_of_it(self, story: Story) -> None:
        story.part(ops={"prime": "do", "prime:outside": "bare", "film": "not"})
        assert story.mark("prime:inside")["is"] == "todo"
        assert story.mark("prime:outside")["is"] == "bare"
        assert words(story, "film") == {"not"}

    def test_a_part_without_holes_needs_nothing_done_to_them(self, story: Story) -> None:
        story.part(ops={**ALL, "deburr:inside": "do"}, holes={"count": 0, "supplied": "final"})
        for op in ("fit", "drill", "deburr", "countersink", "rivet"):
            assert words(story, op) == {"not"}
        assert words(story, "prime") == {"todo"}

    def test_holes_that_came_final_are_not_drilled(self, story: Story) -> None:
        story.part(ops={"drill": "do", "deburr": "do"})
        assert words(story, "drill") == {"not"}
        assert words(story, "deburr") == {"todo"}

    def test_the_latest_steps_judge_what_was_recorded_before(self, story: Story) -> None:
        story.part(ops={"deburr": "not"})
        story.step("deburr")
        assert words(story, "deburr") == {"done"}
        story.tell("steps.set.v1", {**story.facts[1]["body"], "ops": {"deburr": "do"}})
        assert words(story, "deburr") == {"done"}
        assert story.state["next"] == ""

    def test_a_part_that_is_folded_round_is_two_layers(self, story: Story) -> None:
        story.line((SKIN, "dimple"), (SKIN, "plain"))
        assert story.mark(f"dimple:{SKIN}")["want"] == "do"


class TestRecorded:
    """A record is absolute: the last one that had seen the others counts."""

    def test_all_some_none(self, story: Story) -> None:
        story.part(ops=ALL)
        assert story.mark("countersink") == {
            "want": "do",
            "is": "todo",
            "done": None,
            "of": 20,
            "open": 0,
        }
        story.step("countersink", "some", done=8)
        mark = story.mark("countersink")
        assert (mark["is"], mark["done"], mark["of"]) == ("part", 8, 20)
        story.step("countersink")
        assert story.mark("countersink")["done"] == 20
        story.step("countersink", "none")
        mark = story.mark("countersink")
        assert (mark["is"], mark["done"], mark["doubt"]) == ("todo", 0, False)

    def test_one_side_of_two(self, story: Story) -> None:
        story.part(ops=ALL)
        story.step("film", sides=["inside"])
        assert story.mark("film:inside")["is"] == "done"
        assert story.mark("film:outside")["is"] == "todo"
        assert story.state["strip"][1] == "p"

    def test_a_count_that_came_later_fills_in(self, story: Story) -> None:
        story.part(ops=ALL, holes={"count": None, "supplied": "final"})
        story.step("deburr")
        assert story.mark("deburr:inside")["done"] is None
        story.tell(
            "steps.set.v1", {**story.facts[1]["body"], "holes": {"count": 9, "supplied": "final"}}
        )
        assert story.mark("deburr:inside")["done"] == 9

    def test_a_bag_counts_its_pieces(self, story: Story) -> None:
        story.part(ops=ALL)
        story.tell("part.described.v1", {"pieces": 12})
        assert story.mark("edges")["of"] == 12
        assert story.mark("deburr:inside")["of"] == 20

    def test_taken_back_it_is_as_before(self, story: Story) -> None:
        story.part(ops=ALL)
        story.step("deburr", "some", done=3)
        before = story.state
        wrong = story.step("deburr")
        back = story.withdraw(wrong)
        assert {**story.state, "touched": 0} == {**before, "touched": 0}
        story.withdraw(back)
        assert story.mark("deburr:inside")["is"] == "done"


class TestLines:
    """Rivet lines with layers of their own."""

    def test_each_layer_by_itself_the_line_for_all(self, story: Story) -> None:
        story.line((SKIN, "countersink"), (RIB, "dimple"))
        story.step("countersink", layer=SKIN)
        story.step("deburr", layer=RIB)
        state = story.state
        # film edges fit drill deburr dimple countersink clean prime rivet
        assert state["strips"][SKIN] == "-----t-d--t"
        assert state["strips"][RIB] == "-----dt---t"

    def test_without_a_layer_it_speaks_of_all_that_ask_for_it(self, story: Story) -> None:
        story.line((SKIN, "countersink"), (RIB, "plain"))
        story.step("countersink")
        story.step("deburr", sides=["inside"])
        assert story.mark(f"countersink:{SKIN}")["is"] == "done"
        assert f"countersink:{RIB}" in story.state["marks"]
        assert story.mark(f"countersink:{RIB}")["is"] == "not"
        for part in (SKIN, RIB):
            assert story.mark(f"deburr:{part}:inside")["is"] == "done"
            assert story.mark(f"deburr:{part}:outside")["is"] == "todo"

    def test_a_layer_named_on_a_part_is_the_part(self, story: Story) -> None:
        story.part(ops=ALL)
        story.step("deburr", layer=SKIN)
        assert story.mark("deburr:inside")["is"] == "done"
        assert not [key for key in story.state["marks"] if SKIN in key]

    def test_a_layer_that_is_not_in_the_line_counts_for_no_other(self, story: Story) -> None:
        story.line((SKIN, "dimple"))
        story.step("dimple", layer=RIB)
        assert story.mark(f"dimple:{SKIN}")["is"] == "todo"
        assert story.mark(f"dimple:{RIB}")["is"] == "done"

    def test_holes_supplied_final_strike_fit_and_drill(self, story: Story) -> None:
        story.line((SKIN, "plain"), supplied="pilot")
        assert story.mark("drill")["want"] == "do"
        story.line((SKIN, "plain"))
        assert story.mark("drill")["want"] == "not"


class TestUndone:
    """What sets an operation back, and by how much."""

    def done(self, story: Story, *ops: str) -> None:
        story.part(ops=ALL)
        for op in ops:
            story.step(op)

    def test_k_holes_enlarged_reopen_k(self, story: Story) -> None:
        self.done(story, "deburr")
        story.metal("holes enlarged", 4)
        mark = story.mark("deburr:inside")
        assert (mark["is"], mark["done"], mark["of"]) == ("again", 16, 20)

    def test_k_holes_added_reopen_k(self, story: Story) -> None:
        self.done(story, "deburr")
        story.metal("holes added", 4)
        mark = story.mark("deburr:inside")
        assert (mark["is"], mark["done"], mark["of"]) == ("again", 20, 24)

    @pytest.mark.parametrize("change", ["holes added", "holes enlarged"])
    def test_how_many_is_not_known_so_all(self, story: Story, change: str) -> None:
        self.done(story, "deburr")
        story.metal(change)
        mark = story.mark("deburr:inside")
        assert (mark["is"], mark["done"]) == ("again", 0)

    def test_no_holes_change_nothing(self, story: Story) -> None:
        self.done(story, "deburr", "countersink")
        story.metal("holes enlarged", 0)
        assert story.mark("deburr:inside")["is"] == "done"
        assert story.mark("countersink")["is"] == "done"

    def test_what_had_seen_it_stands(self, story: Story) -> None:
        self.done(story, "deburr")
        story.metal("holes enlarged", 4)
        story.step("deburr")
        assert story.mark("deburr:inside")["is"] == "done"

    def test_what_had_not_seen_it_falls_however_late_it_says_it_was(self, story: Story) -> None:
        self.done(story)
        story.metal("holes enlarged", 4, by="ann")
        story.step("deburr", by="ben", seen=2, at=HOUR)
        assert story.mark("deburr:inside")["is"] == "again"

    def test_enlarged_holes_that_were_countersunk_have_to_be_looked_at(self, story: Story) -> None:
        self.done(story, "countersink")
        story.metal("holes enlarged", 4)
        assert story.mark("countersink")["is"] == "look"
        assert story.state["next"] != "countersink"

    def test_holes_added_to_countersunk_ones_are_the_ones_left(self, story: Story) -> None:
        self.done(story, "countersink")
        story.metal("holes added", 4)
        mark = story.mark("countersink")
        assert (mark["is"], mark["done"], mark["of"]) == ("part", 20, 24)
        story.metal("holes added")
        assert story.mark("countersink")["is"] == "look"

    def test_drilling_after_priming_asks_for_it_again(self, story: Story) -> None:
        self.done(story, "clean", "prime")
        story.step("drill")
        assert words(story, "prime") == {"again"}
        assert words(story, "clean") == {"again"}

    def test_a_step_that_says_nothing_was_done_undoes_nothing(self, story: Story) -> None:
        self.done(story, "prime")
        story.step("drill", "none")
        assert words(story, "prime") == {"done"}

    def test_trimming_reopens_edges_and_faces(self, story: Story) -> None:
        self.done(story, "film", "edges", "clean", "prime")
        story.metal("trimmed")
        assert words(story, "edges") == {"again"}
        assert words(story, "prime") == {"again"}
        assert words(story, "film") == {"done"}

    def test_touching_reopens_clean_and_prime_only(self, story: Story) -> None:
        self.done(story, "edges", "clean", "prime")
        story.metal("touched")
        assert words(story, "clean") == words(story, "prime") == {"again"}
        assert words(story, "edges") == {"done"}

    def test_holes_change_no_count_of_pieces(self, story: Story) -> None:
        self.done(story)
        story.tell("part.described.v1", {"pieces": 12})
        story.step("prime")
        story.metal("holes added", 4)
        mark = story.mark("prime:inside")
        assert (mark["is"], mark["done"], mark["of"]) == ("again", 12, 12)

    def test_drilling_out_reopens_riveting(self, story: Story) -> None:
        self.done(story, "rivet")
        story.metal("holes enlarged", 4)
        mark = story.mark("rivet")
        assert (mark["is"], mark["done"]) == ("again", 16)

    def test_an_undoing_that_is_taken_back_undoes_nothing(self, story: Story) -> None:
        self.done(story, "countersink")
        change = story.metal("holes enlarged")
        story.withdraw(change)
        assert story.mark("countersink")["is"] == "done"


class TestTwoWhoHadNotMet:
    """Records on the same operation and target by two who had not seen each other's."""

    def apart(self, story: Story, op: str, one: Any, two: Any) -> dict[str, Any]:
        story.part(ops=ALL)
        story.step(op, by="ann", seen=2, **one)
        story.step(op, by="ben", seen=2, **two)
        return story.mark(op if op == "countersink" else f"{op}:inside")

    def test_the_less_prepared_counts_and_is_flagged(self, story: Story) -> None:
        mark = self.apart(story, "deburr", {"result": "all"}, {"result": "some", "done": 5})
        assert (mark["is"], mark["done"], mark["doubt"]) == ("part", 5, True)
        assert story.flags("two records") == ["deburr:inside", "deburr:outside"]

    def test_the_same_said_twice_is_no_doubt(self, story: Story) -> None:
        mark = self.apart(story, "deburr", {"result": "all"}, {"result": "all"})
        assert (mark["is"], mark["doubt"]) == ("done", False)
        assert story.flags("two records") == []

    @pytest.mark.parametrize("other", ["all", "some", "none"])
    def test_where_twice_could_cost_the_part_somebody_has_to_look(
        self, story: Story, other: str
    ) -> None:
        mark = self.apart(story, "countersink", {"result": "all"}, {"result": other})
        assert (mark["is"], mark["doubt"]) == ("look", True)
        assert story.flags("two records") == ["countersink"]

    def test_unless_both_say_that_nothing_was_done(self, story: Story) -> None:
        mark = self.apart(story, "countersink", {"result": "none"}, {"result": "none"})
        assert (mark["is"], mark["doubt"]) == ("todo", False)

    def test_someone_who_holds_the_part_settles_it(self, story: Story) -> None:
        self.apart(story, "countersink", {"result": "all"}, {"result": "none"})
        story.step("countersink", by="ben", looked=True)
        assert story.mark("countersink")["is"] == "done"
        assert story.flags("two records") == []

    def test_different_sides_do_not_meet(self, story: Story) -> None:
        story.part(ops=ALL)
        story.step("deburr", by="ann", seen=2, sides=["inside"])
        story.step("deburr", "none", by="ben", seen=2, sides=["outside"])
        assert story.mark("deburr:inside")["is"] == "done"
        assert story.flags("two records") == []

    def test_the_same_trimming_told_by_both_is_to_be_looked_at(self, story: Story) -> None:
        story.part(ops=ALL)
        story.metal("trimmed", by="ann", seen=2)
        story.metal("trimmed", by="ben", seen=2)
        assert story.flags("look") == ["trimmed"]
        story.metal("trimmed", by="ben")
        assert story.flags("look") == []
