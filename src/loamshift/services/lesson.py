"""A material on a soil for a class: its claim settled, the sums step by step, the layers."""

from __future__ import annotations

from typing import Final

from loamshift.domain.case import Case
from loamshift.domain.lesson import Lesson
from loamshift.services.claim.layers import layer_course
from loamshift.services.claims_asked import claims_asked
from loamshift.services.context.build_context import build_context
from loamshift.services.own_sum.sums import own_keys, own_sum

MEMBERS: Final = 41
"""Possible beds of a lesson: its strips show their middle, which more would move by hundredths."""
_SUMS: Final = ("acid_brought_mmolc_m2", "acid_needed_mmolc_m2", "share")


def lesson_of(case: Case, *, seed: int) -> Lesson:
    """A lesson about the first claim of a case.

    Parameters
    ----------
    case
        A case with a soil pH and one claim.
    seed
        Seed of the possible beds [number].

    Raises
    ------
    InputError
        Where the case has no soil pH.
    """
    answer = claims_asked(case, seed=seed)
    known = own_keys(answer)
    keys = [f"claims.0.{field}" for field in _SUMS]
    return Lesson(
        case=case,
        answer=answer,
        layers=layer_course(build_context(case), case.claims[0], members=MEMBERS, seed=seed),
        sums=tuple(own_sum(case, answer, key) for key in keys if key in known),
    )
