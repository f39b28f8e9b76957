"""The dose worked out beside what printed tables say, on one scale."""

from __future__ import annotations

from typing import NamedTuple

from loamshift import units
from loamshift.domain.answer import Answer, Band, Direction, DoseLimit
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.report.digits import stated
from loamshift.report.figures.shared import round_steps, short_date
from loamshift.report.letter_words import bed_noun, counted, raised
from loamshift.report.words import Quantity, Words

_MOST_STEPS = 6


def dose_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The dose and the printed tables as two spans.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Figure or None
        Nothing where no dose was worked out or no printed table covers it [object].
    """
    dose = answer.dose
    lime = dose.direction is Direction.LIME
    band = dose.lime_as_caco3_g_m2 if lime else dose.sulfur_as_s_g_m2
    spread = dose.published_g_m2
    if band is None or spread is None or spread.n_sources < 1 or band.hi90 <= 0.0:
        return None
    what = words.text("lime" if lime else "sulfur")
    tables = counted(spread.n_sources, "printed table")
    printed = Band(lo90=spread.low, mid=spread.low, hi90=spread.high)
    ahead = _ahead(answer, words)
    factor, unit = _scale(words)
    rows = [
        _Row(
            "own",
            "by the curve" if ahead else f"for this {bed_noun(case)}",
            (band.lo90, band.mid, band.hi90),
            f"{words.band(band, Quantity.RATE)}, middle {words.rate(band.mid)}",
        ),
        *ahead,
        _Row(
            "printed", tables, (spread.low, None, spread.high), words.band(printed, Quantity.RATE)
        ),
    ]
    largest = max(row.values[2] for row in rows) * factor
    steps = tuple((step, stated(step)) for step in round_steps(largest * 1.02, most=_MOST_STEPS))
    titles = ("by", f"{what}, from", "middle", "to")
    return Figure(
        kind=FigureKind.DOSE,
        title=f"{raised(what)} beside printed tables",
        sentence=words.text(_sentence(band, printed, tables, what, case, words, ahead)),
        data=(
            DataSet(
                "spans",
                ("kind", "name", "low", "mid", "high", "said"),
                tuple(
                    (row.kind, row.name, *_times(row.values, factor), words.text(row.said))
                    for row in rows
                ),
            ),
            DataSet("scale", ("rate", "text"), steps),
        ),
        table=Table(
            (Column(titles[0]), *(Column(title, Align.RIGHT) for title in titles[1:])),
            tuple(
                (row.name, *("" if v is None else words.rate(v) for v in row.shown)) for row in rows
            ),
        ),
        labels=(("unit", f"{unit} of {what}"),),
    )


class _Row(NamedTuple):
    """One line of the figure: low, middle and high [g/m2], and how it is said."""

    kind: str
    name: str
    values: tuple[float, float | None, float]
    said: str

    @property
    def shown(self) -> tuple[float | None, float | None, float | None]:
        """What the table tells: a single amount stands in the middle."""
        return (None, self.values[1], None) if self.kind == "forecast" else self.values


def _ahead(answer: Answer, words: Words) -> tuple[_Row, ...]:
    """The amount by the forecast, where the plan goes by one."""
    told = answer.dose.by_forecast
    if told is None or not answer.applications:
        return ()
    amount = told.sulfur_as_s_g_m2 or told.lime_as_caco3_g_m2 or 0.0
    if amount <= 0.0:
        return ()
    said = f"{words.rate(amount)}, for {short_date(told.by, words)}"
    stops = told.limited_by in (DoseLimit.RISK, DoseLimit.CAPS)
    name = "the plan stops at" if stops else "by the forecast"
    return (_Row("forecast", name, (amount, amount, amount), said),)


def _times(
    values: tuple[float, float | None, float], factor: float
) -> tuple[float | None, float | None, float | None]:
    low, mid, high = (None if value is None else round(value * factor, 3) for value in values)
    return low, mid, high


def _scale(words: Words) -> tuple[float, str]:
    """What a rate [g/m2] is multiplied by for the scale, and the unit there."""
    if words.units == "us":
        return 1.0 / units.g_m2_from_lb_100ft2(1.0), "lb/100 ft²"
    return 1.0, "g/m²"


def _sentence(
    band: Band,
    printed: Band,
    tables: str,
    what: str,
    case: Case,
    words: Words,
    ahead: tuple[_Row, ...],
) -> str:
    by = "By the curve this" if ahead else "This"
    lead = (
        f"{by} {bed_noun(case)} takes {words.band(band, Quantity.RATE)} of {what}, nine times in "
        f"ten, middle {words.rate(band.mid)}"
    )
    if ahead:
        lead += f", and {ahead[0].name} {words.rate(ahead[0].values[0])}"
    says = "says" if tables.startswith("one ") else "say"
    lead += f"; {tables} {says} {words.band(printed, Quantity.RATE)}"
    if band.lo90 <= printed.lo90 and printed.hi90 <= band.hi90:
        return f"{lead}, which lies inside the range of the {'curve' if ahead else 'bed'}."
    if printed.hi90 < band.lo90:
        return f"{lead}, which is less."
    if printed.lo90 > band.hi90:
        return f"{lead}, which is more."
    return f"{lead}, which overlaps it."
