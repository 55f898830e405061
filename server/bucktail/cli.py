"""The command `bucktail`."""

from __future__ import annotations

import argparse
import os
import sys
from importlib import import_module

from bucktail import __version__

# the files in commands/, in the order of the help. Only the one that is asked for is imported:
# the whole program takes a second or two on a small computer, and a sum needs a tenth of it.
NOUNS = ("serve", "pair", "setup", "tags", "reckon", "offcuts", "outbox", "rebuild", "demo")


def parser(noun: str = "") -> argparse.ArgumentParser:
    """The parser of one command, or of all where `noun` is none of them."""
    made = argparse.ArgumentParser(
        prog="bucktail",
        description="Keeps track of a riveted aluminium aircraft under construction: parts, "
        "steps, places and offcuts, on the phone at the bench.",
        epilog="A reminder for the builder, not approval: the kit maker's plans and approved "
        "data come first.",
    )
    made.add_argument("--version", action="version", version=f"bucktail {__version__}")
    subparsers = made.add_subparsers(dest="noun", required=True, metavar="COMMAND")
    for name in [noun] if noun in NOUNS else NOUNS:
        import_module(f"bucktail.commands.{name}").add_parser(subparsers)
    return made


def main(arguments: list[str] | None = None) -> int:
    """Run one command; a trouble that a person can mend is one sentence and exit code 1."""
    words = sys.argv[1:] if arguments is None else arguments
    options = parser(words[0] if words else "").parse_args(words)
    try:
        ended = int(options.run(options))
        sys.stdout.flush()
        return ended
    except BrokenPipeError:  # whoever read has enough, as `head` has
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        return 130
    except Exception as trouble:
        said = in_words(trouble)
        if not said:
            raise
        print(f"bucktail: {said}", file=sys.stderr)
        return 1


def in_words(trouble: Exception) -> str:
    """What to do about a trouble that a person can mend; empty for any other."""
    from bucktail.storage.opening import CannotOpen
    from bucktail.storage.trouble import DatabaseTrouble, disk_is_full
    from bucktail.workshop.errors import SetUpError

    if isinstance(trouble, (CannotOpen, SetUpError)):
        return str(trouble)
    if not isinstance(trouble, DatabaseTrouble):
        return ""
    if disk_is_full(trouble):
        return "The workshop's disk is full. Make room there and do this again."
    return (
        f"The workshop's database cannot be used just now ({trouble.orig}). Do this again; if it "
        "stays so, stop “bucktail serve” first."
    )


if __name__ == "__main__":
    sys.exit(main())
