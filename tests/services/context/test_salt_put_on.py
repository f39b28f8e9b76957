"""Salt of what was put on lately, against what its plants bear."""

from __future__ import annotations

from datetime import date

import pytest

from loamshift.case.read import parse_case
from loamshift.services.context.build_context import build_context
from loamshift.services.context.salt_put_on import SaltPutOn, too_much_salt
from loamshift.tables.materials import load_materials

BED = """
case = 1
today = {today}
[place]
name = "Manchester"
[bed]
area = "4 m2"
planted = true
{bed}
[soil]
ph = 5.4
ph_method = "water 1:2.5"
texture = "sandy loam"
{soil}
[aim]
plant = "{plant}"
"""
PUT_ON = """
[[applied]]
date = {day}
material = "{material}"
rate = "{rate} g/m2"
"""


def salt(
    *put_on: tuple[str, str, float],
    today: str = "2026-06-20",
    plant: str = "hydrangea (blue flowers)",
    soil: str = "",
    bed: str = "",
) -> SaltPutOn | None:
    text = BED.format(today=today, plant=plant, soil=soil, bed=bed)
    for day, material, rate in put_on:
        text += PUT_ON.format(day=day, material=material, rate=rate)
    return too_much_salt(build_context(parse_case(text)))


@pytest.mark.parametrize(
    ("material", "rate"),
    [
        ("aluminium sulfate", 440.0),
        ("iron sulfate", 600.0),
        ("ammonium sulfate", 300.0),
        ("potassium sulfate", 300.0),
        ("epsom salt", 400.0),
        ("potassium chloride", 250.0),
    ],
)
def test_every_salt_that_dissolves_counts(material: str, rate: float) -> None:
    found = salt(("2026-06-15", material, rate))
    assert found is not None
    assert found.ece_ds_m > found.limit_ds_m
    assert found.last_on == date(2026, 6, 15)
    names = {m.key for m in load_materials().values()}
    assert set(found.materials) <= names


@pytest.mark.parametrize(
    ("material", "rate"),
    [
        ("aluminium sulfate", 240.0),  # within its printed limit
        ("iron sulfate", 20.0),
        ("epsom salt", 30.0),
        ("gypsum", 1000.0),  # dissolves only so far
        ("elemental sulfur, powder", 400.0),  # an overdose of acid, not of salt
        ("ground limestone, calcitic", 900.0),
    ],
)
def test_what_is_within_its_limit_or_does_not_dissolve_does_not(material: str, rate: float) -> None:
    assert salt(("2026-06-15", material, rate)) is None


def test_three_small_drenches_are_one() -> None:
    days = ("2026-06-01", "2026-06-08", "2026-06-15")
    assert salt((days[0], "aluminium sulfate", 150.0)) is None
    found = salt(*((day, "aluminium sulfate", 150.0) for day in days))
    assert found is not None and found.load is not None
    assert found.load.times == pytest.approx(450.0 / 244.12, rel=1e-3)


def test_a_wet_winter_washes_it_out() -> None:
    """Manchester drains some hundreds of millimetres between October and April."""
    put_on = ("2025-10-05", "aluminium sulfate", 440.0)
    assert salt(put_on, today="2025-10-15") is not None
    assert salt(put_on, today="2026-04-20") is None


def test_a_test_of_salt_taken_since_then_speaks_for_itself() -> None:
    put_on = ("2026-06-05", "aluminium sulfate", 440.0)
    tested = 'ec_ds_m = 1.0\nec_method = "paste"\nsampled = {}'
    assert salt(put_on, soil=tested.format("2026-06-18")) is None
    assert salt(put_on, soil=tested.format("2026-06-01")) is not None


def test_plants_that_dislike_lime_bear_less() -> None:
    put_on = ("2026-06-15", "epsom salt", 150.0)
    assert salt(put_on, plant="cabbage") is None
    assert salt(put_on, plant="highbush blueberry") is not None
