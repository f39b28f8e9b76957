"""Letters that go out: frozen whole, opened as they were, compared with today on request."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache, partial
from typing import Any

from loamshift.case.answer import answer_from_json, answer_to_json
from loamshift.case.answer_file import AnswerFile, answer_file_from_json
from loamshift.case.frozen import FrozenLetter
from loamshift.case.frozen_case import case_to_plain
from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.letter import Letter
from loamshift.domain.message import Worded, message
from loamshift.domain.worded_error import WordedError
from loamshift.errors import CaseError
from loamshift.report.changes import changes_letter
from loamshift.report.drawable import drawable
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead, advise
from loamshift.services.changes import changes
from loamshift.store.models import Bed, Office, SentLetter
from loamshift.web.answers import Answered, answered
from loamshift.web.cases import Tree, key_of
from loamshift.web.forecasts import FORECASTS, MEMBERS, SEED
from loamshift.web.products.with_shelf import Entry, case_with_shelf, in_stock, shelf_entries
from loamshift.web.wording import words_of


def letter_to_send(bed: Bed, *, office: Office, today: date) -> SentLetter:
    """The letter of a bed as it stands, whole and frozen, not kept yet.

    Raises
    ------
    CaseError
        Where the case file of the bed cannot be used; it carries every fault.
    """
    found = answered(bed.case_json, office=office, today=today)
    return SentLetter(
        bed=bed,
        title=(bed.name or found.letter.title)[:200],
        sent_on=today,
        decision=str(found.answer.verdict.decision),
        answer_text=frozen_text(found),
    )


def frozen_text(found: Answered) -> str:
    """The whole answer with its case and its letter, as it is kept and taken along."""
    frozen = FrozenLetter(found.letter, found.words)
    return answer_to_json(found.answer, case=found.case, letter=frozen, words=found.words)


@dataclass(frozen=True, slots=True)
class Opened:
    """A kept letter, opened; ``problem`` says why it cannot be shown."""

    file: AnswerFile | None
    letter: FrozenLetter | None
    problem: Worded


def opened(sent: SentLetter) -> Opened:
    """A kept letter as it was said; nothing is worked out again."""
    try:
        file = answer_file_from_json(sent.answer_text, source=sent.title)
    except CaseError as error:
        return Opened(None, None, str(error))
    if file.letter is None:
        return Opened(file, None, message("letters-no-letter"))
    frozen = file.letter
    return Opened(file, replace(frozen, letter=drawable(frozen.letter, frozen.words)), "")


def today_differs(
    answer_text: str, *, office: Office, today: date, now: Tree | None = None
) -> Letter:
    """What a bed would be told today, beside what was told.

    It is answered with the seed, members and years of the letter, so that chance is no reason
    for a difference.

    Parameters
    ----------
    now
        The case of the bed as it is now, with what was applied and tested since; None for the
        case of the letter itself.

    Raises
    ------
    InputError
        Where the letter keeps no case, or today's tables do not understand it or the bed.
    """
    shelf = () if now is None else shelf_entries(in_stock(office))
    key = "" if now is None else key_of(now)
    return _today_differs(answer_text, key, shelf, words_of(office), today, office.currency)


@lru_cache(maxsize=32)
def _today_differs(
    answer_text: str,
    key: str,
    shelf: tuple[Entry, ...],
    words: Words,
    today: date,
    currency: str,
) -> Letter:
    file = answer_file_from_json(answer_text)
    case = file.case()
    day = max(today, case.today)
    fresh_case = replace(case, today=day)
    if key:
        fresh_case = case_with_shelf(json.loads(key), shelf, today=day, currency=currency)
    fresh = _answered_like(fresh_case, file.answer)
    before, now = file.answer.made_by, fresh.made_by
    same = (before.tables, before.model, before.version) == (now.tables, now.model, now.version)
    between = None
    if not same and fresh_case != case:
        between = _answered_like(case, file.answer)
    found = changes(
        file.answer,
        fresh,
        old_case=_table(file.kept_case),
        new_case=case_to_plain(fresh_case),
        between=between,
    )
    return changes_letter(found, words=words, in_words=True)


def _answered_like(case: Case, like: Answer) -> Answer:
    """A case answered now with the settings of another answer, its numbers as a file has them."""
    made = like.made_by
    ahead = None
    if made.years:
        ahead = LookAhead(
            members=made.members or MEMBERS,
            seed=SEED if made.seed is None else made.seed,
            years=made.years,
            refit=like.refit is None or like.refit.used,
        )
    answer = FORECASTS.take(partial(advise, case, look_ahead=ahead))
    return answer_from_json(answer_to_json(answer))


def _table(kept: Any) -> dict[str, Any]:
    if not isinstance(kept, dict):
        raise WordedError(message("letters-no-case"))
    return kept
