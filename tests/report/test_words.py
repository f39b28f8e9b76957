from __future__ import annotations

from datetime import date

import pytest

from loamshift.domain.answer import Band
from loamshift.report.spelling import spell
from loamshift.report.words import Quantity, Words

UK = Words("uk", "metric")
US = Words("us", "us")


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        (UK.rate(97.6), "98 g/m²"),
        (US.rate(97.6), "2.0 lb/100 sq ft"),
        (US.rate(5.0), "1.65 oz/100 sq ft"),
        (UK.rate(1440.0), "1.45 kg/m²"),
        (UK.rate_oz_yd2(97.6), "2.9 oz/yd²"),
        (UK.amount(2000.0), "2.0 kg"),
        (US.amount(2000.0), "4.4 lb"),
        (US.amount(100.0), "3.5 oz"),
        (UK.area(20.0), "20 m²"),
        (US.area(20.0), "215 sq ft"),
        (UK.depth(15.0), "15 cm"),
        (US.depth(15.0), "6 in"),
        (US.depth(7.5), "3 in"),
        (UK.temperature(10.0), "10°C"),
        (US.temperature(10.0), "50°F"),
        (UK.water_depth(25.4), "25.4 mm"),
        (US.water_depth(25.4), "1 in"),
        (UK.volume(100.0), "100 L"),
        (US.volume(100.0), "26 gal"),
        (UK.ph(5.449), "5.4"),
        (UK.percent(0.62), "62%"),
        (UK.percent(0.034), "3%"),
        (UK.money(12.5, "GBP"), "12.50 GBP"),
        (UK.date(date(2026, 4, 20)), "20 April 2026"),
        (US.date(date(2026, 4, 20)), "April 20, 2026"),
        (UK.listed(["a", "b", "c"]), "a, b and c"),
        (UK.say(1.0, Quantity.WEEKS), "1 week"),
    ],
)
def test_a_number_is_said_as_the_reader_says_it(said: str, expected: str) -> None:
    assert said == expected


def test_both_ends_of_a_band_come_in_one_unit() -> None:
    wide = Band(lo90=300.0, mid=900.0, hi90=1410.0)
    assert UK.band(wide, Quantity.RATE) == "0.30 to 1.4 kg/m²"


def test_a_range_is_said_in_the_unit_its_small_end_can_bear() -> None:
    small = Band(lo90=82.0, mid=250.0, hi90=1050.0)
    assert UK.band(small, Quantity.RATE) == "82 to 1,050 g/m²"
    assert UK.band(Band(lo90=82.0, mid=900.0, hi90=40_000.0), Quantity.RATE).endswith("40 kg/m²")
    assert (
        US.band(Band(lo90=21.0, mid=80.0, hi90=151.0), Quantity.RATE) == "0.43 to 3.1 lb/100 sq ft"
    )


def test_a_band_without_width_says_about() -> None:
    narrow = Band(lo90=98.1, mid=98.2, hi90=98.3)
    assert UK.band(narrow, Quantity.RATE) == "about 98 g/m²"


def test_a_band_of_ph_keeps_one_place() -> None:
    assert UK.band(Band(lo90=4.95, mid=5.3, hi90=5.74), Quantity.PH) == "5.0 to 5.7"


def test_spelling_follows_the_reader_and_keeps_case() -> None:
    text = "Sulfur and aluminium; FERTILISER, 20 metres, elemental sulfur, powder"
    assert spell(text, "us") == (
        "Sulfur and aluminum; FERTILIZER, 20 meters, elemental sulfur, powder"
    )
    assert spell(text, "uk") == (
        "Sulphur and aluminium; FERTILISER, 20 metres, elemental sulphur, powder"
    )


def test_spelling_leaves_instruments_links_and_keys_alone() -> None:
    text = "a pH meter, https://example.org/sulfur/color, dose.sulfur_as_s_g_m2"
    assert spell(text, "uk") == text


@pytest.mark.parametrize("to", ["uk", "us"])
def test_spelling_twice_changes_nothing_more(to: str) -> None:
    text = "sulphur sulfate colour mold ploughed gray neutralising"
    assert spell(spell(text, to), to) == spell(text, to)


def test_an_unknown_reader_is_refused() -> None:
    with pytest.raises(ValueError, match="spelling"):
        Words("de", "metric")
    with pytest.raises(ValueError, match="units"):
        Words("uk", "imperial")


@pytest.mark.parametrize(
    ("key", "called"),
    [
        ("hydrated lime", "hydrated lime"),
        ("alfalfa meal", "lucerne meal"),
        ("elemental sulfur, powder", "sulphur powder"),
        ("elemental sulfur, 100 mesh", "ground sulphur (100 mesh)"),
    ],
)
def test_other_names_in_brackets_are_left_out_wherever_they_stand(key: str, called: str) -> None:
    assert Words("uk", "metric").product(key) == called
