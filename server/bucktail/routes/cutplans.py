"""Cut plans: reckoned beside the requests, asked after while they grow, kept for a while."""

from __future__ import annotations

import threading
import time
from dataclasses import asdict, dataclass, field
from typing import TYPE_CHECKING, Any

from flask import Blueprint, Response, current_app, g, jsonify
from marshmallow import Schema, fields, validate

from bucktail.offcuts.sections import allowances
from bucktail.routes.errors import Refused
from bucktail.routes.guard import database
from bucktail.routes.offcuts import CLEARANCE, asked_for
from bucktail.storage import stock as stored
from bucktail.storage.ids import uuid7
from bucktail.storage.settings import sawing
from bucktail.storage.tables import Session
from bucktail.sync.wire.exact import Id, Whole

if TYPE_CHECKING:
    from bucktail.offcuts.cutplan.wanted import Plan, Progress, Task

cutplans = Blueprint("cutplans", __name__)

PLACE = "cut plans"
#: A plan that is whole is bettered until it has taken this long (s).
BETTER_S = 4.0
#: So many plans are kept, so many pieces and offcuts are planned with, and for so long (s).
MOST_PLANS, MOST_PIECES, MOST_OFFCUTS, LONGEST_S = 8, 200, 1000, 30.0


class PlanAsked(Schema):
    """The pieces wanted to plan for; all open ones where none are named."""

    pieces = fields.List(Id(), load_default=None, validate=validate.Length(1, MOST_PIECES))
    kerf_nm = Whole(load_default=None, allow_none=True, validate=CLEARANCE)
    clearance_nm = Whole(load_default=0, validate=CLEARANCE)


@dataclass
class Planning:
    """One plan that is being made or is done."""

    id: str
    task: Task
    ends: float
    state: str = "working"
    done: int = 0
    of: int = 0
    placed: int = 0
    plan: Plan | None = None
    cancelled: threading.Event = field(default_factory=threading.Event)

    def run(self) -> None:
        """Make the plan; whatever goes wrong, it ends."""
        from bucktail.offcuts.cutplan.greedy import make_plan

        try:
            self.plan = make_plan(self.task, self.go_on)
            self.state = "cancelled" if self.cancelled.is_set() else "done"
        except Exception:
            self.state = "failed"
            raise

    def go_on(self, progress: Progress) -> bool:
        """Note how far it is; False where it was cancelled or its time is up."""
        self.done, self.of, self.placed = progress.done, progress.of, progress.placed
        time.sleep(0)  # requests come first
        left = self.ends - time.monotonic()
        enough = LONGEST_S - BETTER_S if progress.done == progress.of else 0.0
        return not self.cancelled.is_set() and left > enough

    def told(self) -> dict[str, Any]:
        """As it is answered; `plan` only when it is done."""
        made = self.plan if self.state == "done" else None
        return {
            "id": self.id,
            "state": self.state,
            "done": self.done,
            "of": self.of,
            "placed": self.placed,
            "plan": asdict(made) if made else None,
        }


class Plans:
    """The plans of this server: one at a time is made, the last few are kept."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._plans: dict[str, Planning] = {}

    def start(self, task: Task) -> Planning:
        """Begin a plan. Refused while another one is being made."""
        with self._lock:
            if any(plan.state == "working" for plan in self._plans.values()):
                raise Refused(
                    409, "busy", "Another cut plan is being made. Wait for it, or cancel it first."
                )
            made = Planning(uuid7(int(time.time() * 1000)), task, time.monotonic() + LONGEST_S)
            self._plans[made.id] = made
            for old in list(self._plans)[:-MOST_PLANS]:
                del self._plans[old]
        threading.Thread(target=made.run, name="cut plan", daemon=True).start()
        return made

    def of(self, plan: str) -> Planning:
        """A plan that is known here."""
        found = self._plans.get(plan)
        if found is None:
            raise Refused(404, "unknown", "This cut plan is not known any more. Make it again.")
        return found


def _plans() -> Plans:
    found: Plans = current_app.extensions.setdefault(PLACE, Plans())
    return found


@cutplans.post("/api/offcuts/plan")
def begin() -> tuple[Response, int]:
    """Begin a cut plan; answers as `GET` on it does, with its id."""
    asked = asked_for(PlanAsked(), "plan")
    session = database()
    task = _task(session, asked)
    session.rollback()
    return jsonify(_plans().start(task).told()), 202


@cutplans.get("/api/offcuts/plan/<plan>")
def look(plan: str) -> Response:
    """How far a plan is: {"id", "state", "done", "of", "placed", "plan"}.

    `state` is working, done, cancelled or failed. A plan is {"sheets": [{"stock", "angle", "datum",
    "cuts": [{"want", "nth", "corners", "along", "off"}], "straight", "worth", "lost"}],
    "not_placed": [{"want", "count", "reason"}], "stopped"}; see cutplan/wanted.py.
    """
    return jsonify(_plans().of(plan).told())


@cutplans.delete("/api/offcuts/plan/<plan>")
def cancel(plan: str) -> Response:
    """Cancel a plan; it ends with the piece that is being looked at."""
    found = _plans().of(plan)
    found.cancelled.set()
    return jsonify(found.told())


def _task(session: Session, asked: dict[str, Any]) -> Task:
    from bucktail.offcuts.cutplan.wanted import Cutting, Stock, Task, Wanted
    from bucktail.offcuts.stock import (
        GRAINS,
        grain_of,
        metal_of_piece,
        out_of_stock,
        outline_of,
        reservation,
        why_not_metal,
    )
    from bucktail.offcuts.worth import Size

    pieces = _pieces(session, asked["pieces"])
    known = stored.offcuts(session)
    metals = {piece: metal_of_piece(state) for piece, state in pieces.items()}
    stock = []
    for one, state in known.items():
        gone = out_of_stock(one, state, known.get(state.get("parent") or ""))
        metal = None if gone else outline_of(state)
        if metal is not None:
            name = state.get("name") or ""
            stock.append(Stock(one, name, metal, grain_of(state), *reservation(state)))
    if len(stock) > MOST_OFFCUTS:
        raise Refused(
            422, "too many", f"A plan is made over at most {MOST_OFFCUTS:,} offcuts at a time."
        )
    wants = tuple(
        Wanted(
            piece,
            state["name"],
            state["a"]["nm"],
            state["b"]["nm"],
            state["count"],
            GRAINS[state["grain"]],
            frozenset({piece, *(state.get("for_parts") or ())}),
        )
        for piece, state in pieces.items()
    )
    return Task(
        wants,
        tuple(stock),
        Cutting(_kerf(session, asked["kerf_nm"]), asked["clearance_nm"]),
        tuple(Size(*size) for size in stored.sizes_asked(session)),
        lambda want, stock: why_not_metal(known[stock.id], metals[want.id]),
    )


def _kerf(session: Session, asked: int | None) -> int:
    """What a cut takes: as asked, else as the workshop says, else common practice (nm)."""
    if asked is not None:
        return asked
    said = sawing(session).get("kerf")
    if said:
        return int(said["nm"])
    unit = g.workshop.unit
    return next(one.nm for one in allowances() if (one.name, one.unit) == ("kerf", unit))


def _pieces(session: Session, named: list[str] | None) -> dict[str, dict[str, Any]]:
    """The pieces to plan for, by their ids."""
    wanted = stored.open_pieces(session)
    missing = [piece for piece in named or () if piece not in wanted]
    if missing:
        raise Refused(
            422, "pieces", f"{len(missing)} of these pieces are not wanted here, or made already."
        )
    pieces = {piece: wanted[piece] for piece in (wanted if named is None else named)}
    if not pieces:
        raise Refused(422, "pieces", "No piece is wanted. Say first what has to be made.")
    count = sum(state["count"] for state in pieces.values())
    if count > MOST_PIECES:
        raise Refused(
            422,
            "too many",
            f"These are {count:,} pieces; at most {MOST_PIECES} are planned at a time. Name some.",
        )
    return pieces
