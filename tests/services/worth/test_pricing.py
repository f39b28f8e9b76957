"""Prices of tests: the reader's own in their currency, the table's in its own, none converted."""

from __future__ import annotations

from dataclasses import replace

import pytest

from loamshift.case.read import parse_case
from loamshift.case.write_case import case_to_toml
from loamshift.domain.case import Case
from loamshift.domain.worth import FurtherTest, Worth
from loamshift.errors import CaseError
from loamshift.report.letter import letter_from_answer
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from loamshift.services.advise import advise
from loamshift.services.worth.pricing import NO_PRICES, pricing

BED = (
    'case = 1\ntoday = 2026-04-12\n{}\n[soil]\nph = 7.2\nph_method = "water 1:1"\n'
    'texture = "loam"\norganic_matter_pct = 3\ncarbonate_pct = 0\n[aim]\ntarget_ph = 6.0\n'
)
PRICED = '[[test_price]]\ntest = "{}"\nprice = {}\n'
ALL = tuple(FurtherTest)
UK = Words("uk", "metric")
OURS = dict.fromkeys(ALL, 5.0)


def case(top: str = "", **prices: float) -> Case:
    told = "".join(PRICED.format(key.replace("_", "-"), price) for key, price in prices.items())
    return parse_case(BED.format(top) + told)


def worth_of(of: Case) -> Worth:
    worth = advise(of).worth
    assert worth is not None and worth.tests
    return worth


def letter(of: Case, *, words: Words = UK) -> str:
    return " ".join(letter_text(letter_from_answer(advise(of), of, words=words)).split())


def test_a_price_in_another_currency_is_compared_by_but_never_shown() -> None:
    """Nothing is converted, and a British letter names no dollars that nobody gave."""
    plain, ours = worth_of(case()), worth_of(case('currency = "EUR"'))
    assert [(row.cost, row.currency) for row in ours.tests] == [
        (row.cost, row.currency) for row in plain.tests
    ]
    assert {row.currency for row in ours.tests} == {"USD"}
    for told in (letter(case('currency = "EUR"')), letter(case())):
        assert "We know of no prices in your currency" in told
        assert "USD" not in told and "price, " not in told
    dollars = letter(case('currency = "USD"'))
    assert "Prices are in USD" in dollars and "price, USD" in dollars
    assert "Prices are in USD" in letter(case(), words=Words("us", "us"))


def test_an_own_price_is_in_the_currency_of_the_case_with_the_shelf_s_notation() -> None:
    found = worth_of(case('currency = "£"', jars=18))
    row = next(one for one in found.tests if one.test is FurtherTest.JARS)
    assert (row.cost, row.currency, row.source_key) == (18.0, "GBP", None)
    said = letter(case('currency = "£"', jars=18))
    assert "price, GBP" in said and " 18.00 " in said and "The prices in GBP are yours" in said
    assert "USD" not in said and "laboratories at universities in the United States" in said


def test_with_every_price_in_it_the_table_speaks_the_reader_s_currency_alone() -> None:
    tests = {row.test for row in worth_of(case()).tests}
    of = case('currency = "EUR"', **{test.value.replace("-", "_"): 9.0 for test in tests})
    assert {row.currency for row in worth_of(of).tests} == {"EUR"}
    said = letter(of)
    assert "price, EUR" in said and "USD" not in said


def test_prices_of_two_currencies_are_never_set_against_each_other() -> None:
    """A price a thousand times as high, as in a small unit of money, must not move the order."""
    plain = [row.test for row in worth_of(case()).tests]
    yen = [row.test for row in worth_of(case('currency = "JPY"', jars=24_000)).tests]
    dollars = worth_of(case('currency = "USD"', jars=24_000))
    assert yen == plain
    jars = next(row for row in dollars.tests if row.test is FurtherTest.JARS)
    assert jars.gain_per_cost < 1e-4, "in the table's own currency it counts"


def test_what_is_compared_with_what() -> None:
    own = pricing(replace(case(), currency="EUR"), OURS, tests=ALL)
    assert not own.by_list and own.compared(FurtherTest.JARS) == 5.0
    mixed = pricing(replace(case(), currency="EUR"), {FurtherTest.JARS: 5.0}, tests=ALL)
    assert mixed.by_list and mixed.compared(FurtherTest.JARS) == 24.0
    assert mixed.of(FurtherTest.JARS).cost == 5.0
    free = pricing(replace(case(), currency="EUR"), {FurtherTest.JARS: 0.0}, tests=ALL)
    assert free.compared(FurtherTest.JARS) == 0.0, "nothing is nothing in every currency"
    assert pricing(case(), NO_PRICES, tests=ALL).of(FurtherTest.CORE).currency == "USD"
    told = pricing(case(jars=7), {FurtherTest.JARS: 8.0}, tests=ALL)
    assert told.of(FurtherTest.JARS).cost == 8.0, "what is typed now counts"


def test_the_currency_is_that_of_products_too_and_the_file_reads_back() -> None:
    product = '[[on_hand]]\nmaterial = "elemental sulfur, powder"\npack = "5 kg"\nprice = 20\n'
    of = parse_case(BED.format('currency = "EUR"') + product + PRICED.format("core", 4))
    assert of.on_hand[0].currency == "EUR"
    back = parse_case(case_to_toml(of))
    assert (back.currency, back.test_prices, back.on_hand) == ("EUR", of.test_prices, of.on_hand)


@pytest.mark.parametrize(
    ("top", "price", "told"),
    [
        ('currency = "pounds"', PRICED.format("jars", 3), "not a currency in three letters"),
        ("", PRICED.format("buffer", 3), 'Did you mean "buffer-ph"'),
        ("", PRICED.format("jars", -3), "must be from 0"),
        ("", 2 * PRICED.format("jars", 3), "has a price already"),
    ],
)
def test_what_cannot_be_a_price_is_refused_with_the_remedy(top: str, price: str, told: str) -> None:
    with pytest.raises(CaseError) as refused:
        parse_case(BED.format(top) + price)
    assert told in str(refused.value)


def test_further_samples_are_priced_like_their_test() -> None:
    """Three samples sent together: thrice the price, the postage once; one's own has all in it."""
    listed = pricing(case(), NO_PRICES, tests=ALL).of(FurtherTest.CORE)
    own = pricing(case('currency = "GBP"', core=11), NO_PRICES, tests=ALL).of(FurtherTest.CORE)
    assert (listed.each, listed.postage, listed.currency) == (3.0, 4.0, "USD")
    assert (own.each, own.postage, own.cost, own.currency) == (11.0, 0.0, 11.0, "GBP")
