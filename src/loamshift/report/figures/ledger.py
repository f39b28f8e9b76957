"""What pushes the pH each year, as bars on one line."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Ledger, Worded
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Column, DataSet, Figure, FigureKind, Table
from loamshift.report.ledger_lines import called
from loamshift.report.letter_words import as_limestone, as_sulfur, bed_noun, counted, lowered
from loamshift.report.words import Words

_NOTHING_MMOLC_M2 = 5.0
"""Less than a tenth of a gram of sulfur: said as next to nothing, as in the letter's table."""


def ledger_figure(answer: Answer, case: Case, *, words: Words) -> Figure | None:
    """The yearly ledger as bars.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Figure or None
        Nothing where fewer than two lines weigh anything [object].
    """
    ledger = answer.ledger
    if ledger is None:
        return None
    lines = [line for line in ledger.lines if line.value != 0.0]
    if sum(abs(line.value) >= _NOTHING_MMOLC_M2 for line in lines) < 2:
        return None
    lines.sort(key=lambda line: -abs(line.value))
    rows = [
        ("line", _called(line.name, words), round(line.value, 2), _said(line.value, words))
        for line in lines
    ]
    rows.append(("sum", "all together", round(ledger.net, 2), _said(ledger.net, words)))
    data = DataSet("pulls", ("kind", "name", "acid_mmolc_m2_year", "said"), tuple(rows))
    return Figure(
        kind=FigureKind.LEDGER,
        title="What moves the pH in a year",
        sentence=words.text(_sentence(ledger, case, words)),
        data=(data,),
        table=Table(
            (Column("pull"), Column("way"), Column("as much as", Align.RIGHT)),
            tuple((name, _way(value), said) for _, name, value, said in rows),
            "In one year",
        ),
        labels=(("left", "limes"), ("right", "acidifies")),
    )


def _called(name: Worded, words: Words) -> str:
    return lowered(called(name, words))


def _way(value: float) -> str:
    if abs(value) < _NOTHING_MMOLC_M2:
        return "neither"
    return "acidifies" if value > 0.0 else "limes"


def _said(value: float, words: Words) -> str:
    if abs(value) < _NOTHING_MMOLC_M2:
        return "next to nothing"
    return as_sulfur(value, words) if value > 0.0 else as_limestone(value, words)


def _does(value: float, noun: str, words: Words) -> str:
    if abs(value) < _NOTHING_MMOLC_M2:
        return "they come to next to nothing"
    return f"they {'acidify' if value > 0 else 'lime'} the {noun} as much as {_said(value, words)}"


def _sentence(ledger: Ledger, case: Case, words: Words) -> str:
    weighing = [line for line in ledger.lines if abs(line.value) >= _NOTHING_MMOLC_M2]
    largest = max(weighing, key=lambda line: abs(line.value))
    verb = "acidifies" if largest.value > 0.0 else "limes"
    noun = bed_noun(case)
    return (
        f"Of {counted(len(weighing), 'pull')} that count in a year the strongest is "
        f"{_called(largest.name, words)}, which {verb} the {noun} as much as "
        f"{_said(largest.value, words)}; all together {_does(ledger.net, noun, words)}."
    )
