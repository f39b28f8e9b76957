from __future__ import annotations

import math
from datetime import date

import numpy as np
import pytest

from loamshift.core.column_layout import EventKind
from loamshift.domain.answer import Application
from loamshift.domain.soil import CarbonateBelief
from loamshift.errors import InputError, OutOfRangeError
from loamshift.services.belief.column_inputs import forecast_inputs
from loamshift.services.belief.column_layers import layer_edges_cm
from loamshift.services.belief.column_parts import (
    PutOn,
    depth_shares,
    events_of,
    events_of_rest,
    lime_classes,
)
from loamshift.services.belief.column_priors import (
    PRIORS,
    Shape,
    at_scale,
    carbonate_quantile_pct,
    draw_soil_members,
)
from loamshift.services.belief.column_weather import column_weather
from loamshift.services.context.build_context import build_context
from loamshift.services.context.water import anions_row, water_anions_mmolc_l
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from loamshift.services.materials.lime_share import event_factor
from loamshift.tables.materials import find_material, load_materials
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import load_parameters, parameter_values
from services.beds import bed

EDGES = np.array([0.0, 5.0, 15.0, 30.0])
ACID_PER_EVENT = {
    EventKind.SULFUR: 1.0,
    EventKind.ACID: 1.0,
    EventKind.FAST_SALT: 1.0,
    EventKind.DECAY: 1.0,
    EventKind.LIME: -1.0,
}
POWDER = "elemental sulfur, powder"
ALKALINE_WITHOUT_LIME = 'ph = 7.9\nph_method = "water 1:1"\ntexture = "loam"\ncarbonate_pct = 0'


def part(material: str, **changes: float | bool) -> PutOn:
    values: dict[str, float | bool] = {"rate_g_m2": 100.0, "day": 0, "depth_cm": 15.0, **changes}
    return PutOn(material=find_material(material), **values)  # type: ignore[arg-type]


def sown(day: date, rate_g_m2: float, material: str = POWDER) -> Application:
    return Application(
        date=day,
        material=material,
        rate_g_m2=rate_g_m2,
        amount_g=None,
        incorporate_cm=15.0,
        only_if=None,
    )


@pytest.mark.parametrize("key", [k for k, m in load_materials().items() if m.n_frac == 0.0])
def test_the_events_of_a_material_hold_all_its_lasting_acid(key: str) -> None:
    put_on = part(key)
    brought = math.fsum(
        ACID_PER_EVENT[event.kind] * event.amount
        for event in events_of(put_on, edges_cm=EDGES)
        if event.kind in ACID_PER_EVENT
    )
    lasting = acid_brought_mmolc_m2(put_on.material, rate_g_m2=100.0, in_pot=False)
    assert brought == pytest.approx(event_factor(put_on.material) * lasting)


@pytest.mark.parametrize("key", [k for k, m in load_materials().items() if m.n_frac > 0.0])
def test_the_events_of_a_fertiliser_hold_all_its_nitrogen(key: str) -> None:
    material = find_material(key)
    kinds = (
        EventKind.ORGANIC_NITROGEN,
        EventKind.AMMONIA,
        EventKind.AMMONIUM,
        EventKind.UREA,
        EventKind.NITRATE,
    )
    held = math.fsum(e.amount for e in events_of(part(key), edges_cm=EDGES) if e.kind in kinds)
    advice = parameter_values("advice")
    stays = 0.0
    if material.n_organic_frac < advice["meal_n_frac"]:
        stays = (1.0 - advice["compost_n_frac"]) * material.n_organic_frac
    assert held == pytest.approx(100.0 * (material.n_frac - stays) / 14.007 * 1000.0, rel=1e-3)


def test_compost_sets_free_a_tenth_of_its_nitrogen_in_a_year() -> None:
    """5-15 % in the first year, then 2-8 % of the rest a year (Amlinger et al. 2003)."""
    compost = find_material("compost, any finished")
    kinds = EventKind.ORGANIC_NITROGEN
    put = math.fsum(
        e.amount for e in events_of(part(compost.key), edges_cm=EDGES) if e.kind is kinds
    )
    free = put / (100.0 * compost.n_organic_frac / 14.007 * 1000.0)
    half_time_d = parameter_values("advice")["decay_half_time_d"]
    first, second, third = (free * (1.0 - 2.0 ** (-365.0 * y / half_time_d)) for y in (1, 2, 3))
    assert 0.05 < first < 0.15
    assert 0.02 < (second - first) / (1.0 - first) < 0.08
    assert third < 0.25


def test_five_kilograms_of_compost_in_a_pot_lime_it() -> None:
    compost = find_material("compost, any finished")
    assert acid_brought_mmolc_m2(compost, rate_g_m2=5000.0, in_pot=True) < 0.0


def test_the_acid_of_peat_acts_at_once_and_is_no_sulfate() -> None:
    kinds = {e.kind for e in events_of(part("sphagnum peat"), edges_cm=EDGES)}
    assert kinds == {EventKind.TILLAGE, EventKind.ACID}


def test_gypsum_fills_the_soil_with_its_own_sulfate() -> None:
    _, sulfate = events_of(part("gypsum"), edges_cm=EDGES)
    assert sulfate.kind is EventKind.SULFATE
    assert sulfate.amount == pytest.approx(100.0 * 2000.0 / 172.17, rel=1e-3)


def test_a_mulch_enters_in_parts_and_brings_no_less() -> None:
    laid = events_of(part("pine needles, fallen", depth_cm=0.0), edges_cm=EDGES)
    dug = events_of(part("pine needles, fallen"), edges_cm=EDGES)
    for kind in (EventKind.ORGANIC_ACID, EventKind.DECAY):
        parts = [e for e in laid if e.kind is kind]
        assert len({e.day for e in parts}) == len(parts) > 3
        assert min(e.day for e in parts) > 14
        whole = math.fsum(e.amount for e in dug if e.kind is kind)
        assert math.fsum(e.amount for e in parts) == pytest.approx(whole)
    half = parameter_values("advice")["surface_litter_half_time_d"]
    early = math.fsum(e.amount for e in laid if e.kind is EventKind.DECAY and e.day <= half)
    assert early == pytest.approx(
        0.5 * 100.0 * -find_material("pine needles, fallen").ash_alkalinity_molc_kg
    )


def test_the_rest_of_a_mulch_comes_as_it_would_have() -> None:
    laid = part("pine needles, fallen", depth_cm=0.0)
    events = events_of_rest(
        laid,
        applied=date(2025, 5, 1),
        read=date(2025, 11, 17),
        soil_temp_c=(),
        ph_water=6.5,
        in_pot=False,
        edges_cm=EDGES,
    )
    whole = [e for e in events_of(laid, edges_cm=EDGES) if e.kind is EventKind.ORGANIC_ACID]
    late = [e.day for e in events if e.kind is EventKind.ORGANIC_ACID and e.day > 0]
    assert late == [e.day - 200 for e in whole if e.day > 200]
    back = math.fsum(
        e.amount
        for e in events
        if e.day == 0 and e.kind in (EventKind.ACID, EventKind.ORGANIC_ACID)
    )
    assert back == pytest.approx(0.0)  # the reading holds the acid that got in


LIMED = 'ph = {ph}\nph_method = "water 1:1"\ntexture = "loam"\ncarbonate_pct = {pct}'


@pytest.mark.parametrize(
    ("ph", "pct", "coarse"), [(5.7, 0.2, True), (7.4, 0.2, False), (7.8, 5, False)]
)
def test_lime_in_soil_more_acid_than_it_would_hold_lies_unreacted(
    ph: float, pct: float, coarse: bool
) -> None:
    soil = build_context(bed(LIMED.format(ph=ph, pct=pct))).soil
    assert soil is not None
    drawn = draw_soil_members(soil, members=50, rng=np.random.default_rng(1)).parameters
    share = drawn.coarse_carbonate_frac
    if coarse:
        assert np.all(share == 1.0)
    else:  # most of it reacts, by a share measured in limy soils
        assert np.median(share) == pytest.approx(0.25, abs=0.03)
        assert share.min() >= 0.0 and share.max() < 0.7
    start = np.minimum(ph + drawn.start_ph_shift, 8.3)
    if coarse:
        assert drawn.plateau_ph.min() > 7.0
    else:
        np.testing.assert_array_equal(drawn.plateau_ph, start)


def test_what_is_dug_in_mixes_the_layers_and_is_spread_evenly() -> None:
    tilled, sulfur = events_of(part(POWDER), edges_cm=EDGES)
    assert tilled.kind is EventKind.TILLAGE
    assert sulfur.layer_share == pytest.approx((1 / 3, 2 / 3, 0.0))
    assert sulfur.rate_factor == 1.0


def test_what_lies_on_the_surface_stays_on_top_and_is_slower() -> None:
    (sulfur,) = events_of(part(POWDER, depth_cm=0.0), edges_cm=EDGES)
    assert sulfur.layer_share == (1.0, 0.0, 0.0)
    assert sulfur.rate_factor < 1.0


def test_nothing_put_on_is_no_event() -> None:
    assert events_of(part(POWDER, rate_g_m2=0.0), edges_cm=EDGES) == ()


def test_depth_shares_are_parts_of_the_whole() -> None:
    assert depth_shares(10.0, edges_cm=EDGES) == pytest.approx((0.5, 0.5, 0.0))
    assert math.fsum(depth_shares(99.0, edges_cm=EDGES)) == pytest.approx(1.0)


def test_lime_classes_split_a_wide_class() -> None:
    assert lime_classes([(0.0, 250.0, 1.0)]) == pytest.approx((0.6, 0.4, 0.0, 0.0, 0.0))


def rest(material: str, days: int, **changes: float | bool) -> float:
    applied = date(2025, 5, 1)
    events = events_of_rest(
        part(material, **changes),
        applied=applied,
        read=date.fromordinal(applied.toordinal() + days),
        soil_temp_c=(20.0,) * 365,
        ph_water=6.5,
        in_pot=False,
        edges_cm=EDGES,
    )
    return math.fsum(abs(event.amount) for event in events)


@pytest.mark.parametrize(
    "material", [POWDER, "elemental sulfur, prills", "ground limestone, calcitic", "urea"]
)
def test_less_is_left_the_longer_ago_it_went_on(material: str) -> None:
    left = [rest(material, days) for days in (0, 30, 120, 600)]
    assert left == sorted(left, reverse=True)
    assert left[3] < left[0]


def test_sulfur_left_is_what_the_clock_says() -> None:
    from loamshift.services.materials.acid import acid_within_days

    whole = rest(POWDER, 0)
    done = acid_within_days(
        find_material(POWDER),
        rate_g_m2=100.0,
        soil_temp_c=(20.0,) * 365,
        start=date(2025, 5, 1),
        days=60,
        ph_water=6.5,
        in_pot=False,
    )
    assert rest(POWDER, 60) == pytest.approx(whole - done, rel=1e-6)


def test_layers_have_an_edge_at_every_depth_that_matters() -> None:
    edges = layer_edges_cm(treated_cm=20.0, others_cm=(10.0, 0.0))
    assert {0.0, 10.0, 20.0} <= set(edges)
    assert np.all(np.diff(edges) > 1.0)


def test_a_pot_ends_at_its_bottom() -> None:
    assert layer_edges_cm(treated_cm=20.0, bottom_cm=20.0).tolist() == [0.0, 5.0, 15.0, 20.0]


def test_every_prior_has_a_row_with_a_range() -> None:
    table = load_parameters()
    for prior in PRIORS.values():
        row = table[prior.topic][prior.name]
        assert row.low is not None, row
        assert row.high is not None, row
        assert row.low <= row.value <= row.high
        if row.topic == "column" and prior.shape is not Shape.WITHIN:
            assert row.note.startswith(f"{prior.shape.value}:"), row


def test_members_follow_the_belief_in_carbonate() -> None:
    belief = CarbonateBelief(
        zero_weight=0.6, low_pct=0.5, high_pct=2.0, basis="a test", measured=False
    )
    drawn = carbonate_quantile_pct(belief, np.random.default_rng(2).normal(size=20000))
    assert np.mean(drawn == 0.0) == pytest.approx(0.6, abs=0.01)
    some = drawn[drawn > 0.0]
    assert some.min() >= 0.5
    assert some.max() <= 2.0
    assert np.median(some) == pytest.approx(1.0, abs=0.03)


def test_members_centre_on_the_table() -> None:
    context = build_context(bed())
    assert context.soil is not None
    members = draw_soil_members(context.soil, members=2000, rng=np.random.default_rng(3))
    ledger = load_parameters()["ledger"]
    usual = np.full(2000, context.soil.k.log10_k_mean)
    background = at_scale(members.parameters, usual).background_mmolc_m2_year
    row = ledger["background_unknown_mmolc_m2"]
    assert np.median(background) == pytest.approx(row.value, rel=0.02)
    assert row.high is not None
    assert np.quantile(background, 0.975) == pytest.approx(row.high, rel=0.1)
    with pytest.raises(InputError, match="land_use"):
        draw_soil_members(
            context.soil, members=3, rng=np.random.default_rng(3), land_use="moorland"
        )


def test_a_bed_that_resists_less_has_the_weaker_load() -> None:
    context = build_context(bed())
    assert context.soil is not None
    members = draw_soil_members(context.soil, members=400, rng=np.random.default_rng(3))
    drawn = members.parameters
    log_load = np.log10(drawn.background_mmolc_m2_year)
    assert np.corrcoef(log_load, drawn.log10_k)[0, 1] > 0.2
    assert abs(np.corrcoef(log_load - drawn.log10_k, drawn.log10_k)[0, 1]) < 0.1
    halved = at_scale(drawn, drawn.log10_k - np.log10(2.0))
    assert halved.background_mmolc_m2_year == pytest.approx(0.5 * drawn.background_mmolc_m2_year)


def test_weather_keeps_the_sums_of_the_year() -> None:
    context = build_context(bed(more='[water]\nalkalinity = "200 mg/L"\nweekly = "20 mm"'))
    inputs = forecast_inputs(context, [], members=3)
    year = inputs.weather.irrigation_mm[:365].sum()
    assert year == pytest.approx(context.irrigation_mm_year, rel=0.01)
    drained = inputs.weather.drainage_mm[:365].sum()
    assert drained == pytest.approx(context.drainage_mm_year, rel=0.02)
    base = year * inputs.weather.alkalinity_mmolc_l
    assert base == pytest.approx(context.water_base_mmolc_m2_year, rel=0.01)


def test_leap_years_keep_the_seasons_in_place() -> None:
    context = build_context(bed())
    assert context.soil is not None
    weather = column_weather(
        context.soil,
        place=context.place,
        edges_cm=EDGES,
        start=date(2024, 1, 1),
        days=1500,
        available_water_mm=60.0,
    )
    temps = weather.soil_temp_c[:, 0]
    same_day = [(date(year, 12, 31) - date(2024, 1, 1)).days for year in (2024, 2025, 2027)]
    assert len({round(float(temps[day]), 9) for day in same_day}) == 1


def test_earlier_sulfur_goes_on_without_a_plan() -> None:
    applied = (
        '[[applied]]\ndate = 2026-04-01\nmaterial = "elemental sulfur, powder"\n'
        'rate = "60 g/m2"\nincorporated = "15 cm"'
    )
    inputs = forecast_inputs(build_context(bed(more=applied)), [], members=3)
    assert EventKind.SULFUR in inputs.control_events.kind
    assert inputs.events.day.tolist() == inputs.control_events.day.tolist()


def test_plan_and_feed_stand_on_their_days() -> None:
    case = bed(more='[feed]\nn_g_m2_year = 8\nform = "ammonium"')
    inputs = forecast_inputs(
        build_context(case), [sown(date(2026, 5, 2), 50.0)], members=3, years=2
    )
    days = inputs.events.day[inputs.events.kind == EventKind.SULFUR]
    assert days.tolist() == [20]
    fed = inputs.events.amount[inputs.events.kind == EventKind.AMMONIUM]
    assert fed.sum() == pytest.approx(2 * 8.0 / 14.007 * 1000.0, rel=1e-3)


def test_a_part_after_the_end_is_left_out() -> None:
    late = [sown(date(2028, 5, 1), 50.0)]
    assert forecast_inputs(build_context(bed()), late, members=3, years=1).events.day.size == 0


@pytest.mark.parametrize("inches", [4, 6, 7, 12])
def test_the_sampled_depth_is_an_edge(inches: int) -> None:
    soil = (
        'ph = 7.0\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
        f'sample_depth = "{inches} in"'
    )
    inputs = forecast_inputs(build_context(bed(soil)), [], members=3)
    assert inputs.sample_depth_cm in inputs.soil.edges_cm
    assert inputs.sample_depth_cm == pytest.approx(2.54 * inches, abs=1.0)


def test_an_old_reading_starts_the_run_whole_weeks_before_today() -> None:
    soil = (
        'ph = 7.0\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
        "sampled = 2025-09-30"
    )
    inputs = forecast_inputs(build_context(bed(soil)), [], members=3)
    gap = (inputs.today - inputs.start).days
    assert gap % 7 == 0
    assert 0 <= (date(2025, 9, 30) - inputs.start).days < 7


def test_years_have_limits() -> None:
    with pytest.raises(OutOfRangeError, match="years"):
        forecast_inputs(build_context(bed()), [], years=51)


def test_unknown_water_is_soft_middling_or_hard_by_the_weights_of_the_verdict() -> None:
    water = '[water]\nweekly = "20 mm"\nmonths = ["may", "jun"]'
    known = build_context(bed(more=water + '\nalkalinity = "120 mg/L"'))
    unknown = build_context(bed(more=water))
    factors = [
        forecast_inputs(s, [], years=1, members=1000).members.parameters.alkalinity_factor
        for s in (known, unknown)
    ]
    assert np.array_equal(factors[0], np.ones(1000))
    limits = verdict_values()
    middle = limits["assumed_alkalinity_mid"]
    low, high = (
        limits["assumed_alkalinity_low"] / middle,
        limits["assumed_alkalinity_high"] / middle,
    )
    assert factors[1].min() >= low * (1 - 1e-12) and factors[1].max() <= high * (1 + 1e-12)
    assert np.median(factors[1]) == pytest.approx(1.0, abs=0.02)
    for edge, weight in (("low", 0.15), ("high", 0.85)):
        assert np.quantile(factors[1], weight) == pytest.approx(
            limits[f"assumed_alkalinity_{edge}"] / middle, rel=0.05
        )


def test_a_soil_without_lime_is_never_drawn_above_its_own_plateau() -> None:
    """Else part of its base would fall out as lime on the first day, with nothing put on."""
    context = build_context(bed(ALKALINE_WITHOUT_LIME))
    assert context.soil is not None
    drawn = draw_soil_members(context.soil, members=300, rng=np.random.default_rng(1)).parameters
    start = np.minimum(context.soil.ph.ph_water + drawn.start_ph_shift, 8.3)
    assert np.all(drawn.plateau_ph >= start)
    assert drawn.plateau_ph.max() < 9.0


def test_sulfur_on_top_has_the_soil_water_of_the_roots_so_dryness_counts_once() -> None:
    """Its half rate is all that says the surface is drier; a law for its water would end that."""
    context = build_context(bed())
    wetness = forecast_inputs(context, [], members=3).weather.wetness
    assert wetness.shape[1] > 1
    assert np.array_equal(wetness, np.repeat(wetness[:, :1], wetness.shape[1], axis=1))


def test_hard_water_salts_what_drains_and_a_fed_pot_more_than_an_unfed_one() -> None:
    hard = '[water]\nalkalinity = "250 mg/L"\nweekly = "20 mm"'

    def middle(more: str) -> float:
        drawn = forecast_inputs(build_context(bed(more=more)), [], members=200).members
        return float(np.median(drawn.parameters.anions_mmolc_l))

    plain = middle("")
    assert plain == pytest.approx(parameter_values("column")["anions_unfed_mmolc_l"], rel=0.05)
    added = water_anions_mmolc_l(build_context(bed(more=hard)))
    assert added > 1.0
    assert middle(hard) == pytest.approx(plain + added, rel=0.05)
    rows = [anions_row("unknown", in_pot=True, is_fed=fed) for fed in (False, True)]
    unfed, fed = (parameter_values("column")[row] for row in rows)
    assert fed > 2.0 * unfed
