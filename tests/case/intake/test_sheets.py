"""Every kind of file becomes sheets of text cells at their places, or says why not."""

from __future__ import annotations

import zlib
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from case.intake.made import changed, csv_of, ods, pdf, xlsx, zipped
from loamshift.case.intake.sheets import Sheet, read_sheets
from loamshift.case.mend import Refused, in_english
from tries import tries

FILES = Path(__file__).parent / "files"
WIDE = (("id", "pH", "OM"), ("A", "6,8", "1 234,5"), ("B", "7,1", "2"))

WORKBOOKS = (xlsx({"R": WIDE}), ods(WIDE), (FILES / "older.xls").read_bytes())
"""Made once: a workbook holds the time it was made at."""


def _only(data: bytes) -> Sheet:
    (sheet,) = read_sheets(data, "report")
    return sheet


def _notes(sheet: Sheet) -> list[str]:
    return [in_english(note) for note in sheet.notes]


def _refused(data: bytes | Path) -> str:
    with pytest.raises(Refused) as caught:
        read_sheets(data, "report")
    return str(caught.value)


@pytest.mark.parametrize("delimiter", [";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
def test_text_of_any_delimiter_and_encoding(delimiter: str, encoding: str) -> None:
    text = "\r\n".join(delimiter.join(row) for row in WIDE)
    assert _only(text.encode(encoding)).rows == WIDE


def test_commas_as_delimiter_keep_quoted_decimal_commas() -> None:
    sheet = _only(csv_of("id,pH,OM", 'A,"6,8","1 234,5"', 'B,"7,1",2'))
    assert sheet.rows == WIDE


def test_a_semicolon_wins_over_decimal_commas_in_every_column() -> None:
    rows = _only(csv_of("id;a;b;c", *(f"{n};1,{n};2,{n};3,{n}" for n in range(9)))).rows
    assert rows[1] == ("0", "1,0", "2,0", "3,0")


def test_latin_letters_are_read_and_told() -> None:
    sheet = _only("Probe;Kalkgehalt für Böden\nA;3".encode("cp1252"))
    assert sheet.rows[0][1] == "Kalkgehalt für Böden"
    assert any("Western European" in note for note in _notes(sheet))


def test_a_quotation_mark_never_closed_swallows_no_row() -> None:
    sheet = _only(csv_of("id,depth", 'A,6"', 'B,"6', *(f"S{n},6" for n in range(60))))
    assert len(sheet.rows) == 63
    assert any("line 3" in note for note in _notes(sheet))


def test_lines_in_a_cell_keep_the_row_numbers_of_the_file() -> None:
    sheet = _only(csv_of("id,note", 'A,"one', 'two"', "B,x"))
    assert sheet.rows == (("id", "note"), ("A", "one two"), (), ("B", "x"))


def test_a_workbook_keeps_places_days_and_merged_cells() -> None:
    data = xlsx(
        {
            "Results": [[], ["Sample", "pH", None], ["A", 6.8, date(2026, 3, 4)]],
            "Legend": [["x"]],
        },
        merge={"Results": "B2:C2"},
    )
    first, second = read_sheets(data, "report.xlsx")
    assert first.rows[2] == ("A", "6.8", "2026-03-04")
    assert first.cell(1, 0) == "Sample" and first.cell(99, 99) == ""
    assert first.merged == ((1, 1, 1, 2),)
    assert second.name == "Legend"


def test_formulas_are_told_with_their_cells() -> None:
    data = xlsx({"Results": [["id", "pH"], ["A", "=6+0.5"]]})
    notes = _notes(_only(data))
    assert any("(B2)" in note and "nothing was calculated" in note for note in notes)
    assert any("no stored value" in note and "B2" in note for note in notes)


def test_macros_are_told_and_not_run() -> None:
    data = changed(xlsx({"R": [["id"], ["A"]]}), name="xl/vbaProject.bin", content=b"Sub Auto()")
    assert any("macros" in note for note in _notes(_only(data)))


def test_an_older_workbook_is_read() -> None:
    """Written by another program, with a formula that has no stored value."""
    (sheet,) = read_sheets(FILES / "older.xls")
    assert sheet.rows[1] == ("Bed 1", "6.4", "3.2")
    assert any("older Excel" in note for note in _notes(sheet))


def test_an_open_document_sheet_is_read() -> None:
    assert _only(ods([["id", "pH"], ["A", 6.8]])).rows == (("id", "pH"), ("A", "6.8"))


def test_a_pdf_gives_its_tables_and_the_lines_beside_them() -> None:
    table, lines = read_sheets(
        pdf(
            "#table(columns:3, [Analysis],[Result],[Unit],[Organic matter],[3,4],[%])\n\n"
            "pH (CaCl2) ..... 5.9 \\\nPhosphorus (Olsen): 23 mg/L \\\n"
            "Keep this report for next year."
        ),
        "report.pdf",
    )
    assert table.rows == (("Analysis", "Result", "Unit"), ("Organic matter", "3,4", "%"))
    assert lines.rows == (
        ("pH (CaCl2)", "5.9", ""),
        ("Phosphorus (Olsen)", "23", "mg/L"),
        ("Keep this report for next year.",),
    )


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "empty"),
        (b"\xff\xfe", "empty"),
        (b"PK\x03\x04junk", "damaged"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"0" * 600, "damaged"),
        (b"%PDF-1.7 junk", "damaged"),
        (b"\x89PNG\r\n\x1a\n0000", "picture"),
        (bytes(range(256)) * 9, "bytes that are no text"),
        (b"<html><table><tr><td>pH", "web page"),
        (zipped({"letter.txt": "pH 6"}), "zip that holds no workbook"),
        (FILES / "locked.pdf", "password"),
        (FILES / "scan.pdf", "scan"),
        (
            b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + "EncryptedPackage".encode("utf-16-le"),
            "password",
        ),
        (Path("nowhere.csv"), "cannot be read"),
        (xlsx({"R": [[]]}), "empty"),
    ],
)
def test_what_cannot_be_read_says_why_and_what_to_do(data: bytes | Path, says: str) -> None:
    said = _refused(data)
    assert says in said
    assert said.count(". ") >= 1


def test_a_zip_that_unpacks_without_end_is_refused_unread() -> None:
    bomb = changed(
        xlsx({"R": [["id"]]}), name="xl/worksheets/sheet1.xml", content=b" " * 60_000_000
    )
    assert len(bomb) < 100_000
    assert "would unpack to 60 MB or more" in _refused(bomb)


def test_a_pdf_that_unpacks_without_end_is_refused_unread() -> None:
    packed = zlib.compress(b" " * 150_000_000, 9)
    stream = b"<</Filter/FlateDecode>>\nstream\n" + packed + b"\nendstream"
    assert len(packed) < 200_000
    assert "would unpack to 100 MB or more" in _refused(b"%PDF-1.4\n" + stream)
    twice = b"%PDF-1.4\n<</Filter[/FlateDecode /FlateDecode]>>"
    assert "would unpack" in _refused(twice)


def test_a_workbook_with_one_cell_far_out_is_refused() -> None:
    """Read as a block it would need 16384 columns of a million rows."""
    cells = '<row r="1048576"><c r="XFD1048576" t="n"><v>1</v></c></row>'
    xml = (
        '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>'
        f'<row r="1"><c r="A1"><v>1</v></c></row>{cells}</sheetData></worksheet>'
    )
    data = changed(xlsx({"R": [["id"]]}), name="xl/worksheets/sheet1.xml", content=xml)
    assert "too many cells" in _refused(data)
    tail = (
        '<table:table-row table:number-rows-repeated="1000000"><table:table-cell'
        ' office:value-type="float" office:value="1"/></table:table-row>'
    )
    assert "too many cells" in _refused(ods([["id"]], tail=tail))


@tries(150)
@given(
    st.one_of(
        st.binary(max_size=400),
        st.text(max_size=200).map(str.encode),
        st.sampled_from(
            (b"PK\x03\x04", b"%PDF-1.4\n", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")
        ).flatmap(lambda head: st.binary(max_size=300).map(lambda rest: head + rest)),
    )
)
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    try:
        sheets = read_sheets(data, "anything")
    except Refused as refused:
        assert str(refused)
        return
    assert all(isinstance(cell, str) for sheet in sheets for row in sheet.rows for cell in row)


@tries(40)
@given(st.data())
def test_a_damaged_workbook_is_read_or_refused(data: st.DataObject) -> None:
    whole = bytearray(WORKBOOKS[data.draw(st.integers(0, 2))])
    for _ in range(data.draw(st.integers(1, 6))):
        whole[data.draw(st.integers(4, len(whole) - 1))] = data.draw(st.integers(0, 255))
    try:
        read_sheets(bytes(whole), "damaged")
    except Refused as refused:
        assert str(refused)
