"""What each test decides: one line for each range of readings, and how often it works out."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import groupby

from loamshift.domain.answer import (
    Answer,
    Decision,
    Direction,
    PlanRule,
    TestLine,
    Then,
)
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Block, Column, Paragraph, Section, Table
from loamshift.domain.material import MaterialGroup
from loamshift.domain.message import Given, Message, Product, in_100, message, ph, rate
from loamshift.domain.ph import PhMethod
from loamshift.report.bed_names import treated_area_m2, whole_bed
from loamshift.report.front import reads, reads_between
from loamshift.report.letter_head import method_said, reading_in_force
from loamshift.report.messages import say
from loamshift.report.own_method import in_own_method, own_method
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials

_WORTH_SAYING = 0.01


def what_the_test_decides(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """The plan as a rule: what each reading calls for, and the chances of the whole.

    Returns
    -------
    Section or None
        Nothing where there is no plan, where the verdict waits for another test, or where nothing
        is ever put on.
    """
    plan = answer.plan
    waits = answer.verdict.decision is Decision.MEASURE_FIRST
    if plan is None or waits or not (plan.parts or plan.decides):
        return None
    blocks: list[Block] = list(decision_tables(answer, case, words=words))
    if blocks:
        blocks.append(Paragraph(" ".join(say(one, words) for one in _how_to_read(case))))
    odds = chances(answer, case)
    if not plan.decides:
        odds = [one for one in odds if one.key != "front-chance"]  # the front sheet says it
    if odds:
        blocks.append(Paragraph(" ".join(say(one, words) for one in odds)))
    if not blocks:
        return None
    heading = "decides-heading" if plan.decides else "decides-heading-chances"
    return Section(say(message(heading), words), tuple(blocks))


def decision_tables(answer: Answer, case: Case, *, words: Words) -> Iterator[Table]:
    """What each test decides, a table for each day of testing.

    Yields
    ------
    Table
        A line for each range of readings, the one that calls for most first.
    """
    plan = answer.plan
    if plan is None:
        return
    for day, lines in groupby(plan.decides, key=lambda line: line.test):
        yield _table(plan, day, _most_first(tuple(lines)), answer, case, words)


def _most_first(lines: tuple[TestLine, ...]) -> tuple[TestLine, ...]:
    """Lines from the reading that calls for most to the one that calls for nothing."""
    return lines if lines[0].part_g_m2 >= lines[-1].part_g_m2 else lines[::-1]


def _table(
    plan: PlanRule,
    day: date,
    lines: tuple[TestLine, ...],
    answer: Answer,
    case: Case,
    words: Words,
) -> Table:
    own, area = own_method(case), treated_area_m2(answer, case)
    heads = [Column(say(message("decides-in-water"), words))]
    if own is not None:
        method = message("decides-in-own", method=method_said(own.method))
        heads.append(Column(say(method, words)))
    heads.append(Column(say(message("decides-then"), words)))
    if area is not None:
        whole = message("bed-for-whole", whole=whole_bed(case))
        heads.append(Column(say(whole, words), Align.RIGHT))
    rows = []
    for line in lines:
        row = [say(reads(line), words)]
        if own is not None:
            row.append(say(reads_between(*in_own_method(line, own)), words))
        row.append(say(_then(line, plan, answer, case, words), words))
        if area is not None:
            row.append("" if line.part_g_m2 <= 0.0 else words.amount(line.part_g_m2 * area))
        rows.append(tuple(row))
    goes_on = any(line.part_g_m2 > 0.0 for line in lines)
    caption = message(
        "decides-caption", day=day, product=Product(plan.material) if goes_on else None
    )
    return Table(tuple(heads), tuple(rows), say(caption, words))


def _then(line: TestLine, plan: PlanRule, answer: Answer, case: Case, words: Words) -> Message:
    match line.then:
        case Then.PART:
            return message("decides-part", rate=rate(line.part_g_m2), day=line.part_on)
        case Then.TEST_AGAIN:
            month = _next_month(line.test, answer, words)
            return message("decides-test-again", group=_working(plan, case), month=month)
        case Then.DONE:
            return message("decides-nothing")


def _working(plan: PlanRule, case: Case) -> str | None:
    """What still works: sulfur or lime, of a product known by its label as well; or nothing."""
    if not plan.parts:
        return "nothing"
    material = case.own_materials.get(plan.material) or load_materials().get(plan.material)
    group = None if material is None else material.group
    return (
        {MaterialGroup.SULFUR: "sulfur", MaterialGroup.LIME: "lime"}.get(group) if group else None
    )


def _next_month(test: date, answer: Answer, words: Words) -> Message:
    """Month and year of the test after this one: the next day of the answer, or a year on."""
    later = min((day for day in answer.retest if day > test), default=None)
    month, year = (test.month, test.year + 1) if later is None else (later.month, later.year)
    return message("decides-month", month=Given(words.month(month)), year=Given(str(year)))


def _how_to_read(case: Case) -> list[Message]:
    reading = reading_in_force(case)
    method = PhMethod.WATER_1_2_5 if reading is None else reading.method
    told = []
    if own_method(case) is not None:
        told.append(message("decides-own-column", method=method_said(method)))
    elif not method.is_water:
        told.append(message("decides-water-column"))
    return [*told, message("decides-then-ask")]


def chances(answer: Answer, case: Case) -> list[Message]:
    """How often the plan works out, in counts of 100, beside what the front sheet says."""
    plan, wanted = answer.plan, answer.wanted
    if plan is None:
        return []
    told = []
    if wanted is not None:
        reading = reading_in_force(case)
        salt = "yes" if reading is not None and reading.method.is_salt else "no"
        told.append(
            message(
                "front-chance",
                share=in_100(plan.share_in_range),
                low=ph(wanted.ph_low),
                high=ph(wanted.ph_high),
                day=plan.on,
                salt=salt,
                kind=case.bed.kind.value,
            )
        )
    if plan.decides:
        single = in_100(plan.share_in_range_without_tests)
        told.append(message("decides-chance-tests", share=single))
    if plan.share_harmed >= _WORTH_SAYING:
        lime = answer.dose.direction is Direction.LIME
        told.append(
            message(
                "decides-harmed",
                direction="lime" if lime else "acidify",
                share=in_100(plan.share_harmed),
                kind=case.bed.kind.value,
            )
        )
    return told
