"""What pushes the pH each year, as bars on one line."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Ledger, LedgerLine
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.domain.message import Message, message, rate
from loamshift.report.figures.shared import labels_said, prose_said
from loamshift.report.ledger_lines import (
    called,
    effect_of,
    equal_g_m2,
    in_text,
    named,
    worth,
)
from loamshift.report.messages import say
from loamshift.report.words import Words


def ledger_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The yearly ledger as bars.

    Returns
    -------
    Figure or None
        Nothing where fewer than two lines weigh anything.
    """
    ledger = answer.ledger
    if ledger is None:
        return None
    lines = [line for line in ledger.lines if line.value != 0.0]
    weighing = [line for line in lines if effect_of(line.value) is not None]
    if len(weighing) < 2:
        return None
    lines.sort(key=lambda line: -abs(line.value))
    net = LedgerLine(name=message("ledger-net"), value=ledger.net)
    every = [*(("line", line) for line in lines), ("sum", net)]
    rows = tuple(
        (kind, called(named(line), words), round(line.value, 2), _said(line.value, words))
        for kind, line in every
    )
    columns = (
        Column(say(message("ledger-column-line"), words)),
        Column(say(message("ledger-column-effect"), words)),
        Column(say(message("ledger-column-worth"), words), Align.RIGHT),
    )
    cells = tuple(_cells(line, words) for _, line in every)
    return Figure(
        kind=FigureKind.LEDGER,
        title=say(message("figure-ledger-title"), words),
        sentence=prose_said(_sentences(ledger, weighing), words),
        data=(DataSet("pulls", ("kind", "name", "acid_mmolc_m2_year", "said"), rows),),
        table=Table(columns, cells),
        labels=labels_said(
            words,
            left=message("ledger-effect", effect="lime"),
            right=message("ledger-effect", effect="acidify"),
        ),
    )


def _said(value: float, words: Words) -> str:
    """What stands at the end of a bar: what it equals, or that it is next to nothing."""
    equals = worth(value)
    return say(message("ledger-effect", effect=None) if equals is None else equals, words)


def _cells(line: LedgerLine, words: Words) -> tuple[str, str, str]:
    effect = say(message("ledger-effect", effect=effect_of(line.value)), words)
    equals = worth(line.value)
    return called(named(line), words), effect, "" if equals is None else say(equals, words)


def _sentences(ledger: Ledger, weighing: list[LedgerLine]) -> tuple[Message, Message]:
    largest = max(weighing, key=lambda line: abs(line.value))
    return (
        message(
            "figure-ledger-strongest",
            n=len(weighing),
            line=in_text(named(largest)),
            effect=effect_of(largest.value),
            amount=rate(equal_g_m2(largest.value)),
        ),
        message(
            "figure-ledger-net",
            effect=effect_of(ledger.net),
            amount=rate(equal_g_m2(ledger.net)),
        ),
    )
