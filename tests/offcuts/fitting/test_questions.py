"""Single questions: a yes lies in the metal, and nothing that a curve claims is a no."""

from __future__ import annotations

from random import Random

import shapely
from shapely.geometry import Polygon

from bucktail.offcuts.fitting import measure
from bucktail.offcuts.fitting.curve import WAYS
from bucktail.offcuts.fitting.questions import Asked, Question
from running.fitting import exactly_inside, finest, metal
from running.outlines import outlines


def test_yes_is_true_and_no_is_no_more_often_than_the_curve_says_it() -> None:
    draw, yes, no = Random(71), 0, 0
    for _, made in outlines(71, 24):
        most = max(made.size_nm) // 1000
        questions = [
            Question(
                max(round(most * draw.random()), 1), max(round(most * draw.random() ** 2), 1), way
            )
            for way in WAYS
            for _ in range(6)
        ]
        curve, shape = measure(made), metal(made)
        for asked, place in zip(questions, Asked(made).answers(questions), strict=True):
            if place is None:
                no += 1
                assert not curve.claims(asked.w, asked.h, asked.way)
                continue
            yes += 1
            assert (place.w, place.h) == (asked.w, asked.h)
            assert asked.way == "any" or place.degrees == {"along": 0, "across": 90}[asked.way]
            assert shapely.covers(shape, Polygon(place.corners))
    assert yes > 60 and no > 60


def test_a_rectangle_with_a_fiftieth_of_a_millimetre_to_spare_is_found_along_the_grain() -> None:
    draw = Random(72)
    for _, made in outlines(72, 8):
        widths = sorted(draw.uniform(0.05, 0.9) * made.size_nm[0] / 1000 for _ in range(6))
        # where the outline was simplified up to 0.02 mm is given away on each side
        questions = [
            Question(int(w - 50), int(h - 50), "along")
            for w, h in zip(widths, finest(made, widths, "along"), strict=True)
            if h > 100
        ]
        for place in Asked(made).answers(questions):
            assert place and exactly_inside(made, place)


def test_no_question_needs_no_sweep() -> None:
    _, made = next(outlines(73, 1))
    assert Asked(made).answers([]) == []
    twice = [Question(5, 5, "any")] * 2
    assert Asked(made).answers(twice) == Asked(made).answers(twice[:1]) * 2
