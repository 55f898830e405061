"""Making blank tags, and the words that go beside a tag on paper."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from pathlib import Path

from bucktail.storage.codes import all_codes
from bucktail.storage.opening import open_workshop
from bucktail.tags.code import new_code
from bucktail.workshop.recorder import Recorder

#: One run is one record on the phone; a longer one is recorded as several.
RUN = 500


def record_new_tags(
    folder: Path, count: int, draw: Callable[[int], int] = secrets.randbelow
) -> list[str]:
    """Make `count` blank tags in the workshop (made if absent), record them, return the codes."""
    with open_workshop(folder) as session:
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
