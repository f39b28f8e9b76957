"""How many examples a property is tried with: few and the same each time, or ten times as many."""

from __future__ import annotations

from hypothesis import settings


def tries(examples: int) -> settings:
    """So many in the ordinary run, ten times as many and others in ``tools/check random``."""
    return settings(max_examples=examples * (1 if settings.default.derandomize else 10))
