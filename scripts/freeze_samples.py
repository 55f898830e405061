"""Freezes a recorded sample of every kind of event that has none yet.

Run it once when a kind is first used. A sample that is there is never written again: what was
recorded with it must be read for ever. With --cards the cards that the samples fold to are written
anew, after the fold was changed on purpose.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import sys
from pathlib import Path
from random import Random
from typing import Any

from bucktail.events.envelope import canonical, fact_of
from bucktail.events.fold import fold
from bucktail.events.order import Fact, reading_order
from bucktail.sync.wire.bodies import KINDS
from bucktail.sync.wire.reading import read_event

SAMPLES = Path(__file__).resolve().parent.parent / "tests" / "events" / "samples"
HASHES = SAMPLES / "frozen.sha256"
THING = "01970000-0000-7000-8000-000000000001"
LAYERS = ("01970000-0000-7000-8000-000000000020", "01970000-0000-7000-8000-000000000021")
START = 1_790_000_000_000
#: What stands on the card before the sample, by the first word of its kind.
BEFORE = {
    "offcut": ["offcut.added.v1"],
    "place": ["place.added.v1"],
    "line": ["line.set.v1"],
    "finding": ["finding.opened.v1"],
    "piece": ["piece.wanted.v1"],
}
ON_A_PART = ["part.added.v1", "steps.set.v1"]

_CORNER_OFF = {
    "kind": "outline",
    "outer": [
        [0, 0],
        [304800000, 0],
        [304800000, 127000000],
        [228600000, 203200000],
        [0, 203200000],
    ],
    "holes": [[[25400000, 25400000], [25400000, 50800000], [50800000, 50800000]]],
    "entered": {"way": "corner off", "texts": {"a": "12 in", "b": "203.2 mm", "off a": "3 “½”"}},
}
_ANGLE: dict[str, Any] = {
    "form": "angle",
    "section": {
        "sides": [{"nm": 25400000, "text": "1"}, {"nm": 19050000, "text": "3/4 “in”"}],
        "hand": "left",
        "square": False,
    },
    "thickness": {"nm": 1600200, "text": ".063"},
    "shape": {"kind": "length", "length": {"nm": 609600000, "text": "24"}, "square_ends": 1},
    "grain": "unknown",
}
#: Samples of kinds whose bodies have more than one form: kind, then what tells the form.
FORMS: dict[str, dict[str, Any]] = {
    "offcut.added.v1~outline": {"shape": _CORNER_OFF, "form": "sheet", "grain": "a"},
    "offcut.described.v1~outline": {"shape": {**_CORNER_OFF, "holes": []}, "grain": "b"},
    "offcut.added.v1~length": _ANGLE,
}
#: Where values drawn at random would say little, values that change a mark.
TELLING: dict[str, dict[str, Any]] = {
    "part.added.v1": {"name": "Rib 4 “left” 🛩️", "pieces": 12},
    "steps.set.v1": {
        "ops": {"film": "do", "deburr": "do", "countersink": "do", "prime:outside": "bare"},
        "holes": {"count": 164, "supplied": "pilot"},
    },
    "line.set.v1": {"count": 164},
    "step.recorded.v1": {"op": "countersink", "result": "some", "done": 148, "of": 164},
    "metal.changed.v1": {"change": "holes added", "holes": 4},
    "line.segments.v1": {
        "segments": [
            {
                "name": "over the shim",
                "count": 12,
                "layers": [
                    {"part": LAYERS[0], "thickness": {"nm": 812800, "text": ".032"}, "treat": way}
                    for way in ("dimple", "plain")
                ],
                "fastener": {"kind": "rivet", "text": "MS20426AD3"},
                "dash": 8,
                "was_dash": 7,
                "confirmed": False,
            },
            {
                "name": "the rest",
                "count": None,
                "layers": [{"part": LAYERS[1], "thickness": None, "treat": "countersink"}],
                "fastener": {"kind": "pulled rivet", "text": "3/32"},
                "dash": None,
                "was_dash": None,
                "confirmed": True,
            },
        ]
    },
    "offcut.cut.v1": {
        "made": [
            {"part": LAYERS[0], "name": "Shim “A” ½", "outline": [[0, 0], [9000, 0], [9000, 800]]},
            {"part": None, "name": "trial", "outline": [[0, 900], [9000, 900], [0, 1700]]},
            {"part": LAYERS[1], "name": "Angle clip", "length": 50_800_000},
        ],
        "remnants": [LAYERS[0]],
        "kerf_nm": 1_587_500,
        "dust_um2": 120_000_000,
    },
    "finding.decided.v1": {"decision": "repair", "who": "Kim Brook, licensed engineer"},
    "finding.closed.v1": {"outcome": "repaired", "evidence": "Work order 7, “2 holes”"},
    "piece.wanted.v1": {"name": "Shim “A” ½", "what": "shim", "bends": []},
    "piece.described.v1": {"count": 3, "grain": "a"},
    "sum.kept.v1": {
        "sum": "edge_left",
        "inputs": {"hole": "1/8", "edge": "3/16 in"},
        "rulebook": "0123456789ab",
        "answer": {"verdict": "fails", "left_d": "1.5", "least": "2, 2.5", "why": "½ ≠ “2D”"},
    },
}


def sample(kind: str) -> Path:
    """The file with the bytes of one event of this kind and form, exactly as it was recorded."""
    return SAMPLES / f"{kind}.json"


def card_file(kind: str) -> Path:
    """The file with the card that the sample folds to, together with what stood there before."""
    return SAMPLES / f"{kind}.card.json"


def card_text(kind: str) -> str:
    """The card of the samples that stand before it and of this one."""
    before = BEFORE.get(kind.split(".")[0], ON_A_PART)
    before = [one for one in before if one != kind.split("~")[0]]
    facts: list[Fact] = []
    for position, one in enumerate([*before, kind], 1):
        event = read_event(sample(one).read_bytes())
        facts.append(fact_of(event, position, event.at, None))
    state = fold(facts)
    facts.sort(key=reading_order)
    return canonical({"facts": facts, "id": THING, "sort": state["sort"], "state": state})


def new_sample(kind: str, number: int) -> bytes:
    """An event of this kind with every field its body may have."""
    sys.path.append(str(SAMPLES.parent.parent))
    drawer_of = __import__("running.bodies", fromlist=["Drawer"]).Drawer
    ids = [f"01970000-0000-7000-8000-{n:012x}" for n in (0x20, 0x21, 0x22)]
    drawer = drawer_of(Random(kind), ids)
    told = {**TELLING.get(kind, {}), **FORMS.get(kind, {})}
    kind, _, form = kind.partition("~")
    # every field, and none of them null; of a second form only what it must have
    drawer.maybe = lambda share: share >= 0.5 and not form
    body: dict[str, Any] = {**drawer.from_schema(KINDS[kind]()), **told}
    if kind == "event.withdrawn.v1":
        body = {"event": json.loads(sample("steps.set.v1").read_bytes())["id"]}
    envelope = {
        "id": f"01970000-0000-7000-8000-{0x1000 + number:012x}",
        "kind": kind,
        "workshop": "01970000-0000-4000-8000-000000000002",
        "device": "01970000-0000-7000-8000-000000000003",
        "seq": number,
        "at": START + number * 1000,
        "tz": "America/Argentina/Buenos_Aires",
        "by": "01970000-0000-7000-8000-000000000004",
        "base": {"position": 0, "chain": ""},
        "subject": THING,
        "via": "0123456789",
        "group": None,
        "body": body,
    }
    return canonical(envelope).encode("utf-8")


def hashes() -> dict[str, str]:
    """File name -> the SHA-256 it was frozen with."""
    lines = HASHES.read_text().splitlines() if HASHES.exists() else []
    return {name: digest for digest, name in (line.split("  ") for line in lines)}


def freeze() -> list[str]:
    """Write the samples that are missing; their kinds."""
    SAMPLES.mkdir(parents=True, exist_ok=True)
    frozen, made = hashes(), []
    first = [*ON_A_PART, *(kind for kinds in BEFORE.values() for kind in kinds)]
    for kind in [*first, *sorted(set(KINDS) - set(first)), *FORMS]:
        if sample(kind).exists():
            continue
        # numbers follow the order in which kinds were frozen, so that none moves later
        data = new_sample(kind, len(frozen) + 1)
        read_event(data)
        sample(kind).write_bytes(data)
        frozen[sample(kind).name] = hashlib.sha256(data).hexdigest()
        made.append(kind)
    HASHES.write_text("".join(f"{digest}  {name}\n" for name, digest in frozen.items()))
    return made


def main(arguments: list[str]) -> int:
    """Freeze what is missing and write its cards."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cards", action="store_true", help="write the cards anew too")
    options = parser.parse_args(arguments)
    made = freeze()
    for kind in [*KINDS, *FORMS] if options.cards else made:
        card_file(kind).write_text(card_text(kind), encoding="utf-8")
    print(f"{len(made)} samples frozen: {', '.join(made) or 'none was missing'}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
