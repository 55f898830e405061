"""A rivet line through a skin and a spar, and a shim beside it, for tests in a browser."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

from running.partstock import part, told
from running.phone import BenchPhone
from running.workshop import Workshop

BODY: dict[str, Any] = {
    "name": "rear spar, top",
    "count": 74,
    "supplied": "final",
    "head": "protruding",
    "fastener": {"kind": "rivet", "text": "MS20470AD3-3.5"},
    "open": [],
}


def length(text: str) -> dict[str, Any]:
    """A thickness in inches, as it is recorded."""
    return {"nm": round(float(text) * 25_400_000), "text": text}


def spar_line(folder: Path) -> tuple[str, dict[str, str]]:
    """A line of 74 holes, -3.5, through a .032 skin and a .040 spar, and a shim beside it."""
    ids = {}
    for name, text in (("Skin", ".032"), ("Spar", ".040"), ("Shim", ".032")):
        ids[name] = part(folder, name)
        told(folder, ids[name], "part.described.v1", {"thickness": length(text)})
    line = ids["Skin"][:-4] + "beef"
    layers = [
        {"part": ids[name], "thickness": length(text), "treat": "plain"}
        for name, text in (("Skin", ".032"), ("Spar", ".040"))
    ]
    told(folder, line, "line.set.v1", {**BODY, "layers": layers})
    return line, ids


def opened(
    workshop: Workshop, new_phone: Callable[..., BenchPhone], line: str
) -> tuple[BenchPhone, Page]:
    """The line on a phone that has no network any more."""
    phone = new_phone()
    page = phone.pair()
    phone.fetched(4)
    workshop.stop()
    page.goto(f"{workshop.url}/line/{line}")
    return phone, page


def flush_line(folder: Path, line: str, ids: dict[str, str]) -> None:
    """The line with flush heads: the skin dimpled into the countersunk spar."""
    treated = (("Skin", ".032", "dimple"), ("Spar", ".040", "countersink"))
    layers = [
        {"part": ids[name], "thickness": length(text), "treat": treat}
        for name, text, treat in treated
    ]
    fastener = {"kind": "rivet", "text": "MS20426AD3"}
    told(
        folder,
        line,
        "line.set.v1",
        {**BODY, "head": "flush", "fastener": fastener, "layers": layers},
    )


def shim_in(
    folder: Path, line: str, ids: dict[str, str], *, confirmed: bool = False
) -> list[dict[str, Any]]:
    """The shim in 12 of the holes, whose rivets went from -3.5 to -4: the segments."""
    layers = [
        {"part": ids[name], "thickness": length(text), "treat": "plain"}
        for name, text in (("Skin", ".032"), ("Shim", ".032"), ("Spar", ".040"))
    ]
    rest = {
        "name": "rear spar, top",
        "count": 62,
        "layers": [layers[0], layers[2]],
        "fastener": {"kind": "rivet", "text": "MS20470AD3"},
        "dash": 7,
        "was_dash": None,
        "confirmed": True,
    }
    over = {"name": "over Shim", "count": 12, "layers": layers, "dash": 8, "was_dash": 7}
    segments = [rest, {**rest, **over, "confirmed": confirmed}]
    told(folder, line, "line.segments.v1", {"segments": segments})
    return segments
