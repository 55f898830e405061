"""Random questions for every sum: nothing raises, answers are flat, more is never less."""

from __future__ import annotations

import json
import math
import re
from collections import Counter
from fractions import Fraction
from typing import Any

import pytest

from bucktail.rules.lengths import NM_PER_64TH, NM_PER_IN
from bucktail.rules.reading import sizes
from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.rulebook import SUMS, sum_named
from bucktail.rules.sums import VERDICTS, Sum, record
from running.sums import Question, Wish, Wishes, questions, typed

SAID = ("verdict", "why", "source", "caution", "read_as")
UNIT_ENDING = re.compile(r"_(mm|deg|g|l|m2|d|percent|per_inch|per_l|kg_m3)$")
#: figures without a unit
COUNTS = re.compile(r"(^|_)(count|counts|dash|holes|rows|per_row|in_row|per_inch|k)$")
IDS = [one.name for one in SUMS]


def check(question: Question) -> str:
    """Look at one answer; its verdict, or "unread"."""
    one = sum_named(question.name)
    assert one is not None
    answer = reckon(question.name, question.typed, question.unit)
    if isinstance(answer, Unread):
        check_refusal(one, answer, question)
        return "unread"
    assert tuple(answer)[:5] == SAID
    assert answer["verdict"] in VERDICTS
    assert json.loads(json.dumps(answer, allow_nan=False)) == answer
    for key in ("source", "caution", "read_as"):
        assert answer[key], (question, key)
    if answer["verdict"] != "meets":
        assert answer["why"], question
    figures = {key: value for key, value in answer.items() if key not in SAID}
    if answer["verdict"] == "not covered":
        assert figures == {}
        assert not re.search(r"[0-9]", str(answer["why"])), answer["why"]
        return "not covered"
    assert set(figures) <= {gives.key for gives in record(one).gives}
    for key, value in figures.items():
        check_figure(key, value, question)
    assert not re.search(r"[{}]|None|Operand|nan|inf\b", str(answer["why"])), answer["why"]
    return str(answer["verdict"])


def check_refusal(one: Sum, answer: Unread, question: Question) -> None:
    """What cannot be read names a field and says in a sentence what to do."""
    known = {take.key for take in one.takes}
    assert answer.key in known or answer.key in question.typed
    assert len(answer.sentence) >= 12, answer
    assert answer.sentence.endswith((".", "?")), answer
    assert "Traceback" not in answer.sentence


def check_figure(key: str, value: Any, question: Question) -> None:
    """A figure is a finite number under a key that ends in its unit, or a word, or a list."""
    each = value if isinstance(value, list) else [value]
    for single in each:
        assert isinstance(single, int | float | str), (key, value)
        assert single != "" and not isinstance(single, bool), (key, value)
        if isinstance(single, float | int):
            assert math.isfinite(single), (question, key, value)
            assert UNIT_ENDING.search(key) or COUNTS.search(key), key


@pytest.mark.parametrize("one", SUMS, ids=IDS)
def test_300_random_questions_have_a_sound_answer(one: Sum) -> None:
    seen = Counter(check(question) for question in questions(one, 11, 240))
    seen += Counter(check(question) for question in questions(one, 12, 60, bad=0.8))
    assert seen["unread"] > 10
    assert sum(seen.values()) - seen["unread"] > 40
    assert len(seen) >= 3 or one.name == "bend", seen


@pytest.mark.long
@pytest.mark.parametrize("one", SUMS, ids=IDS)
def test_10000_random_questions_have_a_sound_answer(one: Sum) -> None:
    for question in questions(one, 21, 8_000):
        check(question)
    for question in questions(one, 22, 2_000, bad=0.8):
        check(question)


#: the verdicts that random questions of the riveting sums must come to
REACHED = {
    "rivet": set(VERDICTS),
    "edge": {"meets", "fails", "check"},
    "flush": set(VERDICTS),
    "hole": {"meets", "check"},
    "diameter": set(VERDICTS),
    "shophead": {"meets", "fails", "check"},
    "layout": set(VERDICTS),
    "upsize": set(VERDICTS),
}


@pytest.mark.parametrize("name", REACHED)
def test_the_questions_reach_every_verdict_of_the_riveting_sums(name: str) -> None:
    one = sum_named(name)
    assert one is not None
    found = {check(question) for question in questions(one, 31, 700)} - {"unread"}
    assert found == REACHED[name]


def figures_of(answer: dict[str, Any]) -> dict[str, Any]:
    """An answer without its sentences, which are in the unit asked for."""
    return {key: value for key, value in answer.items() if key not in ("why", "read_as")}


def same_in_both(one: Sum, seed: int, count: int) -> int:
    """Ask the same in inches and in millimetres; how many could be read."""
    wishes = Wishes(seed, exact=True)
    read = 0
    for at in range(count):
        wished = wishes.for_sum(one)
        inches = reckon(one.name, typed(one, wished, "in", at), "mm")
        metric = reckon(one.name, typed(one, wished, "mm", at), "in")
        if isinstance(inches, Unread) or isinstance(metric, Unread):
            assert isinstance(inches, Unread) and isinstance(metric, Unread)
            assert inches.key == metric.key
            continue
        assert figures_of(inches) == figures_of(metric), wished
        read += 1
    return read


@pytest.mark.parametrize("one", SUMS, ids=IDS)
def test_inches_and_millimetres_give_the_same_figures(one: Sum) -> None:
    assert same_in_both(one, 41, 100) > 20


@pytest.mark.long
@pytest.mark.parametrize("one", SUMS, ids=IDS)
def test_inches_and_millimetres_give_the_same_figures_10000_times(one: Sum) -> None:
    assert same_in_both(one, 42, 10_000) > 2_000


#: more of this input, and what then never falls (up) or never rises (down)
MORE = (
    ("rivet", "stack", "up", ("grip_mm", "exact_length_mm", "dash", "length_mm")),
    ("rivet", "diameter", "up", ("exact_length_mm", "dash")),
    ("edge", "edge", "up", ("edge_d",)),
    ("edge", "edge", "down", ("short_mm",)),
    ("edge", "diameter", "up", ("edge_min_mm", "short_mm", "edge_layout_mm", "edge_max_mm")),
    ("edge", "diameter", "down", ("edge_d",)),
    ("flush", "diameter", "up", ("needed_mm", "head_height_mm")),
    ("flush", "under", "up", ("needed_mm",)),
    ("hole", "diameter", "up", ("hole_mm", "pilot_mm", "metric_drill_mm")),
    ("diameter", "sheets", "up", ("three_times_mm", "band_least_mm", "band_most_mm")),
    ("shophead", "diameter", "up", ("min_width_mm", "max_width_mm", "nominal_height_mm")),
    ("shophead", "measured_diameter", "up", ("width_d",)),
    ("shophead", "measured_height", "up", ("height_d",)),
    ("layout", "diameter", "up", ("edge_min_mm", "pitch_min_mm", "row_gap_min_mm")),
    ("layout", "length", "up", ("count", "per_row")),
    ("layout", "length", "down", ("length_short_mm",)),
    ("layout", "width", "down", ("width_short_mm",)),
    ("layout", "rows", "up", ("width_needed_mm", "pitch_min_mm")),
    ("layout", "bend", "up", ("bend_clear_mm",)),
    ("layout", "tool", "down", ("bend_clear_mm",)),
    ("upsize", "edge", "up", ("edge_d",)),
    ("upsize", "edge", "down", ("edge_short_mm",)),
    ("upsize", "pitch", "down", ("pitch_short_mm",)),
    ("upsize", "stack", "up", ("dash",)),
    ("splice", "width", "up", ("count", "full_count", "cautious_count")),
    ("radius", "thickness", "up", ("min_mm", "max_mm")),
    ("bend", "thickness", "up", ("allowance_mm", "setback_mm")),
    ("bend", "radius", "up", ("allowance_mm", "setback_mm")),
    ("bend", "angle", "up", ("allowance_mm", "setback_mm")),
    ("flat", "legs", "up", ("developed_mm",)),
    ("mass", "thickness", "up", ("mass_g",)),
    ("mass", "length", "up", ("mass_g", "area_m2")),
    ("mass", "width", "up", ("mass_g",)),
    ("mass", "area", "up", ("mass_g",)),
    ("primer", "area", "up", ("volume_l",)),
    ("primer", "film", "up", ("volume_l",)),
    ("primer", "coats", "up", ("volume_l",)),
    ("primer", "solids", "down", ("volume_l",)),
    ("primer", "transfer", "down", ("volume_l",)),
    ("shim", "gap", "up", ("thickness_mm",)),
    ("shim", "length", "up", ("holes",)),
    ("section-splice", "damage", "up", ("blank_a_mm",)),
    ("patch", "across", "up", ("count",)),
    ("stiffener", "length", "up", ("holes",)),
)


def more(one: Sum, key: str, wish: Wish, wishes: Wishes) -> Wish | None:
    """The wish with more in it; None where there is no more."""
    take = next(take for take in one.takes if take.key == key)
    assert not isinstance(wish, str)
    at = wishes.chance.randrange(len(wish))
    value = wish[at]
    if take.kind == "rivet":
        larger = [Fraction(nm) for nm in sizes() if nm > value]
        return (larger[0],) if larger else None
    if take.kind in ("thickness", "thicknesses", "length", "lengths"):
        room = (NM_PER_IN if "thickness" in take.kind else 10**10) - value
        step = Fraction(wishes.chance.choice((25_400, NM_PER_64TH, 10 * NM_PER_64TH, NM_PER_IN)))
        changed = value + min(step, room)
    else:
        changed = min(value + wishes.chance.choice((1, 2, 10)), Fraction(take.most))
    return (*wish[:at], changed, *wish[at + 1 :]) if changed > value else None


def compared(name: str, key: str, way: str, outputs: tuple[str, ...], count: int) -> int:
    """Ask with less and with more; how many figures could be compared."""
    one = sum_named(name)
    assert one is not None
    wishes, found = Wishes(sum(map(ord, name + key)), exact=True), 0
    for at in range(count):
        wished = wishes.for_sum(one)
        grown = more(one, key, wished[key], wishes) if key in wished else None
        if grown is None:
            continue
        less = reckon(name, typed(one, wished, "mm", at), "in")
        lots = reckon(name, typed(one, {**wished, key: grown}, "mm", at), "in")
        if isinstance(less, Unread) or isinstance(lots, Unread):
            continue
        for output in outputs:
            before, after = less.get(output), lots.get(output)
            if isinstance(before, int | float) and isinstance(after, int | float):
                rises = before <= after if way == "up" else before >= after
                assert rises, (output, before, after, wished, grown)
                found += 1
    return found


@pytest.mark.parametrize(
    ("name", "key", "way", "outputs"), MORE, ids=[f"{row[0]}-{row[1]}-{row[2]}" for row in MORE]
)
def test_more_is_never_less(name: str, key: str, way: str, outputs: tuple[str, ...]) -> None:
    assert compared(name, key, way, outputs, 150) > 5


@pytest.mark.long
@pytest.mark.parametrize(
    ("name", "key", "way", "outputs"), MORE, ids=[f"{row[0]}-{row[1]}-{row[2]}" for row in MORE]
)
def test_more_is_never_less_10000_times(
    name: str, key: str, way: str, outputs: tuple[str, ...]
) -> None:
    assert compared(name, key, way, outputs, 10_000) > 200


def test_every_sum_is_put_to_the_question_of_more() -> None:
    assert {one.name for one in SUMS} - {row[0] for row in MORE} <= {"substitute"}
