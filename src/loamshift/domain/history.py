"""A bed's life so far: tests, what was put on, letters with the forecasts they held."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from loamshift.domain.answer import Forecast, SoilTemperature, Wanted
from loamshift.domain.ph import PhMethod


class Outcome(StrEnum):
    """What a later test said about a forecast."""

    INSIDE = "inside"
    ABOVE = "above"
    BELOW = "below"
    TOO_ROUGH = "too rough"
    """A probe, a strip or an unknown method can neither bear a forecast out nor refute it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TestRead:
    """A dated test as taken, and the pH in water it stands for: middle, error, nine in ten [pH]."""

    __test__ = False

    on: date
    ph: float
    method: PhMethod
    depth_cm: float | None
    ph_water: float
    ph_water_sd: float
    lo90: float
    hi90: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PutOn:
    """Something that was put on: its material's key and rate [g/m2]."""

    on: date
    material: str
    rate_g_m2: float
    as_given: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LetterSent:
    """A letter with the day of its advice and the forecast it held, as it was then.

    ``measured_sd`` is the error of a reading that its forecast holds, None where the letter no
    longer says [pH in water].
    """

    key: str
    title: str
    sent_on: date
    day: date
    decision: str
    forecast: Forecast | None
    measured_sd: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """A test held against the last forecast before it.

    Nine tests in ten by its method should read from low to high [pH in water].
    """

    test: TestRead
    letter: LetterSent
    low: float
    middle: float
    high: float
    outcome: Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """All of it in the order of time; ``today`` parts it from the forecast."""

    name: str
    today: date
    tests: tuple[TestRead, ...]
    put_on: tuple[PutOn, ...]
    letters: tuple[LetterSent, ...]
    scores: tuple[Score, ...]
    forecast: Forecast | None
    is_planned: bool
    wanted: Wanted | None
    soil_temperature: SoilTemperature | None
    undated: bool
    """True where the main reading has no date, so that it stands on no day."""
    counted: tuple[int, int] | None = None
    """How many tests were within their forecasts, and of how many, as the scores of the office
    count them; None where nobody counted [count]."""
