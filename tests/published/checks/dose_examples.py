"""Printed amounts beside the tool's own, for a bed described as its owner would describe it.

Only texture, pH and depth are told, as far as the example prints them, and that the soil holds no
free lime: printed tables mean such soils, and without it a range from pH 7 would hold anything.
"""

from __future__ import annotations

from functools import cache

import numpy as np

from loamshift.case.read import parse_case
from loamshift.domain.decision import Band
from loamshift.services.context.build_context import build_context
from loamshift.services.context.need import dose_to
from loamshift.tables.materials import find_material
from published.check import NOT_IN_VIEW, Check, Kind
from published.checks.carbonate import rows

TOPIC = "published amounts"
LEAST_INSIDE = 0.8
"""Share of the amounts that institutions print which our range is to hold."""
MIDDLE_PH = 5.5
"""Where a table prints only a drop, the drop is centred here, as for the buffer curve."""
SULFUR_ACID_MOLC_KG = 2000.0 / 32.06
CASE = """
case = 1
today = 2026-04-12
[bed]
area = "10 m2"
depth = "{depth_cm} cm"
[soil]
ph = {ph}
ph_method = "water 1:1"
carbonate_pct = 0
{texture}
[aim]
target_ph = {aim}
"""


@cache
def own_dose_g_m2(*, texture: str, ph_from: float, ph_to: float, depth_cm: float) -> Band:
    """Pure sulfur or pure lime for the bed, as the letter's static dose gives it [g/m2]."""
    told = f'texture = "{texture}"' if texture else ""
    text = CASE.format(depth_cm=depth_cm, ph=ph_from, texture=told, aim=ph_to)
    return dose_to(build_context(parse_case(text)), ph_to, acidify=ph_to < ph_from)


def checks() -> list[Check]:
    """Every printed example through the tool's own dose, and the tables of institutions."""
    return [*(_example(row) for row in rows("dose_examples")), _tables()]


def _example(row: dict[str, str]) -> Check:
    band = own_dose_g_m2(
        texture=row["texture"],
        ph_from=float(row["ph_from"]),
        ph_to=float(row["ph_to"]),
        depth_cm=float(row["depth_cm"]),
    )
    per_pure = 1.0
    if row["material"] == "aluminium sulfate":
        per_pure = SULFUR_ACID_MOLC_KG / find_material(row["material"]).fast_acid_molc_kg
    low, middle, high = (per_pure * value for value in (band.lo90, band.mid, band.hi90))
    printed = float(row["printed_g_m2"])
    official = row["grade"] == "institution"
    return Check(
        topic=TOPIC,
        kind=Kind.ADVICE if official else Kind.POPULAR,
        claim=f"{row['id']} {row['example']}",
        source=row["source"],
        n=1,
        figure=f"{middle:.0f} g/m2 ({low:.0f} to {high:.0f}), {printed:.0f} printed: ours is "
        f"{middle / printed:.2f} of it",
        limit="printed amount inside our range of 90 in 100",
        passed=0.0 < low < high,
        differs=not low <= printed <= high,
        in_view=NOT_IN_VIEW,
        note=f"{row['note']}; organic matter not told, no free lime, {row['depth_cm']} cm deep",
    )


def _tables() -> Check:
    ratios, inside = [], []
    for row in rows("sulfur_tables"):
        if row["use"] != "scored" or not row["grade"].startswith("institution"):
            continue
        drop = float(row["ph_drop"])
        start = float(row["ph_start"]) if row["ph_start"] else MIDDLE_PH + drop / 2.0
        band = own_dose_g_m2(
            texture=row["texture_class"],
            ph_from=start,
            ph_to=round(start - drop, 2),
            depth_cm=float(row["depth_cm"]),
        )
        low, high = float(row["low_g_m2"]), float(row["high_g_m2"])
        ratios.append(band.mid / (0.5 * (low + high)))
        inside.append(band.lo90 <= high and low <= band.hi90)
    logs = np.log10(ratios)
    return Check(
        topic=TOPIC,
        kind=Kind.ADVICE,
        claim="sulfur tables of institutions through our own dose",
        source="tables read in their source, see the topic buffer",
        n=len(ratios),
        figure=f"{np.mean(inside):.0%} inside our range; ours is {10 ** np.median(logs):.2f} of "
        f"the printed amount in the middle, {10 ** np.quantile(logs, 0.1):.2f} to "
        f"{10 ** np.quantile(logs, 0.9):.2f} for 80 in 100",
        limit=f"{LEAST_INSIDE:.0%} inside our range of 90 in 100",
        passed=float(np.mean(inside)) >= LEAST_INSIDE,
        in_view="as for the field of 43 % clay",
        note=f"A table that prints only a drop is centred on pH {MIDDLE_PH:g}; organic matter "
        "not told, no free lime. Tables copy one another: far fewer opinions than rows.",
    )
