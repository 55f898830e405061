"""Sheet metals. Published: room temperature densities of aluminium alloys (al-densities)."""

from __future__ import annotations

import pytest

from bucktail.rules.materials import mass_per_area, sheet_metal, sheet_metals


@pytest.mark.parametrize(
    ("name", "density"),
    [
        # kg/m3, as printed
        ("1100-O", 2710), ("2024-T3", 2780), ("2024-O", 2780), ("3003-H14", 2730),
        ("5052-H32", 2680), ("5052-H34", 2680), ("6061-T6", 2700), ("6061-T4", 2700),
        ("6061-O", 2700), ("7075-T6", 2810),
    ],
)  # fmt: skip
def test_aluminium_densities_are_the_printed_ones(name: str, density: int) -> None:
    metal = sheet_metal(*name.split("-"))
    assert metal is not None
    assert (metal.name, metal.density, metal.source.seen) == (name, density, "read")


def test_what_is_from_memory_says_so() -> None:
    steel = sheet_metal("4130", "N")
    assert steel is not None
    assert (steel.metal, steel.source.seen) == ("steel", "from memory")
    assert "from memory" in steel.note


def test_only_2024_and_7075_are_rolled_clad() -> None:
    clad = {metal.alloy for metal in sheet_metals() if "clad" in metal.claddings}
    assert clad == {"2024", "7075"}


# lb/ft2 at .100 lb/in3: thickness (in) x .100 x 144, worked out to three figures
@pytest.mark.parametrize(
    ("mil", "kg_m2"),
    [(16, 1.13), (20, 1.41), (25, 1.77), (32, 2.26), (40, 2.82), (50, 3.53), (63, 4.45)],
)
def test_mass_of_2024_sheet_by_area(mil: int, kg_m2: float) -> None:
    metal = sheet_metal("2024", "T3")
    assert metal is not None
    assert mass_per_area(metal, mil * 25_400) == pytest.approx(kg_m2, abs=0.0051)


def test_a_sheet_without_thickness_has_no_mass() -> None:
    with pytest.raises(ValueError, match="thicker than zero"):
        mass_per_area(sheet_metals()[0], 0)


def test_what_is_not_listed_is_not_found() -> None:
    assert sheet_metal("2024", "T9") is None
    assert sheet_metal(None, None) is None
