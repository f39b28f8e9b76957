"""Workbooks: the values stored in them, with formulas and macros named and never run."""

from __future__ import annotations

import datetime
import io
import re
import zipfile
import zlib
from collections.abc import Iterator
from typing import Any, Final

from loamshift.case.intake.refused import refuse
from loamshift.case.intake.sheet import MOST_CELLS, Cells, Sheet
from loamshift.domain.message import Given, Listed, Message, message

MOST_UNPACKED: Final = 400_000_000
MOST_FILES: Final = 5_000
MOST_TIMES: Final = 200
"""How many times larger than its zip one file may unpack, above a megabyte."""
_MOST_SHEETS: Final = 200
_NAMED: Final = 3
_MOST_REPEATS: Final = 2_000
_LETTERS: Final = re.compile(rb' r="([A-Z]{2,3})\d')
_ROW: Final = re.compile(rb' r="[A-Z]*(\d{1,7})"')
_FAR_ROW: Final = re.compile(rb' r="[A-Z]*(\d{6,7})"')
_FORMULA: Final = re.compile(rb'<c\b[^>]*?\br="([A-Z]{1,3}\d{1,7})"[^>]*>\s*<f[ >/]')
_MACROS: Final = ("vbaproject.bin", "basic/", "scripts/")
_REPEATED: Final = re.compile(
    rb'<table:table-(cell|row)\b[^>]*?number-(?:columns|rows)-repeated="(\d{4,})"[^>]*>'
)


def packed_sheets(data: bytes, name: str) -> tuple[Sheet, ...]:
    """The sheets of an xlsx, xlsm, xlsb or ods.

    Raises
    ------
    Refused
        Where it is damaged, encrypted, no workbook, or would unpack without end.
    """
    formulas: dict[str, list[str]] = {}
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            entries = archive.infolist()
            _fair(entries, len(data), name)
            names = [entry.filename for entry in entries]
            macros = any(part in one.casefold() for one in names for part in _MACROS)
            if "content.xml" in names:
                _fair_ods(archive.read("content.xml"), name)
                formulas = _ods_formulas(archive.read("content.xml"))
            elif any(one.startswith("xl/") for one in names):
                formulas = _xlsx_formulas(archive, names, name)
            else:
                raise refuse("intake-zip", file=name)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, OSError, ValueError):
        raise refuse("intake-damaged", file=name) from None
    except RuntimeError:
        raise refuse("intake-encrypted", file=name) from None
    notes = (message("intake-note-macros", file=Given(name)),) if macros else ()
    return _calamine_sheets(data, name, notes, formulas)


def old_sheets(data: bytes, name: str) -> tuple[Sheet, ...]:
    """The sheets of an xls; an encrypted workbook of any age looks the same from outside.

    Raises
    ------
    Refused
        Where it is damaged, encrypted or no workbook.
    """
    if "EncryptedPackage".encode("utf-16-le") in data:
        raise refuse("intake-encrypted", file=name)
    macros = "_VBA_PROJECT".encode("utf-16-le") in data
    notes = [message("intake-note-old", file=Given(name))]
    if macros:
        notes.append(message("intake-note-macros", file=Given(name)))
    return _calamine_sheets(data, name, tuple(notes), {})


def _calamine_sheets(
    data: bytes, name: str, notes: tuple[Message, ...], formulas: dict[str, list[str]]
) -> tuple[Sheet, ...]:
    try:
        import python_calamine as calamine
    except ImportError:
        raise refuse("intake-needs-lab", file=name) from None
    made: list[Sheet] = []
    try:
        with calamine.CalamineWorkbook.from_filelike(io.BytesIO(data)) as book:
            for number, sheet_name in enumerate(book.sheet_names[:_MOST_SHEETS]):
                sheet = book.get_sheet_by_name(sheet_name)
                if sheet.total_height * max(sheet.total_width, 1) > MOST_CELLS:
                    raise refuse("intake-too-many-cells", file=name)
                rows = tuple(_row(cells) for cells in sheet.to_python(skip_empty_area=False))
                merged = tuple((*a, *b) for a, b in sheet.merged_cell_ranges or ())
                found = formulas.get(str(number), [])
                told = (*notes, *_formula_notes(sheet_name, found, rows))
                made.append(
                    Sheet(name=sheet_name, rows=rows, merged=merged, typed=True, notes=told)
                )
                notes = ()
    except calamine.PasswordError:
        raise refuse("intake-encrypted", file=name) from None
    except calamine.CalamineError as error:
        key = "intake-encrypted" if "password" in str(error).casefold() else "intake-damaged"
        raise refuse(key, file=name) from None
    except (OSError, ValueError, OverflowError):
        raise refuse("intake-damaged", file=name) from None
    except BaseException as error:  # a panic of the compiled reader is no Exception
        if type(error).__name__ != "PanicException":
            raise
        raise refuse("intake-damaged", file=name) from None
    if not any(any(row) for sheet in made for row in sheet.rows):
        raise refuse("intake-empty", file=name)
    return tuple(made)


def _row(cells: list[Any]) -> Cells:
    return tuple(_text(cell) for cell in cells)


def _text(cell: Any) -> str:
    """A stored value as text: fifteen digits at most, days without a midnight."""
    if isinstance(cell, str):
        return " ".join(cell.split())
    if isinstance(cell, bool):
        return "TRUE" if cell else "FALSE"
    if isinstance(cell, float):
        return f"{cell:.12g}" if abs(cell) < 1e12 else f"{cell:.15g}"
    if isinstance(cell, datetime.datetime):
        whole = cell.time() == datetime.time()
        return cell.date().isoformat() if whole else cell.isoformat(" ", "minutes")
    return "" if cell is None else str(cell)


def _fair(entries: list[zipfile.ZipInfo], packed: int, name: str) -> None:
    """Refuse a zip by what it says of itself, before anything of it is unpacked."""
    whole = sum(entry.file_size for entry in entries)
    grows = any(
        entry.file_size > 1_000_000 and entry.file_size > MOST_TIMES * max(entry.compress_size, 1)
        for entry in entries
    )
    if len(entries) > MOST_FILES or whole > MOST_UNPACKED or grows:
        raise refuse("intake-bomb", file=name, mb=max(round(whole / 1e6), round(packed / 1e6)))


def _xlsx_formulas(archive: zipfile.ZipFile, names: list[str], name: str) -> dict[str, list[str]]:
    """Cells with a formula by the number of their sheet; a sheet that claims too much is refused.

    Sheets are numbered as in the workbook, by their file where it names none.
    """
    found: dict[str, list[str]] = {}
    for number, file in enumerate(_sheet_files(archive, names)):
        xml = archive.read(file)
        if _claimed_cells(xml) > MOST_CELLS:
            raise refuse("intake-too-many-cells", file=name)
        found[str(number)] = [text.decode() for text in _FORMULA.findall(xml)]
    return found


def _claimed_cells(xml: bytes) -> int:
    """How many cells lie between the first and the last of a sheet [count]."""
    letters = set(_LETTERS.findall(xml))
    columns = max((_column(text) for text in letters), default=26)
    far = max(map(int, _FAR_ROW.findall(xml)), default=99_999)
    if far * columns > MOST_CELLS:
        far = max((int(row) for row in set(_ROW.findall(xml))), default=0)
    return far * columns


def _column(letters: bytes) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + letter - 64
    return number


def _sheet_files(archive: zipfile.ZipFile, names: list[str]) -> list[str]:
    """Sheet files in the order of the workbook."""
    files = [n for n in names if re.fullmatch(r"xl/worksheets/[^/]+\.xml", n)]
    try:
        book = archive.read("xl/workbook.xml").decode("utf-8", "replace")
        links = archive.read("xl/_rels/workbook.xml.rels").decode("utf-8", "replace")
    except KeyError:
        return files
    targets = {}
    for link in re.findall(r"<Relationship\b[^>]*>", links):
        key, target = re.search(r'\bId="([^"]+)"', link), re.search(r'\bTarget="([^"]+)"', link)
        if key and target:
            targets[key[1]] = "xl/" + target[1].removeprefix("/xl/").removeprefix("./")
    order = re.findall(r'<sheet\b[^>]*\br:id="([^"]+)"', book)
    listed = [targets[key] for key in order if targets.get(key) in files]
    return listed or files


def _fair_ods(xml: bytes, name: str) -> None:
    """Refuse a sheet whose filled cells are repeated without end."""
    for match in _REPEATED.finditer(xml):
        if int(match[2]) <= _MOST_REPEATS:
            continue
        end = match.end()
        if match[1] == b"row":
            end = xml.find(b"</table:table-row>", end)
        if b"office:value-type" in xml[match.start() : end]:
            raise refuse("intake-too-many-cells", file=name)


def _ods_formulas(xml: bytes) -> dict[str, list[str]]:
    """How many formulas each sheet has; their cells are not counted out."""
    sheets = xml.split(b"<table:table ")[1:]
    return {
        str(number): [""] * sheet.count(b"table:formula=") for number, sheet in enumerate(sheets)
    }


def _formula_notes(sheet: str, cells: list[str], rows: tuple[Cells, ...]) -> Iterator[Message]:
    if not cells:
        return
    yield _of_cells("intake-note-formulas", sheet, cells)
    empty = [cell for cell in cells if cell and not _at(rows, cell)]
    if empty:
        yield _of_cells("intake-note-formulas-empty", sheet, empty)


def _of_cells(key: str, sheet: str, cells: list[str]) -> Message:
    named = tuple(Given(cell) for cell in cells[:_NAMED] if cell)
    shown = Listed(named) if named else None
    return Message(key, {"sheet": Given(sheet), "count": len(cells), "cells": shown})


def _at(rows: tuple[Cells, ...], cell: str) -> str:
    letters = cell.rstrip("0123456789")
    row, column = int(cell[len(letters) :]) - 1, _column(letters.encode()) - 1
    return rows[row][column] if row < len(rows) and column < len(rows[row]) else ""
