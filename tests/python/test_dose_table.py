"""Many soils at once: the same as one by one, in the user's own frame, a bad row by itself."""

from __future__ import annotations

import random
from datetime import date

import numpy as np
import pandas as pd
import polars as pl
import pytest

import loamshift
from loamshift.domain.case import Case
from loamshift.errors import CaseError, InputError
from loamshift.services.context.build_context import build_context
from loamshift.services.context.need import dose_to

TODAY = date(2026, 4, 12)
ADDED = [
    *("direction", "pure", "pure_lo90_g_m2", "pure_mid_g_m2", "pure_hi90_g_m2", "product"),
    *("product_lo90_g_m2", "product_mid_g_m2", "product_hi90_g_m2", "acid_mid_mmolc_kg", "fault"),
]
TABLE = {
    "bed": ["a", "b", "c", "d", "e", "f", "g"],
    "pH": [7.2, 5.2, 70.0, 6.5, 6.5, 6.5, 7.9],
    "ph_method": ["water 1:2.5"] * 7,
    "target_ph": [6.5, 6.5, 6.0, None, 6.0, 6.0, 6.5],
    "texture": ["loam", "sand", "loam", "loam", "lome", "loam", "clay"],
    "organic_matter_pct": [3.0, 1.5, 3.0, 3.0, 3.0, 300.0, None],
    "depth": ["6 in", "15 cm", "15 cm", "15 cm", "15 cm", "15 cm", "15 cm"],
    "fizz": [None, None, None, None, None, None, "slight"],
    "fizz_acid": [None, None, None, None, None, None, "HCl"],
}


def random_tree(draw: random.Random) -> dict[str, dict[str, object]]:
    soil: dict[str, object] = {
        "ph": round(draw.uniform(2.2, 9.0), 2),
        "ph_method": draw.choice(["water 1:1", "CaCl2", "probe", "KCl"]),
    }
    if draw.random() < 0.5:
        soil["texture"] = draw.choice(["loam", "sand", "clay", "silt loam"])
    elif draw.random() < 0.8:
        soil["clay_pct"] = round(draw.uniform(0, 60), 1)
    if draw.random() < 0.7:
        soil["organic_matter_pct"] = round(draw.uniform(0.5, 40), 1)
    if draw.random() < 0.2:
        soil["carbonate_pct"] = round(draw.uniform(0, 5), 2)
    elif draw.random() < 0.4:
        soil |= {"fizz": draw.choice(["none", "slight", "strong"]), "fizz_acid": "HCl"}
    if draw.random() < 0.2:
        soil["bulk_density_g_cm3"] = 1.1
    return {"soil": soil, "aim": {"target_ph": round(draw.uniform(4.2, 7.2), 1)}}


def alone(case: Case) -> tuple[float, float, float]:
    context = build_context(case)
    assert context.soil is not None and case.aim.target_ph is not None
    acidify = case.aim.target_ph < context.soil.ph.ph_water
    band = dose_to(context, case.aim.target_ph, acidify=acidify)
    return band.lo90, band.mid, band.hi90


def test_every_row_is_what_one_bed_alone_would_get() -> None:
    draw = random.Random(3)
    trees, cases = [], []
    while len(cases) < 120:
        tree = random_tree(draw)
        try:
            cases.append(loamshift.new_case(tree, today=TODAY))
        except CaseError:
            continue
        trees.append({**tree["soil"], "target_ph": tree["aim"]["target_ph"], "depth": 20})
    cases = [loamshift.new_case(_tree(flat), today=TODAY) for flat in trees]
    keys = sorted({key for flat in trees for key in flat})
    table = loamshift.dose_table({key: [flat.get(key) for flat in trees] for key in keys})
    assert table["fault"] == [None] * len(cases)
    found = np.array([table[f"pure_{end}_g_m2"] for end in ("lo90", "mid", "hi90")]).T
    wanted = np.array([alone(case) for case in cases])
    np.testing.assert_allclose(found, wanted, rtol=1e-8, atol=1e-6)


def _tree(flat: dict[str, object]) -> dict[str, object]:
    soil = {key: value for key, value in flat.items() if key not in ("target_ph", "depth")}
    return {"soil": soil, "aim": {"target_ph": flat["target_ph"]}, "bed": {"depth": flat["depth"]}}


@pytest.mark.parametrize("kind", [pd.DataFrame, pl.DataFrame, dict])
def test_a_bad_row_says_what_is_wrong_and_the_others_are_worked_out(kind: type) -> None:
    made = loamshift.dose_table(kind(TABLE))
    assert isinstance(made, kind)
    faults = [None if pd.isna(one) else one for one in made["fault"]]
    assert [fault is None for fault in faults] == [True, True, False, False, False, False, True]
    assert "Did you mean ph = 7?" in faults[2] and faults[3] == "target_ph is empty. Enter a value."
    assert 'Did you mean "loam"' in faults[4] and "must be from 0 to 100 %" in faults[5]
    directions = [None if pd.isna(one) else one for one in made["direction"]]
    assert directions == ["acidify", "lime", None, None, None, None, "acidify"]
    amounts = list(made["product_mid_g_m2"])
    assert amounts[0] > 0.0 and amounts[1] > 0.0
    assert all(pd.isna(amounts[place]) for place in range(2, 6))


def test_the_users_columns_order_and_index_are_kept() -> None:
    frame = pd.DataFrame(TABLE, index=[f"row {i}" for i in range(7)])
    made = loamshift.dose_table(frame)
    assert list(made.columns) == [*TABLE, *ADDED]
    assert list(made.index) == list(frame.index)
    pd.testing.assert_frame_equal(made[list(TABLE)], frame)
    assert loamshift.dose_table(pl.DataFrame(TABLE)).columns == [*TABLE, *ADDED]


def test_a_row_does_not_hang_on_its_neighbours() -> None:
    whole = loamshift.dose_table(pl.DataFrame(TABLE))
    for place in (0, 1, 6):
        lone = loamshift.dose_table(pl.DataFrame(TABLE)[place])
        assert lone["pure_mid_g_m2"][0] == whole["pure_mid_g_m2"][place]


def test_product_and_pure_bring_the_same() -> None:
    made = loamshift.dose_table({"ph": [7.2, 5.2], "target_ph": [6.5, 6.5]})
    assert made["pure"] == ["S", "CaCO3"]
    for pure, product in zip(made["pure_mid_g_m2"], made["product_mid_g_m2"], strict=True):
        assert 0.85 < pure / product <= 1.0
    iron = loamshift.dose_table({"ph": [7.2], "target_ph": [6.5]}, acidifier="aluminium sulphate")
    assert iron["product_mid_g_m2"][0] > 4.0 * made["product_mid_g_m2"][0]


def test_no_step_takes_nothing() -> None:
    made = loamshift.dose_table(
        {"ph": [6.5], "ph_method": ["water 1:2.5"], "target_ph": [6.5], "target_method": [None]}
    )
    assert made["direction"] == ["none"] and made["pure_mid_g_m2"] == [0.0]
    assert made["product"] == [None] and made["acid_mid_mmolc_kg"] == [0.0]


def test_columns_may_have_the_users_own_names() -> None:
    frame = pl.DataFrame({"pH (H2O)": [7.2], "wanted": [6.5]})
    made = loamshift.dose_table(frame, columns={"pH (H2O)": "ph", "wanted": "target_ph"})
    assert made["direction"][0] == "acidify"
    with pytest.raises(InputError, match=r"needs the columns ph and target_ph\. It has pH"):
        loamshift.dose_table(frame)


@pytest.mark.parametrize(
    ("table", "said"),
    [
        (3, "This is not a table"),
        ({"ph": [7.0], "pH": [7.0], "target_ph": [6.5]}, "Two columns of the table"),
        ({"ph": [7.0], "target_ph": [6.5], "fault": [""]}, "has a column “fault” already"),
    ],
)
def test_a_table_that_cannot_be_used_is_told(table: object, said: str) -> None:
    with pytest.raises(InputError, match=said):
        loamshift.dose_table(table)


def test_a_product_that_brings_nothing_is_told() -> None:
    with pytest.raises(InputError, match="brings no lasting acid"):
        loamshift.dose_table({"ph": [7.0], "target_ph": [6.5]}, acidifier="gypsum")


def test_shares_that_do_not_add_up_and_peat_are_faults_of_their_rows() -> None:
    made = loamshift.dose_table(
        {
            "ph": [7.0, 7.0],
            "target_ph": [6.5, 6.5],
            "sand_pct": [80, None],
            "silt_pct": [30, None],
            "clay_pct": [20, None],
            "medium": [None, "peat mix"],
        }
    )
    assert "130" in made["fault"][0] or "100" in made["fault"][0]
    assert "Only mineral soil" in made["fault"][1]


def test_an_empty_table_comes_back_with_its_columns() -> None:
    made = loamshift.dose_table(pl.DataFrame({"ph": [], "target_ph": []}))
    assert made.columns == ["ph", "target_ph", *ADDED] and made.height == 0
