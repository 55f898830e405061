"""How much primer an area takes."""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.recording import (
    Operand,
    Term,
    constant,
    given,
    lookup,
    operand,
    say,
    total,
    where,
)
from bucktail.rules.sums import CAUTION, Finding, Gives, Outcome, Sum, Takes, cited, finds

SOURCES = ("primer-coverage-metric", "primer-coverage", "primer-film-epoxy", "primer-planning")
PRIMER_CAUTION = (
    f"{CAUTION} The can and its data sheet say mixing, pot life and times. Solvents: flammable, "
    "ventilate, no sparks, rags in a closed can. Two-part hardeners with isocyanates: supplied or "
    "suitable air, an ordinary carbon mask does not hold them back, skin and eyes covered. "
    "Chromates cause cancer when breathed in: no dry sanding without a respirator."
)


def coverage(solids: Term, film: Term, transfer: Term) -> Operand:
    """Area (m2) that one litre covers with one coat: 1000 m2 at 1 um dry and 100 % solids, times
    solids by volume and transfer (both of one), over the dry film (nm).

    Source: volume over thickness; coverage formula of a technical paper (1604 ft2 per US gallon
    and mil).
    """
    micrometres = operand(film) / constant("micrometre")
    return constant("theoretical coverage") * solids * transfer / micrometres


def volume(area: Term, coats: Term, per_litre: Operand) -> Operand:
    """Mixed primer (l) for an area (mm2), all coats."""
    square_metres = operand(area) / constant("square millimetres in a square metre")
    return square_metres * coats / per_litre


def wet_film(film: Term, solids: Term) -> Operand:
    """Film just sprayed (nm): the dry film over the share of solids."""
    return operand(film) / solids


def parts(mixed: Operand, mix: Term) -> Operand:
    """The volume (l) of each component of a mix by volume."""
    return mixed * mix / total(mix)


def published_film(kind: Term, coats: Term, end: str) -> Operand:
    """An end ("least" or "most") of the dry film (nm) of all coats. Source: TO 1-1-8, Table 5-2."""
    return lookup("primer_film", f"{end}_in", exact={"kind": kind, "coats": coats})


def _film(inputs: Mapping[str, Operand], least: Operand, most: Operand) -> tuple[Finding, ...]:
    """The film of all coats against the published range for that kind of primer."""
    film = inputs["film"] * inputs["coats"]
    figures: dict[str, tuple[str, Term]] = {
        "film": ("length", film),
        "least": ("length", least),
        "most": ("length", most),
    }
    return (
        finds(
            (film < least) | (film > most),
            "check",
            say("All coats make {film} dry; the published film is {least} to {most}.", **figures),
        ),
        finds(
            given(inputs["primer"]) & ~given(least),
            "check",
            "No film is published for so many coats: one or two are usual.",
        ),
    )


def _usual(value: Operand, name: str, sentence: str) -> Finding:
    """Outside the range that is met with: looked at again. The sentence has {low} and {high}."""
    low, high = constant(f"primer {name} low"), constant(f"primer {name} high")
    told = say(sentence, low=("number", low * 100), high=("number", high * 100))
    return finds((value < low) | (value > high), "check", told)


def _primer(inputs: Mapping[str, Operand]) -> Outcome:
    solids, film, transfer, mix = (inputs[k] for k in ("solids", "film", "transfer", "mix"))
    least, most = (
        published_film(inputs["primer"], inputs["coats"], end) for end in ("least", "most")
    )
    per_litre = coverage(solids, film, transfer)
    mixed = volume(inputs["area"], inputs["coats"], per_litre)
    return Outcome(
        findings=(
            *_film(inputs, least, most),
            _usual(
                solids,
                "solids",
                "Solids by volume are usually {low} to {high} %: read the can again.",
            ),
            _usual(
                transfer,
                "transfer",
                "Usually {low} to {high} % of what is sprayed stays on the sheet.",
            ),
        ),
        gives=(
            Gives("volume_l", mixed, "Mixed primer, all coats"),
            Gives("parts_l", where(given(mix), parts(mixed, mix)), "Each component, in order"),
            Gives("coverage_m2_per_l", per_litre, "One litre covers, one coat"),
            Gives("wet_film_mm", wet_film(film, solids), "Wet film of a coat"),
            Gives("dry_film_mm", film * inputs["coats"], "Dry film of all coats"),
            Gives("film_least_mm", least, "Published, from"),
            Gives("film_most_mm", most, "Published, to"),
        ),
        source=operand(cited(*SOURCES)),
        caution=PRIMER_CAUTION,
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        "primer",
        "Primer",
        "How much primer does this area take?",
        (
            Takes("area", "area", "Area", "4.8 m2"),
            Takes("coats", "count", "Coats", "2", default="1", least=1, most=10),
            Takes("solids", "percent", "Solids by volume", "52%", most=100),
            Takes("film", "length", "Dry film of a coat", ".8mil"),
            Takes("transfer", "percent", "Stays on the sheet", "60%", most=100),
            Takes("mix", "mix", "Mix by volume", "4:1:1", optional=True),
            Takes("primer", "word", "Kind", "epoxy", ("epoxy", "elastomeric"), optional=True),
        ),
        _primer,
    ),
)
