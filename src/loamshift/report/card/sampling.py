"""The sampling sheet: what goes out to the bed with the spade, and the label for the bag."""

from __future__ import annotations

from datetime import date

from loamshift.domain.card import Blanks, Card, CardBlock, CardKind, Choices, Part, WalkPlan
from loamshift.domain.letter import Items, Paragraph
from loamshift.domain.sampling import SamplePlan, SampleWalk
from loamshift.report.card.text import first_sentence, made_with
from loamshift.report.inline import bare
from loamshift.report.letter_words import raised
from loamshift.report.sampling import filled
from loamshift.report.words import Quantity, Words

_AS_DRAWN = "Drawn twice as long as wide; fit the walk to the shape of yours."


def sampling_sheet(
    plan: SamplePlan, walk: SampleWalk, *, bed: str = "", day: date | None = None, words: Words
) -> Card:
    """A sampling plan as a sheet to take along.

    Parameters
    ----------
    plan
        Cores, depth, and the steps in words [object].
    walk
        Where they are taken, on a plan [object].
    bed
        What the bed is called; empty leaves a line to write it on [text].
    day
        The day of the sheet, or None to leave the date to whoever samples [date].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Card
        The card [object].
    """
    count = "one sample" if plan.samples == 1 else f"{plan.samples} samples"
    lead = f"{plan.cores} cores, each {words.depth(plan.depth_cm)} deep, mixed into {count}."
    drawing = _drawing(plan, walk, words)
    told: list[CardBlock] = [drawing] if walk.pots else [drawing, Paragraph(_pace(walk, words))]
    where = tuple(words.text(line) for line in plan.where)
    tools = tuple(words.text(raised(line)) for line in filled(plan.tools, plan, words))
    how = tuple(words.text(line) for line in filled(plan.how, plan, words))
    when = tuple(words.text(line) for line in plan.when)
    ask = tuple(words.text(raised(line)) for line in plan.ask)
    label = (
        ("Bed or pots", bare(bed)),
        ("Depth", f"0 to {words.depth(plan.depth_cm)}"),
        ("Date", ""),
        ("Sampled by", ""),
        ("Plants wanted", ""),
        ("Last limed or fed", ""),
    )
    return Card(
        kind=CardKind.SAMPLE,
        title=f"Taking the sample: {bare(bed)}" if bed else "Taking the sample",
        subtitle=words.text(_error(plan)),
        lead=lead,
        rows=(
            (
                Part(heading=None, blocks=tuple(told)),
                Part(heading="Where", blocks=(Items(where),), brief=(Items(_brief(where)),)),
            ),
            (
                Part(heading="Take along", blocks=(Choices(tools),)),
                Part(heading="When", blocks=(Items(when),), brief=(Items(_brief(when)),)),
            ),
            (Part(heading="How", blocks=(Items(how, numbered=True),)),),
            (
                Part(
                    heading="For the bag",
                    blocks=(Blanks(tuple((words.text(a), b) for a, b in label)),),
                ),
                Part(heading="Ask the laboratory for", blocks=(Choices(ask),)),
            ),
        ),
        closing=made_with(),
        elsewhere="what loamshift sample prints",
        day=day,
    )


def _brief(lines: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(first_sentence(line) for line in lines)


def _error(plan: SamplePlan) -> str:
    return f"Their mean lies within about ±{plan.error_ph:.1f} pH of that of the whole."


def _drawing(plan: SamplePlan, walk: SampleWalk, words: Words) -> WalkPlan:
    if walk.pots:
        said = f"A plan of {len(walk.pots)} pots with {len(walk.spots)} cores marked in them."
        return WalkPlan(walk, "", "", said)
    said = f"A plan of the bed: a zigzag from corner to corner with {plan.cores} cores along it."
    if walk.length_m is None or walk.width_m is None:
        return WalkPlan(walk, "", "", said)
    along, across = (f"about {_long(m, words)}" for m in (walk.length_m, walk.width_m))
    return WalkPlan(walk, along, across.removeprefix("about "), said)


def _pace(walk: SampleWalk, words: Words) -> str:
    if walk.step_m is None:
        return "Take even paces, so many that the last core comes near the far corner."
    return f"About **{_long(walk.step_m, words)}** along the line from core to core. {_AS_DRAWN}"


def _long(metres: float, words: Words) -> str:
    return words.say(metres, Quantity.LENGTH)
