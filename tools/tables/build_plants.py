"""Plants: medians over the printed ranges, recomputed from one row per plant and source.

A median is taken over every row read in its source; rows marked suspect are left out, and
recalled rows count only where nothing was read. Lists that share figures are one family.
"""

from __future__ import annotations

from collections import defaultdict
from statistics import median

from common import source_rows, write_table

Row = dict[str, str]

SHARED_FIGURES = frozenset({"ALM", "DUC", "HTT"})
"""The almanac's list and two web lists that print the same figures: one family."""

SOURCE_KEYS = {
    "EPD": "grow-edible-plants",
    "FAO": "fao-ecocrop",
    "ALM": "almanac-ph-list",
    "ALMm": "almanac-ph-list",
    "BLG": "garden-ph-list-2016",
    "HTT": "vegetable-ph-list",
    "UCT": "uconn-soil-test-guide",
    "TBR": "barcel-vegetable-ph",
    "BLM": "fruit-tree-ph-list",
    "DUC": "cox-alkaline-shrubs-2017",
    "MEM": "common-practice",
    "MSS": "msstate-p2571",
    "GNET": "shrub-tree-ph-list",
    "GT": "perennial-ph-list",
    "MEMT": "beard-1973",
    "UME": "umaine-lawn-grass",
    "ACE": "alabama-turf-quoted",
    "NUR": "nursery-ph-list-2010",
    "ASA": "azalea-society-quoted",
    "ACS": "camellia-society-quoted",
    "ARS": "rose-society-quoted",
    "SUN": "nursery-ph-targets",
    "UCM": "martin-2020-hydrangea",
    "RAM": "master-gardener-hydrangea",
}
QUOTED = frozenset({"ACE", "ASA", "ACS", "ARS"})
"""Ranges read only where another page quotes them."""

QUALIFIERS = frozenset(
    {"european", "fox", "key", "arabica", "american", "japanese", "german", "roman", "giant"}
    | {"ornamental", "flowering"}
)
"""Words in brackets that narrow a name; other words in brackets are a second name."""

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
    "n_sources",
    "all_seen",
    "midpoint_spread",
    "ranges_agree",
    "calcifuge",
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
    "grade",
    "family",
    "used",
    "source_key",
    "where",
    "evidence",
    "note",
)


def build() -> None:
    """Write ``plants.csv`` and ``plant_sources.csv``."""
    write_table(
        "plants",
        PLANT_COLUMNS,
        plant_rows(),
        about={
            "title": "Plants: median of the printed pH ranges, pH in water assumed",
            "script": "tools/tables/build_plants.py",
            "licence": "medians of ours, Apache-2.0; figures from the sources of plant_sources.csv",
            "range": "pH 2 to 10",
            "note": (
                "No source says by what method its pH was read: taken as pH in water. "
                "tolerated_low and tolerated_high are EcoCrop's absolute limits (credit: FAO): "
                "survival, not good growth; left out where they do not contain the median range. "
                "ranges_agree is no where ranges merely touch. n_sources counts families: the "
                "almanac's list and two web lists share figures and count once."
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
            "errata": (
                "used = no: chilli and habanero pepper 7-8.5 and rosemary 5-6 in the edible "
                "plant database are out of line with every other list; recalled ranges where "
                "a range was read."
            ),
        },
    )


def plant_rows() -> list[dict[str, object]]:
    """One row per plant, medians recomputed from the source rows."""
    by_plant = rows_by_plant()
    spellings = synonyms()
    return [
        {
            "key": key,
            "latin_name": printed["latin_name"],
            "group": printed["group"],
            "synonyms": "|".join(spellings[key]),
            **consensus(by_plant[key]),
            **_tolerated(printed),
            "calcifuge": any("calcifuge" in row["note"] for row in by_plant[key]),
            "source_key": "own-arithmetic",
            "evidence": "derived",
            "note": _plant_note(printed, by_plant[key]),
        }
        for key, printed in consensus_as_printed().items()
    ]


def plant_source_rows() -> list[dict[str, object]]:
    """One row per plant and source; ``used`` says which carry the median."""
    table: list[dict[str, object]] = []
    for key, rows in sorted(rows_by_plant().items()):
        used = used_rows(rows)
        for row in sorted(rows, key=lambda r: (r["source_grade"], r["source_code"])):
            table.append(
                {
                    "plant": key,
                    "ph_low": float(row["ph_min"]),
                    "ph_high": float(row["ph_max"]),
                    "tolerated_low": _number(row["tol_min"]),
                    "tolerated_high": _number(row["tol_max"]),
                    "grade": row["source_grade"],
                    "family": family(row),
                    "used": row in used,
                    "source_key": SOURCE_KEYS[row["source_code"]],
                    "where": f"entry {row['latin_name']}",
                    "evidence": _evidence(row),
                    "note": row["note"],
                }
            )
    return table


def rows_by_plant() -> dict[str, list[Row]]:
    """Source rows by common name."""
    by_plant: dict[str, list[Row]] = defaultdict(list)
    for row in source_rows("plant_ph"):
        by_plant[row["common_name"]].append(row)
    return dict(by_plant)


def consensus_as_printed() -> dict[str, Row]:
    """The list of plants with the medians as handed down, to compare ours with."""
    return {row["common_name"]: row for row in source_rows("plant_ph_consensus")}


def used_rows(rows: list[Row]) -> list[Row]:
    """Rows that carry the median: never suspect ones, recalled ones only if none was read."""
    fit = [row for row in rows if not row["note"].startswith("suspect")]
    return [row for row in fit if row["seen"] == "yes"] or fit


def family(row: Row) -> str:
    """The family of lists a row belongs to."""
    return "almanac list" if row["source_code"] in SHARED_FIGURES else row["source_code"]


def consensus(rows: list[Row]) -> dict[str, object]:
    """Medians, extremes and agreement of one plant's ranges [pH]."""
    used = used_rows(rows)
    lows = [float(row["ph_min"]) for row in used]
    highs = [float(row["ph_max"]) for row in used]
    mids = [(low + high) / 2.0 for low, high in zip(lows, highs, strict=True)]
    return {
        "ph_low": round(median(lows), 3),
        "ph_high": round(median(highs), 3),
        "lowest": min(lows),
        "highest": max(highs),
        "n_sources": len({family(row) for row in used}),
        "all_seen": all(row["seen"] == "yes" for row in used),
        "midpoint_spread": round(max(mids) - min(mids), 3),
        "ranges_agree": max(lows) < min(highs),
    }


def differences_from_printed() -> list[str]:
    """Where our medians differ from the consensus file, beyond its rounding to 0.01 pH."""
    found = []
    by_plant = rows_by_plant()
    for key, printed in consensus_as_printed().items():
        ours = consensus(by_plant[key])
        for name, column in (
            ("ph_low", "ph_min_median"),
            ("ph_high", "ph_max_median"),
            ("lowest", "ph_min_lowest"),
            ("highest", "ph_max_highest"),
            ("n_sources", "n_sources"),
            ("midpoint_spread", "midpoint_spread"),
        ):
            value = float(str(ours[name]))
            if abs(value - float(printed[column])) > 0.0051:
                found.append(f"{key}: {name} {value} against {printed[column]}")
        if (printed["ranges_do_not_overlap"] == "no") != ours["ranges_agree"]:
            found.append(f"{key}: agreement against {printed['ranges_do_not_overlap']}")
        if (printed["all_seen"] == "yes") != ours["all_seen"]:
            found.append(f"{key}: all_seen against {printed['all_seen']}")
    return found


def synonyms() -> dict[str, list[str]]:
    """Other names by plant: kept by hand, from brackets, bare genus, and lawn for every grass."""
    plants = consensus_as_printed()
    kept: dict[str, list[str]] = {key: [] for key in plants}
    for row in source_rows("plant_synonyms"):
        if row["plant"] not in kept:
            raise SystemExit(f"plant_synonyms: no plant {row['plant']}")
        kept[row["plant"]].extend(row["synonyms"].split("|"))
    for key, printed in plants.items():
        names = [*_names_from_brackets(key), *kept[key]]
        if printed["latin_name"].endswith(" spp."):
            names.append(printed["latin_name"].removesuffix(" spp.").lower())
        if printed["group"] == "lawn grass":
            names += ["lawn", "turf", "grass", "lawn grass", "turfgrass"]
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
        "tolerated_low": _number(printed["tol_min_fao"]),
        "tolerated_high": _number(printed["tol_max_fao"]),
    }


def _plant_note(printed: Row, rows: list[Row]) -> str:
    notes = []
    if printed["note"].startswith("suspect: the FAO absolute limits"):
        notes.append("FAO survival limits left out: they do not contain the median range")
    elif printed["note"]:
        notes.append(printed["note"])
    notes += [
        f"left out: {row['ph_min']}-{row['ph_max']} ({row['note'].removeprefix('suspect: ')})"
        for row in rows
        if row["note"].startswith("suspect")
    ]
    return "; ".join(notes)


def _evidence(row: Row) -> str:
    if row["source_code"] == "MEM":
        return "common practice"
    if row["seen"] == "memory":
        return "memory"
    return "secondary" if row["source_code"] in QUOTED else "seen"


def _number(text: str) -> float | None:
    return float(text) if text else None


if __name__ == "__main__":
    build()
    for line in differences_from_printed() or ["medians as printed"]:
        print(line)
