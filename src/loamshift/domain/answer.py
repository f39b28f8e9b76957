"""The answer: every key of the public JSON, in order, with its unit.

``loamshift.case.answer`` writes it; field names here are the keys there. All keys are always
present; ``None`` or an empty tuple says that there is nothing to say.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

WIDTH_CHECK = "width of the forecast"
"""Name of the finding that says where the width of a forecast comes from."""


class Decision(StrEnum):
    """What the adviser is told to do, the first that holds in this order of cases."""

    STOP = "stop"
    LEAVE = "leave"
    MEASURE_FIRST = "measure-first"
    ELSEWHERE = "elsewhere"
    EFFORT = "effort"
    GO = "go"


class Severity(StrEnum):
    """How grave a finding is."""

    INFO = "info"
    CAUTION = "caution"
    BLOCK = "block"


class Direction(StrEnum):
    """Which way the dose moves the pH."""

    ACIDIFY = "acidify"
    LIME = "lime"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeBy:
    """What made the answer."""

    version: str
    model: str
    tables: str
    seed: int | None = None
    members: int | None = None
    years: int | None = None


class Reason(StrEnum):
    """Why the decision is what it is: every sentence about it is made from this code."""

    NO_PH = "no-ph"
    NO_AIM = "no-aim"
    OVERDOSE = "overdose"
    """What lies there is more than the ground may carry, or brings the bed to harm."""
    TOO_ACID = "too-acid"
    SALT = "salt"
    SODIC = "sodic"
    WATERLOGGED = "waterlogged"
    NO_COMMON_RANGE = "no-common-range"
    IN_RANGE = "in-range"
    """Left alone, the bed stays in the range."""
    AT_WORK = "at-work"
    """What was put on earlier brings the bed into the range by itself."""
    SMALL_GAIN = "small-gain"
    """Nearer to the range than a second test could show."""
    UNKNOWN_LIME = "unknown-lime"
    DOUBTFUL_READING = "doubtful-reading"
    UNKNOWN_WATER = "unknown-water"
    UNKNOWN_TEXTURE = "unknown-texture"
    ONE_SOURCE_RANGE = "one-source-range"
    FREE_LIME = "free-lime"
    CAPS = "caps"
    """The printed limits of the seasons at hand do not reach so far."""
    WATER = "water"
    """The soil is not the question: the water brings back whatever is done to it."""
    UPKEEP = "upkeep"
    """In the range now, and pulled out of it unless something is given from time to time."""
    PARTS = "parts"
    """More parts than usual under the limit of one dose."""
    MONTHS = "months"
    """Longer than a year from the first part."""
    WITHIN_REACH = "within-reach"


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """The decision, the sentence with the number that decided, and what would change it.

    ``reason`` is the code it was made from; an answer kept by an older version has none.
    """

    decision: Decision
    because: str
    would_change_if: str
    reason: Reason | None = None


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
    comment: str
    source_key: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """A field nobody filled in that matters: its case-file path, why, and how to get it."""

    field: str
    why: str
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A likely range: nine in ten lie between ``lo90`` and ``hi90``; ``mid`` is the median."""

    lo90: float
    mid: float
    hi90: float


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
    because: tuple[str, ...]


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
    only_if: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPart:
    """One dated part of the plan that goes on whatever a test reads [g/m2, g]."""

    date: date
    material: str
    rate_g_m2: float
    amount_g: float | None


class Then(StrEnum):
    """What a reading calls for."""

    PART = "part"
    """The amount of the line goes on."""
    TEST_AGAIN = "test-again"
    """Nothing now; what lies there still works, so test again next year."""
    DONE = "done"
    """Nothing more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TestLine:
    """One line of what a test decides: readings from ``reads_from`` up to ``reads_to``.

    Both ends are included and printed to a tenth; None is an open end [pH in water]. ``test`` the
    day of the test; ``part_g_m2`` of product that goes on then, 0 for nothing [g/m2]; ``part_on``
    the day it goes on, None for nothing.
    """

    __test__ = False  # not a case for the test runner

    test: date
    reads_from: float | None
    reads_to: float | None
    part_g_m2: float
    then: Then
    part_on: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRule:
    """The plan as a rule: what goes on first, and what the next test decides.

    Shares of beds that fit what is known [0-1], judged on beds not used to choose the plan:
    ``share_in_range`` in the range on ``on`` and a year later, with the tests of this plan (one
    each season, the rule fitted again after each); ``share_in_range_without_tests`` the best
    single amount; ``share_if_known`` if the soil were known exactly; ``share_harmed`` past the
    harmful limit of the plant because of the plan. ``median_ph`` of the beds on that day.
    """

    material: str
    parts: tuple[PlanPart, ...]
    decides: tuple[TestLine, ...]
    share_in_range: float
    share_in_range_without_tests: float
    share_if_known: float
    share_harmed: float
    median_ph: float
    on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Branch:
    """What the advice would be if an open question were settled one way.

    ``field`` the case-file path to settle; ``outcome`` what the test would show, a code such as
    ``no-lime``, ``some-lime``, ``much-lime``; ``probability`` of it [0-1]; ``decision`` then, and
    sulfur or lime it would take in the middle case, None where nothing goes on [g/m2].
    """

    field: str
    outcome: str
    probability: float
    decision: Decision
    sulfur_as_s_g_m2: float | None
    lime_as_caco3_g_m2: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class AcidScale:
    """How strongly the soil resists, against its texture's usual curve: before and now."""

    prior: Band
    now: Band


@dataclass(frozen=True, slots=True, kw_only=True)
class Refit:
    """What the readings taught about this bed.

    ``used`` false where the readings were set aside on demand; ``readings`` how many were
    weighed; ``effective_members`` of the possible beds that carry the weight; ``doubted``
    the readings that fit no bed, in words.
    """

    used: bool
    readings: int
    acid_scale: AcidScale
    effective_members: float
    doubted: tuple[str, ...]
    words: str


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

    name: str
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
    comment: str


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

    ``drift_ph_year`` [pH/yr, negative falls]; ``net_with_feed_mmolc_m2_year`` after the feed
    named; ``sulfur_as_s_g_m2_year`` or ``lime_as_caco3_g_m2_year`` closes the rest.
    """

    drift_ph_year: float
    nitrogen_needed_g_m2_year: float | None
    feed: tuple[FeedLine, ...]
    net_with_feed_mmolc_m2_year: float
    sulfur_as_s_g_m2_year: float
    lime_as_caco3_g_m2_year: float
    years_water_undoes_dose: float | None
    comment: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Rescue:
    """What to do about a bed that has had too much, in order, and what not to do."""

    problem: str
    ph_expected: Band | None
    steps: tuple[str, ...]
    never: tuple[str, ...]
    lime_as_caco3_g_m2: Band | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A printed caution by its code."""

    code: str
    text: str
    source_key: str | None


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

    cause: str
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

    ``depth_cm`` is the middle of the treated depth, where it holds [cm].
    """

    depth_cm: float
    dates: tuple[date, ...]
    c: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The whole answer to one case."""

    name: str
    today: date
    made_by: MadeBy
    verdict: Verdict
    findings: tuple[Finding, ...]
    missing: tuple[Missing, ...]
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
    refit: Refit | None
    rescue: Rescue | None
    upkeep: Upkeep | None
    ledger: Ledger | None
    claims: tuple[ClaimResult, ...]
    cautions: tuple[Caution, ...]
    sources: tuple[SourceLine, ...]
    balance_error: float | None
    answer: int = field(default=1)
