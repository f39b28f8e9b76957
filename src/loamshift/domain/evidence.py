"""How far a shipped figure can be trusted, and the parameter rows that carry figures."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Evidence(StrEnum):
    """What stands behind a figure."""

    SEEN = "seen"
    """Read in the source named."""
    SECONDARY = "secondary"
    """Read in another work that quotes the source, or in the source's abstract."""
    MEMORY = "memory"
    """Recalled, not read; never a published check."""
    DERIVED = "derived"
    """Our own arithmetic from seen figures or from stoichiometry."""
    JUDGEMENT = "judgement"
    """Chosen by us between figures, or without any; the note says why."""
    COMMON_PRACTICE = "common practice"
    """A habit of the trade without a source."""


@dataclass(frozen=True, slots=True)
class Parameter:
    """One named coefficient of the model, with its spread and its source.

    ``value`` is the median or best value; ``low`` and ``high`` bound the central 95 % where
    known; ``sd`` is on the scale the note names (log10 for factors).
    """

    topic: str
    name: str
    value: float
    unit: str
    low: float | None
    high: float | None
    sd: float | None
    source_key: str
    where: str
    evidence: Evidence
    note: str


@dataclass(frozen=True, slots=True)
class Reference:
    """One entry of the list of sources: key, citation, link if any, and grade."""

    key: str
    citation: str
    url: str
    grade: str
    """standard | journal | institution | book | trade | popular | own"""
