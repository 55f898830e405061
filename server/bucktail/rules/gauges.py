"""Sheet thicknesses: which are listed, how near is near enough, and which are treated as one.

Thicknesses are whole nanometres. Tables: tables/gauges.csv and tables/thickness_tolerance.csv, with
their sources. A measured thickness is matched to a listed one only inside the mill tolerance; what
lies outside belongs to no family and is not guessed at.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from bucktail.rules.lengths import NM_PER_IN, Length, read_length, round_half_away
from bucktail.rules.sources import Source, TableRefused, load_table, source


@dataclass(frozen=True, slots=True)
class Gauge:
    """One listed thickness: nm, the text it is listed under, its family and the mill tolerance."""

    nm: int
    text: str
    family: str
    tolerance_nm: int
    source: Source


@dataclass(frozen=True, slots=True)
class Family:
    """Listed thicknesses that are treated as one, thinnest first; `id` is also how it is shown."""

    id: str
    members: tuple[Gauge, ...]

    @property
    def thinnest_nm(self) -> int:
        """The thinnest listed thickness of the family, in nm."""
        return self.members[0].nm

    @property
    def thickest_nm(self) -> int:
        """The thickest listed thickness of the family, in nm."""
        return self.members[-1].nm


@cache
def gauges() -> tuple[Gauge, ...]:
    """All listed thicknesses, thinnest first. Raises TableRefused for a table it cannot read."""
    listed = []
    for row in load_table("gauges").rows:
        nm = _nm(row["text"])
        listed.append(
            Gauge(nm, row["text"], row["family"], tolerance_nm(nm) or 0, source(row["source"]))
        )
    listed.sort(key=lambda gauge: gauge.nm)
    if len({gauge.nm for gauge in listed}) != len(listed):
        raise TableRefused("table gauges lists a thickness twice")
    return tuple(listed)


@cache
def families() -> tuple[Family, ...]:
    """All families, thinnest first."""
    by_id: dict[str, list[Gauge]] = {}
    for gauge in gauges():
        by_id.setdefault(gauge.family, []).append(gauge)
    return tuple(Family(name, tuple(members)) for name, members in by_id.items())


def tolerance_nm(nm: int) -> int | None:
    """The mill tolerance (plus and minus, nm) of a listed thickness; None outside the table.

    The table's ranges are in thousandths of an inch, so `nm` is first taken to the nearest one.
    """
    thousandths = round_half_away(Fraction(nm * 1000, NM_PER_IN))
    for row in load_table("thickness_tolerance").rows:
        low, high = (round(Fraction(row[key]) * 1000) for key in ("from_in", "to_in"))
        if low <= thousandths <= high:
            return round_half_away(Fraction(row["tolerance_in"]) * NM_PER_IN)
    return None


def nearest_gauge(nm: int) -> Gauge:
    """The listed thickness nearest to `nm`, however far; the thinner one where two are as near."""
    return min(gauges(), key=lambda gauge: (abs(gauge.nm - nm), gauge.nm))


def gauge_of(nm: int) -> Gauge | None:
    """The listed thickness `nm` belongs to: the nearest of those whose tolerance it lies in."""
    near = [gauge for gauge in gauges() if abs(gauge.nm - nm) <= gauge.tolerance_nm]
    return min(near, key=lambda gauge: (abs(gauge.nm - nm), gauge.nm)) if near else None


def family(nm: int) -> Family | None:
    """The family a measured or named thickness (nm) belongs to; None where it is on none."""
    gauge = gauge_of(nm)
    return next((one for one in families() if gauge and one.id == gauge.family), None)


def lands_on_gauge(nm: int) -> bool:
    """True where `nm` is within the mill tolerance of a listed thickness."""
    return gauge_of(nm) is not None


def _nm(text: str) -> int:
    read = read_length(text, "in")
    if not isinstance(read, Length):
        raise TableRefused(f"table gauges: {text!r}: {read.sentence}")
    return read.nm
