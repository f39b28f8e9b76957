"""What a bed and its amounts are called, as messages to stand inside others."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Application, Option
from loamshift.domain.case import Case
from loamshift.domain.message import Listed, Message, message, plants


def this_bed(case: Case) -> Message:
    """``this bed`` or ``these pots``, as a case has them."""
    return message("bed-this", kind=case.bed.kind.value, count=case.bed.count)


def whole_bed(case: Case) -> Message:
    """``the bed`` or ``all 12 pots``: what amounts of a case are for."""
    return message("bed-whole", kind=case.bed.kind.value, count=case.bed.count)


def plants_wanted(case: Case) -> Listed | None:
    """The plants of the aim of a case; None where it names none."""
    names = [plant.name for plant in case.aim.plants]
    return plants(names) if names else None


def treated_area_m2(answer: Answer, case: Case) -> float | None:
    """The area that whole amounts are for, as the plan or else the case has it.

    Returns
    -------
    float or None
        The area [m2]; None where nobody gave it.
    """
    parts: tuple[Application | Option, ...] = (*answer.applications, *answer.options)
    for part in parts:
        if part.amount_g is not None and part.rate_g_m2 > 0.0:
            return part.amount_g / part.rate_g_m2
    return None if case.bed.area_m2 is None else case.bed.area_m2 * case.bed.count
