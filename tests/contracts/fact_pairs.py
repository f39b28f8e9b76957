"""Two values for every key of the case file, and beds to try them on."""

from __future__ import annotations

import copy
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from loamshift.case.schema import CaseFile, item_table
from loamshift.case.schema_base import Table

Tree = dict[str, Any]

LOAM: Tree = {
    "case": 1,
    "name": "Bed",
    "today": "2026-04-12",
    "place": {"name": "Minneapolis"},
    "bed": {"area": "20 m2", "planted": False, "depth": "15 cm"},
    "soil": {
        "ph": 7.0,
        "ph_method": "water 1:1",
        "texture": "loam",
        "organic_matter_pct": 3,
        "sampled": "2026-03-20",
        "sample_depth": "15 cm",
    },
    "aim": {"target_ph": 5.8},
}


def put(tree: Tree, path: str, value: Any) -> None:
    """Set a key by its path; ``[]`` stands for the first entry of a list, None takes it out."""
    *folders, last = path.split(".")
    for name in folders:
        if name.endswith("[]"):
            tree = tree.setdefault(name[:-2], [{}])[0]
        else:
            tree = tree.setdefault(name, {})
    if value is None:
        tree.pop(last, None)
    else:
        tree[last] = copy.deepcopy(value)


def changed(base: Tree, changes: Mapping[str, Any]) -> Tree:
    """A copy of a tree with some keys set."""
    tree = copy.deepcopy(base)
    for path, value in changes.items():
        put(tree, path, value)
    return tree


CABBAGE = {"aim": {"plant": "cabbage"}}
BEDS: Mapping[str, Tree] = {
    "acidify": LOAM,
    "lime": changed(LOAM, {"soil.ph": 5.2, **CABBAGE}),
    "leave": changed(LOAM, {"soil.ph": 6.5, **CABBAGE}),
    "peat pot": changed(
        LOAM,
        {
            "bed": {"kind": "container", "area": "0.07 m2", "count": 4},
            "soil": {"ph": 6.4, "ph_method": "water 1:5", "medium": "peat mix"},
            "aim": {"plant": "highbush blueberry"},
        },
    ),
    "laboratory": changed(
        LOAM, {"soil.texture": None, "soil.sand_pct": 45, "soil.silt_pct": 35, "soil.clay_pct": 20}
    ),
    "planted": changed(LOAM, {"bed.planted": True}),
    "no pH": changed(
        LOAM,
        dict.fromkeys(("soil.ph", "soil.ph_method", "soil.sampled", "soil.sample_depth")),
    ),
    "no aim": changed(LOAM, {"aim": None}),
    "salty": changed(LOAM, {"soil.ec_ds_m": 9, "soil.ec_method": "paste"}),
}

PRILLS = {"date": "2025-09-05", "material": "elemental sulfur, prills"}
READING = {"date": "2025-03-01", "ph": 7.2, "ph_method": "water 1:1"}
HAND = {
    "material": "elemental sulfur, powder",
    "pack": "25 kg",
    "price": 30,
    "currency": "GBP",
}
BELOW = {"top": "40 cm", "bottom": "60 cm", "ph": 7.8}
JAR_PRICE = {"test": "jars", "price": 20}
GROUNDS = {"material": "coffee grounds"}
COOL = [1, 2, 5, 9, 14, 17, 19, 18, 15, 10, 5, 2]
WARM = [5, 6, 9, 13, 18, 21, 23, 22, 19, 14, 9, 6]
DRY, WET = [20.0] * 12, [90.0] * 12
JARS = [{"acid_mmolc_kg": 0, "ph": 7.0}, {"acid_mmolc_kg": 5, "ph": 6.7}]
FEED = {"feed.material": "ammonium sulfate", "feed.rate": "20 g/m2"}

PAIRS: Mapping[str, tuple[Any, Any, Mapping[str, Any]]] = {
    "name": ("North", "South", {}),
    "today": ("2026-04-12", "2026-09-12", {}),
    "units": ("metric", "us", {}),
    "place.name": ("Minneapolis", "Miami", {}),
    "place.latitude": (44.98, 51.5, {"place": {"longitude": -0.1}}),
    "place.longitude": (-93.3, -0.1, {"place": {"latitude": 51.5}}),
    "place.air_temp_c": (COOL, WARM, {"place": {"latitude": 45, "rain_mm": WET}}),
    "place.rain_mm": (DRY, WET, {"place": {"latitude": 45, "air_temp_c": COOL}}),
    "place.daily_file": ("cool.csv", "warm.csv", {"place": {"latitude": 45}}),
    "place.soil_temp_file": ("cool-soil.csv", "warm-soil.csv", {}),
    "place.soil_temp[].date": ("2026-04-01", "2026-01-01", {"place.soil_temp": [{"c": 8}]}),
    "place.soil_temp[].c": (4, 12, {"place.soil_temp": [{"date": "2026-04-01"}]}),
    "place.soil_temp[].depth": (
        "5 cm",
        "20 cm",
        {"place.soil_temp": [{"date": "2026-04-01", "c": 8}]},
    ),
    "bed.kind": ("ground", "lawn", {}),
    "bed.area": ("20 m2", "45 m2", {}),
    "bed.depth": ("10 cm", "25 cm", {}),
    "bed.count": (1, 3, {}),
    "bed.plants": (2, 5, {}),
    "bed.treated_diameter": ("60 cm", "90 cm", {"bed.plants": 2}),
    "bed.planted": (True, False, {}),
    "bed.growing": (["rhododendron"], ["cabbage"], {}),
    "bed.drainage": ("free", "slow", {}),
    "bed.site": ("ordinary", "old-urban", {}),
    "bed.surroundings": (["concrete"], ["mortar"], {}),
    "bed.signs": (["yellow-young-leaves"], ["planted-too-deep"], {}),
    "bed.before": ("turf", "garden", {"bed.before_years": 1}),
    "bed.before_years": (1, 20, {"bed.before": "turf"}),
    "soil.ph": (6.9, 5.4, {}),
    "soil.ph_method": ("water 1:1", "CaCl2", {}),
    "soil.other_ph[].ph": (6.0, 6.6, {"soil.other_ph": [{"ph_method": "CaCl2"}]}),
    "soil.other_ph[].ph_method": ("CaCl2", "water 1:5", {"soil.other_ph": [{"ph": 6.3}]}),
    "soil.layer[].top": ("30 cm", "45 cm", {"soil.layer": [BELOW]}),
    "soil.layer[].bottom": ("60 cm", "90 cm", {"soil.layer": [BELOW]}),
    "soil.layer[].ph": (4.4, 8.0, {"soil.layer": [BELOW]}),
    "soil.layer[].ph_method": ("water 1:1", "CaCl2", {"soil.layer": [BELOW]}),
    "soil.layer[].carbonate_pct": (1, 20, {"soil.layer": [BELOW]}),
    "soil.layer[].fizz": ("none", "strong", {"soil.layer": [BELOW]}),
    "soil.layer[].fizz_acid": (
        "HCl",
        "vinegar",
        {"soil.layer": [{**BELOW, "fizz": "strong"}]},
    ),
    "pot.compare": (True, False, {}),
    "pot.volume": ("20 L", "60 L", {"pot.compare": True}),
    "pot.medium": ("peat mix", "bark mix", {"pot.compare": True}),
    "pot.mix_price": (0.2, 0.4, {"pot.compare": True}),
    "pot.price": (8, 15, {"pot.compare": True}),
    "soil.texture": ("sand", "clay", {}),
    "soil.sand_pct": (44, 46, {}),
    "soil.silt_pct": (34, 36, {}),
    "soil.clay_pct": (19, 21, {}),
    "soil.organic_matter_pct": (2, 6, {}),
    "soil.organic_carbon_pct": (1, 3, {}),
    "soil.medium": ("mineral", "peat mix", {}),
    "soil.carbonate_pct": (0, 2, {}),
    "soil.fizz": ("none", "strong", {}),
    "soil.fizz_acid": ("HCl", "vinegar", {"soil.fizz": "slight"}),
    "soil.buffer_ph": (6.2, 6.7, {"soil.buffer_ph_method": "Sikora"}),
    "soil.buffer_ph_method": ("Sikora", "Adams-Evans", {"soil.buffer_ph": 6.5}),
    "soil.lab_lime_requirement": ("2 t/ha", "5 t/ha", {}),
    "soil.cec_cmolc_kg": (8, 20, {"soil.base_saturation_pct": 80}),
    "soil.base_saturation_pct": (50, 90, {"soil.cec_cmolc_kg": 12}),
    "soil.exchangeable_al_cmolc_kg": (0.1, 3, {}),
    "soil.mg_saturation_pct": (3, 20, {}),
    "soil.mg_mg_kg": (30, 150, {}),
    "soil.p_level": ("low", "very high", {"aim": {"plant": "hydrangea (blue flowers)"}}),
    "soil.sodium_pct": (2, 20, {}),
    "soil.ec_ds_m": (0.3, 6, {"soil.ec_method": "paste"}),
    "soil.ec_method": ("paste", "1:5", {"soil.ec_ds_m": 0.9}),
    "soil.bulk_density_g_cm3": (1.1, 1.5, {}),
    "soil.clay_type": ("volcanic", "low activity", {}),
    "soil.sampled": ("2026-03-20", "2023-03-20", {}),
    "soil.sample_depth": ("15 cm", "40 cm", {}),
    "aim.plant": ("highbush blueberry", "cabbage", {}),
    "aim.target_ph": (5.6, 6.8, {}),
    "aim.target_method": ("water 1:1", "CaCl2", {"aim.target_ph": 5.8}),
    "aim.by": ("2026-10-01", "2029-05-01", {}),
    "water.alkalinity": ("50 mg/L CaCO3", "250 mg/L CaCO3", {}),
    "water.weekly": ("10 mm", "40 mm", {}),
    "water.months": ([6], [4, 5, 6, 7, 8, 9], {"water.alkalinity": "200 mg/L CaCO3"}),
    "water.hardness": ("10 dH", "20 dH", {}),
    "feed.n_g_m2_year": (4, 12, {"feed.form": "ammonium"}),
    "feed.form": ("ammonium", "nitrate", {"feed.n_g_m2_year": 8}),
    "feed.material": ("ammonium sulfate", "urea", {"feed.rate": "20 g/m2"}),
    "feed.label": (
        {"n_ammonium_pct": 21},
        {"n_nitrate_pct": 15},
        {"feed.material": "Heath Feed", "feed.rate": "30 g/m2"},
    ),
    "feed.rate": ("10 g/m2", "40 g/m2", {"feed.material": "ammonium sulfate"}),
    "feed.times": (1, 3, FEED),
    "on_hand[].material": ("elemental sulfur, prills", "ground limestone", {"on_hand": [HAND]}),
    "on_hand[].label": ({"s_element_pct": 30}, {"s_element_pct": 95}, {"on_hand": [HAND]}),
    "on_hand[].purity_pct": (60, 95, {"on_hand": [HAND]}),
    "on_hand[].pack": ("5 kg", "25 kg", {"on_hand": [HAND]}),
    "on_hand[].price": (10, 30, {"on_hand": [HAND]}),
    "on_hand[].currency": ("GBP", "EUR", {"on_hand": [HAND]}),
    "currency": ("GBP", "EUR", {"test_price": [JAR_PRICE]}),
    "test_price[].test": ("jars", "core", {"test_price": [JAR_PRICE], "currency": "GBP"}),
    "test_price[].price": (5, 80, {"test_price": [JAR_PRICE]}),
    "applied[].date": ("2026-03-01", "2024-09-01", {"applied": [{**PRILLS, "rate": "60 g/m2"}]}),
    "applied[].material": (
        "elemental sulfur, powder",
        "gypsum",
        {"applied": [{**PRILLS, "rate": "60 g/m2"}]},
    ),
    "applied[].label": (
        {"s_element_pct": 30},
        {"k2o_pct": 50, "so3_pct": 45},
        {"applied": [{**PRILLS, "material": "Valley Sulphate", "rate": "60 g/m2"}]},
    ),
    "applied[].amount": ("2 g", "9 g", {"applied": [PRILLS]}),
    "applied[].rate": ("20 g/m2", "150 g/m2", {"applied": [PRILLS]}),
    "applied[].incorporated": (0, "15 cm", {"applied": [{**PRILLS, "rate": "60 g/m2"}]}),
    "reading[].date": ("2025-03-01", "2026-04-01", {"reading": [READING]}),
    "reading[].ph": (6.9, 7.8, {"reading": [READING]}),
    "reading[].ph_method": ("water 1:1", "CaCl2", {"reading": [READING]}),
    "reading[].depth": ("15 cm", "5 cm", {"reading": [READING]}),
    "reading[].ph_sd": (0.05, 0.5, {"reading": [READING]}),
    "titration[].acid_mmolc_kg": (10, 60, {"titration": [{"ph": 5.5}, *JARS]}),
    "titration[].ph": (5.0, 6.2, {"titration": [{"acid_mmolc_kg": 40}, *JARS]}),
    "claim[].material": ("coffee grounds", "gypsum", {"claim": [{**GROUNDS, "rate": "1 kg/m2"}]}),
    "claim[].label": (
        {"s_element_pct": 30},
        {"k2o_pct": 50, "so3_pct": 45},
        {"claim": [{"material": "Valley Sulphate", "rate": "60 g/m2"}]},
    ),
    "claim[].amount": ("0.1 kg", "2 kg", {"claim": [GROUNDS]}),
    "claim[].rate": ("0.2 kg/m2", "4 kg/m2", {"claim": [GROUNDS]}),
}
"""By path: one value, another, and what has to stand beside it."""


def schema_keys(table: type[Table] = CaseFile, prefix: str = "") -> Iterator[str]:
    """Every key of the case file that takes a value; ``[]`` stands for each entry of a list."""
    for key, field in table.model_fields.items():
        inner, is_list = item_table(field.annotation)
        if inner is None:
            yield f"{prefix}{key}"
        else:
            yield from schema_keys(inner, f"{prefix}{key}{'[]' if is_list else ''}.")


def tree_with(bed: str, path: str, value: Any) -> Tree:
    """A bed with one key set to a value, or left out where the value is None."""
    tree = changed(BEDS[bed], PAIRS[path][2])
    put(tree, path, value)
    return tree


def write_stations(folder: Path) -> None:
    """Two daily files and two of soil thermometers, one cool and one warm each."""
    for name, temps in (("cool", COOL), ("warm", WARM)):
        lines = ["date,temp_c,rain_mm"]
        lines += [
            f"2024-{month:02d}-{day:02d},{temps[month - 1]},2"
            for month in range(1, 13)
            for day in range(1, 29)
        ]
        (folder / f"{name}.csv").write_text("\n".join(lines), encoding="utf-8")
        soil = ["date,soil temp 10 cm (°C)", *(line.rpartition(",")[0] for line in lines[1:])]
        (folder / f"{name}-soil.csv").write_text("\n".join(soil), encoding="utf-8")
