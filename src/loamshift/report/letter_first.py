"""The headline amount: what goes on whatever a test reads, and the test that decides the rest."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from loamshift.domain.answer import Answer, Application, Decision, Direction, PlanPart
from loamshift.domain.case import Case
from loamshift.report.letter_words import counted, product_in_text, sentences, whole
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials

Part = Application | PlanPart


def sure_parts(answer: Answer) -> tuple[Part, ...]:
    """What goes on whatever a test reads.

    Parameters
    ----------
    answer
        The answer [object].

    Returns
    -------
    tuple of Application or PlanPart
        Of the plan as a rule, or of the dated parts where there is none [objects].
    """
    if answer.plan is not None:
        return answer.plan.parts
    return tuple(part for part in answer.applications if part.only_if is None)


def goes_on(answer: Answer, case: Case, words: Words) -> str:
    """The headline amount: what to apply, for the bed and when, and what decides the rest.

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
        Sentences; nothing where nothing is to go on [text].
    """
    if not answer.applications and (answer.plan is None or not answer.plan.decides):
        return ""
    parts = sure_parts(answer)
    test = next_test(answer)
    provisional = answer.verdict.decision is Decision.MEASURE_FIRST
    if not parts:
        decides = "a test decides" if test is None else f"the test on {words.date(test)} decides"
        return f"**Apply nothing yet:** {decides}."
    start = "If the test comes out as expected, apply" if provisional else "Apply"
    much = words.listed([_much(parts, key, words) for key in _materials(parts)])
    days = sorted({part.date for part in parts})
    if len(days) == 1:
        when = f" on {words.date(days[0])}"
    else:
        when = f" in {counted(len(days), 'application')}, the first on {words.date(days[0])}"
    later = ""
    if test is not None:
        verb = "would decide" if provisional else "decides"
        later = f"The test on {words.date(test)} {verb} what follows."
    return sentences(f"{start} **{much}**{when}{_for_all(parts, case, words)}.", later)


def next_test(answer: Answer) -> date | None:
    """The day of the test that decides what follows; None where nothing hangs on one.

    Parameters
    ----------
    answer
        The answer [object].

    Returns
    -------
    date or None
        The day [date].
    """
    if answer.plan is not None:
        return min((line.test for line in answer.plan.decides), default=None)
    if not any(part.only_if for part in answer.applications):
        return None
    return min(answer.retest, default=None)


def _materials(parts: Sequence[Part]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(part.material for part in parts))


def _much(parts: Sequence[Part], key: str, words: Words) -> str:
    rate = sum(part.rate_g_m2 for part in parts if part.material == key)
    return f"{words.rate(rate)} of {product_in_text(key, words)}"


def _for_all(parts: Sequence[Part], case: Case, words: Words) -> str:
    amounts = [part.amount_g for part in parts if part.amount_g is not None]
    if len(amounts) < len(parts) or len(_materials(parts)) > 1:
        return ""
    return f" ({words.amount(sum(amounts))} for {whole(case)})"


def first_as_pure_g_m2(answer: Answer) -> float | None:
    """What goes on whatever a test reads, as pure sulfur or calcium carbonate.

    Parameters
    ----------
    answer
        The answer [object].

    Returns
    -------
    float or None
        The amount [g/m2]; None where a material brings neither, or nothing goes on.
    """
    known, total = load_materials(), 0.0
    for part in sure_parts(answer):
        material = known.get(part.material)
        if material is None:
            return None
        lime = answer.dose.direction is Direction.LIME
        share = material.caco3_eq_frac if lime else material.elemental_s_frac
        if share <= 0.0:
            return None
        total += part.rate_g_m2 * share
    return total or None
