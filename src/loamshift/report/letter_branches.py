"""Answers that hang on an open question: what to do for each outcome of its test."""

from __future__ import annotations

from collections.abc import Sequence

from loamshift.domain.answer import Answer, Branch
from loamshift.domain.letter import Block, Items, Paragraph, Section
from loamshift.domain.message import Measure, Message, in_100, message, rate
from loamshift.report.messages import say
from loamshift.report.words import Words

_WITH_LIME = ("some-lime", "more-lime", "much-lime")
_FIZZ = ("soil.fizz", "soil.fizz_acid")


def depends_on(answer: Answer, *, words: Words) -> Section | None:
    """The advice for each outcome of an open question."""
    if not answer.branches:
        return None
    blocks: list[Block] = []
    for path in dict.fromkeys(branch.field for branch in answer.branches):
        mine = [branch for branch in answer.branches if branch.field == path]
        field = path.replace(".", "-").replace("_", "-")
        lead = say(message("branches-lead", field=field), words)
        items = tuple(say(_line(branch, mine), words) for branch in mine)
        blocks += [Paragraph(lead), Items(items)]
    return Section(say(message("branches-heading"), words), tuple(blocks))


def _line(branch: Branch, mine: Sequence[Branch]) -> Message:
    return message(
        "branches-line",
        outcome=_outcome(branch, mine),
        chance=in_100(branch.probability),
        advice=_advice(branch),
    )


def _outcome(branch: Branch, mine: Sequence[Branch]) -> Message:
    """What the test would show: lime, or one of several steps from low to high."""
    if branch.field in _FIZZ or branch.field == "soil.carbonate_pct":
        lime = sum(one.outcome in _WITH_LIME for one in mine)
        key = "branches-fizz" if branch.field in _FIZZ else "branches-carbonate"
        return message(key, outcome=branch.outcome, alone="yes" if lime == 1 else "no")
    place = "middle"
    if branch is mine[0]:
        place = "low"
    elif branch is mine[-1]:
        place = "high"
    field = branch.field.replace(".", "-").replace("_", "-")
    return message("branches-step", field=field, place=place)


def _advice(branch: Branch) -> Message:
    need: Measure | None = None
    of = "sulfur"
    if branch.sulfur_as_s_g_m2:
        need = rate(branch.sulfur_as_s_g_m2)
    elif branch.lime_as_caco3_g_m2:
        need, of = rate(branch.lime_as_caco3_g_m2), "lime"
    return message("branches-advice", decision=branch.decision.value, need=need, of=of)
