"""Limits of plants: the figure as its source prints it, and what it holds for."""

from __future__ import annotations

import csv

import pytest
from common import SOURCES
from plant_disagreements import TAKEN
from plant_ranges import later_rows

from loamshift.tables.plants import find_plant, load_plants
from loamshift.tables.rows import read_rows


@pytest.mark.parametrize(
    ("name", "side", "ph", "source_key"),
    [
        # Rice, Penney and Nyborg 1977: nodulation and yield of lucerne fall below 6.0
        ("lucerne", "low", 6.0, "rice-1977"),
        # the same, red clover: bacteria fall below 4.9, yield not at 4.5
        ("red clover", "low", 4.9, "rice-1977"),
        # Bache and Ross: spring barley, critical 5.2 in CaCl2, about 5.9 in water
        ("barley", "low", 5.9, "bache-ross-barley"),
        # British Beet Research Organisation 2020: less sugar between 7 and 6
        ("sugar beet", "low", 6.0, "bbro-2020-ph"),
        # Oregon State: alsike as low as 5.1; crimson clover 5 to 8
        ("alsike clover", "low", 5.1, "oregon-state-forage-tables"),
        ("crimson clover", "high", 8.0, "oregon-state-forage-tables"),
        # Auburn: manganese lack of peanut above 7.0
        ("peanut", "high", 7.0, "gamble-peanut"),
        # Purdue: pin oak yellow above 7.3
        ("pin oak", "high", 7.3, "burbrink-2018"),
        # Jiang and others: blueberry, highest treatment 6.0
        ("blueberry", "high", 6.0, "jiang-blueberry"),
        # Turf Grass Managers of South Africa: below 5.5 can be toxic
        ("lawn", "low", 5.5, "tgmsa-turf-ph"),
    ],
)
def test_published_limits(name: str, side: str, ph: float, source_key: str) -> None:
    plant = find_plant(name)
    assert getattr(plant, f"harmful_{side}") == ph
    deciding = [
        limit
        for limit in plant.limits
        if side in limit.decides and limit.kind != "occurrence" and limit.medium == "soil"
    ]
    assert [limit.source_key for limit in deciding] == [source_key]


def test_limits_of_potting_mixes_stay_with_containers() -> None:
    # University of Maryland 2006: iron lack above 6.2 in mixes without soil
    petunia = find_plant("petunia")
    assert petunia.container_harmful_high == 6.2
    assert petunia.harmful_high is None
    # Michigan State, zonal pelargonium: drench with lime below 5.5
    pelargonium = find_plant("geranium")
    assert pelargonium.container_harmful_low == 5.5
    assert pelargonium.harmful_low is None


def test_nutrient_solutions_limit_nothing() -> None:
    solution = [
        limit
        for plant in load_plants().values()
        for limit in plant.limits
        if limit.medium == "solution"
    ]
    assert len(solution) == 7
    assert not any(limit.decides for limit in solution)
    assert find_plant("white lupin").harmful_high is None


def test_a_limit_in_calcium_chloride_is_converted_and_keeps_the_figure_printed() -> None:
    # GRDC 2022: rhizobia of field pea sensitive below 5.5 in CaCl2; +0.6 by the default row
    limit = next(one for one in find_plant("field pea").limits if one.basis == "CaCl2")
    assert limit.ph_low == pytest.approx(6.1)
    row = next(
        row
        for row in read_rows("plant_limits")
        if row["plant"] == "field pea" and row["basis"] == "CaCl2"
    )
    assert row["printed"] == "5.5-"
    assert find_plant("field pea").harmful_low is None  # 6.1 lies inside the range 6 to 7


def test_occurrence_is_kept_apart_from_ranges() -> None:
    # USDA PLANTS: sugar maple 3.7 to 7.9, highbush blueberry 4.7 to 7.5
    maple = find_plant("sugar maple")
    assert (maple.occurrence_low, maple.occurrence_high) == (3.7, 7.9)
    assert not [s for s in maple.sources if s.source_key == "usda-plants-characteristics"]
    for name in ("cassava", "longleaf pine"):
        plant = find_plant(name)
        assert plant.occurrence_low is None
        assert [limit for limit in plant.limits if limit.kind == "occurrence"]


def test_every_disagreement_is_settled_with_a_reason() -> None:
    flagged = [row for row in later_rows() if "DISAGREES" in row["note"]]
    rows = read_rows("plant_disagreements")
    assert len(rows) == len(flagged) == 103
    assert {row["taken"] for row in rows} <= set(TAKEN)
    assert all(len(row["why"]) > 20 for row in rows)
    assert {row["plant"] for row in rows} <= set(load_plants())
    with (SOURCES / "plant_disagreements.csv").open(encoding="utf-8") as handle:
        assert len({tuple(row[:3]) for row in csv.reader(handle)}) == 104


def test_wrong_looking_ranges_start_no_plan() -> None:
    doubtful = {plant.key for plant in load_plants().values() if plant.doubtful}
    assert doubtful == {"norway spruce", "swamp white oak", "boston ivy"}


def test_oats_and_rye_do_not_ask_for_acid() -> None:
    for name in ("oats", "rye"):
        plant = find_plant(name)
        assert plant.tolerates_acid
        assert plant.ph_high > 6.5  # AHDB 2013: 6 to 7.5
    assert not find_plant("blueberry").tolerates_acid
