"""Measures what fits in outlines, beside the server: a process of its own, one outline at a time.

`Measuring` lives in the server's worker and only starts that process, so no request ever waits for
a measurement. The process ends when no outline waits, which costs nothing while nobody enters any.
Every curve is written by itself: what breaks off is measured again, and only that.
"""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
from collections.abc import Callable
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from typing import Any

from bucktail.storage import curves
from bucktail.storage.opening import open_session
from bucktail.storage.tables import Session

#: The curve of a shape, as it is kept. Raises CannotMeasure with a sentence.
Measure = Callable[[dict[str, Any]], str]
#: How much the process stands back behind all others (0 to 19, POSIX).
NICENESS = 15
#: An outline that takes longer than this (s) ends the process; the next try is a new one.
LONGEST_S = 600
BROKE_OFF = "measuring it broke off every time"


class CannotMeasure(Exception):
    """An outline of which it cannot be said what fits. The message says why."""


def measure_all(session: Session, measure: Measure, go_on: Callable[[], bool]) -> int:
    """Measure every outline that waits, as long as `go_on()`. Returns how many were dealt with."""
    done = 0
    while go_on():
        with session.begin():
            found = curves.take_next(session)
            if found is None:
                return done
            if found.tries >= curves.MOST_TRIES:
                curves.keep(session, found.event, curves.cannot(BROKE_OFF))
                continue
        text = _text_of(found.shape, measure)
        with session.begin():
            curves.keep(session, found.event, text)
        done += 1
    return done


def _text_of(shape: dict[str, Any], measure: Measure) -> str:
    """The curve, or why there is none. One that stumbles here would stumble every time."""
    _limit(LONGEST_S)
    try:
        return measure(shape)
    except CannotMeasure as problem:
        return curves.cannot(str(problem))
    except ImportError:  # no fault of the outline
        raise
    except Exception as problem:
        name = type(problem).__name__
        return curves.cannot(f"this version of Bucktail cannot work with it ({name})")
    finally:
        _limit(0)


def _limit(seconds: int) -> None:
    """End this process after so many seconds, compiled code or not; 0 takes that back."""
    if hasattr(signal, "alarm"):
        signal.alarm(seconds)


def fit_curve(shape: dict[str, Any]) -> str:
    """The fit curve of an outline as recorded, as the text that phones get."""
    kernel = import_module("bucktail.offcuts.fitting")
    outlines = import_module("bucktail.offcuts.outline")
    try:
        outline = outlines.outline(shape["outer"], shape["holes"])
    except outlines.OutlineFaulty as problem:
        raise CannotMeasure(str(problem)) from None
    text: str = kernel.measure(outline).to_json()
    return text


class Measuring:
    """Starts the process that measures, whenever it is told that outlines may wait."""

    def __init__(self, folder: Path) -> None:
        self.command = [sys.executable, "-m", "bucktail.workshop.measuring", str(folder.resolve())]
        self._lock = threading.Lock()
        self._asked = False
        self._thread: threading.Thread | None = None

    def wake(self) -> None:
        """Outlines may wait. Returns at once."""
        with self._lock:
            self._asked = True
            if self._thread is None:
                self._thread = threading.Thread(target=self._run, name="measuring", daemon=True)
                self._thread.start()

    def _run(self) -> None:
        while True:
            with self._lock:
                if not self._asked:
                    self._thread = None
                    return
                self._asked = False
            # one that ended by a signal was in the middle of an outline: the others still wait
            for _ in range(curves.MOST_TRIES + 1):
                if self._measured() >= 0:
                    break

    def _measured(self) -> int:
        """Let the process run to its end; the code it ended with, below zero for a signal."""
        with suppress(OSError):
            return subprocess.run(
                self.command, stdin=subprocess.DEVNULL, start_new_session=True, check=False
            ).returncode
        return 1


def main(folder: Path, measure: Measure = fit_curve) -> int:
    """Measure what waits in a workshop, standing back behind everything else on this computer."""
    with suppress(OSError, AttributeError):
        os.nice(NICENESS)
    server = os.getppid()
    with open_session(folder) as session:
        measure_all(session, measure, lambda: os.getppid() == server)
    return 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
