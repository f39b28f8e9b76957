"""The front sheet of a letter: the answer at a glance, on one side of paper."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby

from loamshift.domain.answer import Answer, Decision, Direction, Reason, TestLine, Then
from loamshift.domain.case import Case
from loamshift.domain.letter import (
    Block,
    Column,
    Matter,
    Note,
    Paragraph,
    Section,
    Sheet,
    Table,
)
from loamshift.domain.message import Message, Prose, Worded, amount, in_100, message, ph, rate
from loamshift.report.bed_names import treated_area_m2
from loamshift.report.figures.decides import decides_figure
from loamshift.report.headline import headline, next_test
from loamshift.report.holding import pull_back, upkeep_habit
from loamshift.report.learnt import how_it_answered
from loamshift.report.letter_branches import depends_on
from loamshift.report.letter_care import RULES_LINE, cautions_to_handle
from loamshift.report.letter_head import method_said, reading_in_force
from loamshift.report.letter_worth import not_weighed, test_to_make_first
from loamshift.report.look_first import lime_around, look_first
from loamshift.report.messages import say, say_sentence
from loamshift.report.own_method import in_own_method, own_method
from loamshift.report.steps import INSTEAD, do_this, instead_of
from loamshift.report.words import Words

_IN_HEADLINE = "verdict-start"
"""Sentences of the verdict that the headline and the table below say already."""
_OF_A_TEST = frozenset({"acid-handling"})
"""Cautions of a test itself: nothing else is handled while the verdict waits for it."""
_MOST_CAUTIONS = 3
"""So many stand on the front sheet; all stand behind it [count]."""
_ALWAYS = frozenset({"children-pets"})
"""Cautions that are never left to the sheets behind."""
_TEST_OF = {
    "verdict-buffering-change": "titration",
    "verdict-buffering-either-change": "titration",
    "verdict-fizz-change": "soil.fizz",
    "verdict-free-lime-change": "soil.carbonate_pct",
    "verdict-less-lime-change": "soil.carbonate_pct",
    "verdict-water-alkalinity-change": "water.alkalinity",
    "verdict-water-weekly-change": "water.weekly",
}
"""Tests that a verdict asks for, by the field of the case file that they fill in."""
_UNDER = {
    Decision.MEASURE_FIRST: "front-would-settle",
    Decision.EFFORT: "front-would-ease",
}


def front_sheet(
    answer: Answer, case: Case, *, words: Words, settled: bool = True
) -> tuple[Section, ...]:
    """The verdict, what to do, what the test decides, what undoes it, the cautions, one test.

    Parameters
    ----------
    settled
        False where the course is still being worked out: it and what the test on it decides
        are left out.

    Returns
    -------
    tuple of Section
        In reading order; what there is nothing to say of is left out.
    """
    sections: dict[str, Section | None] = {
        "opening": opening(answer, case, words=words, settled=settled),
        "first": look_first(answer, case, words=words),
        "steps": do_this(answer, case, words=words),
        "course": course(answer, case, words=words) if settled else None,
        "undo": _undone(answer, case, words),
        "care": _precautions(answer, words),
        "measure": _worth_measuring(answer, words),
    }
    return tuple(
        replace(section, sheet=Sheet.FRONT, topic=section.topic or topic)
        for topic, section in sections.items()
        if section is not None
    )


def opening(answer: Answer, case: Case, *, words: Words, settled: bool = True) -> Section:
    """The verdict of an answer as the first lines of the letter.

    Parameters
    ----------
    settled
        False where the course is still being worked out, and the chance of the plan with it.
    """
    verdict = answer.verdict
    below = bool(instead_of(answer))
    told = " ".join(
        part
        for part in (
            say_sentence(_shorter(verdict.because, instead_below=below), words),
            _said(chance(answer, case, settled=settled), words),
            _said(when_to_plant(answer, case), words),
        )
        if part
    )
    blocks: list[Block] = [Paragraph(f"**{say(headline(answer, case), words)}**")]
    if told:
        blocks.append(Paragraph(told))
    answered = how_it_answered(answer)
    if answered is not None:
        blocks.append(Paragraph(say(answered, words)))
    change = say_sentence(verdict.would_change_if, words)
    if change and verdict.decision is not Decision.MEASURE_FIRST and not _asked_below(answer):
        label = _UNDER.get(verdict.decision, "front-would-change")
        blocks.append(Note(change, say(message(label), words)))
    return Section(None, tuple(blocks), Matter.OPENING, Sheet.FRONT)


def _asked_below(answer: Answer) -> bool:
    """True where what would change it is the plan's own test, or the one that is worth making."""
    change = answer.verdict.would_change_if
    if not isinstance(change, Message):
        return False
    if change.key == "verdict-planned-test-change":
        return True
    return bool(answer.missing) and _TEST_OF.get(change.key) == answer.missing[0].field


def _shorter(because: Worded, *, instead_below: bool) -> Worded:
    if not isinstance(because, Prose):
        return because
    said = INSTEAD if instead_below else frozenset()
    return Prose(
        tuple(
            one
            for one in because.sentences
            if not one.key.startswith(_IN_HEADLINE) and one.key not in said
        )
    )


def chance(answer: Answer, case: Case, *, settled: bool = True) -> Message | None:
    """How often the plan works out, in a count of 100 beds, or that it is not known yet.

    Returns
    -------
    Message or None
        One sentence; None where there is no plan to follow now.
    """
    plan, wanted = answer.plan, answer.wanted
    follows = answer.verdict.decision in (Decision.GO, Decision.EFFORT)
    if plan is None or wanted is None or not follows or not (plan.parts or plan.decides):
        return None
    if not settled:
        return message("front-chance-coming")
    reading = reading_in_force(case)
    return message(
        "front-chance",
        share=in_100(plan.share_in_range),
        low=ph(wanted.ph_low),
        high=ph(wanted.ph_high),
        day=plan.on,
        kind=case.bed.kind.value,
        salt="yes" if reading is not None and reading.method.is_salt else "no",
    )


def when_to_plant(answer: Answer, case: Case) -> Message | None:
    """From which reading on an empty bed that is made acid can be planted, and about when."""
    forecast, wanted = answer.forecast, answer.wanted
    follows = answer.verdict.decision in (Decision.GO, Decision.EFFORT)
    empty = case.bed.planted is False and answer.dose.direction is Direction.ACIDIFY
    if forecast is None or wanted is None or not (follows and empty and wanted.names):
        return None
    inside = [wanted.ph_low <= value <= wanted.ph_high for value in forecast.ph.q50]
    if True not in inside or inside[0]:
        return None
    reading = reading_in_force(case)
    return message(
        "front-plant-when",
        low=ph(wanted.ph_low),
        high=ph(wanted.ph_high),
        day=forecast.dates[inside.index(True)],
        salt="yes" if reading is not None and reading.method.is_salt else "no",
    )


def course(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """The course of the pH as one picture, and what the test on it decides.

    Returns
    -------
    Section or None
        Nothing where there is neither a forecast nor a test that decides.
    """
    if answer.verdict.decision is Decision.MEASURE_FIRST and answer.branches:
        open_question = depends_on(answer, words=words)
        named = say(message("front-test-decides"), words)
        return (
            None
            if open_question is None
            else replace(open_question, heading=named, topic="branches")
        )
    if answer.verdict.decision is Decision.MEASURE_FIRST:
        return None  # weights under a verdict that waits would be spread
    figure = decides_figure(answer, case, words=words)
    table = decides_table(answer, case, words=words)
    if figure is None and table is None:
        return None
    test = next_test(answer)
    heading = message("front-course")
    if test is not None and table is not None:
        heading = message("front-decides", day=test)
    blocks = [block for block in (figure, table) if block is not None]
    return Section(say(heading, words), tuple(blocks), sheet=Sheet.FRONT)


def decides_table(answer: Answer, case: Case, *, words: Words) -> Table | None:
    """What the next test decides, a line for each range of readings.

    Returns
    -------
    Table or None
        The reading that calls for most first; None where no test decides.
    """
    if answer.plan is None or not answer.plan.decides:
        return None
    _, found = next(groupby(answer.plan.decides, key=lambda line: line.test))
    lines = tuple(found)
    if lines[0].part_g_m2 < lines[-1].part_g_m2:
        lines = lines[::-1]
    area, own = treated_area_m2(answer, case), own_method(case)
    method = None if own is None else method_said(own.method)
    columns = (
        Column(say(message("front-reads", method=method), words)),
        Column(say(message("front-then"), words)),
    )
    rows = tuple(
        (
            say(reads(line) if own is None else reads_between(*in_own_method(line, own)), words),
            say(then(line, area), words),
        )
        for line in lines
    )
    return Table(columns, rows)


def reads(line: TestLine) -> Message:
    """The readings of one line of a plan, in water: ``5.9 to 6.3``."""
    return reads_between(line.reads_from, line.reads_to)


def reads_between(low_ph: float | None, high_ph: float | None) -> Message:
    """Readings from one to another, None for an open end [pH], as a cell says them."""
    if high_ph is None:
        if low_ph is None:
            return message("front-any-reading")
        return message("front-or-more", ph=ph(low_ph))
    if low_ph is None:
        return message("front-or-less", ph=ph(high_ph))
    return message("front-between", range=ph(low_ph, high=high_ph))


def then(line: TestLine, area_m2: float | None) -> Message:
    """What a line of a plan calls for, for the whole bed where its area is known.

    Parameters
    ----------
    area_m2
        Area of the bed [m2]; None where nobody gave it.
    """
    match line.then:
        case Then.PART:
            much = rate(line.part_g_m2) if area_m2 is None else amount(line.part_g_m2 * area_m2)
            return message("front-add", amount=much)
        case Then.TEST_AGAIN:
            return message("front-test-again")
        case Then.DONE:
            return message("front-add-nothing")


def _undone(answer: Answer, case: Case, words: Words) -> Section | None:
    """What pulls the pH back, and the one habit that holds it."""
    pull, habit = pull_back(answer, case), upkeep_habit(answer, case)
    around = lime_around(case) if _is_forecast(answer) else None
    if around is not None and pull is not None and pull.key == "upkeep-undo-nothing":
        pull = None
    if around is not None and habit is not None and habit.values.get("still") == "yes":
        habit = message(habit.key, still="no")
    told = [say(one, words) for one in (around, pull, habit) if one is not None]
    if not told:
        return None
    heading = "front-undo" if (pull or around) is not None else "front-holds"
    blocks = tuple(Paragraph(text) for text in told)
    return Section(say(message(heading), words), blocks, Matter.BESIDE, Sheet.FRONT)


def _is_forecast(answer: Answer) -> bool:
    """True where the front sheet shows a course that lime from around a bed would bend up."""
    waits = (Decision.MEASURE_FIRST, Decision.STOP, Decision.ELSEWHERE)
    limes = answer.dose.direction is Direction.LIME
    return answer.verdict.decision not in waits and not limes


def _precautions(answer: Answer, words: Words) -> Section | None:
    """The cautions of what is really used, and whose rules count."""
    waits = answer.verdict.decision is Decision.MEASURE_FIRST
    used = [one for one in cautions_to_handle(answer) if not waits or one.code in _OF_A_TEST]
    if not used:
        return None
    first = used
    if len(used) > _MOST_CAUTIONS:
        keep = [one for one in used if one.code in _ALWAYS]
        others = [one for one in used if one.code not in _ALWAYS]
        first = [*others[: _MOST_CAUTIONS - len(keep)], *keep]
    told = [say_sentence(one.short, words) for one in first]
    if len(first) < len(used):
        told.append(say(message("front-more-care"), words))
    told.append(say(RULES_LINE, words))
    heading = say(message("front-precautions"), words)
    return Section(heading, (Paragraph(" ".join(told)),), Matter.BESIDE, Sheet.FRONT)


def _worth_measuring(answer: Answer, words: Words) -> Section | None:
    """The one thing most worth measuring, where the verdict neither waits for it nor stands."""
    verdict = answer.verdict
    stands = verdict.decision is Decision.LEAVE or verdict.reason is Reason.NO_COMMON_RANGE
    if stands or verdict.decision in (Decision.MEASURE_FIRST, Decision.STOP):
        return None  # the verdict waits for a test, or the steps of the rescue have theirs
    if verdict.decision is Decision.ELSEWHERE and not _asked_below(answer):
        return None  # what would change it stands with the verdict
    how = test_to_make_first(answer, words)
    if not how:
        facts = not_weighed(answer)
        if not facts:
            return None
        if verdict.reason is Reason.WATER and not facts[0].field.startswith("water."):
            return None  # nothing about the soil would change it
        how = say_sentence(facts[0].how, words)
    starts = verdict.decision in (Decision.GO, Decision.EFFORT)
    heading = say(message("front-measure-first" if starts else "front-measure"), words)
    return Section(heading, (Paragraph(how),), Matter.BODY, Sheet.FRONT)


def _said(what: Message | None, words: Words) -> str:
    return "" if what is None else say(what, words)
