"""Sets up what is missing and runs every test, part by part, with times. Behind scripts/test."""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass

from chromium import find_chromium
from prepare import PYTHON, ROOT, Trouble, one_at_a_time, prepare_python, say
from prepare_fit import prepare_fit
from prepare_web import MODULES, WEB, Node, prepare_web
from run_checks import run_checks

PASSED, FAILED, SKIPPED = "passed", "FAILED", "skipped"
PROCESSES = str(min(os.cpu_count() or 1, 4))
# a browser test waits half of its time, so three keep two processors busy
BROWSERS = "3"


@dataclass(frozen=True)
class Plan:
    """What this run was asked for and what it runs with."""

    node: Node
    long: bool
    pytest_arguments: tuple[str, ...]


def outcome(command: list[str], folder: str, **variables: str) -> str:
    """Run a command with its output straight to the screen; how it ended."""
    environment = {**os.environ, **variables}
    done = subprocess.run(
        command, cwd=folder, env=environment, stdin=subprocess.DEVNULL, check=False
    )
    return FAILED if done.returncode else PASSED


def pytest(plan: Plan, marks: str, *options: str, **variables: str) -> str:
    """Run the Python tests with these marks."""
    wanted = marks if plan.long else f"{marks} and not long"
    command = [str(PYTHON), "-m", "pytest", "-m", wanted, *options, *plan.pytest_arguments]
    return outcome(command, str(ROOT), **variables)


def check_part(plan: Plan) -> str:
    """Lint, formats, types, freshness."""
    return PASSED if run_checks(plan.node) else FAILED


def web_part(plan: Plan) -> str:
    """The TypeScript unit tests."""
    path = plan.node.folder + os.pathsep + os.environ.get("PATH", "")
    return outcome(
        [plan.node.program, str(MODULES / "vitest" / "vitest.mjs"), "run"], str(WEB), PATH=path
    )


def python_part(plan: Plan) -> str:
    """The Python tests that need no browser, spread over the processors."""
    return pytest(plan, "not browser", "-n", PROCESSES, "--dist", "worksteal")


def browser_part(plan: Plan) -> str:
    """The tests in a real Chromium, three files at a time; skipped with the reason without one."""
    chromium = find_chromium()
    if chromium.program:
        spread = ("-n", BROWSERS, "--dist", "loadfile", "--durations=5")
        ended = pytest(plan, "browser", *spread, BUCKTAIL_CHROMIUM=chromium.program)
        if ended != FAILED:
            return ended
        # three browsers share the processors here; a real fault fails alone as well
        say("\nWhat failed runs once more, one test at a time:")
        return pytest(plan, "browser", "--last-failed", BUCKTAIL_CHROMIUM=chromium.program)
    say(f"The browser tests are skipped: {chromium.why_not}")
    ended = pytest(plan, "browser", BUCKTAIL_NO_CHROMIUM=chromium.why_not)
    return SKIPPED if ended == PASSED else ended


PARTS: dict[str, Callable[[Plan], str]] = {
    "check": check_part,
    "web": web_part,
    "python": python_part,
    "browser": browser_part,
}


def read_options(arguments: list[str]) -> argparse.Namespace:
    """The options of scripts/test."""
    parser = argparse.ArgumentParser(prog="scripts/test", description=__doc__.splitlines()[0])
    parser.add_argument("--long", action="store_true", help="also the tests that take minutes")
    parser.add_argument(
        "--only",
        action="append",
        choices=list(PARTS),
        metavar="PART",
        help=f"run one part ({', '.join(PARTS)}); may be given more than once",
    )
    parser.add_argument(
        "pytest_arguments",
        nargs="*",
        metavar="-- ARGUMENT",
        help="passed on to pytest, for example: scripts/test --only python -- tests/tags",
    )
    return parser.parse_args(arguments)


def run_parts(plan: Plan, names: list[str]) -> list[tuple[str, str, float]]:
    """Run the parts in order; each as (name, how it ended, seconds)."""
    results = []
    for name in names:
        say(f"\n== {name} ==")
        start = time.monotonic()
        ended = PARTS[name](plan)
        results.append((name, ended, time.monotonic() - start))
    return results


def main(arguments: list[str]) -> int:
    """Set up, run the parts, sum up; 0 when everything passed."""
    options = read_options(arguments)
    begun = time.monotonic()
    try:
        with one_at_a_time():
            prepare_python(["test", "check"])
            prepare_fit()
            node = prepare_web()
    except Trouble as trouble:
        print(trouble, file=sys.stderr)
        return 1
    ready = time.monotonic() - begun
    plan = Plan(node, options.long, tuple(options.pytest_arguments))
    results = run_parts(plan, options.only or list(PARTS))
    say(f"\n  {'set-up':8} done    {ready:6.1f} s")
    return sum_up(results, time.monotonic() - begun)


def sum_up(results: list[tuple[str, str, float]], seconds: float) -> int:
    """Say how each part ended and how all of it did; the exit code."""
    for name, ended, took in results:
        say(f"  {name:8} {ended:7} {took:6.1f} s")
    failed = [name for name, ended, _ in results if ended == FAILED]
    skipped = [name for name, ended, _ in results if ended == SKIPPED]
    said = f"Failed: {', '.join(failed)}" if failed else "Nothing failed"
    said += f"; skipped: {', '.join(skipped)}" if skipped else ""
    say(f"{said}; {seconds:.0f} s.")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
