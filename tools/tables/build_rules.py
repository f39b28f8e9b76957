"""Caps, cautions, carbonate rules and lead times; printed sulfur and lime rates beside them.

A cap is kept by hand in ``sources/caps.csv`` with the row it was read from; the figure is
compared with that row, so that the two cannot drift apart, and converted to g/m2 here.
"""

from __future__ import annotations

import re

from common import source_rows, write_table
from printed_rates import build_rates

from loamshift.units import (
    OUNCE_G,
    SQUARE_FOOT_M2,
    g_m2_from_lb_100ft2,
    g_m2_from_lb_acre,
)

Row = dict[str, str]

ROW_BAND_FT = 4.0
"""Width of a treated row where a rate is printed per length of row: assumed."""
G_M2_PER_UNIT = {
    "lb/100 sq ft": g_m2_from_lb_100ft2(1.0),
    "lb/1000 sq ft": g_m2_from_lb_100ft2(0.1),
    "lb/acre": g_m2_from_lb_acre(1.0),
    "kg/ha": 0.1,
    "lb/100 ft of row": g_m2_from_lb_100ft2(1.0 / ROW_BAND_FT),
    "short ton S/acre": g_m2_from_lb_acre(2000.0),
    "oz S per sq ft": OUNCE_G / SQUARE_FOOT_M2,
}
CAP_COLUMNS = (
    "key",
    "applies_to",
    "situation",
    "per",
    "limit_g_m2",
    "wait_months",
    "used",
    "source_key",
    "where",
    "evidence",
    "note",
)
FIGURE_COLUMNS = (
    *("code", "name", "value", "high", "unit"),
    *("cap", "source_key", "evidence", "note"),
)
RULE_COLUMNS = (
    "row",
    "item",
    "low",
    "high",
    "unit",
    "sulfur_g_m2_per_pct_caco3",
    "conditions",
    "source_key",
    "where",
    "evidence",
    "note",
)
TIME_COLUMNS = (
    "row",
    "item",
    "low",
    "high",
    "unit",
    "conditions",
    "source_key",
    "where",
    "evidence",
    "note",
)
RULE_SOURCES = {
    1: "cropworx-2006",
    2: "lawn-forum-2017",
    3: "trade-lime-sulfur-page",
    4: "gardener-forum-2014",
    5: "own-arithmetic",
    6: "combs-2007",
    7: "ontario-blueberry-ph",
    8: "extension-34373",
    9: "lab-newsletter-2025",
    10: "ohio-agf-507-reprint",
    11: "nmsu-plan-2012",
    12: "rhs-acidifying-soil",
    13: "calcareous-green-chapter",
    45: "ontario-blueberry-ph",
    46: "akers-2006",
    47: "tennessee-blueberries",
    48: "gu-crouse-2010",
    49: "yarborough-2008",
    50: "extension-34373",
    51: "sulfur-page-agroconection",
    52: "nebraska-tree-chlorosis",
    53: "whitcomb-1986",
    54: "zehnder-2013",
    55: "ohio-agf-507-reprint",
    56: "machado-bryla-2012",
    57: "desert-horticulture-2012",
    58: "sulfur-page-biology",
}
SECOND_HAND = frozenset({10, 46, 53, 54, 55, 56})
"""Rows read in a reprint, a quotation or an abstract."""
LICENCE = "facts with their sources; our selection Apache-2.0"


def build() -> None:
    """Write every table of rules."""
    build_caps()
    build_cautions()
    build_carbonate_rules()
    build_lead_times()
    build_rates()


def build_caps() -> None:
    """Write ``caps.csv``."""
    rows = cap_rows()
    governing = [(r["applies_to"], r["situation"], r["per"]) for r in rows if r["used"] == "yes"]
    twice = {triple for triple in governing if governing.count(triple) > 1}
    none = {(r["applies_to"], r["situation"], r["per"]) for r in rows} - set(governing)
    if twice or none:
        raise SystemExit(f"caps: governed twice {sorted(twice)}, by none {sorted(none)}")
    write_table(
        "caps",
        CAP_COLUMNS,
        rows,
        about={
            "title": "Printed limits on how much goes on, and the one that governs",
            "script": "tools/tables/build_rules.py",
            "licence": LICENCE,
            "errata": (
                "sulfur-lawn-suspect: 10 lb/100 sq ft, 20 times the same university's limit "
                "for turf; 1000 sq ft was probably meant."
            ),
            "note": (
                "Sulfur as S, limestone as CaCO3, nitrogen as N, salts as sold. No single-dose "
                "cap by texture was found. Not converted: a handful of sulfur per m2 a year "
                "(ABC Gardening Australia; the mass of a handful is not given) and nitrogen per "
                "plant. One row with used = yes governs each triple of applies_to, situation "
                "and per."
            ),
        },
    )


def cap_rows() -> list[dict[str, object]]:
    """Caps converted to g/m2, each compared with the row it was read from."""
    rows: list[dict[str, object]] = []
    for row in source_rows("caps"):
        rate = float(row["rate"])
        if row["from_table"]:
            _compare_with_source(row, rate)
        rows.append({**row, "limit_g_m2": round(rate * G_M2_PER_UNIT[row["unit"]], 2)})
    return rows


def _compare_with_source(row: Row, rate: float) -> None:
    source = next(r for r in source_rows(row["from_table"]) if r["row"] == row["from_row"])
    printed = " ".join(source.get(c, "") for c in ("item", "low", "high", "value", "note"))
    figures = {float(text) for text in re.findall(r"\d+(?:\.\d+)?", printed)}
    derived = row["evidence"] == "derived"
    if rate not in figures and not (derived and {rate / 2.0, rate * 2.0} & figures):
        raise SystemExit(f"cap {row['key']}: {rate} is not in the row it was read from")


def build_cautions() -> None:
    """Write ``cautions.csv`` and ``caution_figures.csv``; their words are message files."""
    write_table(
        "cautions",
        ("code", "kind", "source_key", "evidence", "note"),
        source_rows("cautions"),
        about={
            "title": "What a careful adviser prints beside a plan, by code",
            "script": "tools/tables/build_rules.py",
            "licence": "our selection Apache-2.0",
            "note": (
                "kind is hazard (to whoever handles or spreads it, and to what lives there), bed "
                "(something wrong with the bed) or explanation. source_key and evidence are those "
                "of the main statement; caution_figures names those of each figure."
            ),
        },
    )
    write_table(
        "caution_figures",
        FIGURE_COLUMNS,
        caution_figure_rows(),
        about={
            "title": "Figures in the cautions, by code and by their name in the message",
            "script": "tools/tables/build_rules.py",
            "licence": LICENCE,
            "note": "Unit 1 is a count: minutes, months or ppm. cap names the limit it is from.",
        },
    )


def caution_figure_rows() -> list[dict[str, object]]:
    """Figures of the cautions; those that are a printed limit are taken from its row."""
    limits = {str(row["key"]): row for row in cap_rows()}
    rows: list[dict[str, object]] = []
    for row in source_rows("caution_figures"):
        if not row["cap"]:
            rows.append(dict(row))
            continue
        limit = limits[row["cap"]]
        if row["value"] or row["source_key"] != limit["source_key"]:
            raise SystemExit(f"caution {row['code']}: {row['name']} is not the limit {row['cap']}")
        rows.append({**row, "value": limit["limit_g_m2"]})
    return rows


def build_carbonate_rules() -> None:
    """Write ``carbonate_rules.csv``: what printed texts say about free lime and sulfur."""
    rows = []
    for row in source_rows("sulfur_rules"):
        if row["category"] != "carbonate":
            continue
        per_pct = None
        if row["unit"] in G_M2_PER_UNIT:
            per_pct = round(float(row["low"]) * G_M2_PER_UNIT[row["unit"]], 1)
        elif row["unit"] == "g S per g CaCO3":
            per_pct = round(float(row["low"]) * 10.0 * 15.0 * 1.3 * 10.0, 1)
        rows.append({**_rule(row), "sulfur_g_m2_per_pct_caco3": per_pct})
    write_table(
        "carbonate_rules",
        RULE_COLUMNS,
        rows,
        about={
            "title": "Printed rules on free lime and sulfur, for the record",
            "script": "tools/tables/build_rules.py",
            "licence": LICENCE,
            "note": (
                "sulfur_g_m2_per_pct_caco3 is converted from the printed unit; for row 5, our "
                "stoichiometry, it is for 15 cm at 1.3 g/cm3. Row 4 is about twice the others "
                "and unverified."
            ),
        },
    )


def build_lead_times() -> None:
    """Write ``lead_times.csv``: how long printed texts say that sulfur takes."""
    write_table(
        "lead_times",
        TIME_COLUMNS,
        [
            _rule(row)
            for row in source_rows("sulfur_rules")
            if row["category"] in ("lead time", "temperature", "best temperature")
        ],
        about={
            "title": "Printed lead times and temperatures of sulfur, for the record",
            "script": "tools/tables/build_rules.py",
            "licence": LICENCE,
        },
    )


def _rule(row: Row) -> dict[str, object]:
    number = int(row["row"])
    evidence = "derived" if row["seen"] == "computed" else "seen"
    return {
        "row": number,
        "item": row["item"],
        "low": row["low"],
        "high": row["high"],
        "unit": row["unit"],
        "conditions": row["conditions"],
        "source_key": RULE_SOURCES[number],
        "where": "text",
        "evidence": "secondary" if number in SECOND_HAND else evidence,
        "note": row["note"],
    }


if __name__ == "__main__":
    build()
