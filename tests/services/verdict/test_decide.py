"""The decision table, a row at a time, on invented beds."""

from __future__ import annotations

from dataclasses import replace

import pytest

from loamshift.domain.answer import Decision, Direction
from loamshift.domain.case import Case
from loamshift.services.context.build_context import build_context
from loamshift.services.verdict.decide import decide
from loamshift.services.verdict.decision_table import Outcome
from services.beds import bed

LOAM = 'ph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
NO_LIME = LOAM + "carbonate_pct = 0\n"


def outcome(case: Case) -> Outcome:
    return decide(build_context(case))


def test_no_reading_asks_for_one() -> None:
    found = outcome(bed('texture = "loam"'))
    assert (found.decision, found.measure) == (Decision.MEASURE_FIRST, "soil.ph")


def test_no_aim_asks_for_one() -> None:
    found = outcome(bed(aim=""))
    assert (found.decision, found.measure) == (Decision.MEASURE_FIRST, "aim.plant")


def test_a_reading_in_range_is_left_alone() -> None:
    found = outcome(bed("ph = 5.0\n" + NO_LIME))
    assert (found.decision, found.reason) == (Decision.LEAVE, "in-range")
    assert found.in_range > 0.8


def test_a_gain_a_second_test_cannot_show_is_left_alone() -> None:
    found = outcome(bed("ph = 5.7\n" + NO_LIME))
    assert (found.decision, found.reason) == (Decision.LEAVE, "gain")


def test_a_gain_of_three_tenths_counts() -> None:
    assert outcome(bed("ph = 5.8\n" + NO_LIME)).decision is Decision.GO


def test_a_probe_in_range_settles_nothing() -> None:
    soil = 'ph = 5.4\nph_method = "probe"\ntexture = "loam"\norganic_matter_pct = 3\n'
    found = outcome(bed(soil))
    assert found.decision is Decision.MEASURE_FIRST
    assert found.measure == "soil.ph"


@pytest.mark.parametrize("ph", [3.4, 8.9])
def test_a_probe_at_the_end_of_its_scale_is_answered(ph: float) -> None:
    soil = f'ph = {ph}\nph_method = "probe"\ntexture = "loam"\norganic_matter_pct = 3\n'
    assert outcome(bed(soil)).decision in (Decision.MEASURE_FIRST, Decision.ELSEWHERE)


def test_untried_lime_above_ph_7_5_is_tried_first() -> None:
    found = outcome(bed("ph = 7.7\n" + LOAM))
    assert (found.decision, found.measure) == (Decision.MEASURE_FIRST, "soil.fizz")


@pytest.mark.parametrize("fizz", ["moderate", "strong", "extreme"])
def test_free_lime_sends_blueberries_elsewhere(fizz: str) -> None:
    found = outcome(bed(f'ph = 7.9\n{LOAM}fizz = "{fizz}"\nfizz_acid = "HCl"'))
    assert (found.decision, found.reason) == (Decision.ELSEWHERE, "caps")


def test_one_drop_without_lime_or_water_is_plain() -> None:
    assert outcome(bed("ph = 6.0\n" + NO_LIME)).decision is Decision.GO


def test_hard_water_makes_it_an_effort() -> None:
    hard = '[water]\nalkalinity = "250 mg/L CaCO3"\nweekly = "25 mm"'
    found = outcome(bed("ph = 6.0\n" + NO_LIME, more=hard))
    assert (found.decision, found.reason) == (Decision.EFFORT, "yearly")


def test_roots_in_the_ground_make_it_an_effort() -> None:
    planted = 'area = "20 m2"\nplanted = true'
    found = outcome(bed("ph = 6.3\n" + NO_LIME, bed=planted))
    assert (found.decision, found.reason) == (Decision.EFFORT, "parts")


def test_water_of_unknown_alkalinity_can_decide() -> None:
    watered = '[water]\nweekly = "25 mm"'
    found = outcome(bed("ph = 6.2\n" + NO_LIME, more=watered))
    assert (found.decision, found.measure) == (Decision.MEASURE_FIRST, "water.alkalinity")


def test_a_weak_range_starts_no_plan() -> None:
    found = outcome(bed("ph = 7.4\n" + NO_LIME, aim='plant = "pin oak"'))
    assert (found.decision, found.reason) == (Decision.MEASURE_FIRST, "weak-range")


def test_a_target_of_ones_own_is_no_weak_range() -> None:
    found = outcome(bed("ph = 7.0\n" + NO_LIME, aim='plant = "pin oak"\ntarget_ph = 6.0'))
    assert found.decision is Decision.GO


def test_sulfur_still_at_work_stops() -> None:
    applied = '[[applied]]\ndate = 2026-04-01\nmaterial = "flowers of sulphur"\namount = "12 kg"'
    found = outcome(bed("ph = 6.0\n" + NO_LIME, more=applied))
    assert (found.decision, found.reason) == (Decision.STOP, "overdose-acid")
    assert found.ph_expected is not None and found.ph_expected < 4.0


def test_a_little_sulfur_still_at_work_does_not_stop() -> None:
    applied = '[[applied]]\ndate = 2026-04-01\nmaterial = "flowers of sulphur"\namount = "400 g"'
    case = bed("ph = 6.0\nsampled = 2026-03-20\n" + NO_LIME, more=applied)
    assert outcome(case).decision is Decision.GO


def test_sulfur_that_gets_there_by_itself_is_left_to_work() -> None:
    applied = '[[applied]]\ndate = 2026-04-01\nmaterial = "flowers of sulphur"\namount = "2 kg"'
    case = bed("ph = 6.4\nsampled = 2026-03-20\n" + NO_LIME, more=applied)
    found = outcome(case)
    assert (found.decision, found.reason) == (Decision.LEAVE, "at-work")
    assert found.ph_expected is not None and 4.5 < found.ph_expected < 5.4


def test_a_cup_of_sulfur_on_a_square_metre_of_planted_ground_stops() -> None:
    applied = '[[applied]]\ndate = 2026-04-01\nmaterial = "flowers of sulphur"\n'
    applied += 'amount = "1 cup per plant"'
    place = 'area = "9 m2"\nplants = 9\nplanted = true'
    case = bed("ph = 6.4\nsampled = 2026-03-20\n" + NO_LIME, bed=place, more=applied)
    found = outcome(case)
    assert found.decision is Decision.STOP and found.reason == "over-cap"


def test_sulfur_long_spent_leaves_an_acid_soil_to_be_limed() -> None:
    applied = '[[applied]]\ndate = 2022-04-01\nmaterial = "flowers of sulphur"\namount = "2 kg"'
    case = bed("ph = 4.6\nsampled = 2026-03-20\n" + NO_LIME, aim='plant = "cabbage"', more=applied)
    found = outcome(case)
    assert found.direction is Direction.LIME and found.decision is not Decision.STOP


def test_lime_still_at_work_stops() -> None:
    applied = '[[applied]]\ndate = 2026-04-01\nmaterial = "hydrated lime"\namount = "40 kg"'
    found = outcome(bed("ph = 6.0\n" + NO_LIME, aim='plant = "potato"', more=applied))
    assert (found.decision, found.reason) == (Decision.STOP, "overdose-lime")


def test_a_heap_of_lime_ends_at_the_plateau_and_not_beyond() -> None:
    applied = '[[applied]]\ndate = 2026-04-01\nmaterial = "burnt lime"\nrate = "15 kg/m2"'
    found = outcome(bed("ph = 6.0\n" + NO_LIME, aim='plant = "potato"', more=applied))
    assert found.reason == "overdose-lime"
    assert found.ph_expected is not None and 8.0 < found.ph_expected < 8.4


@pytest.mark.parametrize(
    ("extra", "reason"),
    [
        ("sodium_pct = 18", "sodic"),
        ('ec_ds_m = 5\nec_method = "paste"', "salt"),
    ],
)
def test_salt_and_sodium_stop(extra: str, reason: str) -> None:
    found = outcome(bed("ph = 7.0\n" + NO_LIME + extra))
    assert (found.decision, found.reason) == (Decision.STOP, reason)


def test_standing_water_stops_sulfur_but_not_lime() -> None:
    wet = 'area = "20 m2"\nplanted = false\ndrainage = "waterlogged"'
    assert outcome(bed("ph = 7.0\n" + NO_LIME, bed=wet)).reason == "waterlogged"
    limed = outcome(bed("ph = 5.0\n" + NO_LIME, bed=wet, aim='plant = "cabbage"'))
    assert limed.direction is Direction.LIME and limed.decision is not Decision.STOP


def test_very_acid_mineral_soil_stops() -> None:
    assert outcome(bed("ph = 3.6\n" + NO_LIME)).reason == "too-acid"


def test_more_lime_never_makes_it_easier() -> None:
    rank = [Decision.GO, Decision.EFFORT, Decision.ELSEWHERE]
    seen = [
        rank.index(outcome(bed(f"ph = 7.0\n{LOAM}carbonate_pct = {pct}")).decision)
        for pct in (0, 0.1, 0.3, 1, 3, 10)
    ]
    assert seen == sorted(seen) and seen[-1] == 2


def test_the_same_bed_gives_the_same_bits() -> None:
    context = build_context(bed("ph = 7.3\n" + LOAM))
    assert decide(context) == decide(replace(context))
