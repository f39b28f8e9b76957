from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from loamshift.case.read import parse_case
from loamshift.domain.answer import Answer, Application, Decision
from loamshift.domain.case import Case
from loamshift.domain.review import Bag, BedYear, NextPart
from loamshift.services.advise import advise
from loamshift.services.review.bed_year import bed_year
from loamshift.services.review.to_buy import to_buy

UNTIL = date(2027, 12, 31)
HEAD = """case = 1
today = 2026-11-30
name = "Border"
[bed]
area = "10 m2"
depth = "15 cm"
[soil]
texture = "loam"
organic_matter_pct = 3
fizz = "none"
fizz_acid = "HCl"
[aim]
plant = "cabbage"
[place]
name = "London"
"""


def case(*tests: tuple[str, float, str], put_on: tuple[str, ...] = ()) -> Case:
    text = HEAD
    for day, ph, method in tests:
        text += f'[[reading]]\ndate = {day}\nph = {ph}\nph_method = "{method}"\n'
    for day in put_on:
        text += f'[[applied]]\ndate = {day}\nmaterial = "ground limestone"\nrate = "100 g/m2"\n'
    return parse_case(text)


def letter(*parts: date, day: date = date(2026, 3, 1), retest: tuple[date, ...] = ()) -> Answer:
    made = advise(case(("2026-02-01", 5.6, "water 1:1")))
    return replace(
        made,
        today=day,
        verdict=replace(made.verdict, decision=Decision.GO),
        retest=retest,
        applications=tuple(
            Application(
                date=on,
                material="ground limestone, calcitic",
                rate_g_m2=200.0,
                amount_g=2000.0,
                incorporate_cm=15.0,
                only_if=None,
            )
            for on in parts
        ),
    )


def test_only_what_is_of_the_year_is_told_and_the_test_before_it() -> None:
    bed = case(
        ("2024-04-01", 5.2, "water 1:1"),
        ("2025-04-01", 5.5, "water 1:1"),
        ("2025-09-01", 7.5, "probe"),
        ("2026-04-01", 6.0, "water 1:1"),
        put_on=("2024-05-01", "2025-05-01"),
    )
    then = bed_year(bed, None, year=2025, until=UNTIL)
    assert [one.on.year for one in then.done] == [2025]
    assert [test.on.year for test in then.tests] == [2025, 2025]
    assert then.before is not None and then.before.on == date(2024, 4, 1)
    assert then.last is not None and then.last.ph_water == pytest.approx(5.5)
    assert then.moved_ph == pytest.approx(0.3)


def test_a_rough_test_moves_nothing() -> None:
    bed = case(("2024-04-01", 5.2, "water 1:1"), ("2025-09-01", 7.5, "probe"))
    then = bed_year(bed, None, year=2025, until=UNTIL)
    assert then.moved_ph is None
    assert then.last is not None


def test_without_an_earlier_test_the_first_of_the_year_is_compared_with() -> None:
    bed = case(("2025-03-01", 5.4, "water 1:1"), ("2025-10-01", 6.0, "water 1:1"))
    assert bed_year(bed, None, year=2025, until=UNTIL).moved_ph == pytest.approx(0.6)


def test_the_letter_says_what_comes_next_less_what_was_put_on() -> None:
    bed = case(("2026-02-01", 5.6, "water 1:1"), put_on=("2026-03-20",))
    sent = letter(date(2026, 3, 15), date(2027, 3, 15), date(2028, 3, 15))
    then = bed_year(bed, sent, year=2026, until=UNTIL)
    assert [part.on for part in then.parts] == [date(2027, 3, 15)]
    assert then.letter_on == date(2026, 3, 1)


def test_a_test_since_the_letter_overtakes_it() -> None:
    bed = case(("2026-02-01", 5.6, "water 1:1"), ("2026-09-01", 6.6, "water 1:1"))
    sent = letter(date(2027, 3, 15))
    then = bed_year(bed, sent, year=2026, until=UNTIL)
    assert then.letter_on is None
    assert then.parts == ()


def test_a_test_that_was_made_is_not_asked_for_again() -> None:
    probed = case(("2026-02-01", 5.6, "water 1:1"), ("2026-08-20", 6.0, "probe"))
    sent = letter(retest=(date(2026, 9, 1), date(2027, 9, 1)))
    then = bed_year(probed, sent, year=2026, until=UNTIL)
    assert then.retest == (date(2027, 9, 1),)


def needs(*amounts: float | None, material: str = "lime") -> BedYear:
    made = bed_year(case(), None, year=2026, until=UNTIL)
    parts = tuple(
        NextPart(on=UNTIL, material=material, rate_g_m2=100.0, amount_g=one) for one in amounts
    )
    return replace(made, parts=parts)


def bag(name: str, pack_g: float | None, price: float | None) -> Bag:
    return Bag(name=name, material="lime", pack_g=pack_g, price=price, currency="GBP")


def test_packs_are_counted_over_all_beds_and_not_bed_by_bed() -> None:
    beds = [needs(9_000.0), needs(9_000.0), needs(8_000.0, 4_000.0)]
    (line,) = to_buy(beds, [bag("Pale", 20_000.0, 5.0)])
    assert (line.amount_g, line.beds, line.packs, line.cost) == (30_000.0, 3, 2, 10.0)


def test_the_cheapest_way_in_whole_packs_is_taken() -> None:
    bags = [bag("Small", 5_000.0, 3.0), bag("Large", 25_000.0, 10.0), bag("Gift", 1.0, None)]
    assert to_buy([needs(4_000.0)], bags)[0].bag == bags[0]
    assert to_buy([needs(24_000.0)], bags)[0].bag == bags[1]


@pytest.mark.parametrize(("amount_g", "packs"), [(20_300.0, 1), (20_500.0, 2), (1.0, 1)])
def test_a_hair_more_than_a_pack_is_a_pack(amount_g: float, packs: int) -> None:
    assert to_buy([needs(amount_g)], [bag("Pale", 20_000.0, 5.0)])[0].packs == packs


def test_beds_without_an_area_and_products_without_a_price_are_told() -> None:
    (line,) = to_buy([needs(None), needs(1_000.0)], [])
    assert (line.beds, line.unmeasured, line.packs, line.cost) == (2, 1, None, None)
    (line,) = to_buy([needs(1_000.0)], [bag("Pale", None, 5.0)])
    assert (line.packs, line.cost) == (None, None)
