"""Quantities as the trade writes them, to our own units."""

from __future__ import annotations

import math

import pytest

import wording
from loamshift import units
from loamshift.case.amounts import read_amount, read_plain_rate_g_m2, read_rate
from loamshift.case.mend import Mend
from loamshift.case.numbers import number_from, split_number
from loamshift.case.quantities import (
    BULK_DENSITY_G_CM3,
    CEC_CMOLC_KG,
    EC_DS_M,
    ORGANIC_PCT,
    read_area_m2,
    read_depth_cm,
    read_incorporated_cm,
    read_mass_g,
    read_temperature_c,
)
from loamshift.case.registry import unit_factor
from loamshift.case.water_quantities import (
    read_alkalinity_mg_l_as_caco3,
    read_hardness_mg_l_as_caco3,
    read_weekly_water,
)


@pytest.mark.parametrize(
    ("text", "number", "rest"),
    [
        ("20 m2", 20.0, "m2"),
        ("2,5 cm", 2.5, "cm"),
        ("1,000 sq ft", 1000.0, "sq ft"),
        ("1 000 m2", 1000.0, "m2"),
        ("0,125", 0.125, ""),
        ("12,34", 12.34, ""),
        ("1,250.5", 1250.5, ""),
        ("1.250,5", 1250.5, ""),
        ("1.000.000", 1e6, ""),
        ("1/2 cup", 0.5, "cup"),
        ("1 1/2 in", 1.5, "in"),
        ("1-1/2 in", 1.5, "in"),
        ("1½ in", 1.5, "in"),
        ("½ acre", 0.5, "acre"),
        ("half an acre", 0.5, "acre"),
        ("a handful", 1.0, "handful"),
        ("-3", -3.0, ""),
        ("2e3 g", 2000.0, "g"),
        ("2 lb/100 sq ft", 2.0, "lb/100 sq ft"),
    ],
)
def test_numbers_as_typed(text: str, number: float, rest: str) -> None:
    assert split_number(text) == (number, rest)


@pytest.mark.parametrize(
    "text", ["", "m2", "1,23,4", "2-3 cups", "2 to 3", "<5", "1/0", "9" * 60, "1e999", "1,5e999"]
)
def test_unclear_numbers_are_refused(text: str) -> None:
    with pytest.raises(Mend):
        split_number(text)


@pytest.mark.parametrize(
    "value", [True, float("nan"), float("inf"), 10**400, None, [1], {}, "5 m", -1e300]
)
def test_what_is_no_number(value: object) -> None:
    with pytest.raises(Mend):
        number_from(value)


@pytest.mark.parametrize(
    ("text", "area_m2"),
    [
        ("20 m2", 20.0),
        (20, 20.0),
        ("20", 20.0),
        ("20 m²", 20.0),
        ("20 sqm", 20.0),
        ("215 sq ft", 215 * units.SQUARE_FOOT_M2),
        ("215 Sq. Ft.", 215 * units.SQUARE_FOOT_M2),
        ("215 square feet", 215 * units.SQUARE_FOOT_M2),
        ("24 sq yd", 24 * units.SQUARE_YARD_M2),
        ("1 acre", units.ACRE_M2),
        ("0,5 ha", 5000.0),
        ("5 x 4 m", 20.0),
        ("5m × 4m", 20.0),
        ("12 m by 350 cm", 42.0),
        ("10ft x 20ft", 200 * units.SQUARE_FOOT_M2),
        ("10' x 20'", 200 * units.SQUARE_FOOT_M2),
        ("40 cm diameter", math.pi * 0.04),
        ("diameter 40 cm", math.pi * 0.04),
    ],
)
def test_areas(text: object, area_m2: float) -> None:
    assert read_area_m2(text).value == pytest.approx(area_m2, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("20 m", "is a length"),
        ("20 kg", "is a weight"),
        ("20 mw2", "nearest"),
        ("5 x 4", "have no unit"),
        ("0 m2", "greater than zero"),
        ("-5 m2", "greater than zero"),
        ("3 cm2", "less than a small pot"),
        ("20000 ha", "more than 1000 hectares"),
    ],
)
def test_area_faults(text: str, says: str) -> None:
    with pytest.raises(Mend, match=says):
        read_area_m2(text)


@pytest.mark.parametrize(
    ("text", "depth_cm"),
    [
        ("6 in", 15.24),
        ('6"', 15.24),
        ("15 cm", 15.0),
        (15, 15.0),
        ("0.5 ft", 15.24),
        ("150 mm", 15),
    ],
)
def test_depths(text: object, depth_cm: float) -> None:
    assert read_depth_cm(text).value == pytest.approx(depth_cm, rel=1e-12)


def test_a_depth_over_a_metre_names_the_likely_slip() -> None:
    with pytest.raises(Mend, match='Did you mean "15 cm"'):
        read_depth_cm(150)


def test_worked_in_may_be_the_surface() -> None:
    assert read_incorporated_cm("surface").value == 0.0
    assert read_incorporated_cm(0).value == 0.0
    assert read_incorporated_cm("4 in").value == pytest.approx(10.16)


@pytest.mark.parametrize(
    ("text", "mass_g"),
    [("25 kg", 25000.0), ("50 lb", 50 * units.POUND_G), ("8 oz", 8 * units.OUNCE_G), (600, 600.0)],
)
def test_masses(text: object, mass_g: float) -> None:
    assert read_mass_g(text).value == pytest.approx(mass_g, rel=1e-12)


def test_temperatures() -> None:
    assert read_temperature_c("50 F") == 10.0
    assert read_temperature_c("12 °C") == 12.0
    assert read_temperature_c(-3) == -3.0
    with pytest.raises(Mend, match="“F” after"):
        read_temperature_c(70)


@pytest.mark.parametrize(
    ("text", "alkalinity"),
    [
        ("180 mg/L CaCO3", 180.0),
        ("180 mg/l as CaCO3", 180.0),
        ("180 mg CaCO3/L", 180.0),
        ("180,5 mg/L (CaCO3)", 180.5),
        (180, 180.0),
        ("0", 0.0),
        ("220 mg/L HCO3", 220 * 50.045 / 61.017),
        ("220 mg/L bicarbonate", 220 * 50.045 / 61.017),
        ("3.6 meq/L", 3.6 * 50.045),
        ("3.6 mmol/L HCO3", 3.6 * 50.045),
        ("1.8 mmol/L CaCO3", 3.6 * 50.045),
        ("10 dKH", 178.48),
    ],
)
def test_alkalinities(text: object, alkalinity: float) -> None:
    assert read_alkalinity_mg_l_as_caco3(text).value == pytest.approx(alkalinity, rel=1e-12)


@pytest.mark.parametrize("text", ["12 dH", "12 °dH", "20 Clark", "17 gpg", "20 fH", "12 dGH"])
def test_hardness_is_never_alkalinity(text: str) -> None:
    with pytest.raises(Mend, match="is a hardness"):
        read_alkalinity_mg_l_as_caco3(text)
    assert read_hardness_mg_l_as_caco3(text).value > 100.0


def test_ppm_without_a_basis_is_told() -> None:
    read = read_alkalinity_mg_l_as_caco3("180 ppm")
    assert read.value == 180.0
    assert "CaCO3" in wording.read(read.notes[0])


@pytest.mark.parametrize("text", ["3.6 mmol/L", "180 g/L", "-1", "250000 mg/L CaCO3", "2 m"])
def test_alkalinity_faults(text: str) -> None:
    with pytest.raises(Mend):
        read_alkalinity_mg_l_as_caco3(text)


@pytest.mark.parametrize(
    ("text", "value", "per"),
    [
        ("550 L", 550.0, "bed"),
        (550, 550.0, "bed"),
        ("25 mm", 25.0, "area"),
        ("1 in/week", 25.4, "area"),
        ("20 L/m2", 20.0, "area"),
        ("140 gal", 140 * units.US_GALLON_L, "bed"),
        ("140 UK gal", 140 * 4.54609, "bed"),
        ("10 L per plant", 10.0, "plant"),
        ("2 m3 a week", 2000.0, "bed"),
    ],
)
def test_weekly_water(text: object, value: float, per: str) -> None:
    water = read_weekly_water(text)
    assert water.value == pytest.approx(value, rel=1e-12)
    assert water.per == per


@pytest.mark.parametrize(
    ("text", "rate_g_m2"),
    [
        ("100 g/m2", 100.0),
        (100, 100.0),
        ("100 g m-2", 100.0),
        ("120 kg/ha", 12.0),
        ("100 kg ha-1", 10.0),
        ("2 t/ha", 200.0),
        ("5 oz/yd2", units.g_m2_from_oz_yd2(5.0)),
        ("5 oz per square yard", units.g_m2_from_oz_yd2(5.0)),
        ("2 lb/100 sq ft", units.g_m2_from_lb_100ft2(2.0)),
        ("2 lbs per 100 square feet", units.g_m2_from_lb_100ft2(2.0)),
        ("20 lb per 1000 sq ft", units.g_m2_from_lb_100ft2(2.0)),
        ("400 lb/acre", units.g_m2_from_lb_acre(400.0)),
        ("1 short ton/acre", units.g_m2_from_lb_acre(2000.0)),
        ("2 kg/10 m2", 200.0),
    ],
)
def test_rates(text: object, rate_g_m2: float) -> None:
    amount = read_rate(text)
    assert (amount.kind, amount.per) == ("mass", "area")
    assert amount.value == pytest.approx(rate_g_m2, rel=1e-12)


def test_plain_tons_are_told() -> None:
    short = read_rate("1 ton/acre")
    assert short.value == pytest.approx(units.g_m2_from_lb_acre(2000.0))
    assert "2000 lb" in wording.read(short.notes[0])
    metric = read_rate("2 tons/ha")
    assert metric.value == pytest.approx(200.0)
    assert "1000 kg" in wording.read(metric.notes[0])
    for text in ("1 ton", "3 cwt"):
        with pytest.raises(Mend, match="different weights"):
            read_amount(text)


def test_cups_and_handfuls_carry_their_spread() -> None:
    cups = read_amount("3 US cups")
    assert (cups.kind, cups.per, cups.rough) == ("volume", "bed", True)
    assert cups.value == pytest.approx(3 * units.US_CUP_L, rel=0.01)
    handful = read_rate("1 handful/m2")
    assert (handful.kind, handful.per) == ("mass", "area")
    assert handful.low < handful.value < handful.high
    assert read_rate("half a handful per m2").value == pytest.approx(handful.value / 2.0)


def test_a_rate_must_say_per_what() -> None:
    with pytest.raises(Mend, match="per what") as caught:
        read_rate("600 g")
    assert 'amount = "600 g"' in caught.value.mend


def test_per_plant_and_per_layer() -> None:
    assert read_rate("30 g per plant").per == "plant"
    assert read_rate("30 g/bush").per == "plant"
    assert read_amount("30 g each").per == "plant"
    assert read_rate("5 g per pot").per == "pot"
    layer = read_rate("5 cm")
    assert (layer.kind, layer.per, layer.value) == ("volume", "area", 50.0)


@pytest.mark.parametrize("text", ["5 lb/1000", "3 boxes", "0 g/m2", "-3 g/m2", "30 g/m2/year"])
def test_rate_faults(text: str) -> None:
    with pytest.raises(Mend):
        read_rate(text)


def test_a_laboratory_may_print_no_lime_at_all() -> None:
    assert read_plain_rate_g_m2(0) == 0.0
    assert read_plain_rate_g_m2("0 t/ha") == 0.0
    with pytest.raises(Mend):
        read_plain_rate_g_m2("1 handful/m2")


def test_laboratory_scales() -> None:
    assert EC_DS_M.read("250 µS/cm") == pytest.approx(0.25)
    assert EC_DS_M.read("40 mS/m") == pytest.approx(0.4)
    assert CEC_CMOLC_KG.read("120 mmolc/kg") == pytest.approx(12.0)
    assert CEC_CMOLC_KG.read("12 meq/100g") == 12.0
    assert BULK_DENSITY_G_CM3.read("1300 kg/m3") == pytest.approx(1.3)
    assert ORGANIC_PCT.read("35 g/kg") == pytest.approx(3.5)
    with pytest.raises(Mend, match="uS/cm"):
        EC_DS_M.read(250)
    with pytest.raises(Mend, match="mmolc/kg"):
        CEC_CMOLC_KG.read(180)


def test_registry_agrees_with_the_exact_factors_of_the_house() -> None:
    assert unit_factor("pound", "gram") == units.POUND_G
    assert unit_factor("ounce", "gram") == pytest.approx(units.OUNCE_G, rel=1e-15)
    assert unit_factor("acre", "metre ** 2") == pytest.approx(units.ACRE_M2, rel=1e-15)
    assert unit_factor("us_gallon", "litre") == pytest.approx(units.US_GALLON_L, rel=1e-14)
    assert unit_factor("us_fluid_ounce", "millilitre") == pytest.approx(units.US_FLUID_OUNCE_ML)
