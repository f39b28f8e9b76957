"""What each column is, with the reason, and what has to be asked before it may enter a case."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import islice
from typing import Final

from loamshift.case.intake.asked import IGNORE, answer_key, name_of, path_of, quantity_of, told_of
from loamshift.case.intake.columns import Read
from loamshift.case.intake.headings import plain_words
from loamshift.case.intake.methods import SOLUTIONS, with_method
from loamshift.case.intake.nutrients import enters_case, with_nutrients
from loamshift.case.intake.proposal import Aspect, ColumnMeaning, Finding, Place
from loamshift.case.intake.table import Column, Table
from loamshift.case.intake.told_apart import told_apart
from loamshift.case.intake.understood import Understood
from loamshift.case.intake.units_of_columns import with_unit
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, Message, Prose, message
from loamshift.tables.header_words import HeaderWord
from loamshift.tables.report_quantities import load_report_quantities

_WORDS_OF_METHOD: Final = frozenset(SOLUTIONS)


def understand(
    table: Table, reads: Sequence[Read], told: Mapping[str, str]
) -> tuple[Understood, ...]:
    """Every column of a table.

    Parameters
    ----------
    told
        Answers by their keys, of this person or remembered of the laboratory.
    """
    labels = _labels(table)
    columns = [
        _meaning(table, c, r, label, told)
        for c, r, label in zip(table.columns, reads, labels, strict=True)
    ]
    columns = [with_unit(table, one, columns, told) for one in columns]
    columns = [with_method(table, one, told) for one in columns]
    columns = told_apart(with_nutrients(columns, told))
    return tuple(columns)


def _labels(table: Table) -> list[str]:
    """What each column is called: its heading, with its letters where two have it."""
    texts = [column.heading.text for column in table.columns]
    several = {text for text in texts if texts.count(text) > 1}
    return [
        f"{text} [{column.letters}]" if text in several else text
        for text, column in zip(texts, table.columns, strict=True)
    ]


def _meaning(
    table: Table, column: Column, read: Read, label: str, told: Mapping[str, str]
) -> Understood:
    heading = column.heading
    place = Place(sheet=table.sheet, row=table.headed_in, column=column.letters)
    answered = told_of(told, label, Aspect.MEANING)
    found = heading.meanings
    reasons: list[Message] = []
    findings: list[Finding] = []
    sure = enters = True
    if answered is not None:
        key = "" if answered == IGNORE else answered
        reasons.append(message("intake-why-told"))
    elif not found:
        key, sure = "", True
        reasons.append(message("intake-why-unknown"))
    else:
        word = found[0]
        if len(found) > 1:
            word = _by_unit(found, heading.unit)
            sure = heading.unit != ""
        key = word.key
        reasons.append(message("intake-why-words", words=Given(heading.matched)))
        if column.heading.text in table.legend:
            reasons.append(message("intake-why-legend"))
        unexplained = [
            one for one in heading.left if one not in _WORDS_OF_METHOD and not one.isdigit()
        ]
        years = [one for one in heading.left if one.isdigit() and len(one) == 4]
        enters = enters_case(key, plain_words(heading.text), (*unexplained, *years))
        if (unexplained or years) and path_of(key) and enters:
            sure = False
    known = quantity_of(key) if enters else None
    if known is not None and answered is None and not read.is_numeric and (read.words or read.days):
        sure = False
    meaning = ColumnMeaning(
        place=place,
        heading=label,
        meaning=key,
        path=path_of(key) if enters else "",
        unit=heading.unit,
        method="",
        reason=Prose(tuple(reasons)),
        sure=sure,
        remembered=answered is not None,
        values=tuple(islice((cell for cell in column.cells if cell), 3)),
    )
    if not sure:
        findings.append(_ask_meaning(meaning, heading.left))
    return Understood(
        meaning=meaning, column=column, read=read, quantity=known, findings=tuple(findings)
    )


def _by_unit(found: Sequence[HeaderWord], unit: str) -> HeaderWord:
    """Of several things that a heading may be, the one that its unit fits."""
    quantities = load_report_quantities()
    for word in found:
        known = quantities.get(word.key)
        if (known is not None and unit in known.units) or (known is None and unit == "mg/kg"):
            return word
    return found[0]


def _ask_meaning(meaning: ColumnMeaning, left: Sequence[str]) -> Finding:
    return Finding(
        code="column-unsure",
        severity=Severity.CAUTION,
        said=message(
            "intake-column-unsure",
            heading=Given(meaning.heading),
            taken=name_of(meaning.meaning),
            left=Given(" ".join(left)) if left else None,
        ),
        question=message(
            "intake-ask-meaning", heading=Given(meaning.heading), taken=name_of(meaning.meaning)
        ),
        key=answer_key(meaning.heading, Aspect.MEANING),
        choices=(meaning.meaning, IGNORE),
        places=(meaning.place,),
    )
