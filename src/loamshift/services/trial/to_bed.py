"""What a trial says of the bed it belongs to: readings of its untreated pots, plots or strips."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Any

from loamshift.domain.case import BedKind
from loamshift.domain.trial_result import PotReading, TrialResult


class Held(StrEnum):
    """Why nothing, or not everything, is a reading of the bed."""

    NOT_OF_BED = "not-of-bed"
    """Another soil, or a mix."""
    NO_CONTROL = "no-control"
    WHOLE_BEDS = "whole-beds"
    """The untreated ones are beds of their own."""
    POTS_LATER = "pots-later"
    """Soil in pots is the bed's on the day it was dug, and goes its own way after it."""
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class ForBed:
    """One reading of the bed: the mean of ``n`` untreated places on a day [pH by its method]."""

    on: date
    ph: float
    n: int
    entry: dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """Readings for the bed, and why there are no more."""

    rows: tuple[ForBed, ...]
    held: Held


def readings_for_bed(result: TrialResult) -> Said:
    """The readings of a trial that are readings of its bed.

    Untreated plots and strips are the bed, on every day. Untreated pots are the bed's soil on the
    day they were filled; later they have a weather and a water of their own. What was treated is
    not the bed: in the bed nothing was put on. Means are of pH as read.
    """
    trial = result.plan.trial
    if not trial.of_bed:
        return Said(rows=(), held=Held.NOT_OF_BED)
    if not trial.has_control or trial.treatments[0].adds:
        return Said(rows=(), held=Held.NO_CONTROL)
    if trial.design.is_of_beds:
        return Said(rows=(), held=Held.WHOLE_BEDS)
    in_pots = trial.case.bed.kind is BedKind.CONTAINER
    bare = {place.label for place in result.plan.places if place.treatment == 0}
    by_day: dict[int, list[PotReading]] = {}
    for one in result.readings:
        if one.pot in bare and not (in_pots and one.day > 0):
            by_day.setdefault(one.day, []).append(one)
    rows = tuple(_row(readings, trial.case.bed.depth_cm) for _, readings in sorted(by_day.items()))
    return Said(rows=rows, held=Held.POTS_LATER if in_pots else Held.NONE)


def _row(readings: Sequence[PotReading], depth_cm: float | None) -> ForBed:
    on = Counter(one.on for one in readings).most_common(1)[0][0]
    ph = round(sum(one.ph for one in readings) / len(readings), 2)
    entry: dict[str, Any] = {
        "date": on.isoformat(),
        "ph": ph,
        "ph_method": readings[0].method.value,
    }
    if depth_cm is not None:
        entry["depth"] = f"{depth_cm:g} cm"
    return ForBed(on=on, ph=ph, n=len(readings), entry=entry)
