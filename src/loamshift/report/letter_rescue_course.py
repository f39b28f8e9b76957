"""How a rescue goes on: the course of the pH by date, and what each test decides."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from loamshift.domain.answer import Answer, Band, RescueCourse, RescueStage
from loamshift.domain.case import BedKind, Case
from loamshift.domain.letter import Align, Block, Column, Paragraph, Table
from loamshift.domain.message import Given, Measure, Message, Quantity, in_100, message, ph
from loamshift.report.letter_decides import decision_tables
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.model import verdict_values

_NEARLY_ALL = 0.98
"""From this share on, all is said to have acted [1]."""


def rescue_course(answer: Answer, case: Case, *, words: Words) -> Iterator[Block]:
    """A rescue over time; nothing where there is none.

    Yields
    ------
    Block
        What each test decides, a table for each day of testing; then the pH by date, how much has
        acted, and when planting is safe.
    """
    course = None if answer.rescue is None else answer.rescue.course
    if course is None:
        return
    if course.acts:
        yield from decision_tables(replace(answer, plan=course.plan), case, words=words)
    in_pot = case.bed.kind is BedKind.CONTAINER
    comes = any(stage.come_frac is not None for stage in course.stages)
    heads = [Column(say(message("rescue-course-on"), words))]
    if comes:
        heads.append(Column(say(message("rescue-course-come"), words), Align.RIGHT))
    heads += [
        Column(say(message(f"rescue-course-{way}"), words), Align.RIGHT)
        for way in (("untreated", "treated") if course.acts else ("untreated",))
    ]
    rows = tuple(_row(stage, comes=comes, acts=course.acts, words=words) for stage in course.stages)
    yield Table(tuple(heads), rows, say(message("rescue-course-caption"), words))
    told = [_clock(course)] if comes else []
    if course.acts and course.plan.share_in_range < verdict_values()["elsewhere_probability"]:
        share = in_100(course.plan.share_in_range)
        told.append(message("rescue-too-much-to-undo", share=share, day=course.look_to))
    told.append(message("rescue-safe-repotted") if in_pot else _safe(course))
    yield Paragraph(" ".join(say(one, words) for one in told))


def _clock(course: RescueCourse) -> Message:
    """How much of what is to come acts within a month and within a year."""
    month, year = course.stages[1], course.stages[min(4, len(course.stages) - 1)]
    now = course.stages[0].come_frac or 0.0
    pace = "fast" if (month.come_frac or 0.0) >= _NEARLY_ALL else "slow"
    pace = "years" if (month.come_frac or 0.0) <= 0.0 else pace
    pace = "done" if now >= _NEARLY_ALL else pace
    return message(
        "rescue-clock",
        pace=pace,
        now=Measure(Quantity.SHARE, now) if now > 0.0 else None,
        month=Measure(Quantity.SHARE, month.come_frac or 0.0),
        year=Measure(Quantity.SHARE, year.come_frac or 0.0),
    )


def _safe(course: RescueCourse) -> Message:
    """When the plants can stand there again."""
    limits = {"low": ph(course.limit_low_ph), "high": ph(course.limit_high_ph)}
    if course.is_safe_by_ph:
        return message("rescue-safe-by-ph", **limits)
    if course.safe_on is None:
        return message("rescue-not-safe", day=course.look_to, **limits)
    half = None if course.safe_on == course.safe_90_on else course.safe_on
    return message("rescue-safe", half=half, nine=course.safe_90_on, **limits)


def _row(stage: RescueStage, *, comes: bool, acts: bool, words: Words) -> tuple[str, ...]:
    cells = [words.date(stage.on)]
    if comes:
        come = stage.come_frac
        cells.append("" if come is None else words.measure(Measure(Quantity.SHARE, come)))
    cells.append(_ph(stage.untreated, words))
    if acts:
        cells.append(_ph(stage.treated, words))
    return tuple(cells)


def _ph(band: Band, words: Words) -> str:
    spread = words.measure(ph(band.lo90, high=band.hi90))
    mid = words.measure(ph(band.mid))
    return say(message("rescue-course-ph", mid=Given(mid), range=Given(spread)), words)
