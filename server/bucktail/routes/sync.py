"""Push and pull. Events come and cards go as lines of JSON, each line byte for byte."""

from __future__ import annotations

import time

from flask import Blueprint, Response, g, jsonify, request

from bucktail.events.envelope import canonical
from bucktail.routes.errors import Refused
from bucktail.routes.guard import database
from bucktail.storage import cards
from bucktail.storage.eventlog import chain_at, head, take_up
from bucktail.storage.pairing_store import people
from bucktail.sync.wire.reading import read_event

sync = Blueprint("sync", __name__)

MOST_EVENTS = 2000
PAGE = 500


def _now() -> int:
    return int(time.time() * 1000)


@sync.post("/api/push")
def push() -> Response:
    """Take events up: one JSON object a line. Header Bucktail-Now: the phone's clock (UTC ms).

    Answers {"answers": [{id, result, position, reason}], "position", "chain"}.
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
    taken = take_up(
        session,
        raws,
        read_event,
        workshop=g.workshop.id,
        received_at=received_at,
        offset=offset,
        device=g.device.id,
    )
    position, chain = head(session)
    session.commit()
    answers = [
        {"id": one.id, "result": one.result, "position": one.position, "reason": one.reason}
        for one in taken
    ]
    return jsonify({"answers": answers, "position": position, "chain": chain})


@sync.get("/api/pull")
def pull() -> Response:
    """Cards that changed after `position`: a first line about the page, then a card a line.

    `chain` is the link the phone has for its position; where the record says otherwise (it was
    restored from an archive), the answer is 409 "restored" and the phone starts over.
    """
    session = database()
    try:
        position = int(request.args.get("position", "0"))
    except ValueError:
        raise Refused(400, "position", "`position` must be a whole number.") from None
    if position > 0 and chain_at(session, position) != request.args.get("chain", ""):
        raise Refused(
            409, "restored", "The workshop's record was restored; the phone reads it anew."
        )
    last, link = head(session)
    changed = cards.changed_after(session, position, PAGE)
    more = len(changed) == PAGE
    if more:
        last = changed[-1][0]
        link = chain_at(session, last) or ""
    first = {
        "position": last,
        "chain": link,
        "more": more,
        "people": people(session),
        "unit": g.workshop.unit,
        "name": g.workshop.name,
        "now": _now(),
    }
    session.rollback()
    lines = [canonical(first), *(text for _, text in changed)]
    return Response("\n".join(lines) + "\n", mimetype="application/x-ndjson")
