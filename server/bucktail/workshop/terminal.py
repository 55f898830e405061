"""What the workshop computer shows in its terminal: where Bucktail is, and how a phone gets in.

The texts are made by pure functions; `can_draw` looks at the terminal once. A QR symbol is drawn
in black on white whatever the terminal's own colours are, since many readers refuse light symbols
on a dark ground. Where nothing can be drawn, the same facts come as plain lines.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterable
from datetime import datetime, tzinfo
from textwrap import wrap
from typing import TextIO

from bucktail.workshop.origin import Origin
from bucktail.workshop.pairing import Offer
from bucktail.workshop.pairing_code import pairing_link, shown_in_fours
from bucktail.workshop.symbol import modules

BLACK_ON_WHITE, AS_BEFORE = "\x1b[38;5;16;48;5;231m", "\x1b[0m"
HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}
WIDTH = 80


def can_draw(stream: TextIO) -> bool:
    """Whether `stream` is a terminal that shows block characters."""
    encoding = (getattr(stream, "encoding", None) or "").lower().replace("-", "")
    return stream.isatty() and encoding in ("utf8", "utf8sig", "cp65001")


def columns() -> int:
    """The width of the terminal in characters; 80 where there is none."""
    return shutil.get_terminal_size((WIDTH, 24)).columns


def qr_rows(text: str) -> list[str]:
    """`text` as a QR symbol (level M), two modules a character row, with its quiet zone.

    The rows carry no colour; all have the same length, which is the side in modules.
    """
    dark = modules(text)
    if len(dark) % 2:
        dark = [*dark, [False] * len(dark[0])]
    return [
        "".join(HALVES[top, bottom] for top, bottom in zip(upper, lower, strict=True))
        for upper, lower in zip(dark[::2], dark[1::2], strict=True)
    ]


def workshop_screen(
    origin: Origin, fingerprint: str, notes: Iterable[str], *, draw: bool, width: int = WIDTH
) -> str:
    """What `serve` prints when it is ready: the address, and the trust page for a new phone."""
    lines = [f"Bucktail is at {origin.url}", ""]
    for note in notes:
        lines += [*wrap(f"Note: {note}", min(width, WIDTH)), ""]
    if draw:
        lines += ["A phone that is new here: scan this first, with its camera.", ""]
        lines += _drawn(origin.trust_url, width)
        lines += [f"or open {origin.trust_url}"]
    else:
        lines += [f"A phone that is new here: open {origin.trust_url} first."]
    lines += ["", *_fingerprint_lines(fingerprint)]
    return "\n".join(lines) + "\n"


def pairing_screen(
    origin: Origin,
    offer: Offer,
    fingerprint: str | None,
    now: int,
    *,
    draw: bool,
    width: int = WIDTH,
    zone: tzinfo | None = None,
) -> str:
    """What is printed to pair one phone. `now` is UTC ms; `zone` None means this computer's.

    `fingerprint` is None where it already stands on the same screen.
    """
    link = pairing_link(origin.url, offer.secret)
    until = datetime.fromtimestamp(offer.expires_at / 1000, zone)
    minutes = max(0, round((offer.expires_at - now) / 60000))
    lines = ["Pair a phone or a computer", ""]
    lines += ["On a phone open Bucktail from its icon. It asks for this code:", ""]
    if draw:
        lines += _drawn(link, width)
    lines += [
        f"    to type   {shown_in_fours(offer.typed)}",
        f"    as a link {link}",
        "",
        "On this computer, or another one, open the link in the browser.",
        f"Good for one device, for {minutes} minutes (until {until:%H:%M:%S}).",
        "Five wrong codes close the typing; scanning goes on.",
        "",
        "A device that does not trust this computer yet must first open",
        f"    {origin.trust_url}",
    ]
    if fingerprint:
        lines += ["", *_fingerprint_lines(fingerprint)]
    return "\n".join(lines) + "\n"


def _drawn(text: str, width: int) -> list[str]:
    """The symbol in black on white, or a sentence when the window is too narrow for it."""
    rows = qr_rows(text)
    if len(rows[0]) > width:
        return [f"(Make this window {len(rows[0])} characters wide to see the code to scan.)", ""]
    return [*(f"{BLACK_ON_WHITE}{row}{AS_BEFORE}" for row in rows), ""]


def _fingerprint_lines(fingerprint: str) -> list[str]:
    groups = fingerprint.split()
    rows = [" ".join(groups[at : at + 4]) for at in range(0, len(groups), 4)]
    return [
        "Fingerprint (SHA-256). The phone must show the same sixteen groups:",
        "",
        *(f"    {row}" for row in rows),
    ]
