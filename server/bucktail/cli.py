"""The command `bucktail`."""

from __future__ import annotations

import argparse
import os
import sys

from bucktail import __version__
from bucktail.commands import demo, outbox, pair, rebuild, reckon, serve, setup, tags
from bucktail.storage.opening import CannotOpen
from bucktail.storage.trouble import DatabaseTrouble, disk_is_full
from bucktail.workshop.errors import SetUpError

NOUNS = (serve, pair, setup, tags, reckon, outbox, rebuild, demo)


def parser() -> argparse.ArgumentParser:
    """The parser of all commands."""
    made = argparse.ArgumentParser(
        prog="bucktail",
        description="Keeps track of a riveted aluminium aircraft under construction: parts, "
        "steps, places and offcuts, on the phone at the bench.",
        epilog="A reminder for the builder, not approval: the kit maker's plans and approved "
        "data come first.",
    )
    made.add_argument("--version", action="version", version=f"bucktail {__version__}")
    subparsers = made.add_subparsers(dest="noun", required=True, metavar="COMMAND")
    for noun in NOUNS:
        noun.add_parser(subparsers)
    return made


def main(arguments: list[str] | None = None) -> int:
    """Run one command; a trouble that a person can mend is one sentence and exit code 1."""
    options = parser().parse_args(arguments)
    try:
        ended = int(options.run(options))
        sys.stdout.flush()
        return ended
    except BrokenPipeError:  # whoever read has enough, as `head` has
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except (CannotOpen, SetUpError) as trouble:
        print(f"bucktail: {trouble}", file=sys.stderr)
        return 1
    except DatabaseTrouble as trouble:
        full = disk_is_full(trouble)
        print(
            "bucktail: The workshop's disk is full. Make room there and do this again."
            if full
            else f"bucktail: The workshop's database cannot be used just now ({trouble.orig}). Do"
            " this again; if it stays so, stop “bucktail serve” first.",
            file=sys.stderr,
        )
        return 1
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(main())
