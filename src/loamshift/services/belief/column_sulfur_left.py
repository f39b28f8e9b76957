"""What is left of sulfur put on before the reading, and how its prills break up."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final, TypedDict

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import ColumnEvent
from loamshift.core.sulfur import CM_PER_UM, left_frac, surface_cm2_g, surface_loss
from loamshift.core.sulfur_course import DAYS_IN_YEAR, Prills, prills_left
from loamshift.core.sulfur_rate import SulfurParameters, crowding_factor
from loamshift.domain.material import BREAK_UP_DUG_IN, BREAK_UP_TOP, Material
from loamshift.services.materials.acid_clock import clock_sulfur_g_kg
from loamshift.tables.model import sulfur_parameters
from loamshift.tables.parameters import parameter_values
from loamshift.units import SULFUR_G_PER_MMOLC

FloatArray = NDArray[np.float64]
Sizes = tuple[tuple[float, float, float], ...]

SD_IN_95_PCT: Final = 2.0 * 1.959964
"""Standard deviations between the ends of a central 95 % range."""
_SMALLEST_OF_UPPER: Final = 0.02
"""Lower bound of a size class that has been eaten away, as a share of its upper bound."""


def sulfur_left(
    event: ColumnEvent, *, temps: FloatArray, ph_water: float
) -> tuple[ColumnEvent, ...]:
    """Sulfur not yet oxidised: smaller grains of less mass; whole prills by their own size.

    Parameters
    ----------
    temps
        Soil temperature of each day since [degC].
    ph_water
        pH in water of the soil [pH].
    """
    params = sulfur_parameters()
    clock: _Clock = {
        "soil_temp_daily_c": temps,
        "params": params,
        "wetness": parameter_values("advice")["assumed_wetness"],
        "ph_water": ph_water,
        "sulfur_before": event.grown_frac > params.grown_first_frac,
    }
    surface = event.surface_cm2_mmolc or SULFUR_G_PER_MMOLC * surface_cm2_g(
        event.sizes, params=params
    )
    sulfur_g_kg = clock_sulfur_g_kg(on_surface=event.on_surface)
    grown = replace(event, grown_frac=1.0, grown_sd=0.0)
    found = []
    if event.intact_um > 0.0:
        top = event.break_up_top if event.on_surface else event.break_up_dug_in
        whole, broken = prills_left(
            sizes=event.sizes,
            prills=Prills(
                diameter_um=event.intact_um,
                break_up_per_year=top[0] * DAYS_IN_YEAR,
                on_surface=event.on_surface,
            ),
            sulfur_g_kg=sulfur_g_kg,
            k_scale=event.rate_factor,
            **clock,
        )
        ball = ((event.intact_um, event.intact_um, 1.0),)
        eaten_um = _eaten_um(ball, clock, rate_factor=event.rate_factor, sulfur_g_kg=sulfur_g_kg)
        if whole[-1] > 0.0 and event.intact_um > eaten_um:
            found.append(
                replace(
                    grown,
                    amount=event.amount * float(whole[-1]),
                    intact_um=event.intact_um - eaten_um,
                )
            )
        grains = [
            (low, high, float(left))
            for (low, high, _), left in zip(event.sizes, broken[-1], strict=True)
        ]
    else:
        eaten_um = _eaten_um(
            event.sizes, clock, rate_factor=event.rate_factor, sulfur_g_kg=sulfur_g_kg
        )
        lost = 0.5 * eaten_um * params.density_ug_cm3 * CM_PER_UM
        grains = [
            (
                max(low - eaten_um, _SMALLEST_OF_UPPER * (high - eaten_um)),
                high - eaten_um,
                share * float(left_frac(lost, sizes=((low, high, 1.0),), params=params)),
            )
            for low, high, share in event.sizes
            if high > eaten_um
        ]
    mass = math.fsum(share for _, _, share in grains)
    if mass > 0.0:
        found.append(
            replace(
                grown,
                amount=event.amount * mass,
                sizes=tuple((low, high, share / mass) for low, high, share in grains),
                intact_um=0.0,
                surface_cm2_mmolc=surface / mass,
            )
        )
    return tuple(found)


class _Clock(TypedDict):
    """What every part of one dose shares: temperature, coefficients, water, pH, earlier sulfur."""

    soil_temp_daily_c: FloatArray
    params: SulfurParameters
    wetness: float
    ph_water: float
    sulfur_before: bool


def _eaten_um(sizes: Sizes, clock: _Clock, *, rate_factor: float, sulfur_g_kg: float) -> float:
    """Diameter lost by grains of these sizes by the end of the clock."""
    params = clock["params"]
    surface = sulfur_g_kg * surface_cm2_g(sizes, params=params)
    loss = surface_loss(k_scale=rate_factor * crowding_factor(surface, params), **clock)
    return 2.0 * float(loss[-1]) / params.density_ug_cm3 / CM_PER_UM


def break_up_per_d(material: Material, *, on_surface: bool) -> tuple[float, float]:
    """Usual speed at which the prills of a material break up, and how sure that is.

    Parameters
    ----------
    on_surface
        True where it is left lying on top.

    Returns
    -------
    tuple of float
        Speed, and the standard deviation of its logarithm; 0 for what is no prill [1/d, -].
    """
    figure = material.figures.get(BREAK_UP_TOP if on_surface else BREAK_UP_DUG_IN)
    if figure is None or material.intact_diameter_um is None:
        return 0.0, 0.0
    assert figure.low is not None and figure.high is not None
    log_sd = math.log(figure.high / figure.low) / SD_IN_95_PCT
    return figure.value / DAYS_IN_YEAR, log_sd
