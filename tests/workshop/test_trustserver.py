"""The small server beside the real one: it answers, it waits for nobody, it stops."""

from __future__ import annotations

import http.client
import socket
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest

from bucktail.workshop.errors import PortError
from bucktail.workshop.ports import require_free_port
from bucktail.workshop.trustserver import TrustServer, serve_trust


def said(environ: dict[str, Any], start_response: Callable[..., Any]) -> list[bytes]:
    body = environ["PATH_INFO"].encode()
    start_response("200 OK", [("Content-Length", str(len(body))), ("Server", "Bucktail")])
    return [body]


@pytest.fixture
def server() -> Iterator[TrustServer]:
    running = serve_trust("127.0.0.1", 0, said)
    yield running
    running.stop()


def get(port: int, path: str = "/") -> http.client.HTTPResponse:
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=10)
    connection.request("GET", path)
    return connection.getresponse()


def test_it_answers_and_says_nothing_about_itself(server, capfd) -> None:
    answer = get(server.port, "/x")
    assert (answer.status, answer.read()) == (200, b"/x")
    assert answer.headers.get_all("Server") == ["Bucktail"]
    assert capfd.readouterr() == ("", "")


def test_a_phone_that_connects_and_says_nothing_keeps_nobody_waiting(server) -> None:
    with socket.create_connection(("127.0.0.1", server.port)):
        assert get(server.port).status == 200


def test_more_phones_than_places_all_get_an_answer(server) -> None:
    with ThreadPoolExecutor(40) as pool:
        assert {answer.status for answer in pool.map(lambda _: get(server.port), range(80))} == {
            200
        }


@pytest.mark.parametrize("rubbish", [b"\x16\x03\x01\x02", b"GET\r\n\r\n", b"GET " + b"/" * 70000])
def test_rubbish_does_not_stop_it(server, capfd, rubbish) -> None:
    with socket.create_connection(("127.0.0.1", server.port)) as client:
        client.sendall(rubbish)
    assert get(server.port).status == 200
    assert "Traceback" not in capfd.readouterr().err


def test_it_stops_and_frees_its_port() -> None:
    server = serve_trust("127.0.0.1", 0, said)
    assert get(server.port).read() == b"/"
    server.stop()
    require_free_port("127.0.0.1", server.port)
    assert [t.name for t in threading.enumerate() if t.name == "trust page"] == []


def test_a_taken_port_is_an_error_and_not_another_port(server) -> None:
    with pytest.raises(PortError, match=f"Port {server.port} is taken"):
        serve_trust("127.0.0.1", server.port, said)


def test_it_does_not_keep_the_program_alive(server) -> None:
    assert all(t.daemon for t in threading.enumerate() if t.name == "trust page")


@pytest.mark.skipif(not socket.has_ipv6, reason="this computer has no IPv6")
def test_all_addresses_of_both_kinds() -> None:
    server = serve_trust("::", 0, said)
    try:
        assert get(server.port).status == 200  # over IPv4
        with socket.create_connection(("::1", server.port), timeout=10) as client:
            client.sendall(b"GET /six HTTP/1.0\r\n\r\n")
            assert client.makefile("rb").read().endswith(b"/six")
    finally:
        server.stop()
