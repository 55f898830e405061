"""Solid rivets: how long for a stack. Quantities first, then the sum of the bench."""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.diameters import too_small
from bucktail.rules.recording import (
    Operand,
    Term,
    constant,
    given,
    lookup,
    operand,
    round_to,
    same,
    say,
    total,
    where,
)
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, Takes, cited, finds, refuses

SOURCES = ("rivet-length", "rivet-half-lengths", "rivet-part-number")
DIAMETER = Takes("diameter", "rivet", "Rivet diameter", "1/8")
HEAD = Takes("head", "word", "Head", "flush", ("protruding", "flush"), "protruding")
KIND = Takes("kind", "word", "Kind", "solid", ("solid", "pulled", "reduced-head"), "solid")
PULLED_SOURCE = "The maker's data for this pulled rivet, as you entered it."


def grip(stack: Term) -> Operand:
    """Thickness of all layers together (nm); for a flush head the layer with the head counts too.

    Source: FAA-H-8083-31, figure 4-76; NASM 20426 measures the length overall.
    """
    return total(stack)


def exact_length(stack: Term, diameter: Term) -> Operand:
    """Length before driving (nm): grip + 1.5 D, from under the head, or overall for flush heads.

    Source: FAA-H-8083-31, figure 4-76; NAVEDTRA 14018, page on rivet selection.
    """
    return grip(stack) + constant("shop head allowance") * diameter


def dash_number(length: Term) -> Operand:
    """The nearest length that is made, in sixteenths of an inch; halves are made too.

    Source: AC 43.13-1B, paragraph 4-57a(4): add .5 after the length.
    """
    return round_to(length / constant("rivet length unit"), constant("rivet length step"))


def length_of(dash: Term) -> Operand:
    """Length (nm) of a dash number in sixteenths of an inch."""
    return operand(dash) * constant("rivet length unit")


def protrusion_in_diameters(dash: Term, stack: Term, diameter: Term) -> Operand:
    """What sticks out of the stack before driving, in rivet diameters."""
    return (length_of(dash) - grip(stack)) / diameter


def part_number(dash: Term, diameter: Term, head: Term) -> Operand:
    """MS20470 (universal head) or MS20426 (100 degree flush head), AD (2117-T4), size, dash.

    Source: AC 43.13-1B, paragraph 4-57a.
    """
    thirty_seconds = lookup("rivet_sizes", "thirty_seconds", exact={"diameter_in": diameter})
    standard = where(same(head, "flush"), "MS20426", "MS20470")
    return say(
        "{standard}AD{size}-{dash}",
        standard=("word", standard),
        size=("number", thirty_seconds),
        dash=("number", dash),
    )


def fits_between(protrusion_d: Operand) -> Operand:
    """Yes where a protrusion (in D) makes a sound shop head: 1.3 to 1.7 D."""
    low, high = constant("protrusion least"), constant("protrusion most")
    return (protrusion_d >= low) & (protrusion_d <= high)


def _pulled(inputs: Mapping[str, Operand], thick: Operand) -> tuple[Finding, ...]:
    """A pulled rivet is judged by its maker's data only."""
    least, most = inputs["maker_grip_least"], inputs["maker_grip_most"]
    pulled = same(inputs["kind"], "pulled")
    told = given(least) & given(most) & given(inputs["maker_hole"])
    range_of = {
        "grip": ("length", thick),
        "least": ("length", least),
        "most": ("length", most),
    }
    return (
        finds(
            pulled & ~told,
            "not covered",
            "A pulled rivet goes by its maker's data. Enter its grip range and hole.",
        ),
        finds(
            pulled & same(inputs["head"], "flush") & ~given(inputs["maker_head_angle"]),
            "not covered",
            "The head angle of a flush pulled rivet is its maker's. Enter it.",
        ),
        finds(
            pulled & ((thick < least) | (thick > most)),
            "fails",
            say("The grip is {grip}; the maker's range is {least} to {most}.", **range_of),
        ),
        finds(
            pulled & (thick >= least) & (thick <= most),
            "meets",
            say("The grip of {grip} lies in the maker's range, {least} to {most}.", **range_of),
        ),
    )


def length_findings(
    applies: Operand, dash: Operand, stack: Operand, diameter: Operand
) -> tuple[Finding, ...]:
    """A length judged where `applies` is yes: it must be made, and stick out as it should."""
    out = protrusion_in_diameters(dash, stack, diameter)
    return (
        finds(
            applies & (dash > constant("rivet dash longest")),
            "not covered",
            "The stack is thicker than the rivets of this table are long.",
        ),
        finds(
            applies & ~fits_between(out),
            "check",
            say(
                "The nearest length that is made sticks out {out} D, outside {least} to {most} D: "
                "drive one in scrap of the same stack and measure it.",
                out=("number", out),
                least=("number", constant("protrusion least")),
                most=("number", constant("protrusion most")),
            ),
        ),
    )


def _solid(inputs: Mapping[str, Operand], dash: Operand, was: Operand) -> tuple[Finding, ...]:
    solid = same(inputs["kind"], "solid")
    return (
        finds(
            same(inputs["kind"], "reduced-head"),
            "not covered",
            "No published length rule for reduced heads stands in these tables. "
            "Use the sheet of the rivet's standard.",
        ),
        *length_findings(solid, dash, inputs["stack"], inputs["diameter"]),
        finds(
            solid & given(was) & ~same(was, dash),
            "meets",
            say(
                "The stack was {before}: the rivet changes from -{was} to -{dash}.",
                before=("thicknesses", inputs["was"]),
                was=("number", was),
                dash=("number", dash),
            ),
        ),
        finds(
            solid & same(was, dash),
            "meets",
            say("The rivet stays -{dash}.", dash=("number", dash)),
        ),
    )


def _rivet(inputs: Mapping[str, Operand]) -> Outcome:
    stack, diameter = inputs["stack"], inputs["diameter"]
    solid = same(inputs["kind"], "solid")
    thick, exact = grip(stack), exact_length(stack, diameter)
    dash = dash_number(exact)
    was = where(given(inputs["was"]), dash_number(exact_length(inputs["was"], diameter)))
    step = constant("rivet length step")
    shorter, longer = dash - step, dash + step

    def if_solid(value: Operand) -> Operand:
        return where(solid, value)

    def out(length: Operand) -> Operand:
        return if_solid(protrusion_in_diameters(length, stack, diameter))

    return Outcome(
        findings=(*_pulled(inputs, thick), *_solid(inputs, dash, was), too_small(diameter)),
        gives=(
            Gives("grip_mm", thick, "Grip"),
            Gives("exact_length_mm", if_solid(exact), "Exact length"),
            Gives("dash", if_solid(dash), "Dash number"),
            Gives("length_mm", if_solid(length_of(dash)), "Length"),
            Gives("part_number", if_solid(part_number(dash, diameter, inputs["head"])), "Rivet"),
            Gives("protrusion_mm", if_solid(length_of(dash) - thick), "Sticks out"),
            Gives("protrusion_d", out(dash), "Sticks out, in diameters"),
            Gives("protrusion_least_d", if_solid(constant("protrusion least")), "At least"),
            Gives("protrusion_most_d", if_solid(constant("protrusion most")), "At most"),
            Gives("shorter_dash", if_solid(shorter), "Next shorter"),
            Gives("shorter_protrusion_d", out(shorter), "Next shorter sticks out, in diameters"),
            Gives("longer_dash", if_solid(longer), "Next longer"),
            Gives("longer_protrusion_d", out(longer), "Next longer sticks out, in diameters"),
            Gives("was_dash", if_solid(was), "Dash number before"),
            Gives("hole_mm", where(solid, None, inputs["maker_hole"]), "Hole, by the maker"),
            Gives("head_angle_deg", where(solid, None, inputs["maker_head_angle"]), "Head angle"),
        ),
        source=where(solid, cited(*SOURCES), PULLED_SOURCE),
        refusals=(
            refuses(
                inputs["maker_grip_most"] < inputs["maker_grip_least"],
                "maker_grip_most",
                "It must not be less than the maker's least grip.",
            ),
        ),
    )


def _maker(key: str, kind: str, label: str, example: str) -> Takes:
    return Takes(key, kind, label, example, optional=True, least=60, most=150)  # type: ignore[arg-type]


SUMS: tuple[Sum, ...] = (
    Sum(
        "rivet",
        "Rivet length",
        "Which rivet for this stack?",
        (
            Takes("stack", "thicknesses", "Layers from the factory head", ".032,.040"),
            DIAMETER,
            HEAD,
            KIND,
            Takes("was", "thicknesses", "Layers before", ".032,.040", optional=True),
            _maker("maker_grip_least", "length", "Maker's grip, from", ".063"),
            _maker("maker_grip_most", "length", "Maker's grip, to", ".125"),
            _maker("maker_hole", "length", "Maker's hole", ".129"),
            _maker("maker_head_angle", "angle", "Maker's head angle", "120"),
        ),
        _rivet,
        first=True,
    ),
)
