"""Join ``parameters/<topic>.csv`` into one table, and the reference fragments into one list."""

from __future__ import annotations

import csv
import tomllib

from common import DATA, PARAMETERS, REFERENCES, write_table

COLUMNS = (
    "topic",
    "name",
    "value",
    "unit",
    "low",
    "high",
    "sd",
    "source_key",
    "where",
    "evidence",
    "note",
)


def build_parameters() -> None:
    """Write ``parameters.csv`` from every topic file."""
    rows: list[dict[str, object]] = []
    for path in sorted(PARAMETERS.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as handle:
            rows.extend({"topic": path.stem, **row} for row in csv.DictReader(handle))
    write_table(
        "parameters",
        COLUMNS,
        rows,
        about={
            "title": "Coefficients of the model",
            "script": "tools/tables/build_parameters.py",
            "licence": "facts with their sources; our selection Apache-2.0",
        },
    )


def build_references() -> None:
    """Write ``references.toml`` from every fragment; a key may stand in one fragment only."""
    entries: dict[str, dict[str, str]] = {}
    for path in sorted(REFERENCES.glob("*.toml")):
        for key, entry in tomllib.loads(path.read_text(encoding="utf-8")).items():
            if key in entries and entries[key] != entry:
                raise SystemExit(f"reference {key} stands twice with different texts ({path.name})")
            entries[key] = entry
    blocks = []
    for key in sorted(entries):
        fields = "".join(
            f'{name} = "{_escaped(entries[key][name])}"\n'
            for name in ("citation", "url", "grade")
            if entries[key].get(name)
        )
        blocks.append(f"[{key}]\n{fields}")
    DATA.mkdir(parents=True, exist_ok=True)
    (DATA / "references.toml").write_text("\n".join(blocks), encoding="utf-8")


def _escaped(text: str) -> str:
    return text.replace("\\", "\\\\").replace('"', '\\"')


if __name__ == "__main__":
    build_parameters()
    build_references()
