"""Compiles what measures odd offcuts, where a compiler for Python can be had.

Without one the same source runs as plain Python: the same curves, some thirty times slower, in the
background. So a computer for which there is none, or that is not online, is no trouble here.
"""

from __future__ import annotations

import time

from prepare import CONSTRAINTS, PIP, PYTHON, ROOT, captured, hash_of, remember, remembered, say

KERNEL = ROOT / "server" / "bucktail" / "offcuts" / "fitting"
COMPILE = "from bucktail.offcuts.fitting.ready import ready; raise SystemExit(not ready())"
WITHOUT = (
    "No compiler for Python (numba) could be had: measuring an odd offcut takes about half a "
    "second in the background instead of a fiftieth. Nothing else is different."
)


def prepare_fit(again: bool = False) -> None:
    """Install the compiler if it can be had, and compile; says in one line how that went.

    What could not be had is tried again when the sources change, or with `again`.
    """
    mark = hash_of([*KERNEL.glob("*.py"), ROOT / "pyproject.toml"], str(ROOT))
    kept = remembered("fit")
    if kept == {"mark": mark, "compiled": True}:
        return
    if kept == {"mark": mark, "compiled": False} and not again:
        return
    say("Compiling what measures odd offcuts (once, about a quarter of a minute) ...")
    start = time.monotonic()
    compiled = _install() and captured([str(PYTHON), "-c", COMPILE]).returncode == 0
    took = time.monotonic() - start
    say(f"Compiling what measures odd offcuts: done in {took:.1f} s" if compiled else WITHOUT)
    remember("fit", {"mark": mark, "compiled": compiled})


def _install() -> bool:
    """Install the extra `fast`; False where that fails, whatever the cause."""
    command = [*PIP, "install", "--no-input", "--retries", "1", "--timeout", "10"]
    done = captured([*command, "-c", str(CONSTRAINTS), "-e", ".[fast]"])
    return done.returncode == 0
