"""Answers that hang on an open question: what to do for each outcome of its test."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Branch, Decision
from loamshift.domain.letter import Block, Items, Paragraph, Section
from loamshift.report.letter_fields import field_called
from loamshift.report.letter_words import in_100, lowered
from loamshift.report.words import Words

HEADING = "What it depends on"
_FIZZ = {
    "no-lime": "If nothing fizzes",
    "some-lime": "If it fizzes a little",
    "more-lime": "If it fizzes clearly",
    "much-lime": "If it fizzes strongly",
}
_CARBONATE = {
    "no-lime": "If it finds no free lime",
    "some-lime": "If it finds a little free lime",
    "more-lime": "If it finds more free lime",
    "much-lime": "If it finds much free lime",
}
_ANY_FIZZ, _ANY_LIME = "If it fizzes", "If it finds free lime"
"""Where lime has one outcome only, whatever its amount."""
_WITH_LIME = ("some-lime", "more-lime", "much-lime")
_OUTCOMES = {"soil.fizz": _FIZZ, "soil.fizz_acid": _FIZZ, "soil.carbonate_pct": _CARBONATE}


def depends_on(answer: Answer, *, words: Words) -> Section | None:
    """The advice for each outcome of an open question.

    Parameters
    ----------
    answer
        The answer [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section or None
        Nothing where no question is open [object].
    """
    if not answer.branches:
        return None
    blocks: list[Block] = []
    for path in dict.fromkeys(branch.field for branch in answer.branches):
        mine = [branch for branch in answer.branches if branch.field == path]
        lead = f"{field_called(path)} would settle which of these holds."
        alone = sum(branch.outcome in _WITH_LIME for branch in mine) == 1
        items = tuple(words.text(_branch(branch, words, alone=alone)) for branch in mine)
        blocks += [Paragraph(words.text(lead)), Items(items)]
    return Section(HEADING, tuple(blocks))


def _branch(branch: Branch, words: Words, *, alone: bool) -> str:
    chance = f"{in_100(branch.probability)} chances in 100"
    return f"**{_outcome(branch, alone=alone)}** ({chance}): {_advice(branch, words)}."


def _outcome(branch: Branch, *, alone: bool) -> str:
    known = _OUTCOMES.get(branch.field, {})
    if known and alone and branch.outcome in _WITH_LIME:
        return _ANY_FIZZ if known is _FIZZ else _ANY_LIME
    if branch.outcome in known:
        return known[branch.outcome]
    return f"If {lowered(field_called(branch.field))} shows {branch.outcome.replace('-', ' ')}"


def _advice(branch: Branch, words: Words) -> str:
    amount = _amount(branch, words)
    match branch.decision:
        case Decision.GO:
            return amount or "go ahead"
        case Decision.EFFORT:
            effort = "more effort than usual"
            return f"{amount}, with {effort}" if amount else effort
        case Decision.ELSEWHERE:
            return f"{amount} would be needed, so use another place" if amount else _ELSEWHERE
        case Decision.LEAVE:
            return "leave the pH alone"
        case Decision.STOP:
            return "put nothing on"
        case Decision.MEASURE_FIRST:
            more = "another test is needed first"
            return f"{more}; {amount}" if amount else more


_ELSEWHERE = "use another place"


def _amount(branch: Branch, words: Words) -> str:
    if branch.sulfur_as_s_g_m2:
        return f"about {words.rate(branch.sulfur_as_s_g_m2)} of pure sulfur"
    if branch.lime_as_caco3_g_m2:
        return f"about {words.rate(branch.lime_as_caco3_g_m2)} of pure lime"
    return ""
