"""Advice on one bed from Python: the whole answer, its letter, its tables and its pictures."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cached_property
from os import PathLike, fspath
from pathlib import Path
from typing import Any

from loamshift.domain.answer import (
    Answer,
    Application,
    ClaimResult,
    Decision,
    Dose,
    Ledger,
    Option,
    Verdict,
)
from loamshift.domain.case import Case
from loamshift.domain.letter import Figure, Letter
from loamshift.domain.message import Given, Listed, message
from loamshift.domain.worded_error import WordedError
from loamshift.python.case_input import CaseLike, as_case
from loamshift.python.frames import Library, frame_of
from loamshift.python.kernels import ready_for_forecast
from loamshift.python.page import sections_piece
from loamshift.python.picture import Picture
from loamshift.python.reader import Spelling, Units, worded_errors, words_of
from loamshift.python.tables import TableName, columns_of
from loamshift.report.chart import chart_svg
from loamshift.report.chart_tones import Tone
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead
from loamshift.services.advise import advise as answer_case

_FIRST = ("course", "decides", "dose", "ledger")
"""Pictures by how much they show, the first that there is being shown where none is named."""


class Advice:
    """The answer to one case, and what can be made of it.

    Attributes
    ----------
    case
        What was asked [object].
    answer
        Every key of the answer, as ``docs/answer-keys.md`` lists them [object].
    words
        Units and spelling of what is written [object].
    """

    def __init__(self, case: Case, answer: Answer, words: Words) -> None:
        self.case = case
        self.answer = answer
        self.words = words

    @property
    def verdict(self) -> Verdict:
        """The decision and its reason."""
        return self.answer.verdict

    @property
    def decision(self) -> Decision:
        """Leave, go, effort, elsewhere, measure first or stop."""
        return self.answer.verdict.decision

    @property
    def because(self) -> str:
        """Why, in sentences [text]."""
        return say(self.answer.verdict.because, self.words)

    @property
    def dose(self) -> Dose:
        """Acid [mmolc/kg] and sulfur or lime [g/m2], from the curve and the free carbonate."""
        return self.answer.dose

    @property
    def applications(self) -> tuple[Application, ...]:
        """The dated parts of the plan [g/m2]."""
        return self.answer.applications

    @property
    def options(self) -> tuple[Option, ...]:
        """Other products that bring as much [g/m2]."""
        return self.answer.options

    @property
    def ledger(self) -> Ledger | None:
        """What pushes the pH each year [mmolc/m2/yr]."""
        return self.answer.ledger

    @property
    def claims(self) -> tuple[ClaimResult, ...]:
        """The claims that the case asks about, settled [mmolc/m2]."""
        return self.answer.claims

    @property
    def retest(self) -> tuple[date, ...]:
        """When to test again [date]."""
        return self.answer.retest

    @cached_property
    def letter(self) -> Letter:
        """The letter before it is printed [object]."""
        from loamshift.report.letter import letter_from_answer
        from loamshift.services.own_sum.margin import margin_sums

        sums = margin_sums(self.case, self.answer)
        return letter_from_answer(self.answer, self.case, words=self.words, sums=sums)

    def text(self, *, width: int = 88) -> str:
        """The letter as plain text, so many characters wide [count]."""
        from loamshift.report.terminal import letter_text

        return letter_text(self.letter, width=width)

    def markdown(self) -> str:
        """The letter in Markdown [text]."""
        from loamshift.report.markdown import letter_markdown

        return letter_markdown(self.letter)

    def html(self) -> str:
        """The letter as one page that loads nothing from elsewhere [HTML]."""
        from loamshift.report.html import letter_html

        return letter_html(self.letter, words=self.words)

    def json(self) -> str:
        """What ``loamshift advise --json`` prints: answer, case and letter [JSON]."""
        from loamshift.case.answer import answer_to_json
        from loamshift.case.frozen import FrozenLetter

        letter = FrozenLetter(self.letter, self.words)
        return answer_to_json(self.answer, case=self.case, letter=letter)

    def pdf(self) -> bytes:
        """The letter on paper, A4 or US Letter by the units.

        Returns
        -------
        bytes
            A tagged PDF [bytes].

        Raises
        ------
        InputError
            Where the part that sets paper is not installed; it names the line to install it.
        """
        from loamshift.report.pdf import PaperSize, letter_pdf

        size = PaperSize.LETTER if self.words.units == "us" else PaperSize.A4
        with worded_errors():
            return letter_pdf(self.letter, paper=size, words=self.words)

    def save(self, path: str | PathLike[str]) -> Path:
        """Write the letter by the ending of a name: .txt, .md, .html, .json or .pdf.

        Parameters
        ----------
        path
            The file [path].

        Returns
        -------
        Path
            The file [path].

        Raises
        ------
        InputError
            For another ending, or where a part is not installed.
        """
        file = Path(fspath(path))
        makers: dict[str, Callable[[], str | bytes]] = {
            ".txt": self.text,
            ".md": self.markdown,
            ".html": self.html,
            ".json": self.json,
            ".pdf": self.pdf,
        }
        make = makers.get(file.suffix.casefold())
        if make is None:
            endings = Listed(tuple(Given(ending) for ending in makers), either=True)
            with worded_errors():
                raise WordedError(
                    message("python-letter-ending", path=Given(str(file)), endings=endings)
                )
        made = make()
        if isinstance(made, bytes):
            file.write_bytes(made)
        else:
            file.write_text(made, encoding="utf-8")
        return file

    def to_frame(self, table: TableName | None = None, *, library: Library | None = None) -> Any:
        """One table of the answer as a data frame.

        Parameters
        ----------
        table
            ``forecast`` (the course of the pH by week), ``plan``, ``ledger``, ``options`` or
            ``findings``; None for the forecast, or the plan where none was made [text].
        library
            ``pandas`` or ``polars``; None for the one that is installed [text].

        Returns
        -------
        DataFrame
            Units are in the names of the columns [object].

        Raises
        ------
        InputError
            Where the answer has no such table, or the library is not installed.
        """
        chosen = table or ("plan" if self.answer.forecast is None else "forecast")
        with worded_errors():
            return frame_of(columns_of(self.answer, chosen, self.words), library)

    def plot(self, picture: str | None = None, *, width: int = 620) -> Picture:
        """One picture of the letter.

        Parameters
        ----------
        picture
            ``course``, ``decides``, ``dose``, ``ledger``, ``options``, ``claims`` or ``year``; None
            for the course, or what comes nearest [text].
        width
            Width, 280 or more [px].

        Returns
        -------
        Picture
            SVG that a notebook shows [object].

        Raises
        ------
        InputError
            Where the letter has no such picture; it lists those it has.
        """
        found = self._figures()
        name = picture or next((one for one in (*_FIRST, *found) if one in found), None)
        with worded_errors():
            if name is None:
                raise WordedError(message("python-no-picture"))
            if name not in found:
                has = Listed(tuple(Given(one) for one in found))
                raise WordedError(
                    message("python-no-such-picture", given=Given(name), pictures=has)
                )
        figure = found[name]
        return Picture(chart_svg(figure, tone=Tone.LIGHT, width=width), figure.sentence)

    def _figures(self) -> dict[str, Figure]:
        from loamshift.report.chart_files import letter_figures

        return {figure.kind.value: figure for figure in letter_figures(self.letter)}

    def _repr_html_(self) -> str:
        letter = self.letter
        return sections_piece(letter.title, letter.subtitle, letter.front or letter.sections)

    def __repr__(self) -> str:
        return f"<Advice on {self.answer.name}: {self.decision.value}>"


def advise(
    case: CaseLike,
    *,
    years: int = 3,
    members: int = 250,
    seed: int = 1,
    refit: bool = True,
    units: Units | None = None,
    spelling: Spelling | None = None,
) -> Advice:
    """Advice on one bed: the verdict first, then dose, dated parts, forecast, upkeep and cautions.

    Parameters
    ----------
    case
        A case, the path of a case file, or a dictionary with its keys [object].
    years
        How far to forecast; 0 for an answer without a forecast, in about 0.1 s [years].
    members
        How many possible beds are forecast, 3 to 20000 [count].
    seed
        Seed of their draw; the same seed gives the same answer [number].
    refit
        False sets aside what later readings teach about the bed [truth].
    units
        ``metric`` or ``us`` for what is written; None as the case asks [text].
    spelling
        ``uk`` or ``us``; None follows the units [text].

    Returns
    -------
    Advice
        The answer with its letter, tables and pictures [object].

    Raises
    ------
    CaseError
        Where the case cannot be used; it carries every fault found.

    References
    ----------
    The sources of each answer stand in ``answer.sources``; ``docs/why`` has the equations.

    Examples
    --------
    >>> case = {"soil": {"ph": 6.6, "texture": "loam"}, "aim": {"plant": "cabbage"}}
    >>> advise(case, years=0).decision
    <Decision.LEAVE: 'leave'>
    """
    given = as_case(case)
    words = words_of(given, units=units, spelling=spelling)
    with worded_errors():
        if years == 0:
            return Advice(given, answer_case(given, refit=refit), words)
        ready_for_forecast()
        ahead = LookAhead(members=members, seed=seed, years=years, refit=refit)
        return Advice(given, answer_case(given, look_ahead=ahead), words)


def dose(case: CaseLike) -> Dose:
    """How much acid or lime one bed takes, by its buffer curve and free carbonate.

    Parameters
    ----------
    case
        A case, the path of a case file, or a dictionary with its keys [object].

    Returns
    -------
    Dose
        ``direction``; ranges with ``lo90``, ``mid`` and ``hi90`` of acid [mmolc/kg] and of sulfur
        as S or lime as CaCO3 [g/m2], None where the verdict is to leave the bed or to stop.

    Raises
    ------
    CaseError
        Where the case cannot be used; it carries every fault found.

    See Also
    --------
    dose_table : the same step for many soils, without a verdict.

    Examples
    --------
    >>> case = {"soil": {"ph": 5.6, "texture": "sandy loam"}, "aim": {"plant": "cabbage"}}
    >>> dose(case).direction
    <Direction.LIME: 'lime'>
    """
    return advise(case, years=0).dose
