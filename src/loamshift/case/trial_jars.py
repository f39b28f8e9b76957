"""The sheet of a titration in jars, written and read back, and its entries for a case file."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from loamshift.case.intake.sheets import read_sheets
from loamshift.case.mend import Mend, Refused, shown
from loamshift.case.numbers import number_from
from loamshift.domain.message import Given, message
from loamshift.domain.trial_jars import JarPlan

COLUMNS: Final = ("jar", "acid_mmolc_kg", "acid_ml", "lime_g", "ph")
_LOWEST_PH, _HIGHEST_PH = 2.0, 11.0


def jars_csv(plan: JarPlan) -> str:
    """The sheet of a series, its pH left to fill in."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for jar in plan.jars:
        cells = (jar.number, jar.acid_mmolc_kg, round(jar.acid_ml, 2), round(jar.lime_g, 3), "")
        writer.writerow(cells)
    return out.getvalue()


def read_jars_sheet(source: Path | bytes, name: str = "") -> tuple[tuple[float, float], ...]:
    """Acid added and pH read of each jar that was read [mmolc/kg, pH].

    Raises
    ------
    Refused
        Where the file is no such sheet, or a cell of it cannot be read.
    """
    file = Given(shown(name or (source.name if isinstance(source, Path) else "")))
    for sheet in read_sheets(source, name):
        for head, cells in enumerate(sheet.rows[:30]):
            titles = [cell.strip().casefold() for cell in cells]
            if "acid_mmolc_kg" not in titles or "ph" not in titles:
                continue
            acid, ph = titles.index("acid_mmolc_kg"), titles.index("ph")
            rows = [
                (number + 1, sheet.cell(number, acid), sheet.cell(number, ph))
                for number in range(head + 1, len(sheet.rows))
            ]
            return tuple(_point(row) for row in rows if row[2].strip())
    raise Refused(message("jars-no-sheet", file=file))


def titration_toml(points: Sequence[tuple[float, float]]) -> str:
    """The entries of a case file that hold a titration."""
    return "".join(
        f"\n[[titration]]\nacid_mmolc_kg = {acid:g}\nph = {ph:g}\n" for acid, ph in points
    )


def _point(row: tuple[int, str, str]) -> tuple[float, float]:
    line, acid, ph = row
    try:
        read = number_from(ph)
        if not _LOWEST_PH <= read <= _HIGHEST_PH:
            raise ValueError(ph)
        return number_from(acid), read
    except (Mend, ValueError) as error:
        said = message("trial-unreadable", column="ph", row=line, given=Given(shown(ph)))
        raise Refused(said) from error
