"""What an offcut was cut into, and when what was told of it cannot all be right."""

from __future__ import annotations

from typing import Any

from bucktail.events.order import Fact, heads, saw

CUT = "offcut.cut.v1"


def add_cuts(told: list[Fact], state: dict[str, Any]) -> None:
    """Put the cuts that stand into the state of an offcut, and what has to be measured again.

    `cut` is a list, because two phones may cut the same metal: the offcut is used up where it is
    there. `sized_at` is when its shape was last told anew (UTC ms), other than on being entered.
    """
    cuts = [fact for fact in told if fact["kind"] == CUT]
    sized = [fact for fact in told if fact["kind"] == "offcut.described.v1"]
    sized = [fact for fact in sized if "shape" in fact["body"]]
    if sized:
        state["sized_at"] = sized[-1]["at"]
    if not cuts:
        return
    state["cut"] = [
        {
            "event": fact["id"],
            "at": fact["at"],
            "by": fact["by"],
            "made": [{"part": one["part"], "name": one["name"]} for one in fact["body"]["made"]],
            "remnants": fact["body"]["remnants"],
        }
        for fact in cuts
    ]
    flags = []
    apart = heads(cuts)
    if len(apart) > 1:
        flags.append({"flag": "cut twice", "key": "cut", "event": apart[0]["id"]})
    for fact in sized:
        if not all(saw(fact, cut) or saw(cut, fact) for cut in cuts):
            flags.append({"flag": "cut by another size", "key": "shape", "event": fact["id"]})
    if flags:
        state["flags"] = flags
