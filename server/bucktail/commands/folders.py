"""Where workshops are kept on this computer, and the option that says so."""

from __future__ import annotations

import argparse
import os
from pathlib import Path


def own_workshop() -> Path:
    """The folder of the own workshop: BUCKTAIL_WORKSHOP, or the user's data folder."""
    given = os.environ.get("BUCKTAIL_WORKSHOP")
    return Path(given) if given else _data_folder() / "workshop"


def demo_workshop() -> Path:
    """The folder of the demo workshop."""
    return _data_folder() / "demo"


def _data_folder() -> Path:
    base = os.environ.get("XDG_DATA_HOME")
    return (Path(base) if base else Path.home() / ".local" / "share") / "bucktail"


def add_workshop_option(parser: argparse.ArgumentParser) -> None:
    """--workshop DIR."""
    parser.add_argument(
        "--workshop",
        type=Path,
        metavar="DIR",
        help=f"folder of the workshop (default: {own_workshop()}, or BUCKTAIL_WORKSHOP)",
    )
