"""Figures of a trial: its differences day by day, and what its size can show."""

from __future__ import annotations

from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.message import Given, message, ph_mean
from loamshift.domain.trial import TrialPlan
from loamshift.domain.trial_result import Difference, TrialResult
from loamshift.report.figures.shared import labels_said
from loamshift.report.messages import say
from loamshift.report.words import Words


def trial_figure(result: TrialResult, *, words: Words) -> Figure | None:
    """Differences from the control with intervals, and the forecast behind them."""
    trial = result.plan.trial
    days = [day for day in result.days if day.rows]
    if not days:
        return None
    points = tuple(
        (
            row.treatment,
            float(day.day),
            float(place),
            row.estimate,
            row.low,
            row.high,
            row.expected,
            row.expected_low,
            row.expected_high,
        )
        for place, day in enumerate(days)
        for row in day.rows
    )
    shown = tuple(
        (float(place), say(message("trial-figure-day", day=day.day), words), str(day.day))
        for place, day in enumerate(days)
    )
    forecast = "yes" if any(row.expected is not None for day in days for row in day.rows) else "no"
    return Figure(
        kind=FigureKind.TRIAL,
        title=say(message("trial-figure-title", control=_control(result.plan)), words),
        sentence=say(
            message("trial-figure-sentence", forecast=forecast, matters=ph_mean(trial.matters_ph)),
            words,
        ),
        data=(
            DataSet(
                "points",
                (
                    *("treatment", "day", "place", "estimate", "low", "high"),
                    *("expected", "expected_low", "expected_high"),
                ),
                points,
            ),
            DataSet("days", ("place", "text", "short"), shown),
            DataSet("matters", ("low", "high"), ((-trial.matters_ph, trial.matters_ph),)),
        ),
        table=differences_table(result, words=words),
        labels=labels_said(
            words,
            axis=message("trial-figure-axis", control=_control(result.plan)),
            days=message("trial-figure-days"),
        ),
    )


def differences_table(result: TrialResult, *, words: Words) -> Table:
    """Every difference of every day with its interval, and what it says."""
    rows = tuple(
        (
            str(day.day),
            row.treatment,
            str(row.n),
            say(message("trial-figure", figure=ph_mean(row.mean)), words),
            say(message("trial-figure", figure=ph_mean(row.estimate)), words),
            interval(row, words),
            say(message("trial-shown", shown=row.shown.value), words),
        )
        for day in result.days
        for row in day.rows
    )
    keys = ("day", "treatment", "pots", "mean", "difference", "interval", "shown")
    right = ("day", "pots", "mean", "difference", "interval")
    columns = tuple(
        Column(
            say(message("trial-column", column=key), words),
            Align.RIGHT if key in right else Align.LEFT,
        )
        for key in keys
    )
    return Table(columns, rows)


def interval(row: Difference, words: Words) -> str:
    """An interval as ``−0.45 to −0.20``."""
    return say(message("trial-figure", figure=ph_mean(row.low, high=row.high)), words)


def trial_size_figure(plan: TrialPlan, *, words: Words) -> Figure:
    """The smallest difference that so many replicates are likely to show."""
    chosen = plan.trial.replicates
    columns = (
        Column(say(message("trial-column", column="replicates"), words), Align.RIGHT),
        Column(say(message("trial-column", column="smallest"), words), Align.RIGHT),
    )
    rows = tuple(
        (str(n), say(message("trial-figure", figure=ph_mean(value)), words))
        for n, value in plan.by_replicates
    )
    return Figure(
        kind=FigureKind.TRIAL_SIZE,
        title=say(message("trial-size-title"), words),
        sentence=say(message("trial-size-sentence", n=chosen), words),
        data=(
            DataSet(
                "sizes",
                ("replicates", "difference"),
                tuple((float(n), value) for n, value in plan.by_replicates),
            ),
            DataSet("chosen", ("replicates",), ((float(chosen),),)),
        ),
        table=Table(columns, rows),
        labels=labels_said(
            words,
            axis=message("trial-size-axis"),
            replicates=message("trial-size-replicates", unit=plan.trial.unit),
        ),
    )


def _control(plan: TrialPlan) -> Given:
    return Given(plan.trial.treatments[0].name)
