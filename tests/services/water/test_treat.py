from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loamshift.errors import InputError, OutOfRangeError
from loamshift.services.water.treat import treat_water
from tries import tries
from wording import read


def amounts(**given: float) -> dict[str, float]:
    result = treat_water(**given)  # type: ignore[arg-type]
    return {dose.product: dose.amount.mid for dose in result.products}


def test_taking_out_100_mg_l_needs_the_volumes_of_stoichiometry() -> None:
    """mL per 100 L for 100 mg/L CaCO3, by formula masses and densities (our own arithmetic)."""
    found = amounts(alkalinity_mg_l_as_caco3=140.0, target_alkalinity_mg_l_as_caco3=40.0)
    assert found["sulfuric acid 93 %"] == pytest.approx(5.74, rel=0.01)
    assert found["sulfuric acid 98 %"] == pytest.approx(5.43, rel=0.01)
    assert found["sulfuric acid 35 %"] == pytest.approx(22.2, rel=0.01)
    assert found["nitric acid 67 %"] == pytest.approx(13.42, rel=0.01)


def test_phosphoric_and_citric_acid_count_the_protons_they_give_at_that_ph() -> None:
    """One proton of phosphoric acid gives 16.5 mL; it gives a few per cent more at pH 6."""
    found = amounts(alkalinity_mg_l_as_caco3=140.0, target_alkalinity_mg_l_as_caco3=40.0)
    assert 0.90 * 16.53 < found["phosphoric acid 75 %"] < 16.53
    assert found["citric acid"] > 14.0  # three protons would be 14.0 g; not all are given


def test_lime_of_a_year_is_ten_grams_per_100_mm_and_100_mg_l() -> None:
    result = treat_water(alkalinity_mg_l_as_caco3=100.0, water_mm_year=100.0)
    assert result.lime_g_m2_year == pytest.approx(10.0)
    assert result.sulfur_as_s_g_m2_year == pytest.approx(10.0 / 3.122, rel=1e-3)


def test_what_is_left_after_treatment_is_what_was_asked() -> None:
    result = treat_water(
        alkalinity_mg_l_as_caco3=220.0, target_alkalinity_mg_l_as_caco3=60.0, water_mm_year=500.0
    )
    assert result.alkalinity_left_mg_l_as_caco3.mid == pytest.approx(60.0)
    assert result.lime_left_g_m2_year == pytest.approx(30.0)


def test_the_ph_after_leads_back_to_the_same_acid() -> None:
    first = treat_water(
        alkalinity_mg_l_as_caco3=220.0, ph_start=7.5, target_alkalinity_mg_l_as_caco3=60.0
    )
    assert first.ph_after is not None
    again = treat_water(alkalinity_mg_l_as_caco3=220.0, ph_start=7.5, target_ph=first.ph_after.mid)
    assert again.acid_mmolc_l.mid == pytest.approx(first.acid_mmolc_l.mid, rel=1e-6)


def test_a_ph_nobody_read_is_carried_through_as_a_range() -> None:
    unread = treat_water(alkalinity_mg_l_as_caco3=220.0, target_ph=5.8)
    read = treat_water(alkalinity_mg_l_as_caco3=220.0, target_ph=5.8, ph_start=7.6)
    assert unread.ph_start_assumed and not read.ph_start_assumed
    assert unread.acid_mmolc_l.lo90 < read.acid_mmolc_l.mid < unread.acid_mmolc_l.hi90
    assert read.acid_mmolc_l.lo90 == read.acid_mmolc_l.hi90


def test_water_of_low_alkalinity_needs_no_acid_and_no_caution() -> None:
    result = treat_water(alkalinity_mg_l_as_caco3=20.0)
    assert result.acid_mmolc_l.mid == 0.0
    assert result.products == () and result.cautions == ()


def test_acid_always_comes_with_how_to_handle_it() -> None:
    result = treat_water(alkalinity_mg_l_as_caco3=200.0)
    assert [caution.code for caution in result.cautions] == ["acid-handling"]
    assert "never water into acid" in read(result.cautions[0].text)
    assert result.cautions[0].handling


def test_more_phosphoric_acid_than_a_fact_sheet_allows_is_said() -> None:
    much = treat_water(alkalinity_mg_l_as_caco3=300.0)
    little = treat_water(alkalinity_mg_l_as_caco3=80.0)
    remark = {dose.product: dose.remark for dose in much.products}["phosphoric acid 75 %"]
    assert "17.6 mL per 100 L" in read(remark)
    assert "2.3 fl oz per 100 US gallons" in read(remark, units="us")  # 17.6 x 3.785 / 29.57
    remark = {dose.product: dose.remark for dose in little.products}["phosphoric acid 75 %"]
    assert "17.6" not in read(remark)


def test_hardness_is_never_taken_for_alkalinity() -> None:
    with pytest.raises(InputError, match="hardness counts calcium and magnesium"):
        treat_water(alkalinity_mg_l_as_caco3=None, hardness_mg_l_as_caco3=270.0)


def test_hardness_beside_alkalinity_changes_no_figure_and_is_explained() -> None:
    without = treat_water(alkalinity_mg_l_as_caco3=200.0)
    beside = treat_water(alkalinity_mg_l_as_caco3=200.0, hardness_mg_l_as_caco3=300.0)
    assert beside.products == without.products
    assert "water-hardness-left-out" in [comment.key for comment in beside.comments]


@pytest.mark.parametrize(
    "given",
    [
        {"alkalinity_mg_l_as_caco3": -1.0},
        {"alkalinity_mg_l_as_caco3": 1500.0},
        {"alkalinity_mg_l_as_caco3": float("nan")},
        {"alkalinity_mg_l_as_caco3": 200.0, "target_alkalinity_mg_l_as_caco3": 5.0},
        {"alkalinity_mg_l_as_caco3": 200.0, "target_alkalinity_mg_l_as_caco3": 250.0},
        {"alkalinity_mg_l_as_caco3": 200.0, "target_ph": 3.0},
        {"alkalinity_mg_l_as_caco3": 200.0, "ph_start": 7.0, "target_ph": 7.5},
        {"alkalinity_mg_l_as_caco3": 200.0, "water_mm_year": -5.0},
    ],
)
def test_impossible_waters_are_refused(given: dict[str, float]) -> None:
    with pytest.raises(OutOfRangeError):
        treat_water(**given)  # type: ignore[arg-type]


def test_two_targets_at_once_are_refused() -> None:
    with pytest.raises(InputError, match="not both"):
        treat_water(
            alkalinity_mg_l_as_caco3=200.0, target_ph=6.0, target_alkalinity_mg_l_as_caco3=50.0
        )


@tries(30)
@given(st.floats(min_value=60.0, max_value=500.0), st.floats(min_value=5.0, max_value=6.9))
def test_more_alkalinity_and_a_lower_ph_take_more_acid(alkalinity: float, ph: float) -> None:
    def acid(alkalinity: float, ph: float) -> float:
        return treat_water(
            alkalinity_mg_l_as_caco3=alkalinity, ph_start=7.5, target_ph=ph
        ).acid_mmolc_l.mid

    assert acid(alkalinity + 20.0, ph) > acid(alkalinity, ph) > acid(alkalinity, ph + 0.1) > 0.0
