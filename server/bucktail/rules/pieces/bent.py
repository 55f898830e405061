"""The bent part of a piece: inside radius, straight parts and bends at 90 degrees, in the flat."""

from __future__ import annotations

from dataclasses import dataclass

from bucktail.rules.bends import (
    bend_allowance,
    bend_ends,
    developed_width,
    flats,
    setback,
    sight_lines,
)
from bucktail.rules.radii import cautious_radius, published_radius
from bucktail.rules.recording import (
    Operand,
    Term,
    given,
    how_many,
    joined,
    round_to,
    say,
    smallest,
    where,
    without_last,
)
from bucktail.rules.sums import Finding, Gives, Takes, finds

BENT_THROUGH = 90
#: the grain lies across the bends, which run along side a of the blank
GRAIN_ACROSS_BENDS = "b"
RADIUS = Takes("radius", "length", "Inside radius of its bends", "1/8", optional=True)


@dataclass(frozen=True, slots=True)
class Bent:
    """Legs laid flat, lengths in nm from the first edge: `straight` by leg, `starts` and `ends` by
    bend. The inside radius is 0 where there is no bend, None where nothing is published."""

    radius: Operand
    straight: Operand
    starts: Operand
    ends: Operand
    developed: Operand

    @property
    def leg_starts(self) -> Operand:
        """Where the straight part of each leg begins (nm from the first edge)."""
        return joined(0, self.ends)

    @property
    def sight_lines(self) -> Operand:
        """Sight lines (nm) with the side of the first edge in the brake; see bends.sight_lines."""
        return sight_lines(self.starts, self.ends, self.radius, "near")

    @property
    def whole(self) -> Operand:
        """Yes where it can be laid out: no leg is shorter than its bends take."""
        return given(self.developed) & (smallest(self.straight) > 0)


def has_bends(legs: Operand) -> Operand:
    """Yes where there are two legs or more."""
    return how_many(legs) > 1


def bent(legs: Operand, thickness: Operand, alloy: Term, told: Operand) -> Bent:
    """Outside legs (nm) with the radius (nm) that is told; else the cautious one of the tables.

    Source: FAA-H-8083-31, chapter 4, for the flats; the radius as in rules/radii.
    """
    radius = where(given(told), told, cautious_radius(alloy, thickness))
    radius = where(has_bends(legs), radius, 0)
    angles = without_last(legs * 0 + BENT_THROUGH)
    straight = flats(legs, setback(radius, thickness, angles))
    allowances = bend_allowance(radius, thickness, angles)
    ends = bend_ends(straight, allowances)
    return Bent(radius, straight, ends - allowances, ends, developed_width(straight, allowances))


def radius_findings(
    alloy: Term, thickness: Operand, legs: Operand, radius: Operand
) -> tuple[Finding, ...]:
    """The inside radius judged by Table 4-6 and the other tables; nothing where nothing bends."""
    least, cautious = published_radius(alloy, thickness, "min"), cautious_radius(alloy, thickness)
    bends = has_bends(legs)
    slots = {"radius": ("length", radius)}
    return (
        finds(
            bends & given(thickness) & ~given(radius),
            "not covered",
            "No published bend radius for this metal and sheet. Enter the radius of the plans.",
        ),
        finds(
            bends & given(radius) & ~given(least),
            "check",
            "The least radius for this metal and sheet is not published: bend a strip of the same "
            "sheet first.",
        ),
        finds(
            bends & (radius < least),
            "fails",
            say(
                "The radius of {radius} is tighter than the least published, {least}.",
                least=("length", least),
                **slots,
            ),
        ),
        finds(
            bends & (radius >= least) & (radius < cautious),
            "check",
            say(
                "The radius of {radius} is published, but other tables ask for {cautious}: bend a "
                "strip of the same sheet first.",
                cautious=("length", cautious),
                **slots,
            ),
        ),
    )


def bend_gives(piece: Bent) -> tuple[Gives, ...]:
    """What is marked out for the bends; nothing of it where it cannot be laid out."""

    def laid(value: Operand) -> Operand:
        return where(piece.whole, round_to(value))

    return (
        Gives("radius_mm", round_to(piece.radius), "Inside radius"),
        Gives("flats_mm", laid(piece.straight), "Straight parts, by leg"),
        Gives("bend_starts_mm", laid(piece.starts), "Bends begin, from the first edge"),
        Gives("bend_ends_mm", laid(piece.ends), "Bends end, from the first edge"),
        Gives("bend_lines_mm", laid((piece.starts + piece.ends) / 2), "Middles of the bends"),
        Gives(
            "sight_lines_mm", laid(piece.sight_lines), "Sight lines, the first edge in the brake"
        ),
    )


def in_the_flat(piece: Bent) -> Operand:
    """Width of the blank (nm); None where it cannot be laid out."""
    return where(piece.whole, round_to(piece.developed))
