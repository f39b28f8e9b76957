"""The clocks of a material: how much of its lasting acid has come by the end of each day."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.acidity import NITROGEN_MOL_KG
from loamshift.core.lime import SizeTriple, lime_dissolved_frac
from loamshift.core.limits import require_soil_ph
from loamshift.core.nitrogen import nitrogen_course
from loamshift.core.nitrogen_share import NitrogenShares, nitrogen_shares
from loamshift.core.sulfur_course import Prills, oxidised_course
from loamshift.domain.material import BREAK_UP_DUG_IN, BREAK_UP_TOP, Material
from loamshift.errors import OutOfRangeError
from loamshift.services.materials.acid_parts import (
    AT_ONCE,
    ActingParts,
    acting_parts,
    checked_days,
    checked_rate_g_m2,
)
from loamshift.tables.model import (
    ledger_parameters,
    lime_parameters,
    nitrogen_parameters,
    sulfur_parameters,
)
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]

DAYS_IN_YEAR: Final = 365
_KEPT_COURSES: Final = 512
"""Courses of material kept, each of up to some fifteen hundred days [count]."""
_ANY_DAY: Final = date(2001, 1, 1)
"""Start of a course that does not hang on the warmth of its days."""
_POWDER_UM: Final[tuple[SizeTriple, ...]] = ((0.0, 150.0, 1.0),)
"""Sizes of ash, compost lime and other lime of no stated fineness: as fine as ground lime."""


def temperature_is_assumed(soil_temp_c: tuple[float, ...]) -> bool:
    """True where no place is known and the clocks run at one assumed temperature.

    Parameters
    ----------
    soil_temp_c
        Daily soil temperature for days 1 to 365, or empty [degC].
    """
    return not soil_temp_c


def daily_soil_temp_c(soil_temp_c: tuple[float, ...], *, start: date, days: int) -> FloatArray:
    """Soil temperature of each day from a date on.

    Parameters
    ----------
    soil_temp_c
        Daily soil temperature for days 1 to 365; empty for the assumed one [degC].
    days
        Number of days, 0 or more [d].

    Returns
    -------
    ndarray
        Temperatures, one per day [degC].

    Raises
    ------
    OutOfRangeError
        Where the year has another length, or the time is negative.

    Notes
    -----
    29 February reads as 28 February. Without a place the temperature is
    ``advice.assumed_soil_temp_c``; ask :func:`temperature_is_assumed`.

    References
    ----------
    own-judgement
    """
    count = checked_days(days)
    if temperature_is_assumed(soil_temp_c):
        return np.full(count, parameter_values("advice")["assumed_soil_temp_c"])
    if len(soil_temp_c) != DAYS_IN_YEAR:
        raise OutOfRangeError(f"soil_temp_c holds {len(soil_temp_c)} days; give 365, or none")
    day = 28 if (start.month, start.day) == (2, 29) else start.day
    first = date(2001, start.month, day).timetuple().tm_yday - 1
    return np.asarray(soil_temp_c, dtype=np.float64)[(first + np.arange(count)) % DAYS_IN_YEAR]


def acid_course_mmolc_m2(
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
) -> FloatArray:
    """Lasting acid that has come by the end of each day, by the clocks.

    Parameters
    ----------
    rate_g_m2
        Product, 0 or more [g/m2].
    soil_temp_c
        Daily soil temperature for days 1 to 365; empty for the assumed one [degC].
    days
        Days to follow, 0 or more [d].
    ph_water
        pH in water of the soil, 2 to 11 [pH].
    incorporated
        True where it is mixed in, false where it lies on the surface.

    Returns
    -------
    ndarray
        Acid since the start, one per day; a passing rise by urea is inside [mmolc/m2].

    Raises
    ------
    OutOfRangeError
        For a negative rate or time, or an impossible pH or temperature.

    Notes
    -----
    Sulfur by the shrinking-particle law at a usual dose; nitrogen by hydrolysis (which takes up
    one mole of acid per mole), nitrification and the base that plants give back for nitrate; lime
    by size class; salts by a half-time of 2 days; mineral acids and peat at once; base and
    nitrogen of litter and meals by the half-time of their decay.

    References
    ----------
    watkinson-blair-1993, huang-2007, own-judgement
    """
    rate, count = checked_rate_g_m2(rate_g_m2), checked_days(days)
    if count == 0 or rate == 0.0:
        return np.zeros(count)
    acting = _Acting(
        parts=acting_parts(material),
        has_sulfur=material.elemental_s_frac > 0.0,
        has_lime=material.caco3_eq_frac > 0.0,
        is_at_once=material.group in AT_ONCE,
        sizes=_sizes(material),
        prills=prills_of(material, on_surface=not incorporated),
    )
    has_nitrogen = acting.parts.has_nitrogen
    hangs_on_warmth = acting.has_sulfur or has_nitrogen
    course = _kept_course(
        acting,
        soil_temp_c=soil_temp_c if hangs_on_warmth else (),
        start=start if hangs_on_warmth else _ANY_DAY,
        count=count,
        ph_water=acting.ph_asked(ph_water),
        in_pot=in_pot and has_nitrogen,
        incorporated=incorporated,
        land_use=land_use if has_nitrogen else "unknown",
    )
    return rate * course


@dataclass(frozen=True, slots=True, kw_only=True)
class _Acting:
    """What of a material its clocks ask for; two that have it in common share a course."""

    parts: ActingParts
    has_sulfur: bool
    has_lime: bool
    is_at_once: bool
    sizes: tuple[SizeTriple, ...]
    prills: Prills | None

    def ph_asked(self, ph_water: float) -> float | None:
        """The pH as far as the clocks hang on it, None where they do not [pH in water]."""
        if self.parts.has_nitrogen:
            return ph_water
        if not self.has_sulfur:
            return None
        require_soil_ph(ph_water)
        params = sulfur_parameters()
        return min(max(ph_water, params.acid_soil_ph), params.normal_soil_ph)


@lru_cache(maxsize=_KEPT_COURSES)
def _kept_course(
    acting: _Acting,
    *,
    soil_temp_c: tuple[float, ...],
    start: date,
    count: int,
    ph_water: float | None,
    in_pot: bool,
    incorporated: bool,
    land_use: str,
) -> FloatArray:
    """The course of one gram, kept for the next bed as warm on the same day [mmolc/g]."""
    parts = acting.parts
    advice = parameter_values("advice")
    temp = daily_soil_temp_c(soil_temp_c, start=start, days=count)
    wetness = advice["assumed_wetness"]
    since = np.arange(1.0, count + 1.0)
    course = np.zeros(count)
    if acting.has_sulfur:
        share = oxidised_course(
            temp,
            sizes=acting.sizes,
            params=sulfur_parameters(),
            wetness=wetness,
            ph_water=ph_water,
            prills=acting.prills,
            sulfur_g_kg=clock_sulfur_g_kg(on_surface=not incorporated),
            k_scale=1.0 if incorporated else advice["surface_sulfur_rate_frac"],
        )
        course += parts.sulfur * share
    if acting.has_lime:
        slower = 1.0 if incorporated else advice["surface_lime_rate_frac"]
        dissolved = lime_dissolved_frac(
            since * slower,
            sizes=_POWDER_UM if acting.has_sulfur else acting.sizes,
            params=lime_parameters(),
        )
        course += parts.lime * np.asarray(dissolved)
    fast = 1.0 if acting.is_at_once else _gone(since, advice["fast_salt_half_time_d"])
    course += parts.fast * fast
    course += parts.ash * _gone(since, _decay_d(parts.organic_frac, advice))
    if parts.has_nitrogen and ph_water is not None:
        course += _nitrogen_course(
            parts,
            temp_c=temp,
            wetness=wetness,
            ph_water=ph_water,
            shares=nitrogen_shares(ledger_parameters(), land_use=land_use, in_pot=in_pot),
            since=since,
        )
    course.flags.writeable = False
    return course


def clock_sulfur_g_kg(*, on_surface: bool) -> float:
    """Sulfur per kg of soil that the clocks run at, so that half the amount is half the acid.

    Parameters
    ----------
    on_surface
        True where it is left lying on top.

    Returns
    -------
    float
        Content [g/kg].
    """
    advice = parameter_values("advice")
    mass = advice["clock_top_kg_m2" if on_surface else "clock_dug_in_kg_m2"]
    return advice["clock_sulfur_g_m2"] / mass


def prills_of(material: Material, *, on_surface: bool) -> Prills | None:
    """The prills of a material with their usual speed of break-up.

    Parameters
    ----------
    on_surface
        True where it is left lying on top.
    """
    if material.intact_diameter_um is None:
        return None
    figure = material.figures.get(BREAK_UP_TOP if on_surface else BREAK_UP_DUG_IN)
    return Prills(
        diameter_um=material.intact_diameter_um,
        break_up_per_year=figure.value if figure is not None else 0.0,
        on_surface=on_surface,
    )


def _nitrogen_course(
    parts: ActingParts,
    *,
    temp_c: FloatArray,
    wetness: float,
    ph_water: float,
    shares: NitrogenShares,
    since: FloatArray,
) -> FloatArray:
    """Acid of the nitrogen by day; ends at the total of the ledger [mmolc/g product]."""
    ledger = ledger_parameters()
    advice = parameter_values("advice")
    acid = np.zeros_like(since)
    nitrate = np.full_like(since, parts.nitrate_frac)

    def nitrified_of(urea_frac: float) -> tuple[FloatArray, FloatArray]:
        course = nitrogen_course(
            temp_c,
            urea_frac=urea_frac,
            ph_water=ph_water,
            params=nitrogen_parameters(),
            wetness=wetness,
        )
        return course.nitrified, 1.0 - course.as_urea

    as_ammonium = parts.ammonium_frac + parts.ammonia_frac
    taken_up = ledger.acid_per_nh4_mol_mol - ledger.acid_per_urea_n_mol_mol
    if as_ammonium > 0.0:
        nitrified, _ = nitrified_of(0.0)
        nitrate += as_ammonium * nitrified
        acid += ledger.acid_per_nh4_mol_mol * as_ammonium * nitrified
        acid -= taken_up * parts.ammonia_frac
    if parts.urea_frac > 0.0:
        nitrified, hydrolysed = nitrified_of(1.0)
        nitrate += parts.urea_frac * nitrified
        acid += parts.urea_frac * (ledger.acid_per_nh4_mol_mol * nitrified - taken_up * hydrolysed)
    if parts.organic_frac > 0.0:
        # Decay is the slow step, so what it has set free counts as nitrified.
        free = _gone(since, _decay_d(parts.organic_frac, advice))
        kept = ledger.acid_per_urea_n_mol_mol - (1.0 - shares.unreturned)
        acid += kept * parts.organic_frac * free
    gone = _left_nitrate(nitrate, advice["nitrate_uptake_half_time_d"])
    base = (1.0 - shares.unreturned) * gone
    return NITROGEN_MOL_KG * shares.realised * (acid - base)


def nitrogen_left_frac(
    soil_temp_daily_c: FloatArray, *, urea_frac: float, ammonium_frac: float, ph_water: float
) -> tuple[float, float, float]:
    """What is left of one mole of nitrogen some days after it was given.

    Parameters
    ----------
    soil_temp_daily_c
        Soil temperature of each day since, one day or more [degC].
    urea_frac
        Share given as urea [0-1].
    ammonium_frac
        Share given as ammonium; the rest is nitrate [0-1].
    ph_water
        pH in water of the soil, 2 to 11 [pH].

    Returns
    -------
    tuple of float
        Urea, ammonium, and nitrate not yet taken up or washed out [0-1].

    References
    ----------
    yadav-1987, own-judgement
    """
    advice = parameter_values("advice")
    given = urea_frac + ammonium_frac
    course = nitrogen_course(
        soil_temp_daily_c,
        urea_frac=urea_frac / given if given > 0.0 else 0.0,
        ph_water=ph_water,
        params=nitrogen_parameters(),
        wetness=advice["assumed_wetness"],
    )
    made = 1.0 - given + given * course.nitrified
    gone = _left_nitrate(made, advice["nitrate_uptake_half_time_d"])
    return (
        given * float(course.as_urea[-1]),
        given * float(course.as_ammonium[-1]),
        float(made[-1] - gone[-1]),
    )


def _left_nitrate(made: FloatArray, half_time_d: float) -> FloatArray:
    """Nitrate taken up or washed out by the end of each day, of that made so far."""
    share = 1.0 - 2.0 ** (-1.0 / half_time_d)
    gone = np.empty_like(made)
    so_far = 0.0
    for day, there in enumerate(made.tolist()):
        so_far += share * (there - so_far)
        gone[day] = so_far
    return gone


def _decay_d(organic_n_frac: float, advice: Mapping[str, float]) -> float:
    is_meal = organic_n_frac >= advice["meal_n_frac"]
    return advice["meal_half_time_d" if is_meal else "decay_half_time_d"]


def _gone(since: FloatArray, half_time_d: float) -> FloatArray:
    return np.asarray(1.0 - 2.0 ** (-since / half_time_d), dtype=np.float64)


def _sizes(material: Material) -> tuple[SizeTriple, ...]:
    if not material.sizes:
        return _POWDER_UM
    total = math.fsum(size.mass_frac for size in material.sizes)
    return tuple((s.low_um, s.high_um, s.mass_frac / total) for s in material.sizes)
