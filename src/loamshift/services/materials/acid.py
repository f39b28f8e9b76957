"""What a material brings: the acid that lasts, by when, and the acid that does not last."""

from __future__ import annotations

from datetime import date
from typing import Final

import numpy as np

from loamshift.core.ledger import feed_acid_mmolc_m2
from loamshift.domain.material import Material, MaterialGroup
from loamshift.services.materials.acid_clock import (
    DAYS_IN_YEAR,
    acid_course_mmolc_m2,
    daily_soil_temp_c,
    temperature_is_assumed,
)
from loamshift.services.materials.acid_parts import acting_parts, checked_days, checked_rate_g_m2
from loamshift.tables.model import ledger_parameters
from loamshift.tables.parameters import parameter_values

__all__ = [
    "LONGEST_DAYS",
    "acid_brought_mmolc_m2",
    "acid_course_mmolc_m2",
    "acid_within_days",
    "daily_soil_temp_c",
    "temperature_is_assumed",
    "temporary_acid_left_mmolc_m2",
    "temporary_acid_mmolc_m2",
    "weeks_to_half",
]

LONGEST_DAYS: Final = 3 * DAYS_IN_YEAR
"""Beyond three years a half is not waited for."""


def acid_brought_mmolc_m2(
    material: Material, *, rate_g_m2: float, in_pot: bool, land_use: str = "unknown"
) -> float:
    """Lasting acid of a material once everything in it has reacted.

    Answers what it can do at most; when, is the business of :func:`acid_within_days`.

    Parameters
    ----------
    rate_g_m2
        Product, 0 or more [g/m2].
    in_pot
        True for pots, where all acid of nitrogen counts.

    Returns
    -------
    float
        Acid; positive acidifies, negative limes [mmolc/m2].

    Raises
    ------
    OutOfRangeError
        For a negative rate.

    Notes
    -----
    Sulfur, mineral acid, lime and ash by stoichiometry, nitrogen by the shares of the yearly
    ledger. The base of ammonia gas and of diammonium phosphate belongs to their nitrogen: that
    nitrogen counts as urea does.

    References
    ----------
    own-arithmetic, woburn-barley-2022
    """
    rate = checked_rate_g_m2(rate_g_m2)
    parts = acting_parts(material)
    acid = rate * (parts.sulfur + parts.fast + parts.lime + parts.ash)
    if not parts.has_nitrogen:
        return acid
    return acid + feed_acid_mmolc_m2(
        n_as_nh4_g_m2=rate * parts.ammonium_frac,
        n_as_urea_g_m2=rate * (parts.ammonia_frac + parts.urea_frac + parts.organic_frac),
        n_as_no3_g_m2=rate * parts.nitrate_frac,
        params=ledger_parameters(),
        in_pot=in_pot,
        land_use=land_use,
    )


def temporary_acid_mmolc_m2(material: Material, *, rate_g_m2: float) -> float:
    """Organic acid of a material at the start, which soil life destroys again.

    Parameters
    ----------
    rate_g_m2
        Product, 0 or more [g/m2].

    Returns
    -------
    float
        Acid that does not last [mmolc/m2].

    Raises
    ------
    OutOfRangeError
        For a negative rate.

    References
    ----------
    own-arithmetic
    """
    return checked_rate_g_m2(rate_g_m2) * material.organic_acid_molc_kg


def temporary_acid_left_mmolc_m2(material: Material, *, rate_g_m2: float, days: int) -> float:
    """Organic acid that is still there after some days.

    Parameters
    ----------
    rate_g_m2
        Product, 0 or more [g/m2].
    days
        Days since it went on, 0 or more [d].

    Returns
    -------
    float
        Acid left [mmolc/m2].

    Raises
    ------
    OutOfRangeError
        For a negative rate or time.

    Notes
    -----
    Halves every 3 days for vinegar and its like, every 60 for litter: judgement.

    References
    ----------
    own-judgement
    """
    advice = parameter_values("advice")
    name = "organic_acid" if material.group is MaterialGroup.ACID else "litter_acid"
    half_time_d = advice[f"{name}_half_time_d"]
    start = temporary_acid_mmolc_m2(material, rate_g_m2=rate_g_m2)
    return start * float(2.0 ** (-checked_days(days) / half_time_d))


def acid_within_days(
    material: Material,
    *,
    rate_g_m2: float,
    soil_temp_c: tuple[float, ...],
    start: date,
    days: int,
    ph_water: float,
    in_pot: bool,
    incorporated: bool = True,
    land_use: str = "unknown",
) -> float:
    """Lasting acid that has come so many days after the material went on.

    Parameters
    ----------
    rate_g_m2
        Product, 0 or more [g/m2].
    soil_temp_c
        Daily soil temperature for days 1 to 365; empty for the assumed one [degC].
    days
        Days since, 0 or more [d].
    ph_water
        pH in water of the soil, 2 to 11 [pH].
    incorporated
        True where it is mixed in.

    Returns
    -------
    float
        Acid; negative limes [mmolc/m2].

    Raises
    ------
    OutOfRangeError
        As :func:`acid_course_mmolc_m2`.

    References
    ----------
    watkinson-blair-1993, huang-2007, own-judgement
    """
    course = acid_course_mmolc_m2(
        material,
        rate_g_m2=rate_g_m2,
        soil_temp_c=soil_temp_c,
        start=start,
        days=days,
        ph_water=ph_water,
        in_pot=in_pot,
        incorporated=incorporated,
        land_use=land_use,
    )
    return float(course[-1]) if course.size else 0.0


def weeks_to_half(
    material: Material,
    *,
    soil_temp_c: tuple[float, ...],
    start: date,
    ph_water: float,
    in_pot: bool = False,
    incorporated: bool = True,
    land_use: str = "unknown",
) -> float | None:
    """Weeks until half of the lasting acid, or base, has come.

    Parameters
    ----------
    soil_temp_c
        Daily soil temperature for days 1 to 365; empty for the assumed one [degC].
    ph_water
        pH in water of the soil, 2 to 11 [pH].
    incorporated
        True where it is mixed in.

    Returns
    -------
    float or None
        Weeks; None where nothing in it acts on the pH, or three years are not enough [weeks].

    Raises
    ------
    OutOfRangeError
        As :func:`acid_course_mmolc_m2`.

    References
    ----------
    watkinson-blair-1993, huang-2007, own-judgement
    """
    total = acid_brought_mmolc_m2(material, rate_g_m2=1.0, in_pot=in_pot, land_use=land_use)
    if abs(total) < 1.0e-9:
        return None
    course = acid_course_mmolc_m2(
        material,
        rate_g_m2=1.0,
        soil_temp_c=soil_temp_c,
        start=start,
        days=LONGEST_DAYS,
        ph_water=ph_water,
        in_pot=in_pot,
        incorporated=incorporated,
        land_use=land_use,
    )
    reached = np.flatnonzero(course / total >= 0.5)
    return float(reached[0] + 1) / 7.0 if reached.size else None
