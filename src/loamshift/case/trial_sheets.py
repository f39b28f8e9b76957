"""Record sheets of a trial: written as CSV and for a spreadsheet, and read back from either."""

from __future__ import annotations

import csv
import datetime
import io
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from loamshift.case.dates import date_from_typed
from loamshift.case.intake.sheet import Sheet
from loamshift.case.intake.sheets import read_sheets
from loamshift.case.mend import Mend, Refused, shown
from loamshift.case.numbers import number_from
from loamshift.case.schema_base import PH_METHOD
from loamshift.domain.message import Given, message
from loamshift.domain.ph import PhMethod
from loamshift.domain.spreadsheet_text import spreadsheet_text
from loamshift.domain.trial import Trial, TrialPlan
from loamshift.domain.trial_result import PotReading, Problem, RowRead, Trouble

COLUMNS: Final = ("pot", "block", "treatment", "day", "due", "date", "ph", "method", "note")
_ALSO: Final = {
    "label": "pot",
    "plot": "pot",
    "strip": "pot",
    "reading": "ph",
    "ph method": "method",
    "ph_method": "method",
    "notes": "note",
    "remark": "note",
    "read on": "date",
}
"""What people call a column, and its name here."""
_LOWEST_PH, _HIGHEST_PH = 2.0, 11.0
_WIDTHS: Final = {"treatment": 22, "due": 12, "date": 12, "method": 14, "note": 30}
_Cell = str | int | float | datetime.date | None


@dataclass(frozen=True, slots=True)
class RecordRead:
    """Rows of a record sheet, and cells of it that cannot be read."""

    rows: tuple[RowRead, ...]
    problems: tuple[Problem, ...]


def record_csv(plan: TrialPlan, readings: Sequence[PotReading] = ()) -> str:
    """A record sheet as CSV: one row for each pot and day, with the readings there are."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows(_plain(row) for row in _rows(plan, readings))
    return out.getvalue()


def record_xlsx(plan: TrialPlan, readings: Sequence[PotReading] = ()) -> bytes:
    """The same as a workbook, with a sheet that shows who stands where."""
    from openpyxl import Workbook
    from openpyxl.styles import Font, PatternFill
    from openpyxl.utils import get_column_letter
    from openpyxl.worksheet.datavalidation import DataValidation

    book = Workbook()
    sheet: Any = book.active
    sheet.title = "readings"
    sheet.append(COLUMNS)
    for row in _rows(plan, readings):
        sheet.append(row)
    bold, pale = Font(bold=True), PatternFill("solid", fgColor="FFF6E5")
    for number, name in enumerate(COLUMNS, start=1):
        sheet.cell(1, number).font = bold
        sheet.column_dimensions[get_column_letter(number)].width = _WIDTHS.get(name, 8)
        if name in ("date", "ph", "method", "note"):
            for line in range(2, sheet.max_row + 1):
                sheet.cell(line, number).fill = pale
    ph_column = get_column_letter(COLUMNS.index("ph") + 1)
    rule = DataValidation(
        type="decimal", operator="between", formula1=str(_LOWEST_PH), formula2=str(_HIGHEST_PH)
    )
    sheet.add_data_validation(rule)
    rule.add(f"{ph_column}2:{ph_column}{sheet.max_row}")
    sheet.freeze_panes = "A2"
    layout: Any = book.create_sheet("map")
    for place in plan.places:
        cell = layout.cell(place.row, place.column, _map_text(plan, place.label, place.treatment))
        cell.font = bold
        layout.column_dimensions[get_column_letter(place.column)].width = 24
    made = io.BytesIO()
    book.save(made)
    return made.getvalue()


def key_csv(plan: TrialPlan) -> str:
    """Which treatment stands behind each label, for a trial whose sheets do not say."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(("pot", "block", "treatment"))
    for place in plan.places:
        writer.writerow((place.label, place.block or "", _named(plan.trial, place.treatment)))
    return out.getvalue()


def data_csv(plan: TrialPlan, readings: Sequence[PotReading]) -> str:
    """The readings as they were analysed, each with its treatment and dose."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(("pot", "block", "treatment", "rate_g_m2", "day", "date", "ph", "method"))
    of_pot = {place.label: place for place in plan.places}
    for one in readings:
        place = of_pot[one.pot]
        treatment = plan.trial.treatments[place.treatment]
        writer.writerow(
            (
                one.pot,
                place.block or "",
                spreadsheet_text(treatment.name),
                treatment.rate_g_m2,
                one.day,
                one.on.isoformat(),
                one.ph,
                one.method.value,
            )
        )
    return out.getvalue()


def read_record(source: Path | bytes, *, trial: Trial, name: str = "") -> RecordRead:
    """The rows of a record sheet, from CSV or a workbook.

    Raises
    ------
    Refused
        Where no sheet of the file has the columns ``pot`` and ``ph``.
    """
    for sheet in read_sheets(source, name):
        head = _head(sheet)
        if head is not None:
            return _read(sheet, *head, trial=trial)
    file = Given(shown(name or (source.name if isinstance(source, Path) else "")))
    raise Refused(message("trial-no-record", file=file))


def _rows(plan: TrialPlan, readings: Sequence[PotReading]) -> list[tuple[_Cell, ...]]:
    trial = plan.trial
    read = {(one.day, one.pot): one for one in readings}
    days = sorted({*trial.days, *(one.day for one in readings)})
    found: list[tuple[_Cell, ...]] = []
    for day in days:
        for place in plan.places:
            one = read.get((day, place.label))
            found.append(
                (
                    int(place.label),
                    place.block,
                    None if trial.blind else _named(trial, place.treatment),
                    day,
                    trial.due(day),
                    None if one is None else one.on,
                    None if one is None else one.ph,
                    (trial.ph_method if one is None else one.method).value,
                    None,
                )
            )
    return found


def _named(trial: Trial, treatment: int) -> str:
    """The name of a treatment as a cell that no spreadsheet takes for a formula."""
    return spreadsheet_text(trial.treatments[treatment].name)


def _plain(row: tuple[_Cell, ...]) -> list[str]:
    return ["" if cell is None else str(cell) for cell in row]


def _map_text(plan: TrialPlan, label: str, treatment: int) -> str:
    return label if plan.trial.blind else f"{label}: {plan.trial.treatments[treatment].name}"


def _head(sheet: Sheet) -> tuple[int, dict[str, int]] | None:
    """The row of the titles, and where each column stands."""
    for number, cells in enumerate(sheet.rows[:30]):
        titles = [cell.strip().casefold() for cell in cells]
        columns = {_ALSO.get(title, title): place for place, title in enumerate(titles)}
        if {"pot", "ph"} <= set(columns):
            return number, columns
    return None


def _read(sheet: Sheet, head: int, columns: dict[str, int], *, trial: Trial) -> RecordRead:
    rows: list[RowRead] = []
    problems: list[Problem] = []
    for number in range(head + 1, len(sheet.rows)):
        cells = {name: sheet.cell(number, place).strip() for name, place in columns.items()}
        if not cells["ph"]:
            continue
        values: dict[str, Any] = {}
        for name, parse in (("ph", _ph), ("day", _day), ("date", _date), ("method", _method)):
            try:
                values[name] = parse(cells.get(name, ""))
            except (Mend, ValueError):
                values[name] = None
                said = message(
                    "trial-unreadable", column=name, row=number + 1, given=Given(shown(cells[name]))
                )
                problems.append(
                    Problem(kind=Trouble.UNREADABLE, said=said, refuses=name in ("ph", "method"))
                )
        if values["method"] is None and cells.get("method"):
            continue
        rows.append(
            RowRead(
                line=number + 1,
                pot=_label(cells["pot"]),
                day=values["day"],
                on=values["date"],
                ph=values["ph"],
                method=values["method"] or trial.ph_method,
                note=cells.get("note", "").removeprefix("'"),
            )
        )
    return RecordRead(tuple(rows), tuple(problems))


def _label(text: str) -> str:
    """A label as it stands on a pot: a workbook writes 7 as 7.0."""
    return text.removeprefix("'").removesuffix(".0").removeprefix("#").strip()


def _ph(text: str) -> float:
    figure = number_from(text)
    if not _LOWEST_PH <= figure <= _HIGHEST_PH:
        raise ValueError(text)
    return figure


def _day(text: str) -> int | None:
    return round(number_from(text)) if text else None


def _date(text: str) -> datetime.date | None:
    if not text:
        return None
    try:
        return datetime.date.fromisoformat(text[:10])
    except ValueError:
        found = date_from_typed(text)
        if found is None:
            raise
        return found


def _method(text: str) -> PhMethod | None:
    if not text:
        return None
    found = PH_METHOD.parse(text)
    assert isinstance(found, PhMethod)
    return found
