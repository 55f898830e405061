"""Which thing a tag belongs to: the first claim to arrive holds, the other waits for a person."""

from __future__ import annotations

import json
from typing import Any

from sqlalchemy import select

from bucktail.storage.rebuilding import rebuild
from bucktail.storage.tables import Card, Code, Session
from bucktail.tags.code import new_code
from running.pen import Pen, take
from running.sheetstock import sheet

CODE, OTHER = new_code(lambda n: 5 % n, []), new_code(lambda n: 7 % n, [])


def holders(session: Session) -> dict[str, str | None]:
    """Code -> the thing it is attached to."""
    return dict(session.execute(select(Code.code, Code.thing)).all())


def state(session: Session, subject: str) -> dict[str, Any]:
    """What a thing's card says."""
    card = session.get(Card, subject)
    assert card is not None
    found: dict[str, Any] = json.loads(card.text)["state"]
    return found


def attach(pen: Pen, subject: str, code: str = CODE, on: str = "film") -> dict[str, Any]:
    """A tag is put on a thing."""
    return pen.write("tag.attached.v1", {"code": code, "on": on}, subject)


def same_after_rebuild(session: Session) -> None:
    """Everything comes out as it was."""
    before = holders(session)
    _, different = rebuild(session)
    assert different == 0
    assert holders(session) == before
    session.rollback()


def test_the_second_claim_loses_and_says_to_whom(session: Session, pen: Pen) -> None:
    one, two = pen.part("one"), pen.part("two")
    take(session, one, two, attach(pen, one["subject"]), attach(pen, two["subject"], on="tied"))
    assert holders(session) == {CODE: one["subject"]}
    assert state(session, one["subject"])["tags"] == [{"code": CODE, "on": "film", "old": False}]
    lost = state(session, two["subject"])
    assert lost["tags"] == []
    (answer,) = lost["answers"]
    assert (answer["about"], answer["code"]) == ("tag", CODE)
    assert [value["value"] for value in answer["values"]] == [one["subject"]]
    same_after_rebuild(session)


def test_a_person_settles_it_either_way_round(session: Session, pen: Pen) -> None:
    one, two = pen.part("one"), pen.part("two")
    take(session, one, two, attach(pen, one["subject"]), attach(pen, two["subject"], on="tied"))
    gives = pen.write("answer.settled.v1", {"code": CODE, "holds": False}, one["subject"])
    gets = pen.write("answer.settled.v1", {"code": CODE, "holds": True}, two["subject"])
    take(session, gets, gives)
    assert holders(session) == {CODE: two["subject"]}
    assert state(session, two["subject"])["tags"] == [{"code": CODE, "on": "tied", "old": False}]
    assert state(session, two["subject"])["answers"] == []
    assert state(session, one["subject"])["tags"] == []
    same_after_rebuild(session)


def test_what_a_retired_thing_held_is_free(session: Session, pen: Pen) -> None:
    one, two = pen.part("one"), pen.part("two")
    gone = pen.write("thing.retired.v1", {"why": "entered by mistake"}, one["subject"])
    take(session, one, two, attach(pen, one["subject"]), gone, attach(pen, two["subject"]))
    assert holders(session) == {CODE: two["subject"]}
    assert state(session, two["subject"])["answers"] == []
    same_after_rebuild(session)


def test_what_was_taken_back_is_free(session: Session, pen: Pen) -> None:
    one, two = pen.part("one"), pen.part("two")
    claim = attach(pen, one["subject"])
    back = pen.write("event.withdrawn.v1", {"event": claim["id"]}, one["subject"])
    take(session, one, two, claim, back)
    assert holders(session) == {CODE: None}
    take(session, attach(pen, two["subject"]))
    assert holders(session) == {CODE: two["subject"]}
    same_after_rebuild(session)


def test_taking_the_taking_back_back_restores_it(session: Session, pen: Pen) -> None:
    one = pen.part("one")
    claim = attach(pen, one["subject"])
    back = pen.write("event.withdrawn.v1", {"event": claim["id"]}, one["subject"])
    again = pen.write("event.withdrawn.v1", {"event": back["id"]}, one["subject"])
    take(session, one, claim, back, again)
    assert holders(session) == {CODE: one["subject"]}
    same_after_rebuild(session)


def test_a_claim_that_lost_stands_once_it_is_made_anew_and_free(session: Session, pen: Pen) -> None:
    one, two = pen.part("one"), pen.part("two")
    take(session, one, two, attach(pen, one["subject"]), attach(pen, two["subject"]))
    gone = pen.write("thing.retired.v1", {"why": "scrapped"}, one["subject"])
    take(session, gone, attach(pen, two["subject"]))
    assert holders(session) == {CODE: two["subject"]}
    assert state(session, two["subject"])["answers"] == []
    same_after_rebuild(session)


def test_a_replaced_tag_still_finds_its_thing(session: Session, pen: Pen) -> None:
    one = pen.part("one")
    first = attach(pen, one["subject"])
    replaced = pen.write("tag.replaced.v1", {"old": CODE, "new": OTHER}, one["subject"])
    take(session, one, first, replaced, attach(pen, one["subject"], OTHER))
    assert holders(session) == {CODE: one["subject"], OTHER: one["subject"]}
    tags = state(session, one["subject"])["tags"]
    assert sorted((tag["code"], tag["old"]) for tag in tags) == sorted(
        [(CODE, True), (OTHER, False)]
    )
    same_after_rebuild(session)


def test_printed_tags_are_known_and_free(session: Session, pen: Pen) -> None:
    printed = pen.write("tag.printed.v1", {"codes": [CODE, OTHER]})
    take(session, printed)
    assert holders(session) == {CODE: None, OTHER: None}
    sheets = set(session.execute(select(Code.sheet)).scalars())
    assert sheets == {printed["subject"]}
    same_after_rebuild(session)


def test_a_tag_goes_on_with_what_is_left_of_a_cut_offcut(session: Session, pen: Pen) -> None:
    whole = pen.write("offcut.added.v1", sheet(12, 8))
    rest = pen.write("offcut.added.v1", sheet(8, 8, parent=whole["subject"]))
    cut = {"made": [], "remnants": [rest["subject"]], "kerf_nm": 0, "dust_um2": 0}
    take(
        session,
        whole,
        attach(pen, whole["subject"]),
        pen.write("offcut.cut.v1", cut, whole["subject"]),
        rest,
        attach(pen, rest["subject"]),
    )
    assert holders(session) == {CODE: rest["subject"]}
    assert state(session, rest["subject"])["answers"] == []
    # a second cut of the same metal, by a phone that had not met the first, claims it in vain
    other = pen.write("offcut.added.v1", sheet(12, 4, parent=whole["subject"]))
    second = pen.write("offcut.cut.v1", {**cut, "remnants": [other["subject"]]}, whole["subject"])
    take(session, second, other, attach(pen, other["subject"]))
    assert holders(session) == {CODE: rest["subject"]}
    (question,) = state(session, other["subject"])["answers"]
    assert question["values"][0]["value"] == rest["subject"]
    same_after_rebuild(session)
