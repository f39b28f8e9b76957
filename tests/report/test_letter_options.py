from __future__ import annotations

from dataclasses import replace

import pytest

from loamshift.report.letter_options import OVER_THREE_YEARS, half_said, ways
from loamshift.report.words import Words
from report.answers import ALL
from report.sections import said, table, titles

UK = Words("uk", "metric")
US = Words("us", "us")


def test_at_most_six_products_and_no_empty_column() -> None:
    answer, case = ALL["effort"]()
    assert len(answer.options) == 7
    section = ways(answer, case, words=UK)
    made = table(section)
    assert section is not None and section.heading == "Products that would do it"
    assert made.caption == "Equivalent amounts" and len(made.rows) == 6
    assert titles(made) == (
        "product", "rate, as bought", "for the bed", "cost, USD", "per mole of acid, USD",
        "half has reacted after", "rise in salt (ECe)",
    )  # fmt: skip
    free = tuple(replace(o, cost=None, cost_per_mol_acid=None) for o in answer.options)
    section = ways(replace(answer, options=free), case, words=UK)
    assert "cost" not in " ".join(titles(table(section))) and "mole" not in said(section)


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
    assert half_said(None, UK) == OVER_THREE_YEARS


def test_without_any_time_there_is_no_column_for_it() -> None:
    answer, case = ALL["effort"]()
    options = tuple(replace(option, weeks_to_half=None) for option in answer.options)
    made = table(ways(replace(answer, options=options), case, words=UK))
    assert "half has reacted after" not in titles(made)


def test_lime_is_compared_by_the_weight_the_reader_buys() -> None:
    answer, case = ALL["go-lime"]()
    assert "per kg of pure lime, USD" in titles(table(ways(answer, case, words=UK)))
    us = table(ways(answer, case, words=US))
    column = titles(us).index("per lb of pure lime, USD")
    assert us.rows[0][column] == "0.41"
