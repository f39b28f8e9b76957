from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date

import pytest

from loamshift.domain.answer import Direction, Option
from loamshift.domain.case import Bed, Case, OnHand
from loamshift.errors import InputError
from loamshift.services.context.build_context import build_context
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from loamshift.services.products.options import (
    as_sold,
    cost_per_kg_s,
    options,
    reacting_share_by,
    reactive_cost_per_kg_s,
    useless_on_hand,
)
from loamshift.tables.materials import load_materials

MATERIALS = load_materials()
START = date(2026, 4, 20)
AUTUMN = date(2026, 10, 1)
Make = Callable[..., Case]
POWDER = OnHand(
    material=MATERIALS["elemental sulfur, powder"], pack_g=1000.0, price=6.0, currency="EUR"
)
PRILLS = OnHand(
    material=MATERIALS["elemental sulfur, prills"],
    purity_pct=90.0,
    pack_g=25_000.0,
    price=45.0,
    currency="EUR",
)


def compared(
    case: Case,
    acid_mmolc_m2: float,
    *,
    direction: Direction = Direction.ACIDIFY,
    on_hand: Iterable[OnHand] = (),
) -> dict[str, Option]:
    found = options(
        build_context(case),
        acid_mmolc_m2=acid_mmolc_m2,
        direction=direction,
        on_hand=on_hand,
        start=START,
    )
    return {option.material: option for option in found}


def test_every_acid_option_brings_the_same_acid(bed_case: Make) -> None:
    found = compared(bed_case(), 3000.0)
    assert next(iter(found)) == "elemental sulfur, powder"
    for key, option in found.items():
        brought = acid_brought_mmolc_m2(MATERIALS[key], rate_g_m2=option.rate_g_m2, in_pot=False)
        assert brought == pytest.approx(3000.0), key
        assert option.amount_g == pytest.approx(20.0 * option.rate_g_m2)
    ratio = found["ferrous sulfate, heptahydrate"].rate_g_m2 / (
        0.99 * found["elemental sulfur, powder"].rate_g_m2
    )
    assert ratio == pytest.approx(8.67, abs=0.02)


def test_a_feed_counts_only_within_the_nitrogen_limit(bed_case: Make) -> None:
    planted = Bed(area_m2=20.0, depth_cm=15.0, planted=True)
    assert "ammonium sulfate" in compared(bed_case(bed=planted), 500.0)
    assert "ammonium sulfate" not in compared(bed_case(bed=planted), 5000.0)
    own = OnHand(material=MATERIALS["ammonium sulfate"], pack_g=1000.0, price=1.0)
    kept = compared(bed_case(bed=planted), 5000.0, on_hand=[own])
    assert "over-cap" in kept["ammonium sulfate"].cautions


def test_the_cheap_coarse_bag_loses_to_what_acts_in_time(bed_case: Make) -> None:
    case = bed_case()
    found = compared(case, 3000.0, on_hand=[PRILLS, POWDER])
    powder, prills = found["elemental sulfur, powder"], found["elemental sulfur, prills"]
    assert powder.cost is not None and prills.cost is not None
    assert prills.cost < powder.cost
    assert list(found)[:2] == ["elemental sulfur, powder", "elemental sulfur, prills"]
    context = build_context(case)
    cheap, dear = cost_per_kg_s(PRILLS), cost_per_kg_s(POWDER)
    assert cheap == pytest.approx(2.0) and dear == pytest.approx(6.0 / 0.99)
    acting = [
        reactive_cost_per_kg_s(item, context=context, start=START, by=date(2027, 4, 20))
        for item in (POWDER, PRILLS)
    ]
    assert acting[0] is not None and acting[1] is not None and acting[0] < acting[1]
    early = date(2026, 5, 1)
    assert reactive_cost_per_kg_s(PRILLS, context=context, start=START, by=early) is None


def test_price_per_mole_and_per_kilogram_of_lime_value(bed_case: Make) -> None:
    sulfur = compared(bed_case(), 3000.0, on_hand=[POWDER])["elemental sulfur, powder"]
    assert sulfur.cost_per_mol_acid == pytest.approx(6.0 / (1000.0 * 0.99 / 16.03))
    assert sulfur.cost_per_kg_caco3_eq is None and sulfur.currency == "EUR"
    lime = OnHand(material=MATERIALS["ground limestone, calcitic"], pack_g=1000.0, price=0.5)
    option = compared(bed_case(5.2, target=6.5), 3000.0, direction=Direction.LIME, on_hand=[lime])[
        "ground limestone, calcitic"
    ]
    assert option.cost_per_mol_acid is None
    # 0.5 per kg, of which 0.98 is lime value, 0.98 dissolves and 0.85 counts in the field.
    assert option.cost_per_kg_caco3_eq == pytest.approx(0.5 / (0.98 * 0.984 * 0.85), rel=0.01)


def test_coarse_lime_needs_more_and_burning_lime_comes_last(bed_case: Make) -> None:
    case = bed_case(5.2, target=6.5)
    coarse = OnHand(material=MATERIALS["ground limestone, coarse"])
    found = compared(case, -3000.0, direction=Direction.LIME, on_hand=[coarse])
    assert (
        found["ground limestone, coarse"].rate_g_m2
        > found["ground limestone, calcitic"].rate_g_m2
        > found["hydrated lime"].rate_g_m2
    )
    assert all("caustic-lime" in found[key].cautions for key in list(found)[-2:])


def test_dolomite_leads_only_where_magnesium_is_short(bed_case: Make) -> None:
    case = bed_case(5.2, target=6.5)
    low = replace(case, soil=replace(case.soil, mg_saturation_pct=5.0))
    dolomite = "ground limestone, dolomitic"
    assert next(iter(compared(low, 2000.0, direction=Direction.LIME))) == dolomite
    extracted = replace(case, soil=replace(case.soil, mg_mg_kg=59.0))
    assert next(iter(compared(extracted, 2000.0, direction=Direction.LIME))) == dolomite
    enough = replace(case, soil=replace(case.soil, mg_mg_kg=61.0))
    assert next(iter(compared(enough, 2000.0, direction=Direction.LIME))) != dolomite
    assert next(iter(compared(case, 2000.0, direction=Direction.LIME))) != dolomite


def test_salts_say_how_salty_the_bed_gets(bed_case: Make) -> None:
    found = compared(bed_case(), 3000.0)
    salt = found["aluminium sulfate, 18-hydrate"]
    sulfur = found["elemental sulfur, powder"]
    assert salt.ec_rise_ds_m is not None and sulfur.ec_rise_ds_m is not None
    assert salt.ec_rise_ds_m > sulfur.ec_rise_ds_m
    assert sulfur.ec_rise_ds_m <= 2.2
    assert "salt" in salt.cautions and "salt" not in sulfur.cautions


def test_amounts_beyond_the_limits_carry_their_cautions(bed_case: Make) -> None:
    planted = Bed(area_m2=20.0, depth_cm=15.0, planted=True)
    found = compared(bed_case(bed=planted), 12_000.0)
    assert {"split", "over-cap", "established-roots"} <= set(
        found["elemental sulfur, powder"].cautions
    )
    small = compared(bed_case(), 1000.0)["elemental sulfur, powder"].cautions
    assert "split" not in small and "over-cap" not in small


def test_what_brings_nothing_is_named_and_left_out(bed_case: Make) -> None:
    shelf = [
        OnHand(material=MATERIALS[key], pack_g=1000.0, price=1.0)
        for key in ("epsom salt", "ground limestone, calcitic", "elemental sulfur, powder")
    ]
    found = compared(bed_case(), 3000.0, on_hand=shelf)
    assert "epsom salt" not in found and "ground limestone, calcitic" not in found
    assert useless_on_hand(shelf, direction=Direction.ACIDIFY) == (
        "epsom salt",
        "ground limestone, calcitic",
    )


def test_labels_are_read_in_the_trades_way() -> None:
    sulfur = as_sold(MATERIALS["elemental sulfur, pastilles"], purity_pct=85.0)
    assert sulfur.elemental_s_frac == 0.85
    assert as_sold(MATERIALS["marl"], purity_pct=50.0).caco3_eq_frac == 0.5
    hydrated = as_sold(MATERIALS["hydrated lime"], purity_pct=90.0)
    assert hydrated.caco3_eq_frac == pytest.approx(0.9 * 1.28334)
    by_nitrogen = as_sold(MATERIALS["ammonium sulfate"], purity_pct=20.5)
    assert by_nitrogen.n_frac == pytest.approx(0.205)
    salt = as_sold(MATERIALS["ferrous sulfate, heptahydrate"], purity_pct=95.0)
    assert salt.fast_acid_molc_kg == pytest.approx(0.95 * 7.19, abs=0.01)
    with pytest.raises(InputError, match="purity"):
        as_sold(MATERIALS["marl"], purity_pct=0.0)


def test_the_share_that_reacts_by_a_date_rises_with_time(bed_case: Make) -> None:
    context = build_context(bed_case())
    powder = MATERIALS["elemental sulfur, powder"]
    days = (START, date(2026, 6, 1), AUTUMN)
    shares = [reacting_share_by(context, powder, start=START, by=day) for day in days]
    assert shares[0] == 0.0 < shares[1] < shares[2] <= 1.0
    assert reacting_share_by(context, MATERIALS["gypsum"], start=START, by=AUTUMN) == 0.0


def test_nothing_to_bring_means_no_options(bed_case: Make) -> None:
    assert compared(bed_case(), 0.0) == {}
    assert compared(bed_case(None), 100.0) == {}
    assert compared(bed_case(), 100.0, direction=Direction.NONE) == {}
