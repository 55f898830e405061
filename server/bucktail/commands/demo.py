"""`bucktail demo`: makes the invented demo workshop, or makes it anew."""

from __future__ import annotations

import argparse
import shutil
import sys
import time
from pathlib import Path

from bucktail.commands.folders import demo_workshop
from bucktail.workshop.demo.build import fill

#: A file that only a demo workshop has, so that nothing else is ever deleted.
MARK = "this-is-the-demo"


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """bucktail demo."""
    parser = subparsers.add_parser(
        "demo",
        help="make the invented demo workshop",
        description="Makes the demo workshop: invented people and parts and a year of work. "
        "`bucktail serve --demo` does this by itself the first time.",
    )
    parser.add_argument(
        "--workshop", type=Path, metavar="DIR", help=f"where (default: {demo_workshop()})"
    )
    parser.add_argument(
        "--again", action="store_true", help="throw the demo away first, what was tried in it too"
    )
    parser.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Make the demo and say what was done."""
    folder: Path = options.workshop or demo_workshop()
    if options.again and folder.exists():
        if not (folder / MARK).exists():
            print(
                f"{folder} is not a demo workshop; nothing was deleted. Name another folder.",
                file=sys.stderr,
            )
            return 1
        for name in ("bucktail.db", "bucktail.db-journal", "bucktail.db-wal", "bucktail.db-shm"):
            (folder / name).unlink(missing_ok=True)
        shutil.rmtree(folder / "photos", ignore_errors=True)
    written = make(folder)
    if written:
        print(f"The demo workshop is in {folder}: {written} entries.")
    else:
        print(f"{folder} already holds a workshop. Use --again to start the demo over.")
    return 0


def make(folder: Path) -> int:
    """Fill the folder with the demo unless it holds a record; the number of entries written."""
    written = fill(folder, int(time.time() * 1000))
    if written:
        (folder / MARK).write_text("Invented. Delete this folder whenever you like.\n")
    return written
