"""What a sheet weighs."""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.recording import Operand, Term, constant, given, lookup, operand, same, where
from bucktail.rules.sums import Gives, Outcome, Sum, Takes, cited, finds, refuses


def density(alloy: Term) -> Operand:
    """Density (kg/m3) of a listed sheet metal; that of the core stands for clad sheet too.

    Source: tables/materials.csv, each row with its own.
    """
    return lookup("materials", "density_kg_m3", exact={"metal": alloy})


def area_of(length: Term, width: Term) -> Operand:
    """Area (mm2) of a rectangle from lengths in nm."""
    millimetre = constant("millimetre")
    return (operand(length) / millimetre) * (operand(width) / millimetre)


def mass(alloy: Term, thickness: Term, area: Term) -> Operand:
    """Mass (g) of bare sheet: density x thickness (nm) x area (mm2); no rivets, primer or film.

    Source: sheet weight method of a metal stockist.
    """
    millimetres = operand(thickness) / constant("millimetre")
    return density(alloy) * constant("density per cubic millimetre") * millimetres * area


def _mass(inputs: Mapping[str, Operand]) -> Outcome:
    alloy, thickness = inputs["alloy"], inputs["thickness"]
    length, width, area = inputs["length"], inputs["width"], inputs["area"]
    sides = given(length) & given(width)
    some_side = given(length) | given(width)
    counted = where(given(area), area, area_of(length, width))
    remembered = same(lookup("materials", "source", exact={"metal": alloy}), "steel-density")
    return Outcome(
        findings=(
            finds(
                ~given(density(alloy)),
                "not covered",
                "The density of this metal is not in the list.",
            ),
            finds(remembered, "check", "The density of this metal is told from memory."),
        ),
        gives=(
            Gives("mass_g", mass(alloy, thickness, counted), "Mass"),
            Gives("area_m2", counted / constant("square millimetres in a square metre"), "Area"),
            Gives("density_kg_m3", density(alloy), "Density"),
        ),
        source=where(
            remembered,
            cited("steel-density", "mass-method"),
            cited("al-densities", "mass-method"),
        ),
        refusals=(
            refuses(
                given(area) & some_side,
                "area",
                "Give the area, or length and width, not both.",
            ),
            refuses(
                ~given(area) & ~sides,
                "length",
                "Give length and width, or the area, for example length=10 width=4 or area=52ft2.",
            ),
        ),
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        "mass",
        "Mass of a sheet",
        "What does this piece weigh?",
        (
            Takes("alloy", "metal", "Metal", "2024-T3"),
            Takes("thickness", "thickness", "Sheet", ".032"),
            Takes("length", "length", "Length", "10", optional=True),
            Takes("width", "length", "Width", "4", optional=True),
            Takes("area", "area", "Area", "0.5 m2", optional=True),
        ),
        _mass,
    ),
)
