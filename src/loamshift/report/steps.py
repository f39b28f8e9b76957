"""What to do, in order: date, what, how much for the bed, and how."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from loamshift.domain.answer import Answer, Decision, Reason
from loamshift.domain.case import BedKind, Case
from loamshift.domain.letter import Align, Block, Column, Items, Section, Sheet, Table
from loamshift.domain.message import Message, Product, Prose, Worded, depth, message
from loamshift.report.headline import Part, headline, much_of, next_test, sure_parts
from loamshift.report.letter_head import as_ruled_cm, method_said, reading_in_force
from loamshift.report.messages import say, say_sentence
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials

INSTEAD = frozenset(
    {
        "verdict-suit",
        "verdict-repot",
        "verdict-pot-instead",
        "verdict-plant-apart",
        "verdict-water-first",
        "verdict-water-first-then",
        "verdict-feed-first",
        "verdict-feed-first-then",
    }
)
"""Sentences of a verdict that say what to do in place of changing the soil."""
_IN_THE_LONG_RUN = "rescue-own-place"
"""The step that ends the trouble: it stands on the front sheet with the first ones."""
_FIRST_STEPS = 3
"""So many steps of a rescue stand on the front sheet; the rest is behind it [count]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One row of what to do; None where there is nothing to say."""

    when: date | None
    what: Message
    much: Message | None = None
    how: Message | None = None


def do_this(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """What to do, as a table or as the first steps of a rescue."""
    block = _block(answer, case, words)
    if block is None:
        return None
    return Section(say(message("front-do-this"), words), (block,), sheet=Sheet.FRONT)


def _block(answer: Answer, case: Case, words: Words) -> Block | None:
    decision, rescue = answer.verdict.decision, answer.rescue
    instead = instead_of(answer)
    if instead:
        return Items(tuple(say(one, words) for one in instead))
    if decision in (Decision.STOP, Decision.ELSEWHERE) and rescue is not None and rescue.steps:
        water = [say(one, words) for one in _water_first(answer, case)]
        told = [say_sentence(step, words) for step in rescue_in_front(answer, case)]
        return Items((*water, *told), numbered=True)
    if decision is Decision.MEASURE_FIRST:
        first_gap = answer.missing[0] if answer.missing else None
        return None if first_gap is None else Items((say_sentence(first_gap.how, words),))
    steps = steps_of(answer, case)
    return _table(steps, words) if steps else None


def rescue_in_front(answer: Answer, case: Case) -> tuple[Worded, ...]:
    """The steps of a rescue that the front sheet has room for, in order."""
    if answer.rescue is None:
        return ()
    steps = answer.rescue.steps
    last = [step for step in steps if _key(step) == _IN_THE_LONG_RUN]
    first = [step for step in steps if step not in last]
    room = _FIRST_STEPS - len(_water_first(answer, case)) - len(last)
    return (*first[:room], *last)


def instead_of(answer: Answer) -> tuple[Message, ...]:
    """What to do where this soil is not to be changed, as the verdict says it.

    Nothing where plants stand that can be helped: what helps them comes first.

    Returns
    -------
    tuple of Message
        Whole sentences; empty in an answer of an earlier version.
    """
    because = answer.verdict.because
    if not isinstance(because, Prose):
        return ()
    if any(one.key == "verdict-help-plants" for one in because.sentences):
        return ()
    return tuple(one for one in because.sentences if one.key in INSTEAD)


def _key(step: Worded) -> str:
    """The key of a step, empty where it is words of an earlier version."""
    return step.key if isinstance(step, Message) else ""


def _water_first(answer: Answer, case: Case) -> list[Message]:
    """That the water is treated first, where the headline says so and plants stand there."""
    told = headline(answer, case).key == "headline-water-first"
    return [message("verdict-water-first")] if told else []


def steps_of(answer: Answer, case: Case) -> list[Step]:
    """What to do in order of time, where something goes on or is tested."""
    if answer.verdict.decision in (Decision.STOP, Decision.ELSEWHERE):
        return []
    sure = [part for part in answer.applications if part.only_if is None]
    steps = [_applied(part, case) for part in sure or sure_parts(answer)]
    if not steps and answer.verdict.decision is Decision.LEAVE:
        what, how = message("front-nothing"), message("front-nothing-how")
        if answer.verdict.reason is Reason.AT_WORK:
            how = message("front-nothing-at-work-how")
        if _had_too_much(answer):
            what, how = message("front-nothing-more"), message("front-nothing-more-how")
        steps = [Step(when=None, what=what, how=how)]
    test = next_test(answer)
    day = test if test is not None else min(answer.retest, default=None)
    if day is not None:
        steps.append(Step(when=day, what=message("front-test"), how=_test_how(case)))
    if answer.plan is not None and test is not None:
        on = min((line.part_on for line in answer.plan.decides if line.part_on), default=None)
        if on is not None:
            steps.append(
                Step(
                    when=on,
                    what=message("front-apply", product=Product(answer.plan.material)),
                    much=message("front-by-the-test"),
                    how=message("front-as-below"),
                )
            )
    return steps


def how_applied(part: Part, case: Case) -> Message:
    """How a part goes onto a bed, as a message."""
    material = load_materials().get(part.material)
    if material is not None and material.form in ("liquid", "solution"):
        return message("front-diluted")
    deep = getattr(part, "incorporate_cm", None)
    pot = case.bed.kind is BedKind.CONTAINER
    if deep:
        return message("front-mix-into", kind=case.bed.kind.value, depth=depth(as_ruled_cm(deep)))
    return message("front-pot-surface") if pot else message("front-surface")


def _applied(part: Part, case: Case) -> Step:
    return Step(
        when=part.date,
        what=message("front-apply", product=Product(part.material)),
        much=message("verbatim", text=much_of([part])),
        how=how_applied(part, case),
    )


def _test_how(case: Case) -> Message:
    reading = reading_in_force(case)
    if reading is None or reading.method.is_rough:
        return message("front-test-lab")
    deep = reading.depth_cm or case.soil.sample_depth_cm
    return message(
        "front-test-how",
        method=method_said(reading.method),
        depth=None if deep is None else depth(as_ruled_cm(deep)),
    )


def _table(steps: list[Step], words: Words) -> Table:
    heads = ("front-when", "front-what", "front-how-much", "front-how")
    aligns = (Align.LEFT, Align.LEFT, Align.RIGHT, Align.LEFT)
    columns = tuple(
        Column(say(message(head), words), align) for head, align in zip(heads, aligns, strict=True)
    )
    rows = tuple(
        (
            say(message("front-now"), words) if step.when is None else words.date(step.when),
            say(step.what, words),
            "" if step.much is None else f"**{say(step.much, words)}**",
            "" if step.how is None else say(step.how, words),
        )
        for step in steps
    )
    return without_empty(Table(columns, rows))


def without_empty(table: Table) -> Table:
    """A table without the columns in which no row has a word."""
    kept = [i for i in range(len(table.columns)) if any(row[i] for row in table.rows)]
    columns = tuple(table.columns[i] for i in kept)
    return Table(columns, tuple(tuple(row[i] for i in kept) for row in table.rows), table.caption)


def _had_too_much(answer: Answer) -> bool:
    """True where a bed that is to be left alone has had more than its limit lately."""
    return any(caution.code == "over-cap" for caution in answer.cautions)
