"""A printed lime rate for every soil alike, beside the curve: shown, and no proof of anything."""

from __future__ import annotations

from loamshift.core.buffer import acid_between_mmolc_kg
from loamshift.tables.model import buffer_parameters
from loamshift.tables.references import load_references
from loamshift.tables.rules import load_lime_rates
from loamshift.units import CACO3_G_PER_MMOLC
from published.check import NOT_IN_VIEW, Check, Kind
from published.checks.buffer import CLASSES

FROM_PH, TO_PH = 5.2, 6.1
"""pH 4.6 and 5.5 in CaCl2, as the question was put."""
DEPTH_CM = 15.0
"""Taken for a rate that states none."""


def checks() -> list[Check]:
    (row,) = (rate for rate in load_lime_rates() if rate.texture == "any")
    ours = {}
    for name, soil in CLASSES.items():
        acid = acid_between_mmolc_kg(
            TO_PH,
            FROM_PH,
            clay_pct=soil.clay_pct,
            organic_carbon_pct=soil.organic_carbon_pct,
            params=buffer_parameters(),
        )
        mass_kg_m2 = 10.0 * DEPTH_CM * soil.bulk_density_g_cm3
        ours[name] = acid * CACO3_G_PER_MMOLC * mass_kg_m2 / (TO_PH - FROM_PH)
    listed = ", ".join(f"{name} {rate:.0f}" for name, rate in ours.items())
    return [
        Check(
            topic="buffer",
            kind=Kind.POPULAR,
            claim="lime for one pH unit on any soil",
            source=load_references()[row.source_key].citation,
            n=1,
            figure=f"ours {listed} g/m2 of pure lime in {DEPTH_CM:g} cm, "
            f"printed {row.rate_g_m2:.0f}",
            limit="no limit; shown because the letter once set it beside a sand",
            passed=True,
            differs=True,
            in_view=NOT_IN_VIEW,
            note="No depth is stated, and none makes one rate right for sand and clay: it is "
            f"{row.rate_g_m2 / ours['sand']:.1f} times a sand's need and "
            f"{row.rate_g_m2 / ours['clay']:.1f} times a clay's. Step by step in decision 10.",
        )
    ]
