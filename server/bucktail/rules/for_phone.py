"""The rulebook as the phone gets it (written by scripts/generate)."""

from __future__ import annotations

from bucktail.rules.reading import ACCEPTED, metals, rivets_accepted, sizes
from bucktail.rules.rulebook import canonical, contents, version


def outputs() -> dict[str, str]:
    """The generated file by its path in the repository."""
    words = {
        "accepted": ACCEPTED,
        "metals": metals(),
        "rivets": sizes(),
        "rivets_accepted": rivets_accepted(),
    }
    book = {"version": version(), "words": words, **contents()}
    # a line for each sum and table, so that a reader sees what changed
    lines = [f'"{key}":{canonical(book[key])}' for key in ("version", "words", "constants")]
    tables = [f'  "{name}":{canonical(one)}' for name, one in book["tables"].items()]
    lines.append('"tables":{\n' + ",\n".join(tables) + "\n}")
    lines.append('"sums":[\n' + ",\n".join(f"  {canonical(one)}" for one in book["sums"]) + "\n]")
    return {"web/src/generated/rulebook.json": "{\n" + ",\n".join(lines) + "\n}\n"}
