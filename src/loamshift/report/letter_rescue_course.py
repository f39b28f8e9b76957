"""How a rescue goes on: the course of the pH by date, and what each test decides."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from loamshift.domain.answer import Answer, Band, RescueStage
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Block, Column, Table
from loamshift.domain.message import Given, Measure, Quantity, message, ph
from loamshift.report.letter_decides import decision_tables
from loamshift.report.messages import say
from loamshift.report.words import Words


def rescue_course(answer: Answer, case: Case, *, words: Words) -> Iterator[Block]:
    """The tables of a rescue over time; nothing where there is none.

    Yields
    ------
    Block
        What each test decides, a table for each day of testing; then the pH by date.
    """
    course = None if answer.rescue is None else answer.rescue.course
    if course is None:
        return
    if course.acts:
        yield from decision_tables(replace(answer, plan=course.plan), case, words=words)
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
