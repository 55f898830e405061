"""Push and pull. Events come and cards go as lines of JSON, each line byte for byte."""

from __future__ import annotations

import time
from dataclasses import asdict

from flask import Blueprint, Response, g, jsonify, request

from bucktail.events.envelope import canonical
from bucktail.routes.curves import measure_if_any
from bucktail.routes.errors import Refused
from bucktail.routes.guard import database
from bucktail.storage import cards, curves
from bucktail.storage.eventlog import chain_at, head, last_seq, take_up
from bucktail.storage.pairing_store import people
from bucktail.storage.rebuilding import edition
from bucktail.storage.settings import sawing
from bucktail.sync.wire.reading import read_event

sync = Blueprint("sync", __name__)

MOST_EVENTS = 2000
PAGE = 500


def _now() -> int:
    return int(time.time() * 1000)


@sync.post("/api/push")
def push() -> Response:
    """Take events up: one JSON object a line. Header Bucktail-Now: the phone's clock (UTC ms).

    Header Bucktail-Seen, where given: the position the phone has read to, and its link. Where the
    record says otherwise (it was restored from an archive), nothing is taken up and the answer is
    409 "restored": what the phone had sent before has to come first again.
    Answers {"answers": [{id, result, position, effective_at, reason}], "position", "chain"}.
    """
    raws = [line for line in request.get_data().split(b"\n") if line.strip()]
    if len(raws) > MOST_EVENTS:
        raise Refused(413, "too many", f"At most {MOST_EVENTS} entries are taken at a time.")
    received_at = _now()
    try:
        offset = received_at - int(request.headers.get("Bucktail-Now", received_at))
    except ValueError:
        raise Refused(400, "clock", "The header Bucktail-Now is not a time in ms.") from None
    session = database()
    position, _, chain = request.headers.get("Bucktail-Seen", "0").partition(" ")
    _same_record(_position(position), chain)
    taken = take_up(
        session,
        raws,
        read_event,
        workshop=g.workshop.id,
        received_at=received_at,
        offset=offset,
        device=g.device.id,
    )
    last, link = head(session)
    waiting = curves.waiting(session)
    session.commit()
    measure_if_any(waiting)
    return jsonify({"answers": [asdict(one) for one in taken], "position": last, "chain": link})


def _position(text: str) -> int:
    """A position as a phone names it."""
    if not (text.isascii() and text.isdigit() and len(text) <= 16):
        raise Refused(400, "position", "The position must be a whole number.")
    return int(text)


def _same_record(position: int, chain: str) -> None:
    """Refuse a phone that has read another record than this one."""
    if position > 0 and chain_at(database(), position) != chain:
        raise Refused(
            409, "restored", "The workshop's record was restored; the phone reads it anew."
        )


@sync.get("/api/pull")
def pull() -> Response:
    """Cards that changed after `position`: a first line about the page, then a card a line.

    `chain` is the link the phone has for its position; where the record says otherwise (it was
    restored from an archive), the answer is 409 "restored" and the phone starts over. `edition` is
    another word whenever all cards were made anew: then those the phone has are of no use.
    `seq` is the newest number known of the phone's own events, should it have forgotten. `curves`
    is the number of the newest fit curve, which routes/curves.py gives.
    """
    session = database()
    position = _position(request.args.get("position", "0"))
    _same_record(position, request.args.get("chain", ""))
    last, link = head(session)
    changed = cards.changed_after(session, position, PAGE)
    more = len(changed) >= PAGE
    if more:
        last = changed[-1][0]
        link = chain_at(session, last) or ""
    first = {
        "position": last,
        "chain": link,
        "more": more,
        "edition": edition(session),
        "seq": last_seq(session, g.device.id),
        "people": people(session),
        "unit": g.workshop.unit,
        "name": g.workshop.name,
        "sawing": sawing(session),
        "now": _now(),
        "curves": curves.last(session),
    }
    waiting = curves.waiting(session)
    session.rollback()
    measure_if_any(waiting)
    lines = [canonical(first), *(text for _, text in changed)]
    return Response("\n".join(lines) + "\n", mimetype="application/x-ndjson")
