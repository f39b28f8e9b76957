"""Printed sulfur and limestone rates, converted to g/m2 and compared with the handed-down ones."""

from __future__ import annotations

import re

from common import source_rows, write_table

from loamshift.units import g_m2_from_lb_100ft2, g_m2_from_lb_acre, g_m2_from_oz_yd2

Row = dict[str, str]

G_M2_PER_UNIT = {
    "lb/acre": g_m2_from_lb_acre(1.0),
    "kg/ha": 0.1,
    "g/m2": 1.0,
    "lb/10 sq ft": g_m2_from_lb_100ft2(10.0),
    "lb/100 sq ft": g_m2_from_lb_100ft2(1.0),
    "lb/1000 sq ft": g_m2_from_lb_100ft2(0.1),
    "oz/sq yd": g_m2_from_oz_yd2(1.0),
    "lb limestone/100 sq ft": g_m2_from_lb_100ft2(1.0),
    "lb limestone/1000 sq ft": g_m2_from_lb_100ft2(0.1),
    "lb CCE/1000 sq ft": g_m2_from_lb_100ft2(0.1),
}
SULFUR_SOURCES = {
    "S02": "msu-sulfur-reprint",
    "S03": "ontario-blueberry-ph",
    "S05": "gu-crouse-2010",
    "S07": "rhs-acidifying-soil",
    "S08": "yarborough-2008",
    "S11": "grower-list-2009",
    "S12": "garden-page-loam-classes",
    "S13": "garden-page-any-soil",
    "S14": "garden-guide-acidity",
    "S15": "reeves-nesmith",
    "S16": "whitcomb-1986",
    "S17": "mullin-1964",
    "S18": "calcareous-green-chapter",
    "S19": "clemson-hgic-1650",
    "S21": "blueberry-bulletins",
    "S22": "state-garden-article-2007",
    "S23": "ohio-agf-507-reprint",
    "S25": "jamaly-2023",
}
TEXTURES = {
    "sand": "sand",
    "sand (CEC 5)": "sand",
    "light sandy loam": "sandy loam",
    "sandy loam": "sandy loam",
    "loam": "loam",
    "loam and clay": "loam",
    "silt loam (CEC 10)": "loam",
    "not stated (taken as loam)": "loam",
    "clay loam": "clay loam",
    "clay": "clay",
    "clay (CEC 20)": "clay",
    "silt/clay": "clay",
    "any": "any",
    "not stated (Ca 1088 lb/acre)": "any",
    "wild blueberry barrens (acid, organic)": "organic",
    "cranberry sand/peat (acid)": "organic",
    "heavy clay": "clay",
    "sandy nursery soil": "sand",
    "sand 84 % with 1.5 % CaCO3": "sand",
}
"""Printed soil to class; ``organic`` is acid peaty ground under a wild or bog crop."""

LEFT_OUT = {
    "ERRATUM - do not use": "a limestone table under the wrong heading",
    "trial": "a trial, not a rate to follow",
    "trial (NO pH change)": "a trial, not a rate to follow",
    "advice": "advice for one soil",
}
RESTATED_ROWS = frozenset({17, 19, 21})
"""Rows that print the rule of the row before once more, per 0.1 pH."""
SULFUR_COLUMNS = (
    "row",
    "source_key",
    "family",
    "material",
    "kind",
    "ph_start",
    "ph_target",
    "ph_drop",
    "texture",
    "texture_printed",
    "depth_cm",
    "depth_stated",
    "low_g_m2",
    "high_g_m2",
    "where",
    "evidence",
    "usable",
    "note",
)
LIME_COLUMNS = (
    "row",
    "source_key",
    "ph_start",
    "ph_target",
    "ph_rise",
    "texture",
    "texture_printed",
    "depth_stated",
    "rate_g_m2",
    "where",
    "evidence",
    "usable",
    "note",
)
LICENCE = "facts with their sources; our selection Apache-2.0"
LIME_ROWS = range(72, 91)
LIME_PAGES = {
    "agroconection": "limestone-chart-page",
    "garden-soil": "garden-page-loam-classes",
    "garden-services": "garden-page-any-soil",
}


def build_rates() -> None:
    """Write ``sulfur_rates.csv`` and ``lime_rates.csv``."""
    write_table(
        "sulfur_rates",
        SULFUR_COLUMNS,
        sulfur_rows(),
        about={
            "title": "Printed rates of sulfur and acid salts by soil and pH step",
            "script": "tools/tables/build_rules.py",
            "licence": LICENCE,
            "errata": (
                "Family G19 (rows 136-144) is a limestone table under the heading of sulfur: "
                "never usable."
            ),
            "note": (
                "Rates as S for elemental sulfur, as sold for aluminium and iron sulfate. One "
                "family holds copies of one origin. A printed pH range stands as its middle. "
                "depth_cm is assumed where depth_stated is no."
            ),
        },
    )
    write_table(
        "lime_rates",
        LIME_COLUMNS,
        lime_rows(),
        about={
            "title": "Printed rates of ground limestone by soil and pH step",
            "script": "tools/tables/build_rules.py",
            "licence": LICENCE,
            "note": "No text states its depth. Limestone taken as CaCO3.",
        },
    )


def sulfur_rows() -> list[dict[str, object]]:
    """Every printed row, converted anew from the rate as printed."""
    rows: list[dict[str, object]] = []
    for row in source_rows("sulfur_rate_tables"):
        factor = G_M2_PER_UNIT[row["unit_printed"]] * float(row["product_S_fraction"] or 1.0)
        start, target = _middle(row["start_ph"]), _middle(row["target_ph"])
        left_out = _why_left_out(row)
        rows.append(
            {
                "row": int(row["row"]),
                "source_key": SULFUR_SOURCES[row["source_id"]],
                "family": row["lineage"],
                "material": row["material"].replace("elemental S", "elemental sulfur"),
                "kind": row["kind"],
                "ph_start": start,
                "ph_target": target,
                "ph_drop": _drop(row, start, target),
                "texture": TEXTURES[row["texture"]],
                "texture_printed": f"{row['texture']} {row['om_stated']}".strip(),
                "depth_cm": float(row["depth_assumed_cm"]),
                "depth_stated": row["depth_as_printed"] != "not stated",
                "low_g_m2": round(float(row["rate_low"]) * factor, 2),
                "high_g_m2": round(float(row["rate_high"]) * factor, 2),
                "where": _printed_rate(row),
                "evidence": _evidence(row),
                "usable": not left_out,
                "note": "; ".join(filter(None, (left_out, _note(row)))),
            }
        )
    return rows


def sulfur_differences() -> list[str]:
    """Where our conversion differs from the handed-down g/m2 beyond rounding to 0.1 g/m2."""
    found = []
    for row, ours in zip(source_rows("sulfur_rate_tables"), sulfur_rows(), strict=True):
        stem = "g_S_per_m2" if row["material"] == "elemental S" else "g_per_m2"
        for end in ("low", "high"):
            value, printed = float(str(ours[f"{end}_g_m2"])), float(row[f"{stem}_{end}"])
            if abs(value - printed) > 0.06:
                found.append(f"row {row['row']}: {end} {value} against {printed}")
    return found


def lime_rows() -> list[dict[str, object]]:
    """Limestone by starting pH and soil, from the printed charts."""
    rows: list[dict[str, object]] = []
    for row in source_rows("liming"):
        if int(row["row"]) not in LIME_ROWS:
            continue
        soil, step = row["item"].split(": ")
        start, target = (None, None) if "unit" in step else _step(step)
        rate = float(row["value"]) * G_M2_PER_UNIT[row["unit"]]
        rows.append(
            {
                "row": int(row["row"]),
                "source_key": _lime_source(row),
                "ph_start": start,
                "ph_target": target,
                "ph_rise": 1.0 if start is None or target is None else target - start,
                "texture": TEXTURES[soil],
                "texture_printed": soil,
                "depth_stated": False,
                "rate_g_m2": round(rate, 2),
                "where": f"{row['value']} {row['unit']}",
                "evidence": "seen",
                "usable": True,
                "note": "; ".join(("depth not stated", *row["note"].split("; ")[1:])),
            }
        )
    return rows


def lime_differences() -> list[str]:
    """Where our conversion differs from the handed-down g/m2 beyond rounding."""
    by_row = {row["row"]: row for row in source_rows("liming")}
    found = []
    for ours in lime_rows():
        printed = float(by_row[str(ours["row"])]["note"].split()[1])
        if abs(float(str(ours["rate_g_m2"])) - printed) > 0.51:
            found.append(f"lime row {ours['row']}: {ours['rate_g_m2']} against {printed}")
    return found


def _middle(text: str) -> float | None:
    """The pH printed, the middle of a printed range, or None for words or nothing."""
    try:
        parts = [float(part) for part in text.split("-")]
    except ValueError:
        return None
    return sum(parts) / len(parts)


def _note(row: Row) -> str:
    """The note with source keys in place of the numbers the sources had when read."""
    text = row["note"].replace(" (see worked example W15)", "")
    return re.sub(r"\bS\d\d\b", lambda found: SULFUR_SOURCES[found.group()], text)


def _why_left_out(row: Row) -> str:
    if int(row["row"]) in RESTATED_ROWS:
        return "the rule of the row before, per 0.1 pH"
    return LEFT_OUT.get(row["kind"], "")


def _drop(row: Row, start: float | None, target: float | None) -> float | None:
    if row["delta_ph"]:
        return float(row["delta_ph"])
    return None if start is None or target is None else start - target


def _printed_rate(row: Row) -> str:
    low, high = row["rate_low"], row["rate_high"]
    return f"{low if low == high else f'{low} to {high}'} {row['unit_printed']}"


def _evidence(row: Row) -> str:
    if row["seen"] == "memory":
        return "memory"
    second_hand = "reprint" in row["source_grade"] or "abstract" in row["source_grade"]
    return "secondary" if second_hand else "seen"


def _step(text: str) -> tuple[float, float]:
    start, target = text.removeprefix("pH ").split(" to ")
    return float(start), float(target)


def _lime_source(row: Row) -> str:
    return next(key for part, key in LIME_PAGES.items() if part in row["source"])
