from __future__ import annotations

import pytest

from loamshift.core.bag_label import (
    CACO3_PER_CAO,
    PHOSPHORUS_PER_P2O5,
    SULFUR_PER_SO3,
    ammonia_base_molc_kg,
    ions_molc_kg,
    label_salt_molc_kg,
    least_weight_frac,
    unplaced_molc_kg,
)
from loamshift.errors import OutOfRangeError

P = PHOSPHORUS_PER_P2O5
PURE = {
    "ammonium sulfate": {"n_ammonium": 0.212, "s_sulfate": 0.2426},
    "ammonium nitrate": {"n_ammonium": 0.175, "n_nitrate": 0.175},
    "urea": {"n_urea": 0.4665},
    "limestone": {"nv_as_caco3": 1.0, "ca": 0.4004},
    "burnt lime": {"nv_as_caco3": 1.785, "ca": 0.7147},
    "magnesium oxide": {"nv_as_caco3": 2.483},
    "sulfur": {"s_element": 0.9, "filler": 0.1},
}


def test_the_factors_of_the_trade() -> None:
    assert round(SULFUR_PER_SO3, 4) == 0.4005
    assert round(P, 4) == 0.4364
    assert round(CACO3_PER_CAO, 3) == 1.785


@pytest.mark.parametrize("name", PURE)
def test_a_pure_compound_fills_its_bag_and_no_more(name: str) -> None:
    weight = least_weight_frac(PURE[name])
    # the carbon dioxide of a carbonate is not counted, for the lime might be an oxide
    assert weight == pytest.approx(0.56 if name == "limestone" else 1.0, abs=0.01)


def test_more_than_the_bag_is_more_than_one() -> None:
    assert least_weight_frac({"n_urea": 0.5}) > 1.05
    assert least_weight_frac({"n_ammonium": 0.21, "s_sulfate": 0.24, "filler": 0.1}) > 1.05


@pytest.mark.parametrize(
    ("nitrogen", "p2o5", "per_phosphorus"),
    [(0.2121, 0.5374, 1.0), (0.1218, 0.617, 0.0), (0.05, 0.5, 0.0)],
)
def test_the_base_of_phosphate_follows_from_its_ammonium(
    nitrogen: float, p2o5: float, per_phosphorus: float
) -> None:
    ions = ions_molc_kg(n_as_nh4_frac=nitrogen, p_frac=P * p2o5)
    assert ammonia_base_molc_kg(ions) == pytest.approx(per_phosphorus * ions.phosphate, abs=0.06)


def test_ammonium_that_is_a_sulfate_or_nitrate_is_no_base() -> None:
    blend = ions_molc_kg(n_as_nh4_frac=0.12, s_as_so4_frac=0.137, p_frac=0.05)
    assert ammonia_base_molc_kg(blend) < 0.1
    assert ammonia_base_molc_kg(ions_molc_kg(n_as_nh4_frac=0.17, n_as_no3_frac=0.17)) == 0.0


def test_calcium_without_a_partner_may_be_lime() -> None:
    assert unplaced_molc_kg(ions_molc_kg(ca_frac=0.38)) == pytest.approx(18.96, abs=0.01)
    assert unplaced_molc_kg(ions_molc_kg(ca_frac=0.38, caco3_eq_frac=0.95)) == 0.0
    assert unplaced_molc_kg(ions_molc_kg(ca_frac=0.19, n_as_no3_frac=0.144)) == 0.0
    assert unplaced_molc_kg(ions_molc_kg(ca_frac=0.20, s_as_so4_frac=0.12, p_frac=0.08)) == 0.0


def test_lime_is_no_salt() -> None:
    assert label_salt_molc_kg(ions_molc_kg(ca_frac=0.38, caco3_eq_frac=0.95)) == pytest.approx(
        0.0, abs=0.05
    )


@pytest.mark.parametrize("share", [-0.1, 1.1, float("nan")])
def test_an_impossible_share_is_refused(share: float) -> None:
    with pytest.raises(OutOfRangeError, match="n_as_nh4_frac"):
        ions_molc_kg(n_as_nh4_frac=share)
