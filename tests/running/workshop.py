"""A workshop served by the real command on loopback, which can be stopped, killed and restarted."""

from __future__ import annotations

import os
import secrets
import signal
import socket
import ssl
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

from bucktail.storage.ids import uuid7
from bucktail.storage.opening import open_session
from bucktail.storage.pairing_store import StoredPairings
from bucktail.workshop.authority import paths_in, spki_pin
from bucktail.workshop.pairing import Offer, PairingDesk
from running import warm


def free_port() -> int:
    """A port that nothing listens on just now."""
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        return int(trial.getsockname()[1])


def now_ms() -> int:
    """UTC ms."""
    return int(time.time() * 1000)


class Workshop:
    """A served workshop. The ports stay the same over restarts, as they do for the phones."""

    def __init__(self, folder: Path, *options: str) -> None:
        self.folder = folder
        self.options = options
        self.port, self.trust_port = free_port(), free_port()
        self.process: subprocess.Popen[str] | warm.Forked | None = None
        self.program: Path | None = None  # a folder with another copy of the program to serve with

    @property
    def url(self) -> str:
        """The address, without a slash at the end."""
        return f"https://localhost:{self.port}"

    @property
    def pin(self) -> str:
        """What Chromium is told to trust: the SHA-256 of the server certificate's key."""
        return spki_pin(paths_in(self.folder))

    def start(self) -> None:
        """Serve, and wait until it answers."""
        words = ["serve", "--workshop", str(self.folder), "--port", str(self.port)]
        words += ["--http-port", str(self.trust_port), "--host", "localhost"]
        words += ["--bind", "127.0.0.1", *self.options]
        log = self.folder.parent / f"{self.folder.name}.log"
        self.process = self._cold(words, log) if self.program else warm.start(words, log)
        context = ssl._create_unverified_context()
        for _ in range(400):
            if self.process.poll() is not None:
                raise RuntimeError(log.read_text())
            try:
                urllib.request.urlopen(f"{self.url}/", context=context, timeout=2).close()
                return
            except OSError:
                time.sleep(0.05)
        raise RuntimeError("the workshop did not answer within 20 s")

    def _cold(self, words: list[str], log: Path) -> subprocess.Popen[str]:
        """Serve with the other copy of the program."""
        with log.open("a") as written:
            return subprocess.Popen(
                [sys.executable, "-m", "bucktail.cli", *words],
                stdin=subprocess.DEVNULL,
                stdout=written,
                stderr=written,
                text=True,
                env={**os.environ, "PYTHONPATH": str(self.program)},
            )

    def stop(self) -> None:
        """Stop as Ctrl-C does."""
        self._end(signal.SIGINT)

    def kill(self) -> None:
        """Stop as a power cut does, the server's worker process included."""
        if self.process is None:
            return
        children = Path(f"/proc/{self.process.pid}/task/{self.process.pid}/children")
        for child in children.read_text().split():
            os.kill(int(child), signal.SIGKILL)
        self._end(signal.SIGKILL)

    def _end(self, how: signal.Signals) -> None:
        if self.process is not None:
            self.process.send_signal(how)
            self.process.wait(timeout=20)
            self.process = None

    def offer(self) -> Offer:
        """Open a pairing, as the command does when it starts."""
        with open_session(self.folder) as session:
            desk = PairingDesk(
                StoredPairings(session), now_ms, secrets.token_bytes, lambda: uuid7(now_ms())
            )
            return desk.start()
