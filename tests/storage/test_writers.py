"""Many writers at once: every entry gets the next position, and the chain does not break."""

from __future__ import annotations

import multiprocessing
import threading
from collections import Counter
from pathlib import Path

from sqlalchemy import select

from bucktail.storage.chain import check_chain
from bucktail.storage.rebuilding import rebuild
from bucktail.storage.tables import Session, StoredEvent
from running.writer import EACH, PUSHES, write

WRITERS = 4


def check(session: Session) -> None:
    """Everything arrived once, in the order each wrote it, and the record is sound."""
    rows = session.execute(select(StoredEvent).order_by(StoredEvent.position)).scalars().all()
    assert [row.position for row in rows] == list(range(1, WRITERS * PUSHES * EACH + 1))
    assert set(Counter(row.device for row in rows).values()) == {PUSHES * EACH}
    for device in {row.device for row in rows}:
        assert [row.seq for row in rows if row.device == device] == list(
            range(1, PUSHES * EACH + 1)
        )
    assert check_chain(session) == []
    assert rebuild(session) == (1, 0)


def test_threads(session: Session, folder: Path) -> None:
    ready = threading.Barrier(WRITERS)
    threads = [
        threading.Thread(target=write, args=(folder, number, ready)) for number in range(WRITERS)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    check(session)


def test_processes(session: Session, folder: Path) -> None:
    spawn = multiprocessing.get_context("spawn")
    processes = [spawn.Process(target=write, args=(folder, number)) for number in range(WRITERS)]
    for process in processes:
        process.start()
    for process in processes:
        process.join(timeout=120)
    assert [process.exitcode for process in processes] == [0] * WRITERS
    check(session)
