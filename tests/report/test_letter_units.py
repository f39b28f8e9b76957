from __future__ import annotations

import re

import pytest

from loamshift.report.letter_units import in_reader_units
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.rules import load_cautions

UK = Words("uk", "metric")
US = Words("us", "us")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("put on 98 g/m2 at once", "put on 2.0 lb/100 ft² at once"),
        ("60 to 140 g/m² of it", "1.25 to 2.9 lb/100 ft² of it"),
        ("34 g of sulfur per m² a year", "0.70 lb of sulfur per 100 ft² a year"),
        ("4.9 g per m² in one dose", "1.6 oz/100 ft² in one dose"),
        ("15 kg/m² of sulfur", "310 lb/100 ft² of sulfur"),
        ("the top 15 cm.", "the top 6 in."),
        ("some 254 mm of rain", "some 10 in of rain"),
        ("at 13 °C it reacts", "at 55 °F it reacts"),
        ("a US cup holds about 180 g, weigh it", "a US cup holds about 6.3 oz, weigh it"),
        (
            "in 500 litres per m² lays down 50 g of lime per m², and 16 g of sulfur undoes it.",
            "in 12.5 gal per ft² lays down 1.0 lb of lime per 100 ft², and 0.33 lb of sulfur "
            "undoes it.",
        ),
        ("98 g/m², that is 2 kg for the bed", "2.0 lb/100 ft², that is 4.4 lb for the bed"),
        (
            "20 g of it per m² here. A bag of 500 g there",
            "0.41 lb of it per 100 ft² here. A bag of 1.1 lb there",
        ),
        ("on or after 18 August 2026", "on or after August 18, 2026"),
    ],
)
def test_a_metric_text_for_a_reader_in_us_units(text: str, said: str) -> None:
    assert in_reader_units(text, US) == said


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("10 lb/100 ft² of sulfur", "490 g/m² of sulfur"),
        ("2 to 4 lb/100 ft²", "98 to 195 g/m²"),
        ("a bag of 5 lb", "a bag of 2.3 kg"),
        ("above 50 °F", "above 10 °C"),
        ("after September 19, 2027 reads", "after 19 September 2027 reads"),
    ],
)
def test_a_us_text_for_a_metric_reader(text: str, said: str) -> None:
    assert in_reader_units(text, UK) == said


@pytest.mark.parametrize(
    "text",
    [
        "about 625 g of sulfur per m² in the top 15 cm",
        "18 August 2026",
        "pH 5.5 to 6.0, 12 % free lime, 180 mg/L CaCO3, 1.5 dS/m, 2 to 5 ppm",
        "mind g against kg, and per plant against per m²",
    ],
)
def test_what_suits_the_reader_already_stays(text: str) -> None:
    assert in_reader_units(text, UK) == text


@pytest.mark.parametrize(
    "text", ["pH 5.5 to 6.0", "12 % free lime", "180 mg/L CaCO3", "1.5 dS/m", "5 gal", "3 cups"]
)
def test_figures_of_no_size_stay_for_everybody(text: str) -> None:
    assert in_reader_units(text, UK) == in_reader_units(text, US) == text


def test_a_day_that_is_none_is_left() -> None:
    assert in_reader_units("31 February 2026", US) == "31 February 2026"


def test_no_caution_keeps_a_metric_figure_for_a_us_reader() -> None:
    metric = re.compile(r"\d (?:g|kg|cm|mm|litres?)\b|/m²|per m² a")
    assert any(metric.search(say(rule.text, UK)) for rule in load_cautions().values())
    for rule in load_cautions().values():
        said = say(rule.text, US)
        assert not metric.search(said), said
