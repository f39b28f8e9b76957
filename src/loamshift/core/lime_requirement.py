"""Lime requirement as laboratories work it out from a buffer pH or from exchangeable acidity."""

from __future__ import annotations

import math
from collections.abc import Sequence

from loamshift.errors import InputError, OutOfRangeError
from loamshift.units import g_m2_from_lb_acre

SHORT_TON_LB = 2000.0
FORMS = {
    "mehlich-nc": "reference buffer pH, acidity per pH [meq/100 cm3/pH]",
    "linear-lti": "a, b [short ton/acre], optional share of CaCO3 in the lime meant",
    "woodruff": "reference buffer pH, lb CaCO3/acre per 0.1 pH",
    "penn-state-acidity": "lb/acre per meq/100 g, optional acidity limit and flat lb/acre below it",
    "adams-evans": "reference buffer pH, acidity per pH [meq/100 g/pH], pH without unsaturation, "
    "its slope and curvature over the unsaturated share, field allowance",
}
"""Form to its coefficients, in the order they are given."""
LB_ACRE_PER_MEQ_100G = 1000.0
"""Pure lime for one meq/100 g in the 2,000,000 lb of soil that an acre is taken to have."""
_COUNTS = {
    "mehlich-nc": (2,),
    "linear-lti": (2, 3),
    "woodruff": (2,),
    "penn-state-acidity": (1, 3),
    "adams-evans": (6,),
}


def lime_requirement_caco3_g_m2_from_buffer_ph(
    form: str,
    coefficients: Sequence[float],
    *,
    buffer_ph: float | None,
    ph_water: float,
    target_ph: float,
    depth_cm: float,
    method_depth_cm: float | None = None,
    method_target_ph: float | None = None,
    exchangeable_acidity_cmolc_kg: float | None = None,
) -> float:
    """Lime a laboratory's own equation asks for.

    Answers what the laboratory would say, to stand beside our own curve; 0 where the soil is at
    the target already.

    Parameters
    ----------
    form
        One of ``FORMS`` [text].
    coefficients
        Numbers of the form, in the order of ``FORMS`` [see there].
    buffer_ph
        Buffer pH as reported; None for a form that takes exchangeable acidity [pH].
    ph_water
        Soil pH in water [pH].
    target_ph
        pH in water wished [pH].
    depth_cm
        Depth to lime [cm].
    method_depth_cm
        Depth the equation speaks of; None takes ``depth_cm`` [cm].
    method_target_ph
        The only target the equation holds for; None where it takes any [pH].
    exchangeable_acidity_cmolc_kg
        Exchangeable acidity, the same number as meq/100 g [cmolc/kg].

    Returns
    -------
    float
        Pure calcium carbonate for ``depth_cm`` [g/m2].

    Raises
    ------
    InputError
        Where the form is unknown, or its coefficients or reading are missing.
    OutOfRangeError
        Where the equation is not defined: a buffer pH at or above its reference, a soil pH or a
        target beyond it, or another target than its own.

    Notes
    -----
    ``mehlich-nc``: Ac = c (ref - BpH); ton/acre = Ac (target - pH)/(ref - pH). Printed as short
    tons; as calcium carbonate to 20 cm it is 2.2 times what Ac itself can take up.
    ``linear-lti``: ton/acre = a - b 10 BpH. ``woodruff``: so many lb/acre for each 0.1 that BpH
    is below the reference. ``penn-state-acidity``: lb/acre = f EA; at or below the limit a flat
    rate. ``adams-evans``: lb/acre = 1000 c (ref - BpH) (1 - H(target)/H(pH)) allowance; printed as
    Mg/ha with a factor 8000 that is c = 8 meq/100 g in lb/acre. Results grow in proportion to
    depth.

    References
    ----------
    mehlich-nc, tri-state-1995, woodruff-1948, penn-state-agronomy-guide, huluka-2007,
    uga-adams-evans

    Examples
    --------
    >>> need = lime_requirement_caco3_g_m2_from_buffer_ph(
    ...     "mehlich-nc", (6.6, 4.0), buffer_ph=6.3, ph_water=5.0, target_ph=6.0, depth_cm=20.0)
    >>> round(need / 224.17, 2)
    0.75
    """
    if form not in FORMS:
        raise InputError(f"no lime equation called “{form}”; known: {', '.join(FORMS)}")
    method_depth = depth_cm if method_depth_cm is None else method_depth_cm
    if not (0.0 < depth_cm <= 200.0 and 0.0 < method_depth <= 200.0):
        raise OutOfRangeError(
            f"depth_cm = {depth_cm:g} and the method's {method_depth:g} must lie between 0 and 200"
        )
    for name, value in (("ph_water", ph_water), ("target_ph", target_ph)):
        if not 2.0 <= value <= 11.0:
            raise OutOfRangeError(f"{name} = {value:g} must lie between 2 and 11")
    if method_target_ph is not None and not math.isclose(target_ph, method_target_ph, abs_tol=0.05):
        raise OutOfRangeError(
            f"this equation limes to pH {method_target_ph:g} only, not to {target_ph:g}; use it "
            f"with that target, or the buffer curve"
        )
    if ph_water >= target_ph:
        return 0.0
    if form == "penn-state-acidity":
        lb_acre = _penn_state_lb_acre(coefficients, exchangeable_acidity_cmolc_kg)
    else:
        if buffer_ph is None or not 3.0 <= buffer_ph <= 9.0:
            raise InputError(f"form “{form}” needs a buffer pH between 3 and 9; given {buffer_ph}")
        if form == "mehlich-nc":
            lb_acre = _mehlich_lb_acre(
                coefficients, buffer_ph=buffer_ph, ph_water=ph_water, target_ph=target_ph
            )
        elif form == "linear-lti":
            lb_acre = _linear_lb_acre(coefficients, buffer_ph)
        elif form == "adams-evans":
            lb_acre = _adams_evans_lb_acre(
                coefficients, buffer_ph=buffer_ph, ph_water=ph_water, target_ph=target_ph
            )
        else:
            lb_acre = _woodruff_lb_acre(coefficients, buffer_ph)
    return g_m2_from_lb_acre(lb_acre) * depth_cm / method_depth


def equation_numbers(form: str, coefficients: Sequence[float]) -> list[float]:
    """The coefficients of a form, checked for their count.

    Parameters
    ----------
    form
        One of ``FORMS`` [text].
    coefficients
        Its numbers [see ``FORMS``].

    Returns
    -------
    list of float
        The same numbers [see ``FORMS``].

    Raises
    ------
    InputError
        Where there are too few, too many, or one is not finite.

    Notes
    -----
    Forms take the numbers that ``FORMS`` lists, in its order.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> equation_numbers("woodruff", (7, 1000))
    [7.0, 1000.0]
    """
    allowed = _COUNTS[form]
    if len(coefficients) not in allowed or not all(math.isfinite(c) for c in coefficients):
        raise InputError(f"form “{form}” takes {FORMS[form]}; given {tuple(coefficients)}")
    return [float(c) for c in coefficients]


def adams_evans_unsaturation_frac(ph_water: float, line: Sequence[float]) -> float:
    """Share of the exchange places without base at a pH, after Adams and Evans.

    Parameters
    ----------
    ph_water
        pH in water [pH].
    line
        pH without unsaturation, slope and curvature over the unsaturated share [pH].

    Returns
    -------
    float
        Share, 1 where the curve ends below and 0 above [0-1].

    Notes
    -----
    pH = a - b H + c H^2, solved for the smaller root.

    References
    ----------
    adams-evans-1962

    Examples
    --------
    >>> round(adams_evans_unsaturation_frac(6.5, (7.79, 5.55, 2.27)), 2)
    0.26
    """
    top, slope, curvature = line
    inside = slope * slope - 4.0 * curvature * (top - ph_water)
    if inside <= 0.0:
        return 1.0
    return min(max((slope - math.sqrt(inside)) / (2.0 * curvature), 0.0), 1.0)


def _adams_evans_lb_acre(
    coefficients: Sequence[float], *, buffer_ph: float, ph_water: float, target_ph: float
) -> float:
    reference, per_ph, top, slope, curvature, allowance = equation_numbers(
        "adams-evans", coefficients
    )
    for name, value, limit in (
        ("buffer pH", buffer_ph, reference),
        ("target pH", target_ph, top),
    ):
        if value > limit:
            raise OutOfRangeError(
                f"{name} {value:g} lies beyond {limit:g}, where this buffer finds no acidity and "
                "its equation is not defined; use the buffer curve"
            )
    line = (top, slope, curvature)
    start, end = (adams_evans_unsaturation_frac(ph, line) for ph in (ph_water, target_ph))
    acidity = per_ph * (reference - buffer_ph) * (1.0 - end / start)
    return LB_ACRE_PER_MEQ_100G * acidity * allowance


def _mehlich_lb_acre(
    coefficients: Sequence[float], *, buffer_ph: float, ph_water: float, target_ph: float
) -> float:
    reference, per_ph = equation_numbers("mehlich-nc", coefficients)
    for name, value, passed in (
        ("buffer pH", buffer_ph, buffer_ph < reference),
        ("soil pH", ph_water, ph_water < reference),
        ("target pH", target_ph, target_ph <= reference),
    ):
        if not passed:
            raise OutOfRangeError(
                f"{name} {value:g} lies at or beyond {reference:g}, where this buffer finds no "
                "acidity and its equation is not defined; use the buffer curve"
            )
    acidity = per_ph * (reference - buffer_ph)
    return SHORT_TON_LB * acidity * (target_ph - ph_water) / (reference - ph_water)


def _linear_lb_acre(coefficients: Sequence[float], buffer_ph: float) -> float:
    numbers = equation_numbers("linear-lti", coefficients)
    tons = numbers[0] - numbers[1] * 10.0 * buffer_ph
    if tons < 0.0:
        raise OutOfRangeError(
            f"buffer pH {buffer_ph:g} lies above {numbers[0] / (10.0 * numbers[1]):.2f}, where "
            "this equation crosses zero; it sees no need for lime, so use the buffer curve"
        )
    return SHORT_TON_LB * tons * (numbers[2] if len(numbers) == 3 else 1.0)


def _woodruff_lb_acre(coefficients: Sequence[float], buffer_ph: float) -> float:
    reference, lb_per_tenth = equation_numbers("woodruff", coefficients)
    if buffer_ph >= reference:
        raise OutOfRangeError(
            f"buffer pH {buffer_ph:g} lies at or above {reference:g}, where this buffer finds no "
            "acidity; use the buffer curve"
        )
    return lb_per_tenth * 10.0 * (reference - buffer_ph)


def _penn_state_lb_acre(coefficients: Sequence[float], acidity: float | None) -> float:
    numbers = equation_numbers("penn-state-acidity", coefficients)
    if acidity is None or not 0.0 <= acidity <= 100.0:
        raise InputError(
            "form “penn-state-acidity” needs the exchangeable acidity of the report, 0 to 100 "
            f"meq/100 g; given {acidity}"
        )
    if len(numbers) == 3 and acidity <= numbers[1]:
        return numbers[2]
    return numbers[0] * acidity
