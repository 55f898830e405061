"""A hole that is drilled out for the next size: offered only after all else was looked at again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from bucktail.rules.diameters import band_findings, next_size
from bucktail.rules.flush import (
    COUNTERSINK,
    DIMPLE,
    OVER,
    layer_findings,
    least_countersunk,
    treatment,
)
from bucktail.rules.holes import finish_hole, of_rivet
from bucktail.rules.recording import (
    Operand,
    constant,
    given,
    how_many,
    operand,
    same,
    say,
    smallest,
    value_at,
    where,
)
from bucktail.rules.rivets import (
    DIAMETER,
    HEAD,
    KIND,
    dash_number,
    exact_length,
    length_findings,
    part_number,
)
from bucktail.rules.spacing import (
    EDGE,
    edge_findings,
    edge_least,
    pitch_least,
    pitch_too_close,
    short_of,
)
from bucktail.rules.sums import (
    Finding,
    Gives,
    Outcome,
    Refusal,
    Sum,
    Takes,
    cited,
    finds,
    judged,
    refuses,
)

SOURCES = (
    "ac43-4-57b",
    "mil-r-holes",
    "ac43-4-57c",
    "edge-army",
    "csk-min-sheet",
    "rivet-diameter-target",
    "rivet-diameter-limits",
    "hdbk5-thin",
    "rivet-length",
    "drill-for-rivet",
)


@dataclass(frozen=True, slots=True)
class _Hole:
    """The hole and what it is to become; lengths in nm."""

    now: Operand
    to: Operand
    stack: Operand
    head: Operand
    treatment: Operand
    edge: Operand
    pitch: Operand
    rows: Operand


def _hole(inputs: Mapping[str, Operand]) -> _Hole:
    """Without a word about the treatment it is what the old rivet's flush head allowed."""
    now, stack, head = inputs["diameter"], inputs["stack"], inputs["head"]
    derived = treatment(value_at(stack, 0), now, None)
    told = where(given(inputs["treatment"]), inputs["treatment"], derived)
    return _Hole(
        now=now,
        to=where(given(inputs["to"]), inputs["to"], next_size(now)),
        stack=stack,
        head=head,
        treatment=where(same(head, "flush"), told),
        edge=inputs["edge"],
        pitch=inputs["pitch"],
        rows=inputs["rows"],
    )


def _covered(hole: _Hole, kind: Operand) -> tuple[Finding, ...]:
    return (
        finds(
            ~same(kind, "solid"),
            "not covered",
            "The published rule is for solid rivets. A pulled or reduced-head rivet goes by its "
            "maker's data.",
        ),
        finds(
            ~given(hole.to),
            "not covered",
            "No larger rivet stands in these tables.",
        ),
        finds(
            given(hole.to) & ~same(hole.to, next_size(hole.now)),
            "not covered",
            "The published rule goes up by one size. More than that is for the maker of the kit.",
        ),
        finds(
            hole.rows > constant("rows covered"),
            "not covered",
            "The published spacings are for single, double and triple rows.",
        ),
    )


def _size_findings(hole: _Hole, found: Operand) -> tuple[Finding, ...]:
    new = finish_hole(hole.to)
    return (
        finds(
            hole.to - hole.now > constant("oversize step"),
            "check",
            say(
                "The next size of these tables is {more} larger; the published step is {step}.",
                more=("length", hole.to - hole.now),
                step=("length", constant("oversize step")),
            ),
        ),
        finds(
            found > new,
            "fails",
            say(
                "The hole is {found}, larger than the {new} that the next size is drilled to.",
                found=("length", found),
                new=("length", new),
            ),
        ),
        *band_findings(hole.to, hole.stack),
        finds(
            smallest(hole.stack) < constant("bearing thickness share least") * hole.to,
            "check",
            say(
                "The thinnest sheet is less than {share} D of the new rivet: published bearing "
                "strengths do not hold for it.",
                share=("number", constant("bearing thickness share least")),
            ),
        ),
    )


def _spacing_findings(hole: _Hole) -> tuple[Finding, ...]:
    return (
        *edge_findings(hole.edge, hole.to, hole.head),
        pitch_too_close(hole.pitch, hole.to, hole.rows),
        finds(
            ~given(hole.pitch),
            "check",
            say(
                "Measure to the next rivets: {least} or more from centre to centre.",
                least=("length", pitch_least(hole.to, hole.rows)),
            ),
        ),
    )


def _oversize_percent() -> Operand:
    return constant("oversize share most") * 100


def _limits() -> Finding:
    """MIL-R-47196A, as summed up by a secondary page."""
    return finds(
        operand(True),
        "meets",
        say(
            "At most {share} % of the rivets of a pattern and no more than {count} may be a size "
            "up, few of them next to each other (MIL-R-47196A).",
            share=("number", _oversize_percent()),
            count=("number", constant("oversize count most")),
        ),
    )


def _refusals(inputs: Mapping[str, Operand], hole: _Hole) -> tuple[Refusal, ...]:
    return (
        refuses(
            inputs["to"] <= hole.now,
            "to",
            "It must be larger than the rivet that is there now. Leave it out for the next size.",
        ),
        refuses(
            given(inputs["treatment"]) & ~same(hole.head, "flush"),
            "treatment",
            "A treatment goes with a flush head only. Leave it out, or write head=flush.",
        ),
        refuses(
            same(inputs["treatment"], OVER) & (how_many(hole.stack) < 2),
            "stack",
            "A dimpled skin over a countersunk layer has two layers or more: .025,.050.",
        ),
    )


def _upsize(inputs: Mapping[str, Operand]) -> Outcome:
    hole = _hole(inputs)
    dash = dash_number(exact_length(hole.stack, hole.to))
    findings = (
        *_covered(hole, inputs["kind"]),
        *_size_findings(hole, inputs["hole"]),
        *_spacing_findings(hole),
        *layer_findings(hole.treatment, hole.stack, hole.to),
        *length_findings(operand(True), dash, hole.stack, hole.to),
        _limits(),
    )
    fails = same(judged(findings)[0], "fails")

    def offered(value: Operand) -> Operand:
        """What may be used: only where nothing fails."""
        return where(fails, None, value)

    least = edge_least(hole.to, hole.head)
    closest = pitch_least(hole.to, hole.rows)
    needed = where(
        same(hole.treatment, COUNTERSINK),
        least_countersunk(hole.to, None),
        where(same(hole.treatment, OVER), least_countersunk(hole.to, value_at(hole.stack, 0))),
    )
    return Outcome(
        findings=findings,
        gives=(
            Gives("to_diameter_mm", hole.to, "Next size"),
            Gives("part_number", offered(part_number(dash, hole.to, hole.head)), "Rivet"),
            Gives("dash", offered(dash), "Dash number"),
            Gives("drill", offered(of_rivet("drill", hole.to)), "Finish drill"),
            Gives("hole_mm", offered(finish_hole(hole.to)), "Finish hole"),
            Gives("edge_d", hole.edge / hole.to, "Edge distance, in new diameters"),
            Gives("edge_min_mm", least, "Least edge distance"),
            Gives("edge_short_mm", short_of(least, hole.edge), "Edge short by"),
            Gives("pitch_d", hole.pitch / hole.to, "Pitch, in new diameters"),
            Gives("pitch_min_mm", closest, "Least pitch"),
            Gives(
                "pitch_short_mm",
                where(given(hole.pitch), short_of(closest, hole.pitch)),
                "Pitch short by",
            ),
            Gives("treatment", hole.treatment, "Treatment of the layer at the head"),
            Gives("needed_mm", needed, "Least sheet to countersink"),
            Gives("step_most_mm", constant("oversize step"), "Published step"),
            Gives("oversize_share_percent", _oversize_percent(), "Of a pattern at most"),
            Gives("oversize_count", constant("oversize count most"), "And no more than"),
        ),
        source=operand(cited(*SOURCES)),
        refusals=_refusals(inputs, hole),
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        "upsize",
        "Next size up",
        "May this hole go up a size?",
        (
            replace(DIAMETER, label="Rivet that is there now", example="3/32"),
            Takes("stack", "thicknesses", "Layers from the factory head", ".032,.032"),
            EDGE,
            Takes("pitch", "length", "To the nearest rivet of the row", "1/2", optional=True),
            HEAD,
            Takes("to", "rivet", "Size asked for", "1/8", optional=True),
            Takes(
                "treatment",
                "word",
                "Treatment of the layer at the head",
                COUNTERSINK,
                (COUNTERSINK, DIMPLE, OVER),
                optional=True,
            ),
            Takes("hole", "length", "Hole as it is now", ".110", optional=True),
            Takes("rows", "count", "Rows", "1", default="1", least=1, most=12),
            KIND,
        ),
        _upsize,
    ),
)
