"""The whole chain as a phone's browser sees it: no flag that waves certificates through.

Chromium on Linux takes a person's own authorities from an NSS database in their home folder, so
the test gives it a home of its own.
"""

from __future__ import annotations

import os
import re
import shutil
import ssl
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.request import urlopen

import pytest
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric import ec

from bucktail.workshop.authority import Paths, ensure, kept_authority
from bucktail.workshop.certificates import new_leaf, parsed_names
from bucktail.workshop.origin import Origin
from bucktail.workshop.phone_files import CERTIFICATE_NAME
from bucktail.workshop.trustpage import trust_app
from bucktail.workshop.trustserver import serve_trust
from chromium import on_path

pytestmark = pytest.mark.browser

ORIGIN = Origin("bench.test", 8443, 8480, "given")
CERTUTIL = shutil.which("certutil") or ""
FLAGS = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking"
    " --disable-component-update --disable-sync --enable-logging=stderr"
).split()
NAMES_LEAD_HERE = "--host-resolver-rules=MAP *.test 127.0.0.1"


class Page(BaseHTTPRequestHandler):
    """One page that says whether a phone would get its camera and its storage here."""

    def do_GET(self) -> None:
        body = (
            b"<!doctype html><title>bench</title><p></p><script>document.querySelector('p')"
            b".textContent = isSecureContext && 'serviceWorker' in navigator</script>"
        )
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_: Any) -> None:
        pass


class QuietServer(ThreadingHTTPServer):
    """A browser that refuses the certificate breaks off; that is the point, not an error."""

    def handle_error(self, request: Any, client_address: Any) -> None:
        pass


@contextmanager
def served(chain: Path, key: Path) -> Iterator[int]:
    """https on loopback with these files; gives the port."""
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(chain, key)
    server = QuietServer(("127.0.0.1", 0), Page)
    server.socket = context.wrap_socket(
        server.socket, server_side=True, do_handshake_on_connect=False
    )
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield server.server_address[1]
    finally:
        server.shutdown()
        thread.join()
        server.server_close()


def opened(home: Path, url: str) -> str:
    """What a fresh Chromium makes of `url`: the page as HTML, or its name for the error.

    It has nothing but `home`, and every name under .test leads to this computer.
    """
    command = [
        on_path(),
        "--headless",
        *FLAGS,
        NAMES_LEAD_HERE,
        f"--user-data-dir={home / 'profile'}",
    ]
    kept = {k: v for k, v in os.environ.items() if not k.startswith("XDG_")}
    shown = subprocess.run(
        [*command, "--dump-dom", url],
        env={**kept, "HOME": str(home)},
        capture_output=True,
        text=True,
        timeout=120,
    )
    error = re.search(r"Page load failed: net::(\w+)", shown.stderr)
    return error.group(1) if error else shown.stdout


@pytest.fixture
def paths(tmp_path: Path) -> Paths:
    return ensure(tmp_path / "workshop", ORIGIN.certificate_names, datetime.now(UTC))


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A home folder with an empty certificate database."""
    if sys.platform != "linux":
        pytest.skip("elsewhere Chromium takes its authorities from the system")
    if not CERTUTIL:
        pytest.skip("certutil is not installed; on Debian it comes with libnss3-tools")
    database = tmp_path / "home" / ".pki" / "nssdb"
    database.mkdir(parents=True)
    command = [CERTUTIL, "-N", "-d", f"sql:{database}", "--empty-password"]
    subprocess.run(command, check=True, capture_output=True, timeout=60)
    return tmp_path / "home"


def trust(home: Path, certificate: Path) -> None:
    database = f"sql:{home / '.pki' / 'nssdb'}"
    command = [CERTUTIL, "-A", "-d", database, "-t", "C,,", "-n", "workshop"]
    subprocess.run([*command, "-i", str(certificate)], check=True, capture_output=True, timeout=60)


def test_the_file_from_the_trust_page_makes_the_page_secure(paths, home, tmp_path) -> None:
    downloaded = tmp_path / "bucktail-ca.crt"
    page = serve_trust("127.0.0.1", 0, trust_app(paths, ORIGIN))
    with urlopen(f"http://127.0.0.1:{page.port}/{CERTIFICATE_NAME}", timeout=10) as answer:
        downloaded.write_bytes(answer.read())
    page.stop()
    with served(paths.chain, paths.key) as port:
        assert opened(home, f"https://bench.test:{port}/") == "ERR_CERT_AUTHORITY_INVALID"
        trust(home, downloaded)
        assert "<p>true</p>" in opened(home, f"https://bench.test:{port}/")
        assert "<p>true</p>" in opened(home, f"https://127.0.0.1:{port}/")
        assert opened(home, f"https://shed.test:{port}/") == "ERR_CERT_COMMON_NAME_INVALID"


def test_a_trusted_authority_still_cannot_vouch_for_a_foreign_name(paths, home, tmp_path) -> None:
    """Whoever stole the key would get no further than this workshop."""
    key = serialization.load_pem_private_key(paths.ca.with_name("ca.key").read_bytes(), None)
    own = ec.generate_private_key(ec.SECP256R1())
    names = parsed_names(["bank.test"])
    leaf = new_leaf(kept_authority(paths), key, own.public_key(), names, datetime.now(UTC))
    pem, bare = serialization.Encoding.PEM, serialization.NoEncryption()
    chain, stolen = tmp_path / "bank.crt", tmp_path / "bank.key"
    chain.write_bytes(leaf.public_bytes(pem) + paths.ca.read_bytes())
    stolen.write_bytes(own.private_bytes(pem, serialization.PrivateFormat.PKCS8, bare))
    trust(home, paths.ca)
    with served(paths.chain, paths.key) as port:
        assert "<p>true</p>" in opened(home, f"https://bench.test:{port}/")
    with served(chain, stolen) as port:
        assert opened(home, f"https://bank.test:{port}/") == "ERR_CERT_INVALID"
