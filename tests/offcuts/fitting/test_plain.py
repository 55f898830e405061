"""Without a compiler the same source gives the same curves."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from bucktail.offcuts.fitting import measure
from bucktail.offcuts.fitting.compiled import COMPILED
from running.outlines import outlines

ROOT = Path(__file__).resolve().parents[3]
NUMBER = 1
PLAIN = f"""
from bucktail.offcuts.fitting import measure
from bucktail.offcuts.fitting.compiled import COMPILED
from running.outlines import outlines
assert not COMPILED
for _, made in outlines(61, {NUMBER}):
    print(measure(made).to_json())
"""


@pytest.mark.skipif(not COMPILED, reason="there is no compiler here to compare with")
def test_plain_python_gives_the_same_curves() -> None:
    environment = {**os.environ, "BUCKTAIL_PLAIN_PYTHON": "1", "PYTHONPATH": str(ROOT / "tests")}
    said = subprocess.run(
        [sys.executable, "-c", PLAIN], env=environment, capture_output=True, text=True, check=False
    )
    assert said.returncode == 0, said.stderr
    lines = said.stdout.splitlines()
    assert len(lines) == NUMBER
    for line, (_, made) in zip(lines, outlines(61, NUMBER), strict=True):
        assert line == measure(made).to_json()


def test_starting_the_server_needs_no_compiler() -> None:
    look = (
        "import sys, bucktail.app, bucktail.cli;"
        "print(*sorted({'numba', 'llvmlite'} & set(sys.modules)))"
    )
    said = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == ""
