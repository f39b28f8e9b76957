"""What the next test decides: one line for each range of readings, and how often it works out."""

from __future__ import annotations

import math
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
from loamshift.domain.letter import Align, Block, Column, Note, Paragraph, Section, Table
from loamshift.domain.material import MaterialGroup
from loamshift.domain.ph import PhConversion, PhMethod
from loamshift.report.letter_head import method_said, reading_in_force
from loamshift.report.letter_need import treated_area_m2
from loamshift.report.letter_words import in_100, product_in_text, sentences, whole
from loamshift.report.words import MONTHS, Words
from loamshift.tables.materials import load_materials
from loamshift.tables.ph_methods import default_ph_conversion

DECIDES = "What the test decides"
LATER_TEST = "What a later test would decide"
CHANCES = "How likely this is to work"
HEADINGS = (DECIDES, LATER_TEST, CHANCES)

THEN_SHORT = {Then.PART: "", Then.TEST_AGAIN: "nothing yet, test again", Then.DONE: "nothing more"}
"""What a line calls for where room is short; the amount is said by itself."""

_HALF_STEP_PH = 0.05
"""Readings are told to a tenth, so that a line ends halfway to the next."""
_WORTH_SAYING = 0.01
PROVISIONAL = "This holds only if the test you still need gives the result we expect."


def what_the_test_decides(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """The plan as a rule: what each reading calls for, and the chances of the whole.

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
        Nothing where there is no plan, or one in which nothing is ever put on [object].
    """
    plan = answer.plan
    if plan is None or not (plan.parts or plan.decides):
        return None
    blocks: list[Block] = list(decision_tables(answer, case, words=words))
    if blocks:
        blocks.append(Paragraph(words.text(_how_to_read(case))))
    blocks.append(Paragraph(words.text(chances(answer, case, words))))
    later = answer.verdict.decision is Decision.MEASURE_FIRST
    if later:
        blocks.append(Note(PROVISIONAL, "Provisional"))
    heading = CHANCES if not plan.decides else LATER_TEST if later else DECIDES
    return Section(heading, tuple(blocks))


def decision_tables(answer: Answer, case: Case, *, words: Words) -> Iterator[Table]:
    """What each test decides, a table for each day of testing.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Spelling and units of the reader [object].

    Yields
    ------
    Table
        A line for each range of readings, the one that calls for most first [object].
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
    own, area = _own_method(case), treated_area_m2(answer, case)
    columns = [Column("pH in water")]
    if own is not None:
        columns.append(Column(f"pH {method_said(own.method)}"))
    columns.append(Column("then"))
    if area is not None:
        columns.append(Column(f"for {whole(case)}", Align.RIGHT))
    rows = []
    for line in lines:
        row = [reads_said(line, words)]
        if own is not None:
            row.append(_reads(*_in_own_method(line, own), words))
        row.append(words.text(_then(line, plan, answer, words)))
        if area is not None:
            row.append("" if line.part_g_m2 <= 0.0 else words.amount(line.part_g_m2 * area))
        rows.append(tuple(row))
    what = ""
    if any(line.part_g_m2 > 0.0 for line in lines):
        what = f"; amounts of {product_in_text(plan.material, words)}"
    caption = words.text(f"Test on {words.date(day)}{what}")
    return Table(tuple(columns), tuple(rows), caption)


def reads_said(line: TestLine, words: Words) -> str:
    """The readings of one line [object] in a cell, in water: ``5.9 to 6.3`` [text]."""
    return _reads(line.reads_from, line.reads_to, words)


def _reads(low: float | None, high: float | None, words: Words) -> str:
    """A range of readings [pH] as a person with a report looks for it."""
    if low is None and high is None:
        return "any reading"
    if low is None:
        return f"{words.ph(high or 0.0)} or less"
    if high is None:
        return f"{words.ph(low)} or more"
    if words.ph(low) == words.ph(high):
        return words.ph(low)
    return f"{words.ph(low)} to {words.ph(high)}"


def _then(line: TestLine, plan: PlanRule, answer: Answer, words: Words) -> str:
    match line.then:
        case Then.PART:
            day = "" if line.part_on is None else f" on {words.date(line.part_on)}"
            return f"{words.rate(line.part_g_m2)}{day}"
        case Then.TEST_AGAIN:
            return (
                f"nothing now; {_working(plan)} still working; test again in "
                f"{_next_test(line.test, answer)}"
            )
        case Then.DONE:
            return "nothing more"


def _working(plan: PlanRule) -> str:
    material = load_materials().get(plan.material)
    group = None if material is None else material.group
    names = {MaterialGroup.SULFUR: "the sulfur is", MaterialGroup.LIME: "the lime is"}
    return "it is" if group is None else names.get(group, "it is")


def _next_test(test: date, answer: Answer) -> str:
    """Month and year of the test after this one: the next day of the answer, or a year on."""
    later = min((day for day in answer.retest if day > test), default=None)
    month, year = (test.month, test.year + 1) if later is None else (later.month, later.year)
    return f"{MONTHS[month - 1]} {year}"


def _own_method(case: Case) -> PhConversion | None:
    """How the bed's own method turns into pH in water, where the two differ."""
    reading = reading_in_force(case)
    if reading is None or reading.method.is_rough:
        return None
    found = default_ph_conversion(reading.method)
    return None if (found.intercept, found.slope) == (0.0, 1.0) else found


def _in_own_method(line: TestLine, own: PhConversion) -> tuple[float | None, float | None]:
    """The ends of a line [pH in water] as the bed's own method reads them, to a tenth.

    The edge between two lines lies halfway between their tenths; turned into the other method
    it falls between two of its tenths, so that there too every reading has one line.
    """
    low = None if line.reads_from is None else _below(line.reads_from - _HALF_STEP_PH, own) + 0.1
    high = None if line.reads_to is None else _below(line.reads_to + _HALF_STEP_PH, own)
    return low, high


def _below(edge_ph: float, own: PhConversion) -> float:
    """The last tenth below an edge [pH in water], in the other method [pH]."""
    turned = (edge_ph - own.intercept) / own.slope
    return math.floor(10.0 * turned + 1e-6) / 10.0


def _how_to_read(case: Case) -> str:
    reading = reading_in_force(case)
    method = PhMethod.WATER_1_2_5 if reading is None else reading.method
    told = ""
    if _own_method(case) is not None:
        told = (
            f"This bed was tested {method_said(method)}: use that column if the next test is "
            "made the same way."
        )
    elif not method.is_water:
        told = "The values are pH in water, as a laboratory reads it."
    return sentences(
        told, "After the test, add its reading and ask again: the next step follows from it."
    )


def chances(answer: Answer, case: Case, words: Words) -> str:
    """How often the plan works out, in counts of 100.

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
    str
        Sentences; nothing where there is no plan [text].
    """
    plan = answer.plan
    if plan is None:
        return ""
    span, wanted, told = "in the range", answer.wanted, ""
    if wanted is not None:
        span = f"between pH {words.ph(wanted.ph_low)} and {words.ph(wanted.ph_high)}"
        reading = reading_in_force(case)
        if reading is not None and reading.method.is_salt:
            told = "That range is pH in water."
    single = in_100(plan.share_in_range_without_tests)
    return sentences(
        f"Of 100 beds like this one treated this way, {in_100(plan.share_in_range)} would be "
        f"{span} on {words.date(plan.on)} and a year later.",
        told,
        f"With the best single amount and no test, {single} would." if plan.decides else "",
        _harmed(answer, plan),
    )


def _harmed(answer: Answer, plan: PlanRule) -> str:
    if plan.share_harmed < _WORTH_SAYING:
        return ""
    too = "too alkaline" if answer.dose.direction is Direction.LIME else "too acid"
    return (
        f"In {in_100(plan.share_harmed)} of 100 such beds, the plan itself would make the soil "
        f"{too} for the plants at some point."
    )
