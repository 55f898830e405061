"""T8: a finding is closed as repaired only on a named decision, and on what shows the repair."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest

from bucktail.events.fold import fold
from bucktail.rules.reckon import Unread, reckon
from running.bodies import uuid_of
from running.findings import cases, close, decide, opened, photo
from running.histories import card_of
from running.story import Story
from running.twin import TWINS, FoldTwin

WORK_ORDER = "Work order 7"


def decision(what: str = "repair", who: str | None = "Kim Brook, licensed") -> dict[str, Any]:
    return {"decision": what, "who": who, "what": None}


def closing(
    decided: str | None, outcome: str = "repaired", evidence: str | None = WORK_ORDER
) -> dict[str, Any]:
    return {"outcome": outcome, "decision": decided, "evidence": evidence}


@pytest.fixture
def story() -> Story:
    """The hole of T8: drilled out to 1/8 at .1875 in from the edge, as the rule says it."""
    asked = {"diameter": "3/32", "to": "1/8", "stack": ".032,.032", "edge": ".1875", "pitch": "1/2"}
    answer = reckon("upsize", asked, "in")
    assert not isinstance(answer, Unread)
    assert answer["verdict"] == "fails"
    assert answer["edge_d"] == 1.5
    told = Story()
    body = {"on": uuid_of(7), "what": "Hole oversize", "note": answer["why"]}
    told.tell("finding.opened.v1", body)
    return told


def test_what_is_opened_lacks_everything(story: Story) -> None:
    assert story.state["lacks"] == ["decision", "name", "evidence"]
    assert "closed" not in story.state


def test_t8_it_closes_as_repaired_with_a_named_decision_and_its_evidence(story: Story) -> None:
    decided = story.tell("finding.decided.v1", decision())
    assert story.state["decided"]["who"] == "Kim Brook, licensed"
    assert story.state["lacks"] == ["evidence"]
    story.tell("finding.closed.v1", closing(decided["id"]))
    assert story.state["closed"]["outcome"] == "repaired"
    assert story.state["lacks"] == []


@pytest.mark.parametrize("who", [None, ""])
def test_t8_a_decision_without_a_name_closes_nothing(story: Story, who: str | None) -> None:
    decided = story.tell("finding.decided.v1", decision(who=who))
    story.tell("finding.closed.v1", closing(decided["id"]))
    assert "closed" not in story.state
    assert story.state["lacks"] == ["name"]


@pytest.mark.parametrize("evidence", [None, ""])
def test_t8_nothing_that_shows_it_closes_nothing(story: Story, evidence: str | None) -> None:
    decided = story.tell("finding.decided.v1", decision())
    story.tell("finding.closed.v1", closing(decided["id"], evidence=evidence))
    assert "closed" not in story.state
    assert story.state["lacks"] == ["evidence"]


def test_a_photo_shows_it_as_well_as_a_document(story: Story) -> None:
    decided = story.tell("finding.decided.v1", decision())
    story.tell("finding.closed.v1", closing(decided["id"], evidence=None))
    story.tell("photo.attached.v1", {"photo": "a" * 64, "size": 9})
    assert "closed" in story.state
    story.tell("photo.removed.v1", {"photo": "a" * 64})
    assert story.state["lacks"] == ["evidence"]


def test_t8_no_decision_at_all_closes_nothing(story: Story) -> None:
    story.tell("finding.closed.v1", closing(None))
    assert "closed" not in story.state
    assert story.state["lacks"] == ["decision", "name"]


@pytest.mark.parametrize("what", ["use as is", "replace", "ask the maker"])
def test_another_decision_than_to_repair_is_not_closed_as_repaired(story: Story, what: str) -> None:
    decided = story.tell("finding.decided.v1", decision(what))
    story.tell("finding.closed.v1", closing(decided["id"]))
    assert story.state["lacks"] == ["decision"]


@pytest.mark.parametrize(
    ("what", "outcome"), [("use as is", "used as is"), ("replace", "replaced")]
)
def test_other_decisions_close_as_they_say(story: Story, what: str, outcome: str) -> None:
    decided = story.tell("finding.decided.v1", decision(what))
    story.tell("finding.closed.v1", closing(decided["id"], outcome))
    assert story.state["closed"]["outcome"] == outcome


def test_a_later_decision_or_one_taken_back_opens_it_again(story: Story) -> None:
    decided = story.tell("finding.decided.v1", decision())
    story.tell("finding.closed.v1", closing(decided["id"]))
    later = story.tell("finding.decided.v1", decision("ask the maker"))
    assert "closed" not in story.state
    assert "decision" in story.state["lacks"]
    story.tell("event.withdrawn.v1", {"event": later["id"]})
    assert "closed" in story.state
    story.tell("event.withdrawn.v1", {"event": decided["id"]})
    assert "closed" not in story.state


def test_what_was_no_fault_needs_no_decision(story: Story) -> None:
    story.tell("finding.closed.v1", closing(None, "no fault", None))
    assert story.state["closed"]["outcome"] == "no fault"


def test_a_closing_stands_on_the_decision_that_it_names_and_no_other(story: Story) -> None:
    first = story.tell("finding.decided.v1", decision())
    story.tell("finding.closed.v1", closing(None))
    assert story.state["lacks"] == ["decision", "name"]
    story.tell("finding.closed.v1", closing(first["id"]))
    assert "closed" in story.state
    story.tell("finding.decided.v1", decision(who="the kit maker's support"))
    assert "closed" not in story.state


def test_t8_blanks_are_no_name_and_show_nothing(story: Story) -> None:
    decided = story.tell("finding.decided.v1", decision(who=" \t"))
    story.tell("finding.closed.v1", closing(decided["id"], evidence="  "))
    assert story.state["lacks"] == ["name", "evidence"]


def test_a_photo_of_the_damage_shows_no_repair() -> None:
    story = opened()
    photo(story)
    decided = decide(story)
    close(story, decided, evidence=None)
    assert story.state["lacks"] == ["evidence"]
    photo(story)
    assert story.state["closed"]["outcome"] == "repaired"


def test_two_decisions_of_people_who_had_not_met_close_nothing_until_one_is_said_again() -> None:
    story = opened()
    first = decide(story)
    decide(story, "replace", device="cy", seen=1)
    (answer,) = story.state["answers"]
    assert answer["about"] == "decision"
    assert [one["value"]["decision"] for one in answer["values"]] == ["repair", "replace"]
    close(story, first)
    assert "closed" not in story.state
    assert story.state["lacks"] == ["decision"]
    close(story, decide(story))
    assert story.state["answers"] == []
    assert story.state["closed"]["outcome"] == "repaired"


@pytest.mark.parametrize("outcome", ["repaired", "no fault"])
def test_who_had_not_seen_the_standing_decision_closes_nothing(outcome: str) -> None:
    story = opened()
    first = decide(story)
    decide(story, "ask the maker", device="cy", seen=2)
    close(story, first, outcome, device="ben", seen=2)
    assert "closed" not in story.state
    assert story.state["lacks"] == ["decision"]


def test_the_order_in_which_facts_arrive_changes_nothing() -> None:
    for facts in cases()[::40]:
        assert fold(facts[::-1]) == fold(facts)


def differing(twin: FoldTwin) -> int:
    """How many of the cases give another card on the phone."""
    told = cases()[::3]
    there = twin.cards([(uuid_of(1), facts) for facts in told])
    return sum(card_of(uuid_of(1), facts) != card for facts, card in zip(told, there, strict=True))


def test_the_phone_makes_the_same_cards(tmp_path: Path) -> None:
    assert differing(FoldTwin(tmp_path)) == 0


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("ground.decisions.every((fact) => saw(by", "ground.decisions.some((fact) => saw(by"),
        ("ground.differ || unseen", "unseen"),
        ("!written(made?.who)", "!made?.who"),
        ("&& decisions.every((one) => saw(fact, one))", ""),
        ("[carried] : ENDING", "ENDING : ENDING"),
    ],
)
def test_a_fault_in_the_phones_rule_shows(tmp_path: Path, right: str, wrong: str) -> None:
    twins = tmp_path / "twins"
    shutil.copytree(TWINS, twins)
    shutil.copytree(TWINS.parent / "generated", tmp_path / "generated")
    text = (twins / "findings.ts").read_text()
    assert right in text
    (twins / "findings.ts").write_text(text.replace(right, wrong))
    assert differing(FoldTwin(tmp_path / "bundle", twins))
