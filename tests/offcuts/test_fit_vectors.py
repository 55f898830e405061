"""The shared vectors: made by the Python, fresh on disk, and covering what they must."""

from __future__ import annotations

import itertools
import json
from pathlib import Path

import pytest

from bucktail.offcuts import vectors as offcut_vectors
from bucktail.rules import vectors as rule_vectors

ROOT = Path(__file__).resolve().parents[2]
OUTPUTS = {**rule_vectors.outputs(), **offcut_vectors.outputs()}


@pytest.mark.parametrize("name", sorted(OUTPUTS))
def test_generated_files_are_fresh(name: str) -> None:
    assert (ROOT / name).read_text(encoding="utf-8") == OUTPUTS[name]


def test_the_fit_vectors_hold_tight_cases_both_ways() -> None:
    rows = json.loads(OUTPUTS["tests/vectors/fit.json"])
    assert len(rows) >= 3000
    laid = [answer[0] if answer else "none" for _, answer in rows]
    for kind in ("none", "askew", "width along a", "width along b"):
        assert laid.count(kind) >= 200, kind
    # a tight pair: fits to the nanometre, and one nanometre wider does not
    pairs = itertools.pairwise(rows)
    assert (
        sum(
            1
            for (one, yes), (other, no) in pairs
            if yes and no is None and sum(other[:2]) - sum(one[:2]) == 1 and one[2:] == other[2:]
        )
        >= 500
    )


def test_the_length_vectors_hold_every_kind_of_answer() -> None:
    rows = [row["gives"] for row in json.loads(OUTPUTS["tests/vectors/lengths.json"])]
    assert len(rows) >= 800
    read = [row for row in rows if isinstance(row, dict)]
    assert sum("nm" in row for row in read) >= 300
    assert sum("inch" in row for row in read) >= 30
    assert sum("sentence" in row and "inch" not in row for row in read) >= 150
