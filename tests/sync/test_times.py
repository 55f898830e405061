"""The one time an event is read at."""

from __future__ import annotations

import hashlib

from hypothesis import given
from hypothesis import strategies as some

from bucktail.sync.times import chain_link, effective_time

moment = some.integers(min_value=0, max_value=2**45)


@given(moment, some.integers(-(2**45), 2**45), moment, moment)
def test_never_after_arrival_and_never_before_what_was_seen(
    at: int, offset: int, seen: int, received: int
) -> None:
    time = effective_time(at, offset, seen, received)
    assert time <= received
    assert time >= min(seen, received)
    if seen <= at + offset <= received:
        assert time == at + offset


def test_a_link_covers_all_that_was_added_and_received() -> None:
    parts = ("ab", 7, 1_000, 900, b"{}")
    link = chain_link(*parts)
    assert link == hashlib.sha256(b"ab|7|1000|900|{}").hexdigest()
    for at, other in enumerate(("ac", 8, 1_001, 901, b"{} ")):
        changed = [*parts[:at], other, *parts[at + 1 :]]
        assert chain_link(*changed) != link  # type: ignore[arg-type]
