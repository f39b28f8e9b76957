"""What gardeners do every year, run through the forecast.

Each expectation stands outside the model: in a source that is named or, where that is said, in
common practice without one. Directions and orders of magnitude only.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from loamshift.core.buffer import acid_between_mmolc_kg
from loamshift.core.column import run_column
from loamshift.domain.answer import Application
from loamshift.domain.case import Case
from loamshift.services.belief.column_inputs import forecast_inputs
from loamshift.services.context.build_context import build_context, curve_of, require_soil
from loamshift.services.forecast.outlook import forecast, shared_laws
from services.beds import bed

SPRING = date(2026, 5, 1)
ACID_LOAM = (
    'ph = 5.6\nph_method = "water 1:2.5"\ntexture = "loam"\norganic_matter_pct = 4\n'
    "carbonate_pct = 0"
)
LOAM = (
    'ph = 7.0\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\ncarbonate_pct = 0'
)
PEAT = 'ph = 4.8\nph_method = "water 1:2"\nmedium = "peat mix"'
BARK = 'ph = 5.6\nph_method = "water 1:2"\nmedium = "bark mix"'
POT = 'kind = "container"\ndepth = 20\narea = "0.1 m2"'
BARE = 'area = "20 m2"\nplanted = false'
PLANTED = 'area = "20 m2"\nplanted = true'
MEMBERS = 60
KG_CACO3_PER_MMOLC = 0.05 / 1000.0


def watered(mg_l: float, weekly_mm: float = 25.0) -> str:
    return f'[water]\nalkalinity = "{mg_l} mg/L CaCO3"\nweekly = "{weekly_mm} mm"\n'


def put_on(material: str, rate_g_m2: float, *, depth_cm: float, day: date = SPRING) -> Application:
    return Application(
        date=day,
        material=material,
        rate_g_m2=rate_g_m2,
        amount_g=None,
        incorporate_cm=depth_cm,
        only_if=None,
    )


def yearly(case: Case, *parts: Application, years: int = 1) -> list[float]:
    """Median pH of the bed today and after each year."""
    look = forecast(build_context(case), parts, members=MEMBERS, years=years)
    middle = np.median(look.bed_ph, axis=0)
    assert look.balance_error < 1e-9
    return [float(middle[min(52 * year, middle.size - 1)]) for year in range(years + 1)]


def layer_change(case: Case, part: Application, *, years: int = 1) -> list[float]:
    """Median change of each layer at the end, with the part less without it, top first."""
    inputs = forecast_inputs(build_context(case), [part], members=MEMBERS, years=years)
    ends = [
        run_column(
            inputs.soil,
            inputs.members.parameters,
            inputs.weather,
            events,
            laws=shared_laws(),
            sample_depth_cm=inputs.sample_depth_cm,
        ).end_ph
        for events in (inputs.events, inputs.control_events)
    ]
    return [float(one) for one in np.median(ends[0] - ends[1], axis=0)]


# -- containers and raised beds ------------------------------------------------------------------


@pytest.mark.parametrize("soil", [PEAT, BARK])
def test_hard_water_lifts_a_pot_and_soft_water_hardly(soil: str) -> None:
    """Common practice, no source: a season of hard water spoils an ericaceous pot."""
    aim = "target_ph = 5"
    hard = yearly(bed(soil, bed=POT, aim=aim, more=watered(250.0, 50.0)))
    soft = yearly(bed(soil, bed=POT, aim=aim, more=watered(20.0, 50.0)))
    assert 0.4 < hard[1] - hard[0] < 2.5
    assert abs(soft[1] - soft[0]) < 0.2


def test_a_shallow_pot_is_lifted_faster_than_a_deep_one() -> None:
    """The same base in half the mix: arithmetic."""
    water = watered(250.0, 50.0)
    deep, shallow = (
        yearly(bed(PEAT, bed=POT.replace("20", str(cm)), aim="target_ph = 5", more=water))
        for cm in (30, 12)
    )
    assert shallow[1] - shallow[0] > 1.3 * (deep[1] - deep[0])


def test_a_raised_bed_runs_to_its_own_depth_and_answers_to_its_water() -> None:
    raised = 'kind = "raised"\narea = "3 m2"\ndepth = 30\nplanted = false'
    dry = yearly(bed(LOAM, bed=raised), years=3)
    hard = yearly(bed(LOAM, bed=raised, more=watered(250.0)), years=3)
    assert hard[3] > dry[3] + 0.05
    assert abs(dry[3] - dry[0]) < 0.8


# -- surface against dug in ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("material", "rate", "sign"),
    [("elemental sulfur, powder", 40.0, -1.0), ("ground limestone, calcitic", 300.0, 1.0)],
)
def test_what_lies_on_a_lawn_works_from_the_top(material: str, rate: float, sign: float) -> None:
    """Corbett 2021 and Azam & Gazey 2021: surface lime moves 10-20 cm by 0.05 a year at most."""
    soil = LOAM if sign < 0.0 else ACID_LOAM
    ground = bed(soil, bed='area = "20 m2"\nplanted = false\ndepth = 15')
    top = layer_change(ground, put_on(material, rate, depth_cm=0.0))
    dug = layer_change(ground, put_on(material, rate, depth_cm=15.0))
    assert sign * top[0] > 3.0 * sign * top[1] > -0.01
    assert sign * dug[1] > 3.0 * max(sign * top[1], 0.02)
    assert abs(top[2]) < 0.1


def test_surface_lime_on_grassland_moves_the_top_as_trials_saw() -> None:
    """Corbett 2021: +0.15 (ground) to +0.21 (granulated) per t/ha on heavy grassland, 0-10 cm."""
    lawn = bed(
        'ph = 5.6\nph_method = "water 1:2.5"\ntexture = "clay loam"\norganic_matter_pct = 8\n'
        "carbonate_pct = 0\nsample_depth = 10",
        bed='kind = "lawn"\narea = "100 m2"\ndepth = 10',
        aim="target_ph = 6.3",
    )
    lime = put_on("ground limestone, calcitic", 500.0, depth_cm=0.0)
    look = forecast(build_context(lawn), [lime], members=MEMBERS, years=1)
    rise = float(np.median(look.bed_ph[:, -1] - look.control_ph[:, -1]))
    assert 0.15 * 5.0 / 2.0 < rise < 0.21 * 5.0 * 2.0


# -- over years ------------------------------------------------------------------------------------


def test_liming_five_springs_climbs_in_steps_and_slows_near_the_ph_of_lime() -> None:
    """Huang 2007, Woburn: each dressing helps less as the soil nears the plateau of lime."""
    ground = bed(ACID_LOAM, bed=BARE, aim="target_ph = 6.5")
    springs = [
        put_on(
            "ground limestone, calcitic",
            200.0,
            depth_cm=15.0,
            day=date(2026 + year, 5, 1),
        )
        for year in range(5)
    ]
    limed = yearly(ground, *springs, years=5)
    alone = yearly(ground, years=5)
    gains = [limed[i + 1] - alone[i + 1] - (limed[i] - alone[i]) for i in range(5)]
    assert gains[0] > 0.2 and all(gain > -0.02 for gain in gains)
    assert gains[4] < 0.7 * gains[0]
    assert 6.6 < limed[5] < 8.3


def test_left_unlimed_the_limed_bed_falls_back_slowly() -> None:
    """Woburn (kinetics, section 6): limed plots lost 0.06 to 0.11 a year over ten years."""
    ground = bed(ACID_LOAM, bed=BARE, aim="target_ph = 6.5")
    once = yearly(ground, put_on("ground limestone, calcitic", 600.0, depth_cm=15.0), years=10)
    assert 0.01 < (once[3] - once[10]) / 7.0 < 0.2


def kg_caco3_per_kg_n(material: str, *, pot: bool = False, years: int = 5) -> float:
    """Acid that a yearly 10 g N/m2 left, read off the curve of the middle bed."""
    n_frac = {"ammonium sulfate": 0.212, "urea": 0.466, "calcium nitrate": 0.155}[material]
    feed = f'[feed]\nmaterial = "{material}"\nrate = "{10.0 / n_frac / 2.0:.2f} g/m2"\ntimes = 2\n'
    ground = {"bed": POT if pot else PLANTED, "aim": "target_ph = 6"}
    water = watered(0.0) if pot else ""
    soil = PEAT.replace("4.8", "5.5") if pot else LOAM.replace("7.0", "6.3")
    fed = yearly(bed(soil, more=water + feed, **ground), years=years)[-1]
    plain_bed = build_context(bed(soil, more=water, **ground))
    plain = yearly(plain_bed.case, years=years)[-1]
    scale = 10.0 ** require_soil(plain_bed).k.log10_k_mean
    acid = float(acid_between_mmolc_kg(plain, fed, **curve_of(plain_bed))) * scale
    return acid * plain_bed.soil_mass_kg_m2 * KG_CACO3_PER_MMOLC / (10.0 * years / 1000.0)


def test_ammonium_sulfate_year_after_year() -> None:
    """Twice 3.57 kg CaCO3 per kg N in theory; Woburn showed 0.2 to 0.6 of it in the topsoil."""
    assert 0.5 * 0.2 * 7.14 < kg_caco3_per_kg_n("ammonium sulfate") < 0.6 * 7.14


def test_in_pots_ammonium_sulfate_keeps_most_of_its_acid() -> None:
    """Printed acidity 5.24 kg CaCO3 per kg N (Auburn ANR-174); more where nothing is leached."""
    field, pot = (kg_caco3_per_kg_n("ammonium sulfate", pot=pot, years=2) for pot in (False, True))
    assert field < pot < 7.2
    assert pot > 3.0


def test_urea_is_a_third_as_acid_as_ammonium_sulfate_and_in_pots_half() -> None:
    """By the handbooks 2.9 times; in cropped pots 1.4 to 1.9 times, by lime need."""
    open_ground = kg_caco3_per_kg_n("ammonium sulfate") / kg_caco3_per_kg_n("urea")
    assert 2.3 < open_ground < 4.0
    sulfate, urea = (
        kg_caco3_per_kg_n(kind, pot=True, years=2) for kind in ("ammonium sulfate", "urea")
    )
    assert 1.4 < sulfate / urea < open_ground


def test_calcium_nitrate_limes_a_little() -> None:
    """Printed basicity 1.3 kg CaCO3 per kg N (Auburn ANR-174), less where not all is taken up."""
    assert -1.8 < kg_caco3_per_kg_n("calcium nitrate") < -0.1


def test_wood_ash_every_spring_limes_about_half_as_hard_as_limestone() -> None:
    """Half as strong as lime by weight: printed for hardwood ash, 0.45 in the table."""
    ground = bed(ACID_LOAM, bed=BARE, aim="target_ph = 6.5")
    ends = {}
    for name in ("wood ash", "ground limestone, calcitic"):
        parts = [put_on(name, 150.0, depth_cm=15.0, day=date(2026 + y, 5, 1)) for y in range(3)]
        ends[name] = yearly(ground, *parts, years=3)[-1] - yearly(ground, years=3)[-1]
    assert 0.3 < ends["wood ash"] / ends["ground limestone, calcitic"] < 0.8


def test_poor_sand_under_600_g_of_sulfur_ends_below_4_5() -> None:
    """Common practice, no source: an overdose on sand without lime goes too far."""
    sand = bed(
        'ph = 6.5\nph_method = "water 1:1"\ntexture = "sand"\norganic_matter_pct = 1.5\n'
        "carbonate_pct = 0",
        bed=BARE,
    )
    part = put_on("elemental sulfur, powder", 600.0, depth_cm=15.0)
    assert yearly(sand, part, years=2)[2] < 4.5


def test_a_warm_place_is_ahead_of_a_cold_one() -> None:
    """Watkinson & Blair 1993: three times as fast at 25 as at 15 degC."""
    part = put_on("elemental sulfur, 50-80 mesh", 60.0, depth_cm=15.0)
    ground = bed(LOAM, bed=BARE)
    assert ground.place is not None
    falls = []
    for temp_c in (12.0, 20.0):
        case = replace(ground, place=replace(ground.place, air_temp_c=(temp_c,) * 12))
        look = forecast(build_context(case), [part], members=MEMBERS, years=1)
        week = (SPRING + timedelta(days=120) - look.forecast.dates[0]).days // 7
        falls.append(float(np.median(look.control_ph[:, week] - look.bed_ph[:, week])))
    assert falls[1] > 1.3 * falls[0] > 0.0
