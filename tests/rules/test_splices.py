"""Splices by the published tables: which one, which row, and no number where none is printed."""

from __future__ import annotations

import re
from itertools import product
from pathlib import Path
from typing import Any

import pytest

from bucktail.rules.lengths import Unit
from bucktail.rules.reading import sizes
from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.splices import TABLES, USES
from running.published import SPLICED, rows
from running.reckoner import PhoneReckoner

SAID = ["verdict", "why", "source", "caution", "read_as"]
LAP = {"alloy": "2024-T3", "thickness": ".032", "diameter": "1/8", "width": "10", "use": "lap"}


def splice(unit: Unit = "in", **typed: str) -> dict[str, Any]:
    """The answer; the lap joint of the published example where nothing else is said."""
    answer = reckon("splice", {**LAP, **typed}, unit)
    assert not isinstance(answer, Unread), answer
    return answer


FOREIGN = (
    {"head": "flush"},
    {"kind": "pulled"},
    {"kind": "reduced-head"},
    {"angle": "120"},
    {"head": "flush", "angle": "120"},
    {"head": "flush", "angle": "100"},
    {"rivet": "2024"},
    {"head": "flush", "kind": "pulled", "table": "4-10", "clad": "yes"},
)


@pytest.mark.parametrize("other", FOREIGN, ids=str)
def test_t4_anything_but_protruding_solid_rivets_is_not_covered(other: dict[str, str]) -> None:
    answer = splice(**other)
    assert answer["verdict"] == "not covered"
    assert list(answer) == SAID, "a figure was given"
    assert not re.search(r"\d", answer["why"])


def test_t4_on_the_phone_as_well(tmp_path: Path) -> None:
    phone = PhoneReckoner(tmp_path)
    asked = [("splice", {**LAP, **other}, "in") for other in FOREIGN]
    for (_, typed, _), answer in zip(asked, phone.answers(asked), strict=True):
        assert answer == reckon("splice", typed, "in")
        assert list(answer) == SAID


def test_the_worked_example_by_both_tables() -> None:
    by_other = splice(clad="yes", table="4-10")
    assert (by_other["count"], by_other["other_table"], by_other["other_count"]) == (37, "4-9", 47)
    assert by_other["verdict"] == "check" and "47" in by_other["why"]
    cautious = splice(clad="yes")
    assert (cautious["table"], cautious["count"], cautious["other_count"]) == ("4-9", 47, 37)
    assert cautious["verdict"] == "meets" and "4-10" in cautious["why"]


def test_the_frame_rounds_up_before_the_share_and_after() -> None:
    frame = {"alloy": "2017-T3", "thickness": ".040", "use": "intermediate-frame"}
    flange, web = splice(**frame, width=".6"), splice(**frame, width="2")
    assert (flange["full_count"], flange["count"]) == (4, 3)
    assert (web["full_count"], web["count"]) == (13, 8)


@pytest.mark.parametrize(
    ("alloy", "clad", "table", "other"),
    [
        ("2024-T3", "no", "4-9", None),
        ("2024-T3", "yes", "4-9", "4-10"),
        ("7075-T6", "yes", "4-9", None),
        ("2014-T6", "no", "4-9", None),
        ("2017-T3", "no", "4-10", None),
        ("2017-T4", "yes", "4-10", None),
        ("5052-H32", "no", "4-11", None),
        ("5052-O", "no", "4-11", None),
    ],
)
def test_the_table_of_a_metal(alloy: str, clad: str, table: str, other: str | None) -> None:
    answer = splice(alloy=alloy, clad=clad)
    assert (answer["table"], answer.get("other_table")) == (table, other)
    assert f"Table {table}" in answer["source"]


def test_a_metal_or_a_named_table_outside_the_scope_is_not_covered() -> None:
    for typed in (
        {"alloy": "6061-T6"},
        {"alloy": "5052-H32", "clad": "yes"},
        {"alloy": "2024-T3", "table": "4-10"},
        {"alloy": "2024-T3", "clad": "yes", "table": "4-11"},
        {"alloy": "5052-O", "table": "4-9"},
        {"alloy": "2024-T42"},
    ):
        answer = splice(**typed)
        assert answer["verdict"] == "not covered" and list(answer) == SAID, typed


def test_between_rows_the_next_thicker_is_taken_and_said() -> None:
    answer = splice(thickness=".050")
    assert (answer["per_inch"], answer["row_mm"], answer["verdict"]) == (9.8, 1.2954, "check")
    assert ".050 in" in answer["why"] and ".051 in" in answer["why"]
    metric = splice("mm", thickness="1.6", width="254")
    assert (metric["per_inch"], metric["verdict"]) == (12.3, "check")


def test_past_the_ends_of_a_table_nothing_is_given() -> None:
    assert splice(thickness="0.4 mm")["row_mm"] == 0.4064
    for thickness in (".012", ".0149", ".129", ".160", ".250"):
        assert splice(thickness=thickness, diameter="3/16")["verdict"] == "not covered", thickness


def test_a_cell_that_is_not_printed_is_not_covered() -> None:
    diameters = ("1/16", "3/32", "1/8", "5/32", "3/16", "1/4")
    assert len(diameters) == len(sizes())
    empty = 0
    for row, diameter in product(rows("rivets_per_inch"), diameters):
        answer = splice(
            alloy=SPLICED[row["table"]], thickness=f"{row['thickness']} in", diameter=diameter
        )
        if row.get(diameter):
            assert answer["per_inch"] == float(row[diameter])
        else:
            assert answer["verdict"] == "not covered" and list(answer) == SAID
            empty += 1
    assert empty == len(TABLES) * 12 * 6 - 131


def test_where_a_cell_falls_short_of_its_own_note_the_larger_number_stands_beside() -> None:
    answer = splice(alloy="5052-H32", use="full")
    assert (answer["count"], answer["cautious_count"], answer["verdict"]) == (47, 49, "check")
    short = [
        row
        for row in rows("rivets_per_inch")
        for diameter in ("3/32", "1/8", "5/32", "3/16", "1/4")
        if row["table"] == "4-11"
        and row[diameter]
        and "cautious_count"
        in splice(alloy="5052-O", thickness=f"{row['thickness']} in", diameter=diameter)
    ]
    assert len(short) == 21


def test_a_use_never_asks_for_more_than_the_whole_and_shares_are_those_of_the_notes() -> None:
    shares = {use: splice(use=use)["share_percent"] for use in USES}
    assert shares == {
        "full": 100, "lap": 75, "intermediate-frame": 60,
        "fuselage-stringer": 80, "wing-upper-stringer": 80, "wing-lower-stringer": 100,
    }  # fmt: skip
    for use, share in shares.items():
        answer = splice(use=use, width="7.3")
        assert answer["full_count"] * share / 100 <= answer["count"] <= answer["full_count"]


def test_a_thicker_sheet_never_needs_fewer() -> None:
    for alloy in SPLICED.values():
        for diameter in ("3/32", "1/8", "5/32", "3/16", "1/4"):
            counts = [
                answer["count"]
                for thousandths in range(16, 129)
                if "count"
                in (
                    answer := splice(
                        alloy=alloy, thickness=f".{thousandths:03} in", diameter=diameter
                    )
                )
            ]
            assert counts and counts == sorted(counts)
