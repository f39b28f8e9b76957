"""Limits of plants: where injury was printed, what is tolerated, and where a plant occurs.

A limit of injury counts only if it holds for pH in water of a soil, or was converted to it.
Limits of potting mixes without soil hold for containers; nutrient solutions hold for neither.
"""

from __future__ import annotations

from common import source_rows
from plant_ranges import (
    Row,
    basis_of,
    group_choice,
    later_rows,
    number,
    ph_water,
    source_choice,
)

KINDS = {"harmful": "harmful", "absolute": "tolerated"}
MEDIA = {"soilless medium": "container", "nutrient solution": "solution"}
SIDES = ("low", "high")

Cells = dict[str, object]
Choices = dict[tuple[str, str, str, str], Row]
"""Choices by plant, source code, side and, where a source prints two limits, the figure."""


def limit_rows() -> list[Cells]:
    """One row per printed limit, with the sides it decides and why."""
    decisions = _decisions()
    rows = [_limit(row, decisions) for row in later_rows() if _is_limit(row)]
    if unused := set(decisions) - {key for row in rows for key in _keys(row)}:
        raise SystemExit(f"plant_limit_choices: no printed limit for {sorted(unused)}")
    rows.sort(key=lambda row: (str(row["plant"]), str(row["kind"]), str(row["source_key"])))
    for row in rows:
        del row["source_code"]
    return rows


def deciding_limits(rows: list[Cells]) -> dict[str, Cells]:
    """The limits of each plant that count [pH in water], by plant."""
    found: dict[str, Cells] = {}
    for row in rows:
        limits = found.setdefault(str(row["plant"]), {})
        for side in SIDES:
            if row["kind"] == "occurrence" and row["decides"] == "low|high":
                _widen(limits, f"occurrence_{side}", row[f"ph_{side}"], low=side == "low")
            elif row["kind"] != "occurrence" and side in str(row["decides"]).split("|"):
                name = "container_harmful" if row["medium"] == "container" else "harmful"
                if f"{name}_{side}" in limits:
                    raise SystemExit(f"{row['plant']}: two limits decide the {side} side")
                limits[f"{name}_{side}"] = row[f"ph_{side}"]
    return found


def _widen(limits: Cells, name: str, value: object, *, low: bool) -> None:
    known = limits.get(name)
    if isinstance(value, float):
        widest = min if low else max
        limits[name] = widest(known, value) if isinstance(known, float) else value


def _decisions() -> Choices:
    return {
        (row["plant"], row["source_code"], row["side"], row["ph"]): row
        for row in source_rows("plant_limit_choices")
    }


def _is_limit(row: Row) -> bool:
    if row["common_name"].startswith("group: ") and not group_choice(row)["plant"]:
        return False
    return row["limit_kind"] in KINDS


def _plant(row: Row) -> str:
    if row["common_name"].startswith("group: "):
        return group_choice(row)["plant"]
    return row["common_name"]


def _keys(row: Cells) -> set[tuple[str, str, str, str]]:
    plant, code, printed = str(row["plant"]), str(row["source_code"]), str(row["printed"])
    sides = [f"tolerated {s}" if row["kind"] == "tolerated" else s for s in (*SIDES, "both")]
    return {(plant, code, side, ph) for side in sides for ph in ("", *printed.split("-"))}


def _choice(decisions: Choices, plant: str, code: str, side: str, ph: str) -> Row | None:
    return decisions.get((plant, code, side, ph)) or decisions.get((plant, code, side, ""))


def _limit(row: Row, decisions: Choices) -> Cells:
    plant, code = _plant(row), row["source_code"]
    basis = basis_of(row["note"])
    kind = "occurrence" if code == "USDA" else KINDS[row["limit_kind"]]
    reasons, decides = [], []
    for side, printed in zip(SIDES, (row["tol_min"], row["tol_max"]), strict=True):
        name = f"tolerated {side}" if kind == "tolerated" else side
        choice = _choice(decisions, plant, code, name, printed)
        if kind == "harmful" and printed and choice is None:
            raise SystemExit(f"plant_limit_choices: no choice for {plant}, {code}, {name}")
        if choice and printed:
            reasons.append(choice["why"])
            if choice["decides"] == "yes":
                decides.append(side)
    if kind == "occurrence":
        choice = _choice(decisions, plant, code, "both", "")
        decides = [] if choice else list(SIDES)
        reasons += [choice["why"]] if choice else []
    low, high = number(row["tol_min"]), number(row["tol_max"])
    notes = [part for part in row["note"].split("; ") if not part.startswith("DISAGREES")]
    return {
        "plant": plant,
        "kind": kind,
        "ph_low": None if low is None else ph_water(low, basis),
        "ph_high": None if high is None else ph_water(high, basis),
        "medium": MEDIA.get(basis, "soil"),
        "decides": "|".join(decides),
        "basis": basis,
        "printed": "-".join((row["tol_min"], row["tol_max"])),
        "grade": row["source_grade"],
        "source_key": source_choice(row)["source_key"],
        "where": f"entry {row['latin_name'] or row['common_name'].removeprefix('group: ')}",
        "evidence": "secondary" if row["evidence"] == "abstract" else row["evidence"],
        "note": "; ".join([*notes, *dict.fromkeys(reasons)]),
        "source_code": code,
    }
