"""What is typed for a sum: every kind, good and bad. Bad text is told what is accepted."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from bucktail.rules.lengths import NotRead, show_length
from bucktail.rules.reading import metals, read, read_as, rivets_accepted, sizes
from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.sums import Kind, Takes
from running.sums import BAD, UNITS

F = Fraction
LONG = "x" * 1000


def takes(kind: Kind, **more: Any) -> Takes:
    """A field of that kind."""
    return Takes("key", kind, "Label", ".032,.040", **more)


WORD = takes("word", choices=("protruding", "flush"))
JOINED = takes("word", choices=("solid", "reduced-head"))
COUNT = takes("count", least=1, most=12)
ANGLE = takes("angle", least=60, most=150)

GOOD: tuple[tuple[Takes, str, Any, str], ...] = (
    (takes("thickness"), ".032", F(812_800), ".032 in"),
    (takes("thickness"), "0.8mm", F(800_000), ".0315 in"),
    (takes("thickness"), "32 mil", F(812_800), ".032 in"),
    (takes("thickness"), "1 in", F(25_400_000), "1.000 in"),
    (takes("thickness"), ".026", F(660_400), ".026 in"),
    (takes("thicknesses"), ".032, 1 mm ,1/16", [F(812_800), F(10**6), F(1_587_500)],
     ".032 in + .0394 in + .0625 in"),
    (takes("length"), "1 1/8", F(28_575_000), "1 1/8 in"),
    (takes("length"), "1\u00bd\u2033", F(38_100_000), "1 1/2 in"),
    (takes("length"), "10 m".replace("m", "mm"), F(10**7), ".3937 in"),
    (takes("lengths"), "1,2.5", [F(25_400_000), F(63_500_000)], "1 in + 2 1/2 in"),
    (takes("rivet"), "1/8", F(3_175_000), "1/8 in"),
    (takes("rivet"), "3.2 mm", F(3_175_000), "1/8 in"),
    (takes("rivet"), ".156", F(3_968_750), "5/32 in"),
    (takes("rivet"), "2.4mm", F(2_381_250), "3/32 in"),
    (takes("angle"), "90\u00b0", F(90), "90 deg"),
    (ANGLE, " 82,5 DEG ", F(165, 2), "82.5 deg"),
    (takes("angles"), "90,45.5 deg", [F(90), F(91, 2)], "90 + 45.5 deg"),
    (WORD, "FLUSH", "flush", "flush"),
    (JOINED, "Reduced head", "reduced-head", "reduced-head"),
    (takes("metal"), "2024 t3", "2024-T3", "2024-T3"),
    (takes("metal"), " 6061--t6 ", "6061-T6", "6061-T6"),
    (takes("marking"), "2024-t3", "2024-T3", "2024-T3"),
    (takes("marking"), "scraped off", "scraped off", "scraped off"),
    (COUNT, "12", F(12), "12"),
    (takes("number"), ".4475", F(179, 400), "0.4475"),
    (takes("percent"), "52 %", F(13, 25), "52%"),
    (takes("percent"), "52.5 Percent", F(21, 40), "52.5%"),
    (takes("area"), "4.8 m2", F(4_800_000), "4.8 m2"),
    (takes("area"), "1 sq ft", F(9_290_304, 100), "0.092903 m2"),
    (takes("area"), "144in\u00b2", F(9_290_304, 100), "0.092903 m2"),
    (takes("mix"), "4 : 1 : 1", [F(4), F(1), F(1)], "4:1:1"),
    (takes("text"), " left rib ", "left rib", "left rib"),
)  # fmt: skip


@pytest.mark.parametrize(
    ("take", "text", "value", "echo"), GOOD, ids=[f"{row[0].kind} {row[1]}" for row in GOOD]
)
def test_what_can_be_read(take: Takes, text: str, value: Any, echo: str) -> None:
    found = read(take, text, "in")
    assert found == value
    assert type(found) is type(value)
    assert read_as(take, found, "in") == echo


def test_every_kind_is_among_those_read() -> None:
    assert {row[0].kind for row in GOOD} == set(Kind.__args__)  # type: ignore[attr-defined]


#: what the sentence says is accepted, by kind
SAYS = {
    "thickness": "1/32",
    "thicknesses": "1/32",
    "length": "0.8 mm",
    "lengths": "0.8 mm",
    "rivet": "1/8 (3.18 mm)",
    "angle": "Write degrees, for example 90.",
    "angles": "Write degrees, for example 90.",
    "word": "Write one of: protruding, flush.",
    "metal": "Write one of: 1100-O",
    "count": "Write a whole number, for example 2.",
    "number": "Write a figure, for example 1.5.",
    "percent": "Write a percentage with its sign, for example 52%.",
    "area": "Write an area with its unit, for example 4.8 m2, 52 ft2 or 700 in2.",
    "mix": "Write the parts by volume, for example 4:1 or 4:1:1.",
}
FIELDS = {
    "word": WORD, "count": COUNT, "angle": ANGLE, "angles": takes("angles", least=60, most=150)
}  # fmt: skip
ALWAYS_BAD = (
    "abc",
    "-1",
    "0",
    "1e9",
    "nan",
    "\U0001f600",
    "1 in 3 mm",
    "\u221e",
    "[]",
    "=",
    "1..2",
)


@pytest.mark.parametrize("kind", SAYS)
@pytest.mark.parametrize("text", ALWAYS_BAD)
def test_bad_text_is_told_what_is_accepted(kind: Kind, text: str) -> None:
    found = read(FIELDS.get(kind) or takes(kind), text, "in")
    assert isinstance(found, NotRead), found
    lengths = "Write inches as 1/32, 1 1/8 or .032 in, or millimetres as 0.8 mm."
    accepted = (SAYS[kind], lengths, "Write the figure out in full.") if kind in (
        "thickness", "thicknesses", "length", "lengths", "rivet") else (SAYS[kind],)  # fmt: skip
    assert any(one in found.sentence for one in accepted), found.sentence


@pytest.mark.parametrize("kind", [*SAYS, "text", "marking"])
def test_far_too_much_text_is_refused_in_a_few_words(kind: Kind) -> None:
    found = read(FIELDS.get(kind) or takes(kind), LONG, "in")
    assert found == NotRead("That is too much text.")


@pytest.mark.parametrize(
    ("take", "text", "said"),
    [
        (takes("thickness"), "1.001 in", "thicker than any sheet"),
        (takes("thickness"), "-.032", "cannot be below zero"),
        (takes("thickness"), "0", "more than zero"),
        (takes("thickness"), ".8", "Which did you mean, .8 in or .8 mm?"),
        (takes("length"), "11000 mm", "longer than 10 m"),
        (takes("length"), "1,250", "read two ways"),
        (takes("length"), "1/2 mm", "A fraction is always inches"),
        (takes("thicknesses"), ".032,,.040", "comma between, for example .032,.040"),
        (takes("thicknesses"), ".032,", "comma between"),
        (takes("thicknesses"), ".032,.04x", "\u201c.04x\u201d"),
        (takes("thicknesses"), ",".join([".032"] * 13), "At most twelve"),
        (takes("rivet"), "7/64", "Rivet diameters are 1/16 (1.59 mm), 3/32 (2.38 mm)"),
        (takes("rivet"), "3.3 mm", "Rivet diameters are"),
        (ANGLE, "59.9", "It may be from 60 to 150."),
        (ANGLE, "151", "It may be from 60 to 150."),
        (takes("angle", most=179), "0", "It may be more than 0 to 179."),
        (COUNT, "13", "It may be from 1 to 12."),
        (COUNT, "1.5", "Write a whole number"),
        (COUNT, "0", "It may be from 1 to 12."),
        (takes("percent", most=100), "101%", "It may be more than 0 to 100."),
        (takes("percent", most=100), "52", "percentage with its sign"),
        (takes("area"), "4.8", "an area with its unit"),
        (takes("area"), "4.8 m", "an area with its unit"),
        (takes("metal"), "2024-T99", "\u201c2024-T99\u201d is not on the list. Write one of: "),
        (takes("mix"), "0:1", "parts by volume"),
        (takes("mix"), "4", "parts by volume"),
        (WORD, "domed", "Write one of: protruding, flush."),
        (takes("text"), "  ", "Write a few words."),
    ],
)
def test_a_sentence_says_what_is_wrong(take: Takes, text: str, said: str) -> None:
    found = read(take, text, "in")
    assert isinstance(found, NotRead)
    assert said in found.sentence


def test_a_thickness_between_listed_ones_is_read_as_it_is() -> None:
    """Rounding to a listed sheet is the business of the table that needs one."""
    assert read(takes("thickness"), ".026", "in") == Fraction(660_400)
    assert read(takes("thickness"), "0.73 mm", "in") == Fraction(730_000)


@pytest.mark.parametrize("kind", Kind.__args__)  # type: ignore[attr-defined]
def test_nothing_raises_and_a_sentence_is_a_sentence(kind: Kind) -> None:
    take = FIELDS.get(kind) or takes(kind)
    for text in BAD:
        for unit in UNITS:
            found = read(take, text, unit)
            if isinstance(found, NotRead):
                assert found.sentence.endswith((".", "?"))
                assert len(found.sentence) < 900
            else:
                assert read_as(take, found, "in") or not text.strip()


def test_every_listed_rivet_and_metal_is_read_in_all_its_forms() -> None:
    for nm in sizes():
        for text in (f"{nm / 25.4e6}", f"{nm / 1e6} mm", f"{nm / 1e6:.1f} mm"):
            assert read(takes("rivet"), text, "in") == nm, text
        assert show_length(nm, "mm") in rivets_accepted()
    for name in metals():
        assert read(takes("metal"), name.lower().replace("-", " "), "in") == name


def test_what_a_sum_does_not_take_is_named_with_what_it_takes() -> None:
    found = reckon("edge", {"edge": "1/4", "diameter": "1/8", "colour": "red"}, "in")
    assert found == Unread("colour", "The sum edge takes edge, diameter, head.")
    assert reckon("fly", {}, "in") == Unread("", "There is no sum \u201cfly\u201d.")


def test_what_is_missing_is_asked_for_with_an_example() -> None:
    found = reckon("edge", {"edge": "1/4"}, "in")
    assert found == Unread("diameter", "Rivet diameter is needed, for example diameter=1/8.")
    assert reckon("edge", {"edge": "1/4", "diameter": " "}, "in") == found
