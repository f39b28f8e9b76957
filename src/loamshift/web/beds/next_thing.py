"""What a bed needs next: from the last letter that was sent, else from a quick look today."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Final
from uuid import UUID

from loamshift.domain.answer import Answer, Decision
from loamshift.domain.case import Case
from loamshift.errors import InputError
from loamshift.services.advise import advise
from loamshift.web.cases import Tree, case_of, key_of

EARLY: Final = timedelta(days=30)
"""A test taken this much before its day counts as that test."""
SOON: Final = timedelta(days=14)
"""A part is offered to be logged this much before its day: people spread when the weather suits."""


@dataclass(frozen=True, slots=True)
class Part:
    """One dated part of a plan: its day, material, rate [g/m2] and depth to work it in to [cm]."""

    on: date
    material: str
    rate_g_m2: float
    incorporate_cm: float


@dataclass(frozen=True, slots=True)
class NextThing:
    """A part or a test with its day; or only the decision, where neither is due.

    ``kind`` is measure, part, test, nothing or fault; ``what`` names the material of a part, or
    the fact that is to be found out first.
    """

    kind: str
    on: date | None
    what: str
    decision: str
    is_sent: bool

    def is_late(self, today: date) -> bool:
        """True for a day that has passed."""
        return self.on is not None and self.on < today


MOST_KNOWN: Final = 4096
_known: dict[tuple[str, UUID | None, date], NextThing] = {}


@dataclass(frozen=True, slots=True)
class _Due:
    """Parts and tests as an answer has them; ``first`` what is to be found out before any."""

    day: date
    first: str
    parts: tuple[Part, ...]
    tests: tuple[date, ...]
    decision: str


def next_thing(
    tree: Tree, sent: UUID | None, *, today: date, read: Callable[[UUID], str]
) -> NextThing:
    """What to do next on a bed.

    Parameters
    ----------
    sent
        The last letter sent, which never changes; None where there is none [id].
    read
        Gives the answer of a letter as JSON; asked only where nothing is known yet.
    """
    key = (key_of(tree), sent, today)
    if key not in _known:
        if len(_known) >= MOST_KNOWN:
            _known.clear()
        _known[key] = _worked_out(tree, "" if sent is None else read(sent), today)
    return _known[key]


def is_known(tree: Tree, sent: UUID | None, *, today: date) -> bool:
    """True where the answer costs nothing, because it was asked before."""
    return (key_of(tree), sent, today) in _known


def _worked_out(tree: Tree, letter: str, today: date) -> NextThing:
    try:
        case = case_of(tree, today=today)
        due = _from_letter(letter) if letter else None
        if due is not None and (due.first or _is_read(due, case)):
            due = None  # what the test decides is said by a look today
        is_sent = due is not None
        if due is None:
            due = _from_answer(case, advise(case))
    except InputError:
        return NextThing("fault", None, "", "", False)
    return _earliest(due, case, is_sent=is_sent)


def due_part(
    case: Case, answer: Answer, sent: UUID | None, *, read: Callable[[UUID], str]
) -> Part | None:
    """The part of the plan that is to be applied by now or within two weeks; None where none is.

    Parameters
    ----------
    answer
        Today's answer, which counts where no letter was sent, or all of its parts are done.
    sent
        The last letter sent [id].
    read
        Gives the answer of a letter as JSON.
    """
    due = None if sent is None else _from_letter(read(sent))
    is_open = due is not None and not due.first and not _is_read(due, case)
    left = due.parts[_put_on(case, since=due.day) :] if due is not None and is_open else ()
    if not left:
        today = _from_answer(case, answer)
        left = () if today.first else today.parts
    first = min(left, key=lambda part: part.on, default=None)
    return first if first is not None and first.on <= case.today + SOON else None


def _put_on(case: Case, *, since: date) -> int:
    """Entries of what was put on from a day on [count]."""
    return sum(entry.on >= since for entry in case.applied)


def _is_read(due: _Due, case: Case) -> bool:
    """True where the first test of a letter has come: what goes on next it only says by a table."""
    return bool(due.tests) and any(
        taken is not None and taken > due.day and taken >= min(due.tests) - EARLY
        for taken in _taken(case)
    )


def _taken(case: Case) -> list[date | None]:
    """The days of all tests of a bed, None for one without."""
    return [one.taken for one in (*case.readings, *([case.soil.ph] if case.soil.ph else []))]


def _from_answer(case: Case, answer: Answer) -> _Due:
    parts = [
        Part(part.date, part.material, part.rate_g_m2, part.incorporate_cm)
        for part in answer.applications
        if part.only_if is None
    ]
    waits = answer.verdict.decision is Decision.MEASURE_FIRST and bool(answer.missing)
    first = answer.missing[0].field if waits else ""
    return _Due(case.today, first, tuple(parts), answer.retest, str(answer.verdict.decision))


def _from_letter(text: str) -> _Due | None:
    """Parts and tests of a frozen answer; None where it is not of a shape known here."""
    try:
        tree = json.loads(text)
        day = date.fromisoformat(tree["today"])
        parts = [
            Part(
                date.fromisoformat(part["date"]),
                str(part["material"]),
                float(part["rate_g_m2"]),
                float(part["incorporate_cm"]),
            )
            for part in _rows(tree, "applications")
            if part.get("only_if") is None
        ]
        tests = [date.fromisoformat(test) for test in tree.get("retest") or []]
        decision = str(tree["verdict"]["decision"])
        first = decision if decision == Decision.MEASURE_FIRST else ""
    except (ValueError, KeyError, TypeError, AttributeError):
        return None
    return _Due(day, first, tuple(parts), tuple(tests), decision)


def _rows(tree: Mapping[str, Any], key: str) -> Sequence[Mapping[str, Any]]:
    return tree.get(key) or []


def _earliest(due: _Due, case: Case, *, is_sent: bool) -> NextThing:
    """Parts are done in their order by what was put on since; tests by readings near their day."""
    if due.first:
        return NextThing("measure", None, due.first, due.decision, is_sent)
    put_on = _put_on(case, since=due.day) if is_sent else 0
    read = _taken(case)
    tests = [
        day
        for day in due.tests
        if not any(taken is not None and taken > due.day and taken >= day - EARLY for taken in read)
    ]
    coming = [("part", part.on, part.material) for part in due.parts[put_on:]]
    coming += [("test", day, "") for day in tests]
    if not coming and is_sent:
        return _earliest(_from_answer(case, advise(case)), case, is_sent=False)
    if not coming:
        return NextThing("nothing", None, "", due.decision, is_sent)
    kind, on, what = min(coming, key=lambda one: one[1])
    return NextThing(kind, on, what, due.decision, is_sent)
