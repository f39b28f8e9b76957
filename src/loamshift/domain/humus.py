"""What is known of the humus of a bed that may be rotting."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.case import Before


@dataclass(frozen=True, slots=True, kw_only=True)
class HumusHistory:
    """What the ground was before it was dug, how many years ago, and whether it is kept bare.

    ``before`` None where nobody said what it was, ``years`` None where nobody said when.
    """

    before: Before | None
    years: float | None
    kept_bare: bool = False
