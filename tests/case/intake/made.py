"""Files of laboratories made for a test: workbooks, zips and PDF reports."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping, Sequence
from typing import Any

import openpyxl
import typst

ODS = (
    '<?xml version="1.0" encoding="UTF-8"?><office:document-content'
    ' xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"'
    ' xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"'
    ' xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"'
    ' office:version="1.2"><office:body><office:spreadsheet>'
    '<table:table table:name="Results">{rows}</table:table>'
    "</office:spreadsheet></office:body></office:document-content>"
)


def xlsx(
    sheets: Mapping[str, Sequence[Sequence[Any]]], *, merge: Mapping[str, str] | None = None
) -> bytes:
    """A workbook of these rows; ``merge`` names a range of a sheet to be merged."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(list(row))
        if merge and name in merge:
            sheet.merge_cells(merge[name])
    held = io.BytesIO()
    book.save(held)
    return held.getvalue()


def ods(rows: Sequence[Sequence[Any]], *, tail: str = "") -> bytes:
    """A spreadsheet in the open document format."""
    return zipped(
        {
            "mimetype": "application/vnd.oasis.opendocument.spreadsheet",
            "content.xml": ODS.format(rows="".join(map(_ods_row, rows)) + tail),
            "META-INF/manifest.xml": "<manifest/>",
        }
    )


def _ods_row(row: Sequence[Any]) -> str:
    cells = (
        f'<table:table-cell office:value-type="float" office:value="{cell}"/>'
        if isinstance(cell, (int, float))
        else f'<table:table-cell office:value-type="string"><text:p>{cell}</text:p>'
        "</table:table-cell>"
        for cell in row
    )
    return f"<table:table-row>{''.join(cells)}</table:table-row>"


def zipped(files: Mapping[str, str | bytes]) -> bytes:
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return held.getvalue()


def changed(workbook: bytes, *, name: str, content: str | bytes) -> bytes:
    """A workbook with one of its files put in or changed."""
    with zipfile.ZipFile(io.BytesIO(workbook)) as archive:
        files = {one: archive.read(one) for one in archive.namelist()}
    return zipped({**files, name: content})


def pdf(markup: str) -> bytes:
    """A PDF report from Typst markup."""
    return typst.compile(markup.encode())


def csv_of(*lines: str) -> bytes:
    return "\n".join(lines).encode()
