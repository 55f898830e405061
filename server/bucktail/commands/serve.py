"""`bucktail serve`: serves a workshop to the phones, and shows how to open and pair them."""

from __future__ import annotations

import argparse
import os
import signal
import sys
import threading
import time
from datetime import UTC, datetime
from pathlib import Path

from granian.constants import Interfaces
from granian.server import Server as Granian

from bucktail.commands import demo
from bucktail.commands.folders import add_which_workshop, chosen
from bucktail.commands.pair import open_offer, print_pairing
from bucktail.commands.paragraphs import Paragraphs
from bucktail.storage.opening import CannotOpen
from bucktail.workshop import authority, origin, ports
from bucktail.workshop.machine import ThisMachine
from bucktail.workshop.terminal import can_draw, columns, workshop_screen
from bucktail.workshop.trustpage import trust_app
from bucktail.workshop.trustserver import serve_trust

DESCRIPTION = """\
Serves a workshop over https to the phones and computers that belong to it. Prints the address, the
page on which a new phone learns to trust this computer, and a pairing code for one device. Press
Enter for another pairing code, Ctrl-C to stop. Whatever was acknowledged to a phone is on the disk,
so stopping at any time loses nothing.

The address is chosen at the first start and then kept, because the phones keep their work under
it; “bucktail setup” shows and changes it."""
ENTER = "Press Enter for another pairing code, Ctrl-C to stop.\n"
LEAST_S_BETWEEN_CODES = 1.0


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """bucktail serve."""
    parser = subparsers.add_parser(
        "serve",
        help="serve the workshop to the phones",
        description=DESCRIPTION,
        formatter_class=Paragraphs,
    )
    add_which_workshop(parser)
    parser.add_argument(
        "--host",
        metavar="NAME",
        help="name or address under which the phones reach this computer; only at the first "
        "start (default: this computer's name on the home network, or its address there)",
    )
    parser.add_argument(
        "--port",
        type=int,
        metavar="N",
        help=f"https port, only at the first start (default: own workshop {ports.OWN.https}, "
        f"demo {ports.DEMO.https})",
    )
    parser.add_argument(
        "--http-port",
        type=int,
        metavar="N",
        help=f"port of the page for new phones, only at the first start (default: own workshop "
        f"{ports.OWN.http}, demo {ports.DEMO.http})",
    )
    parser.add_argument(
        "--bind",
        metavar="ADDRESS",
        help="listen on this address of the computer only (default: on all of them)",
    )
    parser.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Serve until stopped."""
    folder = chosen(options)
    _make(folder)
    if options.demo and demo.make(folder):
        print(f"The invented demo workshop was made in {folder}.\n")
    settled = origin.settle(folder, _ports(options, folder), ThisMachine(), options.host)
    at = settled.origin
    bind = options.bind or ("::" if ":" in at.host else "0.0.0.0")
    for port in (at.https_port, at.http_port):
        ports.require_free_port(bind, port)
    now = datetime.now(UTC)
    paths = authority.ensure(folder, at.certificate_names, now)
    offer = open_offer(folder)
    trust = serve_trust(bind, at.http_port, trust_app(paths, at))
    try:
        _print_workshop(settled, paths, [*settled.notes, *authority.notes(paths, now)])
        print_pairing(at, offer, None)
        _listen_for_enter(folder, at)
        _serve(folder, at, paths, bind)
    finally:
        trust.stop()
    return 0


def _make(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        raise CannotOpen(
            f"The workshop folder {folder} cannot be made ({problem.strerror}). "
            "Choose another with --workshop."
        ) from None


def _ports(options: argparse.Namespace, folder: Path) -> ports.Ports:
    """The ports given, else those that the phones know, else the usual ones."""
    kept = origin.remembered(folder)
    usual = ports.DEMO if options.demo else ports.OWN
    if kept:
        usual = ports.Ports(kept.https_port, kept.http_port)
    return ports.Ports(options.port or usual.https, options.http_port or usual.http)


def _print_workshop(settled: origin.Settled, paths: authority.Paths, notes: list[str]) -> None:
    print_of = authority.fingerprint(paths)
    draw = can_draw(sys.stdout)
    print(workshop_screen(settled.origin, print_of, notes, draw=draw, width=columns()))


def _listen_for_enter(folder: Path, at: origin.Origin) -> None:
    """Print a fresh pairing for each line typed, beside the server, until the input ends."""
    if sys.stdin is None or sys.stdin.closed:
        return
    if sys.stdin.isatty():
        print(ENTER, flush=True)
    if hasattr(signal, "SIGTTIN"):  # in the background of a terminal, reading would stop it all
        signal.signal(signal.SIGTTIN, signal.SIG_IGN)
    threading.Thread(
        target=_answer_enter, args=(sys.stdin.fileno(), folder, at), name="enter", daemon=True
    ).start()


def _answer_enter(handle: int, folder: Path, at: origin.Origin) -> None:
    """Reads the handle itself: the lock of a buffered reader would be copied into the worker."""
    while True:
        try:
            typed = os.read(handle, 4096)
        except OSError:  # in the background just now; perhaps not for ever
            time.sleep(LEAST_S_BETWEEN_CODES)
            continue
        if not typed:
            return
        print_pairing(at, open_offer(folder), None)
        if os.isatty(handle):
            print(ENTER, flush=True)
        time.sleep(LEAST_S_BETWEEN_CODES)


def _serve(folder: Path, at: origin.Origin, paths: authority.Paths, bind: str) -> None:
    os.environ["BUCKTAIL_SERVED"] = str(folder.resolve())
    os.environ["BUCKTAIL_HOSTS"] = " ".join({origin.in_url(at.host), "localhost", "127.0.0.1"})
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
