"""`bucktail pair`: a fresh pairing code for a workshop that is being served."""

from __future__ import annotations

import argparse
import secrets
import sys
import time
from pathlib import Path

from bucktail.commands.folders import add_which_workshop, existing
from bucktail.commands.paragraphs import Paragraphs
from bucktail.storage.ids import uuid7
from bucktail.storage.opening import open_session
from bucktail.storage.pairing_store import StoredPairings
from bucktail.workshop import authority, origin, ports
from bucktail.workshop.errors import OriginError
from bucktail.workshop.pairing import Offer, PairingDesk
from bucktail.workshop.terminal import can_draw, columns, pairing_screen

DESCRIPTION = """\
Prints a pairing code for one more phone or computer: to scan, to type, and as a link. It is good
for five minutes and for one device. Run it on the workshop computer while “bucktail serve” is
running there; pressing Enter where that runs does the same.

A paired device can do it too: its screen “This workshop” offers to pair another."""


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """bucktail pair."""
    parser = subparsers.add_parser(
        "pair",
        help="print a pairing code for one more phone or computer",
        description=DESCRIPTION,
        formatter_class=Paragraphs,
    )
    add_which_workshop(parser)
    parser.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Open an offer and print it."""
    folder = existing(options)
    at = origin.remembered(folder)
    if at is None:
        raise OriginError(
            f"The workshop in {folder} has no address yet. Start it with “bucktail serve”, which"
            " also prints a pairing code."
        )
    print_pairing(at, open_offer(folder), authority.fingerprint(authority.paths_in(folder)))
    if not ports.in_use(at.https_port):
        print(
            "Note: the workshop is not being served just now, so no phone can use this code."
            " Start it with “bucktail serve”.",
            file=sys.stderr,
        )
    return 0


def open_offer(folder: Path) -> Offer:
    """Open a pairing for one device, for five minutes from now."""
    with open_session(folder) as session:
        desk = PairingDesk(
            StoredPairings(session), clock, secrets.token_bytes, lambda: uuid7(clock())
        )
        return desk.start()


def print_pairing(at: origin.Origin, offer: Offer, fingerprint: str | None) -> None:
    """The code to scan, to type and as a link; with the fingerprint where it is not on show."""
    draw = can_draw(sys.stdout)
    print(pairing_screen(at, offer, fingerprint, clock(), draw=draw, width=columns()), flush=True)


def clock() -> int:
    """This computer's time, UTC ms."""
    return int(time.time() * 1000)
