"""Sizes of units against the definitions and figures of the standards."""

from __future__ import annotations

import pint
import pytest

from loamshift.case.registry import temperature_c, unit_factor
from loamshift.case.spellings import _dimension


@pytest.mark.parametrize(
    ("unit", "target", "factor"),
    [
        ("yard", "metre", 0.9144),
        ("pound", "gram", 453.59237),
        ("ounce", "gram", 28.349523125),
        ("short_ton", "kilogram", 907.18474),
        ("long_ton", "kilogram", 1016.0469088),
        ("acre", "metre ** 2", 4046.8564224),
        ("foot ** 3", "litre", 28.316846592),
        ("us_gallon", "litre", 3.785411784),
        ("us_bushel", "litre", 35.23907016688),
        ("imperial_gallon", "litre", 4.54609),
        ("imperial_fluid_ounce", "millilitre", 28.4130625),
        ("us_fluid_ounce", "millilitre", 29.5735295625),
        ("metre ** 3", "litre", 1000.0),
        ("tonne", "decitonne", 10.0),
    ],
)
def test_a_unit_has_the_size_of_its_standard(unit: str, target: str, factor: float) -> None:
    assert unit_factor(unit, target) == pytest.approx(factor, rel=1e-14)


@pytest.mark.parametrize(
    ("dimension", "base"),
    [("length", "metre"), ("mass", "gram"), ("volume", "litre"), ("area", "metre ** 2")],
)
def test_every_unit_that_can_be_spelled_has_a_size_of_its_kind(dimension: str, base: str) -> None:
    for unit in set(_dimension(dimension).values()):
        assert unit_factor(unit, base) > 0.0


def test_units_of_different_kinds_are_not_converted() -> None:
    with pytest.raises(pint.DimensionalityError):
        unit_factor("acre", "litre")
    with pytest.raises(pint.UndefinedUnitError):
        unit_factor("furlong", "metre")


def test_temperatures() -> None:
    assert temperature_c(212.0, "degree_fahrenheit") == pytest.approx(100.0)
    assert temperature_c(21.5, "degree_celsius") == 21.5
