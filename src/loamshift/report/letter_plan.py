"""The plan: dated parts, why they are parts, when a test begins to mean something."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Application, Decision, Direction
from loamshift.domain.case import BedKind, Case
from loamshift.domain.letter import Align, Block, Column, Paragraph, Section, Table
from loamshift.domain.material import MaterialGroup
from loamshift.report.letter_head import method_said, reading_in_force
from loamshift.report.letter_words import (
    clause,
    counted,
    material_called,
    sentences,
    whole,
)
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials


def what_to_do(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """The parts of the plan as a table, with the tests that belong to it.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section or None
        Nothing where nothing goes on and nothing is to be tested again [object].
    """
    blocks: list[Block] = []
    if answer.applications:
        blocks.append(parts_table(answer, case, words))
        why = _why_parts(answer, words)
        if why:
            blocks.append(Paragraph(words.text(why)))
    tests = sentences(too_early(answer, words), when_to_retest(answer, case, words))
    if tests:
        blocks.append(Paragraph(words.text(tests)))
    if not blocks:
        return None
    return Section(words.text(_heading(answer)), tuple(blocks))


def _heading(answer: Answer) -> str:
    if not answer.applications:
        return "When to test again"
    if answer.verdict.decision is Decision.MEASURE_FIRST:
        return "If the test comes out as expected"
    return "What to do, and when"


def dated_parts(answer: Answer) -> tuple[Application, ...]:
    """What the table of parts lists: not what a test still has to decide, which has its own.

    Parameters
    ----------
    answer
        The answer [object].

    Returns
    -------
    tuple of Application
        The dated parts; all of them where no rule decides about the later ones [objects].
    """
    if answer.plan is None or not answer.plan.decides:
        return answer.applications
    sure = tuple(part for part in answer.applications if part.only_if is None)
    return sure or answer.applications


def parts_table(answer: Answer, case: Case, words: Words) -> Table:
    """The dated parts of an answer [object] for a bed [object], how much and how [object]."""
    parts = dated_parts(answer)
    amounts = any(part.amount_g is not None for part in parts)
    columns = [Column("when"), Column("what"), Column("rate", Align.RIGHT)]
    if amounts:
        columns.append(Column(f"for {whole(case)}", Align.RIGHT))
    columns.append(Column("how"))
    rows = []
    for part in parts:
        row = [
            words.date(part.date),
            _what(part, answer, words),
            words.rate(part.rate_g_m2),
        ]
        if amounts:
            row.append("" if part.amount_g is None else words.amount(part.amount_g))
        row.append(words.text(_how(part, case, words)))
        rows.append(tuple(row))
    return Table(tuple(columns), tuple(rows))


def _what(part: Application, answer: Answer, words: Words) -> str:
    """The material, with what stands in brackets behind its name only the first time."""
    name = material_called(part.material, words)
    first = next(one for one in answer.applications if one.material == part.material)
    return name if part is first else name.split(" (")[0]


def _how(part: Application, case: Case, words: Words) -> str:
    if _is_liquid(part.material):
        text = "diluted in water"
    elif part.incorporate_cm > 0.0:
        verb = "mix into" if case.bed.kind is BedKind.CONTAINER else "work into"
        text = f"{verb} the top {words.depth(part.incorporate_cm)}"
    elif case.bed.kind is BedKind.CONTAINER:
        text = "spread over the top, water in"
    else:
        text = "spread on the surface, water in"
    if part.only_if is None or not part.only_if.strip():
        return text
    condition = clause(part.only_if, words).removeprefix("only ").removeprefix("if ")
    return f"only if {condition}: {text}"


def _is_liquid(key: str) -> bool:
    material = load_materials().get(key)
    return material is not None and material.form in ("liquid", "solution")


def _groups(answer: Answer) -> set[MaterialGroup]:
    materials = load_materials()
    keys = [part.material for part in answer.applications]
    return {materials[key].group for key in keys if key in materials}


def _why_parts(answer: Answer, words: Words) -> str:
    parts = len({part.date for part in dated_parts(answer)})
    if parts < 2:
        return ""
    lead = f"It goes on in {counted(parts, 'part')}"
    if answer.dose.direction is Direction.LIME:
        text = (
            f"{lead} so that no layer is limed past what the plants bear while it is still "
            "being mixed in"
        )
    elif MaterialGroup.SULFUR in _groups(answer):
        text = f"{lead} because roots and soil life take only so much sulfur at a time"
    else:
        text = f"{lead} so that the salt of one is washed down before the next"
    if not any(part.only_if for part in dated_parts(answer)):
        return f"{text}."
    return f"{text}; the test in between decides whether the next is needed at all."


def too_early(answer: Answer, words: Words) -> str:
    """Before when a test says nothing of an answer's plan [object]; may be empty [text]."""
    if answer.too_early_before is None:
        return ""
    text = f"A test before {words.date(answer.too_early_before)} says nothing about the plan"
    groups = _groups(answer)
    if MaterialGroup.SULFUR in groups:
        return f"{text}: sulfur waits for warmth."
    if MaterialGroup.LIME in groups or answer.dose.direction is Direction.LIME:
        return f"{text}: lime dissolves slowly."
    if MaterialGroup.ACID_SALT in groups:
        return f"{text}: fresh salts pull a reading down by more than will last."
    return f"{text}."


def when_to_retest(answer: Answer, case: Case, words: Words) -> str:
    """When and how to test the bed of an answer [object] again; may be empty [text]."""
    if not answer.retest:
        return ""
    days = words.listed([words.date(day) for day in answer.retest])
    reading = reading_in_force(case)
    text = f"Test again on {days}, from the same depth and by the same method"
    if reading is None:
        return f"{text} each time." if len(answer.retest) > 1 else f"{text} as the first."
    if reading.method.is_rough:
        return (
            f"Test again on {days}: have a laboratory read it, and keep to that depth and method "
            "from then on."
        )
    text += f" ({method_said(reading.method)}"
    depth = reading.depth_cm or case.soil.sample_depth_cm
    if depth is not None:
        text += f", top {words.depth(depth)}"
    return text + "), or the two readings cannot be compared."
