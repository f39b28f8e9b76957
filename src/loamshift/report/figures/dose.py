"""The need, what we suggest to start with, and what published tables give, on one scale."""

from __future__ import annotations

from typing import Final, NamedTuple

from loamshift.domain.answer import Answer, Band, Decision, Direction, PublishedSpread
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.message import Given, Message, message, rate
from loamshift.report.figures.shared import labels_said, prose_said, round_steps
from loamshift.report.letter_need import first_as_pure_g_m2
from loamshift.report.messages import say
from loamshift.report.scales import Scale, scale_for, scales_of
from loamshift.report.words import Quantity, Words

_MOST_STEPS: Final = 6


def dose_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The need and the published tables as two spans, with what to start with as a mark.

    Returns
    -------
    Figure or None
        Nothing where no dose was worked out or no published table covers it.
    """
    dose = answer.dose
    lime = dose.direction is Direction.LIME
    band = dose.lime_as_caco3_g_m2 if lime else dose.sulfur_as_s_g_m2
    spread = dose.published_g_m2
    if band is None or spread is None or spread.n_sources < 1 or band.hi90 <= 0.0:
        return None
    of = "lime" if lime else "sulfur"
    first = _first(answer, case)
    rows = [
        _Row("own", say(message("figure-dose-need"), words), band.lo90, band.mid, band.hi90),
        _Row(
            "printed",
            say(message("figure-dose-tables", n=spread.n_sources), words),
            spread.low,
            None,
            spread.high,
        ),
    ]
    if first is not None:
        name = say(message("figure-dose-first"), words)
        rows.insert(1, _Row("first", name, first, first, first))
    scale = _scale(band, words)
    largest = max(row.high for row in rows) * scale.factor
    rounds = round_steps(largest * 1.02, most=_MOST_STEPS)
    steps = tuple((step, words.worked(step)) for step in rounds)
    return Figure(
        kind=FigureKind.DOSE,
        title=say(message("figure-dose-title", of=of), words),
        sentence=prose_said(_sentences(band, spread, first, of, words), words),
        data=(
            DataSet(
                "spans",
                ("kind", "name", "low", "mid", "high", "said"),
                tuple(_row(row, of, scale, words) for row in rows),
            ),
            DataSet("scale", ("rate", "text"), steps),
        ),
        table=_table(rows, of, words),
        labels=labels_said(
            words, unit=message("figure-dose-unit", of=of, unit=Given(_unit(scale, words)))
        ),
    )


class _Row(NamedTuple):
    """One line of the figure: its name, and its low, best and high value [g/m2]."""

    kind: str
    name: str
    low: float
    mid: float | None
    high: float


def _row(row: _Row, of: str, scale: Scale, words: Words) -> tuple[str | float | None, ...]:
    values = (
        None if v is None else round(v * scale.factor, 3) for v in (row.low, row.mid, row.high)
    )
    return row.kind, row.name, *values, say(_row_said(row, of, words), words)


def _row_said(row: _Row, of: str, words: Words) -> Message:
    if row.kind == "first":
        return message("figure-dose-first-said", of=of, pure=rate(row.low))
    if row.mid is None:
        return message("figure-dose-tables-said", range=rate(row.low, high=row.high))
    if words.rate(row.low) == words.rate(row.high):
        return message("figure-dose-need-mid", mid=rate(row.mid))
    spread = rate(row.low, high=row.high, best=row.mid)
    return message("figure-dose-need-said", range=spread, mid=rate(row.mid))


def _table(rows: list[_Row], of: str, words: Words) -> Table:
    heads = ("figure-dose-column-low", "expect-best", "figure-dose-column-high")
    columns = (
        Column(say(message("figure-dose-column", of=of), words)),
        *(Column(say(message(head), words), Align.RIGHT) for head in heads),
    )
    cells = []
    for row in rows:
        shown = (None, row.mid, None) if row.kind == "first" else (row.low, row.mid, row.high)
        cells.append((row.name, *("" if v is None else words.rate(v) for v in shown)))
    return Table(columns, tuple(cells))


def _first(answer: Answer, case: Case) -> float | None:
    """What the letter suggests to start with, as a pure substance [g/m2]; None without any."""
    if answer.verdict.decision not in (Decision.GO, Decision.EFFORT):
        return None
    return first_as_pure_g_m2(answer, case.own_materials)


def _scale(band: Band, words: Words) -> Scale:
    """The unit in which the letter says the need."""
    scales = scales_of(Quantity.RATE, system=words.units, ground=words.ground)
    return scale_for((band.mid,), scales)


def _unit(scale: Scale, words: Words) -> str:
    """The unit without a number."""
    return words.message(f"unit-{scale.unit}", {"n": ""}).strip()


def _sentences(
    band: Band, spread: PublishedSpread, first: float | None, of: str, words: Words
) -> list[Message]:
    told = [message("need-mid", of=of, mid=rate(band.mid))]
    if words.rate(band.lo90) != words.rate(band.hi90):
        nothing = band.lo90 <= 0.0
        told.append(
            message(
                "figure-dose-range",
                low=None if nothing else rate(band.lo90, best=band.mid),
                high=rate(band.hi90, best=band.mid),
                range=rate(band.lo90, high=band.hi90, best=band.mid),
            )
        )
    if first is not None:
        told.append(message("figure-dose-start", of=of, pure=rate(first)))
    tables = rate(spread.low, high=spread.high, best=band.mid)
    told.append(message("need-published", of=of, n=spread.n_sources, range=tables))
    return [*told, message("figure-dose-beside", beside=_beside(band, spread))]


def _beside(band: Band, spread: PublishedSpread) -> str:
    if band.lo90 <= spread.low and spread.high <= band.hi90:
        return "inside"
    if spread.high < band.lo90:
        return "less"
    return "more" if spread.low > band.hi90 else "overlaps"
