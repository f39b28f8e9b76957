"""The course of the pH from Python: under the plan, and with the bed left alone."""

from __future__ import annotations

from typing import Any

from loamshift.domain.answer import Forecast
from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import WordedError
from loamshift.python.advice import Advice, advise
from loamshift.python.case_input import CaseLike
from loamshift.python.frames import Library
from loamshift.python.page import image
from loamshift.python.picture import Picture
from loamshift.python.reader import Spelling, Units, worded_errors
from loamshift.report.messages import say


class PhCourse:
    """A forecast: what careful tests would read, week by week.

    Attributes
    ----------
    forecast
        Dates, quantiles of pH, and the middle of the bed left alone [pH in water].
    advice
        The advice whose plan it follows [object].
    """

    def __init__(self, forecast: Forecast, advice: Advice) -> None:
        self.forecast = forecast
        self.advice = advice

    def to_frame(self, *, library: Library | None = None) -> Any:
        """A row for each week.

        Parameters
        ----------
        library
            ``pandas`` or ``polars``; None for the one that is installed [text].

        Returns
        -------
        DataFrame
            ``date``, ``ph_q05`` to ``ph_q95`` and ``left_alone_ph_q50`` [pH in water].

        Raises
        ------
        InputError
            Where the library is not installed.
        """
        return self.advice.to_frame("forecast", library=library)

    def plot(self, *, width: int = 620) -> Picture:
        """The course as a picture.

        It is drawn for every forecast, also where the letter has a reason to leave it out.

        Parameters
        ----------
        width
            Width, 280 or more [px].

        Returns
        -------
        Picture
            SVG that a notebook shows [object].
        """
        from loamshift.report.chart import chart_svg
        from loamshift.report.chart_tones import Tone
        from loamshift.report.figures.course import course_figure

        advice = self.advice
        figure = course_figure(advice.answer, advice.case, words=advice.words)
        assert figure is not None  # a forecast has at least two dates
        return Picture(chart_svg(figure, tone=Tone.LIGHT, width=width), figure.sentence)

    def _repr_html_(self) -> str:
        picture = self.plot()
        return f'<div class="loamshift">{image(picture.svg, picture.sentence)}</div>'

    def __repr__(self) -> str:
        first, last = self.forecast.dates[0], self.forecast.dates[-1]
        return f"<PhCourse of {self.advice.answer.name}: {first} to {last}>"


def forecast(
    case: CaseLike,
    *,
    years: int = 3,
    members: int = 250,
    seed: int = 1,
    refit: bool = True,
    units: Units | None = None,
    spelling: Spelling | None = None,
) -> PhCourse:
    """The course of the pH of a bed over the next years.

    Parameters
    ----------
    case
        A case, the path of a case file, or a dictionary with its keys [object].
    years
        How far, 1 to 50 [years].
    members
        How many possible beds, 25 to 20000 [count].
    seed
        Seed of their draw; the same seed gives the same forecast [number].
    refit
        False sets aside what later readings teach about the bed [truth].
    units
        ``metric`` or ``us`` for what is written; None as the case asks [text].
    spelling
        ``uk`` or ``us``; None follows the units [text].

    Returns
    -------
    PhCourse
        Quantiles by week [pH in water], with its table and picture.

    Raises
    ------
    CaseError
        Where the case cannot be used; it carries every fault found.
    InputError
        Where no forecast can be made of this soil; it says why.

    Notes
    -----
    The first call on a machine compiles for some fifteen seconds; its machine code is then kept.

    References
    ----------
    ``docs/why/column.md`` has the equations with their sources, ``docs/trust.md`` how far they
    have been checked.
    """
    advice = advise(
        case, years=years, members=members, seed=seed, refit=refit, units=units, spelling=spelling
    )
    found = advice.answer.forecast
    if found is None:
        reasons = [say(row.comment, advice.words) for row in advice.answer.findings]
        with worded_errors():
            raise WordedError(message("python-no-forecast", why=Given(" ".join(reasons[-1:]))))
    return PhCourse(found, advice)
