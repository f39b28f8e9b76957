"""The answer: every key of the public JSON, in order, with its unit.

``loamshift.case.answer`` writes it; field names here are the keys there. All keys are always
present; ``None`` or an empty tuple says that there is nothing to say.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from loamshift.domain.decision import Band as Band
from loamshift.domain.decision import Decision as Decision
from loamshift.domain.decision import Direction as Direction
from loamshift.domain.decision import Reason as Reason
from loamshift.domain.decision import Severity as Severity
from loamshift.domain.message import Worded as Worded
from loamshift.domain.plan import AcidScale as AcidScale
from loamshift.domain.plan import Branch as Branch
from loamshift.domain.plan import PlanPart as PlanPart
from loamshift.domain.plan import PlanRule as PlanRule
from loamshift.domain.plan import Refit as Refit
from loamshift.domain.plan import TestLine as TestLine
from loamshift.domain.plan import Then as Then
from loamshift.domain.pot import PotOrGround as PotOrGround
from loamshift.domain.rescue import RescueCourse as RescueCourse
from loamshift.domain.rescue import RescueStage as RescueStage
from loamshift.domain.subsoil import RootsBelow as RootsBelow
from loamshift.domain.subsoil import Subsoil as Subsoil
from loamshift.domain.worth import Worth as Worth

WIDTH_CHECK = "width of the forecast"
"""Name of the finding that says where the width of a forecast comes from."""
DRIFT_YEARS = 3
"""Over so many years the drift of a bed is told, fewer where a forecast is shorter [years]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeBy:
    """What made the answer."""

    version: str
    model: str
    tables: str
    seed: int | None = None
    members: int | None = None
    years: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """The decision, the sentence with the number that decided, and what would change it.

    ``reason`` is the code it was made from, ``ph_now`` where the bed stands today by all that was
    read and has gone on since [pH in water]; an answer kept by an older version has neither.
    """

    decision: Decision
    because: Worded
    would_change_if: Worded
    reason: Reason | None = None
    ph_now: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One check: value against limit, passed or not, in words."""

    check: str
    value: float | str | None
    operator: str
    limit: float | str | None
    unit: str
    passed: bool
    severity: Severity
    comment: Worded
    source_key: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """A field nobody filled in that matters: its case-file path, why, and how to get it."""

    field: str
    why: Worded
    how: Worded


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """The range the bed should come to, and the point aimed at [pH in water].

    ``names`` of the plants whose printed ranges it is; empty where the range is that of a
    target pH.
    """

    ph_low: float
    ph_high: float
    ph_aim: float
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedSpread:
    """What printed tables say for the same soil and step [g/m2]."""

    n_sources: int
    low: float
    high: float


class DoseLimit(StrEnum):
    """What keeps the amount by the forecast below what the aim would take."""

    NONE = "none"
    """Nothing: the median is at the aim by the date."""
    RISK = "risk"
    """More would take too many possible beds past the far end of the range."""
    CAPS = "caps"
    """The printed limits allow no more."""
    DATE = "date"
    """It would get there, but only after the date."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DoseByForecast:
    """The least amount that has the median of the forecast at the aim by a date, with its risk.

    Sulfur as S, lime as CaCO3 that works; one of the two is None [g/m2]. ``share_in_range`` of
    the possible beds on the date, ``share_past_limit`` past the far end of the range at any time
    [0-1]; ``median_in_range_on`` the first day the median is in the range, or None;
    ``because`` why it is more or less than by the curve alone, in sentences.
    """

    sulfur_as_s_g_m2: float | None
    lime_as_caco3_g_m2: float | None
    by: date
    limited_by: DoseLimit
    share_in_range: float
    share_past_limit: float
    median_ph_by: float
    median_in_range_on: date | None
    because: tuple[Worded, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose:
    """How much acid or lime, from the curve and the free carbonate alone.

    ``by_forecast`` is None where no forecast was made.
    """

    direction: Direction
    provisional: bool
    acid_mmolc_kg: Band | None
    sulfur_as_s_g_m2: Band | None
    lime_as_caco3_g_m2: Band | None
    carbonate_share: float | None
    published_g_m2: PublishedSpread | None
    by_forecast: DoseByForecast | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Application:
    """One dated part of the plan. ``only_if`` is a condition in words, or None."""

    date: date
    material: str
    rate_g_m2: float
    amount_g: float | None
    incorporate_cm: float
    only_if: Worded | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One way to bring the same acid or lime, with its cost, speed and side effects."""

    material: str
    rate_g_m2: float
    amount_g: float | None
    cost: float | None
    currency: str | None
    cost_per_mol_acid: float | None
    cost_per_kg_caco3_eq: float | None
    weeks_to_half: float | None
    ec_rise_ds_m: float | None
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LedgerLine:
    """One line of the yearly acid ledger; acid positive [mmolc/m2/yr]."""

    name: Worded
    value: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledger:
    """What pushes the pH each year; positive acidifies."""

    lines: tuple[LedgerLine, ...]
    net: float
    unit: str = "mmolc_m2_year"


@dataclass(frozen=True, slots=True, kw_only=True)
class ClaimResult:
    """A claim settled: acid brought against acid needed, and what the pH would do."""

    material: str
    acid_brought_mmolc_m2: float
    acid_needed_mmolc_m2: float
    share: float | None
    ph_change_now: float | None
    ph_change_1_year: float | None
    comment: Worded


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedLine:
    """One feed of the upkeep plan: nitrogen [g N/m2/yr] and product [g/m2/yr]."""

    material: str
    n_g_m2_year: float
    rate_g_m2_year: float
    acid_mmolc_m2_year: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Upkeep:
    """How to hold the pH: the drift left to itself, and feed and sulfur or lime that balance it.

    ``drift_ph_year`` of the bed left as it is, by its forecast; ``drift_held_ph_year`` where a
    plan has taken it, None where none does [pH/yr, negative falls];
    ``net_with_feed_mmolc_m2_year`` after the feed named; ``sulfur_as_s_g_m2_year`` or
    ``lime_as_caco3_g_m2_year`` closes the rest.
    """

    drift_ph_year: float
    nitrogen_needed_g_m2_year: float | None
    feed: tuple[FeedLine, ...]
    net_with_feed_mmolc_m2_year: float
    sulfur_as_s_g_m2_year: float
    lime_as_caco3_g_m2_year: float
    years_water_undoes_dose: float | None
    comment: Worded
    drift_held_ph_year: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rescue:
    """What to do about a bed that has had too much, in order, and what not to do.

    ``course`` how it comes back over time, None where nothing would go on or no pH was read.
    """

    problem: Worded
    ph_expected: Band | None
    steps: tuple[Worded, ...]
    never: tuple[Worded, ...]
    lime_as_caco3_g_m2: Band | None
    course: RescueCourse | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A caution by its code: in full, and in a sentence or two for the front sheet.

    ``handling`` where it is a hazard of something that this advice has somebody apply, take up or
    treat; the others speak of the bed, of what is merely compared, or explain.
    """

    code: str
    text: Worded
    source_key: str | None
    short: Worded = ""
    handling: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceLine:
    """One source used in this answer."""

    key: str
    citation: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ForecastPh:
    """Quantiles of forecast pH in water at the dates."""

    q05: tuple[float, ...]
    q25: tuple[float, ...]
    q50: tuple[float, ...]
    q75: tuple[float, ...]
    q95: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DoNothing:
    """The control run."""

    q50: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class WidthShare:
    """One cause of the width of a forecast and its share [0-1]."""

    cause: Worded
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast:
    """The course of the pH [pH in water, as the sampling depth reads].

    ``width`` says what the width comes from after a year, or at the end of a shorter forecast.
    """

    dates: tuple[date, ...]
    ph: ForecastPh
    do_nothing: DoNothing
    width: tuple[WidthShare, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilTemperature:
    """Soil temperature of an average year, weekly from today [degC].

    ``depth_cm`` is the middle of the treated depth, where it holds [cm]; ``weather`` says which
    weather it rests on, as all that depends on rain and warmth does.
    """

    depth_cm: float
    dates: tuple[date, ...]
    c: tuple[float, ...]
    weather: tuple[Worded, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The whole answer to one case."""

    name: str
    today: date
    made_by: MadeBy
    verdict: Verdict
    findings: tuple[Finding, ...]
    missing: tuple[Missing, ...]
    worth: Worth | None = None
    wanted: Wanted | None = None
    dose: Dose
    plan: PlanRule | None = None
    branches: tuple[Branch, ...] = ()
    applications: tuple[Application, ...]
    options: tuple[Option, ...]
    too_early_before: date | None
    retest: tuple[date, ...]
    forecast: Forecast | None
    soil_temperature: SoilTemperature | None = None
    subsoil: Subsoil | None = None
    pot_or_ground: PotOrGround | None = None
    refit: Refit | None
    rescue: Rescue | None
    upkeep: Upkeep | None
    ledger: Ledger | None
    claims: tuple[ClaimResult, ...]
    cautions: tuple[Caution, ...]
    sources: tuple[SourceLine, ...]
    balance_error: float | None
    answer: int = field(default=1)
