"""The demo workshop is what the first page promises, and is never mistaken for a real one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import select
from sqlalchemy.orm import Session

from bucktail.commands.demo import MARK, make
from bucktail.events.fold import State
from bucktail.storage.cards import states
from bucktail.storage.opening import open_session, open_workshop
from bucktail.storage.rebuilding import rebuild
from bucktail.storage.tables import SetAside, StoredEvent
from bucktail.sync.wire.reading import read_event

DAY = 86_400_000


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "workshop"
    assert make(folder) > 600
    return folder


@pytest.fixture
def session(demo: Path) -> Iterator[Session]:
    with open_session(demo) as opened:
        yield opened


def things(session: Session, sort: str) -> list[State]:
    return [state for _, state in states(session, sort)]


def test_sixty_parts_in_four_assemblies_forty_three_offcuts_fifteen_places(
    session: Session,
) -> None:
    parts, places = things(session, "part"), things(session, "place")
    assert len(parts) == 60
    assert Counter(Counter(p["assembly"] for p in parts).values()) == {15: 4}
    forms = Counter(one["form"] for one in things(session, "offcut") if "cut" not in one)
    assert forms == {"sheet": 40, "angle": 2, "tube": 1}
    assert Counter(p["form"] == "assembly" for p in places) == {False: 15, True: 4}
    assert len(things(session, "line")) == 4


def test_a_year_of_history_and_nothing_refused(session: Session) -> None:
    times = session.execute(select(StoredEvent.effective_at)).scalars().all()
    assert max(times) - min(times) > 360 * DAY
    assert session.execute(select(SetAside)).first() is None


def test_something_to_do_again_to_look_at_and_to_settle(session: Session) -> None:
    parts = things(session, "part")
    assert any("a" in p["strip"] for p in parts)
    assert any("l" in p["strip"] for p in parts)
    assert any("p" in p["strip"] for p in parts)
    assert [len(a["values"]) for p in parts for a in p["answers"]] == [2]


def test_pieces_wanted_of_which_one_is_made(session: Session) -> None:
    wanted = things(session, "wanted")
    assert len(wanted) == 4
    made = [one["met"] for one in wanted if one.get("met")]
    assert len(made) == 1
    parts = dict(states(session, "part"))
    assert parts[made[0]]["name"] == "Root doubler"
    lines = dict(states(session, "line"))
    assert [lines[line]["line"]["name"] for one in wanted for line in one["lines"]] == [
        "Left skin to rear spar"
    ]


def test_an_offcut_that_was_cut_and_what_is_left_of_it(session: Session) -> None:
    offcuts = dict(states(session, "offcut"))
    ((whole, cut),) = ((one, state["cut"]) for one, state in offcuts.items() if "cut" in state)
    ((made,), (left,)) = cut[0]["made"], cut[0]["remnants"]
    assert offcuts[left]["parent"] == whole
    assert dict(states(session, "part"))[made["part"]]["name"] == made["name"] == "Root doubler"
    was, is_now = (offcuts[one]["shape"]["a"]["nm"] for one in (whole, left))
    assert was - is_now == round(2.75 * 25_400_000)


def test_a_line_with_segments_of_which_one_waits(session: Session) -> None:
    (line,) = (one for one in things(session, "line") if "segments" in one)
    assert line["unconfirmed"] == 1
    assert [one["count"] for one in line["segments"]] == [64, 12, 88]
    assert sum(one["count"] for one in line["segments"]) == line["line"]["count"]
    dashes = [(one["was_dash"], one["dash"]) for one in line["segments"]]
    assert dashes[0] == dashes[2] == (None, dashes[1][0])
    assert dashes[1][1] > dashes[1][0]
    named = {layer["part"] for one in line["segments"] for layer in one["layers"]}
    assert named - set(dict(states(session, "part"))) == {
        one for one, state in states(session, "wanted") if state["what"] == "shim"
    }


def test_sums_kept_that_this_computer_reckons_alike(session: Session) -> None:
    kept = [
        one for sort in ("part", "line") for t in things(session, sort) for one in t.get("sums", [])
    ]
    assert {one["sum"] for one in kept} == {"rivet", "edge"}
    assert all(one["verdict"] for one in kept)
    assert not any("judged" in one for one in kept)


def test_every_thing_but_the_assemblies_lies_somewhere(session: Session) -> None:
    assert all(p["place"] for p in things(session, "part"))
    assert all(o["place"] for o in things(session, "offcut"))


def test_cards_come_out_the_same_when_rebuilt(demo: Path) -> None:
    with open_workshop(demo) as session:
        count, different = rebuild(session, read_event)
    assert count > 120
    assert different == 0


def test_a_workshop_with_a_record_is_left_alone(demo: Path) -> None:
    assert (demo / MARK).exists()
    assert make(demo) == 0
