"""What the phone is given of this package's tables (written by scripts/generate)."""

from __future__ import annotations

import json

from bucktail.parts.operations import for_phone


def outputs() -> dict[str, str]:
    """Path from the top of the checkout -> text."""
    table = json.dumps(for_phone(), indent=1, ensure_ascii=False)
    return {"web/src/generated/operations.json": table + "\n"}
