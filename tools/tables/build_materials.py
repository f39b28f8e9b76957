"""Materials: names, figures, particle sizes and usual amounts.

Figures come from three hand-kept lists: formulas (stoichiometry worked out here), picks (rows of
the copied source tables, by row) and own figures. A figure printed per dry mass is turned into
one per product as sold with the water content of the product.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise

from common import source_rows, write_table

from loamshift.core.formula import element_counts, formula_mass_g_mol
from loamshift.units import CACO3_G_MOL, NITROGEN_G_MOL, SULFUR_G_MOL

Row = Mapping[str, str]
Cells = dict[str, object]

NAME_COLUMNS = (
    *("key", "name_uk", "name_us", "synonyms", "group", "form"),
    *("intact_diameter_um", "cautions"),
)
FIGURE_COLUMNS = (
    *("key", "figure", "value", "low", "high", "unit"),
    *("source_key", "where", "evidence", "note"),
)
USUAL_COLUMNS = (
    *("key", "for_need", "way", "depth_cm", "volume_l_m2", "mass_g_m2"),
    *("source_key", "where", "evidence", "note"),
)
REGION_COLUMNS = ("key", "grade", "outline", "source_key", "where", "evidence", "note")
SIZE_COLUMNS = ("key", "low_um", "high_um", "mass_frac", "source_key", "evidence", "note")

UNITS = {
    "fast_acid_molc_kg": "molc/kg",
    "organic_acid_molc_kg": "molc/kg",
    "ash_alkalinity_molc_kg": "molc/kg",
    "salt_molc_kg": "molc/kg",
    "sulfate_molc_kg": "molc/kg",
    "bulk_density_kg_m3": "kg/m3",
    "break_up_top_per_year": "1/year",
    "break_up_dug_in_per_year": "1/year",
    "ph_water": "pH",
    "ph_water_other": "pH",
    "works_up_to_ph": "pH",
    "c_to_n": "kg/kg",
    "salt_index": "NaNO3 = 100",
    "printed_acidity_as_caco3_frac": "kg CaCO3/kg",
    "ec_ds_m": "dS/m",
    "solubility_g_l": "g/L",
    "growth_hindered_volume_frac": "L/L",
}
"""Unit of each figure; a name that ends in ``_frac`` is a share [0-1] unless named here."""

SEEN = {"yes": "seen", "memory": "memory", "computed": "derived", "derived": "derived"}

PER_MOLE = {
    "fast_acid_per_mol": ("fast_acid_molc_kg", 1000.0),
    "nh4_per_mol": ("n_as_nh4_frac", NITROGEN_G_MOL),
    "urea_n_per_mol": ("n_as_urea_frac", NITROGEN_G_MOL),
    "no3_per_mol": ("n_as_no3_frac", NITROGEN_G_MOL),
    "sulfur_per_mol": ("elemental_s_frac", SULFUR_G_MOL),
    "base_per_mol": ("caco3_eq_frac", CACO3_G_MOL / 2.0),
    "salt_per_mol": ("salt_molc_kg", 1000.0),
    "organic_acid_per_mol": ("organic_acid_molc_kg", 1000.0),
}
"""Column of the formula list to figure, and what one unit per mole is worth [g or 1000/mol]."""

OHIO_EDGES_UM = (0.0, 150.0, 250.0, 850.0, 2000.0)
"""Openings of 100, 60 and 20 mesh, and the coarse end of what lime laws rate [um]."""


def unit_of(figure: str) -> str:
    """Unit of a figure by its name."""
    return UNITS.get(figure, "kg/kg")


def purity(row: Row) -> float:
    """Mass share of the compound in the product, given or from the nitrogen of its label."""
    if not row["purity"].startswith("N="):
        return float(row["purity"])
    mass = formula_mass_g_mol(row["formula"])
    pure_pct = 100.0 * element_counts(row["formula"])["N"] * NITROGEN_G_MOL / mass
    return float(row["purity"].removeprefix("N=")) / pure_pct


def formula_figures(row: Row) -> list[Cells]:
    """Figures of a material that follow from its formula and purity."""
    scale = purity(row) / formula_mass_g_mol(row["formula"])
    return [
        {
            "key": row["key"],
            "figure": figure,
            "value": round(float(row[column]) * worth * scale, 5),
            "unit": unit_of(figure),
            "source_key": "own-arithmetic",
            "where": row["formula"],
            "evidence": row["evidence"],
            "note": row["note"],
        }
        for column, (figure, worth) in PER_MOLE.items()
        if row[column]
    ]


def source_values(table: str, wanted: str) -> tuple[list[float | None], Row]:
    """Value, low and high of one row of a copied source table."""
    for line, row in enumerate(source_rows(table), start=2):
        if str(line if table == "materials" else row["row"]) != wanted:
            continue
        if table == "materials":
            texts = [row["typical"], row["low"], row["high"]]
        elif table == "acidity_equivalents":
            texts = [row["kg_CaCO3_per_100kg_product"], "", ""]
        else:
            texts = [row["value"], "", ""]
        return [float(text) if text else None for text in texts], row
    raise SystemExit(f"row {wanted} of {table} is not there")


def fraction(text: str) -> float:
    """A number, or two with a stroke between them."""
    top, _, below = text.partition("/")
    return float(top) / (float(below) if below else 1.0)


def picked_figure(pick: Row) -> Cells:
    """A figure copied from a source row; the geometric mean where only the ends are printed."""
    values, row = source_values(pick["table"], pick["row"])
    if values[0] is None:
        if values[1] is None or values[2] is None:
            raise SystemExit(f"no value in row {pick['row']} of {pick['table']}")
        values[0] = math.sqrt(values[1] * values[2])
    scale = fraction(pick["scale"])
    value, low, high = (None if v is None else 0.0 + v * scale for v in values)
    return {
        "key": pick["key"],
        "figure": pick["figure"],
        "value": value,
        "low": low,
        "high": high,
        "basis": pick["basis"],
        "source_key": pick["source_key"],
        "where": "",
        "evidence": pick["evidence"] or SEEN[row["seen"]],
        "note": pick["note"],
    }


def own_figure(row: Row) -> Cells:
    """A hand-kept figure."""
    numbers = {n: float(row[n]) if row[n] else None for n in ("value", "low", "high")}
    return {**row, **numbers}


def as_sold(cells: Cells, water_frac: float) -> Cells:
    """A figure per product as sold; the water content of a dry-basis figure is said in its note."""
    factor = {"sold": 1.0, "dry": 1.0 - water_frac, "dry-density": 1.0 / (1.0 - water_frac)}
    basis = str(cells.pop("basis", "sold"))
    note = str(cells["note"])
    if basis != "sold" and water_frac > 0.0:
        said = f"{cells['value']:.4g} by dry mass, at {100.0 * water_frac:.3g} % water"
        note = f"{note}; {said}" if note else said
    scaled: Cells = {"note": note, "unit": unit_of(str(cells["figure"]))}
    for name in ("value", "low", "high"):
        number = cells.get(name)
        if isinstance(number, float):
            scaled[name] = 0.0 + round(number * factor[basis], 6)
    return {**cells, **scaled}


def all_figures() -> list[Cells]:
    """Every figure, in the order of the names and then as listed."""
    listed = [cells for row in source_rows("material_formulas") for cells in formula_figures(row)]
    listed += [picked_figure(row) for row in source_rows("material_picks")]
    listed += [own_figure(row) for row in source_rows("material_own_figures")]
    water = {str(c["key"]): c["value"] for c in listed if c["figure"] == "water_frac"}
    order = {row["key"]: place for place, row in enumerate(source_rows("material_names"))}
    figures = []
    for cells in listed:
        share = water.get(str(cells["key"]), 0.0)
        figures.append(as_sold(cells, share if isinstance(share, float) else 0.0))
    return sorted(figures, key=lambda cells: order[str(cells["key"])])


def log_classes(low_um: float, high_um: float) -> list[tuple[float, float, float]]:
    """Classes no wider than a factor of two, with the same mass for the same step of log size."""
    count = math.ceil(math.log2(high_um / low_um) - 1e-9)
    ratio = (high_um / low_um) ** (1.0 / count)
    edges = [low_um * ratio**step for step in range(count)] + [high_um]
    return [(a, b, 1.0 / count) for a, b in pairwise(edges)]


def ohio_classes(wanted: str) -> list[tuple[float, float, float]]:
    """Lime classes from the least shares through 100, 60 and 20 mesh of a legal grade."""
    row = next(row for row in source_rows("liming") if row["row"] == wanted)
    through = [0.0, *(float(text) / 100.0 for text in row["value"].split("/")[:3]), 1.0]
    edges = list(pairwise(OHIO_EDGES_UM))
    shares = [b - a for a, b in pairwise(through)]
    return [(a, b, s) for (a, b), s in zip(edges, shares, strict=True) if s > 1e-9]


def all_sizes() -> list[Cells]:
    """Every size class, as the rule of its row gives it."""
    sizes: list[Cells] = []
    for row in source_rows("material_size_rules"):
        if row["rule"] == "log":
            whole = float(row["mass_frac"] or 1.0)
            classes = [
                (low, high, whole * share)
                for low, high, share in log_classes(float(row["low_um"]), float(row["high_um"]))
            ]
        elif row["rule"] == "share":
            share = float(row["mass_frac"])
            classes = [(float(row["low_um"]), float(row["high_um"]), share)]
        else:
            classes = ohio_classes(row["rule"].removeprefix("ohio:"))
        for low_um, high_um, mass_frac in classes:
            class_cells = {"low_um": low_um, "high_um": high_um, "mass_frac": mass_frac}
            sizes.append({**row, **class_cells})
    return sizes


def build_materials() -> None:
    """Write the tables of materials."""
    common_about = {
        "script": "tools/tables/build_materials.py",
        "licence": "facts with their sources; names and selection Apache-2.0",
    }
    write_table(
        "materials",
        NAME_COLUMNS,
        source_rows("material_names"),
        about={
            "title": "Materials: names, form and cautions",
            **common_about,
            "note": "intact_diameter_um: of a prill or pastille before it breaks up",
        },
    )
    write_table(
        "material_figures",
        FIGURE_COLUMNS,
        all_figures(),
        about={
            "title": "Figures of materials per product as sold, with range and source",
            **common_about,
            "note": "acid positive; salt_molc_kg is the charge of what dissolves; "
            "organic_acid_molc_kg is destroyed again by decay; fast_acid_molc_kg of peat is "
            "acidity up to pH 6 to 7; ammonia and DAP take up a proton at once, so theirs is below "
            "zero",
        },
    )
    write_table(
        "material_sizes",
        SIZE_COLUMNS,
        all_sizes(),
        about={
            "title": "Particle sizes of sulfur and lime",
            **common_about,
            "note": "sulfur: classes no wider than a factor of two, equal mass per log size, but "
            "three classes for what prills break up into; lime: classes of the lime laws",
        },
    )
    write_table(
        "lime_regions",
        REGION_COLUMNS,
        source_rows("lime_regions"),
        about={
            "title": "Where ground limestone is ground to which legal fineness",
            **common_about,
            "note": "outline: corners of a polygon, degrees north and east; the first row that "
            "holds a position counts; elsewhere the American pulverised grade is taken",
        },
    )
    write_table(
        "usual_amounts",
        USUAL_COLUMNS,
        [{**row, "where": ""} for row in source_rows("usual_amounts")],
        about={
            "title": "What people commonly put on a square metre of each folk remedy",
            **common_about,
            "note": "one of depth, volume and mass; depth and volume by the bulk density of the "
            "material; for_need: listed where ground needs acid, lime, or any",
        },
    )


if __name__ == "__main__":
    build_materials()
