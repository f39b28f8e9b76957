"""Plants: medians over the printed ranges, limits, and groups of plants named together.

A median is taken over every range read in its source; rows marked suspect are left out, and
recalled rows count only where nothing was read. ``plant_ranges`` says which rows count.
"""

from __future__ import annotations

import plant_disagreements
from common import source_rows, write_table
from plant_limits import SIDES, deciding_limits, limit_rows
from plant_ranges import (
    PrintedRange,
    Row,
    consensus,
    counted,
    differences_from_printed,
    number,
    ranges_by_plant,
)

QUALIFIERS = frozenset(
    {"european", "fox", "key", "arabica", "american", "japanese", "german", "roman", "giant"}
    | {"ornamental", "flowering"}
)
"""Words in brackets that narrow a name; other words in brackets are a second name."""

DECIDED = tuple(
    f"{kind}_{side}" for kind in ("harmful", "container_harmful", "occurrence") for side in SIDES
)
TOLERATES_ACID = frozenset({"oats", "rye"})
"""Plants that no plan should make a soil more acid for: they bear acid and do not need it.
Finnish targets (kalkitus-cereals): fairly good on acid soil, undemanding; British range 6 to 7.5
(ahdb-2013-ph)."""

PLANT_COLUMNS = (
    "key",
    "latin_name",
    "group",
    "synonyms",
    "ph_low",
    "ph_high",
    "lowest",
    "highest",
    "tolerated_low",
    "tolerated_high",
    *DECIDED,
    "n_sources",
    "n_ranges",
    "all_seen",
    "midpoint_spread",
    "ranges_agree",
    "calcifuge",
    "tolerates_acid",
    "is_group",
    "doubtful",
    "offered",
    "source_key",
    "evidence",
    "note",
)
SOURCE_COLUMNS = (
    "plant",
    "ph_low",
    "ph_high",
    "tolerated_low",
    "tolerated_high",
    "kind",
    "medium",
    "basis",
    "grade",
    "family",
    "used",
    "source_key",
    "where",
    "evidence",
    "note",
)


LIMIT_COLUMNS = (
    "plant",
    "kind",
    "ph_low",
    "ph_high",
    "medium",
    "decides",
    "basis",
    "printed",
    "grade",
    "source_key",
    "where",
    "evidence",
    "note",
)


def build() -> None:
    """Write the four tables of plants: medians, sources, limits, settled disagreements."""
    limits = limit_rows()
    write_table(
        "plants",
        PLANT_COLUMNS,
        plant_rows(deciding_limits(limits)),
        about={
            "title": "Plants: median of the printed pH ranges, pH in water assumed",
            "script": "tools/tables/build_plants.py",
            "licence": "medians of ours, Apache-2.0; figures from the sources of plant_sources.csv",
            "range": "pH 2 to 10",
            "note": (
                "Few sources say by what method their pH was read: taken as pH in water. "
                "tolerated_low and tolerated_high are EcoCrop's absolute limits (credit: FAO): "
                "survival, not good growth; left out where they do not contain the median range. "
                "harmful_low and harmful_high are the deciding rows of plant_limits.csv for soil, "
                "container_harmful for potting mixes without soil; occurrence is the widest range "
                "of soils the plant or its genus is found on, no optimum. "
                "ranges_agree is no where ranges merely touch. n_sources counts families of "
                "sources, targets inside the median range among them; n_ranges counts the ranges "
                "behind the median. An institution counts once; the almanac's list and two web "
                "lists share figures and count once."
            ),
        },
    )
    write_table(
        "plant_sources",
        SOURCE_COLUMNS,
        plant_source_rows(),
        about={
            "title": "The printed pH range of each plant in each source",
            "script": "tools/tables/build_plants.py",
            "licence": "single facts with their sources; FAO EcoCrop figures: credit FAO",
            "note": (
                "ph_low and ph_high are on the basis of pH in water, by the default row of "
                "ph_conversions.csv where the source names a salt solution or a paste. kind is "
                "range, target (no ends meant) or container (potting mixes without soil)."
            ),
            "errata": (
                "used = no: chilli and habanero pepper 7-8.5 and rosemary 5-6 in the edible "
                "plant database are out of line with every other list; recalled ranges where "
                "a range was read; second figures of one institution; targets outside the "
                "median range; the rest by tools/tables/sources/plant_source_choices.csv."
            ),
        },
    )
    write_table(
        "plant_limits",
        LIMIT_COLUMNS,
        limits,
        about={
            "title": "Limits of plants: injury, tolerance, and the soils they are found on",
            "script": "tools/tables/build_plants.py",
            "licence": "single facts with their sources",
            "note": (
                "ph_low and ph_high are pH in water for soil (converted by the default row of "
                "ph_conversions.csv; printed keeps the figure as read). decides names the sides "
                "that stand in plants.csv; the note says why. medium container: potting mixes "
                "without soil; medium solution: nutrient solution, valid for neither."
            ),
        },
    )
    write_table(
        "plant_disagreements",
        plant_disagreements.COLUMNS,
        plant_disagreements.disagreement_rows(),
        about=plant_disagreements.ABOUT,
    )


def plant_rows(decided: dict[str, dict[str, object]]) -> list[dict[str, object]]:
    """One row per plant and group, medians recomputed from the source rows."""
    by_plant = ranges_by_plant()
    spellings = synonyms()
    doubtful = plant_disagreements.doubtful_ranges()
    offers = {row["key"]: row["offered"] for row in source_rows("plant_offers")}
    table: list[dict[str, object]] = []
    for key, printed in {**consensus_as_printed(), **later_plants()}.items():
        rows = by_plant[key]
        table.append(
            {
                "key": key,
                "latin_name": printed["latin_name"],
                "group": printed["group"],
                "synonyms": "|".join(spellings[key]),
                **consensus(rows),
                **_tolerated(printed),
                **decided.get(key, {}),
                "calcifuge": printed.get("calcifuge") == "yes"
                or any("calcifuge" in row.note for row in rows),
                "tolerates_acid": key in TOLERATES_ACID,
                "is_group": not printed["latin_name"],
                "doubtful": key in doubtful,
                "offered": offers.get(key, ""),
                "source_key": "own-arithmetic",
                "evidence": "derived",
                "note": _plant_note(printed, rows, doubtful.get(key, "")),
            }
        )
    return table


def plant_source_rows() -> list[dict[str, object]]:
    """One row per plant and source; ``used`` says which carry or support the median."""
    table: list[dict[str, object]] = []
    for key, rows in sorted(ranges_by_plant().items()):
        ranges, targets = counted(rows)
        used = [*ranges, *targets]
        for row in sorted(rows, key=lambda r: (r.grade, r.code)):
            table.append(
                {
                    "plant": key,
                    "ph_low": row.ph_low,
                    "ph_high": row.ph_high,
                    "tolerated_low": row.tolerated_low,
                    "tolerated_high": row.tolerated_high,
                    "kind": row.kind,
                    "medium": "container" if row.use == "container" else "soil",
                    "basis": row.basis,
                    "grade": row.grade,
                    "family": row.family,
                    "used": any(row is one for one in used),
                    "source_key": row.source_key,
                    "where": row.where,
                    "evidence": row.evidence,
                    "note": row.note,
                }
            )
    return table


def consensus_as_printed() -> dict[str, Row]:
    """The list of plants with the medians handed down with the first list of ranges."""
    return {row["common_name"]: row for row in source_rows("plant_ph_consensus")}


def later_plants() -> dict[str, Row]:
    """Plants named together (lawn, vegetables) and plants that are not in the first list."""
    empty = {"tol_min_fao": "", "tol_max_fao": ""}
    return {row["key"]: {**empty, **row} for row in source_rows("plant_groups")}


def synonyms() -> dict[str, list[str]]:
    """Other names by plant: kept by hand, from brackets, bare genus, and grass for lawn grasses."""
    together = later_plants()
    plants = {**consensus_as_printed(), **together}
    kept: dict[str, list[str]] = {key: [] for key in plants}
    for key, group in together.items():
        kept[key] = group["synonyms"].split("|")
    for row in source_rows("plant_synonyms"):
        if row["plant"] not in kept:
            raise SystemExit(f"plant_synonyms: no plant {row['plant']}")
        kept[row["plant"]].extend(row["synonyms"].split("|"))
    for key, printed in plants.items():
        names = [*_names_from_brackets(key), *kept[key]]
        if printed["latin_name"].endswith(" spp."):
            names.append(printed["latin_name"].removesuffix(" spp.").lower())
        if printed["group"] == "lawn grass" and key not in together:
            names.append("grass")
        kept[key] = [n for n in dict.fromkeys(names) if n != key and n not in plants]
    return kept


def _names_from_brackets(key: str) -> list[str]:
    if "(" not in key:
        return []
    base, inner = key.rstrip(")").split(" (")
    if inner in QUALIFIERS:
        return [base, f"{inner} {base}"]
    return [base, inner] if " " not in inner else [base]


def _tolerated(printed: Row) -> dict[str, object]:
    if printed["note"].startswith("suspect: the FAO absolute limits"):
        return {"tolerated_low": None, "tolerated_high": None}
    return {
        "tolerated_low": number(printed["tol_min_fao"]),
        "tolerated_high": number(printed["tol_max_fao"]),
    }


def _plant_note(printed: Row, rows: list[PrintedRange], doubt: str) -> str:
    notes = [f"This range looks wrong: {doubt}."] if doubt else []
    if printed["note"].startswith("suspect: the FAO absolute limits"):
        notes.append("FAO survival limits left out: they do not contain the median range")
    elif printed["note"]:
        notes.append(printed["note"])
    notes += [
        f"left out: {row.ph_low}-{row.ph_high} ({row.note.removeprefix('suspect: ')})"
        for row in rows
        if row.note.startswith("suspect")
    ]
    return "; ".join(notes)


if __name__ == "__main__":
    build()
    for line in differences_from_printed(consensus_as_printed()) or ["medians as printed"]:
        print(line)
