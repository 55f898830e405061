"""Whether the workshop's computer reckons a kept sum as the phone did."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from typing import Any

from bucktail.rules.reckon import Flat, Unread, reckon
from bucktail.rules.rulebook import version

#: What an answer says beside its verdict and figures. It may be worded anew, and is not compared.
WORDS = frozenset({"why", "source", "caution", "read_as"})


def reckoned_otherwise(body: Mapping[str, Any]) -> dict[str, Any] | None:
    """What is reckoned here where the sum kept in `body` (sum.kept.v1) has another answer.

    None where verdict and figures are the same; else {"rulebook", "answer"}. What cannot be
    reckoned here at all is "not covered", and says why: it never keeps an entry out.
    """
    try:
        answer = reckon(body["sum"], body["inputs"], "mm" if body["unit"] == "mm" else "in")
    except Exception as problem:
        answer = Unread("", f"This version cannot reckon it ({type(problem).__name__}).")
    if isinstance(answer, Unread):
        why = f"{answer.key}: {answer.sentence}" if answer.key else answer.sentence
        answer = {"verdict": "not covered", "why": why}
    here = kept_answer(answer)
    if _compared(here) == _compared(body["answer"]):
        return None
    return {"rulebook": version(), "answer": here}


def kept_answer(answer: Mapping[str, Flat]) -> dict[str, str]:
    """An answer as it is kept: text by key. Twin: keptAnswer in web/src/twins/kept.ts."""
    return {key: _text(value) for key, value in answer.items()}


def _text(value: Flat) -> str:
    """Figures without an exponent, yes and no, lists with ", " between."""
    if isinstance(value, list):
        return ", ".join(_text(one) for one in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if isinstance(value, str) else f"{Decimal(repr(value)):f}"


def _compared(answer: Mapping[str, str]) -> dict[str, list[Decimal | str]]:
    """Verdict and figures, so that 2.50 is 2.5."""
    return {
        key: [_figure(one.strip()) for one in text.split(",")]
        for key, text in answer.items()
        if key not in WORDS
    }


def _figure(text: str) -> Decimal | str:
    try:
        figure = Decimal(text)
    except InvalidOperation:
        return text
    return figure if figure.is_finite() else text
