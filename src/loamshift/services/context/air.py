"""Acid from the air where a bed lies: the one place where all that counts it asks."""

from __future__ import annotations

from datetime import date

import numpy as np
from numpy.typing import NDArray

from loamshift.core.air import air_acid_mmolc_m2
from loamshift.core.background import air_in_loads
from loamshift.domain.air import AirAcid, Deposition
from loamshift.domain.place import Place
from loamshift.tables.air import air_region, deposition_in
from loamshift.tables.model import ledger_parameters

FloatArray = NDArray[np.float64]


def air_acid(place: Place | None, *, year: int) -> AirAcid:
    """Acid from the air at a place in a year.

    Parameters
    ----------
    place
        Where; None where nobody said, which is wide.
    year
        Calendar year.

    Returns
    -------
    AirAcid
        The acid with its region, spread and source [mmolc/m2/yr].

    Notes
    -----
    Open land of a region as a whole. A place of which only twelve months of weather are known has
    no longitude and counts as unknown.
    """
    falls = deposition_at(place, year=year)
    return AirAcid(
        region=falls.region,
        year=year,
        mmolc_m2=air_acid_mmolc_m2(
            sulfur_kg_ha=falls.sulfur_kg_ha,
            nitrogen_kg_ha=falls.nitrogen_kg_ha,
            base_mmolc_m2=falls.base_mmolc_m2,
            params=ledger_parameters(),
        ),
        spread=falls.spread,
        source_key=falls.source_key,
    )


def deposition_at(place: Place | None, *, year: int) -> Deposition:
    """What falls from the air at a place in a year.

    Parameters
    ----------
    place
        Where; None where nobody said.
    year
        Calendar year.

    Returns
    -------
    Deposition
        Sulfur, nitrogen and base on open land of its region [kg/ha/yr, mmolc/m2/yr].
    """
    region = air_region(
        latitude=None if place is None else place.latitude,
        longitude=None if place is None else place.longitude,
    )
    return deposition_in(region, year)


def air_beyond_load(place: Place | None, *, land_use: str, year: int) -> float:
    """Acid from the air in a year beyond what the load of the use of the land holds.

    Parameters
    ----------
    place
        Where; None where nobody said.
    land_use
        One of the uses in ``core.background``.
    year
        Calendar year.

    Returns
    -------
    float
        Acid; below 0 where the load was measured under worse air [mmolc/m2/yr].
    """
    return air_acid(place, year=year).mmolc_m2 - air_in_loads(ledger_parameters())[land_use]


def air_beyond_load_daily(
    place: Place | None, *, land_use: str, start: date, days: int
) -> FloatArray:
    """Acid from the air of each day beyond what the load of the use of the land holds.

    Parameters
    ----------
    place
        Where; None where nobody said.
    land_use
        One of the uses in ``core.background``.
    start
        First day [date].
    days
        How many [d].

    Returns
    -------
    ndarray
        Rate of the year that a day lies in, shape (days,); below 0 where the load was measured
        under worse air [mmolc/m2/yr].
    """
    ordinals = np.arange(start.toordinal(), start.toordinal() + days)
    last = date.fromordinal(int(ordinals[-1])).year
    years = np.arange(start.year, last + 1)
    firsts = np.array([date(int(year), 1, 1).toordinal() for year in years])
    acid = np.array([air_beyond_load(place, land_use=land_use, year=int(y)) for y in years])
    return np.asarray(acid[np.searchsorted(firsts, ordinals, side="right") - 1])
