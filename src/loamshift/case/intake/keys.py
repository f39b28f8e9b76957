"""What intake calls the keys of the case file, and the columns it treats in a way of their own."""

from __future__ import annotations

from typing import Final

PH: Final = "soil.ph"
PH_METHOD: Final = "soil.ph_method"
P_LEVEL: Final = "soil.p_level"
MAGNESIUM: Final = "mg"
BUFFER_METHOD: Final = "soil.buffer_ph_method"
DEPTH: Final = "soil.sample_depth"
DAY: Final = "soil.sampled"
FIZZ: Final = "soil.fizz"
LIME: Final = "soil.lab_lime_requirement"
TEXTURES: Final = ("soil.clay_pct", "soil.texture")
CARBON: Final = "soil.organic_carbon_pct"
ORGANIC: Final = ("soil.organic_matter_pct", CARBON)
OF_READING: Final = {DAY: "date", PH: "ph", PH_METHOD: "ph_method", DEPTH: "depth"}
"""Keys of a sample, and those of a reading."""
TEXT_PATHS: Final = {
    "sample": "name",
    "texture": "soil.texture",
    "fizz": FIZZ,
    "crop": "aim.plant",
    "p_level": P_LEVEL,
    "date_sampled": DAY,
    "depth": DEPTH,
    "depth_from": DEPTH,
}
"""Columns of names, words, days and ranges that enter a case."""
BUFFER: Final = "buffer_ph"
BUFFERS: Final = (BUFFER, "lime_test_index")
HAVE_METHOD: Final = ("ph", *BUFFERS, "ec")
BY_WORD: Final = ("texture", "fizz", "crop")
"""Columns of words that the case file knows."""
LIME_WORDS: Final = frozenset({"fizz", "excess_lime"})
IN_WATER: Final = ("alkalinity", "hardness", "ec")
"""Columns whose figures per litre are of water and not of soil."""
ALWAYS_TOLD: Final = {
    "lime_test_index": "index-of-ten",
    "excess_lime": "excess-lime",
    "hardness": "hardness",
    "active_limestone": "active-limestone",
    "target_ph": "target-ph",
    "total_carbon": "total-carbon",
}
"""Columns about which something is told whatever their figures, and its code."""
NUTRIENTS: Final = ("p", "k", "mg", "ca", "na", "s", "n", "cao", "mgo", "k2o", "p2o5", "na2o")
OTHER_FIGURES: Final = (
    *("micronutrient", "result", "exchangeable_acidity", "ca_saturation", "k_saturation"),
    *("h_saturation", "al_saturation", "active_limestone", "loam_share", "cn_ratio"),
    *("total_carbon", "depth_from"),
)
"""Columns of figures that enter no case, beside the nutrients."""
