from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from loamshift.case.read import read_case
from loamshift.report.letter_options import half_said, ways
from loamshift.report.words import Words
from loamshift.report.worth_price import worth_price
from loamshift.services.advise import LookAhead, advise
from loamshift.services.context.build_context import build_context
from loamshift.services.products.prices import reacting_share_by
from loamshift.tables.model import lime_parameters
from report.answers import ALL
from report.sections import said, table, titles

UK = Words("uk", "metric")
US = Words("us", "us")
EXAMPLES = Path(__file__).parents[2] / "examples"


def test_at_most_six_products_and_no_empty_column() -> None:
    answer, case = ALL["effort"]()
    assert len(answer.options) == 7
    section = ways(answer, case, words=UK)
    made = table(section)
    assert section is not None and section.heading == "Products that would do it"
    assert made.caption == "Equivalent amounts" and len(made.rows) == 6
    assert titles(made) == (
        "product", "rate, as bought", "for the bed", "cost, USD",
        "per kg of sulphur's worth of acid, USD",
        "half has reacted after", "rise in salt (ECe)",
    )  # fmt: skip
    price = answer.options[0].cost_per_mol_acid
    assert price is not None and float(made.rows[0][4]) == pytest.approx(price / 0.01603, abs=0.005)
    free = tuple(replace(o, cost=None, cost_per_mol_acid=None) for o in answer.options)
    section = ways(replace(answer, options=free), case, words=UK)
    assert "cost" not in " ".join(titles(table(section))) and "worth" not in said(section)


@pytest.mark.parametrize("name", ["effort", "go-lime"])
def test_without_products_there_is_no_table(name: str) -> None:
    answer, case = ALL[name]()
    assert ways(answer, case, words=UK) is not None
    assert ways(replace(answer, options=()), case, words=UK) is None


def test_two_currencies_stand_with_their_prices() -> None:
    answer, case = ALL["effort"]()
    priced = [option for option in answer.options if option.cost is not None]
    assert len(priced) >= 2
    options = (replace(priced[0], currency="EUR"), *priced[1:])
    made = table(ways(replace(answer, options=options), case, words=UK))
    assert "cost" in titles(made)
    column = titles(made).index("cost")
    assert made.rows[0][column].endswith(" EUR") and made.rows[1][column].endswith(" USD")


@pytest.mark.parametrize(
    ("weeks", "text"),
    [
        (None, "over 3 years"),
        (0.3, "days"),
        (1.0, "about 1 week"),
        (14.4, "about 14 weeks"),
        (154.0, "about 3 years"),
    ],
)
def test_how_long_half_takes(weeks: float | None, text: str) -> None:
    answer, case = ALL["effort"]()
    first = replace(answer.options[0], weeks_to_half=weeks)
    section = ways(replace(answer, options=(first, *answer.options[1:])), case, words=UK)
    made = table(section)
    assert made.rows[0][titles(made).index("half has reacted after")] == text
    assert half_said(None, UK) == "over 3 years"


def test_without_any_time_there_is_no_column_for_it() -> None:
    answer, case = ALL["effort"]()
    options = tuple(replace(option, weeks_to_half=None) for option in answer.options)
    made = table(ways(replace(answer, options=options), case, words=UK))
    assert "half has reacted after" not in titles(made)


def test_lime_is_compared_by_the_weight_the_reader_buys() -> None:
    answer, case = ALL["go-lime"]()
    uk = table(ways(answer, case, words=UK))
    us = table(ways(answer, case, words=US))
    price_kg = answer.options[0].cost_per_kg_caco3_eq
    assert price_kg is not None
    spread_kg = price_kg * lime_parameters().field_efficiency
    column = titles(uk).index("per kg of pure lime's worth, USD")
    assert titles(us)[column] == "per lb of pure lime's worth, USD"
    assert float(uk.rows[0][column]) == pytest.approx(spread_kg, abs=0.005)
    assert float(us.rows[0][column]) == pytest.approx(0.4536 * spread_kg, abs=0.005)


def test_cost_is_the_price_of_pure_lime_times_the_pure_lime_bought() -> None:
    """Pure lime's worth is what is spread, less grains too coarse to dissolve in three years."""
    case = read_case(EXAMPLES / "cabbage-plot.toml", today=date(2026, 10, 18))
    answer = advise(case, look_ahead=LookAhead(members=40))
    option = answer.options[0]
    context = build_context(case)
    lime = context.case.own_materials[option.material]
    dissolved = reacting_share_by(
        context, lime, start=case.today, by=case.today + timedelta(days=3 * 365)
    )
    pure = dissolved * lime.caco3_eq_frac * (option.amount_g or 0.0) / 1000.0
    price = worth_price(option, words=UK)
    assert price is not None and option.cost == pytest.approx(price * pure, rel=0.02)


@pytest.mark.parametrize(("held", "named"), [(4.0, True), (12.0, False), (None, False)])
def test_a_soil_short_of_magnesium_is_told_of_magnesian_lime(
    held: float | None, named: bool
) -> None:
    case = read_case(EXAMPLES / "cabbage-plot.toml")
    case = replace(case, soil=replace(case.soil, mg_saturation_pct=held))
    text = said(ways(advise(case), case, words=Words("uk", "metric")))
    assert ("short of magnesium" in text) is named
    assert ("Magnesian lime (dolomitic limestone) brings magnesium" in text) is named


def test_without_a_bag_of_its_own_the_plan_uses_magnesian_lime() -> None:
    case = read_case(EXAMPLES / "cabbage-plot.toml")
    case = replace(case, soil=replace(case.soil, mg_mg_kg=30.0), on_hand=())
    answer = advise(case)
    assert {part.material for part in answer.applications} == {"ground limestone, dolomitic"}
    text = said(ways(answer, case, words=Words("uk", "metric")))
    assert "it has 30 mg/kg, and less than 60 is low" in text
    assert "the plan uses magnesian lime (dolomitic limestone)" in text
