"""A trial after it: the answer in plain words, its figure, and how it was worked out."""

from __future__ import annotations

from datetime import date

from loamshift.domain.letter import (
    Align,
    Block,
    Column,
    Items,
    Letter,
    Matter,
    Paragraph,
    Section,
    Table,
)
from loamshift.domain.message import (
    Given,
    Listed,
    Message,
    Prose,
    Value,
    message,
    number,
    ph_mean,
)
from loamshift.domain.trial import Design, TrialPlan
from loamshift.domain.trial_result import (
    BareChange,
    DayResult,
    Difference,
    FactorEffect,
    Lot,
    Shown,
    TrialResult,
)
from loamshift.report.figures.trial import differences_table, interval, trial_figure
from loamshift.report.messages import say
from loamshift.report.trial_plan import can_show, demonstrations, error_basis
from loamshift.report.words import Words

_DIFFERS = (Shown.DIFFERS, Shown.DIFFERS_LITTLE)
_SAME = (Shown.EQUAL, Shown.DIFFERS_LITTLE)


def trial_letter(result: TrialResult, *, words: Words) -> Letter:
    """What a trial shows, as a letter."""
    plan = result.plan
    trial = plan.trial
    opening: list[Block] = [
        Paragraph(say(lead(result), words)),
        Paragraph(say(plain_words(result, words=words), words)),
    ]
    opening += [Paragraph(say(one, words)) for one in demonstrations(plan)]
    sections = [Section(None, tuple(opening), Matter.OPENING)]
    figure = trial_figure(result, words=words)
    if figure is not None:
        sections.append(Section(None, (figure,)))
        table = differences_table(result, words=words)
        sections.append(Section(_heading("differences", words), (table,)))
    if result.bare:
        control = Given(trial.treatments[0].name)
        told = [_bare(one, control) for one in result.bare]
        bare = Items(tuple(say(one, words) for one in told))
        sections.append(Section(_heading("bare", words), (bare,)))
    if result.average or result.change:
        sections.append(Section(_heading("time", words), tuple(_over_time(result, words))))
    if result.slope is not None:
        sections.append(Section(_heading("slope", words), (Paragraph(_slope(result, words)),)))
    if result.factors:
        table = _factors(result.factors, words)
        note = Paragraph(say(message("trial-factors-note"), words))
        sections.append(Section(_heading("factors", words), (table, note)))
    lots = _lots(result, words)
    if lots is not None:
        told_of = message(
            "trial-lot-told",
            unit=trial.unit,
            control=Given(trial.treatments[0].name),
            blocks="yes" if trial.in_blocks else "no",
        )
        blocks = (Paragraph(say(told_of, words)), lots)
        sections.append(Section(_heading("lot", words), blocks))
    if result.problems:
        items = Items(tuple(say(problem.said, words) for problem in result.problems))
        sections.append(Section(_heading("problems", words), (items,)))
    sections.append(Section(_heading("how", words), (Items(_how(result, words)),)))
    return Letter(trial.name, trial.question, tuple(sections), last_day(result))


def lead(result: TrialResult) -> Prose:
    """Which treatments made a difference, in a sentence or two to be read across a room."""
    told: dict[str, list[str]] = {"lasts": [], "gone": [], "same": [], "open": []}
    for treatment in result.plan.trial.treatments[1:]:
        course = _course(result, treatment.name)
        if not course:
            continue
        last = course[-1][1].shown
        passed = any(day.day > 0 and row.shown is Shown.DIFFERS for day, row in course)
        if last is Shown.DIFFERS:
            kind = "lasts"
        elif passed:
            kind = "gone"
        else:
            kind = "same" if last in _SAME else "open"
        told[kind].append(treatment.name)
    sentences = tuple(
        message(
            "trial-lead",
            kind=kind,
            names=Listed(tuple(message("trial-lead-name", name=Given(name)) for name in names)),
        )
        for kind, names in told.items()
        if names
    )
    return Prose(sentences or (message("trial-plain-nothing"),))


def _course(result: TrialResult, name: str) -> list[tuple[DayResult, Difference]]:
    return [(day, row) for day in result.days for row in day.rows if row.treatment == name]


def plain_words(result: TrialResult, *, words: Words) -> Prose:
    """What a trial shows, in one paragraph for somebody who was not there."""
    answered = [day for day in result.days if day.rows]
    if not answered:
        return Prose((message("trial-plain-nothing"),))
    sentences = [size_read(result), *effects(result, words=words)]
    sentences.append(message("trial-plain-limits", days=answered[-1].day))
    met = forecast_met(result)
    return Prose((*sentences, met) if met is not None else tuple(sentences))


def size_read(result: TrialResult) -> Message:
    """How many pots were read on how many days."""
    trial = result.plan.trial
    return message(
        "trial-plain-size",
        pots=len({one.pot for one in result.readings}),
        days=len({one.day for one in result.readings}),
        replicates=trial.replicates,
        unit=trial.unit,
    )


def effects(result: TrialResult, *, words: Words) -> list[Message]:
    """What each treatment did, with its interval; those that could be compared."""
    courses = (_course(result, one.name) for one in result.plan.trial.treatments[1:])
    return [_of_treatment(result.plan, course, words) for course in courses if course]


def forecast_met(result: TrialResult) -> Message | None:
    """How well the forecast did, or that there was none; None where it is not compared."""
    met, of = result.predicted_well
    if result.prediction is None:
        return message("trial-plain-no-forecast")
    if not of:
        return None
    return message("trial-plain-forecast", day=result.prediction.made_on, met=met, of=of)


def _of_treatment(
    plan: TrialPlan, course: list[tuple[DayResult, Difference]], words: Words
) -> Message:
    """What one treatment did, told by its last day and by the day it differed most."""
    last_day, last = course[-1]
    shared: dict[str, Value] = {
        "treatment": Given(last.treatment),
        "control": Given(plan.trial.treatments[0].name),
        "day": last_day.day,
        "interval": Given(interval(last, words)),
    }
    after = [(day, row) for day, row in course if day.day > 0 and row.shown is Shown.DIFFERS]
    if last.shown is Shown.DIFFERS or (last.shown in _DIFFERS and not after):
        return message(
            "trial-plain-differs",
            **shared,
            figure=ph_mean(abs(last.estimate)),
            turn=_turn(last.estimate),
            little="yes" if last.shown is Shown.DIFFERS_LITTLE else "no",
        )
    if after:
        first_day, peak = max(after, key=lambda pair: abs(pair[1].estimate))
        return message(
            "trial-plain-gone",
            **shared,
            **{"peak-interval": Given(interval(peak, words))},
            first=first_day.day,
            peak=ph_mean(abs(peak.estimate)),
            turn=_turn(peak.estimate),
            figure=ph_mean(last.estimate),
            gone="yes" if last.shown in _SAME else "no",
        )
    if last.shown is Shown.EQUAL:
        return message(
            "trial-plain-same",
            **shared,
            figure=ph_mean(last.estimate),
            matters=ph_mean(plan.trial.matters_ph),
        )
    return message(
        "trial-plain-open",
        treatment=shared["treatment"],
        control=shared["control"],
        day=last_day.day,
        figure=ph_mean(last.estimate),
        low=ph_mean(last.low),
        high=ph_mean(last.high),
    )


def _turn(change: float) -> str:
    return "rise" if change > 0.0 else "fall"


def _heading(name: str, words: Words) -> str:
    return say(message(f"trial-heading-{name}"), words)


def _over_time(result: TrialResult, words: Words) -> list[Block]:
    blocks: list[Block] = []
    if result.average:
        trial = result.plan.trial
        both = "yes" if trial.design is Design.BEFORE_AFTER else "no"
        average = message("trial-average", unit=trial.unit, both=both)
        blocks.append(Paragraph(say(average, words)))
        blocks.append(_short_table(result.average, words))
    if result.change and result.change_days is not None:
        first, last = result.change_days
        unit = result.plan.trial.unit
        change = message("trial-change", first=first, last=last, unit=unit)
        blocks.append(Paragraph(say(change, words)))
        blocks.append(_short_table(result.change, words))
    return blocks


def _columns(words: Words, *keys: str) -> tuple[Column, ...]:
    right = ("difference", "interval", "found", "lot")
    return tuple(
        Column(
            say(message("trial-column", column=key), words),
            Align.RIGHT if key in right else Align.LEFT,
        )
        for key in keys
    )


def _short_table(rows: tuple[Difference, ...], words: Words) -> Table:
    return Table(
        _columns(words, "treatment", "difference", "interval", "shown"),
        tuple(
            (
                row.treatment,
                say(message("trial-figure", figure=ph_mean(row.estimate)), words),
                interval(row, words),
                say(message("trial-shown", shown=row.shown.value), words),
            )
            for row in rows
        ),
    )


def _factors(effects: tuple[FactorEffect, ...], words: Words) -> Table:
    return Table(
        _columns(words, "effect", "found", "interval"),
        tuple(
            (
                effect.name,
                say(message("trial-figure", figure=ph_mean(effect.estimate)), words),
                say(message("trial-figure", figure=ph_mean(effect.low, high=effect.high)), words),
            )
            for effect in effects
        ),
    )


def _slope(result: TrialResult, words: Words) -> str:
    slope = result.slope
    assert slope is not None
    bend = None
    if slope.bend_p is not None:
        bend = "yes" if slope.bend_p < 1.0 - result.plan.level else "no"
    return say(
        message(
            "trial-slope",
            day=slope.day,
            slope=ph_mean(slope.per_100),
            interval=message("trial-figure", figure=ph_mean(slope.low, high=slope.high)),
            bend=bend,
        ),
        words,
    )


def _how(result: TrialResult, words: Words) -> tuple[str, ...]:
    plan = result.plan
    unit = plan.trial.unit
    told = [
        message("trial-how-dunnett", blocks="yes" if plan.trial.in_blocks else "no", unit=unit),
        message("trial-how-equal", matters=ph_mean(plan.trial.matters_ph)),
        message("trial-how-ph", unit=unit),
        message("trial-how-kept"),
    ]
    answered = [day for day in result.days if day.rows]
    if len(answered) > 1:
        told.insert(1, message("trial-how-pot", days=len(answered), unit=unit))
    if plan.trial.design is Design.BEFORE_AFTER:
        told.insert(1, message("trial-how-before"))
    if not plan.trial.by_lot:
        told.append(message("trial-how-no-lot", unit=unit))
    few = [row.lot for day in answered for row in day.rows if row.lot is not None]
    if few and min(lot.can_reach for lot in few) > 1.0 - plan.level:
        told.append(message("trial-how-lot-few", ways=few[0].ways))
    if answered and answered[-1].sd is not None:
        told.append(
            message(
                "trial-how-sd",
                unit=unit,
                sd=ph_mean(answered[-1].sd),
                day=answered[-1].day,
                supposed=ph_mean(plan.error.sd_ph),
            )
        )
    if plan.smallest_ph is not None and not plan.lacks:
        told.append(can_show(plan))
        told.append(error_basis(plan))
    if result.prediction is not None:
        told.append(
            message(
                "trial-forecast-kept",
                day=result.prediction.made_on,
                digest=Given(result.prediction.digest[:12]),
            )
        )
    return tuple(say(one, words) for one in told)


def _bare(one: BareChange, control: Given) -> Message:
    return message(
        "trial-bare",
        treatment=Given(one.treatment),
        control=control,
        change=ph_mean(one.change),
        n=one.n,
        untreated=one.n_control,
    )


def _lots(result: TrialResult, words: Words) -> Table | None:
    """What dealing out again gives on the last day, and over all days; None without a lot."""
    answered = [day for day in result.days if day.rows]
    last = [(answered[-1].day, row) for row in answered[-1].rows] if answered else []
    rows = [
        (
            row.treatment,
            say(message("trial-lot-when", day=day), words),
            say(message("trial-figure", figure=ph_mean(row.estimate)), words),
            say(
                _lot_told(row.lot),
                words,
            ),
        )
        for day, row in [*last, *((None, row) for row in result.average)]
        if row.lot is not None
    ]
    if not rows:
        return None
    return Table(_columns(words, "treatment", "when", "difference", "lot"), tuple(rows))


def _lot_told(lot: Lot) -> Message:
    """How many ways gave as much; by the hundred where they were drawn."""
    figures: dict[str, Value] = {"as-large": lot.as_large, "in-hundred": number(100.0 * lot.p)}
    exact = "yes" if lot.is_exact else "no"
    return message("trial-lot-figure", exact=exact, ways=lot.ways, **figures)


def last_day(result: TrialResult) -> date:
    """The day of the last reading; without one the day the trial starts."""
    return max((one.on for one in result.readings), default=result.plan.trial.start)
