"""Invented beds by the thousand: soils, places and one dose of sulfur each, the same every time."""

from __future__ import annotations

from datetime import date
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.domain.answer import Application
from loamshift.services.many.forecast_beds import BedKind, ManyBeds
from loamshift.tables.places import load_places

TODAY: Final = date(2026, 4, 12)
DEPTH_CM: Final = 15.0
PLACES: Final = 40
SULFUR: Final = "elemental sulfur, powder"
_SEED: Final = 20261130


def table_of(
    first: int, last: int, *, lime: bool = False
) -> tuple[ManyBeds, list[tuple[Application, ...]]]:
    """Beds of a table by the numbers of their rows, with the plan of each.

    Row by row from its own number, so that any split of the table gives the same rows. With
    ``lime`` half of them may hold free lime, in soils more acid than it would keep them.
    """
    rows = np.arange(first, last)
    u = np.stack([_uniform(rows, column) for column in range(8)])
    clay, carbon = 5.0 + 40.0 * u[0], 0.6 + 3.4 * u[1]
    wilting = 0.04 + 0.004 * clay
    capacity = wilting + 0.10 + 0.02 * carbon + 0.05 * u[2]
    places = [place for _, place in sorted(load_places().items())][:PLACES]
    n = rows.size
    zeros = np.zeros(n)
    beds = ManyBeds(
        ph_water=6.2 + 1.6 * u[3],
        ph_water_sd=np.full(n, 0.15),
        clay_pct=clay,
        organic_carbon_pct=carbon,
        bulk_density_g_cm3=1.5 - 0.08 * carbon,
        field_capacity_frac=capacity,
        wilting_frac=wilting,
        log10_k_mean=zeros,
        log10_k_sd=np.full(n, 0.2),
        carbonate_zero_weight=np.where((u[4] < 0.5) | (not lime), 1.0, 0.5),
        carbonate_low_pct=np.full(n, 0.05),
        carbonate_high_pct=np.full(n, 1.0),
        carbonate_log_sd=zeros,
        depth_cm=np.full(n, DEPTH_CM),
        sample_depth_cm=np.full(n, DEPTH_CM),
        available_water_mm=(capacity - wilting) * 300.0,
        irrigation_mm_year=zeros,
        water_base_mmolc_m2_year=zeros,
        water_anions_mmolc_l=zeros,
        today=np.full(n, TODAY.toordinal()),
        read=np.full(n, TODAY.toordinal()),
        kinds=tuple(BedKind(place=place, land_use="garden") for place in places),
        kind_of=(u[5] * len(places)).astype(np.int64),
        feeds=[None] * n,
    )
    plans: list[tuple[Application, ...]] = [
        (
            Application(
                date=TODAY,
                material=SULFUR,
                rate_g_m2=float(rate),
                amount_g=None,
                incorporate_cm=DEPTH_CM,
                only_if=None,
            ),
        )
        for rate in 20.0 + 80.0 * u[6]
    ]
    return beds, plans


def _uniform(rows: NDArray[np.int64], column: int) -> NDArray[np.float64]:
    """A number of 0 to 1 for each row and column, by a counter-based mix of the two."""
    x = (rows.astype(np.uint64) * np.uint64(64) + np.uint64(column + _SEED)) * np.uint64(
        0x9E3779B97F4A7C15
    )
    x ^= x >> np.uint64(30)
    x *= np.uint64(0xBF58476D1CE4E5B9)
    x ^= x >> np.uint64(27)
    x *= np.uint64(0x94D049BB133111EB)
    x ^= x >> np.uint64(31)
    return (x >> np.uint64(11)).astype(np.float64) / 2.0**53
