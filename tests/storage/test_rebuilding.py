"""Everything that is not the record comes out of it again, byte for byte."""

from __future__ import annotations

import json
from pathlib import Path
from random import Random

import pytest
from marshmallow import Schema, fields
from sqlalchemy import select, update

from bucktail.storage import cards, rebuilding
from bucktail.storage.eventlog import head
from bucktail.storage.opening import open_session
from bucktail.storage.rebuilding import bring_up_to_date, edition, made_with, rebuild
from bucktail.storage.tables import Card, Code, Session
from bucktail.sync.wire import reading
from bucktail.sync.wire.bodies import KINDS
from bucktail.sync.wire.exact import YesNo
from running.bodies import Drawer, uuid_of
from running.pen import NOW, Pen, look, new_id, take


def everything(session: Session) -> list[tuple[object, ...]]:
    """All that is worked out from the record, as it stands."""
    found = session.execute(
        select(Card.subject, Card.sort, Card.position, Card.text).order_by(Card.subject)
    ).all()
    codes = session.execute(select(Code.code, Code.sheet, Code.thing).order_by(Code.code)).all()
    session.rollback()
    return [tuple(row) for row in [*found, *codes]]


def play(session: Session, pens: list[Pen], seed: int, turns: int) -> None:
    """Devices write about a few things, now and then out of reach."""
    draw = Random(seed)
    things = [uuid_of(0xB000 + n) for n in range(6)]
    drawer = Drawer(draw, things[:3])
    waiting: dict[str, list[dict[str, object]]] = {pen.device: [] for pen in pens}
    kinds = [*sorted(KINDS), *["step.recorded.v1", "tag.attached.v1", "part.added.v1"] * 6]
    for turn in range(turns):
        pen = draw.choice(pens)
        if draw.random() < 0.35:
            now = NOW + turn * 60_000
            take(session, *waiting[pen.device], device=pen.device, now=now)
            waiting[pen.device] = []
            look(pen, session)
            continue
        kind = draw.choice([*kinds, "newer.kind.v1"])
        body = drawer.body(kind) if kind in KINDS else {"n": 1.5}
        if kind not in KINDS:
            body = {"n": 1}
        event = pen.write(kind, body, draw.choice(things), at=NOW + turn * 60_000)
        drawer.events.append(event["id"])
        waiting[pen.device].append(event)


@pytest.mark.parametrize("seed", range(6))
def test_what_grew_event_by_event_is_what_the_record_gives(session: Session, seed: int) -> None:
    workshop = new_id()
    with session.begin():
        rebuilding.write(session, "workshop", workshop)
    play(session, [Pen(workshop), Pen(workshop), Pen(workshop)], seed, 90)
    before = everything(session)
    assert len(before) > 5
    things, different = rebuild(session)
    session.commit()
    assert (things, different) == (6, 0)
    assert everything(session) == before


def test_a_card_that_was_altered_comes_right_and_counts(session: Session, pen: Pen) -> None:
    one, two = pen.part("one"), pen.part("two")
    take(session, one, two)
    before = everything(session)
    with session.begin():
        session.execute(update(Card).where(Card.subject == one["subject"]).values(text="{}"))
        session.add(Card(subject=new_id(), sort="part", position=1, text="{}"))
    with session.begin():
        assert rebuild(session) == (2, 2)
    assert everything(session) == before


def test_phones_are_told_only_when_cards_came_out_otherwise(session: Session, pen: Pen) -> None:
    one = pen.part("one")
    take(session, one)
    first = edition(session)
    assert first
    rebuild(session)
    assert edition(session) == first
    session.execute(update(Card).values(text="{}"))
    rebuild(session)
    assert edition(session) not in ("", first)


def test_another_version_of_the_code_makes_everything_anew_when_it_opens(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with open_session(folder) as session:
        workshop = rebuilding.setting(session, "workshop")
        session.rollback()
        take(session, Pen(workshop or "").part("one"))
        first = edition(session)
    real = rebuilding.fold
    monkeypatch.setattr(rebuilding, "fold", lambda facts: {**real(facts), "newer": True})
    with open_session(folder) as session:
        assert "newer" not in json.loads(session.execute(select(Card.text)).scalar_one())["state"]
    monkeypatch.setattr(rebuilding, "made_with", lambda: "another")
    with open_session(folder) as session:
        assert "newer" in json.loads(session.execute(select(Card.text)).scalar_one())["state"]
        assert edition(session) != first
        newer = edition(session)
    with open_session(folder) as session:
        assert edition(session) == newer


def test_what_cards_are_made_with_is_the_code_and_the_tables() -> None:
    assert len(made_with()) == 64
    named = {package for package, _ in rebuilding.MADE_WITH}
    # what the fold and the reading import of Bucktail
    for module in (rebuilding.fold, cards.fold, reading.read_event):
        assert ".".join(module.__module__.split(".")[:-1]) in named


def test_a_kind_stored_before_it_was_known_counts_once_it_is(
    session: Session, pen: Pen, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Later(Schema):
        name = fields.String(required=True)

    part = pen.part("one")
    good = pen.write("part.hologram.v1", {"name": "two"}, part["subject"])
    bad = pen.write("part.hologram.v1", {"name": 2}, part["subject"])
    take(session, part, good, bad)
    monkeypatch.setitem(reading.BODIES, "part.hologram.v1", Later())
    with session.begin():
        assert rebuild(session) == (1, 1)
    facts = json.loads(session.execute(select(Card.text)).scalar_one())["facts"]
    assert [fact.get("body") for fact in facts] == [{"name": "one"}, {"name": "two"}, None]


def test_an_envelope_that_a_version_cannot_read_does_not_keep_the_workshop_shut(
    session: Session, pen: Pen, monkeypatch: pytest.MonkeyPatch
) -> None:
    part = pen.part("one")
    take(session, part, pen.step(part["subject"], "film"))
    stricter = type("Stricter", (reading.Envelope,), {"by": YesNo(required=True)})()
    monkeypatch.setattr(reading, "ENVELOPE", stricter)
    with session.begin():
        bring_up_to_date(session)
        things, _ = rebuild(session)
    assert things == 1
    assert head(session)[0] == 2
