"""A lesson as a page, and as a worksheet: questions with room to write, then the answers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from loamshift.domain.lesson import Lesson
from loamshift.domain.letter import (
    Block,
    Column,
    Items,
    Letter,
    Matter,
    Paragraph,
    Section,
    Sheet,
    Table,
)
from loamshift.domain.material import Material
from loamshift.domain.message import Given, Product, Prose, Worded, message, ph, rate
from loamshift.domain.own_sum import Origin, SumStep
from loamshift.report.claims_page import claims_about
from loamshift.report.figures.layers import layers_figure, layers_table
from loamshift.report.letter_care import sources, take_care
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.own_sum import figure, said_step
from loamshift.report.pdf_data import WORKSHEET
from loamshift.report.sources import source_numbers
from loamshift.report.words import Words

_TRIES: Final = ("lime", "water", "month", "grain", "texture")
_ROOM: Final = 3
"""Empty rows under a question that is answered with a sum [count]."""
_SUM_HEADS: Final = ("step", "symbols", "figures")


def lesson_letter(lesson: Lesson, *, words: Words) -> Letter:
    """What happens to the layers, how it is worked out, and what to change next.

    Returns
    -------
    Letter
        The claim's own sentences first, then the strips, the sums, and things to try.
    """
    numbers = source_numbers(line.key for line in lesson.answer.sources)
    strips = layers_figure(lesson.layers, _material(lesson), words=words)
    tries = Items(tuple(say(message(f"lesson-try-{one}"), words) for one in _TRIES))
    sections = [
        Section(None, tuple(_opening(lesson, words)), Matter.OPENING),
        Section(_head("layers", words), (strips,)),
        Section(_head("sum", words), (_sums(lesson, words), _clock(lesson, words))),
        Section(_head("tries", words), (tries,)),
        take_care(lesson.answer, numbers=numbers, words=words),
    ]
    listed = sources(lesson.answer, numbers, words=words)
    if listed is not None:
        sections.append(listed)
    return Letter(
        say(message("lesson-title"), words),
        claims_about(lesson.answer, lesson.case, words),
        tuple(sections),
        lesson.case.today,
    )


def worksheet_letter(lesson: Lesson, *, words: Words) -> Letter:
    """The same as questions with room to write; the answers follow on a sheet of their own."""
    claim, entry = lesson.answer.claims[0], lesson.case.claims[0]
    asked: list[Section] = [
        Section(
            None,
            (
                Paragraph(
                    say(
                        message(
                            "lesson-sheet-opening",
                            material=Product(claim.material),
                            rate=rate(entry.rate_g_m2),
                        ),
                        words,
                    )
                ),
            ),
            Matter.OPENING,
            Sheet.FRONT,
            WORKSHEET,
        )
    ]
    steps = _steps(lesson)
    for step in (step for step in steps if not step.formula):
        given = Given(said_step(step, words=words).figures)
        asked.append(
            Section(
                None,
                (Paragraph(say(message("lesson-curve", asked=step.says, given=given), words)),),
                sheet=Sheet.FRONT,
            )
        )
    for place, step in enumerate((step for step in steps if step.formula), 1):
        known = Paragraph(_known(step, words))
        heading = say(message("lesson-question", n=place, asked=step.says), words)
        asked.append(Section(heading, (known, _room(words)), sheet=Sheet.FRONT))
    draw = layers_table(lesson.layers, words=words, blank=True)
    asked.append(Section(_head("predict", words), (draw,), sheet=Sheet.FRONT))
    strips = layers_figure(lesson.layers, _material(lesson), words=words)
    answers: tuple[Block, ...] = (_sums(lesson, words), strips, strips.table)
    numbers = source_numbers(line.key for line in lesson.answer.sources)
    behind = [
        Section(_head("answers", words), (*answers, *_opening(lesson, words))),
        take_care(lesson.answer, numbers=numbers, words=words),
    ]
    listed = sources(lesson.answer, numbers, words=words)
    return Letter(
        say(message("lesson-sheet-title"), words),
        claims_about(lesson.answer, lesson.case, words),
        (*asked, *behind, *(() if listed is None else (listed,))),
        lesson.case.today,
    )


def _material(lesson: Lesson) -> Material:
    return lesson.case.claims[0].material


def _head(name: str, words: Words) -> str:
    return say(message(f"lesson-head-{name}"), words)


def _opening(lesson: Lesson, words: Words) -> Iterator[Paragraph]:
    claim, entry = lesson.answer.claims[0], lesson.case.claims[0]
    said: Worded = claim.comment
    first, *rest = said.sentences if isinstance(said, Prose) else (said,)
    lead = message(
        "lesson-lead",
        material=Product(claim.material),
        rate=rate(entry.rate_g_m2),
        said=first,
    )
    yield Paragraph(say(lead, words))
    if rest:
        yield Paragraph(sentence(Prose(tuple(rest)), words))


def _steps(lesson: Lesson) -> tuple[SumStep, ...]:
    """The steps of all sums in the order they are taken, each once."""
    every = [step for own in lesson.sums for step in own.steps]
    return tuple({step.symbol: step for step in every}.values())


def _sums(lesson: Lesson, words: Words) -> Table:
    rows = [said_step(step, words=words) for step in _steps(lesson)]
    heads = tuple(Column(say(message(f"lesson-column-{head}"), words)) for head in _SUM_HEADS)
    return Table(heads, tuple((row.says, row.symbols, row.figures) for row in rows))


def _clock(lesson: Lesson, words: Words) -> Paragraph:
    """What a sample of the whole depth reads after a year, beside the bed left alone."""
    change = round(lesson.answer.claims[0].ph_change_1_year or 0.0, 1)
    way = "still" if not change else "down" if change < 0.0 else "up"
    return Paragraph(say(message("lesson-clock", change=ph(abs(change)), way=way), words))


def _known(step: SumStep, words: Words) -> str:
    """What is given for a step: names and values of what goes in, but no earlier answer."""
    given = (
        say(
            message(
                "lesson-given",
                name=one.name,
                symbol=Given(one.symbol),
                value=Given(figure(one.value, one.unit, words)),
                worked="yes" if one.origin is Origin.STEP else "no",
            ),
            words,
        )
        for one in step.inputs
    )
    return "; ".join(given)


def _room(words: Words) -> Table:
    return Table((Column(say(message("lesson-room"), words)),), ((" ",),) * _ROOM)
