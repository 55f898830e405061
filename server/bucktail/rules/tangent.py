"""The tangent in whole numbers, so that every machine gives the same. Twin: twins/rational.ts.

The tangents of two machines' own mathematics may part in the last figures, and near 90 degrees
those figures matter.
"""

from __future__ import annotations

from fractions import Fraction

PLACES = 10**9
_UNIT = 10**40
#: pi in forty decimals
_PI = 31415926535897932384626433832795028841972


def tangent(degrees: Fraction) -> Fraction | None:
    """Tangent of an angle from 0 to less than 90 degrees, rounded to nine decimals.

    None for any other angle: none is needed in a bend.
    """
    if not 0 <= degrees < 90:
        return None
    angle = degrees.numerator * _PI // (180 * degrees.denominator)
    above, below = _series(angle, angle, 1), _series(_UNIT, angle, 0)
    return Fraction((2 * above * PLACES + below) // (2 * below), PLACES) if below > 0 else None


def _series(first: int, angle: int, power: int) -> int:
    """The sine (from the angle itself, power 1) or the cosine (from one, power 0)."""
    total, term, sign = first, first, 1
    while term:
        term = term * angle // _UNIT * angle // (_UNIT * (power + 1) * (power + 2))
        power, sign = power + 2, -sign
        total += sign * term
    return total
