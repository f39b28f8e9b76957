"""Readings noted in the field, matched to beds by their names; a doubtful name is asked about."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from loamshift.case.intake.headings import plain_words
from loamshift.case.intake.keys import DAY, OF_READING, PH
from loamshift.case.intake.proposal import Finding, Place, Proposal, SampleRow
from loamshift.case.intake.propose import propose
from loamshift.case.intake.sheet import Sheet
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, Listed, message

BED: Final = "bed"
_LIKE: Final = 0.6
_MOST_CANDIDATES: Final = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class NotedReading:
    """One reading of a bed, as the keys of ``[[reading]]`` have it, and where it was noted."""

    bed: str
    place: Place
    values: Mapping[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldNotes:
    """Readings with their beds, what is asked, and the file as it was understood."""

    readings: tuple[NotedReading, ...]
    findings: tuple[Finding, ...]
    proposal: Proposal


def read_field_notes(
    sheets: Sequence[Sheet],
    beds: Sequence[str],
    remembered: Mapping[str, str] | None = None,
    *,
    today: date | None = None,
) -> FieldNotes:
    """Readings matched to beds.

    A name fits a bed where both have the same words; anything less is asked about and not entered.

    Parameters
    ----------
    beds
        Names of the beds there are.
    remembered
        Answers, of which ``North: bed`` says which bed a noted name is.
    today
        The day against which a reading from the future is seen.
    """
    told = dict(remembered or {})
    proposal = propose(sheets, told, today=today)
    known = _by_words(beds)
    readings: list[NotedReading] = []
    unknown: dict[str, list[SampleRow]] = {}
    undated: list[SampleRow] = []
    for row in proposal.rows:
        if PH not in row.values:
            continue
        if DAY not in row.values:
            undated.append(row)
            continue
        bed = _bed(row.sample, known, told)
        if bed is None:
            unknown.setdefault(row.sample, []).append(row)
        elif bed:
            readings.append(NotedReading(bed=bed, place=row.place, values=_reading(row)))
    findings = [one for one in proposal.findings if one.code not in ("duplicate", "no-day")]
    findings += [_ask(name, rows, beds) for name, rows in unknown.items()]
    if undated:
        findings.append(_undated(undated))
    return FieldNotes(readings=tuple(readings), findings=tuple(findings), proposal=proposal)


def _by_words(beds: Sequence[str]) -> dict[frozenset[str], list[str]]:
    known: dict[frozenset[str], list[str]] = {}
    for bed in beds:
        known.setdefault(_words(bed), []).append(bed)
    return known


def _words(name: str) -> frozenset[str]:
    return frozenset(plain_words(name).split()) or frozenset({name})


def _bed(
    name: str, known: Mapping[frozenset[str], list[str]], told: Mapping[str, str]
) -> str | None:
    """The bed of a name; None where it is to be asked about, empty where it belongs to none."""
    answer = told.get(f"{plain_words(name)}: {BED}", told.get(f"{name}: {BED}"))
    if answer is not None:
        found = known.get(_words(answer), [])
        return found[0] if len(found) == 1 else "" if answer == "none" else None
    found = known.get(_words(name), [])
    return found[0] if len(found) == 1 else None


def _ask(name: str, rows: Sequence[SampleRow], beds: Sequence[str]) -> Finding:
    """Which bed a name is, with those that it may be."""
    words = _words(name)
    near = [bed for bed in beds if words & _words(bed)]
    plain = {plain_words(bed): bed for bed in beds}
    close = difflib.get_close_matches(plain_words(name), plain, n=3, cutoff=_LIKE)
    near = list(dict.fromkeys([*near, *(plain[one] for one in close)]))[:_MOST_CANDIDATES]
    listed = Listed(tuple(Given(f"“{bed}”") for bed in near), either=True) if near else None
    return Finding(
        code="bed-unknown",
        severity=Severity.CAUTION,
        said=message("intake-bed-unknown", name=Given(name), count=len(rows), beds=listed),
        question=message("intake-ask-bed", name=Given(name)),
        key=f"{name}: {BED}",
        choices=(*near, "none"),
        places=tuple(row.place for row in rows[:5]),
        count=len(rows),
    )


def _undated(rows: Sequence[SampleRow]) -> Finding:
    return Finding(
        code="reading-undated",
        severity=Severity.CAUTION,
        said=message("intake-reading-undated", name=Given(rows[0].sample), count=len(rows)),
        places=tuple(row.place for row in rows[:5]),
        count=len(rows),
    )


def _reading(row: SampleRow) -> dict[str, Any]:
    return {key: row.values[path] for path, key in OF_READING.items() if path in row.values}
