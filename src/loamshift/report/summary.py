"""Many cases at a glance: what was decided for each, how much goes on, where its letter is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from loamshift.domain.answer import Answer, Decision
from loamshift.domain.letter import Column, Letter, Paragraph, Section, Table
from loamshift.report.headline import sure_parts
from loamshift.report.letter_words import counted, material_in_text
from loamshift.report.words import Words

DECISIONS = {
    Decision.STOP: "stop",
    Decision.LEAVE: "leave alone",
    Decision.MEASURE_FIRST: "test first",
    Decision.ELSEWHERE: "elsewhere",
    Decision.EFFORT: "with effort",
    Decision.GO: "go ahead",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseRow:
    """One case of many: what was decided and where its letter is, or what has to be mended."""

    name: str
    decision: Decision | None = None
    amount: str = ""
    written: str = ""
    fault: str = ""

    def with_letter(self, written: str) -> CaseRow:
        """The same once the letter is written into files of these names [text]."""
        return replace(self, written=written)


def answered_row(name: str, answer: Answer, *, words: Words) -> CaseRow:
    """The line of a case with an answer, small enough to keep for thousands of cases.

    Parameters
    ----------
    name
        What the case is called [text].
    answer
        Its answer [object].
    words
        Spelling and units of the reader [object].
    """
    amount = amount_said(answer, words=words)
    return CaseRow(name=name, decision=answer.verdict.decision, amount=amount)


def amount_said(answer: Answer, *, words: Words) -> str:
    """What goes on, in one cell of a table: in all, or first where a test decides the rest.

    Parameters
    ----------
    answer
        The answer [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    str
        Such as ``3.4 kg sulphur powder, two parts`` or ``1.1 kg sulphur powder, then a test
        decides``, or nothing [text].
    """
    by_rule = answer.plan is not None and bool(answer.plan.decides)
    parts = sure_parts(answer) if by_rule else answer.applications
    if not parts:
        return ""
    said = []
    for key in dict.fromkeys(part.material for part in parts):
        mine = [part for part in parts if part.material == key]
        amounts = [part.amount_g for part in mine if part.amount_g is not None]
        much = (
            words.amount(sum(amounts))
            if len(amounts) == len(mine)
            else words.rate(sum(part.rate_g_m2 for part in mine))
        )
        said.append(f"{much} {material_in_text(key, words).split(' (')[0]}")
    days = len({part.date for part in parts})
    lead = "if so, " if answer.verdict.decision is Decision.MEASURE_FIRST else ""
    count = f", {counted(days, 'part')}" if days > 1 else ""
    if by_rule:
        count += ", then a test decides"
    return f"{lead}{' and '.join(said)}{count}"


def summary_letter(rows: Sequence[CaseRow], *, unreached: int = 0, where: str = "") -> Letter:
    """A table with one line for each case, and how many of them were answered.

    Parameters
    ----------
    rows
        The cases in the order they were taken [rows].
    unreached
        Cases that were not begun [count].
    where
        Where the letters are, as a sentence [text].

    Returns
    -------
    Letter
        Table and closing line [object].
    """
    table = Table(
        (Column("case"), Column("decision"), Column("goes on"), Column("letter, or what to mend")),
        tuple(_cells(row) for row in rows),
    )
    answered = sum(1 for row in rows if row.decision is not None)
    faulty = len(rows) - answered
    parts = [f"{answered} of {len(rows) + unreached} answered"]
    if faulty:
        parts.append(f"{faulty} to mend")
    if unreached:
        parts.append(f"{unreached} not begun")
    closing = f"{', '.join(parts)}. {where}".strip()
    blocks = ((table,) if rows else ()) + (Paragraph(closing),)
    return Letter("", "", (Section(None, blocks),))


def _cells(row: CaseRow) -> tuple[str, str, str, str]:
    if row.decision is None:
        return (row.name, "–", "", row.fault)
    return (row.name, DECISIONS[row.decision], row.amount, row.written)
