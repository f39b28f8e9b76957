from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from build_soils import (
    curve_of,
    saxton_rawls_field_capacity,
    saxton_rawls_wilting,
    straight_line,
)

from loamshift.core.topsoil import mineral_density_from_bulk_g_cm3, water_contents_frac
from loamshift.domain.names import match_name
from loamshift.domain.ph import PhMethod
from loamshift.domain.soil import Fizz, FizzAcid, Medium
from loamshift.domain.texture import texture_class_from_fractions
from loamshift.errors import OutOfRangeError
from loamshift.tables.ph_methods import default_ph_conversion, load_ph_conversions
from loamshift.tables.soils import (
    carbonate_belief,
    load_fizz,
    load_media,
    load_textures,
    soil_water_parameters,
    topsoil_parameters,
)

TEXTURES = load_textures()

# Sand and clay [%], field capacity and wilting point [%] at 2.5 % organic matter as printed; read
# on a page that carries table 3 of Saxton and Rawls 2006. The page was cut off before the field
# capacity of sandy clay, so that class and clay are not here.
PRINTED = {
    "sand": (88, 5, 10, 5),
    "loamy sand": (80, 5, 12, 5),
    "sandy loam": (65, 10, 18, 8),
    "loam": (40, 20, 28, 14),
    "silt loam": (20, 15, 31, 11),
    "silt": (10, 5, 30, 6),
    "sandy clay loam": (60, 25, 27, 17),
    "clay loam": (30, 35, 36, 22),
    "silty clay loam": (10, 35, 38, 22),
    "silty clay": (10, 45, 41, 27),
}


def test_there_are_twelve_classes() -> None:
    assert len(TEXTURES) == 12


@pytest.mark.parametrize("key", list(TEXTURES))
def test_class_centres_lie_in_their_class(key: str) -> None:
    texture = TEXTURES[key]
    found = texture_class_from_fractions(sand_pct=texture.sand_pct, clay_pct=texture.clay_pct)
    assert found == key


@pytest.mark.parametrize("key", list(PRINTED))
def test_water_equations_give_the_printed_class_values(key: str) -> None:
    sand_pct, clay_pct, capacity_pct, wilting_pct = PRINTED[key]
    sand, clay = sand_pct / 100.0, clay_pct / 100.0
    capacity_frac = saxton_rawls_field_capacity(sand, clay, 2.5)
    wilting_frac = saxton_rawls_wilting(sand, clay, 2.5)
    assert 100.0 * capacity_frac == pytest.approx(capacity_pct, abs=0.5)
    assert 100.0 * wilting_frac == pytest.approx(wilting_pct, abs=0.5)


@pytest.mark.parametrize("key", list(PRINTED))
def test_class_centres_are_the_printed_ones(key: str) -> None:
    assert (TEXTURES[key].sand_pct, TEXTURES[key].clay_pct) == PRINTED[key][:2]


@pytest.mark.parametrize("key", list(TEXTURES))
def test_texture_values_are_sensible(key: str) -> None:
    texture = TEXTURES[key]
    pores = 1.0 - texture.bulk_density_g_cm3 / 2.65
    assert 0.0 < texture.wilting_frac < texture.field_capacity_frac < pores
    assert 0.5 <= texture.organic_carbon_pct <= 3.0


@pytest.mark.parametrize(
    ("word", "key"),
    [
        *(("sandy", "loamy sand"), ("clayey", "clay"), ("chalky loam", "loam")),
        *(("Heavy Clay", "clay"), ("loamy", "loam"), ("silty loam", "silt loam")),
        *(("clay", "clay"), ("sandy loam", "sandy loam"), ("heavy loam", "clay loam")),
    ],
)
def test_words_for_textures(word: str, key: str) -> None:
    assert match_name(word, {k: t.synonyms for k, t in TEXTURES.items()}, kind="texture") == key


def test_media() -> None:
    media = load_media()
    assert set(media) == set(Medium) - {Medium.MINERAL}
    peat, bark = media[Medium.PEAT_MIX], media[Medium.BARK_MIX]
    assert 10.0**peat.log10_k_mean == pytest.approx(0.63, abs=1e-4)
    assert peat.log10_k_sd == 0.12
    assert bark.log10_k_sd > peat.log10_k_sd


def test_coir_resists_by_its_exchange_capacity_beside_that_of_peat() -> None:
    """Coir dust 39 to 60 cmolc/kg (Evans 1996), moss peat 108 to 162 (Rippy and Nelson 2007)."""
    media = load_media()
    peat, coir = media[Medium.PEAT_MIX], media[Medium.COIR_MIX]
    ratio = 10.0 ** (coir.log10_k_mean - peat.log10_k_mean)
    assert ratio == pytest.approx((39 + 60) / (108 + 162), abs=0.01)
    assert 39 / 162 < ratio < 60 / 108
    assert 0.04 <= coir.bulk_density_g_cm3 <= 0.08


def test_a_peat_free_mix_is_known_least() -> None:
    media = load_media()
    assert max(media.values(), key=lambda one: one.log10_k_sd).medium is Medium.PEAT_FREE_MIX


@pytest.mark.parametrize("acid", [*FizzAcid, None])
@pytest.mark.parametrize("fizz", [*Fizz, None])
def test_every_finding_at_every_ph_has_one_belief(fizz: Fizz | None, acid: FizzAcid | None) -> None:
    for step in range(20, 111):
        belief = carbonate_belief(fizz, acid, step / 10.0)
        assert 0.0 <= belief.zero_weight <= 1.0
        assert not belief.measured
        assert belief.basis
        if belief.is_possible:
            assert 0.0 < belief.low_pct < belief.high_pct <= 60.0


def test_no_fizz_is_not_zero_above_6_5() -> None:
    assert not carbonate_belief(Fizz.NONE, FizzAcid.HCL, 6.4).is_possible
    assert carbonate_belief(Fizz.NONE, FizzAcid.HCL, 6.6).is_possible
    none = carbonate_belief(Fizz.NONE, FizzAcid.HCL, 6.75)
    assert (none.zero_weight, none.low_pct, none.high_pct) == (0.5, 0.05, 0.5)
    assert carbonate_belief(Fizz.NONE, FizzAcid.VINEGAR, 7.0).high_pct == 1.0


@pytest.mark.parametrize("fizz", [Fizz.SLIGHT, Fizz.MODERATE, Fizz.STRONG])
def test_the_same_fizz_with_vinegar_means_more_lime(fizz: Fizz) -> None:
    strong = carbonate_belief(fizz, FizzAcid.HCL, 7.8)
    vinegar = carbonate_belief(fizz, FizzAcid.VINEGAR, 7.8)
    unnamed = carbonate_belief(fizz, None, 7.8)
    middle = math.sqrt(strong.low_pct * strong.high_pct)
    assert vinegar.low_pct == pytest.approx(middle, rel=0.02)
    assert vinegar.high_pct > strong.high_pct
    assert (unnamed.low_pct, unnamed.high_pct) == (strong.low_pct, vinegar.high_pct)


def test_where_nobody_tried_doubt_rises_with_ph() -> None:
    weights = [carbonate_belief(None, None, ph).zero_weight for ph in (6.0, 6.7, 7.2, 7.8)]
    assert weights == sorted(weights, reverse=True)
    assert weights[0] == 1.0
    assert weights[-1] == 0.25
    assert carbonate_belief(None, None, 7.75).high_pct == 10.0


@pytest.mark.parametrize("fizz", [None, Fizz.NONE])
def test_two_readings_that_cannot_be_told_apart_lead_to_like_beliefs(fizz: Fizz | None) -> None:
    """A tenth of a pH moves the weight by a fifth at most, and the bounds by half."""
    beliefs = [carbonate_belief(fizz, None, 6.2 + 0.1 * step) for step in range(20)]
    possible = [belief for belief in beliefs if belief.is_possible]
    for near, far in pairwise(beliefs):
        assert 0.0 <= near.zero_weight - far.zero_weight < 0.21
    for near, far in pairwise(possible):
        assert near.high_pct <= far.high_pct <= 1.5 * near.high_pct


def test_impossible_ph_is_refused() -> None:
    with pytest.raises(OutOfRangeError):
        carbonate_belief(Fizz.NONE, FizzAcid.HCL, 72.0)


def test_fizz_rows_are_all_reachable() -> None:
    assert all(rule.ph_low < rule.ph_high for rule in load_fizz())


@pytest.mark.parametrize("method", list(PhMethod))
def test_each_method_has_one_default(method: PhMethod) -> None:
    defaults = [c for c in load_ph_conversions() if c.default and c.method is method]
    assert defaults == [default_ph_conversion(method)]
    assert defaults[0].sd >= 0.1
    assert defaults[0].to_method.is_water


def test_rough_methods_are_less_sure_than_any_laboratory_method() -> None:
    rough = [default_ph_conversion(m).sd for m in PhMethod if m.is_rough]
    sure = [default_ph_conversion(m).sd for m in PhMethod if not m.is_rough]
    assert min(rough) > max(sure)


@pytest.mark.parametrize("conversion", load_ph_conversions(), ids=lambda c: f"{c.method} {c.note}")
def test_conversions_stay_near_the_reading(conversion: object) -> None:
    from loamshift.domain.ph import PhConversion

    assert isinstance(conversion, PhConversion)
    assert conversion.ph_low < conversion.ph_high
    assert 0.5 < conversion.slope < 1.5
    middle = 0.5 * (conversion.ph_low + conversion.ph_high)
    shift = conversion.intercept + (conversion.slope - 1.0) * middle
    assert (0.2 < shift < 1.6) if conversion.method.is_salt else (abs(shift) < 0.25)


def test_turned_round_lines_lead_back_to_what_was_printed() -> None:
    takamoto = next(
        c
        for c in load_ph_conversions()
        if c.source_key == "takamoto-2023" and c.method is PhMethod.WATER_1_1
    )
    water_2_5 = 6.0
    printed_1_1 = 1.10 * water_2_5 - 0.69
    assert takamoto.intercept + takamoto.slope * printed_1_1 == pytest.approx(water_2_5, abs=1e-3)


@pytest.mark.parametrize(
    ("form", "numbers", "water", "salt"),
    [
        ("log", [-1.95, 11.58], -1.95 + 11.58 * math.log10(5.0), 5.0),
        ("exp-inverse", [1.5882, 0.1859], 6.0, 1.5882 * math.exp(0.1859 * 6.0)),
        (
            "quadratic-inverse",
            [4.338, -1.0512, 0.1963],
            6.0,
            0.1963 * 36.0 - 1.0512 * 6.0 + 4.338,
        ),
    ],
)
def test_printed_curves(form: str, numbers: list[float], water: float, salt: float) -> None:
    curve, _ = curve_of(form, numbers)
    assert curve(salt) == pytest.approx(water, abs=1e-9)


def test_a_line_through_a_line_misfits_nothing() -> None:
    intercept, slope, misfit = straight_line(lambda x: 1.5 + 0.8 * x, 4.0, 7.0)
    assert (intercept, slope) == pytest.approx((1.5, 0.8))
    assert misfit == pytest.approx(0.0, abs=1e-12)


def test_kcl_default_lies_within_the_misfit_of_the_printed_curve() -> None:
    default = default_ph_conversion(PhMethod.KCL)
    for step in range(40, 71):
        ph = step / 10.0
        printed = -1.95 + 11.58 * math.log10(ph) - 0.1
        assert default.intercept + default.slope * ph == pytest.approx(printed, abs=0.16)


def test_planes_and_line_are_those_through_the_classes() -> None:
    """Rows of topic ``topsoil`` that are our arithmetic from the table of classes."""
    params = topsoil_parameters()
    classes = list(TEXTURES.values())
    sand = np.array([t.sand_pct for t in classes])
    clay = np.array([t.clay_pct for t in classes])
    plane = np.column_stack([np.ones_like(sand), sand, clay])
    mineral = [
        mineral_density_from_bulk_g_cm3(
            bulk_density_g_cm3=t.bulk_density_g_cm3,
            organic_matter_pct=1.724 * t.organic_carbon_pct,
            params=params,
        )
        for t in classes
    ]
    carbon = [t.organic_carbon_pct for t in classes]
    for values, rows, misfit in (
        (
            mineral,
            (
                params.mineral_density_g_cm3,
                params.mineral_density_per_sand,
                params.mineral_density_per_clay,
            ),
            0.03,
        ),
        (carbon, (params.carbon_pct, params.carbon_per_sand, params.carbon_per_clay), 0.1),
    ):
        fitted = np.linalg.lstsq(plane, np.array(values), rcond=None)[0]
        assert rows == pytest.approx(fitted, rel=0.005)
        assert np.abs(plane @ np.array(rows) - values).max() < misfit
    line = np.linalg.lstsq(plane[:, [0, 2]], sand, rcond=None)[0]
    assert (params.sand_pct, params.sand_per_clay) == pytest.approx(line, rel=1e-3)


@pytest.mark.parametrize("key", list(TEXTURES))
def test_water_of_a_class_is_that_of_its_centre(key: str) -> None:
    texture = TEXTURES[key]
    field, wilting = water_contents_frac(
        sand_pct=texture.sand_pct,
        clay_pct=texture.clay_pct,
        organic_matter_pct=1.724 * texture.organic_carbon_pct,
        params=soil_water_parameters(),
    )
    assert field == pytest.approx(texture.field_capacity_frac, abs=5e-4)
    assert wilting == pytest.approx(texture.wilting_frac, abs=5e-4)
