"""The dated applications, why there are several, and when a test means something."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Application, Decision, Direction
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Block, Column, Paragraph, Section, Table
from loamshift.domain.material import MaterialGroup
from loamshift.domain.message import Given, Listed, Message, Product, depth, message, prose
from loamshift.report.bed_names import whole_bed
from loamshift.report.letter_head import as_ruled_cm, method_said, reading_in_force
from loamshift.report.messages import say
from loamshift.report.steps import how_applied
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials


def what_to_do(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """The applications of the plan as a table, with the tests that belong to it.

    Returns
    -------
    Section or None
        Nothing where nothing goes on and nothing is to be tested again.
    """
    blocks: list[Block] = []
    if answer.applications:
        blocks.append(parts_table(answer, case, words))
        why = [say(one, words) for one in _why_several(answer)]
        if why:
            blocks.append(Paragraph(" ".join(why)))
    tests = [
        how_long(answer, words),
        too_early(answer, words),
        when_to_retest(answer, case, words),
    ]
    told = " ".join(text for text in tests if text)
    if told:
        blocks.append(Paragraph(told))
    if not blocks:
        return None
    return Section(say(message(_heading(answer)), words), tuple(blocks))


def _heading(answer: Answer) -> str:
    if not answer.applications:
        return "plan-heading-retest"
    if answer.verdict.decision is Decision.MEASURE_FIRST:
        return "plan-heading-provisional"
    return "plan-heading"


def dated_parts(answer: Answer) -> tuple[Application, ...]:
    """What the table of applications lists: not what a test still has to decide.

    Returns
    -------
    tuple of Application
        The dated applications; all of them where no rule decides about the later ones.
    """
    if answer.plan is None or not answer.plan.decides:
        return answer.applications
    sure = tuple(part for part in answer.applications if part.only_if is None)
    return sure or answer.applications


def parts_table(answer: Answer, case: Case, words: Words) -> Table:
    """The dated applications of an answer, how much of each and how."""
    parts = dated_parts(answer)
    amounts = any(part.amount_g is not None for part in parts)
    columns = [
        Column(say(message("front-when"), words)),
        Column(say(message("front-what"), words)),
        Column(say(message("plan-rate"), words), Align.RIGHT),
    ]
    if amounts:
        head = message("bed-for-whole", whole=whole_bed(case))
        columns.append(Column(say(head, words), Align.RIGHT))
    columns.append(Column(say(message("front-how"), words)))
    rows = []
    for part in parts:
        row = [
            words.date(part.date),
            say(message("front-apply", product=Product(part.material)), words),
            words.rate(part.rate_g_m2),
        ]
        if amounts:
            row.append("" if part.amount_g is None else words.amount(part.amount_g))
        row.append(say(_how(part, case), words))
        rows.append(tuple(row))
    return Table(tuple(columns), tuple(rows))


def _how(part: Application, case: Case) -> Message:
    how = how_applied(part, case)
    if not part.only_if:
        return how
    condition = part.only_if if isinstance(part.only_if, Message) else Given(str(part.only_if))
    return message("plan-only-if", condition=condition, how=how)


def group_of(answer: Answer) -> str | None:
    """What the plan puts on: ``sulfur``, ``lime``, ``salt`` or None."""
    known = load_materials()
    found = {known[part.material].group for part in answer.applications if part.material in known}
    by_label = any(part.material not in known for part in answer.applications)
    if MaterialGroup.SULFUR in found or (by_label and answer.dose.direction is Direction.ACIDIFY):
        return "sulfur"  # a plan puts on nothing else that acidifies
    if MaterialGroup.LIME in found or (
        answer.applications and answer.dose.direction is Direction.LIME
    ):
        return "lime"
    return "salt" if MaterialGroup.ACID_SALT in found else None


def _why_several(answer: Answer) -> list[Message]:
    parts = dated_parts(answer)
    days = len({part.date for part in parts})
    if days < 2:
        return []
    told = [message("plan-split", group=group_of(answer) or "salt", n=days)]
    if any(part.only_if for part in parts):
        told.append(message("plan-split-tested"))
    return told


def how_long(answer: Answer, words: Words) -> str:
    """By when the prills of an answer's plan have acted; may be empty."""
    if answer.plan is None or answer.plan.acted_on is None:
        return ""
    whole = "yes" if answer.plan.on >= answer.plan.acted_on else "no"
    return say(message("plan-prills", day=answer.plan.acted_on, whole=whole), words)


def too_early(answer: Answer, words: Words) -> str:
    """Before when a test says nothing of an answer's plan; may be empty."""
    if answer.too_early_before is None:
        return ""
    told = message("plan-too-early", group=group_of(answer), day=answer.too_early_before)
    return say(told, words)


def _rescue_tests(answer: Answer) -> bool:
    """True where a step of the rescue names the day of its test."""
    steps = () if answer.rescue is None else answer.rescue.steps
    return any(isinstance(step, Message) and step.key == "rescue-salt-test" for step in steps)


def when_to_retest(answer: Answer, case: Case, words: Words) -> str:
    """When and how to test the bed of an answer again; may be empty."""
    if not answer.retest or _rescue_tests(answer):
        return ""
    days = Listed(answer.retest)
    reading = reading_in_force(case)
    if reading is not None and reading.method.is_rough:
        return say(message("plan-retest-lab", days=days), words)
    deep = None if reading is None else reading.depth_cm or case.soil.sample_depth_cm
    told = message(
        "plan-retest",
        days=days,
        method=None if reading is None else method_said(reading.method),
        depth=None if deep is None else depth(as_ruled_cm(deep)),
    )
    worked = max((part.incorporate_cm for part in dated_parts(answer)), default=0.0)
    other = worked > 0.0 and deep is not None and as_ruled_cm(worked) != as_ruled_cm(deep)
    if not other or deep is None:
        return say(told, words)
    why = message(
        "plan-retest-depth", tested=depth(as_ruled_cm(deep)), worked=depth(as_ruled_cm(worked))
    )
    return say(prose(told, why), words)
