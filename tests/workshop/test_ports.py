"""A port that the phones know is opened or the reason is said; it is never swapped for another."""

from __future__ import annotations

import socket
import sys

import pytest

from bucktail.workshop.errors import PortError
from bucktail.workshop.ports import DEMO, OWN, require_free_port


def test_the_fixed_ports_do_not_meet() -> None:
    assert (OWN.https, OWN.http, DEMO.https, DEMO.http) == (8443, 8480, 8543, 8580)


def test_a_taken_port_says_who_holds_it_and_what_to_do() -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        with pytest.raises(PortError) as caught:
            require_free_port("127.0.0.1", port)
    said = str(caught.value)
    assert f"Port {port} is taken by" in said
    assert "already running" in said
    assert "not changed by itself" in said
    if sys.platform == "linux":
        assert "(process " in said
    require_free_port("127.0.0.1", port)


def test_every_address_is_taken_when_one_of_them_is() -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        if sys.platform == "linux":  # elsewhere the wildcard address may be bound beside it
            with pytest.raises(PortError, match="is taken by"):
                require_free_port("0.0.0.0", port)


def test_a_port_that_was_just_left_counts_as_free() -> None:
    with socket.create_server(("127.0.0.1", 0)) as server:
        port = server.getsockname()[1]
        with socket.create_connection(("127.0.0.1", port)) as client:
            accepted, _ = server.accept()
            accepted.close()  # closed by the server first: its side lingers (TIME_WAIT)
            assert client.recv(1) == b""
    require_free_port("127.0.0.1", port)


@pytest.mark.parametrize("port", [70000, -1])
def test_a_number_that_is_no_port(port) -> None:
    with pytest.raises(PortError, match="Choose a port from 1024 to 65535"):
        require_free_port("127.0.0.1", port)


def test_an_address_of_another_computer() -> None:
    with pytest.raises(PortError, match="not an address of this computer"):
        require_free_port("203.0.113.9", 8443)
