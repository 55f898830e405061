"""A small plain-http server for the trust page only, beside the real one."""

from __future__ import annotations

import os
import socket
import threading
from dataclasses import dataclass
from socketserver import TCPServer, ThreadingMixIn
from typing import Any
from wsgiref.simple_server import WSGIRequestHandler, WSGIServer

from bucktail.workshop.errors import PortError
from bucktail.workshop.ports import family_of, require_free_port
from bucktail.workshop.trustpage import WsgiApp

AT_ONCE = 16
SECONDS_TO_ASK = 10


class _Handler(WSGIRequestHandler):
    """Answers one request and closes; says nothing in the log, and nothing about itself."""

    timeout = SECONDS_TO_ASK

    def version_string(self) -> str:
        return "Bucktail"

    def log_message(self, format: str, *args: Any) -> None:
        pass

    def handle(self) -> None:
        try:
            super().handle()
        except OSError:  # the phone went away or never asked
            self.close_connection = True


class _Server(ThreadingMixIn, WSGIServer):
    """Threads, but never more than `AT_ONCE`: more phones wait their turn."""

    daemon_threads = True
    allow_reuse_address = os.name != "nt"
    request_queue_size = 32

    def __init__(self, address: tuple[str, int], app: WsgiApp) -> None:
        self.address_family = family_of(address[0])
        self._places = threading.BoundedSemaphore(AT_ONCE)
        super().__init__(address, _Handler)
        self.set_app(app)

    def server_bind(self) -> None:
        """Bind without asking a name server what this computer is called."""
        if self.address_family == socket.AF_INET6 and self.server_address[0] == "::":
            self.socket.setsockopt(socket.IPPROTO_IPV6, socket.IPV6_V6ONLY, 0)
        TCPServer.server_bind(self)
        self.server_name, self.server_port = "bucktail", self.server_address[1]
        self.setup_environ()

    def process_request(self, request: Any, client_address: Any) -> None:
        self._places.acquire()
        try:
            super().process_request(request, client_address)
        except BaseException:
            self._places.release()
            raise

    def process_request_thread(self, request: Any, client_address: Any) -> None:
        try:
            super().process_request_thread(request, client_address)
        finally:
            self._places.release()

    def handle_error(self, request: Any, client_address: Any) -> None:
        pass


@dataclass(frozen=True)
class TrustServer:
    """A running trust page. It ends with the program, or by `stop`."""

    port: int
    _server: _Server
    _thread: threading.Thread

    def stop(self) -> None:
        """Stop listening, and wait until the port is free again."""
        self._server.shutdown()
        self._thread.join()
        self._server.server_close()


def serve_trust(host: str, port: int, app: WsgiApp) -> TrustServer:
    """Serve the trust page in a thread that does not keep the program alive.

    Port 0 takes any free port (tests). Raises PortError with a sentence when it is taken.
    """
    if port:
        require_free_port(host, port)
    try:
        server = _Server((host, port), app)
    except OSError as error:
        raise PortError(f"The trust page cannot be served on port {port}: {error}.") from error
    thread = threading.Thread(target=server.serve_forever, name="trust page", daemon=True)
    thread.start()
    return TrustServer(server.server_port, server, thread)
