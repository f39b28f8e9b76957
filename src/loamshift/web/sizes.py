"""How large a request may be."""

from __future__ import annotations

from typing import Final

LARGEST_FORM: Final = 2_500_000
"""Body of a request without files [byte]."""
LARGEST_UPLOAD: Final = 60_000_000
"""Body of a request with files [byte]."""
