"""Whether another sheet may stand in for the one that is wanted, and what changes with it.

The strengths are told from memory: they can make an answer fail or ask to look again, and never
make it good. Only the same metal, cladding and gauge meets.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from bucktail.rules.flush import treatment
from bucktail.rules.radii import cautious_radius
from bucktail.rules.recording import (
    Operand,
    Term,
    anything,
    given,
    lookup,
    operand,
    same,
    say,
    total,
    where,
)
from bucktail.rules.rivets import dash_number, exact_length
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, Takes, cited, finds
from bucktail.rules.thicknesses import mill_tolerance, one_gauge
from bucktail.rules.weights import density

SOURCES = ("ac43-4-50", "substitution-rule", "substitution-ratio", "strengths", "gauge-family-rule")


def strength(metal: Term, clad: Term, thickness: Term, column: str) -> Operand:
    """Least strength (ksi) of sheet: column "ftu_ksi" (tensile) or "fty_ksi" (yield).

    None where nothing is listed for the metal, cladding and thickness (nm).
    Source: MIL-HDBK-5J, chapters 2 and 3; ASTM B209; all from memory.
    """
    keys = {"metal": metal, "clad": clad}
    row = lookup("strengths", "to_in", exact=keys, up=("to_in", thickness))
    keys["to_in"] = row
    starts = lookup("strengths", "from_in", exact=keys)
    reaches = operand(thickness) >= starts - mill_tolerance(starts)
    return where(reaches, lookup("strengths", column, exact=keys))


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet in operands: metal (alloy and temper), yes or no for clad, thickness in nm."""

    metal: Operand
    clad: Operand
    thickness: Operand

    def told(self, column: str) -> Operand:
        """Something tables/materials.csv says of the metal."""
        return lookup("materials", column, exact={"metal": self.metal})

    def strength(self, column: str) -> Operand:
        """See strength()."""
        return strength(self.metal, self.clad, self.thickness, column)

    def carries(self, column: str) -> Operand:
        """Strength for each unit of width: stress times thickness."""
        return self.strength(column) * self.thickness

    def mass_per_area(self) -> Operand:
        """Density times thickness, for comparing."""
        return density(self.metal) * self.thickness


def percent_of(one: Operand, other: Operand) -> Operand:
    """One thing in percent of another."""
    return one * 100 / other


def _failures(wanted: Sheet, offered: Sheet, protected: Operand) -> tuple[Finding, ...]:
    same_metal = same(wanted.metal, offered.metal)
    gauge = one_gauge(wanted.thickness, offered.thickness)
    thinner = (offered.thickness < wanted.thickness) & ~gauge
    listed = given(offered.told("density_kg_m3")) | same_metal
    other_base = ~same(wanted.told("base_metal"), offered.told("base_metal"))
    other_kind = given(wanted.told("base_metal")) & listed & ~same_metal & other_base
    annealed = same(offered.told("temper"), "O") & ~same_metal
    figures: dict[str, tuple[str, Term]] = {
        "wanted": ("thickness", wanted.thickness),
        "offered": ("thickness", offered.thickness),
    }
    return (
        finds(
            ~listed,
            "fails",
            "What is marked is not on the list of sheet metals, so nothing says how strong it is. "
            "Metal that is not known is never used for structure.",
        ),
        finds(other_kind, "fails", "Steel and aluminium do not stand in for each other here."),
        finds(
            thinner,
            "fails",
            say("It is thinner: {offered}, where {wanted} is wanted.", **figures),
        ),
        finds(
            same(wanted.clad, "yes") & same(offered.clad, "no") & ~same(protected, "yes"),
            "fails",
            "Bare sheet in place of clad corrodes: use clad, or protect it and say so.",
        ),
        finds(annealed, "fails", "It is annealed, and soft."),
        *_weaker(wanted, offered, listed & ~other_kind, annealed, thinner),
    )


def _weaker(
    wanted: Sheet, offered: Sheet, listed: Operand, annealed: Operand, thinner: Operand
) -> tuple[Finding, ...]:
    """Strengths told from memory may only make it fail."""
    same_metal = same(wanted.metal, offered.metal)
    same_sheet = same_metal & same(wanted.clad, offered.clad)
    softer = anything(
        *(offered.strength(one) < wanted.strength(one) for one in ("ftu_ksi", "fty_ksi"))
    )
    weaker = anything(
        *(offered.carries(one) < wanted.carries(one) for one in ("ftu_ksi", "fty_ksi"))
    )
    compared = given(offered.strength("ftu_ksi")) & given(wanted.strength("ftu_ksi"))
    return (
        finds(
            listed & ~same_metal & softer & ~annealed,
            "fails",
            "It is a weaker metal, by strengths told from memory.",
        ),
        finds(
            listed & ~same_sheet & weaker & ~(~same_metal & softer) & ~thinner,
            "fails",
            "Width for width it carries less, by strengths told from memory.",
        ),
        finds(
            listed & ~same_sheet & ~compared & ~annealed,
            "fails",
            "No table lists both, so it cannot be shown to be as strong.",
        ),
    )


def _differences(wanted: Sheet, offered: Sheet, failed: Operand) -> tuple[Finding, ...]:
    same_metal = same(wanted.metal, offered.metal)
    gauge = one_gauge(wanted.thickness, offered.thickness)
    clad_instead = same(wanted.clad, "no") & same(offered.clad, "yes")
    bare_instead = same(wanted.clad, "yes") & same(offered.clad, "no")
    another_temper = same(wanted.told("alloy"), offered.told("alloy")) & ~same_metal
    return (
        finds(
            ~failed & same_metal & same(wanted.clad, offered.clad) & gauge,
            "meets",
            "The same metal, cladding and gauge.",
        ),
        finds(
            another_temper,
            "meets",
            "The alloy is the same and the temper is not: they count as different metals.",
        ),
        finds(
            ~failed & ~same_metal,
            "check",
            "It is another metal. It is not weaker by strengths told from memory; fatigue, cracks "
            "and corrosion are not compared. Ask the kit maker.",
        ),
        finds(
            ~failed & clad_instead,
            "check",
            "Clad in place of bare: a little of the thickness is soft.",
        ),
        finds(
            ~failed & bare_instead,
            "check",
            "Bare in place of clad: the protection does what the cladding did.",
        ),
        finds(
            ~failed & (offered.thickness > wanted.thickness) & ~gauge,
            "check",
            say(
                "It is thicker: {offered}, where {wanted} is wanted. Look at what it meets: steps, "
                "joggles, edges.",
                wanted=("thickness", wanted.thickness),
                offered=("thickness", offered.thickness),
            ),
        ),
    )


@dataclass(frozen=True, slots=True)
class _Changes:
    """What the builder asked about: before and after, None where it was not asked."""

    dash_was: Operand
    dash: Operand
    treatment_was: Operand
    treatment: Operand
    radius_was: Operand
    radius: Operand
    mass_percent: Operand


def _changes(inputs: Mapping[str, Operand], wanted: Sheet, offered: Sheet) -> _Changes:
    diameter, stack = inputs["diameter"], inputs["stack"]
    grown = total(stack) + offered.thickness - wanted.thickness
    flush = same(inputs["head"], "flush") & given(diameter)

    def dash(thick: Operand) -> Operand:
        return where(given(stack) & given(diameter), dash_number(exact_length(thick, diameter)))

    return _Changes(
        dash_was=dash(total(stack)),
        dash=dash(grown),
        treatment_was=where(flush, treatment(wanted.thickness, diameter, None)),
        treatment=where(flush, treatment(offered.thickness, diameter, None)),
        radius_was=cautious_radius(wanted.metal, wanted.thickness),
        radius=cautious_radius(offered.metal, offered.thickness),
        mass_percent=percent_of(offered.mass_per_area(), wanted.mass_per_area()) - 100,
    )


def _told(changes: _Changes, bend: Operand, failed: Operand) -> tuple[Finding, ...]:
    one = changes
    return (
        finds(
            ~failed & given(one.dash) & ~same(one.dash, one.dash_was),
            "meets",
            say(
                "The rivet changes from -{was} to -{now}.",
                was=("number", one.dash_was),
                now=("number", one.dash),
            ),
        ),
        finds(
            ~failed & given(one.treatment) & ~same(one.treatment, one.treatment_was),
            "check",
            say(
                "Under flush heads: {now}, not {was}.",
                was=("word", one.treatment_was),
                now=("word", one.treatment),
            ),
        ),
        finds(
            ~failed & (one.radius > one.radius_was),
            "meets",
            say(
                "Where it is bent it wants {now} inside, not {was}.",
                was=("length", one.radius_was),
                now=("length", one.radius),
            ),
        ),
        finds(
            ~failed & (bend < one.radius),
            "check",
            say("The bend of {bend} is tighter than that.", bend=("length", bend)),
        ),
        finds(
            ~failed & (one.mass_percent > 0),
            "meets",
            say("It weighs {more} % more.", more=("number", one.mass_percent)),
        ),
    )


def _substitute(inputs: Mapping[str, Operand]) -> Outcome:
    wanted = Sheet(inputs["alloy"], inputs["clad"], inputs["thickness"])
    offered = Sheet(inputs["offered_alloy"], inputs["offered_clad"], inputs["offered_thickness"])
    failures = _failures(wanted, offered, inputs["protected"])
    failed = anything(False, *(one.when for one in failures))
    one = _changes(inputs, wanted, offered)
    return Outcome(
        findings=(
            *failures,
            *_differences(wanted, offered, failed),
            *_told(one, inputs["radius"], failed),
        ),
        gives=(
            Gives(
                "tensile_percent",
                percent_of(offered.carries("ftu_ksi"), wanted.carries("ftu_ksi")),
                "Tensile strength against the wanted, from memory",
            ),
            Gives(
                "yield_percent",
                percent_of(offered.carries("fty_ksi"), wanted.carries("fty_ksi")),
                "Yield strength against the wanted, from memory",
            ),
            Gives("mass_change_percent", one.mass_percent, "Mass more or less"),
            Gives("was_dash", one.dash_was, "Dash number before"),
            Gives("dash", one.dash, "Dash number"),
            Gives("was_treatment", one.treatment_was, "Treatment before"),
            Gives("treatment", one.treatment, "Treatment"),
            Gives("was_radius_mm", one.radius_was, "Bend radius before"),
            Gives("radius_mm", one.radius, "Bend radius"),
        ),
        source=operand(cited(*SOURCES)),
    )


_YES_NO = ("yes", "no")

SUMS: tuple[Sum, ...] = (
    Sum(
        "substitute",
        "Another sheet",
        "May this sheet stand in for the one the plans name?",
        (
            Takes("alloy", "metal", "Metal wanted", "2024-T3"),
            Takes("clad", "word", "Wanted clad", "yes", _YES_NO, "no"),
            Takes("thickness", "thickness", "Thickness wanted", ".032"),
            Takes("offered_alloy", "marking", "Metal offered, as marked", "6061-T6"),
            Takes("offered_clad", "word", "Offered clad", "yes", _YES_NO, "no"),
            Takes("offered_thickness", "thickness", "Thickness offered", ".040"),
            Takes("protected", "word", "Bare sheet gets protected", "yes", _YES_NO, "no"),
            Takes("diameter", "rivet", "Rivet through it", "1/8", optional=True),
            Takes("head", "word", "Head", "flush", ("protruding", "flush"), "protruding"),
            Takes("stack", "thicknesses", "Layers as planned, this one too", ".032,.040",
                  optional=True),
            Takes("radius", "length", "Inside radius it is bent to", "1/8", optional=True),
        ),
        _substitute,
    ),
)  # fmt: skip
