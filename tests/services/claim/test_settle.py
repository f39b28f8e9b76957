from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest

from loamshift.case.build_label import product_from_label
from loamshift.domain.answer import ClaimResult
from loamshift.domain.case import Applied, Bed, Case, ClaimEntry
from loamshift.errors import InputError
from loamshift.services.claim.settle import settle_claim, settle_claims
from loamshift.services.context.build_context import build_context
from loamshift.tables.materials import load_materials
from wording import read

PLANTED = Bed(area_m2=20.0, depth_cm=15.0, planted=True)
Make = Callable[..., Case]


def settled(case: Case, key: str, rate_g_m2: float) -> ClaimResult:
    entry = ClaimEntry(material=load_materials()[key], rate_g_m2=rate_g_m2, as_given="")
    return settle_claim(case, entry)


def test_a_cup_of_sulfur_on_a_square_metre_of_planted_blueberries(bed_case: Make) -> None:
    case = bed_case(7.0, target=None, plant="highbush blueberry", bed=PLANTED)
    found = settled(case, "elemental sulfur, powder", 180.0)
    assert found.acid_brought_mmolc_m2 == pytest.approx(180.0 * 0.99 / 0.01603)
    text = read(found.comment)
    assert "5.2 times the yearly limit for planted beds, 34 g/m² of pure sulphur" in text
    assert "dangerous overdose" in text


def test_coffee_grounds_bring_a_few_per_cent_at_most(bed_case: Make) -> None:
    found = settled(bed_case(), "coffee grounds, spent", 2000.0)
    assert found.share is not None and abs(found.share) < 0.05
    assert found.ph_change_1_year is not None and abs(found.ph_change_1_year) < 0.05


@pytest.mark.parametrize("key", ["epsom salt", "gypsum", "potassium sulfate"])
def test_neutral_salts_move_nothing_whatever_the_label_says(bed_case: Make, key: str) -> None:
    found = settled(bed_case(), key, 100.0)
    assert found.acid_brought_mmolc_m2 == 0.0 and found.share == 0.0
    assert found.ph_change_now == found.ph_change_1_year == 0.0
    text = read(found.comment)
    assert "no acid, whatever the label says" in text and "reading" in text


def test_vinegar_dips_and_comes_back(bed_case: Make) -> None:
    found = settled(bed_case(), "vinegar, 5 %", 2000.0)
    assert found.acid_brought_mmolc_m2 == 0.0
    assert found.ph_change_now is not None and found.ph_change_now < -0.1
    assert found.ph_change_1_year == pytest.approx(0.0, abs=1e-6)
    assert "comes back" in read(found.comment)


def test_oak_leaves_and_pine_needles_do_not_acidify(bed_case: Make) -> None:
    for key in ("oak leaves, fallen", "pine needles, fallen"):
        found = settled(bed_case(), key, 2000.0)
        assert found.acid_brought_mmolc_m2 <= 0.0
        assert found.ph_change_1_year is not None and found.ph_change_1_year >= 0.0


def test_a_peat_never_takes_the_soil_below_its_own_ph(bed_case: Make) -> None:
    peat = settled(bed_case(4.5, target=4.0, texture="sand"), "ericaceous compost", 50_000.0)
    assert peat.ph_change_1_year == 0.0


def test_free_lime_takes_sulfur_first(bed_case: Make) -> None:
    limy = settled(bed_case(7.8, carbonate_pct=3.0), "elemental sulfur, powder", 90.0)
    assert limy.ph_change_1_year == 0.0
    assert limy.share is not None and limy.share < 0.1


def test_prills_say_how_little_reacts_in_a_year(bed_case: Make) -> None:
    found = settled(bed_case(), "elemental sulfur, prills", 90.0)
    assert "reacts within a year" in read(found.comment)


def test_what_is_needed_without_an_aim_is_one_ph_unit(bed_case: Make) -> None:
    with_aim = settled(bed_case(7.0, target=6.0), "epsom salt", 1.0)
    without = settled(bed_case(7.0, target=None), "elemental sulfur, powder", 10.0)
    assert without.acid_needed_mmolc_m2 == pytest.approx(with_aim.acid_needed_mmolc_m2)
    assert "lower the pH by 1 (you gave no target)" in read(without.comment)


def test_the_wrong_way_is_called_so(bed_case: Make) -> None:
    acid = settled(bed_case(5.0, target=6.5), "elemental sulfur, powder", 30.0)
    assert acid.acid_needed_mmolc_m2 < 0.0 < acid.acid_brought_mmolc_m2
    assert acid.share is not None and acid.share < 0.0 and "keep it off" in read(acid.comment)
    lime = settled(bed_case(), "wood ash", 100.0)
    assert lime.share is not None and lime.share < 0.0 and "keep it off" in read(lime.comment)


def test_excess_lime_stops_at_the_plateau_of_calcite(bed_case: Make) -> None:
    found = settled(bed_case(5.0, target=6.5), "hydrated lime", 5000.0)
    assert found.ph_change_1_year is not None
    assert 8.0 < 5.0 + found.ph_change_1_year < 8.4


def test_what_is_already_on_its_way_is_taken_off_the_need(bed_case: Make) -> None:
    sulfur = load_materials()["elemental sulfur, powder"]
    applied = Applied(on=date(2026, 4, 11), material=sulfur, rate_g_m2=100.0, as_given="")
    fresh = settled(bed_case(), "epsom salt", 1.0).acid_needed_mmolc_m2
    left = settled(bed_case(applied=(applied,)), "epsom salt", 1.0).acid_needed_mmolc_m2
    assert fresh - left == pytest.approx(6176.0, rel=0.01)
    covered = Applied(on=date(2026, 4, 11), material=sulfur, rate_g_m2=500.0, as_given="")
    none = settled(bed_case(applied=(covered,)), "elemental sulfur, powder", 10.0)
    assert none.acid_needed_mmolc_m2 == 0.0 and none.share is None


def test_an_amount_off_the_curve_gives_no_change_and_says_so(bed_case: Make) -> None:
    found = settled(bed_case(texture="sand"), "sulfuric acid, 98 %", 20_000.0)
    assert found.ph_change_1_year is None and "where no figure holds" in read(found.comment)


def test_claims_are_alternatives_and_need_a_ph(bed_case: Make) -> None:
    material = load_materials()["elemental sulfur, powder"]
    entries = [ClaimEntry(material=material, rate_g_m2=rate, as_given="") for rate in (50.0, 50.0)]
    first, second = settle_claims(build_context(bed_case()), entries)
    assert first == second
    with pytest.raises(InputError, match="claim-no-ph"):
        settle_claim(bed_case(None), entries[0])
    assert settle_claims(build_context(bed_case(None)), entries) == ()


def test_a_product_known_by_its_label_is_run_through_the_year(bed_case: Make) -> None:
    """8 % of ammonium and of its sulfate's sulfur: a feed, which acidifies in the end."""
    feed = product_from_label("Heath Feed", "n_ammonium = 8, so3 = 22")
    entry = ClaimEntry(material=feed, rate_g_m2=50.0, as_given="")
    found = settle_claim(bed_case(), entry, seed=1, members=8)
    assert found.acid_brought_mmolc_m2 > 0.0
    assert found.ph_change_1_year is not None and found.ph_change_1_year < 0.0
