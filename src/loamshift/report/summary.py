"""Many cases at a glance: what was decided for each, how much goes on, where its letter is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from loamshift.domain.answer import Answer, Decision
from loamshift.domain.letter import Column, Letter, Paragraph, Section, Table
from loamshift.domain.message import Listed, Product, amount, message, rate
from loamshift.report.headline import sure_parts
from loamshift.report.messages import say
from loamshift.report.words import Words


def decision_said(decision: Decision, words: Words) -> str:
    """A decision in two words, for a list."""
    return say(message("summary-decision", decision=decision.value), words)


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseRow:
    """One case of many: what was decided and where its letter is, or what is wrong with it."""

    name: str
    decision: Decision | None = None
    amount: str = ""
    written: str = ""
    fault: str = ""

    def with_letter(self, written: str) -> CaseRow:
        """The same once the letter is written into files of these names."""
        return replace(self, written=written)


def answered_row(name: str, answer: Answer, *, words: Words) -> CaseRow:
    """The line of a case with an answer, small enough to keep for thousands of cases."""
    amount = amount_said(answer, words=words)
    return CaseRow(name=name, decision=answer.verdict.decision, amount=amount)


def amount_said(answer: Answer, *, words: Words) -> str:
    """What goes on, in one cell of a table: in all, or first where a test decides the rest."""
    by_rule = answer.plan is not None and bool(answer.plan.decides)
    parts = sure_parts(answer) if by_rule else answer.applications
    if not parts:
        return ""
    said = []
    for key in dict.fromkeys(part.material for part in parts):
        mine = [part for part in parts if part.material == key]
        amounts = [part.amount_g for part in mine if part.amount_g is not None]
        much = (
            amount(sum(amounts))
            if len(amounts) == len(mine)
            else rate(sum(part.rate_g_m2 for part in mine))
        )
        said.append(message("summary-material", amount=much, product=Product(key)))
    whole = message(
        "summary-amounts-then-test" if by_rule else "summary-amounts",
        amounts=Listed(tuple(said)),
        n=len({part.date for part in parts}),
        provisional="yes" if answer.verdict.decision is Decision.MEASURE_FIRST else "no",
    )
    return say(whole, words)


def summary_letter(
    rows: Sequence[CaseRow], *, unreached: int = 0, where: str = "", words: Words | None = None
) -> Letter:
    """A table with one line for each case, and how many of them were answered.

    Parameters
    ----------
    rows
        The cases in the order they were taken.
    unreached
        Cases that were not begun [count].
    words
        Spelling and units of the reader; British where None.
    """
    reader = words or Words()
    titles = ("case", "decision", "amount", "letter")
    columns = tuple(Column(say(message(f"summary-column-{title}"), reader)) for title in titles)
    table = Table(columns, tuple(_cells(row, reader) for row in rows))
    answered = sum(1 for row in rows if row.decision is not None)
    count = message(
        "summary-count",
        answered=answered,
        all=len(rows) + unreached,
        faulty=len(rows) - answered,
        unreached=unreached,
    )
    closing = f"{say(count, reader)} {where}".strip()
    blocks = ((table,) if rows else ()) + (Paragraph(closing),)
    return Letter("", "", (Section(None, blocks),))


def _cells(row: CaseRow, words: Words) -> tuple[str, str, str, str]:
    if row.decision is None:
        return (row.name, "–", "", row.fault)
    return (row.name, decision_said(row.decision, words), row.amount, row.written)
