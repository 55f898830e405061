"""From operands to a program: steps in working order, each written once, as plain JSON."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, TypeAlias

from bucktail.rules.recording import Operand

Step: TypeAlias = list[Any]


@dataclass(frozen=True, slots=True)
class Program:
    """`steps` refer to earlier steps by their number; `outputs` name the steps that are asked for.

    A step is a list: the operation, then numbers of steps. Five say more: ["is", value], ["input",
    name], ["constant", name], ["lookup", table, column, [[column, step]...], null or [how, column,
    step]], ["say", template, [[slot, format, step]...]], and ["slice", step, from, to].
    """

    steps: tuple[Step, ...]
    outputs: Mapping[str, int]


def number_json(value: Fraction) -> int | list[int]:
    """An exact number as JSON: whole numbers as they are, else [above, below]."""
    if value.denominator == 1:
        return value.numerator
    return [value.numerator, value.denominator]


def program(outputs: Mapping[str, Operand]) -> Program:
    """The steps that give `outputs`; what is worked out twice is one step."""
    writer = _Writer()
    return Program(*writer.write(outputs))


class _Writer:
    def __init__(self) -> None:
        self.steps: list[Step] = []
        self.at: dict[str, int] = {}
        self.known: dict[int, int] = {}
        self.kept: list[Operand] = []  # so that no id is used twice

    def write(self, outputs: Mapping[str, Operand]) -> tuple[tuple[Step, ...], dict[str, int]]:
        placed = {name: self.place(value) for name, value in outputs.items()}
        return tuple(self.steps), placed

    def place(self, value: Operand) -> int:
        if id(value) not in self.known:
            step = self.step(value)
            key = json.dumps(step, sort_keys=True)
            if key not in self.at:
                self.at[key] = len(self.steps)
                self.steps.append(step)
            self.known[id(value)] = self.at[key]
            self.kept.append(value)
        return self.known[id(value)]

    def step(self, value: Operand) -> Step:
        args = value.args
        match value.op:
            case "is":
                plain = args[0]
                return ["is", number_json(plain) if isinstance(plain, Fraction) else plain]
            case "input" | "constant":
                return [value.op, args[0]]
            case "slice":
                return ["slice", self.place(args[0]), args[1], args[2]]
            case "lookup":
                table, column, keys, near = args
                exact = [[name, self.place(term)] for name, term in keys]
                way = [near[0], near[1], self.place(near[2])] if near else None
                return ["lookup", table, column, exact, way]
            case "say":
                template, slots = args
                return ["say", template, [[n, form, self.place(term)] for n, form, term in slots]]
            case _:
                return [value.op, *(self.place(term) for term in args)]
