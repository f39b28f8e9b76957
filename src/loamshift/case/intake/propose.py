"""From the sheets of a file to a proposal, and from a proposal and its answers to rows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Final

from loamshift.case.intake.answers import COMMA_KEY, plain_key
from loamshift.case.intake.checks import checks
from loamshift.case.intake.columns import Read, read_cells, unread
from loamshift.case.intake.days import DAY_KEYS, date_order
from loamshift.case.intake.figures import Commas, commas_in
from loamshift.case.intake.history import DOUBLES_KEY, Earlier, history
from loamshift.case.intake.keys import TEXT_PATHS
from loamshift.case.intake.lime_check import lime_beside_ours
from loamshift.case.intake.meaning import understand
from loamshift.case.intake.proposal import Aspect, Finding, Proposal, SampleRow
from loamshift.case.intake.rows import Filled, fill, rows_of
from loamshift.case.intake.samples import tables_in
from loamshift.case.intake.sheet import Sheet
from loamshift.case.intake.table import Column, Table
from loamshift.case.intake.understood import Understood
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, Listed, message

_NO_FIGURES: Final = frozenset(
    {*TEXT_PATHS, *DAY_KEYS, "lab_number", "client", "previous_crop"}
) - {"depth_from"}
_RANK: Final = {Severity.BLOCK: 0, Severity.CAUTION: 1, Severity.INFO: 2}


def propose(
    sheets: Sequence[Sheet],
    remembered: Mapping[str, str] | None = None,
    *,
    today: date | None = None,
    earlier: Mapping[str, Earlier] | None = None,
) -> Proposal:
    """What a file seems to say, column by column with the reason, and what must be asked.

    Nothing is entered anywhere. What is not sure is left out of the rows until it is answered.

    Parameters
    ----------
    remembered
        Answers given for files of this laboratory before, by the keys of their questions.
    today
        The day against which a sample from the future is seen.
    earlier
        The last test of beds by their names, to see a jump.

    Examples
    --------
    >>> from loamshift.case.intake.sheets import read_sheets
    >>> found = propose(read_sheets(b"Sample,pH (CaCl2)\\nNorth border,5.9", "report.csv"))
    >>> found.mapping[1].method, dict(found.rows[0].values)["soil.ph"]
    ('CaCl2', 5.9)
    """
    notes = tuple(
        Finding(code="file", severity=Severity.INFO, said=note)
        for sheet in sheets
        for note in sheet.notes
    )
    return _proposal(tables_in(sheets), notes, dict(remembered or {}), today, earlier)


def answered(
    proposal: Proposal, answers: Mapping[str, str], *, today: date | None = None
) -> Proposal:
    """The proposal again, with answers to its questions; they go before what was remembered."""
    notes = tuple(one for one in proposal.findings if one.code == "file")
    return _proposal(proposal.tables, notes, {**proposal.answers, **answers}, today, None)


def confirmed(
    proposal: Proposal, answers: Mapping[str, str] | None = None, *, today: date | None = None
) -> tuple[SampleRow, ...]:
    """The rows to be entered, once a person has answered; what stays open is left out of them."""
    if answers:
        proposal = answered(proposal, answers, today=today)
    return tuple(row for row in proposal.rows if len(row.values) > 1)


def _proposal(
    tables: tuple[Table, ...],
    notes: tuple[Finding, ...],
    told: Mapping[str, str],
    today: date | None,
    earlier: Mapping[str, Earlier] | None,
) -> Proposal:
    told = {plain_key(key): value for key, value in told.items()}
    order, findings = date_order(tables, told)
    asked = [*notes, *findings]
    if not tables:
        asked.append(
            Finding(code="no-table", severity=Severity.BLOCK, said=message("intake-no-table"))
        )
    commas, comma_findings = _commas(tables, told)
    asked += comma_findings
    understood: list[Understood] = []
    parts: list[Filled] = []
    for table in tables:
        reads = [_read(column, commas, typed=table.typed) for column in table.columns]
        columns = understand(table, reads, told)
        understood += columns
        asked += (finding for one in columns for finding in _of_column(one))
        filled = fill(table, columns, told, order)
        parts.append(filled)
        asked += filled.findings
        asked += checks(filled, today, told)
    asked += history(parts, earlier, keep=told.get(DOUBLES_KEY, ""))
    asked += _unused(understood)
    rows = tuple(row for filled in parts for row in rows_of(filled))
    if today is not None:
        asked += lime_beside_ours(rows, today=today)
    return Proposal(
        mapping=tuple(one.meaning for one in understood),
        rows=rows,
        findings=tuple(sorted(_once(asked), key=lambda one: _RANK[one.severity])),
        tables=tables,
        answers=told,
    )


def _read(column: Column, commas: Commas | None, *, typed: bool) -> Read:
    keys = {meant.key for meant in column.heading.meanings}
    if keys and keys <= _NO_FIGURES:
        return unread(column.cells)
    return read_cells(column.cells, commas, typed=typed)


def _of_column(one: Understood) -> tuple[Finding, ...]:
    """The findings of a column; where nobody knows what it is, nothing else of it is asked."""
    first = [f for f in one.findings if f.key.endswith(f": {Aspect.MEANING.value}")]
    return tuple(first[-1:]) or one.findings


def _once(findings: Sequence[Finding]) -> list[Finding]:
    """Each question and each saying once, where several sheets have the same heading."""
    seen: dict[object, Finding] = {}
    for one in findings:
        seen.setdefault(
            (one.code, one.key) if one.key else (one.code, one.said, one.places[:1]), one
        )
    return list(seen.values())


def _commas(
    tables: Sequence[Table], told: Mapping[str, str]
) -> tuple[Commas | None, tuple[Finding, ...]]:
    """What a comma is in this file; asked where every one could be a thousand's."""
    answer = told.get(COMMA_KEY)
    if answer:
        return Commas(answer), ()
    found: Commas | None = None
    example = ""
    for table in tables:
        for column in table.columns:
            if any(meant.key in TEXT_PATHS for meant in column.heading.meanings):
                continue
            one = commas_in(column.cells)
            if one is Commas.UNKNOWN and not example:
                example = next(cell for cell in column.cells if "," in cell)
            if one in (Commas.DECIMAL, Commas.THOUSANDS):
                return one, ()
            found = one or found
    if found is not Commas.UNKNOWN:
        return found, ()
    return Commas.UNKNOWN, (
        Finding(
            code="commas",
            severity=Severity.CAUTION,
            said=message("intake-commas", given=Given(example)),
            question=message("intake-ask-commas", given=Given(example)),
            key=COMMA_KEY,
            choices=(Commas.DECIMAL.value, Commas.THOUSANDS.value),
        ),
    )


def _unused(columns: Sequence[Understood]) -> list[Finding]:
    """One line for all columns that no case file has a key for, and one for those not known."""
    unknown = [c for c in columns if not c.key and not c.meaning.remembered and any(c.column.cells)]
    if not unknown:
        return []
    named = Listed(tuple(Given(c.meaning.heading[:40]) for c in unknown[:8]))
    return [
        Finding(
            code="columns-unknown",
            severity=Severity.INFO,
            said=message(
                "intake-columns-unknown",
                named=named,
                count=len(unknown),
                more=max(len(unknown) - 8, 0),
            ),
            places=tuple(c.meaning.place for c in unknown[:5]),
            count=len(unknown),
        )
    ]
