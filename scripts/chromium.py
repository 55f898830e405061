"""Finds the Chromium for the browser tests, and installs Debian's where that is possible."""

from __future__ import annotations

import os
import shutil
from dataclasses import dataclass

from prepare import Trouble, quietly, timed

NAMES = ("chromium", "chromium-browser", "google-chrome")


@dataclass(frozen=True)
class Chromium:
    """The program to start, or the sentence that says why there is none."""

    program: str = ""
    why_not: str = ""


def on_path() -> str:
    """The first Chromium on PATH, or the one named by BUCKTAIL_CHROMIUM; else empty."""
    named = os.environ.get("BUCKTAIL_CHROMIUM")
    for name in [named] if named else NAMES:
        program = shutil.which(name)
        if program:
            return program
    return ""


def find_chromium() -> Chromium:
    """The Chromium of this computer; where it is missing, try apt-get as root."""
    program = on_path()
    if program:
        return Chromium(program)
    if not shutil.which("apt-get"):
        return Chromium(why_not="no Chromium is installed; install one and run this again.")
    if os.geteuid() != 0:
        return Chromium(
            why_not="no Chromium is installed; run `sudo apt-get install chromium` and try again."
        )
    try:
        with timed("Installing Chromium for the browser tests"):
            apt_get("update")
            apt_get("install", "--yes", "--no-install-recommends", "chromium")
    except Trouble as trouble:
        return Chromium(why_not=f"Chromium could not be installed. {trouble}")
    program = on_path()
    return Chromium(program, "" if program else "apt-get installed no program called chromium.")


def apt_get(*arguments: str) -> None:
    """Run apt-get without questions."""
    os.environ["DEBIAN_FRONTEND"] = "noninteractive"
    quietly(["apt-get", "--quiet", *arguments], f"apt-get {arguments[0]} failed.")
