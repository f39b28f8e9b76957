"""Where later figures contradict the first list by more than half a pH, and what was taken."""

from __future__ import annotations

from common import source_rows
from plant_ranges import Row, later_rows, source_choice

TAKEN = ("range", "this figure", "both", "neither")
COLUMNS = (
    "plant",
    "figure",
    "figure_is",
    "against",
    "taken",
    "why",
    "source_key",
    "where",
    "evidence",
    "note",
)
ABOUT = {
    "title": "Disagreements between printed plant ranges over 0.5 pH, and how each was settled",
    "script": "tools/tables/build_plants.py",
    "licence": "judgements of ours, Apache-2.0; figures from the sources named",
    "note": (
        "figure is that of source_key as printed; against is the median range of the first list. "
        "taken: range (the range stands), this figure, both (both stand, or both count in the "
        "median) or neither."
    ),
}


def disagreement_rows() -> list[dict[str, object]]:
    """One row per flagged figure; ends the build where one is not settled."""
    settled = _settled()
    table: list[dict[str, object]] = []
    for row in later_rows():
        if "DISAGREES" not in row["note"]:
            continue
        choice = settled.pop((row["common_name"], row["source_code"], row["limit_kind"]), None)
        if choice is None or choice["taken"] not in TAKEN:
            raise SystemExit(f"plant_disagreements: {row['common_name']}, {row['source_code']}")
        table.append(
            {
                "plant": row["common_name"],
                "figure": choice["figure"],
                "figure_is": "occurrence" if row["source_code"] == "USDA" else row["limit_kind"],
                "against": choice["against"],
                "taken": choice["taken"],
                "why": choice["why"],
                "source_key": source_choice(row)["source_key"],
                "where": f"entry {row['latin_name']}",
                "evidence": "judgement",
                "note": "",
            }
        )
    if settled:
        raise SystemExit(f"plant_disagreements: no such figure: {sorted(settled)}")
    return sorted(table, key=lambda row: (str(row["plant"]), str(row["source_key"])))


def doubtful_ranges() -> dict[str, str]:
    """Plants whose only printed range looks wrong, and why."""
    return {
        plant: row["why"]
        for (plant, code, _), row in _settled().items()
        if code == "USDA" and row["taken"] in ("this figure", "neither")
    }


def _settled() -> dict[tuple[str, str, str], Row]:
    return {
        (row["plant"], row["source_code"], row["limit_kind"]): row
        for row in source_rows("plant_disagreements")
    }
