"""Answers as the pages need them: worked out once, kept while the process lives."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache

from loamshift.domain.answer import Answer, Decision
from loamshift.domain.case import Case
from loamshift.domain.letter import Letter
from loamshift.report.letter import letter_from_answer
from loamshift.report.pdf import PaperSize
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead, advise
from loamshift.services.own_sum.margin import margin_sums
from loamshift.store.models import Office
from loamshift.web.cases import case_of
from loamshift.web.letters.letter_page import LetterPage, letter_page
from loamshift.web.products.with_shelf import in_stock, with_shelf
from loamshift.web.wording import ground_of
from loamshift.web.wording import words_of as words_of

MEMBERS = 250
YEARS = 3
SEED = 1


@dataclass(frozen=True, slots=True)
class Answered:
    """A case with its answer and its letter, in the words of one office."""

    case: Case
    answer: Answer
    letter: Letter
    page: LetterPage
    words: Words


def letterhead_of(office: Office) -> tuple[str, ...]:
    """The lines that say on a letter whose it is."""
    return tuple(line.strip() for line in office.letterhead.splitlines() if line.strip())


def paper_of(office: Office) -> PaperSize:
    """The sheet that an office prints on."""
    return PaperSize.A4 if office.paper == "a4" else PaperSize.LETTER


def answered(case_text: str, *, office: Office, today: date, forecast: bool = True) -> Answered:
    """The answer to a case file as of a day, in the words of an office.

    A case that names no products of its own has those of the office's shelf.

    Raises
    ------
    CaseError
        Where the case file cannot be used; it carries every fault with its path.
    """
    case_text = with_shelf(case_text, in_stock(office), today=today)
    head = letterhead_of(office)
    return _answered(case_text, office.words, office.units, head, today, forecast)


@lru_cache(maxsize=256)
def _answered(
    case_text: str,
    spelling: str,
    units: str,
    letterhead: tuple[str, ...],
    today: date,
    forecast: bool,
) -> Answered:
    case = case_of(case_text, today=today)
    look_ahead = LookAhead(members=MEMBERS, seed=SEED, years=YEARS) if forecast else None
    answer = advise(case, look_ahead=look_ahead)
    words = Words(spelling=spelling, units=units, ground=ground_of(case))
    letter = letter_from_answer(answer, case, words=words, sums=margin_sums(case, answer))
    letter = replace(letter, letterhead=letterhead)
    waits = answer.verdict.decision is Decision.MEASURE_FIRST
    return Answered(case, answer, letter, letter_page(letter, words=words, waits=waits), words)
