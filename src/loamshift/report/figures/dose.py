"""The dose worked out beside what printed tables say, on one scale."""

from __future__ import annotations

from loamshift import units
from loamshift.domain.answer import Answer, Band, Direction
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.report.digits import stated
from loamshift.report.figures.shared import round_steps
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
    printed = Band(lo90=spread.low, mid=0.5 * (spread.low + spread.high), hi90=spread.high)
    factor, unit = _scale(words)
    own_said = f"{words.band(band, Quantity.RATE)}, middle {words.rate(band.mid)}"
    printed_said = words.band(printed, Quantity.RATE)
    rows: tuple[tuple[str | float | None, ...], ...] = (
        ("own", f"for this {bed_noun(case)}", *_three(band, factor), own_said),
        (
            "printed",
            tables,
            *_three(printed, factor)[:1],
            None,
            printed.hi90 * factor,
            printed_said,
        ),
    )
    largest = max(band.hi90, printed.hi90) * factor
    steps = tuple((step, stated(step)) for step in round_steps(largest * 1.02, most=_MOST_STEPS))
    return Figure(
        kind=FigureKind.DOSE,
        title=f"{raised(what)} beside printed tables",
        sentence=words.text(_sentence(band, printed, tables, what, case, words)),
        data=(
            DataSet("spans", ("kind", "name", "low", "mid", "high", "said"), rows),
            DataSet("scale", ("rate", "text"), steps),
        ),
        table=Table(
            (Column("by"), Column(f"{what}, from", Align.RIGHT), Column("middle", Align.RIGHT),
             Column("to", Align.RIGHT)),
            (
                (str(rows[0][1]), *(words.rate(v) for v in (band.lo90, band.mid, band.hi90))),
                (tables, words.rate(spread.low), "", words.rate(spread.high)),
            ),
        ),
        labels=(("unit", f"{unit} of {what}"),),
    )  # fmt: skip


def _scale(words: Words) -> tuple[float, str]:
    """What a rate [g/m2] is multiplied by for the scale, and the unit there."""
    if words.units == "us":
        return 1.0 / units.g_m2_from_lb_100ft2(1.0), "lb/100 ft²"
    return 1.0, "g/m²"


def _three(band: Band, factor: float) -> tuple[float, float, float]:
    return band.lo90 * factor, band.mid * factor, band.hi90 * factor


def _sentence(band: Band, printed: Band, tables: str, what: str, case: Case, words: Words) -> str:
    own = words.band(band, Quantity.RATE)
    says = "says" if tables.startswith("one ") else "say"
    lead = (
        f"For this {bed_noun(case)} it takes {own} of {what}, nine times in ten, middle "
        f"{words.rate(band.mid)}; {tables} {says} {words.band(printed, Quantity.RATE)}"
    )
    if band.lo90 <= printed.lo90 and printed.hi90 <= band.hi90:
        return f"{lead}, which lies inside that range."
    if printed.hi90 < band.lo90:
        return f"{lead}, which is less."
    if printed.lo90 > band.hi90:
        return f"{lead}, which is more."
    return f"{lead}, which overlaps it."
