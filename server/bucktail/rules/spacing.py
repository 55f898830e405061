"""How far rivets stand from edges, from each other and from the next row: quantities and findings.

Every sum that looks at an edge or a pitch takes them from here.
"""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.recording import (
    Operand,
    Term,
    ceil_to,
    constant,
    given,
    largest,
    operand,
    same,
    say,
    where,
)
from bucktail.rules.rivets import DIAMETER, HEAD
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, Takes, cited, finds

EDGE_SOURCES = ("ac43-4-57c", "edge-army", "edge-layout")
EDGE = Takes("edge", "length", "From the hole's centre to the edge", "1/4")


def edge_in_diameters(head: Term) -> Operand:
    """Least edge distance in rivet diameters: 2 for protruding heads, 2.5 for flush heads.

    Source: AC 43.13-1B, paragraph 4-57c(1); Army correspondence course AL0992, page 63.
    """
    return where(same(head, "flush"), constant("edge flush"), constant("edge protruding"))


def edge_least(diameter: Term, head: Term) -> Operand:
    """Least distance (nm) from the hole's centre to the edge."""
    return edge_in_diameters(head) * diameter


def edge_most(diameter: Term) -> Operand:
    """Most distance (nm) from the last holes to the edge: 4 D. Source: AL0992, page 63."""
    return constant("edge most") * diameter


def edge_for_layout(diameter: Term, head: Term) -> Operand:
    """Edge distance (nm) to mark out: 1/16 in more than the least. Source: FAA-H-8083-31A."""
    return edge_least(diameter, head) + constant("edge layout extra")


def short_of(least: Operand, has: Term) -> Operand:
    """By how much (nm) something is less than its least; 0 where it is enough."""
    return largest(least - has, 0)


def pitch_in_diameters(rows: Operand) -> Operand:
    """Least pitch in rivet diameters: 3 in a single row, 4 in each of several rows.

    Source: AC 43.13-1B, paragraph 4-57c(1) and the example of 4-58g.
    """
    return where(rows > 1, constant("pitch double row"), constant("pitch least"))


def pitch_least(diameter: Term, rows: Operand) -> Operand:
    """Least distance (nm) between rivets of one row."""
    return pitch_in_diameters(rows) * diameter


def row_gap_least(diameter: Term) -> Operand:
    """Least distance (nm) between rows: 2.5 D. Source: Army TM 10-5410-229-13P, page 112."""
    return ceil_to(constant("row gap least") * diameter)


def row_gap_usual(diameter: Term, pitch: Term) -> Operand:
    """Usual distance (nm) between rows: about 75 % of the pitch, and not under the least.

    Source: FAA-H-8083-31, as told by a trade article.
    """
    return largest(row_gap_least(diameter), ceil_to(constant("row gap share") * pitch))


def edge_findings(edge: Operand, diameter: Operand, head: Operand) -> tuple[Finding, ...]:
    """An edge distance judged; nothing is found where none is given."""
    least, most = edge_least(diameter, head), edge_most(diameter)
    slots = {
        "has": ("length", edge),
        "in_d": ("number", edge / diameter),
    }
    return (
        finds(
            edge < least,
            "fails",
            say(
                "The edge distance of {has} is {in_d} D: short by {short}. A {head} head needs "
                "{needs} D, {least}. Less is a matter for the maker of the kit.",
                short=("length", short_of(least, edge)),
                head=("word", head),
                needs=("number", edge_in_diameters(head)),
                least=("length", least),
                **slots,
            ),
        ),
        finds(
            edge > most,
            "check",
            say(
                "The edge distance of {has} is {in_d} D. Over {most} D ({limit}) the edge may "
                "stand off between the rivets.",
                most=("number", constant("edge most")),
                limit=("length", most),
                **slots,
            ),
        ),
    )


def pitch_too_close(pitch: Operand, diameter: Operand, rows: Operand) -> Finding:
    """The finding for rivets too near each other; nothing is found where no pitch is given."""
    least = pitch_least(diameter, rows)
    return finds(
        pitch < least,
        "fails",
        say(
            "The pitch of {has} is {in_d} D: short by {short}. {row} needs {needs} D, {least}.",
            has=("length", pitch),
            in_d=("number", pitch / diameter),
            short=("length", short_of(least, pitch)),
            row=("word", where(rows > 1, "Each of several rows", "A single row")),
            needs=("number", pitch_in_diameters(rows)),
            least=("length", least),
        ),
    )


def pitch_too_far(pitch: Operand, diameter: Operand) -> tuple[Finding, ...]:
    """Findings for rivets too far apart: over 8 D to be checked, over 12 D fails.

    Source: NAVEDTRA 14018; the limit of 12 D is common practice.
    """
    usual, most = constant("pitch usual high") * diameter, constant("pitch most") * diameter
    slots = {"has": ("length", pitch), "in_d": ("number", pitch / diameter)}
    return (
        finds(
            pitch > most,
            "fails",
            say(
                "The pitch of {has} is {in_d} D. The most is {most} D, {limit}.",
                most=("number", constant("pitch most")),
                limit=("length", most),
                **slots,
            ),
        ),
        finds(
            (pitch > usual) & (pitch <= most),
            "check",
            say(
                "The pitch of {has} is {in_d} D. More than {usual} D ({limit}) is seldom.",
                usual=("number", constant("pitch usual high")),
                limit=("length", usual),
                **slots,
            ),
        ),
    )


def edge_elsewhere(diameter: Operand, head: Operand) -> Operand:
    """What another document is told to allow (nm), 3/32 in universal heads only; not used to judge.

    Source: MIL-R-47196A, as told in a discussion of the standard.
    """
    applies = same(diameter, constant("diameter structural least")) & ~same(head, "flush")
    return where(applies, constant("edge mil-r 3/32"))


def _smaller_edge_elsewhere(edge: Operand, diameter: Operand, head: Operand) -> Finding:
    """What another document allows is said, and does not help."""
    other = edge_elsewhere(diameter, head)
    return finds(
        (edge >= other) & (edge < edge_least(diameter, head)),
        "meets",
        say(
            "MIL-R-47196A is told to allow {other} for this rivet; the cautious rule does not.",
            other=("length", other),
        ),
    )


def _edge(inputs: Mapping[str, Operand]) -> Outcome:
    edge, diameter, head = inputs["edge"], inputs["diameter"], inputs["head"]
    least, layout = edge_least(diameter, head), edge_for_layout(diameter, head)
    return Outcome(
        findings=(
            *edge_findings(edge, diameter, head),
            _smaller_edge_elsewhere(edge, diameter, head),
            finds(
                (edge >= least) & (edge <= edge_most(diameter)),
                "meets",
                say(
                    "The edge distance of {has} is {in_d} D; a {head} head needs {needs} D, "
                    "{least}.",
                    has=("length", edge),
                    in_d=("number", edge / diameter),
                    head=("word", head),
                    needs=("number", edge_in_diameters(head)),
                    least=("length", least),
                ),
            ),
            finds(
                (edge >= least) & (edge < layout),
                "meets",
                say("New holes are marked out with {layout}.", layout=("length", layout)),
            ),
        ),
        gives=(
            Gives("edge_d", edge / diameter, "Edge distance, in diameters"),
            Gives("edge_min_mm", least, "Least edge distance"),
            Gives("short_mm", where(given(edge), short_of(least, edge)), "Short by"),
            Gives("edge_layout_mm", layout, "Edge distance to mark out"),
            Gives("edge_max_mm", edge_most(diameter), "Most edge distance"),
            Gives("other_edge_mm", edge_elsewhere(diameter, head), "Least by MIL-R-47196A"),
        ),
        source=operand(cited(*EDGE_SOURCES, "mil-r-edge")),
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        "edge",
        "Edge left",
        "Is there edge left beside this hole?",
        (EDGE, DIAMETER, HEAD),
        _edge,
        first=True,
    ),
)
