"""Record sheets: what is written comes back, from CSV and from a spreadsheet."""

import io
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from openpyxl import Workbook, load_workbook

from invented_trials import plan, rows, trial
from loamshift.case.mend import Refused
from loamshift.case.trial_rows import merged, rows_csv
from loamshift.case.trial_sheets import key_csv, read_record, record_csv, record_xlsx
from loamshift.domain.ph import PhMethod
from loamshift.domain.trial_result import Trouble
from loamshift.services.trial.understand import understand


def test_both_forms_come_back_alike() -> None:
    made = plan()
    readings = understand(made, rows(made, lambda name, day: 7.0)).readings
    text = read_record(record_csv(made, readings).encode(), trial=made.trial)
    book = read_record(record_xlsx(made, readings), trial=made.trial)
    assert text.rows == book.rows and not text.problems and not book.problems
    assert understand(made, text.rows).readings == readings


def test_an_empty_sheet_has_no_readings() -> None:
    made = plan()
    assert read_record(record_csv(made).encode(), trial=made.trial).rows == ()


def test_blind_sheets_do_not_say_which_is_which(tmp_path: Path) -> None:
    made = plan("blind = true")
    assert "peat" not in record_csv(made)
    path = tmp_path / "record.xlsx"
    path.write_bytes(record_xlsx(made))
    cells = [c.value for sheet in load_workbook(path) for row in sheet for c in row]
    assert "peat" not in " ".join(str(cell) for cell in cells)
    assert "peat" in key_csv(made)


def test_a_sheet_filled_in_by_hand_with_commas_and_other_titles() -> None:
    text = "Pot;Day;Read on;pH;pH method;Remark\n7;1;21.04.2026;6,85;CaCl2;wet\n8;1;;7,1;;\n"
    found = read_record(text.encode(), trial=trial())
    assert [(r.pot, r.day, r.on, r.ph, r.method) for r in found.rows] == [
        ("7", 1, date(2026, 4, 21), 6.85, PhMethod.CACL2),
        ("8", 1, None, 7.1, PhMethod.WATER_1_2_5),
    ]


def test_cells_that_cannot_be_read_are_named_by_row_and_column() -> None:
    text = "pot,day,date,ph,method\n1,1,2026-04-21,71,\n2,1,soon,7.1,\n3,1,,7.0,nose\n4,x,,7.2,\n"
    found = read_record(text.encode(), trial=trial())
    told = [(p.kind, p.said.values["row"], p.refuses) for p in found.problems]
    assert told == [
        (Trouble.UNREADABLE, 2, True),
        (Trouble.UNREADABLE, 3, False),
        (Trouble.UNREADABLE, 4, True),
        (Trouble.UNREADABLE, 5, False),
    ]
    assert [row.pot for row in found.rows if row.ph is not None] == ["2", "4"]


def test_another_table_is_refused() -> None:
    with pytest.raises(Refused, match="no record sheet"):
        read_record(b"name,age\nx,1\n", trial=trial(), name="people.csv")


def test_a_workbook_with_another_sheet_first(tmp_path: Path) -> None:
    book = Workbook()
    book.active.title = "about"  # type: ignore[union-attr]
    sheet = book.create_sheet("data")
    sheet.append(("pot", "day", "ph"))
    sheet.append((3, 0, 7.25))
    path = tmp_path / "own.xlsx"
    book.save(path)
    (row,) = read_record(path, trial=trial()).rows
    assert (row.pot, row.day, row.ph) == ("3", 0, 7.25)


def test_rows_are_kept_and_a_later_sheet_corrects_them() -> None:
    made = plan()
    first = tuple(rows(made, lambda name, day: 7.0))
    better = replace(first[0], ph=6.5)
    kept = merged(first, (better,))
    assert len(kept) == len(first) and kept[-1].ph == 6.5
    again = read_record(rows_csv(kept).encode(), trial=made.trial).rows
    assert [(r.pot, r.day, r.on, r.ph) for r in again] == [(r.pot, r.day, r.on, r.ph) for r in kept]


def test_no_cell_of_a_sheet_is_a_formula_and_what_was_typed_comes_back() -> None:
    made = plan()
    named = replace(made.trial.treatments[0], name="=1+1")
    made = replace(made, trial=replace(made.trial, treatments=(named, *made.trial.treatments[1:])))
    noted = replace(next(iter(rows(made, lambda name, day: 7.0))), note="-dry")
    for text in (record_csv(made), key_csv(made), rows_csv((noted,))):
        assert not any(
            cell[:1] in ("=", "-") for line in text.splitlines() for cell in line.split(",")
        )
    sheet = load_workbook(io.BytesIO(record_xlsx(made)))["readings"]
    assert all(cell.data_type != "f" for row in sheet.iter_rows() for cell in row)
    assert read_record(rows_csv((noted,)).encode(), trial=made.trial).rows[0].note == "-dry"
