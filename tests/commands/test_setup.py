"""The address and the certificates change only when asked, and then the phones are told how."""

from __future__ import annotations

import json
import re
import socket
from datetime import UTC, datetime

import pytest

from bucktail.workshop import authority, origin
from bucktail.workshop.machine import ThisMachine
from bucktail.workshop.ports import Ports


@pytest.fixture
def settled(folder):
    """A workshop that was started once, as localhost, on ports that nothing listens on."""
    free = []
    for _ in range(2):
        with socket.socket() as trial:
            trial.bind(("127.0.0.1", 0))
            free.append(trial.getsockname()[1])
    at = origin.settle(folder, Ports(*free), ThisMachine(), "localhost").origin
    authority.ensure(folder, at.certificate_names, datetime.now(UTC))
    return at


def fingerprint(folder) -> str:
    return authority.fingerprint(authority.paths_in(folder))


def shown_fingerprint(text: str) -> str:
    return " ".join(re.findall(r"\b[0-9A-F]{4}\b(?= |$)", text, re.MULTILINE))[:79]


def test_without_an_option_everything_is_shown_and_nothing_changed(
    bucktail, folder, settled
) -> None:
    before = fingerprint(folder)
    said = bucktail("setup", "--workshop", folder)
    assert said.code == 0
    assert settled.url in said.out
    assert settled.trust_url in said.out
    assert shown_fingerprint(said.out) == before == fingerprint(folder)


def test_before_the_first_start_there_is_nothing_to_show(bucktail, folder) -> None:
    said = bucktail("setup", "--workshop", folder)
    assert said.code == 1
    assert "has no address yet" in said.err


def test_a_new_authority_replaces_the_old_one_and_says_what_each_device_needs(
    bucktail, folder, settled
) -> None:
    before = fingerprint(folder)
    said = bucktail("setup", "--new-authority", "--workshop", folder)
    assert said.code == 0
    assert fingerprint(folder) != before
    assert shown_fingerprint(said.out) == fingerprint(folder)
    assert "Take off the old authority" in said.out
    assert origin.remembered(folder) == settled
    aside = next(folder.glob("authority-until-*"))
    assert not list(aside.glob("*.key"))


def test_moving_changes_the_address_and_makes_an_authority_that_can_vouch_for_it(
    bucktail, folder, settled
) -> None:
    said = bucktail("setup", "--move-to", "bench.local", "--workshop", folder)
    assert said.code == 0
    kept = json.loads((folder / "origin.json").read_text())
    assert kept["host"] == "bench.local"
    assert (kept["https_port"], kept["http_port"]) == (settled.https_port, settled.http_port)
    paths = authority.paths_in(folder)
    assert "bench.local" in authority.vouched_names(paths)
    assert "outbox import" in said.out
    again = bucktail("setup", "--move-to", "Bench.local", "--workshop", folder)
    assert "already know" in again.out


@pytest.mark.parametrize("name", ["https://bench.local", "a b", "0.0.0.0", "bench.local:8443", ""])
def test_a_name_that_cannot_be_one_changes_nothing(bucktail, folder, settled, name) -> None:
    before = fingerprint(folder)
    said = bucktail("setup", "--move-to", name, "--workshop", folder)
    assert said.code == 1
    assert said.err
    assert (origin.remembered(folder), fingerprint(folder)) == (settled, before)


@pytest.mark.parametrize("words", [["--new-authority"], ["--move-to", "bench.local"]])
def test_a_workshop_that_runs_is_not_changed_under_the_phones(
    bucktail, folder, settled, words
) -> None:
    before = fingerprint(folder)
    with socket.create_server(("127.0.0.1", settled.https_port)):
        said = bucktail("setup", *words, "--workshop", folder)
    assert said.code == 1
    assert "Stop it first" in said.err
    assert (origin.remembered(folder), fingerprint(folder)) == (settled, before)


def test_a_damaged_address_file_is_mended_by_naming_the_address_again(
    bucktail, folder, settled
) -> None:
    (folder / "origin.json").write_text("{")
    said = bucktail("setup", "--workshop", folder)
    assert (said.code, "--move-to" in said.err) == (1, True)
    # whichever ports are usual may be taken on a computer that runs a workshop
    said = bucktail("setup", "--move-to", "localhost", "--workshop", folder)
    if "in use" not in said.err:
        assert said.code == 0
        assert origin.remembered(folder).host == "localhost"
