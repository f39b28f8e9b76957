"""What differs between two answers: what was told, what worked them out, and what followed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from loamshift.domain.answer import Application, Band, Caution, Decision, PlanRule, Reason
from loamshift.domain.message import Worded

Plain = str | float | bool | None
"""A value of a case file as it stands there; quantities are texts with a unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class InputChange:
    """One key of the case file whose value differs; None where it was not given."""

    path: str
    old: Plain
    new: Plain


class Maker(StrEnum):
    """What works an answer out, besides the case."""

    VERSION = "version"
    MODEL = "model"
    TABLES = "tables"
    SEED = "seed"
    MEMBERS = "members"
    YEARS = "years"


@dataclass(frozen=True, slots=True, kw_only=True)
class MakerChange:
    """Something behind the answers that differs between them."""

    what: Maker
    old: str | int | None
    new: str | int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ForecastRow:
    """Both forecasts on one day: 5, 50 and 95 % [pH in water]."""

    day: date
    old: Band
    new: Band


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What one answer comes to, as far as two answers are compared.

    Answers kept by 0.1.0 have an amount by the forecast, later ones reason and plan.
    """

    decision: Decision
    because: Worded
    direction: str
    ph_aim: float | None
    sulfur_as_s_g_m2: Band | None
    lime_as_caco3_g_m2: Band | None
    by_forecast_g_m2: float | None
    """The amount by the forecast: sulfur as S, or lime as CaCO3 [g/m2]."""
    applications: tuple[Application, ...]
    too_early_before: date | None
    retest: tuple[date, ...]
    drift_ph_year: float | None
    ledger_net_mmolc_m2_year: float | None
    reason: Reason | None = None
    plan: PlanRule | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """Everything that differs between an older answer and a newer one.

    ``inputs`` is None where one of the two keeps no case. ``between`` is what the older case
    comes to with the tables and the model of the newer answer, where somebody worked it out.
    ``also`` names keys of the answer that differ and are not compared one by one.
    """

    name: str
    inputs: tuple[InputChange, ...] | None
    makers: tuple[MakerChange, ...]
    old: Outcome
    new: Outcome
    between: Outcome | None
    cautions_gained: tuple[Caution, ...]
    cautions_lost: tuple[Caution, ...]
    forecast: tuple[ForecastRow, ...]
    also: tuple[str, ...]

    @property
    def is_same(self) -> bool:
        """True where nothing at all differs."""
        return not (self.inputs or self.makers or self.moved)

    @property
    def moved(self) -> bool:
        """True where something in the answer differs, not just behind it."""
        return bool(
            self.old != self.new
            or self.cautions_gained
            or self.cautions_lost
            or self.also
            or any(row.old != row.new for row in self.forecast)
        )
