"""Printed pH ranges of plants: both lists on one basis, which rows count, and their median.

A range gives a lower and an upper end and enters the median. A target (one figure, or a class of
half a unit in a lime recommendation) has no ends: it enters no median, and counts as one more
source where it lies inside the median range.
"""

from __future__ import annotations

import csv
import re
from collections import defaultdict
from dataclasses import dataclass
from functools import cache
from statistics import median

import common
from common import source_rows

Row = dict[str, str]

SHARED_FIGURES = frozenset({"ALM", "DUC", "HTT"})
"""The almanac's list and two web lists that print the same figures: one family."""

TARGET_SLACK_PH = 0.25
"""A target may lie this far outside the median range and still support it [pH, judgement]."""

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


@dataclass(frozen=True, kw_only=True)
class PrintedRange:
    """One source's figure for one plant, on the basis of pH in water where that can be done."""

    ph_low: float
    ph_high: float
    tolerated_low: float | None
    tolerated_high: float | None
    grade: str
    code: str
    family: str
    use: str
    """range | target | container | no"""
    basis: str
    source_key: str
    where: str
    evidence: str
    note: str
    read: bool
    """False for a figure recalled and not opened."""

    @property
    def kind(self) -> str:
        """``target`` where no ends are meant, else ``range``."""
        return "target" if self.use == "target" or self.ph_low == self.ph_high else "range"


def ranges_by_plant() -> dict[str, list[PrintedRange]]:
    """Every printed range by plant or group, the first list before the later ones."""
    by_plant: dict[str, list[PrintedRange]] = defaultdict(list)
    for row in source_rows("plant_ph"):
        by_plant[row["common_name"]].append(_first(row))
    for row in later_rows():
        if row["limit_kind"] == "range":
            by_plant[row["common_name"]].append(_later(row, source_choice(row)))
        elif row["limit_kind"] == "group" and (choice := group_choice(row))["plant"]:
            by_plant[choice["plant"]].append(_later(row, choice))
    return dict(by_plant)


def later_rows() -> list[Row]:
    """Rows of the second list and of those found after it."""
    return [*source_rows("plant_ph_second"), *source_rows("plant_ph_third")]


@cache
def _choices() -> dict[tuple[str, str], Row]:
    return {(row["source_code"], row["plant"]): row for row in source_rows("plant_source_choices")}


def source_choice(row: Row) -> Row:
    """How a source is used: for this plant if it is named, else for all."""
    code = row["source_code"]
    return _choices().get((code, row["common_name"])) or _choices()[code, ""]


def group_choice(row: Row) -> Row:
    """Which group of plants a printed group belongs to, and how its figure is used."""
    for choice in source_rows("plant_group_rows"):
        if (choice["printed"], choice["source_code"]) == (row["common_name"], row["source_code"]):
            return {**source_choice(row), **choice}
    raise SystemExit(f"plant_group_rows: no choice for {row['common_name']} {row['source_code']}")


def counted(rows: list[PrintedRange]) -> tuple[list[PrintedRange], list[PrintedRange]]:
    """Ranges that carry the median, and targets that support it."""
    ranges = _one_a_family([row for row in rows if row.use == "range"])
    ranges = [row for row in ranges if row.read] or ranges
    low = median(row.ph_low for row in ranges)
    high = median(row.ph_high for row in ranges)
    families = {row.family for row in ranges}
    targets = []
    for row in rows:
        inside = low - TARGET_SLACK_PH <= row.ph_low and row.ph_high <= high + TARGET_SLACK_PH
        if row.use == "target" and inside and row.family not in families:
            targets.append(row)
            families.add(row.family)
    return ranges, targets


def _one_a_family(rows: list[PrintedRange]) -> list[PrintedRange]:
    """One row of each later source family; lists sharing figures in the first list all stay."""
    kept: list[PrintedRange] = []
    for row in rows:
        rival = next((k for k in kept if k.family == row.family and k.read), None)
        if rival is None or row.family == "almanac list" or row.code == rival.code:
            kept.append(row)
    return kept


def consensus(rows: list[PrintedRange]) -> dict[str, object]:
    """Medians, extremes and agreement of one plant's ranges [pH]."""
    ranges, targets = counted(rows)
    lows = [row.ph_low for row in ranges]
    highs = [row.ph_high for row in ranges]
    mids = [(low + high) / 2.0 for low, high in zip(lows, highs, strict=True)]
    return {
        "ph_low": round(median(lows), 3),
        "ph_high": round(median(highs), 3),
        "lowest": min(lows),
        "highest": max(highs),
        "n_sources": len({row.family for row in (*ranges, *targets)}),
        "n_ranges": len(ranges),
        "all_seen": all(row.read for row in ranges),
        "midpoint_spread": round(max(mids) - min(mids), 3),
        "ranges_agree": max(lows) < min(highs),
    }


def differences_from_printed(printed: dict[str, Row]) -> list[str]:
    """Where medians of the first list differ from those handed down with it by over 0.005 pH."""
    found = []
    first: dict[str, list[PrintedRange]] = defaultdict(list)
    for row in source_rows("plant_ph"):
        first[row["common_name"]].append(_first(row))
    for key, handed in printed.items():
        ours = consensus(first[key])
        for name, column in (
            ("ph_low", "ph_min_median"),
            ("ph_high", "ph_max_median"),
            ("lowest", "ph_min_lowest"),
            ("highest", "ph_max_highest"),
            ("n_sources", "n_sources"),
            ("midpoint_spread", "midpoint_spread"),
        ):
            value = float(str(ours[name]))
            if abs(value - float(handed[column])) > 0.0051:
                found.append(f"{key}: {name} {value} against {handed[column]}")
        if (handed["ranges_do_not_overlap"] == "no") != ours["ranges_agree"]:
            found.append(f"{key}: agreement against {handed['ranges_do_not_overlap']}")
        if (handed["all_seen"] == "yes") != ours["all_seen"]:
            found.append(f"{key}: all_seen against {handed['all_seen']}")
    return found


def basis_of(note: str) -> str:
    """The basis a note names: a salt solution, a paste, a medium without soil, or none."""
    if re.search(r"= about [\d.]+ in water", note):
        return "water"
    for words, basis in (
        ("soilless growing medium", "soilless medium"),
        ("nutrient solution", "nutrient solution"),
        ("CaCl2", "CaCl2"),
        ("pH KCl", "KCl"),
        ("saturated paste", "paste"),
    ):
        if words in note.split("; DISAGREES")[0]:
            return basis
    return "not given"


def ph_water(value: float, basis: str) -> float:
    """pH in water by the default conversion of ``ph_conversions`` [pH, two decimals]."""
    line = _conversions().get(basis)
    if line is None:
        return value
    return round(float(line["intercept"]) + float(line["slope"]) * value, 2)


def beyond_conversion(value: float, basis: str) -> bool:
    """True where a reading lies outside the range its conversion was found for."""
    line = _conversions().get(basis)
    return line is not None and not float(line["ph_low"]) <= value <= float(line["ph_high"])


@cache
def _conversions() -> dict[str, Row]:
    with (common.DATA / "ph_conversions.csv").open(encoding="utf-8", newline="") as handle:
        return {row["method"]: row for row in csv.DictReader(handle) if row["default"] == "yes"}


def _first(row: Row) -> PrintedRange:
    code = row["source_code"]
    return PrintedRange(
        ph_low=float(row["ph_min"]),
        ph_high=float(row["ph_max"]),
        tolerated_low=number(row["tol_min"]),
        tolerated_high=number(row["tol_max"]),
        grade=row["source_grade"],
        code=code,
        family="almanac list" if code in SHARED_FIGURES else code,
        use="no" if row["note"].startswith("suspect") else "range",
        basis="not given",
        source_key=SOURCE_KEYS[code],
        where=f"entry {row['latin_name']}",
        evidence=_evidence(row),
        note=row["note"],
        read=row["seen"] == "yes",
    )


def _later(row: Row, choice: Row) -> PrintedRange:
    basis = basis_of(row["note"])
    low, high = float(row["ph_min"]), float(row["ph_max"])
    if choice["ph_target"]:
        low = high = float(choice["ph_target"])
    notes = [part for part in row["note"].split("; ") if not part.startswith("DISAGREES")]
    if basis in ("CaCl2", "KCl", "paste"):
        notes.append(f"printed {low:g}-{high:g}")
        if beyond_conversion(low, basis) or beyond_conversion(high, basis):
            notes.append("beyond the range of the conversion")
    if choice["use"] == "target":
        notes.insert(0, "a target, not a range")
    use = choice["use"]
    if use == "range" and low == high:
        use = "target"
    return PrintedRange(
        ph_low=ph_water(low, basis),
        ph_high=ph_water(high, basis),
        tolerated_low=None,
        tolerated_high=None,
        grade=row["source_grade"],
        code=row["source_code"],
        family=choice["family"],
        use=use,
        basis=basis,
        source_key=choice["source_key"],
        where=f"entry {row['latin_name'] or row['common_name'].removeprefix('group: ')}",
        evidence="secondary" if row["evidence"] == "abstract" else row["evidence"],
        note="; ".join([*notes, *([choice["why"]] if use == "no" and choice["why"] else [])]),
        read=True,
    )


def _evidence(row: Row) -> str:
    if row["source_code"] == "MEM":
        return "common practice"
    if row["seen"] == "memory":
        return "memory"
    return "secondary" if row["source_code"] in QUOTED else "seen"


def number(text: str) -> float | None:
    """A number, or None for an empty cell."""
    return float(text) if text else None
