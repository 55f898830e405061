"""Holes of solid rivets: pilot, finish drill, and how far a dimpled hole grows."""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.diameters import not_structural, too_small
from bucktail.rules.recording import Operand, Term, given, lookup, operand, same, say
from bucktail.rules.rivets import DIAMETER
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, cited, finds

SOURCES = ("drill-for-rivet", "drill-sizes", "ac43-rebuilt-tables", "mil-r-hole-range")


def of_rivet(column: str, diameter: Term) -> Operand:
    """A cell of tables/rivet_sizes.csv; None where it is empty."""
    return lookup("rivet_sizes", column, exact={"diameter_in": diameter})


def finish_hole(diameter: Term) -> Operand:
    """Hole (nm) before the rivet goes in. Source: FAA-H-8083-31, chapter 4 (from memory); but for
    3/32 the holes the tables of AC 43.13-1B were made with are the same."""
    return of_rivet("hole_in", diameter)


def _findings(diameter: Operand) -> tuple[Finding, ...]:
    hole, splice = finish_hole(diameter), of_rivet("splice_hole_in", diameter)
    least, most = of_rivet("hole_least_in", diameter), of_rivet("hole_most_in", diameter)
    dimpled = of_rivet("dimpled_hole_in", diameter)
    return (
        too_small(diameter),
        finds(
            (hole >= least) & (hole <= most),
            "meets",
            say(
                "MIL-R-47196A has {least} to {most} for this hole; the splice tables of "
                "AC 43.13-1B were made with {splice}.",
                least=("length", least), most=("length", most), splice=("length", splice),
            ),
        ),
        finds(
            same(hole, splice),
            "meets",
            "The splice tables of AC 43.13-1B were made with the same hole.",
        ),
        finds(
            given(dimpled),
            "meets",
            say(
                "Dimpled, a hole of this size grows past {dimpled}: measure it and write it down.",
                dimpled=("length", dimpled),
            ),
        ),
        finds(
            ~given(dimpled) & ~not_structural(diameter),
            "meets",
            "How far this hole grows when it is dimpled no source here says: measure it.",
        ),
    )  # fmt: skip


def _hole(inputs: Mapping[str, Operand]) -> Outcome:
    diameter = inputs["diameter"]
    return Outcome(
        findings=_findings(diameter),
        gives=(
            Gives("drill", of_rivet("drill", diameter), "Finish drill"),
            Gives("hole_mm", finish_hole(diameter), "Finish hole"),
            Gives(
                "splice_hole_mm",
                of_rivet("splice_hole_in", diameter),
                "Hole of the splice tables",
            ),
            Gives("pilot_drill", of_rivet("pilot_drill", diameter), "Pilot drill"),
            Gives("pilot_mm", of_rivet("pilot_in", diameter), "Pilot hole"),
            Gives("metric_drill_mm", of_rivet("metric_drill_mm", diameter), "Next metric drill"),
            Gives("dimpled_hole_mm", of_rivet("dimpled_hole_in", diameter), "Grows, dimpled, past"),
            Gives("hole_least_mm", of_rivet("hole_least_in", diameter), "Hole, from"),
            Gives("hole_most_mm", of_rivet("hole_most_in", diameter), "Hole, to"),
        ),
        source=operand(cited(*SOURCES)),
    )


SUMS: tuple[Sum, ...] = (
    Sum("hole", "Drill", "Which drill for this rivet?", (DIAMETER,), _hole, first=True),
)
