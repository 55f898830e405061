"""Random questions for the bench sums, made from what each sum takes.

A wish is a value before it is typed: the same wish can be written in inches, in millimetres or in
a mix of all that is accepted. Lengths are whole thousandths or sixty-fourths of an inch, or listed
metric thicknesses, so that edge values and exact equalities come up often.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from bucktail.rules.gauges import gauges
from bucktail.rules.lengths import NM_PER_64TH, NM_PER_IN, Length, Unit, read_length
from bucktail.rules.reading import metals, sizes
from bucktail.rules.sums import Sum, Takes

NM_PER_THOUSANDTH = NM_PER_IN // 1000
SIXTY_FOURTHS = tuple(n * NM_PER_64TH for n in range(1, 129))
LISTED = tuple(gauge.nm for gauge in gauges())
#: listed thicknesses that are exact in both units
EXACT = tuple(nm for nm in LISTED if nm % NM_PER_THOUSANDTH == 0)
#: the shortest and the longest that can be read, and some beside the ends
EXTREME = (1, 2, 999, 10**10, 10**10 - 1, 9_999_999_999)
#: what cannot be read, whatever is asked for; or is the wrong thing almost everywhere
BAD = (
    "-1", "-.032", "\u22125 mm", "0", "0.0", "0/8", "1e9", "1E-3", "nan", "inf", "\u221e", "abc",
    "half an inch", "1 in 3 mm", ".032 in 0.8 mm", "4' 6\"", "1/0", "1 9/8", "1/2 mm", "1,250",
    "12345678", "99999", "11 m", "\U0001f600", "\U0001f529\U0001f529", "\u0663 mm", "x" * 1000,
    "9" * 41, ".032,,.040", ",", ".032,", ",".join([".032"] * 13), ".026", "2024-T99", "9999-T3",
    "110%%", "52", "-5%", "5 m3", "4:0", "4:1:1:1:1", "4-1", "maybe", "3/31", "7/64", "#40", "$5",
    "__proto__", "constructor", "toString", "{has}", "\u2028", "\u00a0", "1_000", "0x1F",
    "K\u212a", "2024\u00a0T99",
)  # fmt: skip

UNITS: tuple[Unit, ...] = ("in", "mm")
Wish = tuple[Fraction, ...] | str
Style = Literal["in", "mm", "any"]


@dataclass(frozen=True, slots=True)
class Question:
    """A sum with what was typed for it, and the unit of bare figures."""

    name: str
    typed: dict[str, str]
    unit: Unit


class Wishes:
    """Random wishes for the sums. `exact` keeps to lengths that both units can write exactly."""

    def __init__(self, seed: int, exact: bool = False) -> None:
        self.chance = random.Random(seed)
        self.exact = exact

    def for_sum(self, one: Sum) -> dict[str, Wish]:
        """A wish for everything that is needed, and for about half of the rest."""
        long = self.chance.randint(1, 4)
        wishes: dict[str, Wish] = {}
        for take in one.takes:
            if (take.optional or take.default) and self.chance.random() < 0.6:
                continue
            wishes[take.key] = self._one(take, long)
        return wishes

    def _one(self, take: Takes, long: int) -> Wish:
        match take.kind:
            case "thickness" | "length" | "rivet":
                return (Fraction(self._nm(take)),)
            case "thicknesses":
                count = self.chance.choice((1, 2, 2, 2, 3, 3, 4, 12))
                return tuple(Fraction(self._nm(take)) for _ in range(count))
            case "lengths":
                return tuple(Fraction(self._nm(take)) for _ in range(long + 1))
            case "angles":
                count = long if self.chance.random() < 0.9 else long + 1
                return tuple(self._figure(take) for _ in range(count))
            case "word":
                return self.chance.choice((*take.choices, take.default or take.example))
            case "metal" | "marking":
                return self.chance.choice((*metals(), *(take.example,) * len(metals())))
            case "mix":
                return self.chance.choice(("4:1", "1:1", "4:1:1", "3 : 1 : 2", "99:1"))
            case "text":
                return self.chance.choice(("left rib", "\u00e9", "a" * 200))
            case _:
                return (self._figure(take),)

    def _nm(self, take: Takes) -> int:
        """A length in nm that is accepted: mostly about as large as the example."""
        pick = self.chance.choice
        if take.kind == "rivet":
            return pick(sizes())
        about = read_length(take.example.split(",")[0], "in")
        assert isinstance(about, Length)
        sized = about.nm * self.chance.uniform(0.4, 2.5)
        step = pick((NM_PER_64TH, NM_PER_THOUSANDTH))
        likely = max(step, round(sized / step) * step)
        if self.chance.random() < 0.6:
            return likely
        thick = take.kind in ("thickness", "thicknesses")
        if thick:
            edge = pick((NM_PER_IN, NM_PER_THOUSANDTH, pick(SIXTY_FOURTHS[:64])))
            return pick((*(EXACT if self.exact else LISTED), edge))
        spread = int(10 ** self.chance.uniform(0, 5.5)) * NM_PER_THOUSANDTH
        extreme = pick(EXTREME) if not self.exact else spread
        return pick((spread, pick(SIXTY_FOURTHS), pick(SIXTY_FOURTHS), extreme))

    def _figure(self, take: Takes) -> Fraction:
        """A plain figure within its limits: percentages as typed, areas in square feet."""
        low, high = Fraction(take.least), Fraction(take.most)
        if take.kind == "area":
            return Fraction(self.chance.randint(1, 1000), 100)
        if take.kind == "count":
            top = min(take.most, take.least + 40)
            return Fraction(
                self.chance.choice((take.least or 1, take.most, self._whole(take, top)))
            )
        if take.kind in ("angle", "angles"):
            usual = [one for one in (15, 30, 45, 60, 90, 100, 120, 135) if low <= one <= high]
            tenth = self.chance.randint(take.least * 10 + 1, take.most * 10)
            return self.chance.choice(
                (Fraction(self.chance.choice(usual)), Fraction(tenth, 10), high)
            )
        step = (high - low) / 1000
        return low + step * self.chance.choice((1, 500, 1000, self.chance.randint(1, 1000)))

    def _whole(self, take: Takes, top: int) -> int:
        return self.chance.randint(take.least or 1, top)


def write(take: Takes, wish: Wish, style: Style, chance: random.Random) -> str:
    """A wish as it may be typed; `style` "any" mixes all that is accepted."""
    if isinstance(wish, str):
        return wish
    mixed = style == "any"
    if take.kind in ("thickness", "thicknesses", "length", "lengths", "rivet"):
        one: Style
        each = []
        for value in wish:
            if mixed and take.kind == "rivet" and chance.random() < 0.4:
                # as the trade says it: 3.2 mm for 1/8
                each.append(f"{round(float(value) / 1e6, 1)} mm")
                continue
            one = chance.choice(("in", "mm", "any")) if mixed else style
            each.append(length_text(int(value), one, chance))
        return (", " if mixed and chance.random() < 0.3 else ",").join(each)
    texts = [plain(value) for value in wish]
    if take.kind == "percent":
        return texts[0] + "%"
    if take.kind == "area":
        metric = plain(wish[0] * Fraction(9290304, 10000)) + " cm2"
        return metric if style == "mm" or (mixed and chance.random() < 0.5) else f"{texts[0]} ft2"
    return ",".join(texts)


def length_text(nm: int, style: Style, chance: random.Random) -> str:
    """A length as it may be typed. "in" and "mm" are exact; "any" may be a shop fraction."""
    inches = Fraction(nm, NM_PER_IN)
    if style == "any" and nm % NM_PER_64TH == 0:
        whole, rest = divmod(inches, 1)
        part = f"{rest.numerator}/{rest.denominator}" if rest else ""
        text = f"{whole} {part}".strip() if whole else part
        return text + chance.choice(("", " in", '"'))
    ends = (inches * 10**9).denominator == 1
    if ends and (style == "in" or (style == "any" and nm % NM_PER_THOUSANDTH == 0)):
        text = plain(inches)
        return (text.removeprefix("0") if style == "any" else text) + chance.choice((" in", "in"))
    return plain(Fraction(nm, 10**6)) + chance.choice((" mm", "mm"))


def plain(value: Fraction) -> str:
    """A decimal written out; raises where it does not end."""
    below = value.denominator
    for prime in (2, 5):
        while below % prime == 0:
            below //= prime
    if below != 1:
        raise ValueError(f"{value} does not end")
    return format(Decimal(value.numerator) / Decimal(value.denominator), "f")


def typed(one: Sum, wishes: Mapping[str, Wish], style: Style, seed: int) -> dict[str, str]:
    """All wishes of a sum as texts by key."""
    chance = random.Random(seed)
    takes = {take.key: take for take in one.takes}
    return {key: write(takes[key], wish, style, chance) for key, wish in wishes.items()}


def questions(one: Sum, seed: int, count: int, bad: float = 0.0) -> Iterator[Question]:
    """Random questions for one sum; `bad` is the share with something that cannot be read."""
    made = Wishes(seed)
    chance = random.Random(seed + 1)
    for at in range(count):
        unit: Unit = chance.choice(("in", "mm"))
        texts = typed(one, made.for_sum(one), "any", seed * 1000 + at)
        if chance.random() < bad:
            spoil(texts, one, chance)
        yield Question(one.name, texts, unit)


def every_bad_text(sums: Iterable[Sum]) -> Iterator[Question]:
    """Every bad text for one field of each kind, the rest as in the examples."""
    seen: set[str] = set()
    for one in sums:
        examples = {take.key: take.example for take in one.takes if not take.optional}
        for take in one.takes:
            if take.kind not in seen:
                seen.add(take.kind)
                for text in BAD:
                    for unit in UNITS:
                        yield Question(one.name, {**examples, take.key: text}, unit)


def spoil(texts: dict[str, str], one: Sum, chance: random.Random) -> None:
    """Put one fault into what is typed: bad text, something left out, an unknown key."""
    key = chance.choice([take.key for take in one.takes])
    change: Callable[[], object] = chance.choice(
        (
            lambda: texts.update({key: chance.choice(BAD)}),
            lambda: texts.update({key: chance.choice(BAD)}),
            lambda: texts.update({key: f"{texts.get(key, '')}{chance.choice(BAD)}"}),
            lambda: texts.pop(key, None),
            lambda: texts.update({chance.choice(("colour", "__proto__", "")): "1"}),
        )
    )
    change()
