"""Lint, formats, types, and whether generated files are fresh. Behind scripts/check.

Every check runs even when an earlier one found something, so that one run shows everything.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

from prepare import PYTHON, ROOT, Trouble, captured, one_at_a_time, prepare_python, say
from prepare_web import MODULES, WEB, Node, find_node, prepare_modules

TYPE_PROJECTS = ("app", "worker", "pure", "test", "node")
TSC = MODULES / "typescript" / "bin" / "tsc"
BIOME = MODULES / "@biomejs" / "biome" / "bin" / "biome"


def checks(node: Node) -> list[tuple[str, list[str], Path]]:
    """Each check as (name, command, folder it runs in)."""
    python = [str(PYTHON), "-m"]
    return [
        ("ruff", [*python, "ruff", "check", "--quiet", "."], ROOT),
        ("ruff format", [*python, "ruff", "format", "--check", "--quiet", "."], ROOT),
        ("mypy", [*python, "mypy", "--no-error-summary"], ROOT),
        ("generated files", [str(PYTHON), "scripts/generate.py", "--check"], ROOT),
        *(
            (f"tsc {name}", [node.program, str(TSC), "-p", f"tsconfig.{name}.json"], WEB)
            for name in TYPE_PROJECTS
        ),
        ("biome", [node.program, str(BIOME), "check", "--error-on-warnings", "."], WEB),
    ]


def run_checks(node: Node) -> bool:
    """Run every check, show what the failing ones say; True when all passed."""
    failed = []
    for name, command, folder in checks(node):
        start = time.monotonic()
        done = captured(command, folder, node.folder)
        verdict = "FAILED" if done.returncode else "ok"
        say(f"  {name:16} {verdict:7} {time.monotonic() - start:5.1f} s")
        if done.returncode:
            failed.append(name)
            say(done.stdout.rstrip())
    if failed:
        say(f"Checks that failed: {', '.join(failed)}.")
    return not failed


def main() -> int:
    """Set up what the checks need and run them."""
    try:
        with one_at_a_time():
            prepare_python(["test", "check"])
            node = find_node()
            prepare_modules(node)
    except Trouble as trouble:
        print(trouble, file=sys.stderr)
        return 1
    return 0 if run_checks(node) else 1


if __name__ == "__main__":
    sys.exit(main())
