"""What holds a pH and what undoes it, in one sentence each for the front sheet."""

from __future__ import annotations

from typing import Final

from loamshift import units
from loamshift.domain.answer import (
    Answer,
    Decision,
    Direction,
    FeedLine,
    LedgerLine,
    Reason,
    Upkeep,
)
from loamshift.domain.case import Case
from loamshift.domain.message import (
    Listed,
    Measure,
    Message,
    Product,
    Prose,
    Value,
    alkalinity,
    message,
    ph,
    rate,
)
from loamshift.report.ledger_lines import effect_of, equal_g_m2, in_text, named
from loamshift.tables.model import verdict_values

_AMMONIUM_SULFATE = "ammonium sulfate"
HARDLY_PH: Final = 0.03
"""A drift that no test can tell from chance [pH/yr]."""
_BY_TEST: Final = ("upkeep-lime-by-test", "upkeep-falls", "upkeep-rises")
"""Remarks of an upkeep by which a test decides what is applied, and no calendar."""
_OF_WATER: Final = ("upkeep-water-treated", "upkeep-water-wins")
"""Remarks of an upkeep by which it is the water that has to change."""
_WATER = ("ledger-irrigation-water", "irrigation water")
"""The line of the water, as it is and as earlier versions kept it."""


def upkeep_habit(answer: Answer, case: Case) -> Message | None:
    """The one habit that holds the pH.

    Returns
    -------
    Message or None
        One or two short sentences with the figures of the upkeep; nothing where none was worked
        out, or where a test is to come first or the bed is to be put right.
    """
    upkeep = answer.upkeep
    if upkeep is None or answer.verdict.decision not in (
        Decision.GO,
        Decision.EFFORT,
        Decision.LEAVE,
    ):
        return None
    if _remarks(upkeep, "upkeep-water-treated"):
        return message("upkeep-habit-water-treated")
    if _remarks(upkeep, "upkeep-water-wins"):
        return message("upkeep-habit-water-wins")
    if is_left_alone(answer):
        return message("upkeep-habit-test", still="no")  # the headline says so
    feeds = tuple(_fertiliser(line) for line in feeds_given(upkeep))
    return _with_feed(answer, upkeep, Listed(feeds)) if feeds else _unfed(answer, upkeep)


def pull_back(answer: Answer, case: Case) -> Message | None:
    """The strongest thing that undoes the change.

    Returns
    -------
    Message or None
        One or two short sentences with the figure of the ledger; None where nothing is to be
        changed, or where a test comes first or the bed is to be put right. Water that is to be
        treated is named in any case.

    Notes
    -----
    A year undoes of the change what the ledger's net undoes of the need; that many pH a year
    count from ``effort_pull_ph_year`` on. Where no need is known the drift left to itself counts.

    References
    ----------
    own-judgement
    """
    decision, ledger = answer.verdict.decision, answer.ledger
    if ledger is None or decision in (Decision.STOP, Decision.MEASURE_FIRST):
        return None
    if answer.verdict.reason is Reason.WATER:
        return _strongest(answer, case, of_water=True)
    if decision in (Decision.ELSEWHERE, Decision.LEAVE):
        return None
    found = _strongest(answer, case) if _moves(answer) else None
    return message("upkeep-undo-nothing") if found is None else found


def undoes(answer: Answer) -> bool:
    """True where a year undoes so much of the plan of an answer that a test shows it."""
    if answer.verdict.decision in (Decision.LEAVE, Decision.STOP, Decision.ELSEWHERE):
        return False
    return _moves(answer)


def feeds_given(upkeep: Upkeep) -> tuple[FeedLine, ...]:
    """The fertilisers an upkeep gives any of."""
    return tuple(line for line in upkeep.feed if line.rate_g_m2_year > 0.0)


def drift_held(upkeep: Upkeep) -> float:
    """How a bed moves by itself where its upkeep [object] holds it [pH/yr]."""
    held = upkeep.drift_held_ph_year
    return upkeep.drift_ph_year if held is None else held


def feed_choice(line: FeedLine) -> str:
    """Whether a fertiliser of the upkeep is said in words of its own."""
    return "ammonium-sulfate" if line.material == _AMMONIUM_SULFATE else "other"


def is_left_alone(answer: Answer) -> bool:
    """True where the verdict of an answer is to do nothing about the pH."""
    verdict = answer.verdict
    kept_up = verdict.reason in (Reason.UPKEEP, Reason.WATER, None)
    return verdict.decision is Decision.LEAVE and not kept_up


def test_decides(upkeep: Upkeep) -> bool:
    """True where an upkeep says below its figures to apply only what a test calls for."""
    return any(_remarks(upkeep, key) for key in _BY_TEST)


def water_decides(upkeep: Upkeep) -> bool:
    """True where an upkeep says that the water has to change."""
    return any(_remarks(upkeep, key) for key in _OF_WATER)


def yearly_amount(answer: Answer) -> tuple[str, Measure] | None:
    """The one yearly amount that a letter may name for holding a pH.

    Returns
    -------
    tuple or None
        ``sulfur`` or ``lime`` and its rate [g/m2/yr]; nothing where the bed is left alone, a test
        or the water decides, or the bed without feed hardly moves, or moves that way by itself:
        what other sentences of the letter say would contradict it.
    """
    upkeep, decision = answer.upkeep, answer.verdict.decision
    if upkeep is None or decision not in (Decision.GO, Decision.EFFORT, Decision.LEAVE):
        return None
    if is_left_alone(answer) or test_decides(upkeep) or water_decides(upkeep):
        return None
    fed, drift = bool(feeds_given(upkeep)), drift_held(upkeep)
    if upkeep.sulfur_as_s_g_m2_year > 0.0 and (fed or drift >= HARDLY_PH):
        return "sulfur", rate(upkeep.sulfur_as_s_g_m2_year)
    if upkeep.lime_as_caco3_g_m2_year > 0.0 and (fed or drift <= -HARDLY_PH):
        return "lime", rate(upkeep.lime_as_caco3_g_m2_year)
    return None


def _with_feed(answer: Answer, upkeep: Upkeep, feeds: Listed) -> Message:
    said: dict[str, Value] = {
        "feeds": feeds,
        "there": "no" if _is_for_later(answer, upkeep) else "yes",
    }
    if answer.wanted is not None and _limes_by_test(upkeep):
        low = ph(answer.wanted.ph_low)
        return message("upkeep-habit-feed-lime-by-test", ph=low, **said)
    amount = yearly_amount(answer)
    if amount is None:
        return message("upkeep-habit-feed", **said)
    substance, each_year = amount
    return message(f"upkeep-habit-feed-{substance}", rate=each_year, **said)


def _is_for_later(answer: Answer, upkeep: Upkeep) -> bool:
    """True where a feed that holds the pH would not help to bring it there.

    Until a bed is acid enough, ammonium does more than urea or nitrate; until it is limed, less.
    """
    acid = [line.material == _AMMONIUM_SULFATE for line in feeds_given(upkeep)]
    helps = all(acid) if answer.dose.direction is Direction.ACIDIFY else not any(acid)
    wanted, now = answer.wanted, answer.verdict.ph_now
    if helps or wanted is None or now is None or not answer.applications:
        return False
    return not wanted.ph_low <= now <= wanted.ph_high


def _unfed(answer: Answer, upkeep: Upkeep) -> Message:
    wanted, amount = answer.wanted, yearly_amount(answer)
    if amount is not None:
        substance, each_year = amount
        return message(f"upkeep-habit-{substance}", rate=each_year)
    if wanted is not None and _limes_by_test(upkeep):
        return message("upkeep-habit-lime-by-test", ph=ph(wanted.ph_low))
    if wanted is not None and _remarks(upkeep, "upkeep-rises"):
        return message("upkeep-habit-acid-by-test", ph=ph(wanted.ph_high))
    still = abs(drift_held(upkeep)) < HARDLY_PH and not _moves(answer)
    return message("upkeep-habit-test", still="yes" if still else "no")


def _limes_by_test(upkeep: Upkeep) -> bool:
    return _remarks(upkeep, "upkeep-lime-by-test") or _remarks(upkeep, "upkeep-falls")


def _remarks(upkeep: Upkeep, key: str) -> bool:
    """Whether the upkeep says this below its figures; what an earlier version kept does not."""
    comment = upkeep.comment
    return isinstance(comment, Prose) and any(one.key == key for one in comment.sentences)


def _fertiliser(line: FeedLine) -> Message:
    return message(
        "upkeep-habit-fertiliser",
        feed=feed_choice(line),
        product=Product(line.material),
        rate=rate(line.rate_g_m2_year),
    )


def _strongest(answer: Answer, case: Case, *, of_water: bool = False) -> Message | None:
    """The line that works most against what is wanted; None where none does to speak of."""
    lines = () if answer.ledger is None else answer.ledger.lines
    sign = -1.0 if of_water else _sign_against(answer)
    against = [line for line in lines if line.value * sign > 0.0]
    if of_water:
        against = [line for line in against if _is_water(line)]
    if not against:
        return None
    largest = max(against, key=lambda line: abs(line.value))
    effect = effect_of(largest.value)
    if effect is None:
        return None
    equal = rate(equal_g_m2(largest.value))
    if _is_water(largest):
        known = case.water.alkalinity_mg_l_as_caco3
        return message(
            "upkeep-undo-water",
            alkalinity=None if known is None else alkalinity(known),
            amount=equal,
        )
    return message("upkeep-undo", line=in_text(named(largest)), effect=effect, amount=equal)


def _is_water(line: LedgerLine) -> bool:
    name = line.name
    return (name.key if isinstance(name, Message) else str(name)) in _WATER


def _sign_against(answer: Answer) -> float:
    """1 where acid works against what is wanted, -1 where base does, 0 where nothing can."""
    match answer.dose.direction:
        case Direction.ACIDIFY:
            return -1.0
        case Direction.LIME:
            return 1.0
    rise = 0.0 if answer.upkeep is None else drift_held(answer.upkeep)
    return 0.0 if rise == 0.0 else -1.0 if rise > 0.0 else 1.0


def _against(answer: Answer) -> float:
    """How much of the yearly net works against the plan, 0 without a plan [mmolc/m2]."""
    if answer.ledger is None or answer.dose.direction is Direction.NONE:
        return 0.0
    return max(answer.ledger.net * _sign_against(answer), 0.0)


def _moves(answer: Answer) -> bool:
    return _undone_ph_year(answer) >= verdict_values()["effort_pull_ph_year"]


def _undone_ph_year(answer: Answer) -> float:
    """How much of the change a year undoes, or how far a bed that is left moves [pH/yr]."""
    wanted, now = answer.wanted, answer.verdict.ph_now
    need = _need_mmolc_m2(answer)
    if need > 0.0 and wanted is not None and now is not None:
        return _against(answer) / need * abs(wanted.ph_aim - now)
    drift = 0.0 if answer.upkeep is None else drift_held(answer.upkeep)
    return max(-drift * _sign_against(answer), 0.0)


def _need_mmolc_m2(answer: Answer) -> float:
    """Acid or base that the change takes by its best estimate [mmolc/m2]."""
    dose = answer.dose
    if dose.sulfur_as_s_g_m2 is not None and dose.direction is Direction.ACIDIFY:
        return units.acid_mmolc_m2_from_sulfur_as_s_g_m2(dose.sulfur_as_s_g_m2.mid)
    if dose.lime_as_caco3_g_m2 is not None and dose.direction is Direction.LIME:
        return dose.lime_as_caco3_g_m2.mid / units.CACO3_G_PER_MMOLC
    return 0.0
