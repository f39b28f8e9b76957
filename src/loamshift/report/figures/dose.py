"""The need worked out, what of it goes on first, and what printed tables say, on one scale."""

from __future__ import annotations

from typing import NamedTuple

from loamshift import units
from loamshift.domain.answer import Answer, Band, Direction
from loamshift.domain.case import Case
from loamshift.domain.digits import stated
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.report.figures.shared import round_steps
from loamshift.report.letter_need import first_as_pure_g_m2
from loamshift.report.letter_words import bed_noun, counted, raised
from loamshift.report.words import Quantity, Words

_MOST_STEPS = 6


def dose_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The need and the printed tables as two spans, with what goes on first as a mark.

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
    first = _first(answer, case, what, words)
    factor, unit = _scale(words)
    rows = [
        _Row(
            "own",
            f"for this {bed_noun(case)}",
            (band.lo90, band.mid, band.hi90),
            f"{words.band(band, Quantity.RATE)}, middle {words.rate(band.mid)}",
        ),
        *first,
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
        sentence=words.text(_sentence(band, printed, tables, what, case, words, first)),
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
        return (None, self.values[1], None) if self.kind == "first" else self.values


def _first(answer: Answer, case: Case, what: str, words: Words) -> tuple[_Row, ...]:
    """What goes on whatever a test reads, where it can be counted on the same scale."""
    amount = first_as_pure_g_m2(answer, case.own_materials)
    if amount is None:
        return ()
    said = f"{words.rate(amount)} as pure {what}"
    return (_Row("first", "goes on first", (amount, amount, amount), said),)


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
    first: tuple[_Row, ...],
) -> str:
    lead = (
        f"This {bed_noun(case)} takes {words.band(band, Quantity.RATE)} of {what}, nine times in "
        f"ten, middle {words.rate(band.mid)}"
    )
    if first:
        lead += f"; {first[0].said} goes on first"
    says = "says" if tables.startswith("one ") else "say"
    lead += f"; {tables} {says} {words.band(printed, Quantity.RATE)}"
    if band.lo90 <= printed.lo90 and printed.hi90 <= band.hi90:
        return f"{lead}, which lies inside the range of the bed."
    if printed.hi90 < band.lo90:
        return f"{lead}, which is less."
    if printed.lo90 > band.hi90:
        return f"{lead}, which is more."
    return f"{lead}, which overlaps it."
