"""The record: takes events up, in one transaction with the cards they change."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import partial
from itertools import groupby

from sqlalchemy import func, select
from sqlalchemy.exc import SQLAlchemyError
from sqlalchemy.orm import Session

from bucktail.events.envelope import Event, Unreadable, fact_of
from bucktail.storage import cards, codes, judgements
from bucktail.storage.tables import SetAside, StoredEvent
from bucktail.sync.judging import reckoned_otherwise
from bucktail.sync.times import chain_link, effective_time

#: Reads one event's bytes; raises Unreadable with a sentence where it cannot be taken up.
Reader = Callable[[bytes], Event]
GROUP = re.compile(rb'"group": ?"([0-9a-f-]{36})"')


class OtherWorkshop(Exception):
    """Events of another workshop: nothing of the push is taken up, the phone keeps them."""


@dataclass(frozen=True)
class Taken:
    """What became of one event: "stored", "known" (had it already) or "aside" with a reason.

    `effective_at` is the time it counts as having happened (UTC ms).
    """

    id: str
    result: str
    position: int | None = None
    effective_at: int | None = None
    reason: str | None = None


def head(session: Session) -> tuple[int, str]:
    """Position and chain link of the newest event; (0, "") for an empty record."""
    row = session.execute(
        select(StoredEvent.position, StoredEvent.chain)
        .order_by(StoredEvent.position.desc())
        .limit(1)
    ).first()
    return (row[0], row[1]) if row else (0, "")


def chain_at(session: Session, position: int) -> str | None:
    """The chain link at a position, or None where the record does not reach that far."""
    return session.execute(
        select(StoredEvent.chain).where(StoredEvent.position == position)
    ).scalar()


def last_seq(session: Session, device: str) -> int:
    """The newest number that a device gave one of its events; 0 where there is none."""
    newest = select(func.max(StoredEvent.seq)).where(StoredEvent.device == device)
    return session.execute(newest).scalar() or 0


def take_up(
    session: Session,
    raws: Iterable[bytes],
    read: Reader,
    *,
    workshop: str,
    received_at: int,
    offset: int,
    device: str | None,
    judge: judgements.Judge = reckoned_otherwise,
) -> list[Taken]:
    """Store events in the order given and write the cards they change.

    `device` is the device the sender proved to be; None lets any device's events in (an outbox
    brought over as a file). `judge` reckons every kept sum again. Raises OtherWorkshop before
    anything is stored. The caller owns the transaction.
    """
    judged = _judge_all(session, [_read(raw, read, workshop, device) for raw in raws])
    store = partial(_store, session, received_at=received_at, offset=offset, judge=judge)
    answers = []
    for _, run in groupby(judged, key=lambda one: (one[1] and one[1].group) or one[0]):
        answers += _take_run(session, list(run), store, received_at, device)
    return answers


#: Bytes as they came, the event in them as far as it could be read, why it is not taken up.
Judged = tuple[bytes, Event | None, str | None]


def _read(raw: bytes, read: Reader, workshop: str, device: str | None) -> Judged:
    """The event in `raw`, or the reason it cannot be taken up."""
    reason = None
    try:
        event = read(raw)
    except Unreadable as problem:
        if problem.event is None:
            return raw, None, str(problem)
        event, reason = problem.event, str(problem)
    if event.workshop != workshop:
        raise OtherWorkshop
    if device is not None and event.device != device:
        reason = "it was written by another device than the one that sent it"
    return raw, event, reason


def _judge_all(session: Session, read_in: list[Judged]) -> list[Judged]:
    """Add the reasons that lie in the record, or in another event of the same group."""
    seen: dict[str, bytes] = {}
    judged: list[Judged] = []
    for raw, event, reason in read_in:
        if event is not None and reason is None:
            kept = seen.setdefault(event.id, _raw_of(session, event.id) or raw)
            if kept != raw:
                reason = "another record with the same number is already kept"
        judged.append((raw, event, reason))
    spoiled = {_group_of(raw, event) for raw, event, reason in judged if reason} - {None}
    return [
        (raw, event, "something else that belongs to it could not be taken up")
        if event and reason is None and event.group in spoiled and not _raw_of(session, event.id)
        else (raw, event, reason)
        for raw, event, reason in judged
    ]


def _take_run(
    session: Session,
    run: list[Judged],
    store: Callable[[Event], Taken],
    received_at: int,
    device: str | None,
) -> list[Taken]:
    """Store or set aside one event, or those of one group, all or none.

    An event that this version stumbles over must not keep back all that come after it.
    """
    try:
        with session.begin_nested():
            return [
                store(event)
                if reason is None and event is not None
                else _set_aside(session, raw, event, received_at, reason or "", device)
                for raw, event, reason in run
            ]
    except SQLAlchemyError:
        raise
    except Exception as problem:
        fault = f"this version of Bucktail cannot work with it ({type(problem).__name__})"
        return [
            store(event)
            if event is not None and _raw_of(session, event.id) == raw
            else _set_aside(session, raw, event, received_at, reason or fault, device)
            for raw, event, reason in run
        ]


def _group_of(raw: bytes, event: Event | None) -> str | None:
    """The group an event belongs to, also where its envelope could not be taken up."""
    if event is not None:
        return event.group
    found = GROUP.search(raw)
    return found[1].decode() if found else None


def _raw_of(session: Session, event_id: str) -> bytes | None:
    """The bytes of an event of the record."""
    return session.execute(select(StoredEvent.raw).where(StoredEvent.id == event_id)).scalar()


def _set_aside(
    session: Session, raw: bytes, event: Event | None, now: int, reason: str, device: str | None
) -> Taken:
    """Keep what could not be taken up, once."""
    digest = hashlib.sha256(raw).hexdigest()
    if session.get(SetAside, digest) is None:
        session.add(SetAside(digest=digest, device=device, received_at=now, reason=reason, raw=raw))
        session.flush()
    return Taken(event.id if event else digest, "aside", reason=reason)


def _store(
    session: Session, event: Event, received_at: int, offset: int, judge: judgements.Judge
) -> Taken:
    """Store one event at the next position, and fold its subject's card."""
    known = session.execute(
        select(StoredEvent.position, StoredEvent.effective_at).where(StoredEvent.id == event.id)
    ).first()
    if known:
        return Taken(event.id, "known", known.position, known.effective_at)
    last, link = head(session)
    position = last + 1
    event = replace(event, base=_seen(session, event, last))
    effective = effective_time(event.at, offset, _not_before(session, event), received_at)
    lost, judged = codes.ruling(session, event), judgements.ruling(event, judge)
    session.add(
        StoredEvent(
            position=position,
            id=event.id,
            kind=event.kind,
            subject=event.subject,
            device=event.device,
            seq=event.seq,
            received_at=received_at,
            effective_at=effective,
            base=event.base,
            lost=lost,
            chain=chain_link(link, position, received_at, effective, event.raw),
            raw=event.raw,
        )
    )
    judgements.keep(session, position, judged)
    session.flush()
    fact = fact_of(event, position, effective, lost, judged)
    state = cards.add_fact(session, event.subject, fact)
    codes.follow(session, event, {tag["code"] for tag in state["tags"]})
    return Taken(event.id, "stored", position, effective)


def _seen(session: Session, event: Event, last: int) -> int:
    """The position that the writer had seen, as far as this record has it.

    After the record was restored from an archive, a phone may name a position of what was lost:
    the chain tells. Then it has seen at least what it had seen at its event before.
    """
    if event.base <= last and (chain_at(session, event.base) or "") == event.base_chain:
        return event.base
    own = (
        select(StoredEvent.base)
        .where(StoredEvent.device == event.device, StoredEvent.seq < event.seq)
        .order_by(StoredEvent.seq.desc())
        .limit(1)
    )
    return session.execute(own).scalar() or 0


def _not_before(session: Session, event: Event) -> int:
    """The newest effective time on the subject that the phone had seen, or of the device's own."""
    times = session.execute(
        select(func.max(StoredEvent.effective_at)).where(
            StoredEvent.subject == event.subject, StoredEvent.position <= event.base
        )
    ).scalar()
    own = session.execute(
        select(StoredEvent.effective_at)
        .where(StoredEvent.device == event.device, StoredEvent.seq < event.seq)
        .order_by(StoredEvent.seq.desc())
        .limit(1)
    ).scalar()
    return max(times or 0, own or 0)
