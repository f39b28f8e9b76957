"""A number opened: what it answers, its equation, what goes in, and who says so."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.evidence import Evidence
from loamshift.domain.message import Message


@dataclass(frozen=True, slots=True, kw_only=True)
class ExplainedFigure:
    """One figure that goes into a number: value with its range, unit, evidence and source."""

    name: str
    value: float
    low: float | None
    high: float | None
    unit: str
    evidence: Evidence
    source_key: str
    where: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Explanation:
    """The answer to ``why KEY``.

    ``kind`` says what the key is, a choice of the message ``why-kind``; ``equations`` and
    ``text`` are lines and paragraphs in reading order.
    """

    key: str
    kind: str
    title: Message
    text: tuple[Message, ...]
    equations: tuple[Message, ...] = ()
    figures: tuple[ExplainedFigure, ...] = ()
    see_also: tuple[str, ...] = ()
    source_keys: tuple[str, ...] = ()
