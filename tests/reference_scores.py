"""The package scoringrules as it sums in NumPy.

With numba at hand it compiles its functions whenever it is loaded, five seconds for a few sums.
"""

from __future__ import annotations

import sys
from typing import Any

_compiler: Any = sys.modules.get("numba")
sys.modules["numba"] = None  # type: ignore[assignment]
try:
    import scoringrules as theirs
finally:
    del sys.modules["numba"]
    if _compiler is not None:
        sys.modules["numba"] = _compiler

__all__ = ["theirs"]
