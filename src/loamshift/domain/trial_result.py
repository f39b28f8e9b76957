"""What came back from a trial: readings, what is wrong with them, and what they show."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from loamshift.domain.message import Message
from loamshift.domain.ph import PhMethod
from loamshift.domain.trial import Prediction, TrialPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class RowRead:
    """One row of a record sheet as it was read, before it is understood.

    ``line`` is its row in the file; what is missing is None.
    """

    line: int
    pot: str
    day: int | None
    on: date | None
    ph: float | None
    method: PhMethod | None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PotReading:
    """One reading of one pot on one day of the trial [pH by ``method``]."""

    pot: str
    day: int
    on: date
    ph: float
    method: PhMethod
    repeats: int = 1


class Trouble(StrEnum):
    """What can be wrong with readings."""

    UNREADABLE = "unreadable"
    UNKNOWN_POT = "unknown-pot"
    NO_LABEL = "no-label"
    TWICE = "twice"
    NO_DAY = "no-day"
    DATE_FILLED = "date-filled"
    FAR_FROM_DAY = "far-from-day"
    TWO_METHODS = "two-methods"
    MISSING = "missing"
    ALL_EQUAL = "all-equal"
    ONE_POT = "one-pot"
    NO_POT = "no-pot"
    APART = "apart"
    EXCHANGED = "exchanged"
    NO_ERROR = "no-error"
    OTHER_FORECAST = "other-forecast"


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing found in the readings, in words; ``refuses`` where something is not answered."""

    kind: Trouble
    said: Message
    refuses: bool = False


class Shown(StrEnum):
    """What an interval says of a difference."""

    DIFFERS = "differs"
    EQUAL = "equal"
    """It lies within what does not matter."""
    DIFFERS_LITTLE = "differs-little"
    """It is shown, and shown to be too small to matter."""
    OPEN = "open"


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """A treatment less the control [pH], with an interval that holds for all on that day.

    ``mean`` and ``n`` are those of the treatment. ``expected`` is the forecast of the change.
    """

    treatment: str
    mean: float
    n: int
    estimate: float
    low: float
    high: float
    p: float
    shown: Shown
    expected: float | None = None
    expected_low: float | None = None
    expected_high: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DayResult:
    """What one day shows; ``rows`` is empty where it could not be answered."""

    day: int
    on: date
    method: PhMethod
    control_mean: float | None
    sd: float | None
    df: int | None
    rows: tuple[Difference, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Slope:
    """How the pH follows the dose on the last day [pH per 100 g/m2]."""

    day: int
    per_100: float
    low: float
    high: float
    bend_p: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FactorEffect:
    """The effect of one level against the first of its factor, or how two effects combine [pH]."""

    name: str
    estimate: float
    low: float
    high: float
    p: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialResult:
    """All that a trial shows.

    ``average`` and ``change`` compare treatments by the average of the days after the start and
    by the change from the first of them to the last; empty with fewer than two such days.
    """

    plan: TrialPlan
    prediction: Prediction | None
    readings: tuple[PotReading, ...]
    problems: tuple[Problem, ...]
    days: tuple[DayResult, ...]
    average: tuple[Difference, ...]
    change: tuple[Difference, ...]
    change_days: tuple[int, int] | None
    slope: Slope | None
    factors: tuple[FactorEffect, ...]
    predicted_well: tuple[int, int]
    """How many results lie within the forecast, and of how many."""
