"""Sets up what is missing and starts Bucktail. Behind scripts/run."""

from __future__ import annotations

import argparse
import os
import sys
import time
from typing import NoReturn

from prepare import VENV, Trouble, one_at_a_time, prepare_python, say
from prepare_fit import prepare_fit
from prepare_web import prepare_web

EPILOG = """Any other option goes to `bucktail serve`: --workshop DIR (where the workshop is kept),
--port N, --host NAME."""


def read_options(arguments: list[str]) -> tuple[argparse.Namespace, list[str]]:
    """Our own options, and everything else as it stands."""
    parser = argparse.ArgumentParser(
        prog="scripts/run",
        description="Sets up what is missing and starts Bucktail with an invented demo workshop.",
        epilog=EPILOG,
        allow_abbrev=False,
    )
    parser.add_argument(
        "--empty", action="store_true", help="start your own workshop (blank at first), no demo"
    )
    parser.add_argument(
        "--setup-only", action="store_true", help="set up and build, then stop without starting"
    )
    return parser.parse_known_args(arguments)


def become_server(options: list[str]) -> NoReturn:
    """Replace this process by the server, so that signals and Ctrl-C reach it directly."""
    command = str(VENV / "bin" / "bucktail")
    os.execv(command, [command, "serve", *options])


def main(arguments: list[str]) -> int:
    """Set up, then start the server unless only set-up was asked for."""
    options, passed_on = read_options(arguments)
    start = time.monotonic()
    try:
        with one_at_a_time():
            prepare_python()
            prepare_fit(again=options.setup_only)
            prepare_web()
    except Trouble as trouble:
        print(trouble, file=sys.stderr)
        return 1
    say(f"Set up in {time.monotonic() - start:.1f} s.")
    if options.setup_only:
        return 0
    become_server(passed_on if options.empty else ["--demo", *passed_on])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
