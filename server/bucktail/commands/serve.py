"""`bucktail serve`: serves a workshop to the phones, and shows how to open and pair them."""

from __future__ import annotations

import argparse
import os
import secrets
import sys
import time
from datetime import UTC, datetime
from pathlib import Path

from granian.constants import Interfaces
from granian.server import Server as Granian

from bucktail.commands.folders import add_workshop_option, demo_workshop, own_workshop
from bucktail.storage.ids import uuid7
from bucktail.storage.opening import open_session
from bucktail.storage.pairing_store import StoredPairings
from bucktail.workshop import authority, origin, ports
from bucktail.workshop.machine import ThisMachine
from bucktail.workshop.pairing import Offer, PairingDesk
from bucktail.workshop.terminal import can_draw, columns, pairing_screen, workshop_screen
from bucktail.workshop.trustpage import trust_app
from bucktail.workshop.trustserver import serve_trust


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """bucktail serve."""
    parser = subparsers.add_parser(
        "serve",
        help="serve the workshop to the phones",
        description="Serves a workshop over https, with the page on which phones learn to trust "
        "it, and prints the address and a pairing code.",
    )
    add_workshop_option(parser)
    parser.add_argument("--demo", action="store_true", help="serve the invented demo workshop")
    parser.add_argument("--host", help="name or address under which the phones reach this computer")
    parser.add_argument("--port", type=int, help="https port (own workshop 8443, demo 8543)")
    parser.add_argument(
        "--http-port", type=int, help="port of the trust page (own workshop 8480, demo 8580)"
    )
    parser.add_argument(
        "--bind", default="0.0.0.0", help="address to listen on (default: all of this computer's)"
    )
    parser.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Serve until stopped."""
    folder: Path = options.workshop or (demo_workshop() if options.demo else own_workshop())
    usual = ports.DEMO if options.demo else ports.OWN
    wanted = ports.Ports(options.port or usual.https, options.http_port or usual.http)
    folder.mkdir(parents=True, exist_ok=True)
    settled = origin.settle(folder, wanted, ThisMachine(), options.host)
    ports.require_free_port(options.bind, wanted.https)
    now = datetime.now(UTC)
    paths = authority.ensure(folder, settled.origin.certificate_names, now)
    offer = _offer(folder)
    print_screens(settled, paths, offer, [*settled.notes, *authority.notes(paths, now)])
    trust = serve_trust(options.bind, wanted.http, trust_app(paths, settled.origin))
    try:
        _serve(folder, settled.origin, paths, options.bind)
    finally:
        trust.stop()
    return 0


def _offer(folder: Path) -> Offer:
    """Open a pairing for the first phone or the browser on this computer."""
    with open_session(folder) as session:
        desk = PairingDesk(
            StoredPairings(session), _clock, secrets.token_bytes, lambda: uuid7(_clock())
        )
        return desk.start()


def _clock() -> int:
    return int(time.time() * 1000)


def print_screens(
    settled: origin.Settled, paths: authority.Paths, offer: Offer, notes: list[str]
) -> None:
    """Address, fingerprint, and the code that pairs one device."""
    draw = can_draw(sys.stdout)
    print_of = authority.fingerprint(paths)
    print(workshop_screen(settled.origin, print_of, notes, draw=draw, width=columns()))
    print(
        pairing_screen(settled.origin, offer, None, _clock(), draw=draw, width=columns()),
        flush=True,
    )


def _serve(folder: Path, at: origin.Origin, paths: authority.Paths, bind: str) -> None:
    os.environ["BUCKTAIL_SERVED"] = str(folder.resolve())
    os.environ["BUCKTAIL_HOSTS"] = " ".join({at.host, "localhost", "127.0.0.1"})
    Granian(
        "bucktail.app:served_app",
        factory=True,
        address=bind,
        port=at.https_port,
        interface=Interfaces.WSGI,
        workers=1,
        blocking_threads=4,
        ssl_cert=paths.chain,
        ssl_key=paths.key,
        log_enabled=False,
    ).serve()
