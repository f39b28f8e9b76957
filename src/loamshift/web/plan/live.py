"""What the sliders of the plan page follow: courses and words worked out ahead."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from itertools import pairwise
from typing import Any, Final

from loamshift.domain.answer import Direction, Forecast, ForecastPh
from loamshift.domain.message import Given, Message, amount, message, ph, rate
from loamshift.report.chart import PAGE_WIDTH_PX, PHONE_WIDTH_PX, chart_inline
from loamshift.report.chart_svg import thinned
from loamshift.report.figures.course import course_figure
from loamshift.report.layout import TOGETHER
from loamshift.report.messages import say
from loamshift.services.what_if import AimStep, WhatIf
from loamshift.store.models import Office
from loamshift.web.answers import Answered, answered, case_key, forecasted
from loamshift.web.cases import Tree
from loamshift.web.once import Once

BANDS: Final = ("q05", "q25", "q50", "q75", "q95")
PER_PH: Final = 100
"""Courses are told in hundredths of a pH."""
_PH_GAP: Final = "{ph}"
"""What the page fills in while a finger moves."""
_SLIDERS: Final[Once[dict[str, Any] | None]] = Once(64)
SHARE_STEP: Final = 0.05
"""From one place of the slider of the first part to the next [share of the plan's part]."""


def sliders_of(tree: Tree, *, office: Office, today: date) -> dict[str, Any] | None:
    """What the sliders of a case follow, in the words of an office; worked out once.

    Raises
    ------
    CaseError
        Where the case file cannot be used.
    """
    key = (case_key(tree, office=office, today=today), office.words, office.units)
    return _SLIDERS.get(key, lambda: _data(tree, office, today))


def _data(tree: Tree, office: Office, today: date) -> dict[str, Any] | None:
    ahead = forecasted(tree, office=office, today=today)
    if ahead.what_if is None:
        return None
    return slider_data(answered(tree, office=office, today=today), ahead.what_if)


def slider_data(found: Answered, surface: WhatIf) -> dict[str, Any] | None:
    """All that the page needs to follow a finger; None where there is nothing to move.

    Returns
    -------
    dict or None
        The course drawn with room for every share, the bands [pH/100] for each share of the plan
        and of the first part, and the amount in words for each aim.
    """
    answer, forecast, words = found.answer, found.answer.forecast, found.words
    plan = answer.plan
    if forecast is None or plan is None or len(surface.aims) < 2:
        return None
    whole = [course.ph for course in surface.whole_plan]
    first = [course.ph for course in surface.first_part]
    figure = course_figure(
        replace(answer, forecast=_with_room(forecast, [*whole, *first])), found.case, words=words
    )
    assert figure is not None
    middle = _nearest_dose(surface)
    area = found.case.bed.area_m2
    most = surface.first_part[-1].share
    planned_g_m2 = sum(part.rate_g_m2 for part in plan.parts or answer.applications)
    return {
        "wide": chart_inline(figure, width=PAGE_WIDTH_PX, moves=True),
        "phone": chart_inline(figure, width=PHONE_WIDTH_PX, moves=True),
        "shares": [course.share for course in surface.whole_plan],
        "plan": _numbers(forecast.ph),
        "whole": [_numbers(ph) for ph in whole],
        "first": [_numbers(ph) for ph in first],
        "aim": surface.ph_aim,
        "aims": [
            {
                "aim": step.ph_aim,
                "share": round(step.mid_g_m2 / middle, 4) if middle > 0.0 else 1.0,
                "said": _whole(say(_amount(step, surface.direction, area), words)),
            }
            for step in surface.aims
        ],
        "parts": [
            {"share": share, "said": _whole(words.rate(planned_g_m2 * share))}
            for share in (round(SHARE_STEP * n, 2) for n in range(round(most / SHARE_STEP) + 1))
        ],
        "until": say(message("advice-try-until", day=forecast.dates[-1], ph=Given(_PH_GAP)), words),
    }


def _with_room(forecast: Forecast, courses: Sequence[ForecastPh]) -> Forecast:
    """Bands that hold every course, so that the axis need not move under the finger."""
    lowest = min(min(ph.q05) for ph in courses)
    highest = max(max(ph.q95) for ph in courses)
    return replace(
        forecast,
        ph=replace(
            forecast.ph,
            q05=(min(lowest, *forecast.ph.q05), *forecast.ph.q05[1:]),
            q95=(max(highest, *forecast.ph.q95), *forecast.ph.q95[1:]),
        ),
    )


def _numbers(ph: ForecastPh) -> list[list[int]]:
    chosen = thinned(len(ph.q50))
    return [[round(getattr(ph, name)[week] * PER_PH) for week in chosen] for name in BANDS]


def _nearest_dose(surface: WhatIf) -> float:
    """The middle dose to the aim itself, between the two steps beside it."""
    aim = surface.ph_aim
    for low, high in pairwise(surface.aims):
        if low.ph_aim <= aim <= high.ph_aim:
            weight = (aim - low.ph_aim) / (high.ph_aim - low.ph_aim)
            return low.mid_g_m2 + weight * (high.mid_g_m2 - low.mid_g_m2)
    return min(surface.aims, key=lambda step: abs(step.ph_aim - aim)).mid_g_m2


def _whole(text: str) -> str:
    """A text whose figures never part from their units."""
    return TOGETHER.sub("\u00a0", text)


def _amount(step: AimStep, direction: Direction, area_m2: float | None) -> Message:
    aim = ph(step.ph_aim)
    if step.mid_g_m2 <= 0.0:
        return message("advice-try-nothing", aim=aim)
    return message(
        "advice-try-amount",
        direction="lime" if direction is Direction.LIME else "acidify",
        aim=aim,
        rate=rate(step.lo90_g_m2, high=step.hi90_g_m2),
        middle=rate(step.mid_g_m2),
        bed=amount(step.mid_g_m2 * area_m2) if area_m2 else None,
    )
