"""Each law is broken on purpose, by an answer doctored in one place, and must say so."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from functools import cache
from typing import Any, Final

import pytest

from laws.laws import LAWS
from laws.pair_laws import PAIR_LAWS, Letter
from loamshift.domain.answer import (
    Answer,
    Application,
    Band,
    Branch,
    Decision,
    Direction,
    Finding,
    Missing,
    PlanRule,
    Reason,
    Severity,
)
from loamshift.domain.case import Case
from loamshift.domain.message import Message, Prose, message, ph, prose, rate
from loamshift.services.advise import LookAhead, advise
from services.beds import bed
from wording import read

LOAM: Final = 'ph = {}\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
CASES: Final = {
    "acid": bed(LOAM.format(7.0) + 'fizz = "none"', aim="target_ph = 6.2"),
    "lime": bed(LOAM.format(5.2), aim='plant = "cabbage"'),
    "planted": bed(LOAM.format(5.2), bed='area = "20 m2"\nplanted = true', aim='plant = "cabbage"'),
    "leave": bed(LOAM.format(6.6) + 'fizz = "none"', aim='plant = "cabbage"'),
    "first": bed(LOAM.format(7.6), aim="target_ph = 6.4"),
    "above": bed(LOAM.format(7.9) + 'fizz = "strong"'),
    "stop": bed(
        more='[[applied]]\ndate = 2026-04-01\nmaterial = "aluminium sulfate"\nrate = 1500',
    ),
    "claim": bed(more='[[claim]]\nmaterial = "elemental sulfur, powder"\nrate = 1500'),
}


@cache
def letter(name: str) -> Letter:
    return Letter(CASES[name], advise(CASES[name]))


@cache
def ahead(name: str) -> Letter:
    return Letter(CASES[name], advise(CASES[name], look_ahead=LookAhead(members=50)))


def doctored(one: Letter, **changes: Any) -> Letter:
    return Letter(one.case, replace(one.answer, **changes))


def plan_with(one: Letter, **changes: Any) -> Letter:
    assert one.answer.plan is not None
    return doctored(one, plan=replace(one.answer.plan, **changes))


def verdict_with(one: Letter, **changes: Any) -> Letter:
    return doctored(one, verdict=replace(one.answer.verdict, **changes))


def _forecast_with(one: Letter, **changes: Any) -> Letter:
    assert one.answer.forecast is not None
    return doctored(one, forecast=replace(one.answer.forecast, **changes))


def _part(one: Letter, **changes: Any) -> Letter:
    first, *rest = one.answer.applications
    return doctored(one, applications=(replace(first, **changes), *rest))


def _plan(one: Letter) -> PlanRule:
    assert one.answer.plan is not None
    return one.answer.plan


def _drifting(one: Letter) -> Letter:
    ahead_of = one.answer.forecast
    assert ahead_of is not None
    falls = tuple(ph - 0.01 * week for week, ph in enumerate(ahead_of.do_nothing.q50))
    return _forecast_with(one, do_nothing=replace(ahead_of.do_nothing, q50=falls))


def _crossing(one: Letter) -> Letter:
    ahead_of = one.answer.forecast
    assert ahead_of is not None
    return _forecast_with(one, ph=replace(ahead_of.ph, q05=ahead_of.ph.q95))


def _blocking(check: str) -> Finding:
    return Finding(
        check=check,
        value=9.0,
        operator="<=",
        limit=1.0,
        unit="g/m2",
        passed=False,
        severity=Severity.BLOCK,
        comment="Too much.",
    )


def _acid_part(one: Letter) -> Application:
    return replace(one.answer.applications[0], material="elemental sulfur, powder")


def _breaks() -> dict[str, tuple[Letter, list[Letter]]]:
    acid, lime, leave = letter("acid"), letter("lime"), letter("leave")
    first, stop, claim = letter("first"), letter("stop"), letter("claim")
    lined = _plan(lime)
    upkeep = leave.answer.upkeep
    assert upkeep is not None
    band = Band(lo90=1.0, mid=2.0, hi90=3.0)
    day = timedelta(days=1)
    return {
        "L01": (
            lime,
            [
                doctored(lime, dose=replace(lime.answer.dose, direction=Direction.ACIDIFY)),
                doctored(lime, applications=(_acid_part(lime),)),
                doctored(lime, options=acid.answer.options),
                verdict_with(lime, because=_foreign_need("acidify")),
            ],
        ),
        "L02": (
            leave,
            [
                doctored(leave, plan=lime.answer.plan),
                doctored(stop, applications=lime.answer.applications),
                doctored(letter("above"), options=acid.answer.options),
            ],
        ),
        "L03": (
            first,
            [
                doctored(first, dose=replace(first.answer.dose, provisional=False)),
                doctored(lime, dose=replace(lime.answer.dose, provisional=True)),
            ],
        ),
        "L04": (
            lime,
            [
                verdict_with(lime, reason=Reason.OVERDOSE),
                verdict_with(lime, reason=None),
            ],
        ),
        "L05": (
            lime,
            [
                doctored(lime, plan=None, applications=()),
                plan_with(lime, parts=(), decides=()),
            ],
        ),
        "L06": (
            lime,
            [
                _part(lime, rate_g_m2=1.0),
                doctored(lime, plan=None),
            ],
        ),
        "L07": (
            stop,
            [
                verdict_with(stop, decision=Decision.LEAVE),
                doctored(lime, findings=(_blocking("salt of the soil"),)),
            ],
        ),
        "L08": (
            claim,
            [
                doctored(claim, cautions=()),
                doctored(
                    claim,
                    claims=tuple(replace(one, comment="") for one in claim.answer.claims),
                ),
            ],
        ),
        "L09": (
            stop,
            [
                doctored(stop, rescue=None),
                verdict_with(stop, decision=Decision.MEASURE_FIRST),
            ],
        ),
        "L10": (
            letter("above"),
            [
                doctored(letter("above"), applications=lime.answer.applications),
                doctored(letter("above"), options=lime.answer.options),
                doctored(letter("above"), upkeep=replace(upkeep, lime_as_caco3_g_m2_year=30.0)),
            ],
        ),
        "L11": (
            lime,
            [
                doctored(lime, applications=(_acid_part(lime),)),
                doctored(lime, upkeep=replace(upkeep, sulfur_as_s_g_m2_year=9.0)),
                doctored(stop, options=acid.answer.options),
            ],
        ),
        "L12": (
            lime,
            [
                _part(lime, rate_g_m2=5000.0),
                plan_with(lime, decides=(replace(lined.decides[0], part_g_m2=9000.0),)),
                doctored(lime, applications=5 * lime.answer.applications),
            ],
        ),
        "L13": (letter("planted"), [_part(letter("planted"), incorporate_cm=15.0)]),
        "L14": (ahead("leave"), [_drifting(ahead("leave"))]),
        "L15": (
            ahead("leave"),
            [
                doctored(
                    leave,
                    upkeep=replace(
                        upkeep, lime_as_caco3_g_m2_year=20.0, sulfur_as_s_g_m2_year=20.0
                    ),
                ),
                doctored(ahead("leave"), upkeep=replace(upkeep, drift_ph_year=0.9)),
                *(
                    doctored(
                        ahead(key),
                        upkeep=replace(keep, drift_ph_year=keep.drift_ph_year + 0.02),
                    )
                    for key, keep in (("leave", upkeep), ("lime", ahead("lime").answer.upkeep))
                    if keep is not None
                ),
            ],
        ),
        "L16": (
            lime,
            [
                plan_with(lime, share_in_range=0.9, median_ph=8.0),
                doctored(lime, wanted=None),
            ],
        ),
        "L17": (
            lime,
            [
                plan_with(lime, share_in_range=1.2),
                plan_with(lime, share_if_known=0.0),
                plan_with(lime, share_in_range=0.1, share_in_range_without_tests=0.9),
                plan_with(lime, share_harmed=0.3),
            ],
        ),
        "L18": (ahead("lime"), [plan_with(ahead("lime"), median_ph=4.0)]),
        "L19": (
            lime,
            [
                _part(lime, date=lime.case.today - day),
                doctored(lime, retest=lime.answer.retest[::-1]),
                doctored(lime, too_early_before=lime.answer.retest[-1] + day),
                plan_with(lime, decides=tuple(_early(line) for line in lined.decides)),
            ],
        ),
        "L20": (
            lime,
            [
                plan_with(lime, decides=lined.decides[1:]),
                plan_with(lime, decides=(*lined.decides[:1], *lined.decides[2:])),
                plan_with(lime, decides=tuple(_reversed(lined))),
            ],
        ),
        "L29": (
            lime,
            [
                plan_with(lime, decides=tuple(_always_given(lined))),
                plan_with(lime, decides=tuple(_given_above(lined))),
            ],
        ),
        "L21": (
            ahead("lime"),
            [_crossing(ahead("lime")), doctored(ahead("lime"), balance_error=0.2)],
        ),
        "L22": (
            first,
            [
                doctored(first, branches=first.answer.branches[:1]),
                doctored(
                    first,
                    branches=(
                        Branch(
                            field="soil.fizz",
                            outcome="no-lime",
                            probability=1.0,
                            decision=Decision.LEAVE,
                            sulfur_as_s_g_m2=band.mid,
                            lime_as_caco3_g_m2=None,
                        ),
                    ),
                ),
            ],
        ),
        "L23": (
            lime,
            [
                verdict_with(lime, would_change_if=""),
                verdict_with(lime, would_change_if=message("settle-water-alkalinity")),
                verdict_with(acid, would_change_if=message("verdict-fizz-change")),
                verdict_with(lime, would_change_if=message("headline-no-ph")),
                verdict_with(
                    lime,
                    would_change_if=message(
                        "verdict-repeat-change", range=ph(6.0, high=7.0), far="yes"
                    ),
                ),
            ],
        ),
        "L24": (
            lime,
            [
                verdict_with(lime, because=_foreign_need("lime")),
                verdict_with(lime, because=prose(message("bed-for-whole", whole=ph(7.0)))),
                doctored(lime, dose=replace(lime.answer.dose, lime_as_caco3_g_m2=band)),
            ],
        ),
        "L25": (
            claim,
            [
                doctored(
                    claim,
                    findings=tuple(_excess(row) for row in claim.answer.findings),
                ),
            ],
        ),
        "L27": (
            leave,
            [
                verdict_with(leave, because=_stands("verdict-in-range-now", 5.1)),
                verdict_with(leave, because=_stands("verdict-small-gain-now", 8.0)),
                verdict_with(leave, because=_stands("verdict-feed-soil-good-now", 8.0)),
            ],
        ),
        "L28": (
            leave,
            [
                keeping_with(leave, message("upkeep-hold-lime", rate=rate(12.0), feed=None)),
                keeping_with(
                    leave,
                    message("upkeep-drift", way=None, step=None, years=3),
                    message("upkeep-undone-soon"),
                ),
                keeping_with(
                    acid,
                    message("upkeep-hold-enough"),
                    message("upkeep-water-treated"),
                ),
                keeping_with(
                    lime,
                    message("upkeep-hold-lime", rate=rate(12.0), feed=None),
                    message("upkeep-lime-by-test", ph=ph(6.0)),
                ),
                keeping_with(
                    lime,
                    message("upkeep-drift", way=None, step=None, years=3),
                    message("upkeep-hold-lime", rate=rate(12.0), feed=None),
                ),
            ],
        ),
        "L26": (
            lime,
            [
                doctored(lime, missing=(Missing(field="soil.texture", why="", how=""),)),
            ],
        ),
    }


def keeping_with(one: Letter, *remarks: Message) -> Letter:
    """The letter with these sentences under its upkeep."""
    assert one.answer.upkeep is not None
    upkeep = replace(one.answer.upkeep, comment=prose(*remarks))
    return doctored(one, upkeep=upkeep)


def _early(line: Any) -> Any:
    return replace(line, test=line.test - timedelta(days=900))


def _reversed(plan: PlanRule) -> list[Any]:
    rates = [line.part_g_m2 for line in plan.decides][::-1]
    return [replace(line, part_g_m2=rate) for line, rate in zip(plan.decides, rates, strict=True)]


def _always_given(plan: PlanRule) -> list[Any]:
    """The readings that call for nothing call for something."""
    return [replace(line, part_g_m2=max(line.part_g_m2, 5.0)) for line in plan.decides]


def _given_above(plan: PlanRule) -> list[Any]:
    """The last line that gives lime gives it up to a reading of 8."""
    given = [line for line in plan.decides if line.part_g_m2 > 0.0]
    return [replace(line, reads_to=8.0) if line is given[-1] else line for line in plan.decides]


def _foreign_need(direction: str) -> Prose:
    """A need that is no letter's."""
    reading = message("verdict-reading", ph=ph(5.2), salt="no", given=None, method=None)
    need = message(
        "verdict-need",
        direction=direction,
        reading=reading,
        aim=ph(6.2),
        need=rate(50.0),
        since=None,
    )
    return prose(need)


def _stands(key: str, at: float) -> Prose:
    wanted = message("verdict-range", plants=None, range=ph(6.0, high=6.8))
    return prose(message(key, ph=ph(at), wanted=wanted, applied=None, inside="no"))


def _excess(row: Finding) -> Finding:
    return replace(row, comment=re.sub(r"[\d.]+ times", "44 times", read(row.comment)))


def test_every_law_is_broken() -> None:
    assert set(_breaks()) == set(LAWS)
    assert set(_pair_breaks()) == set(PAIR_LAWS)


@pytest.mark.parametrize("key", sorted(LAWS))
def test_a_broken_law_is_told(key: str) -> None:
    kept, broken = _breaks()[key]
    check: Callable[[Case, Answer], list[str]] = LAWS[key].check
    assert check(kept.case, kept.answer) == []
    for number, one in enumerate(broken):
        assert check(one.case, one.answer), f"doctored answer {number} passes"


def _need(one: Letter, mid: float) -> Letter:
    band = Band(lo90=0.5 * mid, mid=mid, hi90=2.0 * mid)
    return doctored(one, dose=replace(one.answer.dose, lime_as_caco3_g_m2=band))


def _pair_breaks() -> dict[str, tuple[tuple[Letter, Letter], list[tuple[Letter, Letter]]]]:
    lime, acid, stop = letter("lime"), letter("acid"), letter("stop")
    low, usual, high = _need(lime, 100.0), _need(lime, 300.0), _need(lime, 3000.0)
    changes = [(usual, low), (usual, high)]
    easier = (verdict_with(lime, decision=Decision.ELSEWHERE, reason=Reason.CAPS), lime)
    acids = (
        verdict_with(acid, decision=Decision.ELSEWHERE, reason=Reason.CAPS),
        acid,
    )
    spread = Letter(
        bed(more='[[applied]]\ndate = 2025-05-01\nmaterial = "ground limestone"\nrate = 100'),
        lime.answer,
    )
    return {
        "P01": ((usual, usual), [*changes, easier]),
        "P02": ((usual, usual), changes),
        "P03": ((usual, usual), changes),
        "P04": ((acid, acid), [acids]),
        "P05": ((usual, usual), changes),
        "P06": (
            (stop, stop),
            [
                (stop, verdict_with(stop, decision=Decision.LEAVE)),
                (spread, Letter(spread.case, _need(lime, 3000.0).answer)),
            ],
        ),
        "P07": (
            (letter("planted"), lime),
            [
                (
                    Letter(
                        replace(lime.case, soil=replace(lime.case.soil, cec_cmolc_kg=12.0)),
                        replace(lime.answer, findings=()),
                    ),
                    doctored(lime, findings=()),
                )
            ],
        ),
        "P08": (
            (lime, lime),
            [(lime, plan_with(lime, median_ph=1.0)), (lime, letter("leave"))],
        ),
    }


@pytest.mark.parametrize("key", sorted(PAIR_LAWS))
def test_a_broken_law_of_two_letters_is_told(key: str) -> None:
    kept, broken = _pair_breaks()[key]
    check = PAIR_LAWS[key].check
    assert check(*kept) == []
    for number, pair in enumerate(broken):
        assert check(*pair), f"doctored pair {number} passes"
