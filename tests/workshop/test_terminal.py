"""What stands in the terminal: symbols that a reader reads, and plain lines where none can be."""

from __future__ import annotations

import io
import re
from datetime import UTC

import numpy as np
import pytest
import zxingcpp

from bucktail.workshop.origin import Origin
from bucktail.workshop.pairing import Offer
from bucktail.workshop.symbol import QUIET
from bucktail.workshop.terminal import can_draw, pairing_screen, qr_rows, workshop_screen

ORIGIN = Origin("bench.local", 8443, 8480, "name")
MARK = " ".join(f"{n:04X}" for n in range(16))
NOW = 1_772_366_400_000  # 2026-03-01 12:00:00 UTC
OFFER = Offer("0123456789ABCDEFGHJKMNPQRS", "7KQ2M0XD", NOW + 300_000)
LINK = "https://bench.local:8443/#pair=0123456789ABCDEFGHJKMNPQRS"
DARK = {" ": (0, 0), "▀": (1, 0), "▄": (0, 1), "█": (1, 1)}


def modules(rows: list[str]) -> np.ndarray:
    """Dark modules as ones, two lines of them for each row of characters."""
    halves = np.array([[DARK[sign] for sign in row] for row in rows])
    return halves.transpose(0, 2, 1).reshape(len(rows) * 2, -1)


def read(rows: list[str]) -> list[str]:
    """What a reader makes of the rows, each module 6 pixels wide, dark on light."""
    image = (255 * (1 - modules(rows))).astype(np.uint8).repeat(6, axis=0).repeat(6, axis=1)
    return [found.text for found in zxingcpp.read_barcodes(image)]


def drawn_rows(screen: str) -> list[str]:
    return re.findall(r"\x1b\[38;5;16;48;5;231m([ ▀▄█]+)\x1b\[0m", screen)


@pytest.mark.parametrize("text", ["http://bench.local:8480/", LINK, "x" * 200])
def test_a_reader_reads_the_symbol(text) -> None:
    assert read(qr_rows(text)) == [text]


@pytest.mark.parametrize("length", [10, 30, 62, 120])
def test_the_quiet_zone_is_white_on_every_side(length) -> None:
    dark = modules(qr_rows("x" * length))
    for side in (dark[:QUIET], dark[-QUIET:], dark[:, :QUIET], dark[:, -QUIET:]):
        assert not side.any()
    assert dark[QUIET, QUIET : QUIET + 7].all()  # the corner mark begins right after it


def test_the_rows_are_of_one_length() -> None:
    assert len({len(row) for row in qr_rows(LINK)}) == 1


def test_serving_shows_the_address_the_trust_page_and_the_fingerprint() -> None:
    screen = workshop_screen(ORIGIN, MARK, [], draw=True)
    assert screen.startswith("Bucktail is at https://bench.local:8443\n")
    assert read(drawn_rows(screen)) == ["http://bench.local:8480/"]
    assert "    0000 0001 0002 0003\n    0004 0005 0006 0007\n" in screen


def test_notes_are_wrapped_and_shown() -> None:
    screen = workshop_screen(ORIGIN, MARK, ["Reserve it. " * 20], draw=False)
    assert screen.count("Reserve") == 20
    assert max(len(line) for line in screen.splitlines()) <= 80


def test_pairing_shows_the_code_three_ways_and_for_how_long() -> None:
    screen = pairing_screen(ORIGIN, OFFER, MARK, NOW, draw=True, zone=UTC)
    assert read(drawn_rows(screen)) == [LINK]
    assert "to type   7KQ2 M0XD" in screen
    assert f"as a link {LINK}" in screen
    assert "for 5 minutes (until 12:05:00)" in screen
    assert "http://bench.local:8480/" in screen
    assert "000C 000D 000E 000F" in screen


def test_the_fingerprint_need_not_be_said_twice() -> None:
    screen = pairing_screen(ORIGIN, OFFER, None, NOW, draw=False, zone=UTC)
    assert "Fingerprint" not in screen
    assert "http://bench.local:8480/" in screen


def test_no_line_is_wider_than_eighty() -> None:
    for draw in (True, False):
        screens = workshop_screen(ORIGIN, MARK, ["A note. " * 30], draw=draw) + pairing_screen(
            ORIGIN, OFFER, MARK, NOW, draw=draw, zone=UTC
        )
        bare = re.sub(r"\x1b\[[\d;]*m", "", screens)
        assert max(len(line) for line in bare.splitlines()) <= 80


def test_without_a_terminal_there_are_only_plain_lines() -> None:
    for screen in (
        pairing_screen(ORIGIN, OFFER, MARK, NOW, draw=False, zone=UTC),
        workshop_screen(ORIGIN, MARK, ["A note."], draw=False),
    ):
        assert screen.isascii()
        assert "\x1b" not in screen
        assert "bench.local" in screen


def test_a_narrow_window_says_how_wide_it_must_be() -> None:
    screen = pairing_screen(ORIGIN, OFFER, MARK, NOW, draw=True, width=30, zone=UTC)
    assert drawn_rows(screen) == []
    side = len(qr_rows(LINK)[0])
    assert f"Make this window {side} characters wide" in screen
    assert drawn_rows(pairing_screen(ORIGIN, OFFER, MARK, NOW, draw=True, width=side, zone=UTC))


class Terminal(io.StringIO):
    """A stream that says it is a terminal of some encoding."""

    def __init__(self, encoding: str, *, is_terminal: bool = True) -> None:
        super().__init__()
        self._said, self._is_terminal = encoding, is_terminal

    @property
    def encoding(self) -> str:  # type: ignore[override]
        return self._said

    def isatty(self) -> bool:
        return self._is_terminal


@pytest.mark.parametrize(
    ("stream", "drawn"),
    [
        (Terminal("utf-8"), True),
        (Terminal("UTF8"), True),
        (Terminal("iso-8859-1"), False),
        (Terminal("ascii"), False),
        (Terminal("utf-8", is_terminal=False), False),
        (io.StringIO(), False),
    ],
)
def test_where_a_symbol_can_be_drawn(stream, drawn) -> None:
    assert can_draw(stream) is drawn
