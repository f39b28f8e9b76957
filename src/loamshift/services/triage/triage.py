"""How urgent a question is, and what is missing to answer it."""

from __future__ import annotations

from collections.abc import Sequence

from loamshift.domain.answer import Decision
from loamshift.domain.case import Case
from loamshift.domain.question import Danger, Triage
from loamshift.services.advise import advise


def triage(case: Case, dangers: Sequence[Danger]) -> Triage:
    """How urgent a question is by its words and by what the advice would be.

    Parameters
    ----------
    case
        What was understood of the question.
    dangers
        Those that its words name.
    """
    answer = advise(case)
    found = set(dangers)
    if answer.verdict.decision is Decision.STOP:
        found.add(Danger.STOP)
    return Triage(
        dangers=tuple(one for one in Danger if one in found),
        decision=answer.verdict.decision,
        missing=answer.missing,
    )
