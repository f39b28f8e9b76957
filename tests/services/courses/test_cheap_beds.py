"""The cheap beds against the column: the same direction, and about the same distance."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from loamshift.domain.case import Case
from loamshift.domain.message import message
from loamshift.services.advise import advise
from loamshift.services.belief.belief import believe
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.cheap_beds import CheapBeds
from loamshift.services.courses.cheap_belief import CHEAP_OTHERS, CHEAP_SLICES, cheap_belief
from loamshift.services.courses.layer_acid import reaction_by_step
from loamshift.services.courses.seasons import seasons_ahead
from loamshift.services.courses.surface import day_index
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from loamshift.tables.materials import load_materials
from services.beds import bed

LOAM = (
    'ph = {}\nph_method = "water 1:1"\ntexture = "{}"\norganic_matter_pct = {}\ncarbonate_pct = {}'
)
HARD = '[water]\nalkalinity = "{} mg/L CaCO3"\nweekly = "25 mm"\n'
POT = 'kind = "container"\ncount = 4\narea = "0.2 m2"\ndepth = 25'
PEAT = 'ph = 4.8\nph_method = "water 1:1"\nmedium = "peat mix"'
AHEAD = 3 * 365 + 40
APPLIED = (
    '[[applied]]\ndate = 2026-03-20\nmaterial = "{}"\nrate = "{} g/m2"\nincorporated = "15 cm"\n'
)


def cheap(case: Case) -> CheapBeds:
    return cheap_belief(build_context(case), days_ahead=AHEAD).beds


def middles(case: Case, *, rate_g_m2: float = 0.0, acidify: bool = True) -> tuple[float, float]:
    """Median change in three years by one layer and by the column."""
    context = build_context(case)
    parts = seasons_ahead(context, acidify=acidify).simulated((rate_g_m2,)) if rate_g_m2 else ()
    beds = cheap_belief(context, days_ahead=AHEAD).beds
    one = np.median(beds.run(parts).ph, axis=0)
    column = believe(context, parts, members=60, seed=1, days_ahead=AHEAD).beds
    two = np.median(column.run(parts).ph, axis=0)
    at = column.days[-1]
    return float(one[day_index(beds.days, at)] - one[0]), float(two[-1] - two[0])


GROUNDS: dict[str, Callable[[], Case]] = {
    "sulfur on loam": lambda: bed(LOAM.format(6.8, "loam", 3, 0)),
    "sulfur on sand": lambda: bed(LOAM.format(6.5, "sand", 1.5, 0)),
    "sulfur on clay": lambda: bed(LOAM.format(6.8, "clay", 4, 0)),
}


@pytest.mark.parametrize("name", GROUNDS)
def test_sulfur_lowers_it_about_as_far_as_in_the_column(name: str) -> None:
    one, two = middles(GROUNDS[name](), rate_g_m2=60.0)
    assert one < -0.1 and two < -0.1
    assert one == pytest.approx(two, rel=0.4)


def test_lime_raises_it_about_as_far_as_in_the_column() -> None:
    case = bed(LOAM.format(5.2, "loam", 3, 0), aim="target_ph = 6.5")
    one, two = middles(case, rate_g_m2=400.0, acidify=False)
    assert one > 0.3 and two > 0.3
    assert one == pytest.approx(two, rel=0.4)


@pytest.mark.parametrize(
    ("case", "rises"),
    [
        (bed(PEAT, bed=POT, more=HARD.format(250)), True),
        (bed(LOAM.format(5.5, "sandy loam", 2, 0), more=HARD.format(250)), True),
        (bed(LOAM.format(6.5, "sand", 2, 0), more='[feed]\nn_g_m2_year = 30\nform = "ammonium"\n'),
         False),
        (bed(LOAM.format(7.2, "sandy loam", 2, 0)), False),
    ],
)  # fmt: skip
def test_a_bed_left_alone_drifts_the_way_of_the_column(case: Case, rises: bool) -> None:
    one, two = middles(case)
    sign = 1.0 if rises else -1.0
    assert sign * one > 0.0 and sign * two > 0.0


@pytest.mark.parametrize(
    ("material", "rate", "falls"),
    [("elemental sulfur, powder", 80.0, True), ("hydrated lime", 300.0, False)],
)
def test_what_was_put_on_before_still_comes(material: str, rate: float, falls: bool) -> None:
    case = bed(LOAM.format(6.2, "loam", 3, 0), more=APPLIED.format(material, rate))
    one, two = middles(case)
    assert (one < -0.2, two < -0.2) == ((True, True) if falls else (False, False))
    assert falls or (one > 0.1 and two > 0.1)


def test_beds_are_counted_value_by_value_and_hold_every_draw() -> None:
    beds = cheap(bed(LOAM.format(6.8, "loam", 3, 0)))
    assert beds.shape == (CHEAP_SLICES, CHEAP_OTHERS)
    assert beds.log10_k.shape == (CHEAP_SLICES * CHEAP_OTHERS,)
    by_value = beds.log10_k.reshape(beds.shape)
    assert np.allclose(by_value, by_value[:, :1])
    draws = beds.draw("mass_factor").reshape(beds.shape)
    assert np.allclose(draws, draws[:1])
    assert beds.days[0] == bed().today and (beds.days[-1] - beds.days[0]).days >= AHEAD


def test_thinned_beds_are_some_of_the_same() -> None:
    beds = cheap(bed(LOAM.format(6.8, "loam", 3, 0), more=HARD.format(100)))
    few = beds.thinned(4)
    whole = beds.run(()).ph.reshape(*beds.shape, -1)
    assert np.allclose(few.run(()).ph.reshape(*few.shape, -1), whole[:, ::4])


def test_rain_water_leaves_out_what_the_water_brings_and_nothing_else() -> None:
    case = bed(LOAM.format(5.5, "loam", 3, 0), more=HARD.format(200))
    dry = bed(LOAM.format(5.5, "loam", 3, 0), more=HARD.format(0))
    rain = cheap(case).with_rain_water()
    assert np.allclose(rain.water_acid, 0.0)
    assert np.allclose(rain.steady_acid, cheap(dry).steady_acid)
    assert np.all(rain.run(()).ph[:, -1] < cheap(case).run(()).ph[:, -1])


def test_all_of_a_material_comes_in_the_end_and_nothing_before_it_goes_on() -> None:
    context = build_context(bed(LOAM.format(6.8, "loam", 3, 0)))
    salt = load_materials()["ferrous sulfate, heptahydrate"]
    steps = np.full(40, 30.0)
    on = context.case.today.replace(year=2027)
    course = reaction_by_step(context, salt, on=on, steps=steps, incorporated=True)
    assert np.all(course[:12] == 0.0) and np.all(course >= 0.0)
    assert course.sum() == pytest.approx(
        acid_brought_mmolc_m2(salt, rate_g_m2=1.0, in_pot=False), rel=0.02
    )
    late = reaction_by_step(context, salt, on=on.replace(year=2040), steps=steps, incorporated=True)
    assert not late.any()


@pytest.mark.parametrize(("ph", "method"), [(10.5, "CaCl2"), (9.9, "water 1:1"), (2.2, "KCl")])
def test_a_reading_beyond_the_curve_is_started_at_its_end(ph: float, method: str) -> None:
    soil = LOAM.format(ph, "loam", 3, 0).replace("water 1:1", method)
    ph_now = cheap(bed(soil)).run(()).ph[:, 0]
    assert np.all((ph_now > 2.0) & (ph_now < 9.5))


def test_the_same_case_gives_the_same_bits() -> None:
    case = bed(LOAM.format(6.8, "loam", 3, 0))
    one, two = cheap(case), cheap(replace(case))
    assert np.array_equal(one.run(()).ph, two.run(()).ph)


def test_pots_get_no_load_of_field_soils_by_any_way_it_is_worked_out() -> None:
    case = bed(PEAT.replace("4.8", "5.5"), bed=POT)
    ledger = advise(case).ledger
    assert ledger is not None
    of_fields = {message("ledger-leaching-and-uptake"), message("ledger-acid-from-the-air")}
    assert not of_fields & {line.name for line in ledger.lines}
    one = cheap(case).layer
    context = build_context(case)
    two = believe(context, (), members=60, seed=1, days_ahead=30).beds.inputs.members.parameters
    for load in (one.background_mmolc_m2_year, two.background_mmolc_m2_year):
        assert not np.any(load)
    for air in (one.air_mmolc_m2_year, two.air_factor):
        assert not np.any(air)
