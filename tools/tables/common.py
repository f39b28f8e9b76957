"""What the table-building scripts share: where sources lie and how tables are written."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

HERE = Path(__file__).resolve().parent
SOURCES = HERE / "sources"
PARAMETERS = HERE / "parameters"
REFERENCES = HERE / "references"
DATA = HERE.parent.parent / "src" / "loamshift" / "tables" / "data"


def source_rows(name: str) -> list[dict[str, str]]:
    """Rows of a source CSV, as text by column."""
    with (SOURCES / f"{name}.csv").open(encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))


def write_table(
    name: str,
    columns: Sequence[str],
    rows: Iterable[Mapping[str, object]],
    *,
    about: Mapping[str, str],
) -> None:
    """Write ``data/<name>.csv`` and, beside it, ``<name>.toml`` saying what it is.

    ``about`` needs ``title``, ``script`` and ``licence``; ``errata`` and ``note`` may follow.
    The same sources always give the same bytes.
    """
    DATA.mkdir(parents=True, exist_ok=True)
    with (DATA / f"{name}.csv").open("w", encoding="utf-8", newline="") as handle:
        writer = csv.DictWriter(handle, columns, lineterminator="\n")
        writer.writeheader()
        for row in rows:
            writer.writerow({column: _cell(row.get(column, "")) for column in columns})
    lines = [f"{key} = {_quoted(value)}" for key, value in about.items()]
    listed = ", ".join(_quoted(column) for column in columns)
    lines.append(f"columns = [{listed}]")
    (DATA / f"{name}.toml").write_text("\n".join(lines) + "\n", encoding="utf-8")


def _cell(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.10g}"
    return str(value)


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
