"""A kept trial opened: its design, its forecast, its readings, and what they show."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from loamshift import __version__
from loamshift.case.trial_forecast import forecast_from_json, forecast_json
from loamshift.case.trial_read import trial_from_tree
from loamshift.case.trial_rows import merged, of_trial, rows_csv
from loamshift.case.trial_sheets import read_record
from loamshift.domain.trial import Prediction, TrialPlan
from loamshift.domain.trial import Trial as TrialDesign
from loamshift.domain.trial_result import Problem, RowRead, TrialResult
from loamshift.services.trial.analyse import analyse
from loamshift.services.trial.design import plan_trial
from loamshift.services.trial.expect import digest_of, predict
from loamshift.store.models import Trial
from loamshift.web.cases import key_of
from loamshift.web.once import Once

_FEW_MEMBERS: Final = 40
"""Possible beds that are enough to choose the days of reading [count]."""
_RESULTS: Final[Once[TrialResult]] = Once(32)
_PLANS: Final[Once[TrialPlan]] = Once(64)


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A trial with its plan, its forecast, and its rows as they were read."""

    plan: TrialPlan
    prediction: Prediction | None
    rows: tuple[RowRead, ...]

    @property
    def trial(self) -> TrialDesign:
        """The trial as designed."""
        return self.plan.trial


def opened(kept: Trial) -> Opened:
    """A kept trial, read.

    Raises
    ------
    InputError
        Where what is kept can no longer be used.
    """
    plan = _PLANS.get(key_of(kept.trial_json), lambda: plan_trial(trial_from_tree(kept.trial_json)))
    rows: tuple[RowRead, ...] = ()
    if kept.readings_text:
        text = kept.readings_text.encode("utf-8")
        rows = read_record(text, trial=plan.trial, name="readings.csv").rows
    prediction = None
    if kept.forecast_text:
        prediction = forecast_from_json(kept.forecast_text, source=kept.name)
    return Opened(plan=plan, prediction=prediction, rows=rows)


def result_of(there: Opened, kept: Trial) -> TrialResult:
    """What a trial shows, worked out once."""
    key = (key_of(kept.trial_json), kept.readings_text, kept.forecast_text)
    return _RESULTS.get(key, lambda: analyse(there.plan, there.rows, prediction=there.prediction))


def keep_design(kept: Trial, tree: dict[str, Any], design: TrialDesign, *, today: date) -> None:
    """Put a design into a trial that has no readings, and make its forecast."""
    if "days" not in tree:
        made = predict(design, today=today, version=__version__, members=_FEW_MEMBERS)
        if made is not None and not design.design.is_of_beds:
            tree = {**tree, "days": list(made.days_advised)}
            design = trial_from_tree(tree)
    kept.trial_json = tree
    kept.name, kept.question, kept.starts_on = design.name, design.question, design.start
    if kept.forecast_text and not kept.readings_text:
        there = forecast_from_json(kept.forecast_text, source=kept.name)
        if there.digest == digest_of(design):
            return
    if kept.readings_text:
        return
    prediction = predict(design, today=today, version=__version__)
    kept.forecast_text = "" if prediction is None else forecast_json(prediction)


def take_rows(kept: Trial, there: Opened, rows: Sequence[RowRead]) -> None:
    """Put rows that belong to the trial beside those it has; what they read again is replaced."""
    kept.readings_text = rows_csv(of_trial(there.plan, merged(there.rows, rows)))


def take_day(kept: Trial, there: Opened, day: int, rows: Sequence[RowRead]) -> None:
    """Put the readings of one day in the place of those that the trial had of it."""
    rest = [row for row in there.rows if row.day != day]
    kept.readings_text = rows_csv(of_trial(there.plan, (*rest, *rows))) if rest or rows else ""


def record_of(
    there: Opened, data: bytes, name: str
) -> tuple[tuple[RowRead, ...], tuple[Problem, ...]]:
    """The rows of a sheet that came back, and cells of it that cannot be read.

    Raises
    ------
    InputError
        Where it is no record sheet.
    """
    read = read_record(data, trial=there.trial, name=name)
    return read.rows, read.problems
