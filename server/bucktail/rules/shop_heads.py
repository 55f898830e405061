"""Driven shop heads: wide and high enough, and not driven too far."""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.recording import Operand, Term, constant, everything, lookup, operand, say
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, Takes, cited, finds

SOURCES = ("shop-head-hdbk5", "shop-head-trade", "shop-head-nominal", "shop-head-band")


def nominal_width(diameter: Term) -> Operand:
    """Width (nm) to aim at: 1.5 D. Source: FAA-H-8083-31, chapter 4."""
    return constant("shop head width nominal") * diameter


def nominal_height(diameter: Term) -> Operand:
    """Height (nm) to aim at: .5 D. Source: FAA-H-8083-31, chapter 4."""
    return constant("shop head height nominal") * diameter


def least_width(diameter: Term) -> Operand:
    """Least width (nm): 1.3 D. Source: MIL-HDBK-5H, page 8-9."""
    return constant("shop head width least") * diameter


def least_height(diameter: Term) -> Operand:
    """Least height (nm): .3 D. Source: MIL-HDBK-5H, page 8-9."""
    return constant("shop head height least") * diameter


def trade_limit(column: str, diameter: Term) -> Operand:
    """A limit (nm) of the trade's table, 1/16 to 1/4 in. Source: tables/shop_heads.csv."""
    return lookup("shop_heads", column, exact={"diameter_in": diameter})


def _side(
    what: str, measured: Operand, least: Operand, sure: Operand, nominal: Operand, most: Operand
) -> tuple[Finding, ...]:
    """Width or height judged: below the least and above the most it fails."""
    slots = {
        "has": ("length", measured),
        "least": ("length", least),
        "most": ("length", most),
        "nominal": ("length", nominal),
    }
    return (
        finds(
            measured < least,
            "fails",
            say(f"The {what} of {{has}} is under the least, {{least}}.", **_only(slots, "least")),
        ),
        finds(
            measured > most,
            "fails",
            say(
                f"The {what} of {{has}} is over the most of the trade's table, {{most}}.",
                **_only(slots, "most"),
            ),
        ),
        finds(
            (measured >= least) & (measured < sure),
            "check",
            say(
                f"The {what} of {{has}} is enough by MIL-HDBK-5H ({{least}}) and less than other "
                "documents ask. Aim at {nominal}.",
                **_only(slots, "least", "nominal"),
            ),
        ),
    )


def _only(slots: Mapping[str, tuple[str, Operand]], *names: str) -> dict[str, tuple[str, Operand]]:
    return {name: slots[name] for name in ("has", *names)}


def _shophead(inputs: Mapping[str, Operand]) -> Outcome:
    diameter = inputs["diameter"]
    wide, high = inputs["measured_diameter"], inputs["measured_height"]
    sure_width = constant("shop head width target least") * diameter
    sure_height = constant("shop head height target least") * diameter
    most_width, most_height = (
        trade_limit("width_max_in", diameter),
        trade_limit("height_max_in", diameter),
    )
    good = everything(
        wide >= sure_width, wide <= most_width, high >= sure_height, high <= most_height
    )
    aim_width, aim_height = nominal_width(diameter), nominal_height(diameter)
    nominal = {"width": ("length", aim_width), "height": ("length", aim_height)}
    return Outcome(
        findings=(
            *_side("width", wide, least_width(diameter), sure_width, aim_width, most_width),
            *_side("height", high, least_height(diameter), sure_height, aim_height, most_height),
            finds(
                good,
                "meets",
                say("The usual head is {width} wide and {height} high.", **nominal),
            ),
        ),
        gives=(
            Gives("width_d", wide / diameter, "Width, in diameters"),
            Gives("height_d", high / diameter, "Height, in diameters"),
            Gives("nominal_width_mm", aim_width, "Width to aim at"),
            Gives("nominal_height_mm", aim_height, "Height to aim at"),
            Gives("min_width_mm", least_width(diameter), "Least width"),
            Gives("max_width_mm", most_width, "Most width"),
            Gives("min_height_mm", least_height(diameter), "Least height"),
            Gives("max_height_mm", most_height, "Most height"),
            Gives(
                "trade_min_width_mm",
                trade_limit("width_min_in", diameter),
                "Least width by the trade's table",
            ),
            Gives(
                "trade_min_height_mm",
                trade_limit("height_min_in", diameter),
                "Least height by the trade's table",
            ),
        ),
        source=operand(cited(*SOURCES)),
    )  # fmt: skip


SUMS: tuple[Sum, ...] = (
    Sum(
        "shophead",
        "Shop head",
        "Is this shop head good?",
        (
            Takes("diameter", "rivet", "Rivet diameter", "1/8"),
            Takes("measured_diameter", "length", "Width of the shop head", ".188"),
            Takes("measured_height", "length", "Height of the shop head", ".063"),
        ),
        _shophead,
    ),
)
