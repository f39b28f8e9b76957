"""The live figure of the plan page: its specification, and its rows at each step of a slider."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Final

from loamshift.domain.answer import Answer, Band, Forecast
from loamshift.domain.case import Case
from loamshift.domain.letter import Figure
from loamshift.report.chart import chart_data, chart_spec
from loamshift.report.chart_tones import Tone
from loamshift.report.figures.course import course_figure
from loamshift.report.words import Quantity, Words
from loamshift.services.understand import understand
from loamshift.services.what_if import ShareCourse, WhatIf, what_if
from loamshift.web.answers import SEED, YEARS, Answered

TONES: Final = {"light": Tone.LIGHT, "dark": Tone.DARK}
_DIGITS: Final = 3


def slider_data(found: Answered, *, words: Words, tone: Tone, width: int) -> dict[str, Any] | None:
    """All that the page needs to follow a finger; None where there is nothing to move.

    Parameters
    ----------
    found
        Case and answer [object].
    words
        Spelling and units of the reader [object].
    tone
        Light or dark paper [enumeration].
    width
        Width of the figure [px].

    Returns
    -------
    dict or None
        The specification with its rows once, the bands for each share of the plan and of the
        first part, and the dose in words for each aim.
    """
    answer, case = found.answer, found.case
    surface = what_if(understand(case), answer.dose, answer.applications, seed=SEED, years=YEARS)
    if surface is None or answer.forecast is None:
        return None
    widest = _figure(answer, case, _widest(surface, answer.forecast), words)
    middle = _nearest_dose(surface)
    return {
        "spec": chart_spec(widest, tone=tone, width=width, live=True),
        "rows": {
            name: [dict(row) for row in rows]
            for name, rows in chart_data(widest, tone=tone, width=width).items()
        },
        "shares": [course.share for course in surface.whole_plan],
        "whole": [_numbers(course) for course in surface.whole_plan],
        "first": [_numbers(course) for course in surface.first_part],
        "aim": surface.ph_aim,
        "aims": [
            {
                "aim": step.ph_aim,
                "share": round(step.mid_g_m2 / middle, 4) if middle > 0.0 else 1.0,
                "said": words.band(
                    Band(lo90=step.lo90_g_m2, mid=step.mid_g_m2, hi90=step.hi90_g_m2), Quantity.RATE
                ),
            }
            for step in surface.aims
        ],
        "first_rates": [
            words.rate(answer.applications[0].rate_g_m2 * course.share)
            for course in surface.first_part
        ],
    }


def _numbers(course: ShareCourse) -> dict[str, list[float]]:
    return {
        name: [round(value, _DIGITS) for value in getattr(course.ph, name)]
        for name in ("q05", "q25", "q50", "q75", "q95")
    }


def _nearest_dose(surface: WhatIf) -> float:
    nearest = min(surface.aims, key=lambda step: abs(step.ph_aim - surface.ph_aim))
    return nearest.mid_g_m2


def _widest(surface: WhatIf, forecast: Forecast) -> Forecast:
    """Bands that hold every course, so that the axis need not move under the finger."""
    courses = [course.ph for course in (*surface.whole_plan, *surface.first_part)]
    low = tuple(min(values) for values in zip(*(ph.q05 for ph in courses), strict=True))
    high = tuple(max(values) for values in zip(*(ph.q95 for ph in courses), strict=True))
    return replace(forecast, ph=replace(forecast.ph, q05=low, q95=high))


def _figure(answer: Answer, case: Case, forecast: Forecast, words: Words) -> Figure:
    figure = course_figure(replace(answer, forecast=forecast), case, words=words)
    assert figure is not None
    return figure
