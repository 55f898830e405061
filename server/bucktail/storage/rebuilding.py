"""Working out anew, from the record, everything that is not the record: cards and tag codes."""

from __future__ import annotations

import hashlib
import secrets
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from importlib.resources import files

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from bucktail.events.envelope import Event, Unreadable, fact_of
from bucktail.events.fold import codes_of, fold
from bucktail.events.order import Fact
from bucktail.storage import codes, curves, judgements
from bucktail.storage.cards import card_text
from bucktail.storage.settings import read as setting
from bucktail.storage.settings import write
from bucktail.storage.tables import Card, Code, StoredEvent
from bucktail.sync.wire.reading import read_event

#: The code and tables that cards are made with: (package, endings of its files).
MADE_WITH = (
    ("bucktail.events", (".py",)),
    ("bucktail.parts", ("operations.py", "operations.csv")),
    ("bucktail.sync.wire", (".py",)),
    ("bucktail.tags", ("code.py",)),
)
Reader = Callable[[bytes], Event]


@cache
def made_with() -> str:
    """SHA-256 (hex) of what cards are made with: another one may make other cards."""
    digest = hashlib.sha256()
    for package, endings in MADE_WITH:
        for file in sorted(files(package).iterdir(), key=lambda one: one.name):
            if file.name.endswith(endings):
                digest.update(f"{package}/{file.name}\n".encode() + file.read_bytes())
    return digest.hexdigest()


def edition(session: Session) -> str:
    """A word that is another one whenever all cards were made anew and came out otherwise.

    Phones fetch everything again when it changes.
    """
    return setting(session, "edition") or ""


def bring_up_to_date(session: Session) -> None:
    """Make everything anew if it was made by another version of the code or tables."""
    if setting(session, "made with") == made_with():
        return
    rebuild(session)
    write(session, "made with", made_with())


def rebuild(session: Session, read: Reader = read_event) -> tuple[int, int]:
    """Fold every card anew from the record. Returns (cards, cards that came out different)."""
    things = different = 0
    curves.begin_anew(session)
    for subject, facts in _things(session, read):
        state = fold(facts)
        text = card_text(subject, facts, state)
        card = session.get(Card, subject) or Card(subject=subject)
        different += card.text != text
        card.sort, card.position, card.text = state["sort"], max(f["pos"] for f in facts), text
        session.add(card)
        curves.follow(session, subject, state)
        session.flush()
        session.expunge(card)
        things += 1
    known = select(StoredEvent.subject)
    gone = session.execute(delete(Card).where(Card.subject.not_in(known)))
    different += gone.rowcount  # type: ignore[attr-defined]
    if different or not edition(session):
        write(session, "edition", secrets.token_hex(8))
    _rebuild_codes(session, read)
    return things, different


def _things(session: Session, read: Reader) -> Iterator[tuple[str, list[Fact]]]:
    """(subject, its facts), one thing after the other."""
    judged = judgements.all_judged(session)
    for subject in session.execute(select(StoredEvent.subject).distinct()).scalars().all():
        rows = select(StoredEvent).where(StoredEvent.subject == subject)
        facts = []
        for row in session.execute(rows.order_by(StoredEvent.position)).scalars():
            facts.append(_fact(row, _event(row, read), judged.get(row.position)))
            session.expunge(row)
        yield subject, facts


def _event(row: StoredEvent, read: Reader) -> Event:
    """The event of a row. Where its body is not what this version expects, without the body.

    That happens to a kind that was stored before any version knew it: it is kept, and counts as
    unknown. The same goes for an envelope, which every version so far reads.
    """
    try:
        event = read(row.raw)
    except Unreadable as problem:
        event = problem.event or Event(
            raw=row.raw,
            id=row.id,
            kind=row.kind,
            workshop="",
            device=row.device,
            seq=row.seq,
            at=row.effective_at,
            tz="UTC",
            by="",
            base=row.base,
            base_chain="",
            subject=row.subject,
            via=None,
            group=None,
            body=None,
        )
    return replace(event, base=row.base)


def _fact(row: StoredEvent, event: Event, judged: judgements.Judged | None = None) -> Fact:
    return fact_of(event, row.position, row.effective_at, row.lost, judged)


def _rebuild_codes(session: Session, read: Reader) -> None:
    """Follow the tags through the record again."""
    session.execute(delete(Code))
    session.expire_all()
    facts: dict[str, list[Fact]] = {}
    about_tags = StoredEvent.kind.in_([*codes.ATTACHING, "tag.printed.v1"])
    rows = select(StoredEvent).where(about_tags).order_by(StoredEvent.position)
    for row in session.execute(rows).scalars():
        event = _event(row, read)
        told = facts.setdefault(row.subject, [])
        told.append(_fact(row, event))
        codes.follow(session, event, codes_of(told))
