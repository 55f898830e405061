"""The certificates in a real handshake on loopback, with Python's own server and client."""

from __future__ import annotations

import socket
import ssl
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import pytest
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric import ec

from bucktail.workshop.authority import Paths, ensure, kept_authority
from bucktail.workshop.certificates import new_leaf, parsed_names

NAMES = ("bench.local", "localhost", "127.0.0.1", "::1")


@contextmanager
def answering(chain: Path, key: Path) -> Iterator[int]:
    """A TLS server on loopback that answers one greeting a connection; gives its port."""
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(chain, key)
    with socket.create_server(("127.0.0.1", 0)) as listener:

        def serve() -> None:
            while True:
                try:
                    plain, _ = listener.accept()
                except OSError:
                    return
                try:
                    with context.wrap_socket(plain, server_side=True) as secured:
                        secured.sendall(b"hello")
                except OSError:
                    plain.close()

        thread = threading.Thread(target=serve, daemon=True)
        thread.start()
        try:
            yield listener.getsockname()[1]
        finally:
            listener.shutdown(socket.SHUT_RDWR)
            thread.join(5)


def greet(port: int, name: str, trusted: Path | None) -> bytes:
    context = ssl.create_default_context(cafile=trusted)
    with (
        socket.create_connection(("127.0.0.1", port), timeout=10) as plain,
        context.wrap_socket(plain, server_hostname=name) as secured,
    ):
        return secured.recv(16)


@pytest.fixture
def paths(tmp_path: Path) -> Paths:
    return ensure(tmp_path, NAMES, datetime.now(UTC))


@pytest.mark.parametrize("name", NAMES)
def test_a_client_that_trusts_the_authority_gets_in(paths, name) -> None:
    with answering(paths.chain, paths.key) as port:
        assert greet(port, name, paths.ca) == b"hello"


def test_a_client_that_does_not_is_kept_out(paths) -> None:
    with (
        answering(paths.chain, paths.key) as port,
        pytest.raises(ssl.SSLCertVerificationError, match=r"self.signed certificate in"),
    ):
        greet(port, "bench.local", None)


def test_another_name_for_the_same_server_is_refused(paths) -> None:
    with (
        answering(paths.chain, paths.key) as port,
        pytest.raises(ssl.SSLCertVerificationError, match="Hostname mismatch"),
    ):
        greet(port, "shed.local", paths.ca)


def test_a_stolen_key_could_not_pass_for_a_bank(paths, tmp_path) -> None:
    key = serialization.load_pem_private_key(paths.ca.with_name("ca.key").read_bytes(), None)
    own = ec.generate_private_key(ec.SECP256R1())
    names = parsed_names(["bank.example"])
    leaf = new_leaf(kept_authority(paths), key, own.public_key(), names, datetime.now(UTC))
    pem, pkcs8, bare = (
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )
    chain, stolen = tmp_path / "bank.crt", tmp_path / "bank.key"
    chain.write_bytes(leaf.public_bytes(pem) + paths.ca.read_bytes())
    stolen.write_bytes(own.private_bytes(pem, pkcs8, bare))
    with (
        answering(chain, stolen) as port,
        pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"),
    ):
        greet(port, "bank.example", paths.ca)
