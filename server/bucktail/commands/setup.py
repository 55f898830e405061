"""`bucktail setup`: shows how the phones reach this workshop, and changes it when it must be."""

from __future__ import annotations

import argparse
import sys
from datetime import UTC, datetime
from pathlib import Path

from bucktail.commands.folders import add_which_workshop, chosen
from bucktail.commands.paragraphs import Paragraphs
from bucktail.workshop import authority, origin, ports
from bucktail.workshop.certificates import parsed_names
from bucktail.workshop.errors import AuthorityError, OriginError, PortError
from bucktail.workshop.machine import ThisMachine
from bucktail.workshop.terminal import can_draw, columns, workshop_screen

DESCRIPTION = """\
Without an option: shows the workshop's address, the page for new phones and the fingerprint of its
certificate authority. Nothing is changed.

The two options are for when that must change. Both need the workshop to be stopped, and after both
every device must be set up again. Before that, on each phone, send everything: its screen “This
workshop” says how many entries wait. What a phone could not send is not lost: it stays on the phone
under the old address, where that screen saves it as a file for “bucktail outbox import”."""
EACH_DEVICE = """\
On each phone and computer that belongs to this workshop:
  1. Take off the old authority, if it was trusted before.
  2. Open {trust} and trust the new one; the fingerprint must be
     the one above.
"""
PAIR_AGAIN = """\
  3. Open Bucktail at {url}, install it and pair it.
  4. Then look into the old Bucktail once more. If something was not sent, save it there as
     a file (screen “This workshop”) and bring it in with “bucktail outbox import FILE”.
     Only then take the old one off.
"""


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """bucktail setup."""
    parser = subparsers.add_parser(
        "setup",
        help="show or change the workshop's address and its certificates",
        description=DESCRIPTION,
        formatter_class=Paragraphs,
    )
    add_which_workshop(parser)
    what = parser.add_mutually_exclusive_group()
    what.add_argument(
        "--new-authority",
        action="store_true",
        help="make a new certificate authority; the old one ends and its keys are deleted",
    )
    what.add_argument(
        "--move-to",
        metavar="NAME",
        help="from now on the phones reach this computer as NAME, such as bench.local",
    )
    parser.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Show, or change and show."""
    folder = chosen(options)
    if options.new_authority:
        return _new_authority(folder)
    if options.move_to is not None:
        return _move(folder, options)
    at = _address(folder)
    _show(folder, at, [])
    return 0


def _address(folder: Path) -> origin.Origin:
    at = origin.remembered(folder)
    if at is None:
        raise OriginError(
            f"The workshop in {folder} has no address yet. It gets one at its first start:"
            " “bucktail serve”."
        )
    return at


def _show(folder: Path, at: origin.Origin, notes: list[str]) -> None:
    now = datetime.now(UTC)
    paths = authority.paths_in(folder)
    if not paths.ca.exists():
        raise AuthorityError(
            f"The workshop at {at.url} has no certificates yet. They are made at its next start:"
            " “bucktail serve”."
        )
    told = [*notes, *authority.notes(paths, now)]
    draw = can_draw(sys.stdout)
    print(f"The workshop is kept in {folder}")
    print(workshop_screen(at, authority.fingerprint(paths), told, draw=draw, width=columns()))


def _require_stopped(port: int) -> None:
    if ports.in_use(port):
        raise PortError(
            f"Port {port} is in use, so the workshop seems to be running. Stop it first (Ctrl-C"
            " where it runs), then run this again. Nothing was changed."
        )


def _new_authority(folder: Path) -> int:
    at = _address(folder)
    _require_stopped(at.https_port)
    authority.start_again(folder, at.certificate_names, datetime.now(UTC))
    _show(folder, at, ["There is a new certificate authority."])
    print(EACH_DEVICE.format(trust=at.trust_url))
    return 0


def _move(folder: Path, options: argparse.Namespace) -> int:
    """Change the address, with a new authority where the old one cannot vouch for it."""
    usual = ports.DEMO if options.demo else ports.OWN
    kept = _readable_address(folder)
    kept_ports = ports.Ports(kept.https_port, kept.http_port) if kept else usual
    host = origin.canonical_host(options.move_to)
    if kept and kept.host == host:
        print(f"The phones already know this workshop as {host}. Nothing was changed.")
        return 0
    parsed_names([host])
    _require_stopped(kept_ports.https)
    folder.mkdir(parents=True, exist_ok=True)
    settled = origin.move(folder, kept_ports, ThisMachine(), host)
    names, now = settled.origin.certificate_names, datetime.now(UTC)
    try:
        authority.ensure(folder, names, now)
        afresh = False
    except AuthorityError:  # it vouches for the old name only, as it should
        authority.start_again(folder, names, now)
        afresh = True
    _show(folder, settled.origin, [f"The address is now {settled.origin.url}.", *settled.notes])
    words = {"trust": settled.origin.trust_url, "url": settled.origin.url}
    if afresh:
        print(EACH_DEVICE.format(**words), end="")
    print(PAIR_AGAIN.format(**words))
    return 0


def _readable_address(folder: Path) -> origin.Origin | None:
    """The address so far; None where there is none or its file is damaged, which this mends."""
    try:
        return origin.remembered(folder)
    except OriginError:
        return None
