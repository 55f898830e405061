"""What a piece of sheet is, and when it is never offered for structure."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bucktail.offcuts.material import (
    KNOWN_BY,
    Material,
    fit_for_structure,
    structure_rules,
)

SHEET = Material("2024", "T3", "clad", 25 * 25_400, "bare", "mill marking")


def codes(material: Material) -> list[str]:
    return [reason.code for reason in fit_for_structure(material)]


def test_a_marked_sheet_measured_bare_has_nothing_against_it() -> None:
    assert codes(SHEET) == []


# T10: over film, or no mark seen, is never offered for structure, and the reason is given
def test_a_sheet_measured_over_film_has_its_thickness_not_confirmed() -> None:
    over_film = replace(SHEET, thickness_nm=31 * 25_400, measured="over film")
    assert [reason.sentence for reason in fit_for_structure(over_film)] == [
        "thickness over film, not confirmed"
    ]


def test_a_sheet_with_no_mark_seen_is_never_for_structure() -> None:
    unmarked = replace(SHEET, known_by="unknown")
    assert [reason.sentence for reason in fit_for_structure(unmarked)] == [
        "no mark seen: never for structure"
    ]


@pytest.mark.parametrize("known_by", [way for way in KNOWN_BY if way != "unknown"])
def test_each_way_of_knowing_stands(known_by: str) -> None:
    assert codes(replace(SHEET, known_by=known_by)) == []


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"alloy": "unknown"}, "metal unknown"),
        ({"temper": "unknown"}, "temper unknown"),
        ({"temper": "T9"}, "metal unlisted"),
        ({"alloy": "9999"}, "metal unlisted"),
    ],
)
def test_unknown_and_unlisted_metal_is_never_for_structure(
    change: dict[str, str], code: str
) -> None:
    assert codes(replace(SHEET, **change)) == [code]


def test_every_reason_is_given_at_once() -> None:
    worst = Material("unknown", "unknown", "unknown", 1, "over film", "unknown")
    assert codes(worst) == ["metal unknown", "no mark", "over film"]


def test_section_stock_is_judged_by_its_own_list_of_metals() -> None:
    extruded = replace(SHEET, alloy="2024", temper="T3511", cladding="bare")
    assert codes(extruded) == ["metal unlisted"]
    assert codes(replace(extruded, form="angle")) == []
    soft = replace(SHEET, alloy="5052", temper="H32", cladding="bare")
    assert codes(soft) == []
    assert codes(replace(soft, form="channel")) == ["metal unlisted"]


def test_every_reason_names_its_source() -> None:
    assert all(rule.reason.source.document for rule in structure_rules())


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"alloy": ""}, 'say "unknown"'),
        ({"cladding": "painted"}, "is none of clad, bare, unknown"),
        ({"measured": "by eye"}, "is none of bare, over film"),
        ({"known_by": "hearsay"}, "is none of mill marking"),
        ({"form": "rod"}, "is none of sheet, angle, channel, tube"),
        ({"thickness_nm": 0}, "thicker than zero"),
    ],
)
def test_a_word_that_is_not_listed_is_refused(change: dict[str, object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        replace(SHEET, **change)


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({}, "2024-T3 clad"),
        ({"alloy": "6061", "temper": "T6", "cladding": "bare"}, "6061-T6"),
        ({"temper": "unknown"}, "2024, temper unknown clad"),
        ({"alloy": "unknown"}, "metal unknown"),
    ],
)
def test_a_metal_is_named_as_the_trade_does(change: dict[str, str], name: str) -> None:
    assert replace(SHEET, **change).name == name
