"""Pages of the documentation that are written from the tables: the list of sources."""

from __future__ import annotations

import csv
import re
from collections import defaultdict
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
DATA = ROOT / "src" / "loamshift" / "tables" / "data"
HEAD = """# Sources

<!-- Written by `python tools/docs.py --refresh` from the shipped tables; do not edit here. -->

Every figure in a letter points to one of these. The grade says what kind of source it is, not
whether it was read: that stands with each figure (`loamshift why KEY`), as *seen*, *secondary*,
*memory*, *derived*, *judgement* or *common practice*. Under each source stands what rests on it.
"""
GRADES = {
    "journal": "Journals and theses",
    "book": "Books and handbooks",
    "standard": "Standards",
    "institution": "Institutions: universities, ministries, research stations, laboratories",
    "trade": "Trade: sellers and growers' bodies",
    "popular": "Popular pages, used for plant ranges and claims",
    "own": "Our own",
}
TABLE_WORDS = {
    "parameters": "parameters",
    "plant_sources": "plant ranges",
    "plants": "plants",
    "material_figures": "figures of materials",
    "material_sizes": "particle sizes",
    "materials": "materials",
    "sulfur_rates": "rows of sulfur tables",
    "lime_rates": "rows of lime tables",
    "caps": "limits",
    "cautions": "cautions",
    "caution_figures": "figures in cautions",
    "carbonate_rules": "rules on free lime",
    "lead_times": "lead times",
    "fizz": "classes of the fizz test",
    "ph_conversions": "conversions between pH methods",
    "buffer_ph_methods": "buffer-pH methods",
    "places": "places",
    "climate_points": "climate points",
    "textures": "textures",
    "media": "growing media",
    "sieves": "sieves",
    "kitchen_measures": "kitchen measures",
    "usual_amounts": "usual amounts of folk remedies",
}


def uses() -> dict[str, dict[str, list[str]]]:
    """What rests on each source: source key to table to the names of the rows."""
    found: dict[str, dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for path in sorted(DATA.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                name = f"{row['topic']}.{row['name']}" if path.stem == "parameters" else ""
                columns = [row[column] or "" for column in row if column.endswith("source_key")]
                for key in dict.fromkeys(re.split(r"[;,\s]+", " ".join(columns))):
                    if key:
                        found[key][path.stem].append(name)
    return found


def sources_page() -> str:
    """The list of sources as Markdown, by grade, each with what rests on it."""
    from loamshift.tables.references import load_references

    used = uses()
    references = load_references()
    grades = [*GRADES, *sorted({item.grade for item in references.values()} - set(GRADES))]
    lines = [HEAD]
    for grade in grades:
        entries = [item for item in references.values() if item.grade == grade]
        if not entries:
            continue
        lines += [f"## {GRADES.get(grade, grade.capitalize())}", ""]
        for item in sorted(entries, key=lambda entry: entry.key):
            link = f" <{item.url}>" if item.url else ""
            lines += [f"(source-{_id(item.key)})="]
            lines += [f"**{item.key}**. {_text(item.citation)}{link}\\"]
            lines += [f"*Used for* {_used_words(used.get(item.key, {}))}.", ""]
    return "\n".join(lines).rstrip() + "\n"


def _id(key: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", key.lower()).strip("-")


def _text(citation: str) -> str:
    return re.sub(r"([*_`<\[\]])", r"\\\1", citation)


def _used_words(tables: dict[str, list[str]]) -> str:
    if not tables:
        return "checks and explanations only"
    words = []
    for table, names in tables.items():
        named = sorted({name for name in names if name})
        if table == "parameters" and len(named) <= 12:
            words.append(", ".join(f"`{name}`" for name in named))
        else:
            words.append(f"{TABLE_WORDS.get(table, table.replace('_', ' '))} ({len(names)})")
    return "; ".join(words)
