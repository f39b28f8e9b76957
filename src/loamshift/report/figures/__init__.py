"""Figures of a letter: each shapes what an answer holds, says it in a sentence and a table.

Nothing is drawn here; ``loamshift.report.chart`` draws any of them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.figures.claims import claims_figure
from loamshift.report.figures.course import course_figure
from loamshift.report.figures.decides import decides_figure
from loamshift.report.figures.dose import dose_figure
from loamshift.report.figures.ledger import ledger_figure
from loamshift.report.figures.options import options_figure
from loamshift.report.figures.year import year_figure
from loamshift.report.words import Words

FIGURES: Mapping[FigureKind, Callable[..., Figure | None]] = MappingProxyType(
    {
        FigureKind.DECIDES: decides_figure,
        FigureKind.DOSE: dose_figure,
        FigureKind.YEAR: year_figure,
        FigureKind.COURSE: course_figure,
        FigureKind.OPTIONS: options_figure,
        FigureKind.LEDGER: ledger_figure,
        FigureKind.CLAIMS: claims_figure,
    }
)
"""Every kind of figure, in the order of the letter, with what shapes it."""


def figures_of(answer: Answer, case: Case, *, words: Words) -> tuple[Figure, ...]:
    """Every figure that an answer has the data for, in the order of the letter."""
    made = (shape(answer, case, words=words) for shape in FIGURES.values())
    return tuple(figure for figure in made if figure is not None)
