from __future__ import annotations

from dataclasses import replace

import pytest

from loamshift.domain.letter import Letter, Matter, Note, Paragraph, Table
from loamshift.report.shelf import bags_said, brings_said, price_said, scale_said, shelf_letter
from loamshift.report.words import Words
from loamshift.services.shelf import compare_bags, shelf_for_bed, shelf_prices
from services.beds import bed

UK = Words(spelling="uk", units="metric")
US = Words(spelling="us", units="us")
PRODUCTS = """
[[on_hand]]
material = "flowers of sulphur"
pack = "1 kg"
price = 6
currency = "GBP"
[[on_hand]]
material = "garden lime"
purity_pct = 50
pack = "20 kg"
price = 5
currency = "GBP"
[[on_hand]]
material = "gypsum"
"""
NAMES = ("Yellow **dust**", "Lime", "Plaster")


def tables(letter: Letter) -> list[Table]:
    return [b for s in letter.sections for b in s.blocks if isinstance(b, Table)]


def test_the_table_names_products_and_says_what_is_not_among_them() -> None:
    case = bed(more=PRODUCTS)
    (table,) = tables(shelf_letter(shelf_for_bed(case), NAMES, case, words=UK))
    titles = [column.title for column in table.columns]
    assert titles[0] == "product" and "packs" in titles
    assert (
        "cost of the amount, GBP" in titles and "per kg of sulphur's worth of acid, GBP" in titles
    )
    assert table.rows[0][0] == "**Yellow dust**"
    assert all(row[0].endswith("(not among your products)") for row in table.rows[1:])


def test_a_price_for_a_bed_is_the_price_of_the_list() -> None:
    """The weight of the pack and what is in it make both: 6 for 0.99 kg of sulfur."""
    case = bed(more=PRODUCTS)
    shelf = shelf_for_bed(case)
    (table,) = tables(shelf_letter(shelf, NAMES, case, words=UK))
    titles = [column.title for column in table.columns]
    price = table.rows[0][titles.index("per kg of sulphur's worth of acid, GBP")]
    assert price == "6.06"
    assert price_said(shelf_prices(case.on_hand)[0], words=UK).startswith("6.06 GBP")


def test_lime_for_a_bed_costs_what_it_costs_in_the_list() -> None:
    """Finely ground: all of it dissolves, so that only the neutralising value counts."""
    case = bed(
        'ph = 5.0\nph_method = "water 1:1"\ntexture = "loam"',
        aim='plant = "cabbage"',
        more=PRODUCTS,
    )
    shelf = shelf_for_bed(case)
    (table,) = tables(shelf_letter(shelf, NAMES, case, words=UK))
    titles = [column.title for column in table.columns]
    assert table.rows[0][0] == "**Lime**"
    price = float(table.rows[0][titles.index("per kg of pure lime's worth, GBP")])
    listed = shelf_prices(case.on_hand)[1].cost
    assert listed == pytest.approx(0.50) and listed <= price <= 1.05 * listed


def test_what_does_nothing_is_named_and_published_tables_stand_beside() -> None:
    case = bed(more=PRODUCTS)
    letter = shelf_letter(shelf_for_bed(case), NAMES, case, words=UK)
    opening = letter.sections[0]
    said = [block.text for block in opening.blocks if isinstance(block, Paragraph)]
    assert "Lime and Plaster do not lower the pH and are left out." in said
    notes = {block.label: block.text for block in opening.blocks if isinstance(block, Note)}
    published = notes["Published tables"]
    assert "published sulphur tables" in published and "g/m²" in published
    assert "within a year" in notes["Order"] and "first step of the plan" in notes["Rate"]


def test_the_order_names_the_day_that_is_wanted() -> None:
    case = bed(aim='plant = "highbush blueberry"\nby = 2027-05-01', more=PRODUCTS)
    letter = shelf_letter(shelf_for_bed(case), NAMES, case, words=US)
    notes = {b.label: b.text for b in letter.sections[0].blocks if isinstance(b, Note)}
    assert "reacts by May 1, 2027" in notes["Order"]


def test_one_product_that_does_nothing_is_told_in_the_singular() -> None:
    case = bed(more=PRODUCTS.rpartition("[[on_hand]]")[0])
    letter = shelf_letter(shelf_for_bed(case), NAMES[:2], case, words=UK)
    assert "Lime does not lower the pH and is left out." in str(letter)


def test_every_caution_named_in_the_table_is_told_in_full() -> None:
    case = bed(more=PRODUCTS)
    letter = shelf_letter(shelf_for_bed(case), NAMES, case, words=UK)
    (care,) = [section for section in letter.sections if section.matter is Matter.CARE]
    told = " ".join(str(block) for block in care.blocks)
    (table,) = tables(letter)
    assert table.columns[-1].title == "precautions"
    minded = {one.strip() for row in table.rows for one in row[-1].split(",") if one}
    assert minded and all(f"**{one}.**" in told for one in minded)


def test_without_a_way_the_verdict_stands_alone() -> None:
    case = bed('ph = 5.0\nph_method = "water 1:1"\ntexture = "loam"', more=PRODUCTS)
    letter = shelf_letter(shelf_for_bed(case), NAMES, case, words=UK)
    assert not tables(letter)
    assert "no products are compared" in str(letter)


def test_us_words_and_pounds() -> None:
    case = bed(more=PRODUCTS)
    letter = shelf_letter(shelf_for_bed(case), NAMES, case, words=US)
    assert "lb" in str(letter) and "sulphur" not in str(letter).replace("Sulphur", "sulphur")
    (table,) = tables(letter)
    assert "per lb of sulfur's worth of acid, GBP" in [column.title for column in table.columns]
    scale = scale_said(words=US)
    assert "pound of sulfur's worth of acid" in scale and "pound of pure lime's worth" in scale
    assert "kilogram" not in scale


def test_prices_are_said_by_what_a_product_brings() -> None:
    sulfur, lime, gypsum = shelf_prices(bed(more=PRODUCTS).on_hand)
    assert price_said(sulfur, words=UK) == "6.06 GBP per kg of sulphur's worth of acid"
    assert price_said(lime, words=UK) == "0.50 GBP per kg of pure lime's worth"
    assert price_said(lime, words=US) == "0.23 GBP per lb of pure lime's worth"
    assert price_said(gypsum, words=UK) == ""
    said = [brings_said(one, words=UK) for one in (sulfur, lime, gypsum)]
    assert said == [
        "99 kg of sulphur's worth of acid per 100 kg",
        "50 kg of pure lime's worth per 100 kg",
        "neither acid nor lime",
    ]
    assert brings_said(lime, words=US) == "50 lb of pure lime's worth per 100 lb"
    unpriced = replace(sulfur, cost_per_mol_acid=None)
    assert price_said(unpriced, words=UK) == ""


BAGS = """
[[on_hand]]
material = "Weak *Sulphur*"
label = { s_element_pct = 30, filler_pct = 70 }
pack = "10 kg"
price = %s
currency = "GBP"
[[on_hand]]
material = "flowers of sulphur"
label = { s_element_pct = 99 }
pack = "5 kg"
price = 21
currency = "%s"
[[on_hand]]
material = "Potash Sulphate"
label = { k2o_pct = 50, so3_pct = 45 }
"""


def bags(
    price: float = 12, currency: str = "GBP", *, second: int = 1, words: Words = UK
) -> tuple[str, ...]:
    on_hand = bed(more=(BAGS % (price, currency)).replace("*", "")).on_hand
    compared = compare_bags(on_hand[0], on_hand[second])
    return bags_said(compared, ("Weak", "*Strong*"), words=words)


def test_a_weak_bag_against_a_strong_one_names_the_cheaper() -> None:
    # 12 for 3 kg of sulfur against 21 for 4.95 kg
    assert bags() == (
        "Weak is cheaper: 4.00 GBP per kg of sulphur's worth of acid, against 4.24 GBP for "
        "Strong. That is 6% less.",
        "1 kg of Strong does the work of 3.3 kg of Weak.",
    )
    assert bags(20)[0].startswith("Strong is cheaper: 4.24 GBP")
    assert bags(12.727)[0] == "Both cost the same for the acid they bring."
    assert "two currencies" in bags(12, "EUR")[0]
    assert bags(words=US) == (
        "Weak is cheaper: 1.81 GBP per lb of sulfur's worth of acid, against 1.92 GBP for "
        "Strong. That is 6% less.",
        "1 lb of Strong does the work of 3.3 lb of Weak.",
    )


def test_a_neutral_sulfate_is_not_compared() -> None:
    said = bags(second=2)
    assert said[1] == "Strong: no acid: its sulphur is already sulphate."
    assert "cannot be compared" in said[2]
