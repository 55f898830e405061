"""Lets a script that needs the project's packages be started by any Python."""

from __future__ import annotations

import os
import sys

from prepare import PYTHON, VENV, Trouble, one_at_a_time, prepare_python


def go_inside() -> None:
    """Set up the environment and start the script again in it, unless it already runs there."""
    if os.path.realpath(sys.prefix) == os.path.realpath(VENV):
        return
    try:
        with one_at_a_time():
            prepare_python(["test", "check"])
    except Trouble as trouble:
        sys.exit(str(trouble))
    os.execv(PYTHON, [str(PYTHON), *sys.argv])
