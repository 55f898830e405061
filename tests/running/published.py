"""What published pages print, as questions for the bench sums with the answer that is printed."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parent.parent / "published"
AC = "AC 43.13-1B"
#: a metal of each splice table that stands in no other
SPLICED = {"4-9": "2024-T3", "4-10": "2017-T3", "4-11": "5052-O"}
#: cells of 4-11 that shear governs by the 165 % of the cells and bearing by the 160 % of the note
NOTE_GOVERNS = {(".032", "3/32"), (".064", "3/16")}
MM_PER_IN = Fraction(254, 10)


@dataclass(frozen=True)
class Check:
    """One printed answer. `cell` where it is a cell of a printed table and not in checks.csv."""

    id: str
    document: str
    paragraph: str
    sum: str
    typed: Mapping[str, str]
    key: str
    printed: str
    value: str
    tolerance: str
    cell: bool = True

    def agrees(self, answer: Mapping[str, Any]) -> bool:
        """Whether the answer of the sum is what is printed."""
        return close(answer.get(self.key), self.value, self.tolerance)


def rows(name: str) -> list[dict[str, str]]:
    """The rows of tests/published/<name>.csv."""
    text = (FOLDER / f"{name}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))


def close(answer: object, value: str, tolerance: str) -> bool:
    """Whether an answer is the printed value, in words or within the tolerance."""
    if isinstance(answer, list):
        each = value.split()
        return len(each) == len(answer) and all(
            close(one, text, tolerance) for one, text in zip(answer, each, strict=True)
        )
    if isinstance(answer, int | float):
        return abs(answer - float(value)) <= float(tolerance) + 1e-9
    return answer == value


def typed(inputs: str) -> dict[str, str]:
    """`key=value key=value` as the command line gives it."""
    return dict(pair.split("=", 1) for pair in inputs.split())


@cache
def checks() -> tuple[Check, ...]:
    """All printed answers: those of checks.csv, then the cells of the printed tables."""
    held = tuple(
        Check(
            row["id"], row["document"], row["paragraph"], row["sum"], typed(row["inputs"]),
            row["key"], row["printed"], row["value"], row["tolerance"], cell=False,
        )
        for row in rows("checks")
    )  # fmt: skip
    cells = (splice_cells(), formula_cells(), radius_cells(), other_radii(), strength_cells())
    return (*held, *(check for found in cells for check in found))


def splice(table: str, thickness: str, diameter: str) -> dict[str, str]:
    """A splice that asks for one cell."""
    return {
        "alloy": SPLICED[table],
        "thickness": f"{thickness}in",
        "diameter": diameter,
        "width": "1in",
        "use": "full",
    }


def splice_cells() -> Iterator[Check]:
    """Every rivet cell of Tables 4-9, 4-10 and 4-11."""
    for row in rows("rivets_per_inch"):
        table, thickness = row["table"], row["thickness"]
        for diameter in ("3/32", "1/8", "5/32", "3/16", "1/4"):
            if row[diameter]:
                yield Check(
                    f"{table} {thickness} {diameter}", AC, f"Table {table}", "splice",
                    splice(table, thickness, diameter), "per_inch",
                    row[diameter], row[diameter], "0",
                )  # fmt: skip


def formula_cells() -> Iterator[Check]:
    """The formula behind the cells, where the table's own note is what they were made with."""
    for row in rows("rivets_against_formula"):
        table, thickness, diameter = row["table"], row["thickness"], row["diameter"]
        shear = row["governs"] == "shear" and (thickness, diameter) not in NOTE_GOVERNS
        if table != "4-11" or shear:
            yield Check(
                f"formula of {table} {thickness} {diameter}", AC, f"notes to Table {table}",
                "splice", splice(table, thickness, diameter), "note_per_inch",
                row["formula"], row["formula"], "0.0006",
            )  # fmt: skip


def radius(metal: str, thickness: str) -> dict[str, str]:
    """A bend across the grain."""
    return {"alloy": metal, "thickness": f"{thickness}in", "grain": "across"}


def radius_cells() -> Iterator[Check]:
    """Both ends of every cell of Table 4-6."""
    for row in rows("bend_radii"):
        for thickness in (".016", ".032", ".064", ".128", ".182", ".258"):
            least, _, most = row[thickness].replace("t", "").partition("-")
            for key, times in (("min_mm", least), ("max_mm", most or least)):
                yield Check(
                    f"4-6 {row['metal']} {thickness} {key}", AC, "Table 4-6", "radius",
                    radius(row["metal"], thickness), key,
                    row[thickness], in_mm(Fraction(times) * Fraction(thickness)), "0.000001",
                )  # fmt: skip
            yield Check(
                f"4-6 {row['metal']} {thickness} column", AC, "Table 4-6", "radius",
                radius(row["metal"], thickness), "column_mm",
                thickness, in_mm(Fraction(thickness)), "0.000001",
            )  # fmt: skip


def other_radii() -> Iterator[Check]:
    """Every cell of the tables that Table 4-6 is compared with, and the row it stands in."""
    for row in rows("bend_radii_producers"):
        for thickness in ("1/64", "1/32", "1/16", "1/8", "3/16", "1/4"):
            value = Fraction(row[thickness]) * Fraction(thickness)
            yield from other_radius("producers", row["metal"], thickness, row[thickness], value)
    for row in rows("bend_radii_inches"):
        listed = {at: text for at, text in row.items() if at.startswith(".") and text}
        for metal in row["metals"].split():
            for thickness, text in listed.items():
                yield from other_radius(row["table"], metal, thickness, text, Fraction(text))


def other_radius(
    table: str, metal: str, thickness: str, printed: str, value: Fraction
) -> Iterator[Check]:
    """One cell of another table: the radius (in) and its row."""
    document = f"{table.capitalize()} table of bend radii"
    for key, text, inches in (
        (f"{table}_mm", printed, value),
        (f"{table}_row_mm", thickness, Fraction(thickness)),
    ):
        yield Check(
            f"{table} {metal} {thickness} {key}", document, "cold bends of 90 degrees", "radius",
            radius(metal, thickness), key, text, in_mm(inches), "0.000001",
        )  # fmt: skip


def in_mm(inches: Fraction) -> str:
    """Inches as the sums give them."""
    return f"{float(inches * MM_PER_IN):.6f}"


def strength_cells() -> Iterator[Check]:
    """The listed strengths against those of the weakest sheet, and where each list ends.

    The ends: just there the strength is given; a little beyond, nothing can be compared.
    """
    held = rows("strengths")
    weakest = next(row for row in held if row["metal"] == "3003-H14")
    for row in held:
        for key, column in (("tensile_percent", "ftu"), ("yield_percent", "fty")):
            share = Fraction(row[column]) * 100 / Fraction(weakest[column])
            for at in (min(row["to"], weakest["to"], key=Fraction), thinnest(row["from"])):
                yield strength(row, at, key, f"{float(share):.2f}", "0.005")
        if Fraction(row["fty"]) > Fraction(weakest["fty"]) and row["metal"] != "4130-N":
            for at, verdict in ends(row, held):
                yield strength(row, at, "verdict", verdict, "0")


def thinnest(starts: str) -> str:
    """The thinnest sheet of a row: its first thickness less the mill tolerance."""
    listed = {".009": ".0008", ".010": ".0008", ".012": ".0008", ".016": ".001", ".017": ".001",
              ".063": "0", ".188": "0"}  # fmt: skip
    return f"{float(Fraction(starts) - Fraction(listed[starts])):.5f}"


def ends(row: Mapping[str, str], held: list[dict[str, str]]) -> Iterator[tuple[str, str]]:
    """Thicknesses at and just beyond both ends of a row that no other row carries on."""
    alike = [one for one in held if (one["metal"], one["clad"]) == (row["metal"], row["clad"])]
    if row is alike[0]:
        yield thinnest(row["from"]), "check"
        yield f"{float(thinnest(row['from'])) - 0.000005:.6f}", "fails"
    if row is alike[-1]:
        yield row["to"], "check"
        yield f"{float(row['to']) * 1.004:.5f}", "fails"


def strength(row: Mapping[str, str], thickness: str, key: str, value: str, near: str) -> Check:
    """One question on a listed strength."""
    name = f"{row['metal']} {'clad' if row['clad'] == 'yes' else 'bare'} {row['from']}"
    typed = {
        "alloy": "3003-H14",
        "thickness": f"{thickness}in",
        "offered_alloy": row["metal"],
        "offered_clad": row["clad"],
        "offered_thickness": f"{thickness}in",
    }
    return Check(
        f"strength {name} at {thickness} {key}", "MIL-HDBK-5J", "sheet tables, from memory",
        "substitute", typed, key, value, value, near,
    )  # fmt: skip
