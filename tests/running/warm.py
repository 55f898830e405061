"""Starts `bucktail` commands from a process that has imported the program already.

Importing the libraries takes longer than everything else that a server does before it answers, and
most browser tests start a server of their own. What runs is the command itself, in a process of
its own, forked here; a test that wants another copy of the program starts it without this.
"""

from __future__ import annotations

import contextlib
import json
import os
import signal
import subprocess
import sys
import time
from functools import lru_cache
from pathlib import Path
from typing import NoReturn


class Forked:
    """One running command. The warm process is its parent, so the end is seen from outside."""

    def __init__(self, pid: int) -> None:
        self.pid = pid

    def poll(self) -> int | None:
        """None while it runs."""
        return None if Path(f"/proc/{self.pid}").exists() else 0

    def send_signal(self, how: int) -> None:
        """Send a signal; nothing happens where it has ended."""
        with contextlib.suppress(ProcessLookupError):
            os.kill(self.pid, how)

    def wait(self, timeout: float) -> None:
        """Wait for its end at most `timeout` s; raises TimeoutError."""
        until = time.monotonic() + timeout
        while self.poll() is None:
            if time.monotonic() > until:
                raise TimeoutError(f"process {self.pid} did not end within {timeout} s")
            time.sleep(0.01)


@lru_cache(maxsize=1)
def _warm() -> subprocess.Popen[str]:
    """The warm process of this test process; it ends when this one does, as its input ends."""
    return subprocess.Popen(
        [sys.executable, __file__], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )


def start(words: list[str], log: Path) -> Forked:
    """Run `bucktail WORDS`, with what it prints added to the file `log`."""
    warm = _warm()
    assert warm.stdin is not None
    assert warm.stdout is not None
    warm.stdin.write(json.dumps([words, str(log)]) + "\n")
    warm.stdin.flush()
    return Forked(int(warm.stdout.readline()))


def _become(words: list[str], log: str) -> NoReturn:
    """In the forked process: run the command and end."""
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    written = os.open(log, os.O_WRONLY | os.O_CREAT | os.O_APPEND)
    os.dup2(os.open(os.devnull, os.O_RDONLY), 0)
    os.dup2(written, 1)
    os.dup2(written, 2)
    code = 1
    try:
        code = sys.modules["bucktail.cli"].main(words)
    finally:
        sys.stdout.flush()
        os._exit(code)


def _answer() -> None:
    import bucktail.app
    import bucktail.cli
    import bucktail.commands.serve  # noqa: F401

    # the ended are forgotten at once: nobody here waits for them
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    for line in iter(sys.stdin.readline, ""):
        words, log = json.loads(line)
        pid = os.fork()
        if not pid:
            _become(words, log)
        print(pid, flush=True)


if __name__ == "__main__":
    _answer()
