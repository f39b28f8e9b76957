"""A price list as a CSV file: read whole or not at all, with every fault by its row."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from loamshift.domain.message import Given, Message, message
from loamshift.domain.worded_error import fault
from loamshift.errors import Fault
from loamshift.store.cells import cell_of, columns
from loamshift.store.models import Product
from loamshift.store.models.base import folded
from loamshift.web.problems import names_another, with_mend, without_keys
from loamshift.web.products.entries import ASKED, read_product

LARGEST_BYTES: Final = 1_000_000
MOST_ROWS: Final = 1000
MOST_FAULTS: Final = 60
MOST_SHOWN: Final = 60
"""Of a cell, in a message [character]."""
MOST_COLUMNS: Final = 100
"""Beyond, the file is no list of products; what a spreadsheet pads a row with is far less."""
_SEPARATORS: Final = (",", ";", "\t")
_BINARY: Final = (b"PK\x03\x04", b"%PDF", b"\xd0\xcf\x11\xe0", b"\x1f\x8b", b"\x89PNG")


@dataclass(frozen=True, slots=True, kw_only=True)
class RowFault:
    """What is wrong with one row; row 0 is the file itself, the path of the fault a column."""

    row: int
    fault: Fault


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
    """
    if len(data) > LARGEST_BYTES:
        return _refused(message("prices-large"), message("prices-split"))
    if data.startswith(_BINARY) or b"\x00" in data:
        return _refused(message("prices-not-csv"), message("prices-save-csv"))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return _refused(message("prices-not-utf-8"), message("prices-save-csv"))
    first = text.split("\n", 1)[0]
    separator = max(_SEPARATORS, key=first.count)
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True))
    except csv.Error:
        return _refused(message("prices-quote-open"), message("prices-save-again"))
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
        return _refused(message("prices-empty"), _columns_said())
    if len(rows[0]) > MOST_COLUMNS:
        return _refused(message("prices-many-columns", most=MOST_COLUMNS), _columns_said())
    heads = [folded(cell).strip().replace(" ", "_") for cell in rows[0]]
    faults = list(_head_faults(heads))
    if faults:
        more = max(len(faults) - MOST_FAULTS, 0)
        return PriceList(faults=tuple(faults[:MOST_FAULTS]), more=more)
    filled = [
        (number, row) for number, row in enumerate(rows[1:], 2) if any(cell.strip() for cell in row)
    ]
    if len(filled) > MOST_ROWS:
        return _refused(message("prices-many-rows", most=MOST_ROWS), message("prices-split"))
    products: list[Mapping[str, Any]] = []
    seen: dict[str, int] = {}
    for number, row in filled:
        if len(row) > len(heads):
            wrong, right = message("prices-many-cells"), message("prices-quote-separator")
            here = fault("", wrong, right, given=row[len(heads)][:MOST_SHOWN])
            faults.append(RowFault(row=number, fault=here))
            continue
        told = dict(zip(heads, (cell.removeprefix("'") for cell in row), strict=False))
        if "in_stock" not in heads:
            told["in_stock"] = "yes"
        found = read_product(told, currency=currency)
        faults += [_at(number, one) for one in found.faults]
        name = folded(told.get("name", "").strip())
        if name and seen.setdefault(name, number) != number:
            wrong = message("prices-same-name", row=seen[name])
            here = fault("name", wrong, message("prices-keep-one"), given=told["name"][:MOST_SHOWN])
            faults.append(RowFault(row=number, fault=here))
        products.append(found.values)
    if not products and not faults:
        return _refused(message("prices-no-rows"), _columns_said())
    if faults:
        more = max(len(faults) - MOST_FAULTS, 0)
        return PriceList(faults=tuple(faults[:MOST_FAULTS]), more=more)
    return PriceList(products=tuple(products))


def _head_faults(heads: Sequence[str]) -> Iterable[RowFault]:
    for name in ("name", "material"):
        if name not in heads:
            missing = fault(name, message("prices-column-missing"), _columns_said())
            yield RowFault(row=1, fault=missing)
    for head in dict.fromkeys(heads):
        if head not in ASKED:
            unknown = fault(head[:40], message("prices-column-unknown"), _columns_said())
            yield RowFault(row=1, fault=unknown)
        elif heads.count(head) > 1:
            twice = fault(head, message("prices-column-twice"), message("prices-keep-one"))
            yield RowFault(row=1, fault=twice)


def _columns_said() -> Message:
    return message("prices-columns", columns=Given(", ".join(ASKED)))


def _at(row: int, found: Fault) -> RowFault:
    found = without_keys(replace(found, given=found.given[:MOST_SHOWN]))
    if found.path == "material" and not names_another(found):
        found = with_mend(found, message("prices-material-write"))
    return RowFault(row=row, fault=found)


def _refused(wrong: Message, right: Message) -> PriceList:
    return PriceList(faults=(RowFault(row=0, fault=fault("", wrong, right)),))
