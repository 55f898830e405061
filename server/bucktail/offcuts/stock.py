"""Offcuts and pieces wanted as their cards tell them, for what is reckoned on this computer.

States are those of the fold (events/fold.py). What two people told differently is taken at its
worst until one of them settles it. Lengths are whole nm.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from bucktail.offcuts.material import Material, fit_for_structure
from bucktail.offcuts.outline import Outline, OutlineFaulty, outline
from bucktail.rules.gauges import family

if TYPE_CHECKING:  # at run time it would bring numpy with it
    from bucktail.offcuts.laying import Grain, WantedGrain

State = Mapping[str, Any]

DOUBTFUL_SHAPE = frozenset({"shape", "thickness", "form"})
GRAINS: dict[str, WantedGrain] = {"a": "along width", "b": "along height", "any": "any"}


@dataclass(frozen=True, slots=True)
class MetalWanted:
    """What is asked of the metal; None takes any. Thickness is nm."""

    alloy: str | None = None
    temper: str | None = None
    clad: str | None = None
    thickness: int | None = None
    structure: bool = True


def doubts(state: State) -> frozenset[str]:
    """The fields that two people told differently."""
    return frozenset(answer["about"] for answer in state.get("answers", ()))


def out_of_stock(offcut: str, state: State, parent: State | None) -> str:
    """Why nothing can be cut from an offcut whatever is wanted; empty where something can.

    `parent` is the state of the offcut that it was cut from.
    """
    if state.get("retired"):
        return "retired"
    if state.get("cut"):
        return "cut up"
    if state.get("form", "sheet") != "sheet":
        return "no sheet"
    if doubts(state) & DOUBTFUL_SHAPE or (parent and _unsure(offcut, state, parent)):
        return "has to be measured again"
    return ""


def _unsure(offcut: str, state: State, parent: State) -> bool:
    """Whether the cut that an offcut came of is in doubt, and it was not measured since."""
    cuts = parent.get("cut") or []
    if not any(offcut in cut["remnants"] for cut in cuts):
        return not parent.get("retired")
    in_doubt = any(flag["key"] in ("cut", "shape") for flag in parent.get("flags", ()))
    last = max(cut["at"] for cut in cuts)
    return in_doubt and int(state.get("sized_at") or 0) <= last


def grain_of(state: State) -> Grain:
    """Along x ("a"), along y ("b"), or unknown."""
    told = state.get("grain")
    if told not in ("a", "b") or "grain" in doubts(state):
        return "unknown"
    return "a" if told == "a" else "b"


def outline_of(state: State) -> Outline | None:
    """The outline of a sheet: a rectangle has its side a along x. None where it has none sound."""
    shape = state.get("shape") or {}
    try:
        if shape.get("kind") == "rectangle":
            a, b = shape["a"]["nm"], shape["b"]["nm"]
            return outline([(0, 0), (a, 0), (a, b), (0, b)])
        if shape.get("kind") == "outline":
            return outline(shape["outer"], shape["holes"])
    except OutlineFaulty:
        return None
    return None


def reservation(state: State) -> tuple[str | None, str]:
    """What an offcut is reserved for: its id ("" where it has none, None where free), and words."""
    told = state.get("reserved") or {}
    if not told.get("text"):
        return None, ""
    return told.get("part") or "", str(told["text"])


def why_not_metal(state: State, wanted: MetalWanted) -> str:
    """Why the metal of an offcut is not the one wanted; empty where it is."""
    metal = _material(state)
    for told, asked in ((metal.alloy, wanted.alloy), (metal.temper, wanted.temper)):
        if asked is not None and told != asked:
            return f"{metal.name}, wanted {_name(wanted)}"
    if wanted.clad in ("clad", "bare") and metal.cladding != wanted.clad:
        said = "cladding not known" if metal.cladding == "unknown" else metal.cladding
        return f"{said}, wanted {wanted.clad}"
    if wanted.thickness is not None and not _same_thickness(metal.thickness_nm, wanted.thickness):
        return "thicker" if metal.thickness_nm > wanted.thickness else "thinner"
    if wanted.structure:
        for reason in fit_for_structure(metal):
            return reason.sentence
    return ""


def _name(wanted: MetalWanted) -> str:
    return "-".join(word for word in (wanted.alloy, wanted.temper) if word)


def _material(state: State) -> Material:
    """The material at its worst where it is not sure."""
    unsure = doubts(state)

    def sure(field: str, otherwise: str) -> Any:
        told = state.get(field)
        return otherwise if told is None or field in unsure else told

    return Material(
        alloy=sure("alloy", "unknown") or "unknown",
        temper=sure("temper", "unknown") or "unknown",
        cladding=sure("clad", "unknown"),
        thickness_nm=(state.get("thickness") or {}).get("nm") or 1,
        measured="over film" if "thickness" in unsure else sure("measured", "over film"),
        known_by=sure("known_by", "unknown"),
    )


def _same_thickness(one: int, other: int) -> bool:
    """Equal, or of one family of listed thicknesses."""
    if one == other:
        return True
    first, second = family(one), family(other)
    return first is not None and second is not None and first.id == second.id


def metal_of_piece(state: State) -> MetalWanted:
    """The metal that a wanted piece asks for; it is meant for structure."""
    return MetalWanted(
        state.get("alloy"), state.get("temper"), state.get("clad"), state["thickness"]["nm"]
    )
