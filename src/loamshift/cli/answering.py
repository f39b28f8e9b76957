"""From a file on disk to an answer with its letter, as the options of ``advise`` wish it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from datetime import date

    from loamshift.case.frozen import FrozenLetter
    from loamshift.cli.options import UnitsChoice, WordsChoice
    from loamshift.domain.answer import Answer
    from loamshift.domain.case import Case


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """How a case is to be answered, and for which reader."""

    table: str | None = None
    members: int = 250
    seed: int = 1
    years: int = 3
    refit: bool = True
    day: date | None = None
    units: UnitsChoice | None = None
    words: WordsChoice | None = None
    online: bool = False
    """Whether the weather of the last years is asked of the online archive."""
    short: bool = False
    """Whether only the front sheet is printed and written; an answer as JSON is always whole."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """One case with its answer and the letter as this reader gets it."""

    case: Case
    answer: Answer
    frozen: FrozenLetter
    short: bool = False

    @property
    def shown(self) -> FrozenLetter:
        """The letter as it is printed and written: whole, or its front sheet alone."""
        return front_alone(self.frozen) if self.short else self.frozen

    def json(self) -> str:
        """The whole answer with case and letter, as JSON text."""
        from loamshift.case.answer import answer_to_json

        return answer_to_json(self.answer, case=self.case, letter=self.frozen)


def case_in(path: Path, *, day: date | None) -> Case:
    """The case in a file: a case file, or the case that an answer's JSON keeps.

    Parameters
    ----------
    day
        Another date the advice is for, or None for the case's own, else the clock's.

    Raises
    ------
    InputError
        Where it cannot be read, or the day lies before something in it.
    """
    if path.suffix.casefold() == ".json":
        from loamshift.case.answer_file import read_answer_file

        case = read_answer_file(path).case()
    else:
        from loamshift.case.read import read_case
        from loamshift.cli.show import clock_today

        case = read_case(path, today=day or clock_today())
    return case if day is None else dated(case, day)


def answered(path: Path, wish: Wish) -> Answered:
    """The case in a file, answered, with its letter.

    Raises
    ------
    InputError
        Where the file or an option has to be mended.
    """
    from loamshift.case.frozen import FrozenLetter
    from loamshift.cli.show import words_for
    from loamshift.report.letter import letter_from_answer
    from loamshift.services.own_sum.margin import margin_sums

    case = case_in(path, day=wish.day)
    if wish.online:
        from loamshift.cli.online import online_case

        case = online_case(case)
    answer = answer_for(case, wish)
    reader = words_for(wish.units, wish.words, fallback=case.units.value)
    letter = letter_from_answer(answer, case, words=reader, sums=margin_sums(case, answer))
    return Answered(case=case, answer=answer, frozen=FrozenLetter(letter, reader), short=wish.short)


def front_alone(frozen: FrozenLetter) -> FrozenLetter:
    """A letter's front sheet; a letter of an earlier version has none and stays whole."""
    letter = frozen.letter
    return replace(frozen, letter=replace(letter, sections=letter.front or letter.sections))


def answer_for(case: Case, wish: Wish) -> Answer:
    """The answer to a case as wished: by one table, with a forecast or not."""
    if wish.table is not None:
        from loamshift.services.table_plan import plan_by_table

        return plan_by_table(case, wish.table)
    from loamshift.services.advise import LookAhead, advise

    if wish.years == 0:
        return advise(case, refit=wish.refit)
    from loamshift.cli.kernel_ready import ready_kernels

    ready_kernels()
    look_ahead = LookAhead(members=wish.members, seed=wish.seed, years=wish.years, refit=wish.refit)
    return advise(case, look_ahead=look_ahead)


def dated(case: Case, day: date) -> Case:
    """The case as of another day; what has not happened by then cannot be in it.

    Raises
    ------
    InputError
        Where the case has something happen later.
    """
    events = [applied.on for applied in case.applied]
    events += [reading.taken for reading in case.readings if reading.taken is not None]
    if case.soil.sampled is not None:
        events.append(case.soil.sampled)
    late = max((event for event in events if event > day), default=None)
    if late is not None:
        days = {"day": given(day.isoformat()), "late": given(late.isoformat())}
        raise WordedError(message("cli-today-too-early", **days))
    return replace(case, today=day)
