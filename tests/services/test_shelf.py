from __future__ import annotations

import pytest

from loamshift.domain.answer import Decision, Direction
from loamshift.domain.case import OnHand
from loamshift.errors import InputError
from loamshift.services.shelf import shelf_for_bed, shelf_order, shelf_prices
from loamshift.tables.materials import load_materials
from services.beds import bed

MATERIALS = load_materials()
PRODUCTS = """
[[on_hand]]
material = "sulphur chips"
purity_pct = 90
pack = "25 kg"
price = 30
currency = "GBP"
[[on_hand]]
material = "flowers of sulphur"
pack = "1 kg"
price = 6
currency = "GBP"
[[on_hand]]
material = "garden lime"
pack = "20 kg"
price = 5
currency = "GBP"
"""


def product(key: str, **more: float) -> OnHand:
    return OnHand(material=MATERIALS[key], currency="GBP", **more)


def test_a_mole_of_acid_and_a_kilogram_of_lime_have_their_price() -> None:
    sulfur, lime, gypsum, unpriced = shelf_prices(
        [
            product("elemental sulfur, powder", purity_pct=100.0, pack_g=1000.0, price=6.0),
            product("ground limestone, calcitic", purity_pct=50.0, pack_g=20_000.0, price=5.0),
            product("gypsum", pack_g=1000.0, price=3.0),
            product("elemental sulfur, powder", pack_g=1000.0),
        ]
    )
    # 1 kg of sulfur makes 1000 g / 32.06 g/mol x 2 = 62.4 mol of acid
    assert sulfur.cost_per_mol_acid == pytest.approx(6.0 / 62.38, rel=1e-3)
    assert sulfur.cost_per_kg_caco3_eq is None
    # 20 kg of half strength are 10 kg of lime
    assert lime.cost_per_kg_caco3_eq == pytest.approx(0.5, rel=1e-3)
    assert lime.cost_per_mol_acid is None and lime.acid_molc_kg < 0.0
    assert gypsum.acid_molc_kg == 0.0
    assert (gypsum.cost_per_mol_acid, gypsum.cost_per_kg_caco3_eq) == (None, None)
    assert unpriced.cost_per_mol_acid is None and unpriced.acid_molc_kg > 0.0


def test_a_purity_that_is_none_is_refused() -> None:
    with pytest.raises(InputError, match="purity"):
        shelf_prices([product("elemental sulfur, powder", purity_pct=0.0)])


def test_the_table_is_that_of_the_answer_with_packs_to_buy() -> None:
    found = shelf_for_bed(bed(more=PRODUCTS))
    assert [way.option for way in found.ways] == list(found.answer.options)
    first, second = found.ways[:2]
    assert (first.place, second.place) == (1, 0)
    assert first.packs is not None and first.option.amount_g is not None
    assert (first.packs - 1) * 1000.0 < first.option.amount_g <= first.packs * 1000.0
    assert second.packs == 1
    assert all(way.place is None and way.packs is None for way in found.ways[2:])
    assert found.useless == (2,)


def test_two_packs_of_one_material_are_told_apart() -> None:
    twice = PRODUCTS + PRODUCTS.split("[[on_hand]]")[2].join(("[[on_hand]]", "")).replace("6", "3")
    found = shelf_for_bed(bed(more=twice))
    by_place = {way.place: way.option.cost for way in found.ways if way.place is not None}
    assert set(by_place) == {0, 1, 3}
    dear, cheap = by_place[1], by_place[3]
    assert dear is not None and cheap is not None
    assert dear == pytest.approx(2.0 * cheap)


def test_no_way_where_the_bed_is_left() -> None:
    soil = 'ph = 5.0\nph_method = "water 1:1"\ntexture = "loam"'
    found = shelf_for_bed(bed(soil, more=PRODUCTS))
    assert found.answer.verdict.decision is Decision.LEAVE
    assert found.answer.dose.direction is Direction.NONE
    assert (found.ways, found.useless) == ((), ())


def test_what_works_in_time_for_its_price_stands_first_and_all_stand_once() -> None:
    assert shelf_order(bed(more=PRODUCTS)) == (1, 0, 2)
    sour = 'ph = 5.0\nph_method = "water 1:1"\ntexture = "loam"'
    assert shelf_order(bed(sour, aim="target_ph = 6.5", more=PRODUCTS))[0] == 2


def test_the_order_stays_where_nobody_knows_the_way() -> None:
    assert shelf_order(bed('texture = "loam"', more=PRODUCTS)) == (0, 1, 2)
    assert shelf_order(bed(aim="", more=PRODUCTS)) == (0, 1, 2)


def test_the_product_of_the_plan_stands_with_the_amount_of_the_plan() -> None:
    """A label purity, and grains that never dissolve, count the same in both."""
    weak = PRODUCTS.replace('"flowers of sulphur"', '"flowers of sulphur"\npurity_pct = 80')
    acid = shelf_for_bed(bed(more=weak)).answer
    sour = 'ph = 5.4\nph_method = "water 1:1"\ntexture = "loam"'
    limed = shelf_for_bed(bed(sour, aim="target_ph = 6.5", more=PRODUCTS)).answer
    for answer in (acid, limed):
        assert answer.plan is not None and answer.plan.parts
        first = sum(part.rate_g_m2 for part in answer.plan.parts)
        own = next(way for way in answer.options if way.material == answer.plan.material)
        assert own.rate_g_m2 == pytest.approx(first)


def test_chips_that_take_decades_decide_nothing_about_the_bed() -> None:
    chips = PRODUCTS.split("[[on_hand]]")[1].join(("[[on_hand]]", ""))
    bare, own = (shelf_for_bed(bed(more=more)).answer for more in ("", chips))
    assert own.verdict == bare.verdict and own.plan == bare.plan
    assert own.plan is not None and own.plan.material == "elemental sulfur, powder"
    assert "elemental sulfur, prills" in {way.material for way in own.options}
