"""One figure of the rulebook changed at a time: which printed answers notice."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, SupportsIndex

from bucktail.rules.cells import Book, Cell, Cells
from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.rulebook import SUMS, book
from bucktail.rules.sources import load_table
from bucktail.rules.sums import record
from running.published import Check

HUNDREDTH = Fraction(1, 100)


@dataclass(frozen=True)
class Figure:
    """A constant (by its name, table "constants") or a cell: table, row from 0, column."""

    table: str
    row: int
    column: str

    @property
    def name(self) -> str:
        """How it stands in the list of those that nothing notices."""
        if self.table == "constants":
            return self.column
        texts = [text for text in load_table(self.table).rows[self.row].values() if text]
        return " ".join(texts[:4])


def used() -> Iterator[Figure]:
    """Every constant that a sum's program names and every figure in a column it looks things up
    in, keys too. Words are left."""
    columns: dict[str, set[str]] = defaultdict(set)
    for one in SUMS:
        for op, *args in record(one).program.steps:
            if op == "constant":
                columns["constants"].add(args[0])
            if op == "lookup":
                table, column, exact, near = args
                columns[table] |= {column, *(name for name, _ in exact)}
                columns[table] |= {near[1]} if near else set()
    for name in sorted(columns.pop("constants")):
        yield Figure("constants", 0, name)
    for table in sorted(columns):
        standing = book().tables[table]
        for row, cells in enumerate(standing.rows):
            for column in sorted(columns[table]):
                if isinstance(cells[standing.columns[column]], Fraction):
                    yield Figure(table, row, column)


def changed(figure: Figure, by: Fraction) -> Book:
    """The book with one figure larger by a share of itself; a figure of 0 grows by the share."""

    def grown(value: Fraction) -> Fraction:
        return value * (1 + by) if value else abs(by)

    standing = book()
    if figure.table == "constants":
        constants = dict(standing.constants)
        constants[figure.column] = grown(constants[figure.column])
        return replace(standing, constants=constants)
    table = standing.tables[figure.table]
    at, rows = table.columns[figure.column], list(table.rows)
    cells = list(rows[figure.row])
    value = cells[at]
    assert isinstance(value, Fraction)
    cells[at] = grown(value)
    rows[figure.row] = tuple(cells)
    return replace(
        standing, tables={**standing.tables, figure.table: replace(table, rows=tuple(rows))}
    )


class _Row(tuple[Cell, ...]):
    """A row that notes which of its cells are read."""

    table: str
    number: int
    seen: set[tuple[str, int, int]]

    def __getitem__(self, at: Any) -> Any:
        if isinstance(at, SupportsIndex):
            self.seen.add((self.table, self.number, int(at)))
        return super().__getitem__(at)


class _Constants(dict[str, Fraction]):
    """Constants that note which of them are read."""

    seen: set[tuple[str, int, int]]
    places: dict[str, int]

    def get(self, name: str, default: Any = None) -> Any:
        self.seen.add(("constants", self.places[name], 0))
        return super().get(name, default)


@dataclass(frozen=True)
class Question:
    """What several checks ask of the same answer."""

    sum: str
    typed: Mapping[str, str]
    checks: tuple[Check, ...]

    def agrees(self, tables: Book) -> bool:
        """Whether the answer with these tables is as printed, in all that is checked."""
        answer = reckon(self.sum, self.typed, "in", tables)
        return not isinstance(answer, Unread) and all(one.agrees(answer) for one in self.checks)


def questions(checks: tuple[Check, ...]) -> tuple[Question, ...]:
    """The checks, put together where they ask the same."""
    asked: dict[tuple[str, tuple[tuple[str, str], ...]], list[Check]] = defaultdict(list)
    for check in checks:
        asked[check.sum, tuple(sorted(check.typed.items()))].append(check)
    return tuple(
        Question(one.sum, one.typed, tuple(same)) for same in asked.values() for one in same[:1]
    )


class Readings:
    """Which questions read which figures. One that does not read a figure cannot notice it."""

    def __init__(self, checks: tuple[Check, ...]) -> None:
        self.seen: set[tuple[str, int, int]] = set()
        self.names = list(book().constants)
        self.book = self._noting()
        self.by_figure: dict[tuple[str, int, int], list[int]] = defaultdict(list)
        self.depth: dict[tuple[int, str, int], int] = defaultdict(int)
        self.questions = questions(checks)
        for number, question in enumerate(self.questions):
            self.seen.clear()
            assert question.agrees(self.book), question
            for read in set(self.seen):
                self.by_figure[read].append(number)
                self.depth[number, read[0], read[1]] += 1

    def _noting(self) -> Book:
        standing = book()
        constants = _Constants(standing.constants)
        constants.seen, constants.places = self.seen, {n: i for i, n in enumerate(self.names)}
        tables = {name: self._table(name, table) for name, table in standing.tables.items()}
        return Book(tables, constants)

    def _table(self, name: str, table: Cells) -> Cells:
        rows = []
        for number, cells in enumerate(table.rows):
            row = _Row(cells)
            row.table, row.number, row.seen = name, number, self.seen
            rows.append(row)
        return Cells(table.columns, tuple(rows))

    def of(self, figure: Figure) -> list[Question]:
        """The questions that read a figure, those that read most of its row first."""
        if figure.table == "constants":
            found = self.by_figure["constants", self.names.index(figure.column), 0]
        else:
            at = book().tables[figure.table].columns[figure.column]
            deep = self.depth
            found = sorted(
                self.by_figure[figure.table, figure.row, at],
                key=lambda number: -deep[number, figure.table, figure.row],
            )
        return [self.questions[number] for number in found]


def noticed(figure: Figure, by: Fraction, readings: Readings) -> bool:
    """Whether a printed answer no longer comes out when the figure is changed."""
    tables = changed(figure, by)
    return any(not question.agrees(tables) for question in readings.of(figure))
