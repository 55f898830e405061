"""Bends: how much sheet one takes up, and the flat that is cut for several."""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.reading import LONGEST_LIST
from bucktail.rules.recording import (
    Operand,
    Term,
    constant,
    given,
    how_many,
    joined,
    operand,
    running,
    same,
    say,
    smallest,
    tan_deg,
    total,
    value_at,
    where,
    without_last,
)
from bucktail.rules.sums import (
    CAUTION,
    MARKING,
    Finding,
    Gives,
    Outcome,
    Refusal,
    Sum,
    Takes,
    cited,
    finds,
    refuses,
)

SOURCES = ("bend-allowance", "bend-setback", "ac43-4-56b", "bend-deduction")
FLAT_SOURCES = ("bend-allowance", "bend-setback", "ac43-4-56b", "bend-sight-line", "bend-channel")
LARGEST_ANGLE = 179


def setback_factor(angle: Term) -> Operand:
    """K, tan of half the angle bent through (degrees, 0 to less than 180; None at 180).

    Source: AC 43.13-1B, Table 4-7, which prints it to three or four figures; worked out here, as
    the table has a misprint at 176 degrees.
    """
    return tan_deg(operand(angle) / 2)


def setback(radius: Term, thickness: Term, angle: Term) -> Operand:
    """From the bend tangent line to the mould line (nm): K (R + T), R the inside radius.

    Source: AC 43.13-1B, paragraph 4-56b.
    """
    return setback_factor(angle) * (operand(radius) + thickness)


def bend_allowance(radius: Term, thickness: Term, angle: Term, neutral: Term = None) -> Operand:
    """Sheet (nm) taken up between the tangent lines: (.01743 R + .0078 T) N, N degrees bent.

    Where the builder has found a place of the neutral line in the sheet by trial (`neutral`, a
    share of T from the inside), it is pi/180 (R + neutral T) N instead.
    Source: FAA-H-8083-31, chapter 4, as quoted by secondary pages; geometry for the other.
    """
    per_degree = constant("bend allowance radius") * radius
    per_degree += constant("bend allowance thickness") * thickness
    by_neutral = constant("radians in a degree") * (operand(radius) + neutral * operand(thickness))
    return where(given(neutral), by_neutral, per_degree) * angle


def bend_allowance_navy(radius: Term, thickness: Term, angle: Term) -> Operand:
    """The same with the coefficient of the Navy's course: (.0173 R + .0078 T) N.

    Source: Navy training course, air metal repair, page 13-19.
    """
    per_degree = constant("bend allowance radius navy") * radius
    return (per_degree + constant("bend allowance thickness") * thickness) * angle


def bend_deduction(radius: Term, thickness: Term, angle: Term, allowance: Operand) -> Operand:
    """What two legs together lose to a bend (nm): 2 SB - BA. Source: sheet metal workbook."""
    return 2 * setback(radius, thickness, angle) - allowance


def flats(legs: Term, setbacks: Term) -> Operand:
    """The straight parts (nm): each leg, outside to the mould lines, less its setbacks: one at the
    ends, two between. Source: FAA-H-8083-31, chapter 4."""
    return legs - joined(0, setbacks) - joined(setbacks, 0)


def bend_ends(straight: Operand, allowances: Operand) -> Operand:
    """Where each bend ends (nm from the edge of the first leg): flats and allowances in turn."""
    return without_last(running(straight + joined(allowances, 0)))


def developed_width(straight: Operand, allowances: Operand) -> Operand:
    """Width of the flat blank (nm): all flats and all allowances."""
    return total(straight) + total(allowances)


def sight_lines(starts: Operand, ends: Operand, radius: Term, side: Term) -> Operand:
    """One radius in from the bend tangent line on the side that goes into the brake (nm).

    Source: FAA-H-8083-31, chapter 4, as told by a secondary page.
    """
    return where(same(side, "far"), ends - radius, starts + radius)


def _tolerance(bends: Term) -> Operand:
    return constant("bend tolerance") * bends


def _bend(inputs: Mapping[str, Operand]) -> Outcome:
    radius, thickness, angle = inputs["radius"], inputs["thickness"], inputs["angle"]
    neutral = inputs["neutral"]
    allowance = bend_allowance(radius, thickness, angle, neutral)
    back = setback(radius, thickness, angle)
    navy = where(given(neutral), None, bend_allowance_navy(radius, thickness, angle))
    return Outcome(
        findings=(
            finds(
                given(allowance),
                "meets",
                say(
                    "Trust it to {tolerance}: bend a strip of the same sheet and measure it.",
                    tolerance=("thickness", _tolerance(1)),
                ),
            ),
            finds(
                given(navy),
                "meets",
                say("With the Navy's coefficient it is {navy}.", navy=("thickness", navy)),
            ),
            finds(
                ~given(back),
                "meets",
                "A bend right round has no mould line, so no setback is given.",
            ),
        ),
        gives=(
            Gives("allowance_mm", allowance, "Bend allowance"),
            Gives("setback_mm", back, "Setback"),
            Gives(
                "deduction_mm",
                bend_deduction(radius, thickness, angle, allowance),
                "Bend deduction",
            ),
            Gives("k", setback_factor(angle), "K"),
            Gives("allowance_navy_mm", navy, "Bend allowance, the Navy's coefficient"),
            Gives("tolerance_mm", _tolerance(1), "To be trusted to"),
        ),
        source=operand(cited(*SOURCES)),
    )


def _too_short(straight: Operand) -> tuple[Finding, ...]:
    """A finding for each leg that is shorter than its setbacks."""
    each = [value_at(straight, place) for place in range(LONGEST_LIST)]
    return tuple(
        finds(
            flat < 0,
            "fails",
            say(
                f"Leg {place + 1} is {{by}} too short for its setback: make it longer by that, or "
                "the radius smaller if the metal allows it.",
                by=("thickness", 0 - flat),
            ),
        )
        for place, flat in enumerate(each)
    )


def _refused(legs: Operand, angles: Operand) -> tuple[Refusal, ...]:
    one_leg = same(how_many(legs), 1)
    wrong = ~same(how_many(angles), 1) & ~same(how_many(angles), how_many(legs) - 1)
    return (
        refuses(one_leg, "legs", "One leg has no bend. Give two or more, for example 1,2,1."),
        refuses(
            ~one_leg & wrong,
            "angles",
            say(
                "Legs: {legs}. Bends between them: {bends}. Give an angle for each bend, or a "
                "single one for all.",
                legs=("number", how_many(legs)),
                bends=("number", how_many(legs) - 1),
            ),
        ),
    )


def _flat(inputs: Mapping[str, Operand]) -> Outcome:
    legs, radius, thickness = inputs["legs"], inputs["radius"], inputs["thickness"]
    single = same(how_many(inputs["angles"]), 1)
    angles = where(single, without_last(legs) * 0 + total(inputs["angles"]), inputs["angles"])
    setbacks = setback(radius, thickness, angles)
    allowances = bend_allowance(radius, thickness, angles, inputs["neutral"])
    straight = flats(legs, setbacks)
    ends = bend_ends(straight, allowances)
    starts = ends - allowances
    tolerance = _tolerance(how_many(angles))
    return Outcome(
        findings=(
            *_too_short(straight),
            finds(
                smallest(straight) >= 0,
                "meets",
                say(
                    "Trust the width to {tolerance}. Best with the bend lines across the grain.",
                    tolerance=("thickness", tolerance),
                ),
            ),
        ),
        gives=(
            Gives("developed_mm", developed_width(straight, allowances), "Width of the flat"),
            Gives("flats_mm", straight, "Flats"),
            Gives("bend_starts_mm", starts, "Bends start, from the first edge"),
            Gives("bend_ends_mm", ends, "Bends end"),
            Gives("bend_lines_mm", starts + allowances / 2, "Middles of the bends"),
            Gives(
                "sight_lines_mm", sight_lines(starts, ends, radius, inputs["brake"]), "Sight lines"
            ),
            Gives("setbacks_mm", setbacks, "Setbacks"),
            Gives("allowances_mm", allowances, "Bend allowances"),
            Gives("tolerance_mm", tolerance, "To be trusted to"),
        ),
        source=operand(cited(*FLAT_SOURCES)),
        caution=f"{CAUTION} {MARKING}",
        refusals=_refused(legs, inputs["angles"]),
    )


_SHEET = (
    Takes("thickness", "thickness", "Sheet", ".040"),
    Takes("radius", "length", "Inside radius", "1/8"),
)
_NEUTRAL = Takes(
    "neutral", "number", "Neutral line found by trial, share of the sheet", ".4",
    optional=True, most=1,
)  # fmt: skip

SUMS: tuple[Sum, ...] = (
    Sum(
        "bend",
        "One bend",
        "How much sheet does this bend take up?",
        (
            *_SHEET,
            Takes("angle", "angle", "Bent through", "90", most=180),
            _NEUTRAL,
        ),
        _bend,
    ),
    Sum(
        "flat",
        "Flat width",
        "How wide is the flat, and where are the bend lines?",
        (
            *_SHEET,
            Takes("legs", "lengths", "Legs, outside, in order", "1,2,1"),
            Takes("angles", "angles", "Bent through", "90,90", default="90", most=LARGEST_ANGLE),
            Takes(
                "brake", "word", "Side that goes into the brake", "near", ("near", "far"), "near"
            ),
            _NEUTRAL,
        ),
        _flat,
    ),
)
