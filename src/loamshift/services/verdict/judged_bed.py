"""A bed with its possible beds left alone, and what a judgement asks of them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.ensemble import median_course, sample_median
from loamshift.domain.bed_context import BedContext, Target
from loamshift.services.belief.bed_run import BedRun, Runner
from loamshift.services.context.build_context import curve_slope_mmolc_kg_ph, require_soil
from loamshift.services.courses.drift import drift_ph_year
from loamshift.services.materials.feed import feed_acid_of
from loamshift.tables.model import verdict_values

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

ROUNDING: Final = 0.005
"""A gap of the limit counts as the limit: a median of drawn beds is no closer than this [pH]."""
HALF: Final = 0.5
"""A bed is left alone only where more than this share of what it may be stays near the range."""


@dataclass(frozen=True, slots=True)
class JudgedBed:
    """What every question below needs; ``median`` course of the bed left alone [pH]."""

    context: BedContext
    target: Target
    beds: Runner
    alone: BedRun
    quick: bool
    on: int
    hold: int
    median: FloatArray = field(init=False)
    _under_rain: list[FloatArray] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_under_rain", [])
        object.__setattr__(self, "median", median_course(self.alone.ph))

    def under_rain(self) -> FloatArray:
        """PH of the beds left alone and watered with rain, worked out once, shape (M, T) [pH]."""
        if not self._under_rain:
            self._under_rain.append(self.beds.with_rain_water().run(()).ph)
        return self._under_rain[0]


def gap_ph(ph: float, target: Target) -> float:
    """How far a pH lies above the range, or below it as a negative figure [pH].

    Parameters
    ----------
    ph
        The pH [pH in water].

    Returns
    -------
    float
        0 within the range [pH].
    """
    return max(ph - target.ph_high, 0.0) - max(target.ph_low - ph, 0.0)


def gaps_ph(ph: FloatArray, target: Target) -> FloatArray:
    """``gap_ph`` of a course.

    Parameters
    ----------
    ph
        The pH of each day, shape (T,) [pH in water].

    Returns
    -------
    ndarray
        Shape (T,) [pH].
    """
    return np.asarray(np.maximum(ph - target.ph_high, 0.0) - np.maximum(target.ph_low - ph, 0.0))


def share_in_range(case: JudgedBed, day: int = 0) -> float:
    """Share of the beds left alone that lie in the range on a day.

    Parameters
    ----------
    day
        Which of the days, 0 for today [index].

    Returns
    -------
    float
        Share [0-1].
    """
    ph = case.alone.ph[:, day]
    return float(np.mean((ph >= case.target.ph_low) & (ph <= case.target.ph_high)))


def share_staying(case: JudgedBed, beds: BoolArray | None = None) -> float:
    """Share of beds that, left alone, stay within a hair of the range until a year on.

    Parameters
    ----------
    beds
        Which of them count; None for all.

    Returns
    -------
    float
        Share [0-1].
    """
    gain = verdict_values()["leave_gain_ph"]
    ph = case.alone.ph[:, : case.hold + 1] if beds is None else case.alone.ph[beds, : case.hold + 1]
    low, high = case.target.ph_low - gain, case.target.ph_high + gain
    return float(np.mean(((ph >= low) & (ph <= high)).all(axis=1)))


def furthest_median_ph(case: JudgedBed) -> float:
    """The furthest the median of the bed left alone gets, the way earlier material takes it.

    Returns
    -------
    float
        PH in water [pH].
    """
    coming = case.context.pending_acid_mmolc_m2
    if coming > 0.0:
        return float(case.median.min())
    if coming < 0.0:
        return float(case.median.max())
    return float(case.median[case.on])


def coming_ph(case: JudgedBed) -> float:
    """How far what was put on before still moves the bed by the slope of its curve [pH].

    Returns
    -------
    float
        Negative where it falls [pH].
    """
    context, soil = case.context, require_soil(case.context)
    slope = curve_slope_mmolc_kg_ph(context, soil.ph.ph_water)
    capacity = 10.0**soil.k.log10_k_mean * slope * context.soil_mass_kg_m2
    return float(-context.pending_acid_mmolc_m2 / capacity)


def drift_alone_ph_year(case: JudgedBed) -> float:
    """How the median of the bed left alone moves in a year.

    Returns
    -------
    float
        Negative where it falls [pH/yr].
    """
    return drift_ph_year(case.beds.days, case.median.tolist())


def water_rise_ph(case: JudgedBed) -> float:
    """How much higher the bed left alone lies on the day wanted than under rain water [pH].

    Returns
    -------
    float
        0 without alkaline water [pH].
    """
    if case.context.water_base_mmolc_m2_year <= 0.0:
        return 0.0
    return float(case.median[case.on] - sample_median(case.under_rain()[:, case.on]))


def water_cost(case: JudgedBed) -> float:
    """Share of beds that the water takes past the top of the range until a year after the day.

    Returns
    -------
    float
        Of the beds left alone, beyond those that go there under rain water [0-1].
    """
    if case.context.water_base_mmolc_m2_year <= 0.0:
        return 0.0
    runs = case.alone.ph, case.under_rain()
    past, anyway = (ph[:, case.hold] > case.target.ph_high for ph in runs)
    return float(np.mean(past) - np.mean(anyway))


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedPull:
    """What the acid of the fertiliser does to a bed left alone.

    ``fall_ph`` how much lower its median lies on the day wanted than without it [pH]; ``is_most``
    true where it makes at least half of the way down.
    """

    fall_ph: float = 0.0
    is_most: bool = False


def feed_pull(case: JudgedBed) -> FeedPull:
    """What the acid of the fertiliser does to a bed left alone.

    Nothing where none is given, or one that makes no acid.
    """
    if feed_acid_of(case.context) <= 0.0:
        return FeedPull()
    unfed = case.beds.without_feed().run(())
    there = sample_median(unfed.ph[:, case.on])
    fall = there - float(case.median[case.on])
    return FeedPull(
        fall_ph=fall,
        is_most=fall >= HALF * float(case.median[0] - case.median[case.on]),
    )
