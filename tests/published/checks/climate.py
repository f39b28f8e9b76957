"""Soil temperature against the damping depths of a teaching text."""

from __future__ import annotations

from loamshift.core.climate import ClimateParameters, damping_depth_cm
from loamshift.tables.parameters import parameter_values
from published.check import Check, Kind

PRINTED_CM = {"the day": (1.0, 11.7, 0.05), "the year": (365.0, 224.0, 0.5)}
"""Period [d], printed damping depth [cm], half its last digit [cm]."""


def checks() -> list[Check]:
    params = ClimateParameters(**parameter_values("climate"))
    found = []
    for name, (period, printed, half_digit) in PRINTED_CM.items():
        ours = damping_depth_cm(period_d=period, params=params)
        found.append(
            Check(
                topic="climate",
                kind=Kind.ARITHMETIC,
                claim=f"depth at which the temperature wave of {name} is damped to 1/e",
                source="Hillel 1982, as given by Oklahoma State University",
                n=1,
                figure=f"{ours:.2f} cm against {printed:g} printed",
                limit=f"{half_digit:g} cm, half the last printed digit",
                passed=abs(ours - printed) <= half_digit,
            )
        )
    return found
