"""What was understood of a file, as lines for a person."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from loamshift.cli.show import worded
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, Listed, Prose, message

if TYPE_CHECKING:
    from loamshift.case.intake.proposal import ColumnMeaning, Finding, Place, Proposal
    from loamshift.report.words import Words


_COLUMNS = ("column", "heading", "meaning", "known", "use")
_WIDEST = 30


def proposal_lines(file: str, proposal: Proposal, words: Words) -> Iterator[str]:
    """The columns with their reasons, then what is asked, then what else was noticed."""
    entered = sum(len(row.values) > 1 for row in proposal.rows)
    yield worded(
        message("intake-text-head", file=Given(file), count=len(proposal.rows), entered=entered),
        words,
    )
    sheets = dict.fromkeys(one.place.sheet for one in proposal.mapping)
    for sheet in sheets:
        used = [one for one in proposal.mapping if one.meaning and one.place.sheet == sheet]
        if used:
            yield ""
            if len(sheets) > 1:
                yield worded(message("intake-text-sheet", sheet=Given(sheet)), words)
            yield from _table(used, words)
    yield from finding_lines(proposal.findings, words, named=len(sheets) > 1)


def finding_lines(
    findings: Sequence[Finding], words: Words, *, named: bool = False
) -> Iterator[str]:
    """Questions with what can be answered, then everything else.

    Parameters
    ----------
    named
        Whether rows are told with their sheet.
    """
    asked = [one for one in findings if one.question is not None]
    others = [one for one in findings if one.question is None]
    if asked:
        yield ""
        yield worded(message("intake-text-questions", count=len(asked)), words)
        for number, one in enumerate(asked):
            if number:
                yield ""
            yield f"  {_with_place(one, words, named=named)}"
            assert one.question is not None
            yield f"    {worded(one.question, words)}"
            choices = Listed(tuple(Given(f"“{choice}”") for choice in one.choices), either=True)
            yield "    " + worded(
                message(
                    "intake-text-answer",
                    key=Given(one.key),
                    choices=choices if one.choices else None,
                ),
                words,
            )
    for severity in (Severity.BLOCK, Severity.CAUTION, Severity.INFO):
        found = [one for one in others if one.severity is severity]
        if found:
            yield ""
            yield worded(message("intake-text-findings", severity=severity.value), words)
            yield from (f"  {_with_place(one, words, named=named)}" for one in found)


def _column(one: ColumnMeaning, words: Words) -> tuple[str, ...]:
    from loamshift.case.intake.asked import name_of

    use = "asked" if not one.sure else "entered" if one.path else "kept"
    known = (one.unit if one.unit != "none" else "", one.method)
    return (
        one.place.column,
        one.heading,
        worded(name_of(one.meaning), words),
        ", ".join(part for part in known if part),
        worded(message("intake-text-use", use=use), words),
    )


def _table(columns: Sequence[ColumnMeaning], words: Words) -> Iterator[str]:
    """The columns under their headings; below each why, where its heading does not say it all."""
    heads = tuple(worded(message("intake-text-head-of", column=one), words) for one in _COLUMNS)
    rows = [_column(one, words) for one in columns]
    kept = [n for n in range(len(heads)) if any(row[n] for row in rows)]
    widths = {n: min(max(len(row[n]) for row in (heads, *rows)), _WIDEST) for n in kept}

    def line(row: tuple[str, ...]) -> str:
        return "  " + "  ".join(row[n][:_WIDEST].ljust(widths[n]) for n in kept).rstrip()

    yield line(heads)
    for one, row in zip(columns, rows, strict=True):
        yield line(row)
        reasons = Prose(tuple(r for r in one.reason.sentences if r.key != "intake-why-words"))
        if reasons:
            yield f"      {worded(reasons, words)}"


def _with_place(one: Finding, words: Words, *, named: bool) -> str:
    said = worded(one.said, words)
    places = [_place(place, named=named) for place in one.places if place.row]
    if not places:
        return said
    listed = Listed(tuple(Given(place) for place in places))
    more = max(one.count - len(places), 0) if not one.places[0].column else 0
    kind = "cells" if one.places[0].column else "rows"
    place = message(
        "intake-text-place", said=Given(said), places=listed, more=more, kind=kind, count=one.count
    )
    return worded(place, words)


def _place(place: Place, *, named: bool) -> str:
    cell = f"{place.column}{place.row}"
    return f"{place.sheet}!{cell}" if named else cell
