"""The sampling sheet: what goes out to the bed with the spade, and the label for the bag."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from loamshift.domain.card import Blanks, Card, CardBlock, CardKind, Choices, Part, WalkPlan
from loamshift.domain.letter import Items, Paragraph
from loamshift.domain.message import (
    Given,
    Measure,
    Message,
    Prose,
    Quantity,
    Worded,
    depth,
    message,
    prose,
)
from loamshift.domain.sampling import SamplePlan, SampleWalk
from loamshift.report.card.text import made_with
from loamshift.report.inline import bare
from loamshift.report.messages import say
from loamshift.report.sampling import sample_error, sample_lead
from loamshift.report.words import Words


def sampling_sheet(
    plan: SamplePlan, walk: SampleWalk, *, bed: str = "", day: date | None = None, words: Words
) -> Card:
    """A sampling plan as a sheet to take along.

    Parameters
    ----------
    bed
        What the bed is called; empty leaves a line to write it on.
    day
        The day of the sheet, or None to leave the date to whoever samples.
    """
    drawing = _drawing(plan, walk, words)
    told: list[CardBlock] = [drawing]
    if not walk.pots:
        told.append(Paragraph(say(_pace(walk), words)))
    name = bare(bed)
    title = message("sample-title-bed", bed=Given(name)) if bed else message("sample-title")

    def heading(key: str) -> str:
        return say(message(f"sample-heading-{key}"), words)

    def lines(told: Iterable[Worded]) -> tuple[str, ...]:
        return tuple(say(line, words) for line in told)

    deep = message("sample-label-depth-value", depth=depth(plan.depth_cm))
    label = (
        (message("sample-label-bed"), name),
        (message("sample-label-depth"), say(deep, words)),
        (message("sample-label-date"), ""),
        (message("sample-label-by"), ""),
        (message("sample-label-plants"), ""),
        (message("sample-label-last"), ""),
    )
    return Card(
        kind=CardKind.SAMPLE,
        title=say(title, words),
        subtitle=say(sample_error(plan), words),
        lead=say(sample_lead(plan), words),
        rows=(
            (
                Part(heading=None, blocks=tuple(told)),
                Part(
                    heading=heading("where"),
                    blocks=(Items(lines(plan.where)),),
                    brief=(Items(lines(_first(plan.where))),),
                ),
            ),
            (
                Part(heading=heading("tools"), blocks=(Choices(lines(plan.tools)),)),
                Part(
                    heading=heading("when"),
                    blocks=(Items(lines(plan.when)),),
                    brief=(Items(lines(_first(plan.when))),),
                ),
            ),
            (Part(heading=heading("how"), blocks=(Items(lines(plan.how), numbered=True),)),),
            (
                Part(
                    heading=heading("bag"),
                    blocks=(Blanks(tuple((say(key, words), said) for key, said in label)),),
                ),
                Part(heading=heading("ask"), blocks=(Choices(lines(plan.ask)),)),
            ),
        ),
        closing=made_with(),
        elsewhere="what loamshift sample prints",
        day=day,
    )


def _first(lines: tuple[Prose, ...]) -> tuple[Message, ...]:
    return tuple(line.sentences[0] for line in lines)


def _drawing(plan: SamplePlan, walk: SampleWalk, words: Words) -> WalkPlan:
    if walk.pots:
        said = message("sample-drawing-pots", pots=len(walk.pots), cores=len(walk.spots))
        return WalkPlan(walk, "", "", say(said, words))
    said = message("sample-drawing-bed", cores=plan.cores)
    if walk.length_m is None or walk.width_m is None:
        return WalkPlan(walk, "", "", say(said, words))
    along = message("sample-drawing-about", length=Measure(Quantity.LENGTH, walk.length_m))
    across = message("sample-drawing-across", length=Measure(Quantity.LENGTH, walk.width_m))
    return WalkPlan(walk, say(along, words), say(across, words), say(said, words))


def _pace(walk: SampleWalk) -> Prose:
    if walk.step_m is None:
        return prose(message("sample-pace-even"))
    return prose(
        message("sample-pace", step=Measure(Quantity.LENGTH, walk.step_m)),
        message("sample-pace-shape"),
    )
