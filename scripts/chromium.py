"""Finds the Chromium for the browser tests, and installs Debian's where that is possible."""

from __future__ import annotations

import os
import shutil
from dataclasses import dataclass

from prepare import Trouble, quietly, timed

NAMES = ("chromium", "chromium-browser", "google-chrome")
# certutil: with it a test gives Chromium our own certificate authority to trust
TRUST_TOOLS = "libnss3-tools"


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
    """The Chromium of this computer; what is missing is installed where apt-get may be used."""
    missing = [] if on_path() else ["chromium"]
    if not shutil.which("certutil"):
        missing.append(TRUST_TOOLS)
    trouble = install(missing) if missing else ""
    program = on_path()
    return Chromium(program, "" if program else trouble)


def install(packages: list[str]) -> str:
    """Install Debian packages; why they could not be, or nothing."""
    if not shutil.which("apt-get"):
        return "no Chromium is installed; install one and run this again."
    if os.geteuid() != 0:
        return f"no Chromium is installed; run `sudo apt-get install {' '.join(packages)}` first."
    try:
        with timed(f"Installing {' and '.join(packages)} for the browser tests"):
            apt_get("update")
            apt_get("install", "--yes", "--no-install-recommends", *packages)
    except Trouble as trouble:
        return f"Chromium could not be installed. {trouble}"
    return "apt-get installed no program called chromium."


def apt_get(*arguments: str) -> None:
    """Run apt-get without questions."""
    os.environ["DEBIAN_FRONTEND"] = "noninteractive"
    quietly(["apt-get", "--quiet", *arguments], f"apt-get {arguments[0]} failed.")
