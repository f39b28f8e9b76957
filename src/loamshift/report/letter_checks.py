"""What is worth measuring, and which checks the case did not pass."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from loamshift.domain.answer import WIDTH_CHECK, Answer, Decision, Finding, Missing, Severity
from loamshift.domain.letter import Block, Items, Matter, Note, Paragraph, Section
from loamshift.domain.message import Given, Measure, Message, Quantity, Value, message
from loamshift.report.letter_fields import field_called
from loamshift.report.letter_forecast import width_causes
from loamshift.report.letter_words import sentence
from loamshift.report.letter_worth import how_many_samples, table_of_tests
from loamshift.report.messages import say
from loamshift.report.sources import cited as cited
from loamshift.report.words import Words

_ORDER: Final = (Severity.BLOCK, Severity.CAUTION, Severity.INFO)
_LABELS: Final[Mapping[Severity, Message]] = {
    Severity.BLOCK: message("check-stop"),
    Severity.CAUTION: message("check-caution"),
    Severity.INFO: message("check-note"),
}
_NOT_COMPARED: Final = ("", "beside")
"""Operators of findings that set a figure beside another, or only pass on a remark."""
_OPERATORS: Final[Mapping[str, str]] = {
    "<=": "at-most",
    "<": "below",
    ">=": "at-least",
    ">": "above",
    "is not": "not",
}
_QUANTITIES: Final[Mapping[str, Quantity]] = {
    "g/m2": Quantity.RATE,
    "pH": Quantity.PH,
    "pH in water": Quantity.PH,
    "% CaCO3": Quantity.PERCENT,
    "%": Quantity.PERCENT,
    "share": Quantity.SHARE,
    "cm": Quantity.DEPTH,
    "dS/m, saturated paste": Quantity.EC,
    "dS/m": Quantity.EC,
    "years": Quantity.YEARS,
    "": Quantity.NUMBER,
}
"""Kinds of the figures of findings, by the units that the checks name."""


def worth_measuring(answer: Answer, *, currency: str | None, words: Words) -> Section | None:
    """What nobody filled in, why it matters and how to find it out.

    ``currency`` is the reader's own, as the case has it.
    """
    tests = table_of_tests(answer.worth, currency=currency, words=words)
    weighed = answer.worth is not None and bool(answer.worth.tests)
    samples = how_many_samples(answer.worth, currency=currency, words=words)
    if not answer.missing and not weighed and not samples:
        return None
    items = tuple(missing_line(gap, words=words) for gap in answer.missing)
    told: tuple[Block, ...] = (Items(items),) if items else ()
    if answer.worth is not None and weighed:
        told = (Paragraph(sentence(answer.worth.words, words)), *told)
    first = answer.verdict.decision is Decision.MEASURE_FIRST
    title = say(message("missing-title"), words)
    return Section(title, (*told, *tests, *samples), Matter.BODY if first else Matter.ASIDE)


def missing_line(gap: Missing, *, words: Words) -> str:
    """One thing worth measuring, in Markdown."""
    line = message(
        "missing-line",
        field=Given(field_called(gap.field, words)),
        why=Given(sentence(gap.why, words)),
        how=Given(sentence(gap.how, words)),
    )
    return say(line, words)


def checks(answer: Answer, *, numbers: Mapping[str, str], words: Words) -> Section | None:
    """The findings that did not pass, gravest first; the rest only counted."""
    if not answer.findings:
        return None
    failed = [finding for finding in answer.findings if not finding.passed]
    noted = [finding for finding in answer.findings if _is_remark(finding)]
    remarks = [finding for finding in noted if not _is_told_by_a_table(finding, answer)]
    passed = len(answer.findings) - len(failed) - len(noted)
    blocks: list[Block] = [
        Note(_worded(finding, numbers, words), say(_LABELS[severity], words))
        for severity in _ORDER
        for finding in failed
        if finding.severity is severity
    ]
    note = say(_LABELS[Severity.INFO], words)
    blocks += [Note(_worded(remark, numbers, words), note) for remark in remarks]
    if passed and failed:
        blocks.append(Paragraph(say(message("check-passed-others", n=passed), words)))
    elif passed:
        blocks.append(Paragraph(say(message("check-passed-all", n=passed), words)))
    return Section(say(message("check-title"), words), tuple(blocks), Matter.ASIDE)


def _is_remark(finding: Finding) -> bool:
    """True for what was only noted: nothing was compared, so it can be neither passed nor not."""
    return bool(finding.passed and finding.comment and finding.operator in _NOT_COMPARED)


def _is_told_by_a_table(finding: Finding, answer: Answer) -> bool:
    """True for the width of the forecast, where its causes stand in a table of the letter."""
    return finding.check == WIDTH_CHECK and bool(width_causes(answer))


def _worded(finding: Finding, numbers: Mapping[str, str], words: Words) -> str:
    text = sentence(finding.comment, words) or say(_bare(finding), words)
    return text + cited(finding.source_key, numbers)


def _bare(finding: Finding) -> Message:
    """A finding of an earlier version that has no sentence of its own."""
    name = finding.check.replace("_", " ").replace("-", " ")
    check = Given(name[:1].upper() + name[1:])
    value, limit = finding.value, finding.limit
    if value is None or limit is None:
        told = Given("–") if value is None else _figure(value, finding.unit)
        return message("check-bare", check=check, value=told)
    return message(
        "check-bare-expected",
        check=check,
        operator=_OPERATORS.get(finding.operator, "is"),
        value=_figure(value, finding.unit, against=limit),
        limit=_figure(limit, finding.unit, against=value),
    )


def _figure(value: float | str, unit: str, *, against: float | str | None = None) -> Value:
    """A figure of a finding, in digits that tell it from its limit."""
    if isinstance(value, str):
        return Given(value)
    kind = _QUANTITIES.get(unit)
    if kind is None:
        return Given(f"{value:.3g} {unit}")
    return Measure(kind, value, None, against if isinstance(against, (int, float)) else None)
