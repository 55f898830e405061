"""What a bench sum is: what it takes, what it gives, how it is judged, what it stands on."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Literal

from bucktail.rules.program import Program, program
from bucktail.rules.recording import Operand, Term, anything, given_as, operand, sentences, where
from bucktail.rules.sources import source

Verdict = Literal["meets", "fails", "check", "not covered"]
VERDICTS: tuple[Verdict, ...] = ("meets", "fails", "check", "not covered")
_WORST_FIRST: tuple[Verdict, ...] = ("not covered", "fails", "check", "meets")

Kind = Literal[
    "thickness", "thicknesses", "length", "lengths", "rivet", "angle", "angles",
    "word", "metal", "marking", "count", "number", "percent", "area", "mix", "text",
]  # fmt: skip

CAUTION = (
    "A reminder, not an approval: the kit maker's plans and approved data come first, "
    "then local rules and licensed people."
)
#: begins the output that says why an input is refused
REFUSED = "refused:"
#: said with every flat, layout and template; common practice
MARKING = (
    "Mark with a marker only. Scribe or punch only metal that will be cut away or drilled out. "
    "No graphite pencil on aluminium."
)


@dataclass(frozen=True, slots=True)
class Takes:
    """One thing a sum asks for.

    `kind` says how it is read (rules/reading). `choices` are the words of a "word"; `least` and
    `most` limit a plain figure. `default` is what stands where nothing is typed; `optional` may be
    left out altogether. `example` shows how to write it.
    """

    key: str
    kind: Kind
    label: str
    example: str
    choices: tuple[str, ...] = ()
    default: str | None = None
    optional: bool = False
    least: int = 0
    most: int = 10_000


@dataclass(frozen=True, slots=True)
class Gives:
    """One thing a sum gives. The key ends in its unit; `value` of a key in _mm is in nanometres."""

    key: str
    value: Operand
    label: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One judgement: where `when` is yes, the answer is at least this bad, for this reason.

    A finding of "meets" is a remark: its sentence is said, and the verdict stays.
    """

    when: Operand
    verdict: Verdict
    sentence: Operand


@dataclass(frozen=True, slots=True)
class Refusal:
    """Inputs that can be read one by one but make no sum together: the one at fault, what to do."""

    when: Operand
    key: str
    sentence: Operand


@dataclass(frozen=True, slots=True)
class Outcome:
    """The work of a sum in operands: its findings, what it gives, and what it stands on."""

    findings: tuple[Finding, ...]
    gives: tuple[Gives, ...]
    source: Operand
    caution: str = CAUTION
    refusals: tuple[Refusal, ...] = ()


@dataclass(frozen=True, slots=True)
class Sum:
    """A sum of the reckoner. `question` is what a builder asks; `work` is called once, to record.

    `first` puts it among those shown at once. `piece` marks a piece to be made.
    """

    name: str
    title: str
    question: str
    takes: tuple[Takes, ...]
    work: Callable[[Mapping[str, Operand]], Outcome] = field(repr=False)
    first: bool = False
    piece: bool = False


@dataclass(frozen=True, slots=True)
class Recorded:
    """A sum with its program. The program's outputs are verdict, why, source, what it gives, and
    for every input that can be refused a sentence under `refused:` and its key."""

    sum: Sum
    gives: tuple[Gives, ...]
    caution: str
    program: Program


def finds(when: Operand, verdict: Verdict, sentence: Term) -> Finding:
    """A finding; the sentence may be plain text or made by say()."""
    return Finding(when, verdict, operand(sentence))


def refuses(when: Operand, key: str, sentence: Term) -> Refusal:
    """A refusal; the sentence may be plain text or made by say()."""
    return Refusal(when, key, operand(sentence))


def cited(*ids: str) -> str:
    """Documents and paragraphs of the bibliography, as they stand under an answer.

    Raises TableRefused for an id the bibliography does not have. What was not read says so.
    """
    return "; ".join(dict.fromkeys(_citation(one) for one in ids))


def _citation(source_id: str) -> str:
    one = source(source_id)
    place = one.document if one.seen == "common practice" else f"{one.document}, {one.paragraph}"
    return place if one.seen in ("read", "common practice") else f"{place} ({one.seen})"


def judged(findings: tuple[Finding, ...]) -> tuple[Operand, Operand]:
    """The verdict, which is the worst that was found, and why, the worst first.

    Where something is not covered only that is said.
    """
    findings = tuple(sorted(findings, key=lambda one: _WORST_FIRST.index(one.verdict)))

    def holds(verdict: Verdict) -> Operand:
        return anything(False, *(one.when for one in findings if one.verdict == verdict))

    def told(covered: bool) -> Operand:
        chosen = [one for one in findings if (one.verdict != "not covered") is covered]
        return sentences(None, *(where(one.when, one.sentence) for one in chosen))

    uncovered = holds("not covered")
    verdict: Operand = where(holds("check"), "check", "meets")
    verdict = where(holds("fails"), "fails", verdict)
    return where(uncovered, "not covered", verdict), where(uncovered, told(False), told(True))


@cache
def record(one: Sum) -> Recorded:
    """Call the sum's work with operands and keep what it did."""
    outcome = one.work({take.key: given_as(take.key) for take in one.takes})
    verdict, why = judged(outcome.findings)
    outputs = {"verdict": verdict, "why": why, "source": outcome.source}
    outputs |= {gives.key: gives.value for gives in outcome.gives}
    for one_of_them in outcome.refusals:
        name = REFUSED + one_of_them.key
        told = where(one_of_them.when, one_of_them.sentence)
        outputs[name] = sentences(outputs.get(name), told)
    return Recorded(one, outcome.gives, outcome.caution, program(outputs))
