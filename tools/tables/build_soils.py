"""Soils: texture classes, growing media, free lime by fizz, and pH methods.

Field capacity and wilting point are worked out at each class centre with the equations of Saxton
and Rawls (2006); curved pH conversions are laid on a straight line here.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from common import source_rows, write_table

Row = Mapping[str, str]
Cells = dict[str, object]

SCRIPT = "tools/tables/build_soils.py"
LICENCE = "facts with their sources; our selection and judgements Apache-2.0"
ORGANIC_MATTER_PER_CARBON = 1.724
EC_DS_M, EC_SD_DS_M = 0.1, 0.05
"""Salt assumed where a pH conversion asks for it: EC 1:5 of an ordinary topsoil [dS/m]."""

TEXTURE_COLUMNS = (
    *("key", "name", "synonyms", "sand_pct", "clay_pct", "bulk_density_g_cm3"),
    *("field_capacity_frac", "wilting_frac", "organic_carbon_pct"),
    *("centre_source_key", "source_key", "where", "evidence", "note"),
)
MEDIUM_COLUMNS = (
    *("medium", "organic_carbon_pct", "bulk_density_g_cm3", "field_capacity_frac"),
    *("wilting_frac", "log10_k_mean", "log10_k_sd", "source_key", "where", "evidence", "note"),
)
FIZZ_COLUMNS = (
    *("fizz", "acid", "ph_low", "ph_high", "full_from_ph", "zero_weight", "low_pct", "high_pct"),
    *("basis", "source_key", "where", "evidence", "note"),
)
PH_COLUMNS = (
    *("method", "to_method", "intercept", "slope", "sd", "ph_low", "ph_high", "default"),
    *("source_key", "where", "evidence", "note"),
)


def saxton_rawls_field_capacity(sand: float, clay: float, organic_matter_pct: float) -> float:
    """Water at 33 kPa [m3/m3] from mass shares [0-1] and organic matter [%]; equation 2."""
    first = (
        -0.251 * sand
        + 0.195 * clay
        + 0.011 * organic_matter_pct
        + 0.006 * sand * organic_matter_pct
        - 0.027 * clay * organic_matter_pct
        + 0.452 * sand * clay
        + 0.299
    )
    return first + 1.283 * first**2 - 0.374 * first - 0.015


def saxton_rawls_wilting(sand: float, clay: float, organic_matter_pct: float) -> float:
    """Water at 1500 kPa [m3/m3] from mass shares [0-1] and organic matter [%]; equation 1."""
    first = (
        -0.024 * sand
        + 0.487 * clay
        + 0.006 * organic_matter_pct
        + 0.005 * sand * organic_matter_pct
        - 0.013 * clay * organic_matter_pct
        + 0.068 * sand * clay
        + 0.031
    )
    return 1.14 * first - 0.02


def texture_cells(row: Row) -> Cells:
    """One texture class with its water contents."""
    sand, clay = float(row["sand_pct"]) / 100.0, float(row["clay_pct"]) / 100.0
    organic_matter_pct = ORGANIC_MATTER_PER_CARBON * float(row["organic_carbon_pct"])
    return {
        **row,
        "field_capacity_frac": round(
            saxton_rawls_field_capacity(sand, clay, organic_matter_pct), 3
        ),
        "wilting_frac": round(saxton_rawls_wilting(sand, clay, organic_matter_pct), 3),
        "centre_source_key": "green-ampt-texture-page",
        "source_key": "saxton-rawls-2006",
        "where": "class centres of table 3; equations 1 and 2",
        "evidence": "derived",
        "note": "water contents by equation at the class centre; bulk density and organic carbon "
        "are judged for garden topsoil, between 1.5, 1.35 and 1.2 g/cm3 and 0.9, 1.5 and 1.9 % "
        "for sand, loam and clay",
    }


def straight_line(
    curve: Callable[[float], float], low: float, high: float
) -> tuple[float, float, float]:
    """Least-squares line over ``low`` to ``high`` and the rms misfit: intercept, slope, rms."""
    points = [low + (high - low) * step / 200.0 for step in range(201)]
    values = [curve(point) for point in points]
    mean_x, mean_y = math.fsum(points) / 201.0, math.fsum(values) / 201.0
    slope = math.fsum(
        (x - mean_x) * (y - mean_y) for x, y in zip(points, values, strict=True)
    ) / math.fsum((x - mean_x) ** 2 for x in points)
    intercept = mean_y - slope * mean_x
    misfit = math.fsum(
        (y - intercept - slope * x) ** 2 for x, y in zip(points, values, strict=True)
    )
    return intercept, slope, math.sqrt(misfit / 201.0)


def curve_of(form: str, numbers: list[float]) -> tuple[Callable[[float], float], bool]:
    """The curve from the reading to pH in water, and whether it was printed the other way."""
    if form == "log":
        return (lambda x: numbers[0] + numbers[1] * math.log10(x)), False
    if form == "exp-inverse":
        return (lambda y: math.log(y / numbers[0]) / numbers[1]), True
    if form == "quadratic-inverse":
        c, b, a = numbers
        return (lambda y: (-b + math.sqrt(b * b - 4.0 * a * (c - y))) / (2.0 * a)), True
    raise SystemExit(f"no pH curve called {form}")


def published_line(row: Row) -> tuple[float, float, float]:
    """Intercept, slope and sd of a published conversion, turned towards pH in water."""
    numbers = [float(text) for text in row["coefficients"].split("|")]
    sd = float(row["sd"])
    if row["kind"] == "nonlinear":
        curve, turned = curve_of(row["form"], numbers)
        intercept, slope, misfit = straight_line(curve, float(row["ph_low"]), float(row["ph_high"]))
        return intercept, slope, math.hypot(sd * slope if turned else sd, misfit)
    if row["kind"] == "linear":
        return numbers[0], numbers[1], sd
    per_ec = float(row["form"]) if row["kind"] == "inverse-ec" else 0.0
    intercept, slope = numbers[0] + per_ec * EC_DS_M, numbers[1]
    return -intercept / slope, 1.0 / slope, math.hypot(sd, per_ec * EC_SD_DS_M) / slope


def published_cells(row: Row) -> Cells:
    """One published conversion as a row of the table, never the default."""
    intercept, slope, sd = published_line(row)
    seen = {source["row"]: source["seen"] for source in source_rows("buffer_ph")}
    as_printed = "memory" if seen.get(row["row"]) == "memory" else "seen"
    return {
        **row,
        "intercept": round(intercept, 4),
        "slope": round(slope, 4),
        "sd": round(sd, 3),
        "default": False,
        "where": "",
        "evidence": as_printed if row["kind"] == "linear" else "derived",
    }


def default_cells() -> list[Cells]:
    """The conversion used at the door for each method, towards pH in water about 1:2.5.

    The KCl default is the line laid through Kabala's curve, less the 0.1 by which 1:5 reads above
    the reference basis.
    """
    cells: list[Cells] = [
        {**row, "to_method": "water 1:2.5", "default": True, "where": ""}
        for row in source_rows("ph_defaults")
    ]
    kabala = next(row for row in source_rows("ph_published") if row["row"] == "23")
    intercept, slope, sd = published_line(kabala)
    to_reference = next(row for row in source_rows("ph_defaults") if row["method"] == "water 1:5")
    kcl: Cells = {
        "method": "KCl",
        "to_method": "water 1:2.5",
        "intercept": round(intercept + float(to_reference["intercept"]), 4),
        "slope": round(slope, 4),
        "sd": round(math.hypot(sd, float(to_reference["sd"])), 3),
        "ph_low": kabala["ph_low"],
        "ph_high": kabala["ph_high"],
        "default": True,
        "source_key": "kabala-2016",
        "where": "",
        "evidence": "derived",
        "note": "line through the printed curve over pH KCl 4 to 7, then from 1:5 to the basis",
    }
    return [*cells, kcl]


def build_soils() -> None:
    """Write the tables of textures, media, fizz and pH conversions."""
    about = {"script": SCRIPT, "licence": LICENCE}
    write_table(
        "textures",
        TEXTURE_COLUMNS,
        [texture_cells(row) for row in source_rows("textures")],
        about={"title": "Texture classes with what such a topsoil usually holds", **about},
    )
    write_table(
        "media",
        MEDIUM_COLUMNS,
        [{**row, "where": ""} for row in source_rows("media")],
        about={"title": "Growing media that are not mineral soil", **about},
    )
    write_table(
        "fizz",
        FIZZ_COLUMNS,
        [{**row, "where": ""} for row in source_rows("fizz_rules")],
        about={
            "title": "Free lime believed from a fizz test, or from the pH where nobody tried",
            **about,
            "note": "a row holds from ph_low up to, not including, ph_high, its figures in full "
            "from full_from_ph and passing over from those of the row below until then; acid any "
            "fits every acid; the part that is not zero is log-uniform from low_pct to high_pct",
        },
    )
    write_table(
        "ph_conversions",
        PH_COLUMNS,
        [*default_cells(), *(published_cells(row) for row in source_rows("ph_published"))],
        about={
            "title": "From a pH reading by one method to pH in water",
            **about,
            "note": "pH in water = intercept + slope x reading; the reference basis is water about "
            "1:1 to 1:2.5; the comparison of CaCl2 with KCl (1998) prints no coefficients and KCl "
            "1:2.5 to 1:5 is not towards water, so both are left out",
            "errata": "1:1 against 1:5 in water: Libohova 2014 reads lower in the more dilute "
            "suspension, two other sets read higher",
        },
    )


if __name__ == "__main__":
    build_soils()
