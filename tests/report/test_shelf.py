from __future__ import annotations

from dataclasses import replace

from loamshift.domain.letter import Matter, Note, Paragraph, Table
from loamshift.report.shelf import price_said, scale_said, shelf_letter
from loamshift.report.words import Words
from loamshift.services.shelf import shelf_for_bed, shelf_prices
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
    assert "cost, GBP" in titles and "per mole of acid, GBP" in titles
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
    assert price_said(sulfur, words=UK) == "0.10 GBP a mole of acid"
    assert price_said(lime, words=UK) == "0.50 GBP a kg of lime"
    assert price_said(lime, words=US) == "0.23 GBP a lb of lime"
    assert price_said(gypsum, words=UK) == "brings no lasting acid or lime"
    unpriced = replace(sulfur, cost_per_mol_acid=None)
    assert price_said(unpriced, words=UK) == ""
