"""Valid bodies of every kind of event, drawn at random: realistic for the kinds that make marks,
from the schema alone for all others, so that a new kind takes part without a line here."""

from __future__ import annotations

from random import Random
from typing import Any

from marshmallow import Schema, fields, validate

from bucktail.parts.operations import CHANGES, SIDES, operations
from bucktail.sync.wire.bodies import KINDS
from bucktail.sync.wire.exact import Id, Whole, YesNo
from bucktail.sync.wire.joints import Segment
from bucktail.sync.wire.shapes import LONGEST_NM, WAYS, Corners, Outline, Shape
from bucktail.tags.code import new_code

OPS = [row.op for row in operations()]
WORDS = (
    "Rib 4",
    "Flap skin, left",
    'Shim ".032"',
    "O'Day's doubler",
    '=HYPERLINK("x","y")',
    "+1-800",
    "-SUM(A1:A9)",
    "@cmd",
    "🛩️ wing 🔩",
    "Nietfuß Ä Ö ½",
    "主翼",
    "عارضة",
    "a\\b\tc\nd",
    "<b>bold</b> & ]]>",
    "line\u2028paragraph\u2029\x7f\u0007",
    "e\u0301 \ufb01 \ue000 \U0010ffff",
    "",
)


def uuid_of(number: int) -> str:
    """A UUID that is easily written short: version 7, counted."""
    return f"00000000-0000-7000-8000-{number:012x}"


class Drawer:
    """Draws bodies. `parts` are the things that layers and moves name."""

    def __init__(self, draw: Random, parts: list[str]) -> None:
        self.draw, self.parts = draw, parts
        taken: list[str] = []
        while len(taken) < 3:
            taken.append(new_code(draw.randrange, taken))
        self.codes = taken
        self.events: list[str] = []  # ids that may be taken back
        # most work goes on at a few operations that follow each other
        self.focus = draw.choice(
            [
                ["film", "clean"],
                ["film", "clean", "prime"],
                ["fit", "drill", "deburr", "rivet"],
                ["deburr", "dimple", "countersink"],
                ["countersink"],
                OPS,
            ]
        )

    def body(self, kind: str) -> dict[str, Any]:
        """A body that the schema of `kind` accepts."""
        made = getattr(self, "_" + kind.split(".v")[0].replace(".", "_"), None)
        body: dict[str, Any] = made() if made else self.from_schema(KINDS[kind]())
        problems = KINDS[kind]().validate(body)
        assert not problems, f"{kind}: {problems} in {body}"
        return body

    def maybe(self, share: float) -> bool:
        """True in this share of cases."""
        return self.draw.random() < share

    def _steps_set(self) -> dict[str, Any]:
        ops = {op: self.draw.choice(["do", "do", "do", "not", "bare"]) for op in OPS}
        if self.maybe(0.3):
            ops = {op: word for op, word in ops.items() if self.maybe(0.7)}
        for op in ("prime", "clean", "film", "deburr"):
            if self.maybe(0.2):
                ops[f"{op}:{self.draw.choice(SIDES)}"] = self.draw.choice(["do", "not", "bare"])
        return {
            "template": self.draw.choice(WORDS),
            "ops": ops,
            "holes": {
                "count": self.draw.choice([None, 0, 20, 164]),
                "supplied": self.draw.choice(["none", "pilot", "final"]),
            },
            "open": [{"n": 16, "fills": "nut plates"}] if self.maybe(0.2) else [],
            "along_lines": self.maybe(0.5),
            "final_after_dimple": self.maybe(0.2),
            "die": None,
            "window_h": self.draw.choice([None, 0, 1, 8]),
        }

    def _line_set(self) -> dict[str, Any]:
        layers = self.draw.choices(self.parts, k=self.draw.randint(1, 4))
        return {
            "name": self.draw.choice(WORDS),
            "count": self.draw.choice([None, 20, 164]),
            "supplied": self.draw.choice(["none", "pilot", "final"]),
            "head": "flush",
            "fastener": {"kind": "rivet", "text": "AN426AD3-4"},
            "layers": [
                {"part": part, "treat": self.draw.choice(["plain", "dimple", "countersink"])}
                for part in layers
            ],
            "open": [],
        }

    def _line_segments(self) -> dict[str, Any]:
        segments = []
        for at in range(self.draw.randint(0, 3)):
            segment = self.from_schema(Segment())
            dash, was = self.draw.choice([None, 6, 7, 8]), self.draw.choice([None, 7])
            segment |= {"name": f"{at}", "dash": dash, "was_dash": was}
            segments.append(segment)
        return {"segments": segments}

    def _step_recorded(self) -> dict[str, Any]:
        op = self.draw.choice(self.focus if self.maybe(0.8) else OPS)
        result = self.draw.choice(["all", "all", "all", "some", "none"])
        of = self.draw.choice([None, None, 20, 164])
        done = None
        if result == "some":
            done = self.draw.choice([None, 1, 10, 20])
        body: dict[str, Any] = {"op": op, "result": result, "done": done, "of": of}
        if self.maybe(0.15):
            body["open"] = [{"n": self.draw.choice([1, 16, 500]), "fills": "screws"}]
        if self.maybe(0.4):
            body["layer"] = self.draw.choice([*self.parts, None])
        if self.maybe(0.6):
            body["sides"] = self.draw.choice([["inside"], ["outside"], ["inside", "outside"]])
        if self.maybe(0.1):
            body["looked"] = self.maybe(0.5)
        return body

    def _metal_changed(self) -> dict[str, Any]:
        body: dict[str, Any] = {"change": self.draw.choice(CHANGES)}
        if self.maybe(0.6):
            body["holes"] = self.draw.choice([None, 0, 1, 4, 30])
        return body

    def _part_split(self) -> dict[str, Any]:
        into = [{"id": part, "pieces": self.draw.randint(1, 4)} for part in self.parts[:2]]
        return {"into": into}

    def _offcut_cut(self) -> dict[str, Any]:
        drawn = self.from_schema(KINDS["offcut.cut.v1"]())
        return {"dust_um2": self.draw.choice([0, 120_000_000]), **drawn}

    def _finding_closed(self) -> dict[str, Any]:
        body = self.from_schema(KINDS["finding.closed.v1"]())
        if self.events and self.maybe(0.7):
            body["decision"] = self.draw.choice(self.events[-3:])
        return body

    def _event_withdrawn(self) -> dict[str, Any]:
        return {"event": self.draw.choice(self.events) if self.events else uuid_of(9)}

    def from_schema(self, schema: Schema) -> dict[str, Any]:
        """A body from the schema's fields alone."""
        if isinstance(schema, Outline):
            return self._outline()
        return {
            name: self._value(field)
            for name, field in schema.fields.items()
            if field.required or self.maybe(0.5)
        }

    def _value(self, field: fields.Field[Any]) -> Any:
        if field.allow_none and self.maybe(0.3):
            return None
        found = field.validate
        checks: list[Any] = list(found) if isinstance(found, list | tuple) else [found]
        if isinstance(field, Id):
            return self.draw.choice(self.parts)
        if isinstance(field, YesNo):
            return self.maybe(0.5)
        if isinstance(field, Corners):
            return [[0, 0], [self.draw.choice([1000, LONGEST_NM]), 0], [0, 25_400_000]]
        for check in checks:
            if isinstance(check, validate.OneOf):
                return self.draw.choice(list(check.choices))
        if isinstance(field, Whole):
            return self._whole(checks)
        if isinstance(field, Shape):
            return self.from_schema(self.draw.choice(list(field.kinds.values()))())
        if isinstance(field, fields.Nested):
            return self.from_schema(field.schema)
        if isinstance(field, fields.List):
            return [self._value(field.inner) for _ in range(self.draw.randint(1, 2))]
        if isinstance(field, fields.Dict):
            return {self._value(field.key_field): self._value(field.value_field)}  # type: ignore[arg-type]
        assert isinstance(field, fields.String), f"no way to draw a {field}"
        return self._text(field)

    def _outline(self) -> dict[str, Any]:
        """A sheet with a corner off and perhaps a hole in it."""
        a, b, off = (self.draw.choice([812_800, 25_400_000, LONGEST_NM]) for _ in range(3))
        a, b = max(a, off) + 4000, max(b, off) + 4000
        a, b = min(a, LONGEST_NM), min(b, LONGEST_NM)
        outer = [[0, 0], [a, 0], [a, b - off // 2], [a - off // 2, b], [0, b]]
        hole = [[1000, 1000], [1000, 2000], [2000, 2000], [2000, 1000]]
        texts = {"a": self.draw.choice(WORDS), "corner 1": self.draw.choice(WORDS)}
        return {
            "kind": "outline",
            "outer": outer,
            "holes": [hole] if self.maybe(0.5) else [],
            "entered": {"way": self.draw.choice(WAYS), "texts": texts},
        }

    def _whole(self, checks: list[Any]) -> int:
        low, high = 0, 1_000_000
        for check in checks:
            if isinstance(check, validate.Range):
                low = max(low, int(check.min or 0))
                high = min(high, int(check.max or high)) if check.max is not None else high
        return self.draw.choice([low, min(low + 3, high), min(812_800, high)])

    def _text(self, field: fields.Field[Any]) -> str:
        """The first of some likely texts that this field takes."""
        likely = self.draw.sample(WORDS, len(WORDS))
        likely += [*self.codes, f"{self.draw.getrandbits(256):064x}", "hole_1"]
        for text in likely:
            try:
                field.deserialize(text)
            except Exception:
                continue
            return text
        raise AssertionError(f"no text that {field.name} takes")
