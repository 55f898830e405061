"""One address, chosen once: where it comes from, and what is said when it stops being true."""

from __future__ import annotations

import json
import socket
import threading

import pytest

from bucktail.workshop.errors import OriginError
from bucktail.workshop.machine import ThisMachine
from bucktail.workshop.origin import canonical_host, move, remembered, settle
from bucktail.workshop.ports import DEMO, OWN


def test_the_own_name_is_taken_when_it_leads_here(tmp_path, machine) -> None:
    machine.names["bench.local"] = {"192.168.1.20"}
    settled = settle(tmp_path, OWN, machine)
    assert (settled.origin.host, settled.origin.how) == ("bench.local", "name")
    assert settled.origin.url == "https://bench.local:8443"
    assert settled.origin.trust_url == "http://bench.local:8480/"
    assert settled.notes == ()


@pytest.mark.parametrize(
    "leads", [set(), {"192.168.1.99"}, {"127.0.0.1"}], ids=["nowhere", "elsewhere", "only here"]
)
def test_a_name_that_phones_could_not_use_is_not_taken(tmp_path, machine, leads) -> None:
    machine.names["bench.local"] = leads
    settled = settle(tmp_path, OWN, machine)
    assert (settled.origin.host, settled.origin.how) == ("192.168.1.20", "address")
    assert len(settled.notes) == 1
    assert "In your router, reserve that address" in settled.notes[0]


@pytest.mark.parametrize(
    ("called", "name"),
    [
        ("Bench.home.arpa", "bench.local"),
        ("bench.local", "bench.local"),
        ("BENCH-2", "bench-2.local"),
    ],
)
def test_the_name_is_the_first_part_in_lower_case(tmp_path, machine, called, name) -> None:
    machine.name, machine.names = called, {name: {"192.168.1.20"}}
    assert settle(tmp_path, OWN, machine).origin.host == name


@pytest.mark.parametrize("called", ["localhost", "", "my_bench", "-"])
def test_a_name_that_cannot_be_one_is_passed_over(tmp_path, machine, called) -> None:
    machine.name, machine.names = called, {f"{called}.local": {"192.168.1.20"}}
    assert settle(tmp_path, OWN, machine).origin.how == "address"


def test_what_the_person_gives_comes_first(tmp_path, machine) -> None:
    machine.names = {"bench.local": {"192.168.1.20"}, "shed.home.arpa": {"192.168.1.20"}}
    settled = settle(tmp_path, OWN, machine, given="Shed.Home.Arpa.")
    assert (settled.origin.host, settled.origin.how) == ("shed.home.arpa", "given")
    assert settled.notes == ()


def test_a_given_name_that_leads_elsewhere_is_kept_and_said(tmp_path, machine) -> None:
    notes = settle(tmp_path, OWN, machine, given="shed.local").notes
    assert len(notes) == 1
    assert "The name shed.local does not lead to this computer" in notes[0]


def test_localhost_is_for_this_computer_only(tmp_path, machine) -> None:
    settled = settle(tmp_path, DEMO, machine, given="localhost")
    assert settled.notes == ("Only this computer itself can open localhost; no phone can.",)
    assert settled.origin.certificate_names == ("localhost", "127.0.0.1", "::1")


def test_the_certificate_is_for_the_host_and_this_computer_and_not_for_todays_address(
    tmp_path, machine
) -> None:
    machine.names["bench.local"] = {"192.168.1.20"}
    names = settle(tmp_path, OWN, machine).origin.certificate_names
    assert names == ("bench.local", "localhost", "127.0.0.1", "::1")


def test_it_never_changes_by_itself(tmp_path, machine) -> None:
    first = settle(tmp_path, OWN, machine).origin
    machine.names["bench.local"] = {"192.168.1.20"}  # the name works from now on
    machine.addresses = {"192.168.1.77"}
    settled = settle(tmp_path, OWN, machine)
    assert settled.origin == first
    assert "no longer has the address 192.168.1.20" in settled.notes[0]
    assert "It has 192.168.1.77 now" in settled.notes[0]
    assert "reserve 192.168.1.20 for this computer" in settled.notes[0]


def test_a_name_that_stops_working_is_kept_and_said(tmp_path, machine) -> None:
    machine.names["bench.local"] = {"192.168.1.20"}
    first = settle(tmp_path, OWN, machine).origin
    machine.names, machine.name = {}, "newname"
    settled = settle(tmp_path, OWN, machine)
    assert settled.origin == first
    assert "still called bench. The address stays https://bench.local:8443" in settled.notes[0]


def test_the_reminder_to_reserve_comes_once(tmp_path, machine) -> None:
    assert settle(tmp_path, OWN, machine).notes
    assert settle(tmp_path, OWN, machine).notes == ()


def test_another_host_on_a_later_start_is_an_error_that_says_how(tmp_path, machine) -> None:
    settle(tmp_path, OWN, machine, given="bench.local")
    assert settle(tmp_path, OWN, machine, given="BENCH.local").origin.host == "bench.local"
    with pytest.raises(OriginError, match=r"know this workshop as bench\.local.*--move-to shed"):
        settle(tmp_path, OWN, machine, given="shed.local")
    assert remembered(tmp_path).host == "bench.local"


def test_other_ports_on_a_later_start_are_an_error(tmp_path, machine) -> None:
    settle(tmp_path, OWN, machine)
    with pytest.raises(OriginError, match="on ports 8443 and 8480, not 8543 and 8580"):
        settle(tmp_path, DEMO, machine)


def test_it_moves_when_asked(tmp_path, machine) -> None:
    settle(tmp_path, OWN, machine)
    machine.names["shed.local"] = {"192.168.1.20"}
    assert move(tmp_path, OWN, machine, "shed.local").notes == ()
    assert settle(tmp_path, OWN, machine).origin.url == "https://shed.local:8443"


def test_without_a_network_there_is_no_address(tmp_path, machine) -> None:
    machine.addresses = {"127.0.0.1"}
    with pytest.raises(OriginError, match="on no network"):
        settle(tmp_path, OWN, machine)
    assert remembered(tmp_path) is None


@pytest.mark.parametrize(
    "text",
    ["", "{}", "[]", '"x"', '{"host": "a b", "how": "name", "https_port": 1, "http_port": 2}'],
)
def test_a_damaged_file_is_not_replaced(tmp_path, machine, text) -> None:
    (tmp_path / "origin.json").write_text(text)
    with pytest.raises(OriginError, match=r"Put the file back from a copy"):
        settle(tmp_path, OWN, machine)
    assert (tmp_path / "origin.json").read_text() == text


def test_what_is_kept_is_plain_to_read(tmp_path, machine) -> None:
    settle(tmp_path, OWN, machine)
    assert json.loads((tmp_path / "origin.json").read_text()) == {
        "host": "192.168.1.20",
        "how": "address",
        "http_port": 8480,
        "https_port": 8443,
    }


@pytest.mark.parametrize(
    ("text", "host"),
    [
        (" Bench.Local. ", "bench.local"),
        ("192.168.1.20", "192.168.1.20"),
        ("[FD00:0:0::7]", "fd00::7"),
        ("bench", "bench"),
    ],
)
def test_a_host_is_written_one_way(text, host) -> None:
    assert canonical_host(text) == host


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("https://bench.local", "whole address"),
        ("bench.local:8443", "holds a port"),
        ("my_bench", "neither a host name nor an address"),
        ("192.168.1.300", "neither a host name nor an address"),
        ("", "neither a host name nor an address"),
        ("a" * 64, "neither a host name nor an address"),
        ("0.0.0.0", "No phone can open"),
        ("fe80::1", "No phone can open"),
        ("224.0.0.251", "No phone can open"),
        ("<script>", "neither a host name nor an address"),
    ],
)
def test_what_is_no_host_is_refused_with_a_sentence(text, said) -> None:
    with pytest.raises(OriginError, match=said):
        canonical_host(text)


def test_an_ipv6_host_stands_in_brackets(tmp_path, machine) -> None:
    machine.addresses = {"fd00::7"}
    origin = settle(tmp_path, OWN, machine, given="fd00::7").origin
    assert origin.url == "https://[fd00::7]:8443"
    assert origin.trust_url == "http://[fd00::7]:8480/"


def test_this_computer_knows_its_own_addresses() -> None:
    here = ThisMachine()
    assert here.has_address("127.0.0.1")
    assert not here.has_address("203.0.113.9")  # reserved for documentation, RFC 5737
    assert not here.has_address("0.0.0.0")
    assert not here.has_address("bench.local")
    assert here.host_name() == socket.gethostname()
    own = here.lan_address()
    assert own is None or here.has_address(own)
    assert "127.0.0.1" in here.look_up("localhost")


def test_a_name_that_leads_nowhere_has_no_addresses(monkeypatch) -> None:
    def unknown(*_: object, **__: object) -> None:
        raise socket.gaierror(socket.EAI_NONAME, "Name or service not known")

    monkeypatch.setattr(socket, "getaddrinfo", unknown)
    assert ThisMachine().look_up("bench.local") == frozenset()


def test_a_name_server_that_never_answers_is_given_up(monkeypatch) -> None:
    answered = threading.Event()
    monkeypatch.setattr("bucktail.workshop.machine.SECONDS_FOR_A_NAME", 0.05)
    monkeypatch.setattr(socket, "getaddrinfo", lambda *_, **__: answered.wait(5) and [])
    assert ThisMachine().look_up("slow.example") == frozenset()
    answered.set()
