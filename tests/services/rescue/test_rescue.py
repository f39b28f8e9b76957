from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest

from loamshift.domain.answer import Rescue
from loamshift.domain.case import Applied, Bed, Case, Drainage
from loamshift.services.context.build_context import build_context
from loamshift.services.context.need import ph_after_acid_m2
from loamshift.services.rescue.chlorosis import chlorosis_relief
from loamshift.services.rescue.rescue import (
    acid_come_mmolc_m2,
    lime_back_g_m2,
    ph_expected,
    rescue,
    sulfur_back_g_m2,
)
from loamshift.services.verdict.decide import decide
from loamshift.tables.materials import load_materials
from loamshift.units import CACO3_G_PER_MMOLC

PLANTED = Bed(area_m2=20.0, depth_cm=15.0, planted=True)
Make = Callable[..., Case]


def put_on(key: str, rate_g_m2: float, on: date = date(2026, 3, 20)) -> Applied:
    return Applied(on=on, material=load_materials()[key], rate_g_m2=rate_g_m2, as_given="")


def sulfur_overdose(bed_case: Make, rate_g_m2: float = 360.0, **more: object) -> Case:
    given = {
        "target": None,
        "plant": "highbush blueberry",
        "bed": PLANTED,
        "applied": (put_on("elemental sulfur, powder", rate_g_m2),),
    }
    return bed_case(6.0, **(given | more))


def rescue_for(case: Case) -> Rescue | None:
    context = build_context(case)
    return rescue(context, decide(context).judged)


def found(case: Case) -> Rescue:
    answer = rescue_for(case)
    assert answer is not None
    return answer


def place_of(steps: tuple[str, ...], words: str) -> int:
    return next(number for number, step in enumerate(steps) if words in step)


def test_a_sulfur_overdose_is_stopped_taken_up_tested_washed_and_limed_in_that_order(
    bed_case: Make,
) -> None:
    answer = found(sulfur_overdose(bed_case))
    order = [
        "Stop everything",
        "rake off",
        "laboratory test",
        "wash",
        "Lime in small",
        "Test again",
    ]
    places = [place_of(answer.steps, words) for words in order]
    assert places == sorted(places)
    assert any("hydrated" in text for text in answer.never)
    assert any("ammonia" in text for text in answer.never)
    assert answer.ph_expected is not None
    assert answer.ph_expected.lo90 < answer.ph_expected.mid < answer.ph_expected.hi90
    assert answer.ph_expected.mid < 4.5


def test_the_lime_brings_the_expected_ph_back_to_the_lower_limit(bed_case: Make) -> None:
    context = build_context(sulfur_overdose(bed_case))
    assert context.target is not None
    low = context.target.ph_low
    lime = lime_back_g_m2(context, ph_low=low)
    assert 0.0 <= lime.lo90 < lime.mid < lime.hi90
    left = context.pending_acid_mmolc_m2 - lime.mid / CACO3_G_PER_MMOLC
    assert ph_after_acid_m2(context, left) == pytest.approx(low, abs=0.05)


def test_no_lime_goes_ahead_of_prills_that_react_over_years(bed_case: Make) -> None:
    case = sulfur_overdose(bed_case, applied=(put_on("elemental sulfur, prills", 500.0),))
    answer = found(case)
    assert any("Do not lime ahead" in step for step in answer.steps)
    assert any("grains you can see" in step for step in answer.steps)
    context = build_context(case)
    soon = acid_come_mmolc_m2(context, days=120)
    assert 0.0 < soon < 0.05 * context.pending_acid_mmolc_m2


def test_what_came_between_the_sample_and_today_counts_as_come(bed_case: Make) -> None:
    case = sulfur_overdose(bed_case)
    early = replace(case, soil=replace(case.soil, sampled=date(2026, 3, 21)))
    assert acid_come_mmolc_m2(build_context(early), days=0) > 0.0
    assert acid_come_mmolc_m2(build_context(case), days=0) == pytest.approx(0.0)


def test_a_moderate_dose_needs_no_rescue(bed_case: Make) -> None:
    assert rescue_for(sulfur_overdose(bed_case, 30.0)) is None
    assert rescue_for(bed_case(6.0)) is None
    assert rescue_for(bed_case(None)) is None


def test_an_enormous_dose_is_followed_no_further_than_the_curve(bed_case: Make) -> None:
    expected = ph_expected(build_context(sulfur_overdose(bed_case, 40_000.0)))
    assert expected.mid == pytest.approx(2.5)


def test_a_cartload_of_lime_ends_where_free_lime_holds_it(bed_case: Make) -> None:
    cartload = (put_on("burnt lime", 50_000.0),)
    expected = ph_expected(build_context(bed_case(5.0, target=6.5, applied=cartload)))
    assert 8.0 < expected.mid < 8.5 and expected.hi90 < 8.5


def test_slow_drainage_forbids_washing_and_warns_of_the_gas(bed_case: Make) -> None:
    bed = replace(PLANTED, drainage=Drainage.SLOW)
    answer = found(sulfur_overdose(bed_case, bed=bed))
    assert any("Do not wash" in step for step in answer.steps)
    assert any("rotten eggs" in text for text in answer.never)


def test_a_naturally_very_acid_bed_may_be_acid_sulfate_soil(bed_case: Make) -> None:
    answer = found(bed_case(3.5, target=None, plant="apple"))
    assert any("acid sulfate" in step for step in answer.steps)
    assert not any("rake off" in step for step in answer.steps)
    assert answer.lime_as_caco3_g_m2 is not None and answer.lime_as_caco3_g_m2.mid > 300.0


def test_too_much_lime_waits_for_the_fizz_to_go_and_gets_no_lime(bed_case: Make) -> None:
    lime = put_on("ground limestone, calcitic", 1500.0, on=date(2026, 4, 12))
    case = bed_case(7.0, target=None, plant="highbush blueberry", applied=(lime,))
    answer = found(case)
    assert answer.lime_as_caco3_g_m2 is None
    assert any("While it fizzes, wait" in step for step in answer.steps)
    assert any("vinegar" in text for text in answer.never)
    assert answer.ph_expected is not None and answer.ph_expected.hi90 < 8.5
    context = build_context(case)
    assert context.target is not None
    back = sulfur_back_g_m2(context, ph_high=context.target.ph_high)
    alone = sulfur_back_g_m2(
        build_context(replace(case, applied=())), ph_high=context.target.ph_high
    )
    assert back.mid - alone.mid == pytest.approx(1500.0 * 0.98 * 0.3203, rel=0.01)


def test_salt_sodium_and_standing_water_have_their_own_answers(bed_case: Make) -> None:
    salty = bed_case(6.0)
    salty = replace(salty, soil=replace(salty.soil, ec_ds_m=9.0, ec_method="paste"))
    assert "salty" in found(salty).problem
    sodic = replace(salty, soil=replace(salty.soil, ec_ds_m=None, sodium_pct=20.0))
    assert "specialist" in " ".join(found(sodic).steps)
    wet = found(bed_case(7.0, bed=replace(PLANTED, drainage=Drainage.WATERLOGGED)))
    assert "hydrogen sulfide" in wet.problem and wet.steps[0].startswith("Drain")


def test_plants_standing_in_limy_ground_get_relief_instead_of_acid(bed_case: Make) -> None:
    case = bed_case(8.0, target=None, plant="highbush blueberry", bed=PLANTED, carbonate_pct=8.0)
    answer = found(case)
    assert any("EDDHA" in step and "label" in step for step in answer.steps)
    assert any("outrunning the lime" in text for text in answer.never)
    bare = replace(case, bed=replace(PLANTED, planted=False))
    assert rescue_for(bare) is None


def test_a_tree_is_a_matter_for_an_arborist(bed_case: Make) -> None:
    tree = build_context(bed_case(7.9, target=None, plant="pin oak", bed=PLANTED))
    shrub = build_context(bed_case(7.9, target=None, plant="azalea", bed=PLANTED))
    assert any("arborist" in step and "12 to 24 months" in step for step in chlorosis_relief(tree))
    assert not any("arborist" in step for step in chlorosis_relief(shrub))


def test_the_chelate_fits_the_ph(bed_case: Make) -> None:
    high = chlorosis_relief(build_context(bed_case(7.9)))
    low = chlorosis_relief(build_context(bed_case(7.1)))
    assert "of the EDDHA kind" in high[1] and "DTPA kind still holds" in low[1]
