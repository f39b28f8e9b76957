"""How many examples a property is tried with: few and the same each time, or many others."""

from __future__ import annotations

from typing import Final

from hypothesis import settings

ORDINARY_SHARE: Final = 0.4
"""Of the examples a property asks for, so many are tried in the ordinary run."""
RANDOM_TIMES: Final = 10
"""And so many times as many in ``tools/check random``."""


def is_random() -> bool:
    """Whether this is ``tools/check random``."""
    return not settings.default.derandomize


def count(examples: int) -> int:
    """How many examples to try, of a property that asks for so many."""
    return examples * RANDOM_TIMES if is_random() else round(examples * ORDINARY_SHARE)


def tries(examples: int) -> settings:
    """The settings of a property that asks for so many."""
    return settings(max_examples=count(examples))
