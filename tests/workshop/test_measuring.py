"""Measuring beside the server: every outline once, whatever breaks off in the middle."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

from bucktail.storage import curves
from bucktail.storage.opening import open_session
from bucktail.storage.tables import Session
from bucktail.workshop import measuring
from bucktail.workshop.measuring import CannotMeasure, Measuring, measure_all
from bucktail.workshop.recorder import Recorder
from running.oddstock import ell, odd, told_curve

ALWAYS = lambda: True  # noqa: E731


def enter(folder: Path, *sizes: int) -> None:
    """Odd offcuts are entered, told apart by their size in mm."""
    with open_session(folder) as session, session.begin():
        recorder = Recorder(session)
        for size in sizes:
            recorder.record("offcut.added.v1", odd(ell(size, size, size / 3, size / 3)))


def size_of(shape: dict[str, Any]) -> int:
    """The size in mm that an outline was entered with."""
    return max(x for x, _ in shape["outer"]) // 1_000_000


def told(session: Session) -> list[dict[str, Any]]:
    """What is kept, in the order it was."""
    session.rollback()
    return [json.loads(text) for _, _, text in curves.after(session, 0, 1000)]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "workshop"


def test_all_that_wait_are_measured_once(folder: Path) -> None:
    enter(folder, 30, 60, 90)
    seen = []
    with open_session(folder) as session:

        def measure(shape: dict[str, Any]) -> str:
            seen.append(size_of(shape))
            return told_curve(shape)

        assert measure_all(session, measure, ALWAYS) == 3
        assert measure_all(session, measure, ALWAYS) == 0
        assert sorted(seen) == [30, 60, 90]
        assert {one["area_um2"] for one in told(session)} == {10_000**2, 20_000**2, 30_000**2}


@pytest.mark.parametrize(
    ("problem", "why"),
    [
        (CannotMeasure("two sides cross"), "two sides cross"),
        (ZeroDivisionError(), "this version of Bucktail cannot work with it (ZeroDivisionError)"),
    ],
)
def test_one_that_cannot_be_measured_is_kept_with_its_reason(
    folder: Path, problem: Exception, why: str
) -> None:
    enter(folder, 30, 60)
    tried = []

    def measure(shape: dict[str, Any]) -> str:
        tried.append(shape)
        if size_of(shape) == 60:
            raise problem
        return told_curve(shape)

    with open_session(folder) as session:
        assert measure_all(session, measure, ALWAYS) == 2
        assert measure_all(session, measure, ALWAYS) == 0
        assert len(tried) == 2
        assert [one.get("why") for one in told(session)] == [why, None]


def test_a_broken_installation_is_no_fault_of_the_outline(folder: Path) -> None:
    enter(folder, 30)

    def measure(shape: dict[str, Any]) -> str:
        raise ImportError("no such library")

    with open_session(folder) as session:
        with pytest.raises(ImportError):
            measure_all(session, measure, ALWAYS)
        assert curves.waiting(session) == 1


def test_it_stops_between_two_when_the_server_is_gone(folder: Path) -> None:
    enter(folder, 30, 60, 90)
    answers = iter([True, True, False])
    with open_session(folder) as session:
        assert measure_all(session, told_curve, lambda: next(answers)) == 2
        assert curves.waiting(session) == 1


CHILD = """
import os, signal, sys, time
from pathlib import Path
sys.path[:0] = {path!r}
from bucktail.workshop import measuring
from running.oddstock import told_curve
size = lambda shape: max(x for x, _ in shape["outer"]) // 1_000_000
def measure(shape):
    with open({log!r}, "a") as log:
        log.write(f"{{size(shape)}}\\n")
    {body}
    return told_curve(shape)
measuring.LONGEST_S = 1
sys.exit(measuring.main(Path(sys.argv[1]), measure))
"""


def with_child(folder: Path, body: str) -> Measuring:
    """A measuring whose process does `body` with each outline; what it began is in began.log."""
    log = str(folder.parent / "began.log")
    code = CHILD.format(path=[p for p in sys.path if p], log=log, body=body)
    made = Measuring(folder)
    made.command = [sys.executable, "-c", code, str(folder)]
    return made


def began(folder: Path) -> list[int]:
    """The sizes of the outlines that were begun, in order."""
    log = folder.parent / "began.log"
    return [int(line) for line in log.read_text().split()] if log.exists() else []


def wait_until(folder: Path, waiting: int, seconds: float = 60) -> None:
    """Wait until so many outlines are left to measure."""
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        with open_session(folder) as session:
            left = curves.waiting(session)
            session.rollback()
        if left == waiting:
            return
        time.sleep(0.2)
    raise AssertionError(f"{left} are left to measure, not {waiting}; begun: {began(folder)}")


def test_a_process_that_dies_repeats_only_the_one_it_was_at(folder: Path) -> None:
    enter(folder, 30, 60, 90)
    once = f"""
    if size(shape) == 60 and not os.path.exists({str(folder.parent / "died")!r}):
        open({str(folder.parent / "died")!r}, "w").close()
        os.kill(os.getpid(), signal.SIGKILL)"""
    measuring_it = with_child(folder, once.strip())
    measuring_it.wake()
    wait_until(folder, 0)
    assert sorted(began(folder)) == [30, 60, 60, 90]
    with open_session(folder) as session:
        assert [one.get("why") for one in told(session)] == [None] * 3


def test_an_outline_that_ends_the_process_every_time_is_given_up(folder: Path) -> None:
    enter(folder, 30, 60)
    measuring_it = with_child(folder, "if size(shape) == 60: os.kill(os.getpid(), signal.SIGKILL)")
    measuring_it.wake()
    wait_until(folder, 0)
    assert sorted(began(folder)) == [30, 60, 60, 60]
    with open_session(folder) as session:
        assert [one.get("why") for one in told(session)] == [None, measuring.BROKE_OFF]


@pytest.mark.skipif(not hasattr(signal, "alarm"), reason="no alarms on this system")
def test_an_outline_that_takes_for_ever_is_given_up_too(folder: Path) -> None:
    enter(folder, 30)
    measuring_it = with_child(folder, "while True: pass")
    measuring_it.wake()
    wait_until(folder, 0)
    assert began(folder) == [30] * curves.MOST_TRIES


def test_waking_returns_at_once_and_what_came_meanwhile_is_measured_too(folder: Path) -> None:
    enter(folder, 30)
    measuring_it = with_child(folder, "time.sleep(0.3)")
    start = time.monotonic()
    measuring_it.wake()
    assert time.monotonic() - start < 0.2
    enter(folder, 60)
    measuring_it.wake()
    wait_until(folder, 0)
    assert sorted(began(folder)) == [30, 60]


def test_the_process_ends_when_its_server_is_killed(folder: Path) -> None:
    enter(folder, *range(30, 60))
    code = with_child(folder, "time.sleep(0.2)").command
    server = f"import subprocess; subprocess.run({code!r}, start_new_session=True)"
    with subprocess.Popen([sys.executable, "-c", server], start_new_session=True) as served:
        for _ in range(200):
            if began(folder):
                break
            time.sleep(0.1)
        os.kill(served.pid, signal.SIGKILL)
    time.sleep(1)
    so_far = len(began(folder))
    assert 0 < so_far < 30
    time.sleep(1)
    assert len(began(folder)) == so_far
