"""The soil temperature of a bed: the wave of the air, corrected by its own thermometer."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from loamshift.core.climate import SoilWave, soil_temperature_c
from loamshift.core.soil_thermometer import ThermometerFit, fit_thermometer
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import BedKind, Case
from loamshift.domain.message import Given, Message, Worded, depth, message, temperature
from loamshift.tables.model import climate_parameters

_SAME_C: Final = 0.5
_KEPT_COURSES: Final = 256


def thermometer_of(case: Case) -> ThermometerFit | None:
    """What the bed's own soil thermometer changes; None without readings or a place."""
    if case.place is None or not case.soil_temps:
        return None
    days, temps, depths = zip(*case.soil_temps, strict=True)
    return fit_thermometer(
        case.place.air_temp_c,
        days=[day.timetuple().tm_yday for day in days],
        depths_cm=depths,
        temps_c=temps,
        params=climate_parameters(),
        container=case.bed.kind is BedKind.CONTAINER,
    )


def soil_course_c(
    case: Case, *, depth_cm: float, thermometer: ThermometerFit | None
) -> tuple[float, ...]:
    """Soil temperature of an average year at half the treated depth.

    Parameters
    ----------
    depth_cm
        The treated depth [cm].

    Returns
    -------
    tuple of float
        Day of year 1 to 365, empty without a place [degC].
    """
    if case.place is None:
        return ()
    return _kept_course_c(
        tuple(case.place.air_temp_c),
        depth_cm=0.5 * depth_cm,
        container=case.bed.kind is BedKind.CONTAINER,
        correction=None if thermometer is None else thermometer.wave,
    )


@lru_cache(maxsize=_KEPT_COURSES)
def _kept_course_c(
    air_temp_c: tuple[float, ...], *, depth_cm: float, container: bool, correction: SoilWave | None
) -> tuple[float, ...]:
    """The course of a place and depth, kept for the next bed there."""
    course = soil_temperature_c(
        air_temp_c,
        depth_cm=depth_cm,
        params=climate_parameters(),
        container=container,
        correction=correction,
    )
    return tuple(course.tolist())


def weather_said(context: BedContext) -> tuple[Worded, ...]:
    """Which weather the answer rests on: the climate of the place, and the bed's thermometer."""
    place, fit = context.place, context.thermometer
    if place is None:
        return ()
    basis = Given(place.basis) if isinstance(place.basis, str) else place.basis
    of = basis if isinstance(basis, (Given, Message)) else None
    told: list[Worded] = [message("weather-climate", name=Given(place.name), of=of)]
    if fit is None:
        return tuple(told)
    alone = soil_course_c(context.case, depth_cm=context.depth_cm, thermometer=None)
    now = context.soil_temp_c
    days = sorted(day for day, _, _ in context.case.soil_temps)
    told.append(
        message(
            "weather-thermometer",
            n=fit.readings + fit.frozen,
            first=days[0],
            last=days[-1],
            depth=depth(0.5 * context.depth_cm),
            mean="same" if abs(_mean(now) - _mean(alone)) < _SAME_C else "other",
            **{"mean-was": temperature(_mean(alone)), "mean-is": temperature(_mean(now))},
        )
    )
    if fit.has_wave:
        told.append(
            message(
                "weather-thermometer-swing",
                **{
                    "warm-was": temperature(max(alone)),
                    "warm-is": temperature(max(now)),
                    "cold-was": temperature(min(alone)),
                    "cold-is": temperature(min(now)),
                    "cold": "same" if abs(min(now) - min(alone)) < _SAME_C else "other",
                },
            )
        )
    else:
        least = round(climate_parameters().thermometer_months_least)
        told.append(message("weather-thermometer-mean-only", least=least))
    if fit.frozen:
        told.append(message("weather-thermometer-frozen", n=fit.frozen))
    return tuple(told)


def _mean(course: tuple[float, ...]) -> float:
    return sum(course) / len(course)
