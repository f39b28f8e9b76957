"""The acid between two pH values that a laboratory's buffer pH stands for."""

from __future__ import annotations

import math
from collections.abc import Sequence

from loamshift.core.lime_requirement import (
    SHORT_TON_LB,
    adams_evans_unsaturation_frac,
    equation_numbers,
)
from loamshift.errors import InputError
from loamshift.units import CACO3_G_PER_MMOLC, g_m2_from_lb_acre

MMOLC_KG_PER_MEQ_100G = 10.0
ACIDITY_FORM = "penn-state-acidity"
"""The form whose reading is an acidity itself [meq/100 g], not a buffer pH."""
ACIDITY_TO_PH = 7.0


def buffer_ph_without_acidity(form: str, coefficients: Sequence[float]) -> float:
    """The buffer pH at which an equation finds no acidity.

    Parameters
    ----------
    form
        A form of ``loamshift.core.lime_requirement`` that reads a buffer pH [text].
    coefficients
        Its numbers [see there].

    Returns
    -------
    float
        Buffer pH; below it the acidity grows in proportion to the distance [pH].

    Raises
    ------
    InputError
        Where the form reads no buffer pH.

    Notes
    -----
    Every form is a straight line in the buffer pH.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> buffer_ph_without_acidity("mehlich-nc", (6.6, 4.0))
    6.6
    >>> round(buffer_ph_without_acidity("linear-lti", (60.4, 0.87, 0.9)), 2)
    6.94
    """
    if form == "linear-lti":
        numbers = equation_numbers(form, coefficients)
        return numbers[0] / (10.0 * numbers[1])
    if form in ("mehlich-nc", "woodruff", "adams-evans"):
        return equation_numbers(form, coefficients)[0]
    raise InputError(f"form “{form}” does not read a buffer pH")


def acidity_mmolc_kg(
    form: str,
    coefficients: Sequence[float],
    *,
    reading: float,
    ph_water: float,
    target_ph: float,
    bulk_density_g_cm3: float,
    slice_kg_m2: float | None,
    field_allowance: float,
) -> float:
    """Acid that a laboratory's reading says lies between the soil's pH and a target.

    Answers what the reading measures of the soil itself: what a lime rate adds for the field is
    taken out again.

    Parameters
    ----------
    form
        A form of ``loamshift.core.lime_requirement`` [text].
    coefficients
        Its numbers [see there].
    reading
        Buffer pH [pH], or for ``penn-state-acidity`` exchangeable acidity [meq/100 g].
    ph_water
        pH in water of the soil, below the target [pH].
    target_ph
        pH the equation limes to [pH].
    bulk_density_g_cm3
        Of the soil; for a form that counts by volume [g/cm3].
    slice_kg_m2
        Soil that a rate per area is meant for; None for a form without one [kg/m2].
    field_allowance
        How many times the acidity the printed rate is; 1 where it is the acidity itself [1].

    Returns
    -------
    float
        Acid; 0 or less where the reading finds none [mmolc/kg].

    Raises
    ------
    InputError
        Where the form is unknown or its numbers or the slice are missing.

    Notes
    -----
    ``mehlich-nc``: c (ref - BpH) meq/100 cm3 to the reference pH, of which the share
    (target - pH)/(ref - pH). ``adams-evans``: c (ref - BpH) meq/100 g of unsaturation at the
    soil's pH, of which 1 - H(target)/H(pH). ``woodruff`` and ``linear-lti``: the rate per area
    over the slice. ``penn-state-acidity``: the acidity to pH 7, in proportion to the step.

    References
    ----------
    mehlich-nc, hoskins-2005, wolf-2008, uga-adams-evans, young-dlamini-2009, clemson-soil-lab,
    woodruff-1948, tri-state-1995, penn-state-agronomy-guide

    Examples
    --------
    >>> round(acidity_mmolc_kg("mehlich-nc", (6.6, 4.0), reading=6.1, ph_water=5.4, target_ph=6.5,
    ...                        bulk_density_g_cm3=1.3, slice_kg_m2=None, field_allowance=1.0), 1)
    14.1
    """
    if form == "mehlich-nc":
        reference, per_ph = equation_numbers(form, coefficients)
        whole = MMOLC_KG_PER_MEQ_100G * per_ph * (reference - reading) / bulk_density_g_cm3
        return whole * (target_ph - ph_water) / (reference - ph_water)
    if form == "adams-evans":
        reference, per_ph, *line = equation_numbers(form, coefficients)
        start, end = (
            adams_evans_unsaturation_frac(ph, tuple(line[:3])) for ph in (ph_water, target_ph)
        )
        return MMOLC_KG_PER_MEQ_100G * per_ph * (reference - reading) * (1.0 - end / start)
    if form == ACIDITY_FORM:
        share = (target_ph - ph_water) / (ACIDITY_TO_PH - ph_water)
        return MMOLC_KG_PER_MEQ_100G * reading * share
    if form not in ("linear-lti", "woodruff") or slice_kg_m2 is None:
        raise InputError(f"form “{form}” gives no acidity without its slice of soil")
    numbers = equation_numbers(form, coefficients)
    if form == "linear-lti":
        share = numbers[2] if len(numbers) == 3 else 1.0
        lb_acre = SHORT_TON_LB * (numbers[0] - numbers[1] * 10.0 * reading) * share
    else:
        lb_acre = numbers[1] * 10.0 * (numbers[0] - reading)
    return g_m2_from_lb_acre(lb_acre) / CACO3_G_PER_MMOLC / slice_kg_m2 / field_allowance


def reading_log10_sd(
    form: str, coefficients: Sequence[float], *, reading: float, reading_sd: float
) -> float:
    """What the error of a reading does to the logarithm of the acidity.

    Parameters
    ----------
    form
        A form of ``loamshift.core.lime_requirement`` [text].
    coefficients
        Its numbers [see there].
    reading
        As reported, on the acid side of what finds no acidity [pH, or meq/100 g].
    reading_sd
        Its standard deviation [same unit].

    Returns
    -------
    float
        Standard deviation [log10].

    Notes
    -----
    sd / (ref - BpH) / ln 10; it grows beyond bounds as the reading nears the reference.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(reading_log10_sd("mehlich-nc", (6.6, 4.0), reading=6.1, reading_sd=0.05), 3)
    0.043
    """
    if form == ACIDITY_FORM:
        return reading_sd / reading / math.log(10.0)
    distance = buffer_ph_without_acidity(form, coefficients) - reading
    return reading_sd / distance / math.log(10.0)
