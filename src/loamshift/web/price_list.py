"""A price list as a CSV file: read whole or not at all, with every fault by its row."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from django.utils.translation import gettext

from loamshift.errors import Fault
from loamshift.store.cells import cell_of, columns
from loamshift.store.models import Product
from loamshift.store.models.base import folded
from loamshift.web.products import ASKED, read_product

LARGEST_BYTES: Final = 1_000_000
MOST_ROWS: Final = 1000
MOST_FAULTS: Final = 60
_SEPARATORS: Final = (",", ";", "\t")
_BINARY: Final = (b"PK\x03\x04", b"%PDF", b"\xd0\xcf\x11\xe0", b"\x1f\x8b", b"\x89PNG")


@dataclass(frozen=True, slots=True, kw_only=True)
class RowFault:
    """What is wrong with one row; row 0 is the file itself."""

    row: int
    column: str
    given: str
    problem: str
    mend: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceList:
    """The products of a list, or its faults; never both. ``more`` faults are not shown."""

    products: tuple[Mapping[str, Any], ...] = ()
    faults: tuple[RowFault, ...] = ()
    more: int = 0


def read_price_list(data: bytes, *, currency: str = "") -> PriceList:
    """The products in a CSV file.

    The first row names the columns, in any order; ``name`` and ``material`` have to be there.
    Commas, semicolons or tabs part the cells. A cell that a spreadsheet would run as a formula
    stays a text.

    Parameters
    ----------
    data
        The file as it was sent [bytes].
    currency
        Currency of prices that name none [text].

    Returns
    -------
    PriceList
        Products with their values, or every fault [object].
    """
    if len(data) > LARGEST_BYTES:
        return _refused(
            gettext("the file is larger than 1 MB"), gettext("Split it into smaller lists")
        )
    if data.startswith(_BINARY) or b"\x00" in data:
        return _refused(
            gettext("this is no CSV file"),
            gettext("Save the sheet as CSV (UTF-8) and choose that file"),
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return _refused(
            gettext("the text is not in UTF-8"), gettext("Save it as CSV (UTF-8) once more")
        )
    first = text.split("\n", 1)[0]
    separator = max(_SEPARATORS, key=first.count)
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True))
    except csv.Error as fault:
        return _refused(
            gettext("a quotation mark is not closed (%(fault)s)") % {"fault": fault},
            gettext("Mend it, or save the sheet as CSV once more"),
        )
    return _products(rows, currency)


def price_list_csv(products: Iterable[Product]) -> str:
    """Products as a CSV file that a spreadsheet opens safely and ``read_price_list`` reads."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(ASKED)
    fields = columns(Product)
    for product in products:
        writer.writerow(cell_of(fields[name], getattr(product, name)) for name in ASKED)
    return out.getvalue()


def _products(rows: Sequence[Sequence[str]], currency: str) -> PriceList:
    if not rows or not any(rows[0]):
        return _refused(gettext("the file is empty"), _columns_said())
    heads = [folded(cell).strip().replace(" ", "_") for cell in rows[0]]
    faults = list(_head_faults(heads))
    if faults:
        return PriceList(faults=tuple(faults))
    filled = [
        (number, row) for number, row in enumerate(rows[1:], 2) if any(cell.strip() for cell in row)
    ]
    if len(filled) > MOST_ROWS:
        return _refused(
            gettext("it has more than %(most)s rows") % {"most": MOST_ROWS},
            gettext("Split it into smaller lists"),
        )
    products: list[Mapping[str, Any]] = []
    seen: dict[str, int] = {}
    for number, row in filled:
        if len(row) > len(heads):
            faults.append(
                RowFault(
                    row=number,
                    column="",
                    given=row[len(heads)],
                    problem=gettext("it has more cells than the first row"),
                    mend=gettext("Put a cell that holds a separator between quotation marks"),
                )
            )
            continue
        told = dict(zip(heads, (cell.removeprefix("'") for cell in row), strict=False))
        if "in_stock" not in heads:
            told["in_stock"] = "yes"
        found = read_product(told, currency=currency)
        faults += [_at(number, fault) for fault in found.faults]
        name = folded(told.get("name", "").strip())
        if name and seen.setdefault(name, number) != number:
            faults.append(
                RowFault(
                    row=number,
                    column="name",
                    given=told["name"],
                    problem=gettext("row %(row)s has the same name") % {"row": seen[name]},
                    mend=gettext("Keep one of the two"),
                )
            )
        products.append(found.values)
    if not products and not faults:
        return _refused(gettext("no row follows the names of the columns"), _columns_said())
    if faults:
        more = max(len(faults) - MOST_FAULTS, 0)
        return PriceList(faults=tuple(faults[:MOST_FAULTS]), more=more)
    return PriceList(products=tuple(products))


def _head_faults(heads: Sequence[str]) -> Iterable[RowFault]:
    for name in ("name", "material"):
        if name not in heads:
            yield RowFault(
                row=1,
                column=name,
                given="",
                problem=gettext("the column is missing"),
                mend=_columns_said(),
            )
    for head in dict.fromkeys(heads):
        if head not in ASKED:
            yield RowFault(
                row=1,
                column=head[:40],
                given="",
                problem=gettext("no such column is known"),
                mend=_columns_said(),
            )
        elif heads.count(head) > 1:
            yield RowFault(
                row=1,
                column=head,
                given="",
                problem=gettext("the column stands twice"),
                mend=gettext("Keep one of the two"),
            )


def _columns_said() -> str:
    return gettext("The first row names the columns: %(columns)s") % {"columns": ", ".join(ASKED)}


def _at(row: int, fault: Fault) -> RowFault:
    mend = fault.mend
    if fault.path == "material" and "Nearest" not in mend:
        mend = gettext("Write a name of the trade, such as flowers of sulphur or garden lime")
    return RowFault(
        row=row, column=fault.path, given=fault.given[:60], problem=fault.problem, mend=mend
    )


def _refused(problem: str, mend: str) -> PriceList:
    return PriceList(faults=(RowFault(row=0, column="", given="", problem=problem, mend=mend),))
