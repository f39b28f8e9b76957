"""A field: where it was sampled, what is believed of every spot, its zones and their rates.

Positions are metres east and north in a projected coordinate system; a grid counts its rows from
the south.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from loamshift.domain.answer import Caution
from loamshift.domain.decision import Band, Decision, Direction, Reason
from loamshift.domain.message import Message, Worded
from loamshift.domain.ph import PhMethod

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
BoolArray = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldSample:
    """One sample: its row or name, place [m], pH by its method, and what else was measured [%]."""

    name: str
    x_m: float
    y_m: float
    ph: float
    method: PhMethod
    clay_pct: float | None = None
    organic_matter_pct: float | None = None
    taken: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldZoneEntry:
    """A zone somebody drew: its name, its cells, and its own test where it has one."""

    name: str
    cells: BoolArray
    area_m2: float
    sample: FieldSample | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldGrid:
    """Square cells over a field: south-west corner and side [m], and which lie inside (R, C)."""

    x_m: float
    y_m: float
    cell_m: float
    inside: BoolArray

    @property
    def cell_area_m2(self) -> float:
        """Area of one cell [m2]."""
        return self.cell_m**2

    def middles(self) -> tuple[FloatArray, FloatArray]:
        """East and north of the middle of every cell inside, row by row [m]."""
        rows, columns = (place.astype(np.float64) for place in np.nonzero(self.inside))
        return (
            self.x_m + (columns + 0.5) * self.cell_m,
            self.y_m + (rows + 0.5) * self.cell_m,
        )

    def holds(self, cells: BoolArray, sample: FieldSample) -> bool:
        """Whether a sample lies in one of some cells (R, C)."""
        row = int((sample.y_m - self.y_m) // self.cell_m)
        column = int((sample.x_m - self.x_m) // self.cell_m)
        rows, columns = cells.shape
        return 0 <= row < rows and 0 <= column < columns and bool(cells[row, column])


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldInput:
    """What was read of a field.

    ``rings`` of its boundary, each a closed line of places [m]; ``area_m2`` within it; ``crs`` as
    an authority's code, such as EPSG:32630; ``notes`` on what was taken for what.
    """

    name: str
    samples: tuple[FieldSample, ...]
    grid: FieldGrid
    rings: tuple[tuple[tuple[float, float], ...], ...]
    area_m2: float
    crs: str
    zones: tuple[FieldZoneEntry, ...] = ()
    notes: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """How well a map told samples that it had not seen, against their mean.

    ``skill_frac`` share of their variance that it told [1]; ``error_ph`` and ``error_of_mean_ph``
    root mean square errors [pH]; ``held_frac`` of them within the stated nine-in-ten ranges [0-1];
    ``range_m`` over which samples are alike [m]; ``nugget_sd_ph`` how far two samples from one
    spot differ [pH].
    """

    samples: int
    folds: int
    skill_frac: float
    error_ph: float
    error_of_mean_ph: float
    held_frac: float
    range_m: float
    nugget_sd_ph: float


class NoMap(StrEnum):
    """Why no map was drawn."""

    FEW = "few"
    """Too few samples to tell a pattern from chance."""
    NO_PATTERN = "no-pattern"
    """Left-out samples were told no better than by the mean."""
    ALIKE = "alike"
    """All samples agree within the error of one."""
    DRAWN_ZONES = "drawn-zones"
    """The file holds zones, each with its own test."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldZone:
    """A zone and its advice.

    ``ph`` in water: mean, and how far its spots lie from it [pH]; ``rate_g_m2`` of ``material``
    that goes on now, 0 for none; ``later_g_m2`` what the next test will most likely call for;
    ``need_g_m2`` of pure lime or sulfur, None where nothing is needed; ``share_in_range`` of such
    ground with this plan, 0-1, None without one.
    """

    letter: str
    name: str
    area_m2: float
    parts: int
    ph_water: float
    ph_sd: float
    clay_pct: float | None
    organic_matter_pct: float | None
    decision: Decision
    reason: Reason
    direction: Direction
    material: str | None
    rate_g_m2: float
    later_g_m2: float
    need_g_m2: Band | None
    share_in_range: float | None
    because: Worded
    cautions: tuple[Caution, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOfDosing:
    """What one way of dosing puts on and where it leaves the field.

    Product of this season and with what most likely follows [g]; shares of the field below, in
    and above the range on the day wanted [0-1]; ``cost`` in the currency of the price, None
    without one.
    """

    now_g: float
    in_all_g: float
    below: float
    within: float
    above: float
    cost_now: float | None
    cost_in_all: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class MoreSamples:
    """What further samples would bring: how many, share of the field in range then [0-1]."""

    count: int
    within: float
    cost: float | None
    gain: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldMap:
    """A field judged zone by zone.

    ``ph_water``, ``ph_sd``, by cell inside, and ``zone_of`` its place in ``zones``, empty where no
    map was drawn; ``tried`` how the map did; ``no_map`` why there is none; ``by_zones``,
    ``by_mean`` and ``left_alone`` ways of dosing on ``on``; ``more`` with the places of the first
    further samples [m] in ``where``.
    """

    field: FieldInput
    today: date
    on: date
    ph_low: float
    ph_high: float
    ph_aim: float
    plants: tuple[str, ...]
    material: str | None
    zones: tuple[FieldZone, ...]
    zone_of: IntArray
    ph_water: FloatArray
    ph_sd: FloatArray
    mean_ph: float
    spread_ph: float
    tried: Tried | None
    no_map: NoMap | None
    by_zones: WayOfDosing
    by_mean: WayOfDosing
    left_alone: WayOfDosing
    currency: str | None
    acidifies_m2: float
    more: tuple[MoreSamples, ...] = ()
    worth_taking: int = 0
    where: tuple[tuple[float, float], ...] = ()
    notes: tuple[Message, ...] = ()
