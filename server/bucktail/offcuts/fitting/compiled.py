"""One source for the kernel, compiled where that can be had and plain Python where not.

`compiled` is numba's njit with its cache on disk where numba is installed, and nothing at all where
it is not; `floats` and `wholes` make the rows of numbers that suit each. The plain way gives the
same curves and takes some thirty times as long. BUCKTAIL_PLAIN_PYTHON=1 asks for the plain way.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from typing import Any, TypeAlias, TypeVar

Kernel = TypeVar("Kernel", bound=Callable[..., Any])

#: a row of numbers: a numpy array for the compiler, a list without it
Floats: TypeAlias = Any
Wholes: TypeAlias = Any


def _compiler() -> Any:
    if os.environ.get("BUCKTAIL_PLAIN_PYTHON"):
        return None
    try:
        import numba
    except (ImportError, OSError):  # not installed, or not for this Python or numpy
        return None
    return numba.njit(cache=True)


_njit = _compiler()
COMPILED = _njit is not None


def compiled(kernel: Kernel) -> Kernel:
    """The decorator of every function of the kernel."""
    return kernel if _njit is None else _njit(kernel)


def floats(values: Sequence[float] | int) -> Floats:
    """A row of floats: these, or that many zeros."""
    if COMPILED:
        import numpy as np

        return np.zeros(values) if isinstance(values, int) else np.array(values, dtype=np.float64)
    return [0.0] * values if isinstance(values, int) else list(values)


def wholes(values: Sequence[int] | int) -> Wholes:
    """A row of whole numbers: these, or that many zeros."""
    if COMPILED:
        import numpy as np

        kind = np.int64
        return np.zeros(values, kind) if isinstance(values, int) else np.array(values, dtype=kind)
    return [0] * values if isinstance(values, int) else list(values)


def listed(row: Floats | Wholes) -> list[Any]:
    """A row of either kind as a list of Python numbers."""
    return row.tolist() if COMPILED else list(row)
