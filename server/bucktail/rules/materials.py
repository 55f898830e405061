"""Sheet metals: alloy and temper, which claddings they come in, and their density. Section metals.

Tables: tables/materials.csv and tables/section_metals.csv with their sources. Strengths are not
here: nothing in these lists says that one metal may stand in for another.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from bucktail.rules.sources import Source, TableRefused, load_table, source

Cladding = Literal["clad", "bare", "unknown"]


@dataclass(frozen=True, slots=True)
class SheetMetal:
    """One alloy in one temper. `density` is kg/m3; `claddings` are those it is rolled in."""

    alloy: str
    temper: str
    metal: str
    claddings: tuple[str, ...]
    density: int
    source: Source
    note: str

    @property
    def name(self) -> str:
        """The name as the trade writes it, for example 2024-T3."""
        return f"{self.alloy}-{self.temper}"


@cache
def sheet_metals() -> tuple[SheetMetal, ...]:
    """All listed sheet metals, in the order of the table. Raises TableRefused for a bad row."""
    listed = tuple(
        SheetMetal(
            row["alloy"],
            row["temper"],
            row["metal"],
            tuple(row["claddings"].split()),
            int(row["density_kg_m3"]),
            source(row["source"]),
            row["note"],
        )
        for row in load_table("materials").rows
    )
    if len({metal.name for metal in listed}) != len(listed):
        raise TableRefused("table materials lists a metal twice")
    if any(set(metal.claddings) - {"bare", "clad"} or not metal.claddings for metal in listed):
        raise TableRefused("table materials names a cladding that is neither bare nor clad")
    return listed


def sheet_metal(alloy: str | None, temper: str | None) -> SheetMetal | None:
    """The listed metal of that alloy and temper; None where the list has none."""
    return next(
        (one for one in sheet_metals() if one.alloy == alloy and one.temper == temper), None
    )


@dataclass(frozen=True, slots=True)
class SectionMetal:
    """One alloy in one temper that angle, channel or tube is made of."""

    alloy: str
    temper: str
    metal: str
    source: Source
    note: str


@cache
def section_metals() -> tuple[SectionMetal, ...]:
    """All listed metals of section stock. Raises TableRefused where one is listed twice."""
    listed = tuple(
        SectionMetal(row["alloy"], row["temper"], row["metal"], source(row["source"]), row["note"])
        for row in load_table("section_metals").rows
    )
    if len({(metal.alloy, metal.temper) for metal in listed}) != len(listed):
        raise TableRefused("table section_metals lists a metal twice")
    return listed


def section_metal(alloy: str, temper: str) -> SectionMetal | None:
    """The listed section metal of that alloy and temper; None where the list has none."""
    return next(
        (one for one in section_metals() if one.alloy == alloy and one.temper == temper), None
    )


def mass_per_area(metal: SheetMetal, thickness_nm: int) -> float:
    """Mass of bare sheet in kg/m2: density (kg/m3) times thickness (nm).

    Source: mass = length x width x thickness x density. Rivets, primer and film are not included.
    Raises ValueError for a thickness that is not above zero.
    """
    if thickness_nm <= 0:
        raise ValueError("a sheet is thicker than zero")
    return metal.density * thickness_nm / 1e9
