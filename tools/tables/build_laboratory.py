"""Laboratory methods: buffer-pH equations and sieve openings."""

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
SIEVE_COLUMNS = ("mesh", "opening_um", "source_key", "where", "evidence", "note")


def seen_mark(row: Row) -> str:
    """The evidence mark of a copied row."""
    return "seen" if row["seen"] == "yes" else "memory"


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
    """Write the tables of buffer-pH methods, sieves and phosphorus indices."""
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
        "sieves",
        SIEVE_COLUMNS,
        sieves(),
        about={"title": "Openings of United States sieves by mesh", **ABOUT},
    )
    write_table(
        "phosphorus_indices",
        ("index", "least_mg_l", "source_key", "where", "evidence", "note"),
        source_rows("phosphorus_indices"),
        about={
            "title": "Indices of phosphorus by what bicarbonate takes out of a litre of soil",
            **ABOUT,
        },
    )


if __name__ == "__main__":
    build_laboratory()
