"""What the fit and the metal list give, written down for the phone and for its tests."""

from __future__ import annotations

import json
from collections.abc import Iterator

from bucktail.offcuts.material import structure_rules
from bucktail.offcuts.rectangle import LONGEST_NM, Way, fits, place
from bucktail.offcuts.sections import allowances
from bucktail.rules.materials import section_metals, sheet_metals

_IN = 25_400_000
_MM = 1_000_000
_WAYS: tuple[Way, Way, Way] = ("any", "width along a", "width along b")

Case = tuple[int, int, int, int, int, Way, int]


class Draw:
    """Whole numbers that look random and are the same on every machine (a 64-bit congruence)."""

    def __init__(self, seed: int) -> None:
        self._state = seed

    def between(self, low: int, high: int) -> int:
        self._state = (self._state * 6364136223846793005 + 1442695040888963407) % 2**64
        return low + (self._state >> 20) % (high - low + 1)


def tightest(p: int, a: int, b: int) -> int:
    """The greatest q (nm) with which a blank of p x q fits in a x b; 0 where no q does."""
    low, high = 0, min(p, max(a, b))
    while low < high:
        middle = (low + high + 1) // 2
        if fits(p, middle, a, b):
            low = middle
        else:
            high = middle - 1
    return low


def _ordinary(draw: Draw) -> Iterator[Case]:
    for n in range(900):
        step = (_IN // 64, _IN // 8, 500_000, 1)[n % 4]
        most = 30 * _IN // step
        sides = [draw.between(1, most) * step for _ in range(4)]
        clearance = (0, 0, _MM, _IN // 16)[draw.between(0, 3)]
        yield sides[0], sides[1], sides[2], sides[3], clearance, _WAYS[n % 3], _IN
        yield sides[0], sides[1], sides[2], sides[3], clearance, "any", (0, 10 * _MM, _IN)[n % 3]


def _tight(draw: Draw) -> Iterator[Case]:
    """Blanks that fit askew to the nanometre, and the same one nanometre wider."""
    made = 0
    while made < 600:
        largest = (LONGEST_NM, 100 * _IN, 4 * _IN, 2000)[made % 4]
        a = draw.between(2, largest)
        b = draw.between(max(a // 50, 1), a)
        p = a + draw.between(1, max(b * b // (2 * a), 1))
        q = tightest(p, a, b) if p <= LONGEST_NM else 0
        if q == 0 or q == LONGEST_NM:
            continue
        made += 1
        turn = draw.between(0, 3)
        for width, height in ((p, q), (p, q + 1)):
            blank = (height, width) if turn & 1 else (width, height)
            sheet = (b, a) if turn & 2 else (a, b)
            yield *blank, *sheet, 0, "any", 0


def _exact(draw: Draw) -> Iterator[Case]:
    """Equality to the nanometre: laid square, and askew on whole-number right triangles."""
    for _ in range(100):
        w, h = draw.between(1, 40) * _IN // 8, draw.between(1, 40) * _IN // 8
        k = draw.between(0, 3) * _IN // 16
        for way in _WAYS:
            yield w, h, w + 2 * k, h + 2 * k, k, way, _IN
            yield w, h, h + 2 * k, w + 2 * k, k, way, _IN
            yield w + 1, h, w + 2 * k, h + 2 * k, k, way, _IN
    for c, s, r in ((4, 3, 5), (12, 5, 13), (15, 8, 17), (24, 7, 25), (21, 20, 29)):
        for p, q in ((20, 1), (20, 3), (20, 5), (40, 1), (12, 2)):
            a, b = p * c + q * s, p * s + q * c
            yield p * r, q * r, a, b, 0, "any", 0
            yield p * r, q * r, a, b - 1, 0, "any", 0
            yield p * r * _MM, q * r * _MM, a * _MM, b * _MM, 0, "any", _IN


def _cases() -> Iterator[Case]:
    draw = Draw(1957)
    yield 9 * _IN, 4 * _IN, 8 * _IN, 6 * _IN, 0, "any", _IN
    yield 10 * _IN, 10 * _IN, 8 * _IN, 8 * _IN, 0, "any", _IN
    yield 1, 1, 1, 1, 0, "any", 0
    yield 1, 1, 1, 1, 1, "any", 0
    yield LONGEST_NM, LONGEST_NM, LONGEST_NM, LONGEST_NM, 0, "any", 0
    yield from _ordinary(draw)
    yield from _tight(draw)
    yield from _exact(draw)


def _gives(case: Case) -> list[object] | None:
    placement = place(*case)
    if placement is None:
        return None
    corners = [number for corner in placement.corners for number in corner]
    return [placement.laid, placement.tenths, corners, list(placement.left), placement.spoiled]


def metal_list() -> dict[str, object]:
    """The sheet metals and the reasons against structure, as the phone keeps them."""
    sources = {metal.source.id: metal.source for metal in sheet_metals()}
    sources.update({rule.reason.source.id: rule.reason.source for rule in structure_rules()})
    return {
        "metals": [
            {
                "alloy": metal.alloy,
                "temper": metal.temper,
                "metal": metal.metal,
                "claddings": list(metal.claddings),
                "density": metal.density,
                "source": metal.source.id,
                "note": metal.note,
            }
            for metal in sheet_metals()
        ],
        "section_metals": [
            {"alloy": metal.alloy, "temper": metal.temper, "note": metal.note}
            for metal in section_metals()
        ],
        "never_for_structure": [
            {
                "field": rule.field,
                "value": rule.value,
                "code": rule.reason.code,
                "sentence": rule.reason.sentence,
                "source": rule.reason.source.id,
            }
            for rule in structure_rules()
        ],
        "sources": {
            key: f"{one.title}. {one.document}, {one.paragraph} ({one.seen})."
            for key, one in sorted(sources.items())
        },
    }


def sawing_list() -> list[dict[str, object]]:
    """What sawing takes where the workshop has said nothing, as the phone keeps it."""
    return [
        {
            "name": one.name,
            "unit": one.unit,
            "length": {"nm": one.nm, "text": one.text},
            "seen": one.source.seen,
            "note": one.note,
        }
        for one in allowances()
    ]


def outputs() -> dict[str, str]:
    """Generated files by their path in the repository: fit vectors, metals, what sawing takes.

    A row of the vectors is [[width, height, a, b, clearance, way, least useful], answer]; the
    answer is null or [laid, tenths, corners, left, spoiled], see `Placement`.
    """
    rows = (json.dumps([case, _gives(case)], separators=(",", ":")) for case in _cases())
    return {
        "tests/vectors/fit.json": "[\n" + ",\n".join(rows) + "\n]\n",
        "web/src/generated/materials.json": json.dumps(metal_list(), indent=1) + "\n",
        "web/src/generated/sawing.json": json.dumps({"sawing": sawing_list()}, indent=1) + "\n",
    }
