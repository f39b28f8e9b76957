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
    NO_BEFORE = "no-before"
    LOT_DISAGREES = "lot-disagrees"


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
class Lot:
    """What dealing the pots out again says: of ``ways``, ``as_large`` differ as much [count].

    ``ways`` are all there are where ``is_exact``, else drawn ones. ``p`` is the chance of it, did
    the treatment do nothing, and ``can_reach`` the smallest that so many pots could show [0-1].
    """

    ways: int
    as_large: int
    is_exact: bool
    p: float
    can_reach: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """A treatment less the control [pH], with an interval that holds for all on that day.

    ``mean`` and ``n`` are those of the treatment. ``expected`` is the forecast of the change.
    ``lot`` is None where nothing was dealt by lot.
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
    lot: Lot | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BareChange:
    """How much more the beds of a treatment changed than untreated ones, without an interval [pH].

    ``n`` and ``n_control`` beds [count].
    """

    treatment: str
    change: float
    n: int
    n_control: int


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
    ``bare`` are changes since before the start where too few beds allow no interval.
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
    bare: tuple[BareChange, ...]
    predicted_well: tuple[int, int]
    """How many results lie within the forecast, and of how many."""
