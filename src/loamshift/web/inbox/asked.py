"""A question as the pages show it: what was understood, how urgent it is, what is missing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from time import monotonic
from typing import Final

from loamshift.case.question_text import read_question
from loamshift.domain.case import Case
from loamshift.domain.question import Danger, QuestionRead, Triage, Understood
from loamshift.errors import CaseError
from loamshift.services.triage.triage import triage
from loamshift.store.models import Question
from loamshift.web.beds.case_form import asked_path
from loamshift.web.cases import Tree, case_of, with_fields
from loamshift.web.once import Once

PATIENCE_S: Final = 3.0
"""So long a list thinks about questions nobody has thought about yet [s]."""
_TRIES: Final = 4
_LATER: Final = 1000
"""Facts missing from a question that was not thought about yet, for the order of the list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What was made of a question; ``triage`` is None while nobody has thought about it.

    ``tree`` is the case that its facts make; a fact that no case takes is left out of both.
    """

    facts: tuple[Understood, ...]
    dangers: tuple[Danger, ...]
    tree: Tree
    triage: Triage | None

    @property
    def rank(self) -> tuple[int, int]:
        """By which the list is sorted."""
        if self.triage is not None:
            return self.triage.rank
        order = list(Danger)
        return min((order.index(one) for one in self.dangers), default=len(order)), _LATER


_KNOWN: Final[Once[Asked]] = Once(1024)


def asked(words: str, *, today: date) -> Asked:
    """What a question says, how urgent it is, and what is missing to answer it."""
    return _KNOWN.get((words, today), lambda: _thought(words, today))


def in_order(questions: Iterable[Question], *, today: date) -> list[tuple[Question, Asked]]:
    """Questions with what was made of them, the most dangerous first, then the readiest."""
    ends = monotonic() + PATIENCE_S
    found = []
    for question in questions:
        known = _KNOWN.found((question.words, today))
        if known is None and monotonic() > ends:
            read = read_question(question.words)
            known = Asked(facts=read.facts, dangers=read.dangers, tree={}, triage=None)
        found.append((question, known or asked(question.words, today=today)))
    return sorted(found, key=lambda pair: (*pair[1].rank, pair[0].received_on))


def _thought(words: str, today: date) -> Asked:
    read = read_question(words)
    facts, tree, case = _case_of(read, today)
    found = triage(case, read.dangers)
    return Asked(facts=facts, dangers=found.dangers, tree=tree, triage=found)


def _case_of(read: QuestionRead, today: date) -> tuple[tuple[Understood, ...], Tree, Case]:
    """The case that the facts make, without those that no case takes."""
    facts = read.facts
    for _ in range(_TRIES):
        tree = tree_of(facts)
        try:
            return facts, tree, case_of(tree, today=today)
        except CaseError as error:
            wrong = {".".join(asked_path(fault.path).split(".")[:2]) for fault in error.faults}
            facts = tuple(one for one in facts if one.path not in wrong)
    return (), {}, case_of({}, today=today)


def tree_of(facts: Sequence[Understood]) -> Tree:
    """Facts as the fields of a case."""
    return with_fields({}, [(one.path, one.value) for one in facts])
