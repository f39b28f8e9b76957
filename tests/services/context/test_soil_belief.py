"""What the facts of a case say of its soil: pH, density, free lime and the scale of the curve."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.domain.ph import PhMethod
from loamshift.services.advise import advise
from loamshift.services.belief.column_priors import carbonate_quantile_pct
from loamshift.services.context.build_context import build_context
from loamshift.services.context.need import need_mmolc_kg
from loamshift.services.context.soil import ph_nodes
from loamshift.tables.soils import load_textures
from services.beds import bed
from tries import tries

METHODS = tuple(method.value for method in PhMethod)


@tries(100)
@given(
    ph=st.floats(2.5, 10.5),
    method=st.sampled_from(METHODS),
    organic=st.floats(0.3, 90.0),
    clay=st.floats(0.0, 70.0),
)
def test_no_reading_leads_beyond_the_curve(
    ph: float, method: str, organic: float, clay: float
) -> None:
    context = build_context(
        bed(
            f'ph = {ph!r}\nph_method = "{method}"\nclay_pct = {clay!r}\n'
            f"organic_matter_pct = {organic!r}"
        )
    )
    assert context.soil is not None
    values, weights = ph_nodes(context.soil.ph)
    assert 2.0 <= values.min() <= values.max() <= 11.0
    assert weights.sum() == pytest.approx(1.0)
    for aim in (4.0, 5.5, 6.5, 8.0):
        need = need_mmolc_kg(context, aim)
        low, high = need.quantile(0.05), need.quantile(0.95)
        assert 0.0 <= low <= high < math.inf


@pytest.mark.parametrize(
    ("ph", "method", "more"),
    [
        (3.3, "probe", 'organic_matter_pct = 10.9\nfizz = "none"'),
        (2.5, "probe", ""),
        (2.5, "water 1:5", ""),
        (10.5, "CaCl2", ""),
        (10.5, "probe", 'fizz = "strong"'),
        (10.5, "KCl", ""),
    ],
)
def test_an_extreme_reading_is_answered(ph: float, method: str, more: str) -> None:
    """A lawn read 3.3 by probe once ended in an error: one node of it lay below pH 1."""
    answer = advise(
        bed(
            f'ph = {ph}\nph_method = "{method}"\n{more}',
            bed='kind = "lawn"\narea = "50 m2"',
            aim='plant = "tall fescue"',
        )
    )
    assert answer.verdict.decision


def loam(carbonate_pct: float, *, ph: float = 7.6) -> str:
    return (
        f'ph = {ph}\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
        f"carbonate_pct = {carbonate_pct!r}"
    )


def test_two_figures_a_laboratory_prints_for_one_field_overlap() -> None:
    """1.5 and 2.5 % of carbonate are one field measured twice."""
    low, high = (need_mmolc_kg(build_context(bed(loam(pct))), 5.0) for pct in (1.5, 2.5))
    assert low.quantile(0.95) > high.quantile(0.05)
    assert low.quantile(0.5) < high.quantile(0.5)


def test_the_error_of_a_measured_carbonate_is_at_least_a_fifth() -> None:
    soil = build_context(bed(loam(2.0))).soil
    assert soil is not None
    assert soil.carbonate.log_sd >= 0.2
    drawn = carbonate_quantile_pct(soil.carbonate, np.array([-1.0, 0.0, 1.0]))
    assert drawn[1] == 2.0
    assert np.log(drawn[2] / drawn[0]) == pytest.approx(2.0 * soil.carbonate.log_sd)


def test_a_measured_nothing_stays_nothing() -> None:
    soil = build_context(bed(loam(0.0))).soil
    assert soil is not None
    assert soil.carbonate.zero_weight == 1.0
    assert not soil.carbonate.is_possible


@tries(40)
@given(pct=st.floats(1e-6, 30.0), ph=st.floats(6.6, 8.4))
def test_the_need_rises_with_measured_carbonate_and_never_jumps(pct: float, ph: float) -> None:
    needs = [
        need_mmolc_kg(build_context(bed(loam(value, ph=ph))), 5.5) for value in (pct, 1.001 * pct)
    ]
    for p in (0.05, 0.5, 0.95):
        here, more = (need.quantile(p) for need in needs)
        assert here * (1.0 - 1e-4) <= more <= 1.002 * here


def test_a_trace_of_carbonate_needs_what_none_does() -> None:
    none, trace = (need_mmolc_kg(build_context(bed(loam(pct))), 5.5) for pct in (0.0, 1e-7))
    for p in (0.05, 0.5, 0.95):
        assert trace.quantile(p) == pytest.approx(none.quantile(p), rel=1e-5)


def middle_need_mmolc_m2(soil: str, *, aim_ph: float, depth_cm: float = 15.0) -> float:
    context = build_context(
        bed(soil, bed=f'area = "20 m2"\nplanted = false\ndepth = "{depth_cm!r} cm"')
    )
    return need_mmolc_kg(context, aim_ph).quantile(0.5) * context.soil_mass_kg_m2


def mineral(*, ph: float = 6.6, more: str = "") -> str:
    return f'ph = {ph!r}\nph_method = "water 1:1"\ncarbonate_pct = 0\n{more}'


def sulfur_g_m2(soil: str) -> float:
    return 0.01603 * middle_need_mmolc_m2(soil, aim_ph=5.0)


def test_a_sand_rich_in_humus_is_no_longer_a_heavy_one() -> None:
    """Sand from 6.6 to 5.0 once asked 85, 456 and 2,108 g/m2 of sulfur; a peat mix asked 142."""
    needs = [
        sulfur_g_m2(mineral(more=f'texture = "sand"\norganic_matter_pct = {om}'))
        for om in (1, 10, 50)
    ]
    assert needs == sorted(needs)
    assert needs[2] < 6.0 * needs[0]
    mix = sulfur_g_m2('ph = 6.6\nph_method = "water 1:1"\nmedium = "peat mix"')
    assert needs[0] < mix < needs[2]


def test_a_measured_density_is_taken_as_it_is() -> None:
    for medium in ('texture = "sand"\norganic_matter_pct = 30', 'medium = "peat mix"'):
        soil = build_context(
            bed(f'ph = 6.6\nph_method = "water 1:1"\nbulk_density_g_cm3 = 0.55\n{medium}')
        ).soil
        assert soil is not None
        assert soil.bulk_density_g_cm3 == 0.55


def test_a_class_by_name_has_the_density_of_its_row_at_its_usual_humus() -> None:
    for key, texture in load_textures().items():
        soil = build_context(bed(mineral(more=f'texture = "{key}"'))).soil
        assert soil is not None
        assert soil.bulk_density_g_cm3 == pytest.approx(texture.bulk_density_g_cm3)


def test_clay_that_sand_and_silt_leave_is_used() -> None:
    soil = build_context(bed(mineral(more="sand_pct = 40\nsilt_pct = 24"))).soil
    assert soil is not None
    assert soil.clay_pct == pytest.approx(36.0)
    assert soil.texture_name == "clay loam"


STEPS = st.sampled_from(((7.8, 6.5), (6.6, 5.0), (5.5, 4.5), (4.6, 6.5), (5.8, 7.0)))


@tries(50)
@given(om=st.floats(0.0, 99.0), clay=st.floats(0.0, 60.0), sand=st.floats(0.0, 1.0), step=STEPS)
def test_more_humus_never_needs_less_and_nothing_jumps(
    om: float, clay: float, sand: float, step: tuple[float, float]
) -> None:
    shares = f"clay_pct = {clay!r}\nsand_pct = {sand * (100.0 - clay)!r}\n"
    here, more, far = (
        middle_need_mmolc_m2(
            mineral(ph=step[0], more=f"{shares}organic_matter_pct = {value!r}"), aim_ph=step[1]
        )
        for value in (om, om + 0.01, min(om + 10.0, 100.0))
    )
    assert here * (1.0 - 1e-9) <= more <= 1.02 * here
    assert far >= here * (1.0 - 1e-9)


@tries(50)
@given(
    clay=st.floats(0.0, 59.0),
    silt=st.none() | st.floats(0.0, 1.0),
    om=st.none() | st.floats(0.3, 60.0),
    step=STEPS,
)
def test_more_clay_never_needs_less_and_nothing_jumps(
    clay: float, silt: float | None, om: float | None, step: tuple[float, float]
) -> None:
    fixed = "" if om is None else f"organic_matter_pct = {om!r}\n"

    def at(value: float) -> float:
        sand = "" if silt is None else f"sand_pct = {(1.0 - silt) * (100.0 - value)!r}\n"
        soil = mineral(ph=step[0], more=f"clay_pct = {value!r}\n{sand}{fixed}")
        return middle_need_mmolc_m2(soil, aim_ph=step[1])

    here, more, far = at(clay), at(clay + 0.01), at(min(clay + 5.0, 60.0))
    assert here * (1.0 - 1e-9) <= more <= 1.005 * here
    assert far >= here * (1.0 - 1e-9)


@tries(40)
@given(clay=st.floats(0.0, 60.0), om=st.none() | st.floats(0.3, 60.0))
def test_density_and_water_of_shares_never_jump(clay: float, om: float | None) -> None:
    fixed = "" if om is None else f"organic_matter_pct = {om!r}"
    soils = [
        build_context(bed(mineral(more=f"clay_pct = {value!r}\n{fixed}"))).soil
        for value in (clay, clay + 0.01)
    ]
    for name in ("bulk_density_g_cm3", "field_capacity_frac", "wilting_frac", "organic_carbon_pct"):
        one, other = (getattr(soil, name) for soil in soils)
        assert other == pytest.approx(one, abs=5e-4)


@tries(40)
@given(depth=st.floats(5.0, 59.0), density=st.floats(0.2, 1.8), step=STEPS)
def test_need_is_in_proportion_to_depth_and_density(
    depth: float, density: float, step: tuple[float, float]
) -> None:
    def at(depth_cm: float, density_g_cm3: float) -> float:
        more = f'texture = "loam"\nbulk_density_g_cm3 = {density_g_cm3!r}'
        soil = mineral(ph=step[0], more=more)
        return middle_need_mmolc_m2(soil, aim_ph=step[1], depth_cm=depth_cm)

    here = at(depth, density)
    assert at(1.01 * depth, density) == pytest.approx(1.01 * here, rel=1e-9)
    assert at(depth, 1.01 * density) == pytest.approx(1.01 * here, rel=1e-9)
