"""The field experiments as the sets that are scored and shown: limed and unlimed apart."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from published import courses
from published.courses import Course, Scored, rows

MEMBERS = 400
THREE_YEARS_DAYS = 3 * 366
KEYS = ("n", "bias", "rmse", "held_90", "held_50", "width", "crps", "crps_share")


@dataclass(frozen=True)
class Study:
    """One experiment with what the forecast was told: a key, what it is, and its source."""

    key: str
    what: str
    source: str


STUDIES = {
    one.key: one
    for one in (
        Study(
            "S01",
            "chalk on arable land at Rothamsted, four treatments, 32 years",
            "Glendining et al. 2023, doi 10.23637/rcs10-soil-01",
        ),
        Study(
            "S02",
            "unlimed meadow at Rothamsted, 1856-2011, begun anew at each reading, at most 50 years",
            "Rothamsted Research 2016, doi 10.23637/KeyRefOAPGsoilpH",
        ),
        Study(
            "S03",
            "barley at Woburn, nothing, ammonium sulfate or sodium nitrate, part limed, 56 years",
            "Glendining 2022 from Crowther 1936, doi 10.23637/wxb6-soil7632-01",
        ),
        Study(
            "S03 unknown",
            "the same barley, its lime told as of unknown grade",
            "Glendining 2022 from Crowther 1936, doi 10.23637/wxb6-soil7632-01",
        ),
        Study(
            "N01 unfed",
            "old grass at Rothamsted ploughed and kept bare, told only that nothing is fed",
            "Poulton et al. 2022, doi 10.23637/rrs1-SOILCN1959-2014-01",
        ),
        Study(
            "N01 unknown",
            "old grass at Rothamsted ploughed and kept bare, told nothing of its use",
            "Poulton et al. 2022, doi 10.23637/rrs1-SOILCN1959-2014-01",
        ),
        Study(
            "N01 turf",
            "old grass at Rothamsted ploughed and kept bare, told just that",
            "Poulton et al. 2022, doi 10.23637/rrs1-SOILCN1959-2014-01",
        ),
    )
}


_COURSES: dict[str, Callable[[], tuple[Course, ...]]] = {
    "S01": courses.sawyers,
    "S02": courses.park_grass,
    "S03": courses.woburn,
    "S03 unknown": lambda: courses.woburn(grade_told=False),
    "N01 unfed": lambda: courses.highfield("unfed"),
    "N01 unknown": lambda: courses.highfield("unknown"),
    "N01 turf": lambda: courses.highfield("unfed", told_turf=True),
}


def courses_of(study: str) -> tuple[Course, ...]:
    """The forecasts of a study, not yet run."""
    return _COURSES[study]()


@cache
def scored(study: str) -> Scored:
    """Every reading of a study; each study runs once, however many sets are cut from it."""
    return courses.score(courses_of(study), members=MEMBERS)


@dataclass(frozen=True)
class CourseSet:
    """Some readings of a study, by what was done to their plot or by how early they were taken."""

    key: str
    study: str
    keep: Callable[[Scored], NDArray[np.bool_]]

    def score(self) -> Scored:
        """These readings only."""
        whole = scored(self.study)
        return whole.only(self.keep(whole))


def _all(whole: Scored) -> NDArray[np.bool_]:
    return np.ones(whole.observed.size, dtype=np.bool_)


def _named(names: frozenset[str], *, early: bool = False) -> Callable[[Scored], NDArray[np.bool_]]:
    def keep(whole: Scored) -> NDArray[np.bool_]:
        found = np.array([name in names for name in whole.names])
        return found & (whole.days <= THREE_YEARS_DAYS) if early else found

    return keep


def _ever_limed() -> frozenset[str]:
    """The plots of S03 that had lime at any time; their readings before it count as limed too."""
    return frozenset(
        row["plot"] for row in rows("time_courses_woburn_inputs.csv") if row["unit"] == "t CaCO3/ha"
    )


def _woburn(*, limed: bool) -> frozenset[str]:
    plots = {row["plot"] for row in rows("time_courses_woburn.csv")}
    return frozenset(plot for plot in plots if (plot in _ever_limed()) == limed)


LIMED_SAWYERS = frozenset("LMH")
SETS = (
    CourseSet("S01 limed", "S01", _named(LIMED_SAWYERS)),
    CourseSet("S01 not limed", "S01", _named(frozenset("0"))),
    CourseSet("S01 low lime", "S01", _named(frozenset("L"))),
    CourseSet("S01 middle lime", "S01", _named(frozenset("M"))),
    CourseSet("S01 high lime", "S01", _named(frozenset("H"))),
    CourseSet("S01 limed, first three years", "S01", _named(LIMED_SAWYERS, early=True)),
    CourseSet("S02", "S02", _all),
    CourseSet("S03 limed", "S03", _named(_woburn(limed=True))),
    CourseSet("S03 limed, grade not told", "S03 unknown", _named(_woburn(limed=True))),
    CourseSet("S03 not limed", "S03", _named(_woburn(limed=False))),
    CourseSet("N01 told unfed", "N01 unfed", _all),
    CourseSet("N01 use not told", "N01 unknown", _all),
    CourseSet("N01 told turf", "N01 turf", _all),
)


def figures(one: Scored) -> dict[str, float]:
    """The figures of a set, by ``KEYS``."""
    crps = float(one.crps.mean())
    return {
        "n": one.observed.size,
        "bias": one.bias,
        "rmse": one.rmse,
        "held_90": one.held,
        "held_50": one.held_half,
        "width": one.width,
        "crps": crps,
        "crps_share": crps / float(one.crps_stays.mean()),
    }


def table() -> Iterator[tuple[str, dict[str, float]]]:
    """Every set with its figures, as the model stands."""
    for one in SETS:
        yield one.key, figures(one.score())


def before() -> dict[str, dict[str, float]]:
    """The same figures as they were before the physics was worked on."""
    return {row["set"]: {key: float(row[key]) for key in KEYS} for row in rows("column_before.csv")}
