"""The verdict as one sentence, with what goes on first and when."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from loamshift.domain.answer import Answer, Application, Decision, PlanPart, Reason
from loamshift.domain.case import BedKind, Case
from loamshift.domain.message import Measure, Message, Product, Value, amount, message, rate
from loamshift.report.bed_names import plants_wanted, this_bed
from loamshift.report.letter_head import reading_in_force

Part = Application | PlanPart


def headline(answer: Answer, case: Case) -> Message:
    """The verdict of an answer as a sentence to be read from across the room.

    Returns
    -------
    Message
        One sentence, or two where a test comes first.
    """
    match answer.verdict.decision:
        case Decision.STOP:
            return message("headline-stop", these=this_bed(case))
        case Decision.LEAVE:
            return _leave(answer, case)
        case Decision.MEASURE_FIRST:
            return _measure(answer, case)
        case Decision.ELSEWHERE:
            return _elsewhere(answer, case)
        case Decision.EFFORT | Decision.GO:
            return _go(answer, case)


def sure_parts(answer: Answer) -> tuple[Part, ...]:
    """What goes on whatever a test reads: of the plan as a rule, or of the dated parts."""
    if answer.plan is not None:
        return answer.plan.parts
    return tuple(part for part in answer.applications if part.only_if is None)


def next_test(answer: Answer) -> date | None:
    """The day of the test that decides what follows; None where nothing hangs on one."""
    if answer.plan is not None:
        return min((line.test for line in answer.plan.decides), default=None)
    if not any(part.only_if for part in answer.applications):
        return None
    return min(answer.retest, default=None)


def much_of(parts: Sequence[Part]) -> Measure:
    """How much parts of one material are: for the bed, or else per area [g or g/m2]."""
    amounts = [part.amount_g for part in parts if part.amount_g is not None]
    if len(amounts) == len(parts):
        return amount(sum(amounts))
    return rate(sum(part.rate_g_m2 for part in parts))


def _leave(answer: Answer, case: Case) -> Message:
    match answer.verdict.reason:
        case Reason.WATER:
            return message("headline-leave-water", these=this_bed(case))
        case Reason.AT_WORK:
            return message("headline-leave-at-work", these=this_bed(case))
        case Reason.UPKEEP:
            return message("headline-upkeep-inside", these=this_bed(case))
    return message("headline-leave", these=this_bed(case))


def _measure(answer: Answer, case: Case) -> Message:
    reason = answer.verdict.reason
    if reason is Reason.NO_PH or (reason is None and reading_in_force(case) is None):
        return message("headline-no-ph")
    no_aim = reason is None and any(gap.field == "aim.plant" for gap in answer.missing)
    if reason is Reason.NO_AIM or no_aim:
        return message("headline-no-aim")
    return message("headline-measure", test=first_test(answer))


def first_test(answer: Answer) -> str | None:
    """The test that comes first, as the field it fills in: ``soil-fizz``.

    Returns
    -------
    str or None
        The field with dashes; None where a new sample has to be taken.
    """
    change = answer.verdict.would_change_if
    if not isinstance(change, Message):
        return None
    known = change.key.startswith("settle-")
    return change.key.removeprefix("settle-").removeprefix("jar-") if known else None


def _elsewhere(answer: Answer, case: Case) -> Message:
    plants = plants_wanted(case)
    if answer.verdict.reason is Reason.NO_COMMON_RANGE and plants is not None:
        return message("headline-apart", plants=plants)
    if answer.verdict.reason is Reason.WATER and case.bed.kind is not BedKind.CONTAINER:
        return message("headline-water-first")
    if case.bed.kind in (BedKind.CONTAINER, BedKind.RAISED):
        return message("headline-elsewhere-pot", these=this_bed(case), count=case.bed.count)
    growing = {plant.key for plant in case.bed.growing}
    if plants is not None and growing.issuperset(plant.key for plant in case.aim.plants):
        return message("headline-elsewhere-planted", plants=plants)
    return message("headline-elsewhere", plants=plants)


def _go(answer: Answer, case: Case) -> Message:
    verdict, parts = answer.verdict, sure_parts(answer)
    if verdict.reason is Reason.WATER:
        return message("headline-water-first")
    test = next_test(answer)
    if verdict.reason is Reason.FEED:
        return message("headline-feed-first", these=this_bed(case))
    if not parts:
        if test is not None:
            return message("headline-nothing-yet", day=test)
        return message("headline-upkeep-inside", these=this_bed(case))
    days = sorted({part.date for part in parts})
    at_first = [part for part in parts if part.date == days[0]]
    material = at_first[0].material
    first: dict[str, Value] = {
        "amount": much_of([part for part in at_first if part.material == material]),
        "product": Product(material),
        "day": days[0],
    }
    if verdict.decision is Decision.EFFORT:
        if verdict.reason in (Reason.PARTS, Reason.MONTHS):
            return message("headline-more-than-a-year", **first)
        return message("headline-every-year", **first)
    if len(days) > 1:
        return message("headline-go-in-parts", n=len(days), **first)
    tests = "yes" if test is not None else "no"
    return message("headline-go", plants=plants_wanted(case), tests=tests, **first)
