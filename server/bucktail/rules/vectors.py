"""What the tables and the unit reader give, written down for the phone and for its tests."""

from __future__ import annotations

import json
from collections.abc import Iterator

from bucktail.rules.gauges import families, gauge_of, gauges
from bucktail.rules.lengths import (
    Length,
    NotRead,
    Unit,
    WhichUnit,
    read_length,
    read_thickness,
    show_length,
    show_thickness,
)

_UNITS: tuple[Unit, Unit] = ("in", "mm")

_GOOD = (
    '0.032in|.032|1/32|1 1/8|1-1/8 in|3/32"|0,8 mm|0.8mm|1.5mil|12|2.5 cm|5.|.5|0.5|5. in|,8|'
    "\u00bd|1\u00bd|1 \u00bd in|2-\u00be|3\u2044 32|3\u204432\u2033|1\u20091/8|1\u00a01/8\u201d|"
    "7/64 inch|"
    "11/8|2 inches|1 in.|12 mm.|4 thou|40 mils|10 millimetres|10 Millimeter|8 MM|3/8 IN|3/32''|"
    "1 - 1/8|1\u20131/8|1/3|2/3 in|1/10|63/64|127/128|1/999|1/9999|  25.4  mm |25.4 mm|2.54 cm|"
    "1000 mil|0.0000005 mm|0.0000004mm|0.00000002 in|393.7|10000 mm|1000 cm|9999.999999 mm|"
    "0.396875 mm|0.015625|1.0000005 mm|1.0000004 mm|0,032|0,8|12,5 mm|12,50|1234,567 mm|0,125 in|"
    '\u215b|4\u215e\u2033|\u215f|1/64|001/002|0001.50|48|96|144|1200|0.6|0.635|1/2 "|5 mil'
)
_BAD = (
    "abc||   |-1|-1/2|\u22125 mm|- .5|0|0.0|0/8|0 mm|1/0|3 1/0|1e9|1E-3|1e+9 mm|NaN|nan mm|"
    "Infinity|inf|1 in 3 mm|4x5|4 x 5 in|1/2 in 3|4' 6\"|4 ft|4'|2 m|5 km|1/2 mm|1 1/8 mm|3/4 cm|"
    "1/2 mil|"
    "1 9/8|1 8/8|1.5/8|1/1.5|1/8 1/8|1 2 3|1 .5|1..5|1.5.2|1,5,2|1,250|1,250 mm|12,500 in|1.250,5|"
    '10.1 m|10001 mm|393.71 in|99999|99999 in|12345678|1234567890123|in|mm|"|.|,|/|-|1/|/8|1 1/|'
    "5 apples|.032 inn|#40|\u0663 mm|\uff11|$5|5 mm mm|5mm in|12 in in|1''2|0x1F|1_000|1 000 mm|"
    "5\u00b5m|1/2/3|half an inch|1/8\u00bd|\u00bd\u00bd|99999/1|1/99999|0.0000001 mm|"
    "00000000000000000000000000000000000000001|\U0001f600|++5|+5|1=2|12;5|"
    "0.0000000000001 in|0.1234567890 mm|1 \u00bd \u00bd"
)
_THICKNESSES = (
    ".8|0.8|.032|0.032|0,032|.025|.020|1.0|1|2|2.0|1.6|3|.5|0.5|.3|.125|.250|1/8|1/16|1/32|.4|.040|"
    ".031|.0305|.0304|.0335|.0336|.79|.813|12|25|25.4|26|1.5 in|25.4 mm|26 mm|1 1/8|.18|.19|4.8|5|"
    "0.8 mm|.8 in|.8in|32 mil|32|40|.6|.6 mm|.45|.045|0.7|abc|-1|0|1e9|1/0|.063|1.27|.05|.050|,8"
)


def _gives(answer: Length | NotRead | WhichUnit) -> dict[str, object]:
    if isinstance(answer, NotRead):
        return {"sentence": answer.sentence}
    if isinstance(answer, Length):
        return {"nm": answer.nm, "text": answer.text}
    return {
        "sentence": answer.sentence,
        "inch": {"nm": answer.inch.nm, "text": answer.inch.text},
        "mm": {"nm": answer.mm.nm, "text": answer.mm.text},
    }


def _readings() -> Iterator[dict[str, object]]:
    sixty_fourths = [f"{n}/64" for n in range(1, 64)]
    figures = [f"{n / 1000:.3f}".removeprefix("0") for n in range(5, 260, 5)]
    for unit in _UNITS:
        for text in [*_GOOD.split("|"), *_BAD.split("|"), *sixty_fourths, *figures, "9" * 41]:
            gives = _gives(read_length(text, unit))
            yield {"read": "length", "text": text, "unit": unit, "gives": gives}
        for text in [*_THICKNESSES.split("|"), *figures]:
            gives = _gives(read_thickness(text, unit, gauges()))
            yield {"read": "thickness", "text": text, "unit": unit, "gives": gives}


def _shown() -> Iterator[dict[str, object]]:
    lengths = [396_875 * n for n in (1, 2, 3, 8, 63, 64, 65, 72, 640, 4096)]
    lengths += [0, 1, 999, 5_000, 12_700, 800_000, 812_800, 1_000_000, 1_270_000, 9_999_999_999]
    lengths += [1_004_999, 1_005_000, 2_499_500, 25_399_999, 25_400_001, 10_000_000_000]
    lengths += [gauge.nm for gauge in gauges()]
    for unit in _UNITS:
        for nm in lengths:
            for named in (True, False):
                yield {
                    "show": "length", "nm": nm, "unit": unit, "named": named,
                    "gives": show_length(nm, unit, named),
                }  # fmt: skip
                yield {
                    "show": "thickness", "nm": nm, "unit": unit, "named": named,
                    "gives": show_thickness(nm, unit, named),
                }  # fmt: skip


def _matched() -> Iterator[dict[str, object]]:
    thicknesses = list(range(200_000, 7_000_000, 76_200))
    for gauge in gauges():
        edge = gauge.tolerance_nm
        steps = (0, -1, 1, edge, edge + 1, -edge, -edge - 1)
        thicknesses += [gauge.nm + step for step in steps]
    for nm in dict.fromkeys(thicknesses):
        found = gauge_of(nm)
        yield {"gauge": nm, "gives": found.text if found else None}


def _rows(rows: Iterator[dict[str, object]]) -> str:
    return "[\n" + ",\n".join(json.dumps(row) for row in rows) + "\n]\n"


def gauge_list() -> dict[str, object]:
    """The listed thicknesses as the phone keeps them, thinnest first, with their sources."""
    sources = {gauge.source.id: gauge.source for gauge in gauges()}
    return {
        "families": [family.id for family in families()],
        "gauges": [
            {
                "nm": gauge.nm,
                "text": gauge.text,
                "family": gauge.family,
                "tolerance_nm": gauge.tolerance_nm,
                "source": gauge.source.id,
            }
            for gauge in gauges()
        ],
        "sources": {
            key: f"{one.title}. {one.document}, {one.paragraph} ({one.seen})."
            for key, one in sorted(sources.items())
        },
    }


def outputs() -> dict[str, str]:
    """Generated files by their path in the repository: the reader's vectors and the gauge list."""

    def every() -> Iterator[dict[str, object]]:
        yield from _readings()
        yield from _shown()
        yield from _matched()

    return {
        "tests/vectors/lengths.json": _rows(every()),
        "web/src/generated/gauges.json": json.dumps(gauge_list(), indent=1) + "\n",
    }
