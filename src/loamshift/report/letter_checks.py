"""What is worth measuring, and which checks the case did not pass."""

from __future__ import annotations

from collections.abc import Mapping

from loamshift.domain.answer import WIDTH_CHECK, Answer, Decision, Finding, Severity
from loamshift.domain.letter import Block, Items, Matter, Note, Paragraph, Section
from loamshift.report.letter_fields import field_called
from loamshift.report.letter_forecast import width_causes
from loamshift.report.letter_words import counted, raised, sentence, sentences
from loamshift.report.words import Words

_ORDER = (Severity.BLOCK, Severity.CAUTION, Severity.INFO)
_LABELS = {Severity.BLOCK: "Stop", Severity.CAUTION: "Careful", Severity.INFO: "Noted"}

_NOT_COMPARED = ("", "beside")
"""Operators of findings that set a figure beside another, or only pass on a remark."""
_OPERATORS = {
    "<=": "at most",
    "<": "less than",
    ">=": "at least",
    ">": "more than",
    "is not": "anything but",
    "is": "",
}


def worth_measuring(answer: Answer, *, words: Words) -> Section | None:
    """What nobody filled in, why it matters and how to find it out.

    Parameters
    ----------
    answer
        The answer [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section or None
        Nothing where nothing is missing [object].
    """
    if not answer.missing:
        return None
    items = tuple(
        sentences(
            f"**{words.text(field_called(gap.field))}.**",
            sentence(gap.why, words),
            sentence(gap.how, words),
        )
        for gap in answer.missing
    )
    first = answer.verdict.decision is Decision.MEASURE_FIRST
    return Section("Worth measuring", (Items(items),), Matter.BODY if first else Matter.ASIDE)


def checks(answer: Answer, *, numbers: Mapping[str, str], words: Words) -> Section | None:
    """The findings that did not pass, gravest first; the rest only counted.

    Parameters
    ----------
    answer
        The answer [object].
    numbers
        Number of each source in the list at the end [text].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section or None
        Nothing where nothing was checked [object].
    """
    if not answer.findings:
        return None
    failed = [finding for finding in answer.findings if not finding.passed]
    noted = [finding for finding in answer.findings if _is_remark(finding)]
    remarks = [finding for finding in noted if not _is_told_by_a_table(finding, answer)]
    passed = len(answer.findings) - len(failed) - len(noted)
    blocks: list[Block] = [
        Note(_worded(finding, numbers, words), _LABELS[severity])
        for severity in _ORDER
        for finding in failed
        if finding.severity is severity
    ]
    blocks += [Note(_worded(remark, numbers, words), "Noted") for remark in remarks]
    if passed and failed:
        verb = "was" if passed == 1 else "were"
        blocks.append(Paragraph(f"{raised(counted(passed, 'further check'))} {verb} passed."))
    elif passed == 1:
        blocks.append(Paragraph("The one check that could be made was passed."))
    elif passed:
        blocks.append(Paragraph(f"All {counted(passed, 'check')} were passed."))
    return Section("Checks", tuple(blocks), Matter.ASIDE)


def _is_remark(finding: Finding) -> bool:
    """True for what was only noted: nothing was compared, so it can be neither passed nor not."""
    return bool(finding.passed and finding.comment and finding.operator in _NOT_COMPARED)


def _is_told_by_a_table(finding: Finding, answer: Answer) -> bool:
    """True for the width of the forecast, where its causes stand in a table of the letter."""
    return finding.check == WIDTH_CHECK and bool(width_causes(answer))


def _worded(finding: Finding, numbers: Mapping[str, str], words: Words) -> str:
    text = sentence(finding.comment, words) or sentence(_bare(finding), words)
    return text + cited(finding.source_key, numbers)


def _bare(finding: Finding) -> str:
    name = finding.check.replace("_", " ").replace("-", " ")
    if finding.value is None:
        return name
    unit = f" {finding.unit}" if finding.unit else ""
    text = f"{name}: {_value(finding.value)}{unit}"
    if finding.limit is None:
        return text
    operator = _OPERATORS.get(finding.operator, finding.operator)
    expected = f"{operator} {_value(finding.limit)}".strip()
    return f"{text}, where {expected}{unit} was expected"


def _value(value: float | str) -> str:
    return value if isinstance(value, str) else f"{value:.3g}"


def cited(key: str | None, numbers: Mapping[str, str]) -> str:
    """`` [4]`` after a text: where its source stands in the list [text]."""
    if key is None or key not in numbers:
        return ""
    return f" [{numbers[key]}]"
