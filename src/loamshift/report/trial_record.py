"""The record sheet of a trial for a pen: every place in a row, every day in a column."""

from __future__ import annotations

from typing import Final

from loamshift.domain.letter import Align, Column, Items, Letter, Paragraph, Section, Table
from loamshift.domain.message import Given, message
from loamshift.domain.trial import Place, TrialPlan
from loamshift.report.messages import say
from loamshift.report.words import Words

_ROOM: Final = "\u2003" * 4
"""An empty cell that leaves room for a pen."""
_DAYS_ACROSS: Final = 7
"""Columns for readings that one sheet has room for [count]."""


def trial_record_letter(plan: TrialPlan, *, words: Words) -> Letter:
    """A sheet to write readings on, with the days across; blind where the trial is."""
    trial = plan.trial
    opening = Paragraph(
        say(
            message("trial-record-lead", unit=trial.unit, method=Given(trial.ph_method.value)),
            words,
        )
    )
    sections = [Section(None, (opening,))]
    for start in range(0, len(trial.days), _DAYS_ACROSS):
        days = trial.days[start : start + _DAYS_ACROSS]
        heads = [Column(say(message("trial-record-unit", unit=trial.unit), words))]
        heads += [
            Column(say(message("trial-record-day", day=day, on=trial.due(day)), words), Align.RIGHT)
            for day in days
        ]
        rows = tuple(
            (
                place.label if trial.blind else _named(plan, place, words),
                *(_ROOM for _ in days),
            )
            for place in plan.places
        )
        sections.append(Section(None, (Table(tuple(heads), rows),)))
    notes = [message("trial-record-day-read"), message("trial-record-meter")]
    sections.append(Section(None, (Items(tuple(say(one, words) for one in notes)),)))
    return Letter(trial.name, trial.question, tuple(sections), trial.start)


def _named(plan: TrialPlan, place: Place, words: Words) -> str:
    treatment = Given(plan.trial.treatments[place.treatment].name)
    said = message("trial-map-place", label=Given(place.label), treatment=treatment)
    return say(said, words)
