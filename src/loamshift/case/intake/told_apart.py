"""Columns that look like each other: two of one meaning, a buffer pH headed as pH, a swap."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from loamshift.case.intake.asked import IGNORE, answer_key, name_of
from loamshift.case.intake.keys import BUFFER
from loamshift.case.intake.proposal import Aspect, Finding
from loamshift.case.intake.understood import Understood
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, message, number

_DIFFERS_LITTLE: Final = 0.45
"""Standard deviation of a column of buffer pH; soil pH of several beds spreads more [pH]."""
_MOST: Final = 0.9
_LEAST_ROWS: Final = 3
_ALIKE: Final = ("columns-alike", "buffer-as-ph")


def told_apart(columns: Sequence[Understood]) -> list[Understood]:
    """The columns, with those in doubt marked as not sure and asked about."""
    made = list(columns)
    for place, one in enumerate(made):
        if one.meaning.remembered or not one.meaning.sure or one.quantity is None:
            continue
        for finding in _doubts(one, made):
            made[place] = replace(
                made[place],
                meaning=replace(made[place].meaning, sure=False),
                findings=(*made[place].findings, finding),
            )
    return made


def _doubts(one: Understood, columns: Sequence[Understood]) -> Iterator[Finding]:
    twins = [
        other
        for other in columns
        if other is not one
        and (other.meaning.sure or (other.findings and other.findings[-1].code in _ALIKE))
        and other.key == one.key
        and other.meaning.method == one.meaning.method
        and other.quantity is not None
        and len(other.read.figures)
    ]
    if twins and len(one.read.figures):
        yield from _twin(one, twins)
    if one.key == "ph":
        yield from _not_a_ph(one, columns)


def _twin(one: Understood, twins: Sequence[Understood]) -> Iterator[Finding]:
    looks = one.key == "ph" and any(_reads_as_buffer(one, other) for other in twins)
    yield Finding(
        code="buffer-as-ph" if looks else "columns-alike",
        severity=Severity.BLOCK,
        said=message(
            "intake-buffer-as-ph" if looks else "intake-columns-alike",
            heading=Given(one.meaning.heading),
            other=Given(twins[0].meaning.heading),
            taken=name_of(one.key),
        ),
        question=message(
            "intake-ask-meaning",
            heading=Given(one.meaning.heading),
            taken=name_of(BUFFER if looks else one.key),
        ),
        key=answer_key(one.meaning.heading, Aspect.MEANING),
        choices=(BUFFER, "ph", IGNORE) if one.key == "ph" else (one.key, IGNORE),
        places=(one.meaning.place,),
    )


def _reads_as_buffer(one: Understood, other: Understood) -> bool:
    """Whether a column lies above another pH throughout and hardly spreads."""
    assert one.scaled is not None and other.scaled is not None
    both = np.isfinite(one.scaled) & np.isfinite(other.scaled)
    if int(both.sum()) < _LEAST_ROWS:
        return False
    mine, its = one.scaled[both], other.scaled[both]
    narrow = float(np.std(mine)) < _DIFFERS_LITTLE
    inside = bool(np.all((mine >= 4.8) & (mine <= 8.0)))
    return narrow and inside and float(np.mean(mine >= its)) >= _MOST and bool(np.any(mine > its))


def _not_a_ph(one: Understood, columns: Sequence[Understood]) -> Iterator[Finding]:
    figures = one.read.figures
    if not len(figures):
        return
    middle = float(np.median(figures))
    if 30.0 <= middle <= 100.0:
        choices = ("lime_test_index", "ph", IGNORE) if 48 <= middle <= 80 else ("ph", IGNORE)
        yield Finding(
            code="ph-times-ten",
            severity=Severity.BLOCK,
            said=message(
                "intake-ph-times-ten", heading=Given(one.meaning.heading), middle=number(middle)
            ),
            question=message(
                "intake-ask-meaning",
                heading=Given(one.meaning.heading),
                taken=name_of("lime_test_index"),
            ),
            key=answer_key(one.meaning.heading, Aspect.MEANING),
            choices=choices,
            places=(one.meaning.place,),
        )
        return
    outside = float(np.mean((figures < 3.0) | (figures > 10.5)))
    if outside <= 0.5:
        return
    like = next((c for c in columns if c is not one and _like_ph(c)), None)
    yield Finding(
        code="columns-swapped",
        severity=Severity.BLOCK,
        said=message(
            "intake-columns-swapped",
            heading=Given(one.meaning.heading),
            other=Given(like.meaning.heading) if like is not None else None,
            middle=number(middle),
        ),
        question=message(
            "intake-ask-meaning", heading=Given(one.meaning.heading), taken=name_of("ph")
        ),
        key=answer_key(one.meaning.heading, Aspect.MEANING),
        choices=("ph", IGNORE),
        places=(one.meaning.place,),
    )


def _like_ph(one: Understood) -> bool:
    figures = one.read.figures
    return len(figures) > 0 and bool(np.all((figures >= 3.5) & (figures <= 9.5)))
