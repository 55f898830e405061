"""`bucktail serve` and `bucktail pair` as they run in a terminal: codes at will, clear refusals."""

from __future__ import annotations

import json
import os
import pty
import re
import secrets
import socket
import ssl
import subprocess
import sys
import time
import urllib.error
import urllib.request
import uuid
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from running.workshop import Workshop, free_port

CODE = re.compile(r"to type   ([0-9A-Z]{4} [0-9A-Z]{4})")


class Terminal:
    """`bucktail serve` in a terminal, or with a pipe for its input."""

    def __init__(self, folder: Path, in_terminal: bool) -> None:
        self.port = free_port()
        command = [sys.executable, "-m", "bucktail.cli", "serve", "--workshop", str(folder)]
        command += ["--host", "localhost", "--bind", "127.0.0.1", "--port", str(self.port)]
        command += ["--http-port", str(free_port())]
        self.log = folder.parent / "serve.log"
        self.typing, given = pty.openpty() if in_terminal else reversed(os.pipe())
        with self.log.open("w") as log:
            self.process = subprocess.Popen(command, stdin=given, stdout=log, stderr=log)
        os.close(given)

    def codes(self, count: int) -> list[str]:
        """Wait for so many pairing codes and return them."""
        for _ in range(200):
            found = CODE.findall(self.log.read_text())
            if len(found) >= count:
                return found
            assert self.process.poll() is None, self.log.read_text()
            time.sleep(0.1)
        raise AssertionError(self.log.read_text())

    def press_enter(self) -> None:
        os.write(self.typing, b"\n")

    def pair(self, code: str) -> int:
        """Join with a code as a browser does; the HTTP status."""
        said = {"answer": code, "device": str(uuid.uuid4()), "device_name": "phone"}
        said["person_name"] = "Sam"
        asked = urllib.request.Request(
            f"https://localhost:{self.port}/api/pair",
            json.dumps(said).encode(),
            {"Content-Type": "application/json"},
        )
        for _ in range(100):
            try:
                with urllib.request.urlopen(
                    asked, context=ssl._create_unverified_context(), timeout=5
                ) as answer:
                    return int(answer.status)
            except urllib.error.HTTPError as problem:
                return problem.code
            except OSError:
                time.sleep(0.1)
        raise AssertionError("the workshop does not answer")

    def stop(self) -> None:
        self.process.terminate()
        self.process.wait(timeout=20)
        os.close(self.typing)


@pytest.fixture
def serve(folder: Path) -> Iterator[Callable[[bool], Terminal]]:
    started: list[Terminal] = []

    def start(in_terminal: bool) -> Terminal:
        started.append(Terminal(folder, in_terminal))
        return started[-1]

    yield start
    for one in started:
        one.stop()


@pytest.mark.parametrize("in_terminal", [True, False], ids=["terminal", "pipe"])
def test_each_enter_prints_another_code_that_pairs_one_device(serve, in_terminal) -> None:
    running = serve(in_terminal)
    (first,) = running.codes(1)
    assert running.pair(first) == 200
    assert running.pair(first) in (403, 410)
    running.press_enter()
    codes = running.codes(2)
    assert len(set(codes)) == 2
    assert running.pair(codes[1]) == 200
    assert ("Press Enter" in running.log.read_text()) == in_terminal


def test_pair_opens_another_pairing_beside_a_running_workshop(serve, bucktail, folder) -> None:
    running = serve(False)
    assert running.pair(running.codes(1)[0]) == 200
    said = bucktail("pair", "--workshop", folder)
    assert (said.code, said.err) == (0, "")
    assert f"https://localhost:{running.port}/#pair=" in said.out
    assert "Fingerprint" in said.out
    assert running.pair(CODE.search(said.out)[1]) == 200


def test_pair_says_when_nothing_is_served(bucktail, tmp_path) -> None:
    served = Workshop(tmp_path / "w")
    served.start()
    served.stop()
    said = bucktail("pair", "--workshop", tmp_path / "w")
    assert said.code == 0
    assert CODE.search(said.out)
    assert "not being served" in said.err


def test_pair_before_the_first_start_names_the_command_to_use(bucktail, folder) -> None:
    said = bucktail("pair", "--workshop", folder)
    assert said.code == 1
    assert "bucktail serve" in said.err


@pytest.mark.parametrize("which", ["--port", "--http-port"])
def test_a_taken_port_is_said_before_anything_else(bucktail, tmp_path, which) -> None:
    given = {"--port": free_port(), "--http-port": free_port()}
    with socket.create_server(("127.0.0.1", given[which])):
        words = [str(word) for pair in given.items() for word in pair]
        said = bucktail(
            "serve", "--workshop", tmp_path / "w", "--host", "localhost", "--bind", "127.0.0.1",
            *words,
        )  # fmt: skip
    assert said.code == 1
    assert said.out == ""
    assert f"Port {given[which]} is taken by" in said.err
    assert "start again" in said.err


def test_a_workshop_on_other_ports_is_started_again_without_naming_them(tmp_path) -> None:
    served = Workshop(tmp_path / "w")
    served.start()
    served.stop()
    command = [sys.executable, "-m", "bucktail.cli", "serve", "--workshop", str(tmp_path / "w")]
    again = subprocess.Popen(command, stdout=subprocess.PIPE, stdin=subprocess.DEVNULL, text=True)
    try:
        assert again.stdout.readline() == f"Bucktail is at {served.url}\n"
    finally:
        again.terminate()
        again.wait(timeout=20)
        again.stdout.close()


def test_a_folder_that_cannot_be_made(bucktail, tmp_path) -> None:
    (tmp_path / "file").write_text(secrets.token_hex(4))
    said = bucktail("serve", "--workshop", tmp_path / "file" / "w")
    assert said.code == 1
    assert "cannot be made" in said.err
