"""`bucktail rebuild`: works everything out anew from the record."""

from __future__ import annotations

import argparse

from bucktail.commands.folders import add_which_workshop, existing
from bucktail.commands.paragraphs import Paragraphs
from bucktail.storage.opening import open_workshop
from bucktail.storage.rebuilding import rebuild
from bucktail.sync.wire.reading import read_event

DESCRIPTION = """\
Works out how every part, offcut and place stands, anew from what was recorded. The record itself is
never changed. Use it when something shows otherwise than it was recorded, or after a new version of
Bucktail. How many came out different should be 0, unless the new version reads something otherwise.
It may be stopped at any time, and may run while the workshop is served."""


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """bucktail rebuild."""
    parser = subparsers.add_parser(
        "rebuild",
        help="work everything out anew from the record",
        description=DESCRIPTION,
        formatter_class=Paragraphs,
    )
    add_which_workshop(parser)
    parser.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Rebuild and say how many came out different."""
    with open_workshop(existing(options)) as session:
        things, different = rebuild(session, read_event)
    print(f"{things} things worked out anew from the record; {different} came out different.")
    return 0
