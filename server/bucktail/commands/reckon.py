"""`bucktail reckon`: the bench sums on the command line. Opens no workshop."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence

from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.rulebook import SUMS, sum_named
from bucktail.rules.sums import Sum

UNREADABLE = 2


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command with one name for every sum."""
    parser = subparsers.add_parser(
        "reckon",
        help="work out a bench sum: bucktail reckon rivet stack=.032,.040 diameter=1/8",
        description="Work out a bench sum. Lengths: .032in, 1/8in, 3/32, 0.8mm, 1.5mil. "
        "Areas: 4.8m2, 52ft2. Percentages: 52%. The result is 0 for any verdict and 2 for "
        "input that cannot be read.",
        epilog="\n".join(_usage(one) for one in SUMS),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("name", help="which sum; see below")
    parser.add_argument("inputs", nargs="*", metavar="key=value", help="what the sum takes")
    parser.add_argument("--json", action="store_true", help="answer as one flat JSON object")
    parser.add_argument(
        "--unit", choices=("in", "mm"), default="in", help="unit of bare figures (default: in)"
    )
    parser.set_defaults(run=run)


def _usage(one: Sum) -> str:
    keys = " ".join(
        f"[{take.key}={take.example}]"
        if take.optional or take.default
        else f"{take.key}={take.example}"
        for take in one.takes
    )
    return f"  {one.name:12} {one.question}\n  {'':12} {keys}"


def run(options: argparse.Namespace) -> int:
    """Print the answer; 0 for any verdict, 2 for what cannot be read."""
    answer = _answer(options.name, options.inputs, options.unit)
    if isinstance(answer, Unread):
        return _refuse(answer, options.json)
    if options.json:
        print(json.dumps(answer, ensure_ascii=False))
        return 0
    for key, value in answer.items():
        if value != "":
            shown = ", ".join(map(str, value)) if isinstance(value, list) else value
            print(f"{key:24} {shown}")
    return 0


def _answer(name: str, inputs: Sequence[str], unit: str) -> dict[str, object] | Unread:
    if sum_named(name) is None:
        names = ", ".join(one.name for one in SUMS)
        return Unread("", f"There is no sum \u201c{name}\u201d. The sums are: {names}.")
    typed: dict[str, str] = {}
    for pair in inputs:
        key, mark, text = pair.partition("=")
        if not mark:
            return Unread(key, f"\u201c{pair}\u201d has no =. Write key=value, for example t=.032.")
        if key in typed:
            return Unread(key, "It is given twice. Give it once.")
        if not text.strip():
            return Unread(key, "Nothing is written after the =. Write a value, or leave it out.")
        typed[key] = text
    return reckon(name, typed, "mm" if unit == "mm" else "in")  # type: ignore[return-value]


def _refuse(unread: Unread, as_json: bool) -> int:
    sentence = f"{unread.key}: {unread.sentence}" if unread.key else unread.sentence
    if as_json:
        print(json.dumps({"unreadable": unread.key, "why": sentence}, ensure_ascii=False))
    print(sentence, file=sys.stderr)
    return UNREADABLE
