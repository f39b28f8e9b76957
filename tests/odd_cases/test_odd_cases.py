"""Odd cases answered as an expert would; each was once answered otherwise.

What an expert would say is common practice, no source, unless one is named beside the check.
"""

from __future__ import annotations

import pytest

from loamshift.case.read import parse_case
from loamshift.domain.answer import Answer, Decision, Direction, Reason, Severity
from loamshift.report.steps import rescue_in_front
from odd_cases.cases import (
    LIME_FREE,
    PEAT_POTS,
    WATER,
    answered,
    put_on,
    read,
    read_again,
    text,
)
from wording import read as worded


def need_g_m2(answer: Answer) -> float:
    band = answer.dose.sulfur_as_s_g_m2 or answer.dose.lime_as_caco3_g_m2
    assert band is not None
    return band.mid


def applied_product_g_m2(answer: Answer) -> float:
    return sum(part.rate_g_m2 for part in answer.applications)


def assert_no_part(answer: Answer) -> None:
    assert answer.applications == ()
    assert answer.options == ()
    assert answer.plan is None


# plants whose ranges do not meet


@pytest.mark.parametrize("forecast", [True, False])
@pytest.mark.parametrize("ph", [5.0, 5.8, 6.6])
@pytest.mark.parametrize(
    "plants", ['["highbush blueberry", "asparagus"]', '["rhododendron", "lavender"]']
)
def test_plants_that_share_no_range_are_parted(plants: str, ph: float, forecast: bool) -> None:
    answer = answered(text(soil=read(ph), aim=f"plant = {plants}"), forecast=forecast)
    assert answer.verdict.decision is Decision.ELSEWHERE
    assert answer.verdict.reason is Reason.NO_COMMON_RANGE
    assert "apart" in worded(answer.verdict.because)
    assert_no_part(answer)


def test_a_range_that_is_only_a_point_is_no_range() -> None:
    answer = answered(text(soil=read(5.2), aim='plant = ["potato", "cabbage"]'))
    assert answer.verdict.reason is Reason.NO_COMMON_RANGE


def test_a_target_of_ones_own_settles_what_plants_share() -> None:
    aim = 'plant = ["potato", "cabbage"]\ntarget_ph = 6.0'
    answer = answered(text(soil=read(5.0), aim=aim))
    assert answer.verdict.reason is not Reason.NO_COMMON_RANGE


# good soil under water that wins


@pytest.mark.parametrize("ph", [4.8, 5.1, 5.4])
@pytest.mark.parametrize("alkalinity", [200, 300])
def test_good_soil_under_alkaline_water_is_not_left(ph: float, alkalinity: int) -> None:
    water = f'[water]\nalkalinity = {alkalinity}\nweekly = "30 mm"'
    soil = f'ph = {ph}\n{WATER}medium = "peat mix"'
    answer = answered(
        text(bed=PEAT_POTS, soil=soil, aim='plant = "highbush blueberry"', more=water)
    )
    assert answer.verdict.decision is Decision.EFFORT
    assert answer.verdict.reason is Reason.WATER
    assert "Treat the water first" in worded(answer.verdict.because)
    assert "water-alkalinity" in {caution.code for caution in answer.cautions}
    assert_no_part(answer)
    assert answer.forecast is not None
    assert answer.forecast.do_nothing.q50[-1] > 5.5
    assert answer.upkeep is not None
    assert answer.upkeep.drift_ph_year > 0.0
    assert answer.ledger is not None
    assert answer.ledger.net < 0.0


def test_the_same_pots_under_rainwater_are_left() -> None:
    water = '[water]\nalkalinity = 5\nweekly = "30 mm"'
    soil = f'ph = 5.0\n{WATER}medium = "peat mix"'
    answer = answered(
        text(bed=PEAT_POTS, soil=soil, aim='plant = "highbush blueberry"', more=water)
    )
    assert answer.verdict.decision is Decision.LEAVE


# overdoses: fresh, summed, undated, without a pH


HYDRANGEA = 'plant = "hydrangea (blue flowers)"'
PLANTED = 'area = "8 m2"\nplanted = true'


@pytest.mark.parametrize("forecast", [True, False])
@pytest.mark.parametrize(
    "soil", [read(4.3, lime=""), 'texture = "sandy loam"', read(5.0, lime="sampled = 2026-04-08\n")]
)
def test_a_fresh_overdose_stops_whatever_is_known_of_the_ph(soil: str, forecast: bool) -> None:
    drench = put_on("2026-03-31", "aluminium sulfate", "1.5 kg/m2")
    answer = answered(text(bed=PLANTED, soil=soil, aim=HYDRANGEA, more=drench), forecast=forecast)
    assert answer.verdict.decision is Decision.STOP
    assert answer.verdict.reason is Reason.OVERDOSE
    assert answer.rescue is not None
    assert {"over-cap", "overdose"} <= {caution.code for caution in answer.cautions}
    assert_no_part(answer)


def test_three_drenches_are_summed() -> None:
    days = ("2026-03-20", "2026-03-28", "2026-04-05")
    each = [put_on(day, "aluminium sulfate", "220 g/m2") for day in days]
    one = answered(text(bed=PLANTED, soil=read(5.8), aim=HYDRANGEA, more=each[0]))
    three = answered(text(bed=PLANTED, soil=read(5.8), aim=HYDRANGEA, more="\n".join(each)))
    assert one.verdict.decision is not Decision.STOP
    assert three.verdict.reason is Reason.OVERDOSE
    assert "660" in worded(three.verdict.because)


def test_sulfur_put_on_today_is_not_added_to() -> None:
    sulfur = put_on("2026-04-12", "elemental sulfur, powder", "1.1 kg/m2", depth="15 cm")
    answer = answered(text(soil=read(7.0), aim='plant = "highbush blueberry"', more=sulfur))
    assert answer.verdict.reason is Reason.OVERDOSE
    assert_no_part(answer)


def test_an_overdose_is_told_with_one_figure() -> None:
    drench = put_on("2026-03-31", "aluminium sulfate", "1.5 kg/m2")
    answer = answered(text(bed=PLANTED, soil=read(4.6), aim=HYDRANGEA, more=drench))
    row = next(one for one in answer.findings if one.severity is Severity.BLOCK)
    assert isinstance(row.value, float) and isinstance(row.limit, float)
    times = f"{row.value / row.limit:.1f} times"
    assert times in worded(answer.verdict.because)
    assert times in worded(row.comment)


def test_wood_ash_that_lies_there_is_named_as_the_cause() -> None:
    ash = put_on("2026-02-10", "wood ash", "3 kg/m2", depth="10 cm")
    answer = answered(text(bed=PLANTED, soil=read(7.9, lime=""), aim='plant = "lettuce"', more=ash))
    assert answer.verdict.decision is Decision.STOP
    assert "wood ash" in worded(answer.verdict.because)
    assert answer.upkeep is None or answer.upkeep.lime_as_caco3_g_m2_year == 0.0


# the bed's own answer


def test_what_the_bed_did_decides_what_it_gets() -> None:
    aim = "target_ph = 5.5"
    needs = [need_g_m2(answered(text(soil=read(6.6), aim=aim)))]
    for rate in (98, 300):
        sulfur = put_on("2023-04-15", "elemental sulfur, powder", f"{rate} g/m2", depth="15 cm")
        soil = read(7.0) + "sampled = 2023-04-01\n"
        history = text(soil=soil, aim=aim, more=sulfur + read_again("2026-04-01", 6.6))
        answer = answered(history)
        assert answer.refit is not None and answer.refit.used
        needs.append(need_g_m2(answer))
        now = answer.refit.acid_scale.now
        assert now.mid > 1.4 * answer.refit.acid_scale.prior.mid
        assert "resists" in worded(answer.refit.words)
        aside = answered(history, refit=False)
        assert aside.refit is not None and not aside.refit.used
        assert need_g_m2(aside) < 0.7 * needs[-1]
    assert needs[0] < 0.7 * needs[1] < 0.7 * needs[2]


def test_a_reading_that_fits_nothing_is_doubted_before_the_soil_is() -> None:
    sulfur = put_on("2023-04-15", "elemental sulfur, powder", "600 g/m2", depth="15 cm")
    soil = read(7.0) + "sampled = 2023-04-01\n"
    case = text(soil=soil, aim="target_ph = 5.5", more=sulfur + read_again("2026-04-01", 6.6))
    answer = answered(case)
    assert answer.verdict.reason is Reason.DOUBTFUL_READING
    assert answer.refit is not None and answer.refit.doubted
    assert_no_part(answer)


def test_an_undated_report_is_todays_and_beats_an_older_dated_test() -> None:
    case = text(soil=read(5.4), aim="target_ph = 5.5", more=read_again("2024-04-01", 6.2))
    answer = answered(case)
    assert answer.forecast is not None
    assert answer.verdict.reason is Reason.DOUBTFUL_READING, "no loam falls so far by itself"
    assert answer.dose.direction is not Direction.ACIDIFY
    near = answered(case.replace("6.2", "6.0"))
    assert near.forecast is not None
    assert near.forecast.do_nothing.q50[0] < 5.8


# free lime: measured with an error, or unknown


def test_two_laboratory_figures_for_one_field_overlap() -> None:
    bands = []
    for pct in (1.5, 2.5):
        soil = read(7.6, lime=f"carbonate_pct = {pct}\n")
        band = answered(text(soil=soil, aim="target_ph = 6.5")).dose.sulfur_as_s_g_m2
        assert band is not None
        bands.append(band)
    assert bands[0].hi90 > bands[1].lo90


def test_unknown_lime_is_told_as_branches() -> None:
    answer = answered(text(soil=read(7.6, lime=""), aim="target_ph = 6.5"))
    assert answer.verdict.reason is Reason.UNKNOWN_LIME
    assert answer.dose.provisional
    by_name = {branch.outcome: branch for branch in answer.branches}
    assert by_name["no-lime"].decision in (Decision.GO, Decision.EFFORT)
    assert by_name["much-lime"].decision is Decision.ELSEWHERE
    assert by_name["much-lime"].sulfur_as_s_g_m2 is None
    assert sum(branch.probability for branch in answer.branches) == pytest.approx(1.0)


@pytest.mark.parametrize("forecast", [True, False])
def test_soil_that_fizzes_strongly_is_not_limed(forecast: bool) -> None:
    soil = read(5.8, lime='fizz = "strong"\nfizz_acid = "HCl"\n')
    answer = answered(text(soil=soil, aim='plant = "cabbage"'), forecast=forecast)
    assert answer.verdict.decision is Decision.MEASURE_FIRST
    assert "do not fit together" in worded(answer.verdict.because)
    assert_no_part(answer)
    assert answer.upkeep is None


# humus


def test_humus_does_not_raise_the_dose_without_end() -> None:
    needs = []
    for pct in (1, 10, 50):
        soil = read(6.6, texture="sand") + f"organic_matter_pct = {pct}\n"
        needs.append(need_g_m2(answered(text(soil=soil, aim="target_ph = 5.0"))))
    peat = need_g_m2(
        answered(text(soil=f'ph = 6.6\n{WATER}medium = "peat mix"', aim="target_ph = 5.0"))
    )
    assert needs[0] < needs[1] < needs[2] < 5.0 * peat


# weak ranges


@pytest.mark.parametrize("plant", ["wheat", "maize", "perennial ryegrass", "lucerne"])
def test_a_field_crop_with_the_laboratorys_own_figure_gets_a_plan(plant: str) -> None:
    soil = read(4.9) + 'lab_lime_requirement = "500 g/m2"\n'
    bed = 'kind = "field"\narea = "4 ha"'
    answer = answered(text(bed=bed, soil=soil, aim=f'plant = "{plant}"'))
    assert answer.verdict.decision in (Decision.GO, Decision.EFFORT)
    assert answer.dose.direction is Direction.LIME
    assert answer.applications


# contradictions inside one letter


def test_no_lime_to_hold_what_is_too_alkaline_already() -> None:
    for soil in (
        read(7.9, texture="clay loam", lime='fizz = "moderate"\nfizz_acid = "HCl"\n'),
        read(8.9, texture="clay loam", lime="sodium_pct = 22\n"),
    ):
        answer = answered(text(soil=soil, aim='plant = "lettuce"'))
        assert answer.dose.direction is not Direction.LIME
        assert answer.upkeep is None or answer.upkeep.lime_as_caco3_g_m2_year == 0.0


def test_a_field_is_not_sent_into_pots() -> None:
    bed = 'kind = "field"\narea = "4 ha"'
    soil = read(8.0, lime="carbonate_pct = 6\n")
    answer = answered(text(bed=bed, soil=soil, aim='plant = "highbush blueberry"'))
    assert answer.verdict.decision is Decision.ELSEWHERE
    assert "pot" not in worded(answer.verdict.because)
    assert "raised bed" not in worded(answer.verdict.because)


def test_no_part_is_larger_than_the_limit_said_beside_it() -> None:
    answer = answered(text(soil=read(7.2, texture="clay"), aim="target_ph = 5.2"))
    assert answer.applications
    for part in answer.applications:
        assert part.rate_g_m2 <= 98.0 + 1e-9


def test_what_would_change_it_is_a_test_not_yet_made() -> None:
    soil = read(7.0, lime='fizz = "none"\nfizz_acid = "HCl"\n')
    answer = answered(text(soil=soil, aim="target_ph = 6.0"))
    assert "fizz" not in worded(answer.verdict.would_change_if).casefold()


def test_a_sand_with_years_to_go_gets_a_part_worth_carrying() -> None:
    aim = "target_ph = 6.0\nby = 2029-05-01"
    answer = answered(text(soil=read(7.0, texture="sand"), aim=aim))
    assert answer.plan is not None
    parts = [part.rate_g_m2 for part in answer.plan.parts]
    assert not parts or min(parts) >= 3.0


def test_a_planted_pot_is_not_dug_through() -> None:
    bed = 'kind = "container"\narea = "0.2 m2"\nplanted = true\ndepth = "35 cm"'
    soil = f'ph = 6.0\n{WATER}medium = "peat mix"'
    water = '[water]\nalkalinity = 10\nweekly = "20 mm"'
    answer = answered(text(bed=bed, soil=soil, aim='plant = "highbush blueberry"', more=water))
    for part in answer.applications:
        assert part.incorporate_cm == 0.0


def test_a_wild_probe_reading_is_answered_without_a_forecast() -> None:
    bed = 'kind = "lawn"\narea = "100 m2"'
    soil = (
        'ph = 3.3\nph_method = "probe"\ntexture = "loam"\norganic_matter_pct = 10.9\n'
        'fizz = "none"\nfizz_acid = "HCl"'
    )
    answer = answered(text(bed=bed, soil=soil, aim='plant = "lawn"'), forecast=False)
    assert answer.verdict.decision is Decision.MEASURE_FIRST


def test_lime_free_soil_gets_its_plan() -> None:
    answer = answered(text(soil=read(6.8, lime=LIME_FREE), aim="target_ph = 6.0"))
    assert answer.plan is not None
    plan = answer.plan
    assert plan.share_in_range > plan.share_in_range_without_tests
    assert plan.share_harmed <= 0.05
    assert answer.forecast is not None
    on = min(
        range(len(answer.forecast.dates)), key=lambda i: abs(answer.forecast.dates[i] - plan.on)
    )
    assert answer.forecast.ph.q50[on] == pytest.approx(plan.median_ph, abs=0.1)
    assert applied_product_g_m2(answer) > 0.0


def test_a_day_too_soon_is_said_and_does_not_send_the_plants_away() -> None:
    answer = answered(text(soil=read(7.0), aim="target_ph = 6.0\nby = 2026-05-20"))
    assert answer.verdict.decision is Decision.GO
    row = next(one for one in answer.findings if one.check == "day wanted")
    assert not row.passed
    assert answer.plan is not None
    assert answer.plan.on.year >= 2029


def test_a_bed_that_had_too_much_is_told_so_first_whatever_ph_it_comes_to() -> None:
    drenches = "".join(
        put_on(f"2026-04-{day:02d}", "aluminium sulfate", "150 g/m2") for day in (5, 7, 9)
    )
    case_text = text(
        bed=PLANTED, soil=read(5.6) + "sampled = 2026-03-20\n", aim=HYDRANGEA, more=drenches
    )
    answer = answered(case_text)
    assert answer.verdict.decision is Decision.STOP
    assert answer.verdict.reason is Reason.SALT
    first, water, test = rescue_in_front(answer, parse_case(case_text))
    assert "Apply nothing more" in worded(first)
    assert "water" in worded(water) and "drains away freely" in worded(water)
    assert "salt (EC) and pH" in worded(test)
    (day,) = answer.retest
    assert 14 <= (day - answer.today).days <= 42
    assert_no_part(answer)


def test_a_forecast_that_starts_elsewhere_than_the_last_test_says_so() -> None:
    sulfur = put_on("2024-04-20", "elemental sulfur, powder", "120 g/m2", depth="15 cm")
    soil = read(6.7) + "organic_matter_pct = 3\nsampled = 2026-04-01\n"
    more = sulfur + read_again("2024-04-01", 7.0)
    answer = answered(text(soil=soil, aim="target_ph = 5.5", more=more))
    assert answer.forecast is not None and answer.forecast.do_nothing.q50[0] < 6.55
    assert "the forecast starts there" in worded(answer.verdict.because)
