"""Invented beds with a forecast, a soil year and figures, to try charts on."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

from loamshift.domain.answer import (
    Answer,
    DoNothing,
    Forecast,
    ForecastPh,
    PlanRule,
    SoilTemperature,
    Wanted,
)
from loamshift.domain.case import Case
from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.figures import figures_of
from loamshift.report.words import Words
from report.answers import ALL

UK, US = Words("uk", "metric"), Words("us", "us")
WEEKS = 157
COURSES = {
    "go-acidify": (6.6, 5.4, (5.0, 6.0), ("camellia",)),
    "go-lime": (5.3, 6.5, (6.1, 6.8), ("tomato", "cabbage")),
    "effort": (6.9, 5.3, (4.5, 5.2), ("highbush blueberry",)),
    "elsewhere": (7.9, 7.8, (4.5, 6.0), ("rhododendron",)),
    "measure-first": (6.8, 5.9, (5.5, 6.5), ()),
    "stop": (3.9, 4.1, (4.5, 5.5), ("highbush blueberry",)),
    "rule": (6.8, 5.4, (4.8, 5.8), ("azalea",)),
    "open-lime": (7.6, 5.6, (4.5, 5.5), ("heather",)),
    "leave": (6.3, 6.2, (6.0, 6.6), ()),
}
"""Where the middle starts and ends, the range wanted, and whose it is."""


def seen_ahead(name: str, *, weeks: int = WEEKS) -> tuple[Answer, Case]:
    """A bed by its short name with an invented course and an invented soil year."""
    answer, case = ALL[name]()
    start, end, (low, high), names = COURSES[name]
    mid = [end + (start - end) * math.exp(-week / 30.0) for week in range(weeks)]
    spread = {"q05": -0.8, "q25": -0.3, "q50": 0.0, "q75": 0.35, "q95": 0.9}
    ph = {
        key: tuple(m + s * min(1.0, 0.2 + week / 40.0) for week, m in enumerate(mid))
        for key, s in spread.items()
    }
    year = range(53)
    return replace(
        answer,
        plan=_with_courses(answer, mid),
        wanted=Wanted(ph_low=low, ph_high=high, ph_aim=0.5 * (low + high), names=names),
        forecast=Forecast(
            dates=tuple(answer.today + timedelta(weeks=week) for week in range(weeks)),
            ph=ForecastPh(**ph),
            do_nothing=DoNothing(q50=tuple(start + 0.001 * week for week in range(weeks))),
        ),
        soil_temperature=SoilTemperature(
            depth_cm=10.0,
            dates=tuple(answer.today + timedelta(weeks=week) for week in year),
            c=tuple(
                11.0 + 9.0 * math.cos(2 * math.pi * ((answer.today.timetuple().tm_yday - 205) / 365
                                                     + week / 52.14)) for week in year
            ),
        ),
    ), case  # fmt: skip


def _with_courses(answer: Answer, mid: list[float]) -> PlanRule | None:
    """The plan, its test lines with invented courses that come together in a year."""
    if answer.plan is None or not answer.plan.decides:
        return answer.plan
    found = []
    for number, line in enumerate(answer.plan.decides):
        start = (line.test - answer.today).days // 7
        off = 0.4 * (number - 0.5 * (len(answer.plan.decides) - 1))
        after = tuple(ph + off * math.exp(-k / 30.0) for k, ph in enumerate(mid[start:]))
        found.append(replace(line, ph_after=after or None))
    return replace(answer.plan, decides=tuple(found))


def figures(name: str, words: Words = UK, *, weeks: int = WEEKS) -> dict[FigureKind, Figure]:
    """The figures of a bed by their kind."""
    answer, case = seen_ahead(name, weeks=weeks)
    return {figure.kind: figure for figure in figures_of(answer, case, words=words)}


def every_figure() -> Iterator[tuple[str, Figure]]:
    """Every figure of every bed for both readers, under a name."""
    for name in COURSES:
        for words in (UK, US):
            for kind, figure in figures(name, words).items():
                yield f"{name}, {kind.value}, {words.units}", figure
