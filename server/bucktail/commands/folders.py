"""Where workshops are kept on this computer, and the options that say which one is meant."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from bucktail.storage.opening import CannotOpen


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


def add_which_workshop(parser: argparse.ArgumentParser) -> None:
    """--workshop DIR, and --demo for the demo workshop."""
    add_workshop_option(parser)
    parser.add_argument("--demo", action="store_true", help="the invented demo workshop")


def chosen(options: argparse.Namespace) -> Path:
    """The folder that the options of `add_which_workshop` name, whether it exists or not."""
    named: Path | None = options.workshop
    return named or (demo_workshop() if options.demo else own_workshop())


def existing(options: argparse.Namespace) -> Path:
    """As `chosen`, for commands that must not make a workshop. Raises CannotOpen."""
    folder = chosen(options)
    if not (folder / "bucktail.db").is_file():
        raise CannotOpen(
            f"There is no workshop in {folder}. Name its folder with “--workshop DIR”, or make"
            " one there by starting it: “bucktail serve”."
        )
    return folder
