"""A question in a person's own words: what was understood, what is dangerous, what is missing."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from loamshift.domain.answer import Decision, Missing


class Danger(StrEnum):
    """What makes a question urgent, the worst first."""

    HURT = "hurt"
    """Somebody or some animal may have been hurt by a product."""
    CAUSTIC = "caustic"
    """Burnt lime, a strong acid or bleach is there or on its way."""
    STOP = "stop"
    """Too much was put on, or the advice would be to stop."""
    NEAR = "near"
    """Children or animals are about where something is, or is to be, put on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """One fact read from a question: its key in the case file, its value as text, and the words."""

    path: str
    value: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionRead:
    """What was understood of a question, and the words that are dangerous by what they mean."""

    facts: tuple[Understood, ...]
    dangers: tuple[Danger, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Triage:
    """How urgent a question is, and what is to be asked before it can be answered."""

    dangers: tuple[Danger, ...]
    decision: Decision | None
    missing: tuple[Missing, ...]

    @property
    def rank(self) -> tuple[int, int]:
        """By which questions are sorted: danger first, then how much is missing [count]."""
        order = list(Danger)
        worst = min((order.index(one) for one in self.dangers), default=len(order))
        return worst, len(self.missing)
