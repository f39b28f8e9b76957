"""Answers as the pages need them: worked out once, kept while the process lives."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from typing import Final, TypeAlias

from loamshift.domain.answer import Answer, Decision
from loamshift.domain.case import Case
from loamshift.domain.letter import Letter
from loamshift.report.letter import front_letter, letter_from_answer
from loamshift.report.pdf import PaperSize
from loamshift.report.words import Words
from loamshift.services.advise import advise
from loamshift.services.own_sum.margin import margin_sums
from loamshift.store.models import Office
from loamshift.web.cases import Tree, key_of
from loamshift.web.forecasts import FORECASTS, Forecasted
from loamshift.web.letters.letter_page import LetterPage, letter_page
from loamshift.web.once import Once
from loamshift.web.online_weather import OFF, case_with_weather, weather_key
from loamshift.web.products.with_shelf import Entry, case_with_shelf, in_stock, shelf_entries
from loamshift.web.turns import stays
from loamshift.web.wording import ground_of

CaseKey: TypeAlias = tuple[str, tuple[Entry, ...], date, str, str]


@dataclass(frozen=True, slots=True)
class Answered:
    """A case with its answer and its letter, in the words of one office."""

    case: Case
    answer: Answer
    letter: Letter
    page: LetterPage
    words: Words


_CASES: Final[Once[Case]] = Once(256)
_AHEAD: Final[Once[Forecasted]] = Once(128)
_AT_ONCE: Final[Once[Answered]] = Once(128)
_WHOLE: Final[Once[Answered]] = Once(256)


def letterhead_of(office: Office) -> tuple[str, ...]:
    """The lines that say on a letter whose it is."""
    return tuple(line.strip() for line in office.letterhead.splitlines() if line.strip())


def paper_of(office: Office) -> PaperSize:
    """The sheet that an office prints on."""
    return PaperSize.A4 if office.paper == "a4" else PaperSize.LETTER


def case_key(tree: Tree, *, office: Office, today: date) -> CaseKey:
    """What two cases share that have the same answer: tree, shelf, day, weather and currency."""
    weather = weather_key(wanted=office.online_weather)
    return key_of(tree), shelf_entries(in_stock(office)), today, weather, office.currency


def answered(
    tree: Tree, *, office: Office, today: date, gone: Callable[[], bool] = stays
) -> Answered:
    """The whole answer to the tree of a case as of a day, in the words of an office.

    A case that names no products of its own has those of the office's shelf.

    Parameters
    ----------
    gone
        Says, while a forecast waits for its turn, whether nobody wants the answer any more.

    Raises
    ------
    CaseError
        Where the case cannot be used; it carries every fault with its path.
    GoneError
        Where ``gone`` said so.
    """
    key = case_key(tree, office=office, today=today)

    def make() -> Answered:
        answer = _ahead(tree, key, gone).answer
        return _worded(_case(tree, key), answer, office, whole=True)

    return _WHOLE.get((key, *_reader(office)), make)


def answered_already(tree: Tree, *, office: Office, today: date) -> Answered | None:
    """The whole answer where it is known already; None where it would have to be worked out."""
    return _WHOLE.found((case_key(tree, office=office, today=today), *_reader(office)))


def answered_at_once(tree: Tree, *, office: Office, today: date) -> Answered:
    """The answer without a forecast: the verdict, the amounts and the front sheet, no working.

    Raises
    ------
    CaseError
        Where the case cannot be used; it carries every fault with its path.
    """
    key = case_key(tree, office=office, today=today)

    def make() -> Answered:
        case = _case(tree, key)
        return _worded(case, advise(case), office, whole=False)

    return _AT_ONCE.get((key, *_reader(office)), make)


def forecasted(tree: Tree, *, office: Office, today: date) -> Forecasted:
    """The answer with its forecast and what sliders follow, before it is put into words.

    Raises
    ------
    CaseError
        Where the case cannot be used; it carries every fault with its path.
    """
    return _ahead(tree, case_key(tree, office=office, today=today), stays)


def _case(tree: Tree, key: CaseKey) -> Case:
    _, entries, today, weather, currency = key

    def make() -> Case:
        case = case_with_shelf(tree, entries, today=today, currency=currency)
        return case_with_weather(case, wanted=weather != OFF)

    return _CASES.get(key, make)


def _ahead(tree: Tree, key: CaseKey, gone: Callable[[], bool]) -> Forecasted:
    case = _case(tree, key)
    return _AHEAD.get(key, lambda: FORECASTS.of(case, gone))


def _reader(office: Office) -> tuple[str, str, tuple[str, ...]]:
    return office.words, office.units, letterhead_of(office)


def _worded(case: Case, answer: Answer, office: Office, *, whole: bool) -> Answered:
    words = Words(spelling=office.words, units=office.units, ground=ground_of(case))
    if whole:
        letter = letter_from_answer(answer, case, words=words, sums=margin_sums(case, answer))
    else:
        letter = front_letter(answer, case, words=words)
    letter = replace(letter, letterhead=letterhead_of(office))
    waits = answer.verdict.decision is Decision.MEASURE_FIRST
    return Answered(case, answer, letter, letter_page(letter, words=words, waits=waits), words)
