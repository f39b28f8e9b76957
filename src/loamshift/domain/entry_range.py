"""What a figure of the case file usually is, and what it may have been meant as."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from loamshift.domain.evidence import Evidence


class Gather(StrEnum):
    """How several figures under one key are looked at."""

    EACH = "each"
    SUM = "sum"
    MEAN = "mean"


class Side(StrEnum):
    """On which side of its usual range a figure lies."""

    LOW = "low"
    HIGH = "high"


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitSlip:
    """A unit that a figure on one side of its range was probably meant in.

    ``meant`` is its choice in the message ``doubt-meant``. The figure meant is
    ``(given - offset) * factor`` in the unit of the range.
    """

    side: Side
    meant: str
    factor: float
    offset: float


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryRange:
    """What one key of the case file usually holds.

    ``path`` is the key, ``[]`` standing for each entry of a list; ``attribute`` is where the
    case keeps the figure; ``when`` names the cases the row is for. ``low`` and ``high`` in
    ``unit``; ``zero_is_usual`` lets zero pass below ``low``.
    """

    path: str
    attribute: str
    gather: Gather
    when: str
    phrase: str
    """What the figure is: the end of its message, ``doubt-what-clay-content``."""
    unit: str
    low: float
    high: float
    zero_is_usual: bool
    hint: str
    """The end of the message of a question of its own, for where no other unit explains the figure;
    may be empty."""
    slips: tuple[UnitSlip, ...]
    source_key: str
    evidence: Evidence


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryDoubt:
    """A figure outside its usual range: where it stands, what was given and may be meant.

    ``given`` and the values in ``meant`` are in the unit of ``range``.
    """

    path: str
    given: float
    side: Side
    meant: tuple[tuple[str, float], ...]
    """Unit and figure, for each unit that brings the figure into its usual range."""
    range: EntryRange
