"""A trial as planned: its question, treatments, layout and days, and what is expected of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from loamshift.domain.answer import Caution
from loamshift.domain.case import BedKind, Case, ClaimEntry
from loamshift.domain.ph import PhMethod


class Design(StrEnum):
    """How treatments are shared out. The word in the trial file is the value."""

    RANDOMISED = "randomised"
    """Any pot anywhere."""
    BLOCKS = "blocks"
    """Each block holds every treatment once."""
    PAIRED = "paired"
    """Blocks of two: one treatment beside the control."""
    TWO_FACTOR = "two-factor"
    """Every level of one thing with every level of another."""
    DOSES = "dose series"
    """One material in rising doses."""
    STRIPS = "strips"
    """Blocks of strips side by side in a field."""
    SIDE_BY_SIDE = "side by side"
    """Whole beds of one garden, or zones of one field."""
    BEFORE_AFTER = "before and after"
    """Whole beds, read before the start and after it, some of them treated."""

    @property
    def always_in_blocks(self) -> bool:
        """True where the design is made of blocks."""
        return self in (Design.BLOCKS, Design.PAIRED, Design.STRIPS)

    @property
    def is_of_beds(self) -> bool:
        """True where a treatment is given to a whole bed."""
        return self in (Design.SIDE_BY_SIDE, Design.BEFORE_AFTER)


@dataclass(frozen=True, slots=True, kw_only=True)
class Treatment:
    """One treatment: its name and what goes on; nothing for an untreated one.

    ``levels`` are its levels of the two factors, empty in other designs.
    """

    name: str
    adds: tuple[ClaimEntry, ...] = ()
    levels: tuple[str, ...] = ()

    @property
    def rate_g_m2(self) -> float:
        """What goes on, all together [g/m2]."""
        return sum(entry.rate_g_m2 for entry in self.adds)


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """A trial as its file has it; the control is the first of ``treatments`` if there is one.

    ``case`` is one pot, plot or strip as a bed, on the day it starts. ``slurry_ph`` are repeated
    readings of one soil each, from which the error is taken [pH]; ``sd_ph`` says it outright.
    ``matters_ph`` is the difference below which two count as equal [pH]. ``by_lot`` is false where
    somebody else had decided what is treated; places then stand in the order of the treatments.
    ``of_bed`` says that the soil is that of the bed it belongs to, as it is, and no mix.
    """

    name: str
    question: str
    design: Design
    start: date
    treatments: tuple[Treatment, ...]
    has_control: bool
    replicates: int
    in_blocks: bool
    by_lot: bool
    seed: int
    days: tuple[int, ...]
    ph_method: PhMethod
    matters_ph: float
    sd_ph: float | None
    slurry_ph: tuple[tuple[float, ...], ...]
    factors: tuple[str, ...]
    blind: bool
    per_row: int
    of_bed: bool
    case: Case

    @property
    def n_treatments(self) -> int:
        """How many treatments, the control among them."""
        return len(self.treatments)

    @property
    def unit(self) -> str:
        """What a treatment is given to: pot, strip, bed or plot."""
        if self.design.is_of_beds:
            return "bed"
        if self.case.bed.kind is BedKind.CONTAINER:
            return "pot"
        return "strip" if self.design is Design.STRIPS else "plot"

    def due(self, day: int) -> date:
        """The date of a day of the trial [d]."""
        return self.start + timedelta(days=day)


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A pot, plot or strip: its label, row and column on the map, block and treatment, from 1.

    ``treatment`` counts from 0, as in the trial.
    """

    label: str
    row: int
    column: int
    block: int | None
    treatment: int


class Lack(StrEnum):
    """What makes a trial a demonstration."""

    CONTROL = "no-control"
    REPLICATES = "no-replicates"


@dataclass(frozen=True, slots=True, kw_only=True)
class Error:
    """How much pots of one treatment differ [pH], from how many degrees of freedom, and whence.

    ``basis`` is ``own`` (said outright), ``slurry`` (own repeated readings), ``pots`` or ``field``
    (our default).
    """

    sd_ph: float
    df: int | None
    basis: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialPlan:
    """What a trial will be: places, grams a place, what it can show, what to take care of.

    ``grams`` (treatments, adds) for one place; None where its area is not known [g].
    ``smallest_ph`` is the smallest difference it is likely to show, None for a demonstration;
    ``by_replicates`` the same for other numbers of replicates [pH].
    """

    trial: Trial
    places: tuple[Place, ...]
    grams: tuple[tuple[float | None, ...], ...]
    lacks: tuple[Lack, ...]
    error: Error
    power: float
    level: float
    smallest_ph: float | None
    by_replicates: tuple[tuple[int, float], ...]
    cautions: tuple[Caution, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """What the forecast says of one treatment on one day: the reading and the difference.

    ``ph``, ``change`` are medians; ``low``, ``high`` hold nine in ten [pH in water].
    """

    treatment: str
    day: int
    ph: float
    ph_low: float
    ph_high: float
    change: float
    change_low: float
    change_high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Prediction:
    """The forecast of a trial, kept before its readings, with the digest of what it was made for.

    ``days_advised`` are days worth reading by the forecast.
    """

    digest: str
    made_on: date
    version: str
    seed: int
    rows: tuple[Expected, ...]
    days_advised: tuple[int, ...]

    def of(self, treatment: str, day: int) -> Expected | None:
        """What was said of a treatment on a day, if anything."""
        return next((r for r in self.rows if r.treatment == treatment and r.day == day), None)
