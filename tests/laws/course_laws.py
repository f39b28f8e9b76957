"""Verdict, plan, forecast and upkeep tell of one course."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from datetime import date, timedelta
from itertools import pairwise
from math import isfinite, sqrt
from typing import Final

from laws.law import bed_of, law, reads_now
from loamshift.core.buffer import buffer_mmolc_kg_ph
from loamshift.domain.answer import Answer, Decision, Direction, Reason
from loamshift.domain.case import Case
from loamshift.services.context.build_context import curve_of
from loamshift.services.upkeep.upkeep import PASSING_LINES, TAIL_LINE, called
from loamshift.tables.model import verdict_values

HARMED: Final = 0.05
STATIC_BEDS: Final = 224
"""Possible beds behind an answer without a forecast [count]."""
CLEAR_PH_YEAR: Final = 0.1
"""A drift of less is told as none [pH/yr]."""
READ_TO: Final = 0.05
"""Half of the last printed digit of a pH."""
CLEAR_WHILE_WORKING_PH_YEAR: Final = 0.3
"""The same where what the plan puts on is still at work [pH/yr]."""
A_WEEK: Final = timedelta(days=7)
"""A forecast goes from week to week."""
ONE_NUMBER_PH_YEAR: Final = 0.01
"""Drift and forecast are one number; this is less than a letter prints [pH/yr]."""


@law("L14")
def leave_only_what_stays(case: Case, answer: Answer) -> list[str]:
    """Leave only where the bed left alone stays in or near its range over the horizon."""
    wanted = answer.wanted
    if answer.verdict.decision is not Decision.LEAVE or wanted is None:
        return []
    near = verdict_values()["leave_gain_ph"] + READ_TO
    low, high = wanted.ph_low - near, wanted.ph_high + near
    on, until = horizon(case)
    start = on if answer.verdict.reason is Reason.AT_WORK else case.today
    if answer.forecast is None:
        ph = reads_now(case, answer)
        if answer.verdict.reason is Reason.AT_WORK or ph is None or low <= ph <= high:
            return []
        return [f"leave at pH {ph:.2f}"]
    return [
        f"leave, and left alone it is at {ph:.2f} on {day}, wanted {wanted.ph_low:.1f} to "
        f"{wanted.ph_high:.1f}"
        for day, ph in zip(answer.forecast.dates, answer.forecast.do_nothing.q50, strict=True)
        if start <= day <= until and not low <= ph <= high
    ][:1]


@law("L15")
def upkeep_ledger_and_course_agree(case: Case, answer: Answer) -> list[str]:
    """The drift told is that of the forecast left as it is, and the ledger has its sign."""
    keeping, ledger, context = answer.upkeep, answer.ledger, bed_of(case)
    if keeping is None or ledger is None or context.soil is None:
        return []
    found = _apart_from_course(case, answer)
    sulfur, lime = keeping.sulfur_as_s_g_m2_year, keeping.lime_as_caco3_g_m2_year
    net = keeping.net_with_feed_mmolc_m2_year
    if sulfur > 0.0 and lime > 0.0:
        found.append("the upkeep gives sulfur and lime")
    if (sulfur > 0.0 and net >= 0.0) or (lime > 0.0 and net <= 0.0):
        found.append(f"the upkeep closes a ledger of {net:.0f} the wrong way")
    if abs(ledger.net - sum(line.value for line in ledger.lines)) > 1e-6 * abs(ledger.net):
        found.append("the net of the ledger is not the sum of its lines")
    if context.pending_acid_mmolc_m2 != 0.0:
        return found
    held = keeping.drift_held_ph_year
    drift = keeping.drift_ph_year if held is None else held
    passing = {called(TAIL_LINE)} if held is None else set(map(called, PASSING_LINES))
    steady = sum(line.value for line in ledger.lines if line.name not in passing)
    by_ledger = -steady / _mmolc_m2_per_ph(case, answer)
    alone = answer.verdict.decision is Decision.LEAVE
    clear = CLEAR_PH_YEAR if alone else CLEAR_WHILE_WORKING_PH_YEAR
    if drift * by_ledger < 0.0 and min(abs(drift), abs(by_ledger)) > clear:
        found.append(f"it drifts {drift:+.2f} a year, by the ledger {by_ledger:+.2f}")
    return found


def _apart_from_course(case: Case, answer: Answer) -> list[str]:
    """Where the drift told is not what the forecast left as it is does in a year."""
    ahead, keeping = answer.forecast, answer.upkeep
    if ahead is None or keeping is None:
        return []
    end = at(ahead.dates, case.today + timedelta(days=1096))
    course = 365.25 * (ahead.do_nothing.q50[end] - ahead.do_nothing.q50[0])
    course /= (ahead.dates[end] - ahead.dates[0]).days
    if abs(course - keeping.drift_ph_year) <= ONE_NUMBER_PH_YEAR:
        return []
    return [f"the upkeep drifts {keeping.drift_ph_year:+.3f} a year, the forecast {course:+.3f}"]


@law("L16")
def shares_are_of_the_range_printed(case: Case, answer: Answer) -> list[str]:
    """A probability is of the range printed beside it."""
    plan, wanted = answer.plan, answer.wanted
    if plan is None:
        return []
    if wanted is None:
        return ["a share in range without a range"]
    if not wanted.ph_low <= wanted.ph_aim <= wanted.ph_high:
        return [f"the aim {wanted.ph_aim:.2f} lies outside the range printed"]
    error = sampling_error(answer, 0.5)
    inside = wanted.ph_low - READ_TO <= plan.median_ph <= wanted.ph_high + READ_TO
    if plan.share_in_range > 0.5 + error and not inside:
        return [
            f"{plan.share_in_range:.2f} in {wanted.ph_low:.1f} to {wanted.ph_high:.1f}, and the "
            f"median bed at {plan.median_ph:.2f}"
        ]
    return []


@law("L17")
def shares_are_in_order(case: Case, answer: Answer) -> list[str]:
    """Tests never make a plan worse, perfect knowledge is never beaten, few beds are harmed."""
    plan = answer.plan
    if plan is None:
        return []
    shares = {
        "in range": plan.share_in_range,
        "in range without tests": plan.share_in_range_without_tests,
        "if known": plan.share_if_known,
        "harmed": plan.share_harmed,
    }
    found = [f"{name}: {value}" for name, value in shares.items() if not 0.0 <= value <= 1.0]
    error = sampling_error(answer, plan.share_in_range)
    if plan.share_in_range > plan.share_if_known + error:
        found.append(f"{plan.share_in_range:.2f} in range, {plan.share_if_known:.2f} if known")
    if plan.share_in_range < plan.share_in_range_without_tests - error:
        found.append(
            f"{plan.share_in_range:.2f} in range, {plan.share_in_range_without_tests:.2f} without "
            "tests"
        )
    if plan.share_harmed > HARMED + sampling_error(answer, HARMED):
        found.append(f"{plan.share_harmed:.2f} harmed")
    return found


@law("L18")
def the_plan_ends_where_the_forecast_does(case: Case, answer: Answer) -> list[str]:
    """The median pH of the plan is that of the forecast on the day wanted.

    The forecast is of what a test would read: where the beds are heaped at one end, as they are
    where lime holds some of them, the error of the test moves their median.
    """
    plan, ahead = answer.plan, answer.forecast
    if plan is None or ahead is None or plan.on > ahead.dates[-1] + A_WEEK:
        return []
    day = at(ahead.dates, plan.on)
    forecast = ahead.ph.q50[day]
    skew = abs(ahead.ph.q25[day] + ahead.ph.q75[day] - 2.0 * forecast)
    if abs(forecast - plan.median_ph) > 0.1 + 0.25 * skew:
        return [f"the plan ends at {plan.median_ph:.2f} on {plan.on}, the forecast {forecast:.2f}"]
    return []


@law("L19")
def dates_are_in_order(case: Case, answer: Answer) -> list[str]:
    """Dates are in order: nothing in the past, tests before the parts they decide."""
    found, plan = [], answer.plan
    days = [part.date for part in answer.applications]
    if days != sorted(days) or any(day < case.today for day in days):
        found.append(f"parts on {_listed(days)}")
    if list(answer.retest) != sorted(set(answer.retest)):
        found.append(f"tests on {_listed(answer.retest)}")
    if any(day <= case.today for day in answer.retest):
        found.append(f"a test on {_listed(answer.retest)}, today or before")
    early = answer.too_early_before
    if early is not None and answer.retest and early > answer.retest[0]:
        found.append(f"too early before {early}, and a test on {answer.retest[0]}")
    if plan is None:
        return found
    if any(part.date > plan.on for part in plan.parts):
        found.append(f"a part after the day wanted, {plan.on}")
    tests = {line.test for line in plan.decides}
    if len(tests) > 1:
        found.append("the lines of one test have several days")
    for test in tests:
        if any(part.date >= test for part in plan.parts):
            found.append(f"a part goes on, {plan.parts[-1].date}, after the test of {test}")
        if test not in answer.retest:
            found.append(f"the deciding test of {test} is not among the tests")
        later = [part.date for part in answer.applications if part.only_if is not None]
        decided = [line.part_on for line in plan.decides if line.part_on is not None]
        if any(day <= test for day in (*later, *decided)):
            found.append(f"a part goes on before the test of {test} that decides it")
        if test >= plan.on:
            found.append(f"the test of {test} is after the day wanted, {plan.on}")
    return found


@law("L20")
def a_test_has_a_line_for_every_reading(case: Case, answer: Answer) -> list[str]:
    """What a test decides covers every reading once, and more is given the further it is off."""
    plan = answer.plan
    if plan is None or not plan.decides:
        return []
    lines, found = plan.decides, []
    if lines[0].reads_from is not None or lines[-1].reads_to is not None:
        found.append("the outer lines are not open")
    for lower, upper in pairwise(lines):
        if lower.reads_to is None or upper.reads_from is None:
            found.append("an inner end is open")
        elif abs(upper.reads_from - lower.reads_to - 0.1) > 1e-6:
            found.append(f"a line ends at {lower.reads_to:g}, the next from {upper.reads_from:g}")
    rates = [line.part_g_m2 for line in lines]
    if answer.dose.direction is Direction.LIME:
        rates.reverse()
    if rates != sorted(rates):
        found.append(f"amounts of {rates} by reading")
    for line in lines:
        if (line.part_g_m2 > 0.0) != (line.part_on is not None):
            found.append("a line has an amount and no day, or a day and no amount")
        if (line.part_g_m2 > 0.0) != (line.then == "part"):
            found.append(f"a line of {line.part_g_m2:g} g/m2 says {line.then}")
    return found


@law("L29")
def a_test_takes_no_bed_past_its_range(case: Case, answer: Answer) -> list[str]:
    """A test calls for nothing where it reads past the range of the plant, however far past."""
    plan, wanted = answer.plan, answer.wanted
    if plan is None or wanted is None or not plan.decides:
        return []
    acid, found = answer.dose.direction is not Direction.LIME, []
    if plan.decides[0 if acid else -1].part_g_m2 > 0.0:
        found.append("something goes on however far past the range the test reads")
    for line in plan.decides:
        far = line.reads_from if acid else line.reads_to
        past = far is not None and (far < wanted.ph_low if acid else far > wanted.ph_high)
        if line.part_g_m2 > 0.0 and past:
            found.append(f"a reading of {far:g}, past the range, calls for {line.part_g_m2:g} g/m2")
    return found


@law("L21")
def a_forecast_is_a_possible_course(case: Case, answer: Answer) -> list[str]:
    """A forecast has its quantiles in order, is finite, and stays where soils are."""
    ahead, found = answer.forecast, []
    if ahead is not None:
        bands = (ahead.ph.q05, ahead.ph.q25, ahead.ph.q50, ahead.ph.q75, ahead.ph.q95)
        every = [value for band in (*bands, ahead.do_nothing.q50) for value in band]
        if not all(isfinite(value) and 0.5 <= value <= 12.0 for value in every):
            found.append(f"the forecast goes from {min(every):.2f} to {max(every):.2f}")
        if any(list(row) != sorted(row) for row in zip(*bands, strict=True)):
            found.append("the quantiles of the forecast cross")
        if list(ahead.dates) != sorted(set(ahead.dates)):
            found.append("the dates of the forecast are not in order")
    if answer.balance_error is not None and not abs(answer.balance_error) <= 1e-6:
        found.append(f"the acid balance is out by {answer.balance_error:.1e}")
    return found


@law("L22")
def branches_are_a_whole(case: Case, answer: Answer) -> list[str]:
    """The branches of an open question have probabilities that add up to one, and the same aim."""
    if not answer.branches:
        return []
    found = []
    total = sum(branch.probability for branch in answer.branches)
    if abs(total - 1.0) > 1e-6:
        found.append(f"the branches add up to {total:.3f}")
    if answer.verdict.decision is not Decision.MEASURE_FIRST:
        found.append(f"{answer.verdict.decision} has branches")
    for branch in answer.branches:
        goes_on = branch.decision in (Decision.GO, Decision.EFFORT)
        amount = branch.sulfur_as_s_g_m2 is not None or branch.lime_as_caco3_g_m2 is not None
        if goes_on != amount:
            found.append(f"{branch.outcome}: {branch.decision} with amount {amount}")
    return found


def horizon(case: Case) -> tuple[date, date]:
    """The day wanted and a year later; of a day too soon for anything to show, the usual years."""
    by, limits = case.aim.by, verdict_values()
    soonest = case.today + timedelta(days=int(limits["part_wait_days"]))
    usual = case.today + timedelta(days=365 * int(limits["seasons"]))
    wanted = by if by is not None and by >= soonest else usual
    return wanted, wanted + timedelta(days=365)


def at(days: Sequence[date], day: date) -> int:
    """Place of the last day that is not after a day [index]."""
    return max(bisect_right(days, day) - 1, 0)


def sampling_error(answer: Answer, share: float) -> float:
    """Nearly three standard errors of a share judged on half of the beds [1]."""
    beds = (answer.made_by.members or STATIC_BEDS) / 2.0
    inner = min(max(share, HARMED), 1.0 - HARMED)
    return 2.6 * sqrt(inner * (1.0 - inner) / beds)


def _mmolc_m2_per_ph(case: Case, answer: Answer) -> float:
    """Acid of one pH unit where the bed is to be held [mmolc/m2]."""
    context, wanted = bed_of(case), answer.wanted
    assert context.soil is not None and wanted is not None
    ph = context.soil.ph.ph_water
    if answer.plan is not None:
        ph = wanted.ph_aim
    elif answer.verdict.decision is Decision.LEAVE:
        ph = min(max(ph, wanted.ph_low), wanted.ph_high)
    slope: float = buffer_mmolc_kg_ph(ph, k=10.0**context.soil.k.log10_k_mean, **curve_of(context))
    return slope * context.soil_mass_kg_m2


def _listed(days: Sequence[date]) -> str:
    return ", ".join(day.isoformat() for day in days)
