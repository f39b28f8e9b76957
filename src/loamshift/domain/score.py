"""Forecasts that were issued, held against what was read afterwards."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from loamshift.domain.answer import ForecastPh
from loamshift.domain.ph import PhMethod


class IssuedAs(StrEnum):
    """What a forecast was issued with."""

    LETTER = "letter"
    PLAN = "plan"
    """A plan that was saved without a letter."""
    TRIAL = "trial"
    """Kept with a trial before its first reading."""
    HINDCAST = "hindcast"
    """Worked out afterwards, from nothing but what was known before the reading."""


class LeftOut(StrEnum):
    """Why a reading says nothing about the forecast before it."""

    ROUGH = "rough"
    """A probe, a strip or an unknown method."""
    OTHERWISE = "otherwise"
    """What the plan had by then was not put on, or something else was."""
    AGAIN = "again"
    """An earlier reading has scored this forecast already."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedPart:
    """A part of the plan that a forecast takes as done: its day and rate [g/m2]."""

    on: date
    rate_g_m2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BedFacts:
    """What was known of a bed when a forecast was issued, none of it closer than a region.

    ``region`` is a country, or ten degrees of latitude where none is named; ``None`` where nobody
    said.
    """

    region: str | None = None
    bed_kind: str | None = None
    medium: str | None = None
    planted: str | None = None
    texture: str | None = None
    organic_matter_pct: float | None = None
    fizz: str | None = None
    carbonate_pct: float | None = None
    depth_cm: float | None = None
    water_alkalinity_mg_l_as_caco3: float | None = None
    decision: str | None = None
    model: str | None = None
    tables: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class IssuedForecast:
    """A forecast as it was issued on a day: quantiles of what a test would read [pH in water].

    ``measured_ph`` is what the bed had last read by then and ``measured_sd`` the error of such a
    reading, which the quantiles hold too [pH in water]; None where nobody had read it. ``parts`` of
    the plan are taken as done; ``known_g_m2`` was put on that very day before it was issued.
    """

    key: str
    title: str
    issued_as: IssuedAs
    on: date
    dates: tuple[date, ...]
    ph: ForecastPh
    measured_ph: float | None
    measured_sd: float | None
    parts: tuple[PlannedPart, ...] = ()
    known_g_m2: float = 0.0
    facts: BedFacts = BedFacts()


@dataclass(frozen=True, slots=True, kw_only=True)
class ScoredReading:
    """A dated reading as taken, and the pH in water it stands for with its error [pH]."""

    on: date
    ph: float
    method: PhMethod
    ph_water: float
    ph_water_sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ScoredPair:
    """A reading held against the forecast issued last before it.

    ``quantiles`` of the forecast for the day are those at 5, 25, 50, 75 and 95 in 100;
    ``low`` to ``high`` should hold nine such readings in ten and ``low50`` to ``high50`` half of
    them, the error of the reading counted in; ``error`` is the reading less the middle; ``crps``
    what the forecast missed by and ``crps_stays`` what "stays as measured" missed by, None where
    nothing was measured [pH in water]. ``share_below`` of the forecast lies below the reading
    [0-1]. ``bed`` names the bed for its own office.
    """

    bed: str
    bed_key: str
    issued: IssuedForecast
    read: ScoredReading
    quantiles: tuple[float, ...]
    low: float
    low50: float
    middle: float
    high50: float
    high: float
    error: float
    share_below: float
    crps: float
    crps_stays: float | None
    left_out: LeftOut | None = None

    @property
    def is_inside_50(self) -> bool:
        """True where the reading is in the middle half of the forecast."""
        return abs(self.share_below - 0.5) <= 0.25

    @property
    def is_inside_90(self) -> bool:
        """True where it is in the range for nine in ten."""
        return abs(self.share_below - 0.5) <= 0.45

    @property
    def lead_days(self) -> int:
        """Days from the forecast to the reading [d]."""
        return (self.read.on - self.issued.on).days


class Shown(StrEnum):
    """What the pairs show so far."""

    NOTHING = "nothing"
    """There is none yet."""
    FEW = "few"
    """Too few to prove anything."""
    AGREES = "agrees"
    """Nine in ten agrees with what was read."""
    NARROW = "narrow"
    """Too few readings were inside: the ranges are too narrow, or too high or low."""
    WIDE = "wide"
    """Too many were inside: the ranges are too wide."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibration:
    """Of all forecasts, the share whose middle range of a stated width held the reading [0-1].

    ``low`` to ``high`` is what chance alone would give nine times in ten, were the width right.
    """

    stated: float
    inside: int
    share: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ScoreSummary:
    """How good some forecasts were.

    ``count`` readings are counted, of so many beds; ``rough``, ``otherwise`` and ``again`` are left
    out for that reason [count]. ``mean_error`` of reading less forecast, ``mean_off`` its size
    whatever the side, ``crps`` of ours over all of them [pH]. ``skill`` against "stays as
    measured" over the ``compared`` readings of beds that had been measured [1].
    ``share_90`` is the interval that the true share inside the range for nine in ten lies in [0-1].
    """

    count: int
    beds: int
    rough: int
    otherwise: int
    again: int
    hindcast: int
    shown: Shown
    inside_50: int
    inside_90: int
    share_90: tuple[float, float] | None
    mean_error: float | None
    mean_off: float | None
    crps: float | None
    compared: int
    crps_compared: float | None
    crps_stays: float | None
    skill: float | None
    calibration: tuple[Calibration, ...]
