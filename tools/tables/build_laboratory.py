"""Laboratory methods: buffer-pH equations, sieve openings and fineness rules of lime."""

from __future__ import annotations

from collections.abc import Mapping

from common import source_rows, write_table

Row = Mapping[str, str]
Cells = dict[str, object]

ABOUT = {
    "script": "tools/tables/build_laboratory.py",
    "licence": "facts with their sources; our selection Apache-2.0",
}
METHOD_COLUMNS = (
    *("key", "synonyms", "form", "coefficients", "target_ph", "depth_cm", "result_unit"),
    *("slice_kg_m2", "field_allowance", "sense_low_ph", "sense_high_ph", "family"),
    *("log10_sd", "source_key", "where", "evidence", "note"),
)
RULE_COLUMNS = (
    *("rule", "mesh_low", "mesh_high", "effective_pct", "base_years"),
    *("source_key", "where", "evidence", "note"),
)
SIEVE_COLUMNS = ("mesh", "opening_um", "source_key", "where", "evidence", "note")

RULE_SOURCES = {
    "nebraska": ("nebraska-lime-quality", ("3",)),
    "new york": ("cornell-lime-env", ("1",)),
    "minnesota": ("minnesota-alm-analysis", ("3",)),
    "illinois": ("illinois-agronomy-handbook", ("1", "4")),
    "ohio": ("ohio-enp-rule", ("",)),
}
"""Rule to its source and the years of each figure printed in a cell."""

IOWA_WEIGHTS = (("43", "4"), ("44", "8"), ("45", "60"))
"""Rows of weights on cumulative passing, and the mesh they speak of."""


def seen_mark(row: Row) -> str:
    """The evidence mark of a copied row."""
    return "seen" if row["seen"] == "yes" else "memory"


def fineness_rules() -> list[Cells]:
    """One row per rule, sieve class and base of years."""
    printed = {row["row"]: row for row in source_rows("liming")}
    rules: list[Cells] = []
    for choice in source_rows("fineness_choices"):
        name = choice["rule"]
        source_key, years = RULE_SOURCES[name]
        row = printed[choice["row"]]
        for base, effective in zip(years, row["value"].split("|"), strict=True):
            rules.append(
                {
                    "rule": f"{name}, {base}-year base" if len(years) > 1 else name,
                    "mesh_low": choice["coarser_mesh"],
                    "mesh_high": choice["finer_mesh"],
                    "effective_pct": effective,
                    "base_years": base,
                    "source_key": source_key,
                    "where": row["item"],
                    "evidence": seen_mark(row),
                    "note": row["conditions"],
                }
            )
    return [*rules, *iowa_rules(printed)]


def iowa_rules(printed: Mapping[str, Row]) -> list[Cells]:
    """Iowa's weights on cumulative passing, as effectiveness of the classes between sieves."""
    bounds = [mesh for _, mesh in IOWA_WEIGHTS]
    effective, rules = 0.0, []
    for place, mesh_high in enumerate([*bounds, ""]):
        if place:
            effective += 100.0 * float(printed[IOWA_WEIGHTS[place - 1][0]]["value"])
        cells: Cells = {
            "rule": "iowa",
            "mesh_low": bounds[place - 1] if place else "",
            "mesh_high": mesh_high,
            "effective_pct": round(effective, 6),
            "base_years": "",
            "source_key": "iowa-ecce-rule",
            "where": "",
            "evidence": "memory",
            "note": "weights 0.1, 0.3 and 0.6 on what passes 4, 8 and 60 mesh, added up by class",
        }
        rules.append(cells)
    return rules


def sieves() -> list[Cells]:
    """Openings by mesh: the standard series, filled up from a laboratory's list."""
    found: dict[int, Cells] = {}
    for row in source_rows("liming"):
        if row["category"] == "sieve":
            mesh = int(row["item"].removeprefix("mesh "))
            found[mesh] = {
                "mesh": mesh,
                "opening_um": round(1000.0 * float(row["value"]), 6),
                "source_key": "lab-crop-file-fineness",
                "where": "sieve list",
                "evidence": seen_mark(row),
                "note": "",
            }
    for row in source_rows("materials"):
        if row["material"].startswith("sieve"):
            mesh = int(row["form"].removeprefix("mesh "))
            printed = found.get(mesh)
            note = f"the laboratory list prints {printed['opening_um']:g}" if printed else ""
            opening = float(row["typical"])
            found[mesh] = {
                "mesh": mesh,
                "opening_um": opening,
                "source_key": "astm-e11",
                "where": "",
                "evidence": seen_mark(row),
                "note": note if printed and printed["opening_um"] != opening else "",
            }
    return [found[mesh] for mesh in sorted(found)]


def build_laboratory() -> None:
    """Write the tables of buffer-pH methods, fineness rules and sieves."""
    write_table(
        "buffer_ph_methods",
        METHOD_COLUMNS,
        [{**row, "where": ""} for row in source_rows("buffer_ph_choices")],
        about={
            "title": "Buffer-pH methods of laboratories as lime equations",
            **ABOUT,
            "note": "form names an equation of loamshift.core.lime_requirement, whose FORMS gives "
            "the order of the coefficients; form none: the method is known, its equation is not "
            "(or is not to be trusted). Two keys alike but for a target are one method. "
            "field_allowance is how many times the acidity a rate is; family marks one row for "
            "each kind of buffer",
            "errata": "Adams-Evans 1962 as printed in 2007 calls Mg/ha what is lb/acre",
        },
    )
    write_table(
        "fineness_rules",
        RULE_COLUMNS,
        fineness_rules(),
        about={
            "title": "Effectiveness of limestone by sieve class, rule by rule",
            **ABOUT,
            "note": "a class passes mesh_low and is held on mesh_high; an empty cell is an open "
            "end. New York prints nothing for what 20 mesh holds. Minnesota's coarser classes, "
            "Illinois, Ohio and Iowa are recalled",
        },
    )
    write_table(
        "sieves",
        SIEVE_COLUMNS,
        sieves(),
        about={"title": "Openings of United States sieves by mesh", **ABOUT},
    )


if __name__ == "__main__":
    build_laboratory()
