"""What to do about a bed that has had too much."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import replace

from loamshift.domain.answer import Answer, Band, Decision, Rescue
from loamshift.domain.letter import Block, Items, Paragraph, Section
from loamshift.domain.message import Message, Prose, Worded, message, ph, rate
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.words import Words

_COURSE = "verdict-overdose-course"
"""The sentence of a verdict that says what the forecast comes to."""
_TODAY = "rescue-today-"
"""How the keys of steps begin that are for the first hour."""
_NOTHING_G_M2 = 1.0


def putting_right(
    answer: Answer,
    *,
    words: Words,
    in_front: Container[Worded] = (),
    course: tuple[Block, ...] = (),
) -> Section | None:
    """The rescue: where it is heading, the steps in order, and what makes it worse.

    Parameters
    ----------
    in_front
        Steps that the front sheet has said.
    course
        Tables of how it goes on, behind the steps.
    """
    rescue = answer.rescue
    if rescue is None:
        return None
    lead = what_is_wrong(answer, words)
    blocks: list[Block] = [Paragraph(lead)] if lead else []
    left = tuple(step for step in rescue.steps if step not in in_front)
    today, later = steps_said(replace(rescue, steps=left), words)
    if len(left) < len(rescue.steps) and left:
        blocks.append(Paragraph(say(message("rescue-then-today"), words)))
        today, later = (), (*today, *later)
    elif today and later:
        blocks += [
            Paragraph(say(message("rescue-today"), words)),
            Items(today),
            Paragraph(say(message("rescue-then"), words)),
        ]
    if today or later:
        blocks.append(Items(later or today, numbered=True))
    blocks += course
    harmless = rescue.course is not None and rescue.course.is_safe_by_ph
    if rescue.lime_as_caco3_g_m2 is not None and not harmless:
        blocks.append(Paragraph(say(_lime(rescue.lime_as_caco3_g_m2), words)))
    if rescue.never:
        blocks.append(Paragraph(say(message("rescue-not"), words)))
        blocks.append(Items(tuple(sentence(step, words) for step in rescue.never)))
    given_up = answer.verdict.decision is Decision.ELSEWHERE
    heading = message("rescue-heading-relief") if given_up else message("rescue-heading")
    return Section(say(heading, words), tuple(blocks))


def steps_said(rescue: Rescue, words: Words) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The steps of a rescue in words, those for the first hour apart.

    Returns
    -------
    tuple
        Steps for today and steps after that, each in order; the first is empty for a rescue kept
        by an earlier version.
    """
    today = tuple(sentence(step, words) for step in rescue.steps if _is_for_today(step))
    later = tuple(sentence(step, words) for step in rescue.steps if not _is_for_today(step))
    return today, later


def what_is_wrong(answer: Answer, words: Words) -> str:
    """The problem of an answer's rescue and where the pH is heading."""
    if answer.rescue is None:
        return ""
    told = _course_is_told(answer) or answer.rescue.course is not None
    expected = "" if told else _expected(answer.rescue, words)
    return " ".join(filter(None, (sentence(answer.rescue.problem, words), expected)))


def _course_is_told(answer: Answer) -> bool:
    """True where the verdict says already, from the forecast, what the pH will come to."""
    because = answer.verdict.because
    told = because.sentences if isinstance(because, Prose) else ()
    return any(one.key == _COURSE for one in told)


def _is_for_today(step: Worded) -> bool:
    return isinstance(step, Message) and step.key.startswith(_TODAY)


def _expected(rescue: Rescue, words: Words) -> str:
    expected = rescue.ph_expected
    if expected is None:
        return ""
    low, high = ph(expected.lo90), ph(expected.hi90)
    if words.measure(low) == words.measure(high):
        return say(message("rescue-expected-near", ph=low), words)
    return say(message("rescue-expected", low=low, high=high), words)


def _lime(lime: Band) -> Message:
    return message(
        "rescue-lime-range",
        least="some" if lime.lo90 > _NOTHING_G_M2 else None,
        range=rate(lime.lo90, high=lime.hi90, best=lime.mid),
        high=rate(lime.hi90, best=lime.mid),
        mid=rate(lime.mid) if lime.mid > _NOTHING_G_M2 else None,
    )
