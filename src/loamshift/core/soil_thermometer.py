"""Readings of a soil thermometer against the wave of the air, and what they change of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.climate import (
    DAYS_IN_MONTH,
    DAYS_IN_YEAR,
    ClimateParameters,
    SoilWave,
    not_below_snow_c,
    soil_wave,
    wave_at,
)
from loamshift.errors import OutOfRangeError

_MONTH_ENDS: Final = np.cumsum(DAYS_IN_MONTH)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThermometerFit:
    """What readings of a soil thermometer change, and how they agree with it.

    ``wave`` is added to the wave of the air [degC]; ``has_wave`` where the readings were enough
    for the yearly swing and its delay, not the mean alone; ``readings`` so many counted, ``frozen``
    so many left out; ``left_sd_c`` is what the readings still differ by, root mean square [degC].
    """

    wave: SoilWave
    has_wave: bool
    readings: int
    frozen: int
    left_sd_c: float


def fit_thermometer(
    air_temp_c: Sequence[float],
    *,
    days: Sequence[int],
    depths_cm: Sequence[float],
    temps_c: Sequence[float],
    params: ClimateParameters,
    container: bool = False,
) -> ThermometerFit:
    """What readings of a soil thermometer change of the soil temperature worked out from the air.

    Answers how much warmer or colder this ground is through the year than the damped wave of the
    air has it. What single days do is left out: one average year is corrected by another.

    Parameters
    ----------
    air_temp_c
        Mean air temperature of January to December, 12 values [degC].
    days
        Day of the year of each reading, 1 to 366 [day of year].
    depths_cm
        Depth of each reading, 0 to 300 [cm].
    temps_c
        Daily means read, -60 to 70 [degC].
    params
        Coefficients of the topic ``climate`` [see the dataclass].
    container
        True for pots, whose wave is not damped [truth].

    Returns
    -------
    ThermometerFit
        The change as a wave of its own, and its fit [degC].

    Raises
    ------
    OutOfRangeError
        Where there is no reading, the lists differ in length, or one is outside these limits.

    Notes
    -----
    The damped annual wave is linear in its mean, sine and cosine, so what the readings say beyond
    the wave of the air is a wave of the same law: r(z, t) = m + exp(-z/D) (p cos(w t - z/D) +
    q sin(w t - z/D)), with m, p, q by least squares. p and q need readings in
    ``thermometer_months_least`` months; with fewer, m alone is their mean difference. Ground under
    snow or freezing stays near the floor whatever the wave does: days on which the wave of the
    air or the reading is at it count only where there are no others.

    References
    ----------
    hillel-1982, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = ClimateParameters(**parameter_values("climate"))
    >>> air = [4.2, 4.5, 6.3, 8.6, 12.0, 15.1, 17.1, 16.8, 14.5, 11.3, 7.1, 5.1]
    >>> fit = fit_thermometer(air, days=[100], depths_cm=[10.0], temps_c=[10.0], params=p)
    >>> round(fit.wave.mean_c, 1), fit.has_wave
    (2.0, False)
    """
    day, depth, temp = (np.asarray(one, dtype=np.float64) for one in (days, depths_cm, temps_c))
    _check(day, depth, temp)
    day = np.minimum(day, float(DAYS_IN_YEAR))
    air = soil_wave(air_temp_c)
    bare = wave_at(air, days=day, depths_cm=depth, params=params, container=container)
    floored = not_below_snow_c(bare, params=params, container=container)
    frozen = (
        np.zeros(day.size, dtype=bool)
        if container
        else (np.minimum(bare, temp) <= params.snow_floor_c)
    )
    used = ~frozen if (~frozen).any() else np.ones(day.size, dtype=bool)
    beyond = (temp - floored)[used]
    months = np.unique(np.searchsorted(_MONTH_ENDS, day[used]))
    has_wave = months.size >= params.thermometer_months_least
    units = [SoilWave(mean_c=1.0)]
    if has_wave:
        units += [SoilWave(cos_c=(1.0, 0.0)), SoilWave(sin_c=(1.0, 0.0))]
    columns = np.column_stack(
        [
            wave_at(unit, days=day[used], depths_cm=depth[used], params=params, container=container)
            for unit in units
        ]
    )
    fitted = np.linalg.lstsq(columns, beyond, rcond=None)[0]
    left = beyond - columns @ fitted
    wave = SoilWave(mean_c=float(fitted[0]))
    if has_wave:
        wave = SoilWave(
            mean_c=float(fitted[0]), cos_c=(float(fitted[1]), 0.0), sin_c=(float(fitted[2]), 0.0)
        )
    return ThermometerFit(
        wave=wave,
        has_wave=bool(has_wave),
        readings=int(used.sum()),
        frozen=int((~used).sum()),
        left_sd_c=math.sqrt(float(np.mean(left**2))),
    )


def _check(day: NDArray[np.float64], depth: NDArray[np.float64], temp: NDArray[np.float64]) -> None:
    if day.size == 0 or not day.shape == depth.shape == temp.shape:
        raise OutOfRangeError(
            f"{day.size} days, {depth.size} depths and {temp.size} temperatures were given; "
            "give one of each for every reading"
        )
    for name, values, low, high, unit in (
        ("days", day, 1.0, 366.0, ""),
        ("depths_cm", depth, 0.0, 300.0, " cm"),
        ("temps_c", temp, -60.0, 70.0, " degC"),
    ):
        if not np.all((values >= low) & (values <= high)):
            raise OutOfRangeError(f"{name} must lie between {low:g} and {high:g}{unit}")
