"""A trial for people who were not there: one picture and one sheet, each whole on its own."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from loamshift import __version__
from loamshift.domain.card import Card, CardKind, Part
from loamshift.domain.letter import Figure, Items, Paragraph
from loamshift.domain.message import (
    Given,
    Listed,
    Message,
    Product,
    Prose,
    message,
    ph_mean,
    rate,
)
from loamshift.domain.trial import Treatment
from loamshift.domain.trial_result import Shown, TrialResult
from loamshift.report.figures.trial import trial_figure
from loamshift.report.messages import say
from loamshift.report.trial_plan import can_show, demonstrations
from loamshift.report.trial_result import (
    effects,
    forecast_met,
    last_day,
    lead,
    size_read,
)
from loamshift.report.words import Words

MOST_TREATMENTS: Final = 12
"""More do not go on one sheet, whatever they are called [count]."""
_BESIDE: Final = 3
"""Findings on so many treatments have room beside how they were come by [count]."""


def trial_card(result: TrialResult, *, words: Words) -> Card | None:
    """What a trial asked, did, found, and does not show, on one sheet.

    Returns
    -------
    Card or None
        None where nothing could be compared.
    """

    def label(key: str) -> str:
        return say(message("trial-public-heading", part=key), words)

    def listed(told: list[Message]) -> Items:
        return Items(tuple(say(one, words) for one in told))

    figure = trial_figure(result, words=words)
    if figure is None:
        return None
    drawn = (figure, Paragraph(figure.sentence))
    effects_said = effects(result, words=words)
    size, *design = _done(result)
    treated = listed([size, _treatments(result), *design])
    done = Part(heading=label("done"), blocks=(treated,), brief=(listed([size, *design]),))
    found = Part(heading=label("found"), blocks=(listed(effects_said),))
    limits = _not_shown(result)
    whole = Paragraph(say(Prose(tuple(limits)), words))
    rows: tuple[tuple[Part, ...], ...] = (
        (Part(heading=None, blocks=drawn, brief=(figure,)),),
        *(((done, found),) if len(effects_said) <= _BESIDE else ((found,), (done,))),
        (Part(heading=label("not"), blocks=(listed(limits),), brief=(whole,)),),
    )
    trial = result.plan.trial
    days = _days(result)
    return Card(
        kind=CardKind.TRIAL,
        title=trial.question or trial.name,
        subtitle=say(message("trial-public-about", name=Given(trial.name), days=days), words),
        lead=say(_told(result), words),
        rows=rows,
        closing=trial_source(result, words=words),
        elsewhere=say(message("trial-public-elsewhere"), words),
        day=last_day(result),
    )


def trial_for_talk(result: TrialResult, *, words: Words) -> tuple[Figure, str] | None:
    """The figure of a trial under its question, and what is said below it.

    Returns
    -------
    tuple or None
        None where nothing could be compared.
    """
    figure = trial_figure(result, words=words)
    if figure is None:
        return None
    trial = result.plan.trial
    key = message("trial-public-key", matters=ph_mean(trial.matters_ph))
    told = say(_told(result) + Prose((key,)), words)
    title = trial.question or trial.name
    return replace(figure, title=title, sentence=f"{told} {figure.sentence}"), told


def trial_source(result: TrialResult, *, words: Words) -> str:
    """Whose trial it is, when and how large, and what worked it out."""
    trial = result.plan.trial
    return say(
        message(
            "trial-public-source",
            days=_days(result),
            replicates=trial.replicates,
            unit=trial.unit,
            treatments=trial.n_treatments,
            version=Given(__version__),
        ),
        words,
    )


def _told(result: TrialResult) -> Prose:
    return Prose(demonstrations(result.plan)) + lead(result)


def _days(result: TrialResult) -> Message:
    first = min((one.on for one in result.readings), default=result.plan.trial.start)
    last = last_day(result)
    return message("trial-public-days", first=first, last=None if first == last else last)


def _done(result: TrialResult) -> list[Message]:
    trial = result.plan.trial
    told = [
        size_read(result),
        message("trial-public-lot", unit=trial.unit, blocks="yes" if trial.in_blocks else "no")
        if trial.by_lot
        else message("trial-public-no-lot", unit=trial.unit),
        message(
            "trial-public-compared",
            control=Given(trial.treatments[0].name),
            method=Given(trial.ph_method.value),
        ),
    ]
    met = forecast_met(result)
    return told if met is None else [*told, met]


def _treatments(result: TrialResult) -> Message:
    treatments = Listed(tuple(_added(one) for one in result.plan.trial.treatments))
    return message("trial-public-treatments", treatments=treatments)


def _added(treatment: Treatment) -> Message:
    adds = Listed(
        tuple(
            message(
                "trial-add-rate",
                material=Product(entry.material.key),
                rate=rate(entry.rate_g_m2),
            )
            for entry in treatment.adds
        )
    )
    return message(
        "trial-public-treatment",
        treatment=Given(treatment.name),
        adds=adds if treatment.adds else None,
    )


def _not_shown(result: TrialResult) -> list[Message]:
    plan = result.plan
    answered = [day for day in result.days if day.rows]
    told: list[Message] = []
    if answered:
        told.append(message("trial-plain-limits", days=answered[-1].day))
        if any(row.shown is Shown.OPEN for row in answered[-1].rows):
            told.append(message("trial-public-open"))
    if plan.smallest_ph is not None and not plan.lacks:
        told.append(can_show(plan))
    if result.problems:
        told.append(message("trial-public-problems", count=len(result.problems)))
    return [*told, message("trial-public-once")]
