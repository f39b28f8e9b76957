"""The order of the cases, one at a time, on invented beds and without the column."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from loamshift.domain.answer import Decision, Direction, Reason
from loamshift.domain.case import Case
from loamshift.services.context.build_context import build_context
from loamshift.services.verdict.decide import decide
from loamshift.services.verdict.judgement import Judgement
from services.beds import bed

LOAM = 'ph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
NO_LIME = LOAM + "carbonate_pct = 0\n"


def judged(case: Case) -> Judgement:
    return decide(build_context(case)).judged


def test_no_reading_asks_for_one() -> None:
    found = judged(bed('texture = "loam"'))
    assert (found.decision, found.measure) == (Decision.MEASURE_FIRST, "soil.ph")


def test_no_aim_asks_for_one() -> None:
    found = judged(bed(aim=""))
    assert (found.decision, found.measure) == (Decision.MEASURE_FIRST, "aim.plant")


def test_a_reading_in_range_is_left_alone() -> None:
    found = judged(bed("ph = 5.0\n" + NO_LIME))
    assert (found.decision, found.reason) == (Decision.LEAVE, Reason.IN_RANGE)
    assert found.in_range > 0.8


def test_a_gain_a_second_test_cannot_show_is_left_alone() -> None:
    found = judged(bed("ph = 5.7\n" + NO_LIME))
    assert (found.decision, found.reason) == (Decision.LEAVE, Reason.SMALL_GAIN)


def test_a_gain_of_three_tenths_counts() -> None:
    assert judged(bed("ph = 5.8\n" + NO_LIME)).decision is Decision.GO


def test_a_probe_in_range_settles_nothing() -> None:
    soil = 'ph = 5.4\nph_method = "probe"\ntexture = "loam"\norganic_matter_pct = 3\n'
    found = judged(bed(soil))
    assert found.decision is Decision.MEASURE_FIRST
    assert found.measure == "soil.ph"


@pytest.mark.parametrize("ph", [3.4, 8.9])
def test_a_probe_at_the_end_of_its_scale_is_answered(ph: float) -> None:
    soil = f'ph = {ph}\nph_method = "probe"\ntexture = "loam"\norganic_matter_pct = 3\n'
    assert judged(bed(soil)).decision in (Decision.MEASURE_FIRST, Decision.ELSEWHERE)


def test_untried_lime_above_ph_7_5_is_tried_first() -> None:
    found = judged(bed("ph = 7.7\n" + LOAM))
    assert (found.decision, found.measure) == (Decision.MEASURE_FIRST, "soil.fizz")


@pytest.mark.parametrize("fizz", ["moderate", "strong", "extreme"])
def test_free_lime_sends_blueberries_elsewhere(fizz: str) -> None:
    found = judged(bed(f'ph = 7.9\n{LOAM}fizz = "{fizz}"\nfizz_acid = "HCl"'))
    assert (found.decision, found.reason) == (Decision.ELSEWHERE, Reason.FREE_LIME)


def test_one_drop_without_lime_or_water_is_plain() -> None:
    assert judged(bed("ph = 6.0\n" + NO_LIME)).decision is Decision.GO


def test_hard_water_makes_it_an_effort() -> None:
    hard = '[water]\nalkalinity = "250 mg/L CaCO3"\nweekly = "25 mm"'
    found = judged(bed("ph = 6.0\n" + NO_LIME, more=hard))
    assert (found.decision, found.reason) == (Decision.EFFORT, Reason.UPKEEP)


def test_roots_in_the_ground_make_it_an_effort() -> None:
    planted = 'area = "20 m2"\nplanted = true'
    found = judged(bed("ph = 6.3\n" + NO_LIME, bed=planted))
    assert (found.decision, found.reason) == (Decision.EFFORT, Reason.PARTS)


def test_water_of_unknown_alkalinity_can_decide() -> None:
    watered = '[water]\nweekly = "25 mm"'
    found = judged(bed("ph = 6.2\n" + NO_LIME, more=watered))
    assert (found.decision, found.measure) == (Decision.MEASURE_FIRST, "water.alkalinity")


def test_a_weak_range_starts_no_plan() -> None:
    found = judged(bed("ph = 7.0\n" + NO_LIME, aim='plant = "pin oak"'))
    assert (found.decision, found.reason) == (Decision.MEASURE_FIRST, Reason.ONE_SOURCE_RANGE)
    assert found.measure == "aim.target_ph"


def test_a_weak_range_does_not_block_far_outside_every_printed_one() -> None:
    """Printed for pin oak: 5.0 to 6.5; seven tenths beyond it no source would disagree."""
    found = judged(bed("ph = 7.4\n" + NO_LIME, aim='plant = "pin oak"'))
    assert (found.decision, found.direction) == (Decision.GO, Direction.ACIDIFY)


def test_a_weak_range_does_not_block_where_the_laboratory_says_the_same() -> None:
    aim = 'plant = "flax"'
    soil = "ph = 5.4\n" + NO_LIME
    assert judged(bed(soil, aim=aim)).reason is Reason.ONE_SOURCE_RANGE
    told = judged(bed(soil + 'lab_lime_requirement = "200 g/m2"\n', aim=aim))
    assert told.acts and told.direction is Direction.LIME
    assert told.reason is not Reason.ONE_SOURCE_RANGE


def test_a_target_of_ones_own_is_no_weak_range() -> None:
    found = judged(bed("ph = 7.0\n" + NO_LIME, aim='plant = "pin oak"\ntarget_ph = 6.0'))
    assert found.decision is Decision.GO


def test_sulfur_still_at_work_stops() -> None:
    applied = '[[applied]]\ndate = 2026-04-01\nmaterial = "flowers of sulphur"\namount = "12 kg"'
    found = judged(bed("ph = 6.0\n" + NO_LIME, more=applied))
    assert (found.decision, found.reason) == (Decision.STOP, Reason.OVERDOSE)
    assert found.ph_expected is not None and found.ph_expected < 4.0


def test_a_little_sulfur_still_at_work_does_not_stop() -> None:
    applied = '[[applied]]\ndate = 2026-04-01\nmaterial = "flowers of sulphur"\namount = "200 g"'
    case = bed("ph = 6.2\nsampled = 2026-03-20\n" + NO_LIME, more=applied)
    assert judged(case).decision is Decision.GO


def test_sulfur_that_gets_there_by_itself_is_left_to_work() -> None:
    applied = '[[applied]]\ndate = 2026-04-01\nmaterial = "flowers of sulphur"\namount = "2 kg"'
    case = bed("ph = 6.4\nsampled = 2026-03-20\n" + NO_LIME, more=applied)
    found = judged(case)
    assert (found.decision, found.reason) == (Decision.LEAVE, Reason.AT_WORK)
    assert found.ph_expected is not None and 4.5 < found.ph_expected < 5.4


def test_a_cup_of_sulfur_on_a_square_metre_of_planted_ground_stops() -> None:
    applied = '[[applied]]\ndate = 2026-04-01\nmaterial = "flowers of sulphur"\n'
    applied += 'amount = "1 cup per plant"'
    place = 'area = "9 m2"\nplants = 9\nplanted = true'
    case = bed("ph = 6.4\nsampled = 2026-03-20\n" + NO_LIME, bed=place, more=applied)
    found = judged(case)
    assert found.decision is Decision.STOP and found.reason == Reason.OVERDOSE


def test_sulfur_long_spent_leaves_an_acid_soil_to_be_limed() -> None:
    applied = '[[applied]]\ndate = 2022-04-01\nmaterial = "flowers of sulphur"\namount = "2 kg"'
    case = bed("ph = 4.6\nsampled = 2026-03-20\n" + NO_LIME, aim='plant = "cabbage"', more=applied)
    found = judged(case)
    assert found.direction is Direction.LIME and found.decision is not Decision.STOP


def test_lime_still_at_work_stops() -> None:
    applied = '[[applied]]\ndate = 2026-04-01\nmaterial = "hydrated lime"\namount = "40 kg"'
    found = judged(bed("ph = 6.0\n" + NO_LIME, aim='plant = "potato"', more=applied))
    assert (found.decision, found.reason) == (Decision.STOP, Reason.OVERDOSE)


def test_a_heap_of_lime_ends_at_the_plateau_and_not_beyond() -> None:
    applied = '[[applied]]\ndate = 2026-04-01\nmaterial = "burnt lime"\nrate = "15 kg/m2"'
    found = judged(bed("ph = 6.0\n" + NO_LIME, aim='plant = "potato"', more=applied))
    assert found.reason == Reason.OVERDOSE
    # root-zone carbon dioxide: nine soils in ten over calcite stand between 7.3 and 8.1
    assert found.ph_expected is not None and 7.3 < found.ph_expected < 8.1


@pytest.mark.parametrize(
    ("extra", "reason"),
    [
        ("sodium_pct = 18", Reason.SODIC),
        ('ec_ds_m = 5\nec_method = "paste"', Reason.SALT),
    ],
)
def test_salt_and_sodium_stop(extra: str, reason: Reason) -> None:
    found = judged(bed("ph = 7.0\n" + NO_LIME + extra))
    assert (found.decision, found.reason) == (Decision.STOP, reason)


def test_standing_water_stops_sulfur_but_not_lime() -> None:
    wet = 'area = "20 m2"\nplanted = false\ndrainage = "waterlogged"'
    assert judged(bed("ph = 7.0\n" + NO_LIME, bed=wet)).reason == Reason.WATERLOGGED
    limed = judged(bed("ph = 5.0\n" + NO_LIME, bed=wet, aim='plant = "cabbage"'))
    assert limed.direction is Direction.LIME and limed.decision is not Decision.STOP


def test_very_acid_mineral_soil_stops() -> None:
    assert judged(bed("ph = 3.6\n" + NO_LIME)).reason == Reason.TOO_ACID


def test_more_lime_never_makes_it_easier() -> None:
    rank = [Decision.GO, Decision.EFFORT, Decision.ELSEWHERE]
    seen = [
        rank.index(judged(bed(f"ph = 7.0\n{LOAM}carbonate_pct = {pct}")).decision)
        for pct in (0, 0.1, 0.3, 1, 3, 10)
    ]
    assert seen == sorted(seen) and seen[-1] == 2


def test_the_same_bed_gives_the_same_bits() -> None:
    context = build_context(bed("ph = 7.3\n" + LOAM))
    one, two = decide(context).judged, decide(replace(context)).judged
    assert one.rule is not None and two.rule is not None
    assert np.array_equal(one.rule.amounts_g_m2, two.rule.amounts_g_m2)
    assert one.rule.lines == two.rule.lines
    bare = [replace(found, rule=None, courses=None) for found in (one, two)]
    assert bare[0] == bare[1]


@pytest.mark.parametrize("plants", [("highbush blueberry", "asparagus"), ("azalea", "lavender")])
def test_plants_whose_ranges_do_not_meet_are_parted(plants: tuple[str, str]) -> None:
    aim = f'plant = ["{plants[0]}", "{plants[1]}"]'
    for ph in (4.9, 5.8, 6.4, 7.4):
        found = judged(bed(f"ph = {ph}\n" + NO_LIME, aim=aim))
        assert (found.decision, found.reason) == (Decision.ELSEWHERE, Reason.NO_COMMON_RANGE)
        assert found.direction is Direction.NONE and found.rule is None


@pytest.mark.parametrize(("mg_l", "reason"), [(20, Reason.IN_RANGE), (200, Reason.WATER)])
def test_a_good_pot_under_hard_water_has_its_water_treated(mg_l: int, reason: Reason) -> None:
    pot = 'kind = "container"\ncount = 4\narea = "0.2 m2"\ndepth = 25'
    peat = 'ph = 4.8\nph_method = "water 1:1"\nmedium = "peat mix"'
    water = f'[water]\nalkalinity = "{mg_l} mg/L CaCO3"\nweekly = "30 mm"'
    found = judged(bed(peat, bed=pot, more=water))
    assert found.reason is reason
    assert found.direction is Direction.NONE and found.rule is None
    assert (found.water_rise_ph > 0.3) is (reason is Reason.WATER)


FED_SAND = 'ph = 6.2\nph_method = "water 1:1"\ntexture = "sand"\norganic_matter_pct = 1.5\n'


def fed(nitrogen_g_m2: float, form: str, *, soil: str = FED_SAND) -> Judgement:
    feed = f'[feed]\nn_g_m2_year = {nitrogen_g_m2}\nform = "{form}"\n'
    return judged(bed(soil + "carbonate_pct = 0", aim="target_ph = 6.3", more=feed))


def test_what_stays_in_range_only_with_a_yearly_part_is_no_plain_plan() -> None:
    """In the range on the day, and falling out of it by itself."""
    limed = FED_SAND.replace("6.2", "7.0") + "carbonate_pct = 0"
    found = judged(bed(limed, aim="target_ph = 7.2"))
    assert (found.decision, found.direction) == (Decision.EFFORT, Direction.LIME)
    assert found.reason is Reason.UPKEEP
    assert found.stays is not None and found.stays < 0.5


def test_acid_of_its_feed_takes_a_good_soil_out_of_its_range() -> None:
    """The feed is changed first, and nothing is limed against it."""
    found = fed(25.0, "ammonium")
    assert (found.decision, found.reason) == (Decision.EFFORT, Reason.FEED)
    assert found.direction is Direction.NONE and found.rule is None
    assert found.feed_fall_ph > 0.3
    for nitrogen, form in ((25.0, "nitrate"), (1.0, "ammonium")):
        assert fed(nitrogen, form).reason is not Reason.FEED


def test_a_bed_that_its_feed_keeps_within_the_range_is_left_alone() -> None:
    """Ammonium is the usual feed of blueberries, and no fault while the pH stays in range."""
    pots = 'kind = "container"\narea = "0.1 m2"\ncount = 5'
    feed = '[feed]\nn_g_m2_year = 12\nform = "ammonium"\n'
    water = '[water]\nalkalinity = 30\nweekly = "20 mm"\n'
    peat = 'ph = 5.3\nph_method = "water 1:5"\nmedium = "peat mix"'
    assert judged(bed(peat, bed=pots, more=feed + water)).decision is Decision.LEAVE


def test_lime_that_would_do_but_for_the_feed_waits_for_another_feed() -> None:
    loam = FED_SAND.replace("6.2", "5.2").replace('"sand"', '"clay loam"').replace("1.5", "4")
    found = fed(35.0, "ammonium", soil=loam)
    assert found.reason is Reason.FEED and found.covered_unfed is not None
    assert found.covered is not None and found.covered < 0.5 < found.covered_unfed


def test_the_figures_behind_a_judgement_are_shares_and_years() -> None:
    found = judged(bed("ph = 6.4\n" + NO_LIME))
    assert found.covered is not None and found.held is not None and found.stays is not None
    assert 0.0 <= found.held <= found.covered <= 1.0
    assert found.need_mid_g_m2 is not None and found.need_mid_g_m2 > 0.0
    assert found.rule is not None and found.courses is not None
    assert found.rule.amounts_g_m2.shape == (2, found.courses.surface.ph.shape[0])


def test_soil_in_range_that_hard_water_takes_out_of_it_is_left_and_the_water_is_not() -> None:
    pots = 'kind = "container"\ncount = 8\narea = "0.1 m2"'
    soil = 'ph = 5.0\nph_method = "water 1:5"\nmedium = "peat mix"'
    water = '[water]\nalkalinity = "{} mg/L CaCO3"\nweekly = "20 mm"'
    aim = 'plant = "rhododendron"'
    hard = judged(bed(soil, bed=pots, aim=aim, more=water.format(240)))
    assert (hard.decision, hard.reason) == (Decision.EFFORT, Reason.WATER)
    assert hard.rule is None and hard.water_rise_ph > 0.3
    mild = judged(bed(soil, bed=pots, aim=aim, more=water.format(10)))
    assert mild.decision is Decision.LEAVE
