"""Making blank tags, and the words that go beside a tag on paper."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from pathlib import Path

from bucktail.events.fold import State
from bucktail.offcuts.sections import section_words
from bucktail.rules.lengths import Unit, show_thickness
from bucktail.storage.cards import state_of
from bucktail.storage.codes import all_codes, thing_of
from bucktail.storage.opening import open_workshop
from bucktail.storage.settings import ensure_workshop
from bucktail.storage.tables import Session
from bucktail.tags.code import new_code
from bucktail.tags.typeset import LabelText
from bucktail.workshop.recorder import Recorder

#: One run is one record on the phone; a longer one is recorded as several.
RUN = 500


def record_new_tags(
    folder: Path, count: int, draw: Callable[[int], int] = secrets.randbelow
) -> list[str]:
    """Make `count` blank tags in the workshop (made if absent), record them, return the codes."""
    with open_workshop(folder) as session:
        return make_tags(session, count, draw)


def make_tags(
    session: Session, count: int, draw: Callable[[int], int] = secrets.randbelow
) -> list[str]:
    """Make `count` blank tags and record them; the caller owns the transaction."""
    taken = all_codes(session)
    made: list[str] = []
    for _ in range(count):
        code = new_code(draw, taken)
        taken.add(code)
        made.append(code)
    recorder = Recorder(session)
    for start in range(0, count, RUN):
        recorder.record("tag.printed.v1", {"codes": made[start : start + RUN]})
    return made


def names_for(folder: Path, codes: list[str]) -> dict[str, LabelText]:
    """What stands beside each code that is attached to something; blank codes are left out."""
    with open_workshop(folder) as session:
        return texts_for(session, codes)


def texts_for(session: Session, codes: list[str]) -> dict[str, LabelText]:
    """As `names_for`, in an open session."""
    unit = ensure_workshop(session).unit
    texts = {}
    for code in codes:
        thing = thing_of(session, code)
        state = state_of(session, thing) if thing else None
        if state:
            texts[code] = _label(state, "mm" if unit == "mm" else "in")
    return texts


def _label(state: State, unit: Unit) -> LabelText:
    """A part's name and number; an offcut's metal, section, thickness, and its grain."""
    if state["sort"] != "offcut":
        return LabelText(state.get("name") or "", tuple(filter(None, [state.get("number")])))
    metal = "-".join(filter(None, [state.get("alloy"), state.get("temper")])) or "metal not known"
    if state["clad"] != "unknown":
        metal += f" {state['clad']}"
    thickness = show_thickness(state["thickness"]["nm"], unit)
    if state["measured"] == "over film":
        thickness += " over film"
    name = state.get("name") or ""
    section = section_words(state, unit)
    what = (section, f"wall {thickness}") if section else (thickness,)
    detail = (metal, *what) if name else what
    return LabelText(name or metal, detail, grain_arrow=state["grain"] != "unknown")
