"""Each reader gets the figures directly in their own units, never through a rounded text."""

from __future__ import annotations

import re
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift import units
from loamshift.domain.message import (
    Measure,
    Quantity,
    amount,
    depth,
    message,
    rate,
    temperature,
    times,
)
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.rules import load_cautions

UK = Words("uk", "metric")
US = Words("us", "us")


def figure(text: str) -> float:
    found = re.match(r"−?[\d,]*\.?\d+", text)
    assert found is not None, text
    return float(found.group().replace(",", "").replace("−", "-"))


@given(st.floats(0.01, 1e6))
def test_a_weight_is_as_near_as_its_digits_in_either_country(grams: float) -> None:
    sizes = {" t": 1e6, " kg": 1e3, " g": 1.0, " lb": units.POUND_G, " oz": units.POUND_G / 16.0}
    for words in (UK, US):
        said = words.measure(amount(grams))
        size = next(size for unit, size in sizes.items() if said.endswith(unit))
        assert figure(said) * size == pytest.approx(grams, rel=0.06), said


@given(st.floats(5.0, 100.0))
def test_a_depth_is_within_half_an_inch(depth_cm: float) -> None:
    assert abs(figure(US.measure(depth(depth_cm))) * 2.54 - depth_cm) <= 0.25 * 2.54 + 1e-9


@given(st.floats(-40.0, 60.0))
def test_a_temperature_is_within_half_a_degree(temp_c: float) -> None:
    said = US.measure(temperature(temp_c))
    assert abs(figure(said) - (temp_c * 9.0 / 5.0 + 32.0)) <= 0.5 + 1e-9 and said.endswith("°F")


@given(st.floats(0.1, 5000.0), st.floats(1.05, 20.0))
def test_a_range_says_its_unit_once(low_g_m2: float, factor: float) -> None:
    for words in (UK, US):
        said = words.measure(rate(low_g_m2, high=factor * low_g_m2))
        assert len(re.findall(r"/m²|/100 sq ft", said)) == 1, said


def test_a_ratio_has_no_decimal_from_ten_on() -> None:
    said = [UK.measure(times(ratio)) for ratio in (1.24, 9.94, 9.96, 17.4)]
    assert said == ["1.2 times", "9.9 times", "10 times", "17 times"]


def test_a_figure_that_has_no_size_is_the_same_for_everybody() -> None:
    for kind in (Quantity.PH, Quantity.PERCENT, Quantity.EC, Quantity.ALKALINITY, Quantity.NUMBER):
        assert UK.measure(Measure(kind, 6.0)) == US.measure(Measure(kind, 6.0))


def test_a_date_stands_in_the_order_of_the_reader() -> None:
    said = message("changes-best", ph=Measure(Quantity.PH, 6.5), day=date(2026, 8, 18))
    assert say(said, UK) == "6.5 on 18 August 2026"
    assert say(said, US) == "6.5 on August 18, 2026"


def test_no_caution_keeps_a_metric_figure_for_a_us_reader() -> None:
    metric = re.compile(r"\d (?:g|kg|cm|mm|litres?)\b|/m²|per m² a")
    assert any(metric.search(say(rule.text, UK)) for rule in load_cautions().values())
    for rule in load_cautions().values():
        said = say(rule.text, US)
        assert not metric.search(said), said
