"""Sizes of units against the registry of an independent library, and against the standards."""

from __future__ import annotations

import pint
import pytest

from loamshift.case.registry import _KINDS, temperature_c, unit_factor
from loamshift.case.spellings import _dimension
from loamshift.errors import InputError

PINT: pint.UnitRegistry[float] = pint.UnitRegistry()
OTHER_NAMES = {"decitonne": "100 kilogram", "acre": "43560 foot ** 2"}
"""What pint calls a unit that has another name, or none, there; its acre is the survey acre."""


def in_pint(unit: str) -> pint.Quantity[float]:
    """One of our units as that library knows it."""
    name = OTHER_NAMES.get(unit, unit).removeprefix("us_")
    return PINT.Quantity(1.0, name) if not name[0].isdigit() else PINT.Quantity(name)


@pytest.mark.parametrize("unit", [unit for sizes in _KINDS for unit in sizes])
def test_a_unit_has_the_size_that_pint_gives_it(unit: str) -> None:
    base = next(
        base for sizes in _KINDS if unit in sizes for base, size in sizes.items() if size == 1.0
    )
    assert unit_factor(unit, base) == pytest.approx(in_pint(unit).to(base).magnitude, rel=1e-12)


@pytest.mark.parametrize(
    ("dimension", "base"),
    [("length", "metre"), ("mass", "gram"), ("volume", "litre"), ("area", "metre ** 2")],
)
def test_every_unit_that_can_be_spelled_has_a_size_of_its_kind(dimension: str, base: str) -> None:
    for unit in set(_dimension(dimension).values()):
        assert unit_factor(unit, base) > 0.0


def test_units_of_different_kinds_are_not_converted() -> None:
    with pytest.raises(InputError, match="acre is not converted to litre"):
        unit_factor("acre", "litre")
    with pytest.raises(InputError, match="furlong"):
        unit_factor("furlong", "metre")


def test_temperatures() -> None:
    assert temperature_c(212.0, "degree_fahrenheit") == pytest.approx(100.0)
    assert temperature_c(21.5, "degree_celsius") == 21.5
