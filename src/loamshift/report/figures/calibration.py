"""How many readings the ranges of forecasts held, beside how many they should have."""

from __future__ import annotations

from typing import Final

from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.message import message
from loamshift.domain.score import Calibration, ScoreSummary
from loamshift.report.figures.shared import labels_said
from loamshift.report.messages import say
from loamshift.report.words import Words

FEWEST: Final = 5
"""With fewer readings chance alone can put each point anywhere [count]."""


def calibration_figure(summary: ScoreSummary, *, words: Words) -> Figure | None:
    """The calibration of some forecasts as a figure; None where it could show nothing."""
    if summary.count < FEWEST:
        return None
    beyond = sum(not one.low <= one.share <= one.high for one in summary.calibration)
    return Figure(
        kind=FigureKind.CALIBRATION,
        title=say(message("score-figure-title"), words),
        sentence=say(
            message(
                "score-figure-sentence",
                n=summary.count,
                ranges=len(summary.calibration),
                within=len(summary.calibration) - beyond,
            ),
            words,
        ),
        data=(
            DataSet(
                "ranges",
                ("stated", "share", "low", "high"),
                tuple(
                    tuple(round(100.0 * value, 1) for value in _values(one))
                    for one in summary.calibration
                ),
            ),
        ),
        table=_table(summary, words),
        labels=labels_said(
            words,
            axis=message("score-figure-axis"),
            stated=message("score-figure-stated"),
            chance=message("score-figure-chance"),
            exact=message("score-figure-exact"),
            read=message("score-figure-read", n=summary.count),
        ),
    )


def _values(one: Calibration) -> tuple[float, ...]:
    return one.stated, one.share, one.low, one.high


def _table(summary: ScoreSummary, words: Words) -> Table:
    heads = ("stated", "inside", "share", "chance")
    columns = tuple(
        Column(say(message(f"score-figure-column-{head}"), words), Align.RIGHT) for head in heads
    )
    rows = []
    for one in summary.calibration:
        stated, share, low, high = (round(100.0 * value) for value in _values(one))
        counted = say(message("score-of", inside=one.inside, n=summary.count), words)
        chance = say(message("score-figure-range", low=low, high=high), words)
        rows.append((str(stated), counted, str(share), chance))
    return Table(columns, tuple(rows))
