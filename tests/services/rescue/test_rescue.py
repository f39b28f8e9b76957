from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest

from loamshift.case.read import parse_case
from loamshift.domain.answer import Rescue
from loamshift.domain.case import Applied, Bed, Case, Drainage
from loamshift.domain.message import Measure, Message, Worded
from loamshift.services.advise import advise
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
from wording import read

PLANTED = Bed(area_m2=20.0, depth_cm=15.0, planted=True)
Make = Callable[..., Case]


def put_on(key: str, rate_g_m2: float, on: date = date(2026, 3, 20)) -> Applied:
    return Applied(on=on, material=load_materials()[key], rate_g_m2=rate_g_m2, as_given="")


def sulfur_overdose(bed_case: Make, rate_g_m2: float = 500.0, **more: object) -> Case:
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


def keys(steps: tuple[Worded, ...]) -> list[str]:
    """The steps by their keys, without the mark of those for the first hour."""
    return [
        step.key.removeprefix("rescue-").removeprefix("today-")
        for step in steps
        if isinstance(step, Message)
    ]


def step(answer: Rescue, key: str) -> Message:
    return next(one for one in answer.steps if isinstance(one, Message) and one.key == key)


def figure(message: Message, name: str) -> float:
    measure = message.values[name]
    assert isinstance(measure, Measure)
    return measure.value


def test_a_sulfur_overdose_is_stopped_taken_up_tested_washed_and_limed_in_that_order(
    bed_case: Make,
) -> None:
    answer = found(sulfur_overdose(bed_case))
    assert keys(answer.steps) == [
        "stop-acid",
        "take-up",
        "test",
        "hurt",
        "flush",
        "first-lime",
        "test-before-next",
        "lift-until-steady",
    ]
    never = " ".join(read(text) for text in answer.never)
    assert "hydrated lime" in never and "ammonia gas" in never
    assert answer.ph_expected is not None
    assert answer.ph_expected.lo90 < answer.ph_expected.mid < answer.ph_expected.hi90
    assert answer.ph_expected.mid < 4.5


def test_what_can_be_done_without_a_result_is_for_today(bed_case: Make) -> None:
    answer = found(sulfur_overdose(bed_case))
    today = [one.key for one in answer.steps if isinstance(one, Message) and "today" in one.key]
    assert today == ["rescue-today-stop-acid", "rescue-today-take-up", "rescue-today-test"]
    assert [one.key for one in answer.steps[:3] if isinstance(one, Message)] == today


def test_the_first_lime_is_less_than_all_the_lime(bed_case: Make) -> None:
    answer = found(sulfur_overdose(bed_case))
    assert answer.lime_as_caco3_g_m2 is not None
    first = figure(step(answer, "rescue-first-lime"), "rate")
    assert 0.0 < first < answer.lime_as_caco3_g_m2.mid


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
    assert "no-lime-ahead" in keys(answer.steps) and "first-lime" not in keys(answer.steps)
    assert "the grains you can see" in read(step(answer, "rescue-today-take-up"))
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
    assert "no-flush" in keys(answer.steps) and "flush" not in keys(answer.steps)
    assert any("rotten eggs" in read(text) for text in answer.never)


def test_a_naturally_very_acid_bed_may_be_acid_sulfate_soil(bed_case: Make) -> None:
    answer = found(bed_case(3.5, target=None, plant="apple"))
    assert figure(step(answer, "rescue-acid-sulfate"), "ph") == 4.0
    assert "take-up" not in keys(answer.steps)
    assert answer.lime_as_caco3_g_m2 is not None and answer.lime_as_caco3_g_m2.mid > 300.0


def test_too_much_lime_waits_for_the_fizz_to_go_and_gets_no_lime(bed_case: Make) -> None:
    lime = put_on("ground limestone, calcitic", 1500.0, on=date(2026, 4, 12))
    case = bed_case(7.0, target=None, plant="highbush blueberry", applied=(lime,))
    answer = found(case)
    assert answer.lime_as_caco3_g_m2 is None
    wait = step(answer, "rescue-sulfur-after-fizz")
    assert "While it fizzes, wait" in read(wait)
    assert any("vinegar" in read(text) for text in answer.never)
    assert answer.ph_expected is not None and answer.ph_expected.hi90 < 8.5
    context = build_context(case)
    assert context.target is not None
    back = sulfur_back_g_m2(context, ph_high=context.target.ph_high)
    alone = sulfur_back_g_m2(
        build_context(replace(case, applied=())), ph_high=context.target.ph_high
    )
    assert back.mid - alone.mid == pytest.approx(1500.0 * 0.98 * 0.3203, rel=0.01)
    assert figure(wait, "most") == pytest.approx(back.hi90)
    assert figure(wait, "first") <= 0.5 * back.mid


def test_salt_sodium_and_standing_water_have_their_own_answers(bed_case: Make) -> None:
    salty = bed_case(6.0)
    salty = replace(salty, soil=replace(salty.soil, ec_ds_m=9.0, ec_method="paste"))
    assert "salty" in read(found(salty).problem)
    sodic = replace(salty, soil=replace(salty.soil, ec_ds_m=None, sodium_pct=20.0))
    assert "sodic-advice" in keys(found(sodic).steps)
    wet = found(bed_case(7.0, bed=replace(PLANTED, drainage=Drainage.WATERLOGGED)))
    assert "hydrogen sulphide" in read(wet.problem) and keys(wet.steps)[0] == "drain"


def test_plants_standing_in_limy_ground_get_relief_instead_of_acid(bed_case: Make) -> None:
    case = bed_case(8.0, target=None, plant="highbush blueberry", bed=PLANTED, carbonate_pct=8.0)
    answer = found(case)
    assert "rate on its label" in read(step(answer, "rescue-chelate-eddha"))
    assert "rescue-never-outrun" in [one.key for one in answer.never if isinstance(one, Message)]
    bare = replace(case, bed=replace(PLANTED, planted=False))
    assert rescue_for(bare) is None


def test_a_tree_is_a_matter_for_an_arborist(bed_case: Make) -> None:
    tree = build_context(bed_case(7.9, target=None, plant="pin oak", bed=PLANTED))
    shrub = build_context(bed_case(7.9, target=None, plant="azalea", bed=PLANTED))
    assert "arborist" in keys(chlorosis_relief(tree))
    assert "arborist" not in keys(chlorosis_relief(shrub))


def test_the_chelate_fits_the_ph(bed_case: Make) -> None:
    high = chlorosis_relief(build_context(bed_case(7.9)))
    low = chlorosis_relief(build_context(bed_case(7.1)))
    assert high[1].key == "rescue-chelate-eddha" and low[1].key == "rescue-chelate-dtpa"
    assert figure(low[1], "dtpa") == figure(high[1], "dtpa") >= 7.1
    assert figure(high[1], "edta") < figure(high[1], "dtpa") < figure(high[1], "eddha")


@pytest.mark.parametrize(
    ("material", "rate_g_m2", "kept"),
    [
        ("ground limestone, calcitic", 5000.0, "cannot raise the pH"),
        ("elemental sulfur, powder", 900.0, "needs no lime"),
    ],
)
def test_what_is_taken_up_is_told_by_what_it_would_have_done(
    bed_case: Make, material: str, rate_g_m2: float, kept: str
) -> None:
    case = bed_case(None, bed=PLANTED, applied=(put_on(material, rate_g_m2),))
    answer = found(case)
    assert kept in read(step(answer, "rescue-today-take-up"))
    assert read(answer.problem).endswith("How far the pH has moved, only a test can tell.")


def test_soil_that_takes_the_acid_up_gets_no_lime_and_is_not_called_acid() -> None:
    """Common practice, no source: a limy soil shrugs off an overdose; its roots do not."""
    case = parse_case(
        'case = 1\nbed.area = "3 m2"\nbed.planted = true\nsoil.ph = 7.6\nsoil.fizz = "strong"\n'
        'soil.texture = "silt loam"\naim.plant = "rhododendron"\n[[applied]]\n'
        'date = 2026-05-01\nmaterial = "elemental sulfur, prills"\nrate = "150 g/m2"\n',
        today=date(2026, 7, 1),
    )
    answer = advise(case)
    assert answer.rescue is not None
    assert "no-lime-needed" in keys(answer.rescue.steps)
    assert not {"no-lime-ahead", "first-lime"} & set(keys(answer.rescue.steps))
    assert "too-acid" not in {caution.code for caution in answer.cautions}
    assert "overdose" in {caution.code for caution in answer.cautions}
