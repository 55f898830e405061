"""What the phone is given of this package's tables (written by scripts/generate)."""

from __future__ import annotations

import json

from bucktail.parts import operations, templates


def outputs() -> dict[str, str]:
    """Path from the top of the checkout -> text."""
    tables = {"operations": operations.for_phone(), "templates": templates.for_phone()}
    return {
        f"web/src/generated/{name}.json": json.dumps(table, indent=1, ensure_ascii=False) + "\n"
        for name, table in tables.items()
    }
