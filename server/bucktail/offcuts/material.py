"""What an offcut is made of, how that is known, and why it may not be offered for structure."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from bucktail.offcuts.sections import SECTION_FORMS
from bucktail.rules.materials import Cladding, section_metal, sheet_metal
from bucktail.rules.sources import Source, TableRefused, load_table, source

Measured = Literal["bare", "over film"]
KnownBy = Literal["mill marking", "tagged stock", "kit part", "unknown"]

MEASURED: tuple[Measured, ...] = ("bare", "over film")
KNOWN_BY: tuple[KnownBy, ...] = ("mill marking", "tagged stock", "kit part", "unknown")
CLADDINGS: tuple[Cladding, ...] = ("clad", "bare", "unknown")
FORMS = ("sheet", *SECTION_FORMS)
GRAINS = ("a", "b", "unknown")


@dataclass(frozen=True, slots=True)
class Material:
    """The identity of a piece of sheet or of section stock.

    `alloy` and `temper` are "unknown" where nobody knows. `thickness_nm` is as measured: bare
    metal, or over the protective film, and then not confirmed. `known_by` says what the identity
    stands on. Raises ValueError for a word that is none of those listed or a thickness of zero.
    """

    alloy: str
    temper: str
    cladding: Cladding
    thickness_nm: int
    measured: Measured
    known_by: KnownBy
    form: str = "sheet"

    def __post_init__(self) -> None:
        if not self.alloy or not self.temper:
            raise ValueError('say "unknown" where the alloy or temper is not known')
        for word, allowed in (
            (self.cladding, CLADDINGS),
            (self.measured, MEASURED),
            (self.known_by, KNOWN_BY),
            (self.form, FORMS),
        ):
            if word not in allowed:
                raise ValueError(f"{word!r} is none of {', '.join(allowed)}")
        if self.thickness_nm <= 0:
            raise ValueError("a sheet is thicker than zero")

    @property
    def name(self) -> str:
        """The metal as the trade writes it: 2024-T3 clad, 6061-T6, or metal unknown."""
        if self.alloy == "unknown":
            return "metal unknown"
        temper = "temper unknown" if self.temper == "unknown" else self.temper
        joined = f"{self.alloy}, {temper}" if self.temper == "unknown" else f"{self.alloy}-{temper}"
        return f"{joined} clad" if self.cladding == "clad" else joined


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a piece is not offered: a code for sorting, the sentence shown, and what it stands on."""

    code: str
    sentence: str
    source: Source


@dataclass(frozen=True, slots=True)
class StructureRule:
    """One row of tables/structure_reasons.csv: the reason holds where `field` has `value`."""

    field: str
    value: str
    reason: Reason

    def holds(self, material: Material) -> bool:
        """True where the row speaks against using `material` for structure.

        Nothing is said of the temper where even the alloy is not known.
        """
        if self.field == "temper" and material.alloy == "unknown":
            return False
        if self.field == "metal":
            known = "unknown" not in (material.alloy, material.temper)
            listed = sheet_metal if material.form == "sheet" else section_metal
            return known and listed(material.alloy, material.temper) is None
        return str(getattr(material, self.field)) == self.value


@cache
def structure_rules() -> tuple[StructureRule, ...]:
    """The rows of the table. Raises TableRefused for a field that a material does not have."""
    rows = load_table("structure_reasons").rows
    for row in rows:
        if row["field"] not in ("alloy", "temper", "metal", "known_by", "measured"):
            raise TableRefused(f"structure_reasons: no field {row['field']!r}")
    return tuple(
        StructureRule(
            row["field"],
            row["value"],
            Reason(row["code"], row["sentence"], source(row["source"])),
        )
        for row in rows
    )


def fit_for_structure(material: Material) -> tuple[Reason, ...]:
    """Every reason against offering `material` for structure; empty where there is none.

    Empty is not an approval: the kit maker's plans and approved data come first. A piece measured
    over film, of unknown metal, or with no mark seen always has a reason.
    """
    return tuple(rule.reason for rule in structure_rules() if rule.holds(material))
