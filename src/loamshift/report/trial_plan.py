"""A trial before it starts: what it can show, what goes on, who stands where, when to read."""

from __future__ import annotations

import math
from dataclasses import replace

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
from loamshift.domain.material import Material
from loamshift.domain.message import (
    Given,
    Listed,
    Message,
    Product,
    amount,
    message,
    number,
    ph_mean,
    rate,
)
from loamshift.domain.trial import Design, Expected, Prediction, TrialPlan
from loamshift.report.figures.trial import trial_size_figure
from loamshift.report.letter_care import RULES_LINE, caution_line
from loamshift.report.messages import say
from loamshift.report.words import Words

_A_KILO_G = 1000.0
_SHOWN_DIGITS = 12
"""Characters of a digest that are printed."""


def trial_plan_letter(
    plan: TrialPlan, prediction: Prediction | None, *, words: Words, door: str = "command"
) -> Letter:
    """The design of a trial and its protocol as a letter.

    Parameters
    ----------
    door
        Where readings are taken back: ``command`` or ``pages``.
    """
    sections = [
        Section(None, _opening(plan, words), Matter.OPENING),
        Section(_heading("treatments", words), (_treatments(plan, words),)),
        Section(_heading("steps", words), (_steps(plan, door, words),)),
        Section(_heading("days", words), tuple(_days(plan, prediction, words))),
        Section(_heading("map", words), tuple(_map(plan, words))),
    ]
    if not plan.lacks:
        sections.append(
            Section(
                _heading("size", words),
                (
                    trial_size_figure(plan, words=words),
                    Paragraph(say(error_basis(plan), words)),
                ),
            )
        )
    sections.append(Section(_heading("forecast", words), tuple(_forecast(plan, prediction, words))))
    care: tuple[Block, ...] = (Paragraph(say(RULES_LINE, words)),)
    if plan.cautions:
        care = (Items(tuple(caution_line(one, words=words) for one in plan.cautions)), *care)
    sections.append(Section(_heading("care", words), care, Matter.CARE))
    return Letter(plan.trial.name, plan.trial.question, tuple(sections), plan.trial.start)


def trial_summary(plan: TrialPlan, *, words: Words) -> Letter:
    """What a trial can show, and what goes on, on one screen."""
    sections = (
        Section(None, _opening(plan, words), Matter.OPENING),
        Section(_heading("treatments", words), (_treatments(plan, words),)),
        Section(None, (Paragraph(say(error_basis(plan), words)),)),
    )
    return Letter(plan.trial.name, plan.trial.question, sections, plan.trial.start)


def trial_try(plan: TrialPlan, *, words: Words) -> Letter:
    """What a trial can show and what goes on, with the curve of its size."""
    letter = trial_summary(plan, words=words)
    if plan.lacks:
        return letter
    curve = Section(_heading("size", words), (trial_size_figure(plan, words=words),))
    return replace(letter, sections=(*letter.sections, curve))


def _heading(name: str, words: Words) -> str:
    return say(message(f"trial-heading-{name}"), words)


def _opening(plan: TrialPlan, words: Words) -> tuple[Block, ...]:
    if plan.lacks:
        return tuple(Paragraph(say(one, words)) for one in demonstrations(plan))
    blocks: list[Block] = []
    if plan.smallest_ph is not None:
        blocks.append(Paragraph(say(can_show(plan), words)))
        blocks.append(Paragraph(say(_against_matters(plan, plan.smallest_ph), words)))
    return tuple(blocks)


def demonstrations(plan: TrialPlan) -> tuple[Message, ...]:
    """Why a trial is a demonstration and no experiment; empty for an experiment."""
    return tuple(
        message("trial-demonstration", lack=lack.value, unit=plan.trial.unit) for lack in plan.lacks
    )


def can_show(plan: TrialPlan) -> Message:
    """The smallest difference that a trial is likely to show, in a sentence.

    It is rounded up to hundredths, so that it stays on its side of the one that matters.
    """
    trial, smallest = plan.trial, plan.smallest_ph
    return message(
        "trial-can-show",
        replicates=trial.replicates,
        unit=trial.unit,
        treatments=trial.n_treatments,
        smallest=None if smallest is None else ph_mean(math.ceil(100.0 * smallest) / 100.0),
        control=Given(trial.treatments[0].name),
    )


def _against_matters(plan: TrialPlan, smallest_ph: float) -> Message:
    matters_ph = plan.trial.matters_ph
    needed = next((n for n, value in plan.by_replicates if value <= matters_ph), None)
    return message(
        "trial-against-matters",
        enough="yes" if smallest_ph <= matters_ph else "no",
        matters=ph_mean(matters_ph),
        needed=needed,
        most=plan.by_replicates[-1][0],
    )


def error_basis(plan: TrialPlan) -> Message:
    """How much pots are supposed to differ, and where that comes from."""
    return message(
        "trial-basis",
        basis=plan.error.basis,
        unit=plan.trial.unit,
        sd=ph_mean(plan.error.sd_ph),
        df=plan.error.df,
    )


def _treatments(plan: TrialPlan, words: Words) -> Table:
    """What goes on each place, in grams where its area is known."""
    rows = []
    for treatment, grams in zip(plan.trial.treatments, plan.grams, strict=True):
        each = [
            _add(entry.material, gram, entry.rate_g_m2)
            for entry, gram in zip(treatment.adds, grams, strict=True)
        ]
        rates = [message("trial-figure", figure=rate(entry.rate_g_m2)) for entry in treatment.adds]
        nothing = message("trial-nothing-added")
        rows.append(
            (
                treatment.name,
                say(_listed(each) or nothing, words),
                "; ".join(say(one, words) for one in rates),
            )
        )
    columns = tuple(
        Column(say(message("trial-column", column=key), words))
        for key in ("treatment", "each", "rate")
    )
    return Table(columns, tuple(rows))


def _add(material: Material, grams: float | None, rate_g_m2: float) -> Message:
    if grams is None:
        return message("trial-add-rate", material=Product(material.key), rate=rate(rate_g_m2))
    material_name = Product(material.key)
    if grams < _A_KILO_G:
        return message("trial-add-grams", material=material_name, grams=number(grams))
    return message("trial-add", material=material_name, amount=amount(grams))


def _listed(each: list[Message]) -> Message | None:
    return message("trial-figure", figure=Listed(tuple(each))) if each else None


def _steps(plan: TrialPlan, door: str, words: Words) -> Items:
    trial = plan.trial
    unit = trial.unit
    steps = [
        message("trial-step-soil", unit=unit),
        message("trial-step-label", unit=unit),
        *((message("trial-step-before"),) if trial.design is Design.BEFORE_AFTER else ()),
        message("trial-step-weigh", unit=unit),
        *((message("trial-step-place"),) if unit == "pot" else ()),
        message("trial-step-alike", unit=unit),
        message("trial-step-read", unit=unit, method=Given(trial.ph_method.value)),
        *(() if unit == "pot" else (message("trial-step-composite", unit=unit),)),
        message("trial-step-write"),
        message("trial-step-import", door=door),
    ]
    return Items(tuple(say(step, words) for step in steps), numbered=True)


def _days(plan: TrialPlan, prediction: Prediction | None, words: Words) -> list[Block]:
    columns = (
        Column(say(message("trial-column", column="date"), words)),
        Column(say(message("trial-column", column="day"), words), Align.RIGHT),
    )
    rows = tuple((words.date(plan.trial.due(day)), str(day)) for day in plan.trial.days)
    blocks: list[Block] = [Table(columns, rows)]
    if prediction is not None:
        days = Listed(tuple(Given(str(day)) for day in prediction.days_advised))
        blocks.append(Paragraph(say(message("trial-days-forecast", days=days), words)))
    return blocks


def _map(plan: TrialPlan, words: Words) -> list[Block]:
    trial = plan.trial
    columns = max(place.column for place in plan.places)
    cells: dict[tuple[int, int], str] = {}
    for place in plan.places:
        treatment = Given(trial.treatments[place.treatment].name)
        said = message("trial-map-place", label=Given(place.label), treatment=treatment)
        cells[place.row, place.column] = place.label if trial.blind else say(said, words)
    rows = tuple(
        (
            say(map_row(row), words),
            *(cells.get((row, column), "") for column in range(1, columns + 1)),
        )
        for row in range(1, max(place.row for place in plan.places) + 1)
    )
    table = Table((Column(""), *(Column(str(n)) for n in range(1, columns + 1))), rows)
    notes = map_notes(plan)
    shows = {
        Design.STRIPS: "trial-field-note",
        Design.SIDE_BY_SIDE: "trial-zones-note",
        Design.BEFORE_AFTER: "trial-before-note",
    }
    if trial.design in shows:
        notes.append(message(shows[trial.design]))
    return [table, *(Paragraph(say(note, words)) for note in notes)]


def map_row(row: int) -> Message:
    """What a row of the map is called."""
    return message("trial-map-row", row=row)


def map_notes(plan: TrialPlan) -> list[Message]:
    """What must be known to use the map of a trial."""
    trial = plan.trial
    lot = "yes" if trial.by_lot else "no"
    notes = [message("trial-map-random", seed=trial.seed, lot=lot, unit=trial.unit)]
    if trial.in_blocks:
        notes.append(message("trial-map-blocks", unit=trial.unit))
    if trial.blind:
        notes.append(message("trial-map-blind", unit=trial.unit))
    return notes


def _forecast(plan: TrialPlan, prediction: Prediction | None, words: Words) -> list[Block]:
    if prediction is None:
        return [Paragraph(say(message("trial-forecast-none"), words))]
    kept = message(
        "trial-forecast-kept",
        day=prediction.made_on,
        digest=Given(prediction.digest[:_SHOWN_DIGITS]),
    )
    if plan.trial.blind:
        return [Paragraph(say(kept, words))]
    names = [treatment.name for treatment in plan.trial.treatments]
    columns = (
        Column(say(message("trial-column", column="day"), words), Align.RIGHT),
        *(Column(name, Align.RIGHT) for name in names),
    )
    rows = tuple(
        (str(day), *(_expected(prediction.of(name, day), words) for name in names))
        for day in plan.trial.days
    )
    caption = say(message("trial-forecast-caption"), words)
    blocks: list[Block] = [Table(columns, rows, caption), Paragraph(say(kept, words))]
    if not plan.trial.ph_method.is_water:
        blocks.append(Paragraph(say(message("trial-forecast-method"), words)))
    return blocks


def _expected(row: Expected | None, words: Words) -> str:
    if row is None:
        return ""
    figures = {"ph": ph_mean(row.ph), "range": ph_mean(row.ph_low, high=row.ph_high)}
    return say(message("trial-expected", **figures), words)
