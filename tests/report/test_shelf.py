from __future__ import annotations

from dataclasses import replace

from loamshift.domain.letter import Matter, Note, Paragraph, Table
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


def test_the_table_names_products_and_says_what_is_not_on_the_shelf() -> None:
    case = bed(more=PRODUCTS)
    letter = shelf_letter(shelf_for_bed(case), NAMES, case, words=UK)
    (table,) = [b for s in letter.sections for b in s.blocks if isinstance(b, Table)]
    titles = [column.title for column in table.columns]
    assert titles[0] == "product" and "packs" in titles
    assert "cost, GBP" in titles and "per kg of sulphur's worth, GBP" in titles
    assert table.rows[0][0] == "**Yellow dust**"
    assert all("not on the shelf" in row[0] for row in table.rows[1:])


def test_what_does_nothing_is_named_and_printed_tables_stand_beside() -> None:
    case = bed(more=PRODUCTS)
    letter = shelf_letter(shelf_for_bed(case), NAMES, case, words=UK)
    opening = letter.sections[0]
    said = [block.text for block in opening.blocks if isinstance(block, Paragraph)]
    assert "Lime and Plaster do not lower the pH and are left out here." in said
    notes = {block.label: block.text for block in opening.blocks if isinstance(block, Note)}
    assert "printed table" in notes["Printed tables"] and "g/m²" in notes["Printed tables"]


def test_every_caution_named_in_the_table_is_told_in_full() -> None:
    case = bed(more=PRODUCTS)
    letter = shelf_letter(shelf_for_bed(case), NAMES, case, words=UK)
    (care,) = [section for section in letter.sections if section.matter is Matter.CARE]
    told = " ".join(str(block) for block in care.blocks)
    (table,) = [b for s in letter.sections for b in s.blocks if isinstance(b, Table)]
    minded = {one.strip().casefold() for row in table.rows for one in row[-1].split(",") if one}
    assert minded and all(one in told.casefold() for one in minded)


def test_without_a_way_the_verdict_stands_alone() -> None:
    case = bed('ph = 5.0\nph_method = "water 1:1"\ntexture = "loam"', more=PRODUCTS)
    letter = shelf_letter(shelf_for_bed(case), NAMES, case, words=UK)
    assert not any(isinstance(b, Table) for s in letter.sections for b in s.blocks)
    assert "nothing on the shelf" in str(letter)


def test_us_words_and_pounds() -> None:
    case = bed(more=PRODUCTS)
    letter = shelf_letter(shelf_for_bed(case), NAMES, case, words=US)
    assert "lb" in str(letter) and "sulphur" not in str(letter).replace("Sulphur", "sulphur")
    assert "pound of lime" in scale_said(words=US)


def test_prices_are_said_by_what_a_product_brings() -> None:
    sulfur, lime, gypsum = shelf_prices(bed(more=PRODUCTS).on_hand)
    assert price_said(sulfur, words=UK) == "6.06 GBP per kg of sulphur's worth"
    assert price_said(lime, words=UK) == "0.50 GBP per kg of lime"
    assert price_said(lime, words=US) == "0.23 GBP per lb of lime"
    assert price_said(gypsum, words=UK) == ""
    said = [brings_said(one, words=UK) for one in (sulfur, lime, gypsum)]
    assert said == [
        "acid of 99 kg of sulphur in 100 kg",
        "50 kg of pure lime in 100 kg",
        "neither acid nor lime",
    ]
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


def bags(price: float = 12, currency: str = "GBP", *, second: int = 1) -> tuple[str, ...]:
    on_hand = bed(more=(BAGS % (price, currency)).replace("*", "")).on_hand
    compared = compare_bags(on_hand[0], on_hand[second])
    return bags_said(compared, ("Weak", "*Strong*"), words=UK)


def test_a_weak_bag_against_a_strong_one_names_the_cheaper() -> None:
    # 12 for 3 kg of sulfur against 21 for 4.95 kg
    assert bags() == (
        "Weak is the cheaper: 4.00 GBP per kg of sulphur's worth, against 4.24 GBP per kg of "
        "sulphur's worth. That is 6% less.",
        "1 kg of Strong does the work of 3.3 kg of Weak.",
    )
    assert bags(20)[0].startswith("Strong is the cheaper: 4.24 GBP")
    assert bags(12.727)[0] == "They cost the same for what they bring."
    assert "two currencies" in bags(12, "EUR")[0]


def test_a_neutral_sulfate_is_not_compared() -> None:
    said = bags(second=2)
    assert said[1] == "Strong: no acid: its sulphur is sulphate."
    assert "do not compare" in said[2]
