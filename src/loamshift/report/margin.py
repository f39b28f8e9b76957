"""Notes for the margin of a letter: the sum of this bed in one line, how sure, what narrows it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from loamshift.domain.digits import sensible
from loamshift.domain.letter import Note
from loamshift.domain.message import Given, Quantity, message
from loamshift.domain.own_sum import OwnSum, SumStep, SumUnit
from loamshift.report.messages import say, say_each
from loamshift.report.own_sum import in_figures
from loamshift.report.words import Words

LONGEST: Final = 45
"""A note in the margin has no more words than this, its label apart [count]."""
_SAME: Final = 0.005
"""A figure rounded by more than this would look like a mistake in the sum [relative]."""
_IN_BOTH: Final = (Quantity.RATE, Quantity.AMOUNT)
"""Outcomes that a reader of other units is told again in their own."""


def margin_notes(
    sums: Mapping[str, OwnSum], *, numbers: Mapping[str, str], words: Words
) -> dict[str, tuple[Note, ...]]:
    """A note for each section of a letter that has a sum.

    A door makes the sums with :func:`loamshift.services.own_sum.margin.margin_sums`.

    Parameters
    ----------
    sums
        Sums by the topic of the section they stand beside.
    numbers
        Numbers of the letter's sources by their keys; a source without one is not named.

    Returns
    -------
    dict
        Topic to its notes, each at most 45 words: the equation with the figures of the bed, how
        sure it is, what would narrow it, and the number of its source at the end.
    """
    return {topic: (margin_note(own, numbers=numbers, words=words),) for topic, own in sums.items()}


def margin_note(own: OwnSum, *, numbers: Mapping[str, str], words: Words) -> Note:
    """One sum as a note.

    Parameters
    ----------
    numbers
        Numbers of the letter's sources by their keys.
    """
    sentences = [
        _sum(own.last, words),
        *say_each(own.sure.sentences[:1], words),
        *say_each(own.narrow.sentences[:1], words),
        *say_each(own.sure.sentences[1:], words),
    ]
    cited = next((f"[{numbers[key]}]" for key in _keys(own) if key in numbers), "")
    kept = sentences[:1]
    for sentence in sentences[1:]:
        if len(" ".join((*kept, sentence, cited)).split()) <= LONGEST:
            kept.append(sentence)
    return Note(" ".join((*kept, cited)).strip(), label=say(own.title, words))


def _keys(own: OwnSum) -> tuple[str, ...]:
    return (*own.source_keys, *(one.source_key for one in own.inputs if one.source_key))


def _sum(step: SumStep, words: Words) -> str:
    """The step as an equation; what it does where there is none."""
    if not step.formula:
        return say(step.says, words)
    whole = in_figures(_with_whole_beds(step), words=words).split(" = ", 1)[1]
    left, outcome = whole.rsplit(" = ", 1)
    told = step.result
    if told is None or told.kind not in (*_IN_BOTH, Quantity.IN_100):
        return say(message("margin-sum", sum=Given(outcome if left == outcome else whole)), words)
    if told.kind is Quantity.IN_100:
        return say(message("margin-sum-in-100", sum=Given(left), result=told), words)
    if words.units != "metric":
        return say(message("margin-sum-yours", sum=Given(whole), result=told), words)
    if not math.isclose(float(sensible(told.value).replace(",", "")), told.value, rel_tol=_SAME):
        return say(message("margin-sum-rounded", sum=Given(whole), result=told), words)
    return say(message("margin-sum-to", sum=Given(left), result=told), words)


def _with_whole_beds(step: SumStep) -> SumStep:
    """A step whose beds, which count by their chances, are said as whole ones."""
    rounded = (
        replace(one, value=float(round(one.value))) if one.unit is SumUnit.BEDS else one
        for one in step.inputs
    )
    return replace(step, inputs=tuple(rounded))
