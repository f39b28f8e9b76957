"""Products of the shelf between the page, the store and the case file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from typing import Any, Final

from loamshift.case.label import label_table, label_text, read_label
from loamshift.case.label_keys import FINENESS, LABEL_KEYS
from loamshift.case.mend import Mend
from loamshift.domain.case import OnHand
from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import fault
from loamshift.errors import CaseError, Fault, InputError
from loamshift.services.shelf import shelf_prices
from loamshift.store.models import Product
from loamshift.web.cases import case_of
from loamshift.web.problems import names_another, whole_fault, with_mend

ASKED: Final = (
    "name",
    "material",
    "purity_pct",
    "pack",
    "price",
    "currency",
    "label",
    "in_stock",
    "note",
)
"""What is asked of a product, in the order of the form and of the price list."""
_IN_CASE: Final = ("material", "label", "purity_pct", "pack", "price", "currency")
LABEL_FIELDS: Final = (*(row.key for row in LABEL_KEYS), FINENESS)
"""The figures of a bag, each a field of the form named ``label.KEY``."""
_LABEL: Final = "label"
_IN_LABEL: Final = f"{_LABEL}."
_AT: Final = "on_hand[1]."
_YES: Final = frozenset(("yes", "y", "true", "1", "on", "x"))
_NO: Final = frozenset(("no", "n", "false", "0", "off", ""))


@dataclass(frozen=True, slots=True)
class ReadProduct:
    """A product as it would be kept, or what is wrong with it by the name of the field."""

    values: Mapping[str, Any]
    faults: tuple[Fault, ...]


def read_product(said: Mapping[str, str], *, currency: str = "") -> ReadProduct:
    """What somebody typed about a product, read as the case file would read it.

    Parameters
    ----------
    said
        Texts by the names of ``ASKED``; what is missing is empty.
    """
    told = {name: said.get(name, "").strip() for name in ASKED}
    told[_LABEL] = _label_line(said) or told[_LABEL]
    if told[_LABEL] and not told["material"]:
        told["material"] = told["name"]
    if told["price"] and not told["currency"]:
        told["currency"] = currency
    faults = [*_own_faults(told)]
    product: OnHand | None = None
    try:
        product = on_hand_of(told)
    except CaseError as error:
        faults += [_here(one, told) for one in error.faults]
    except InputError as error:
        blank = message("products-purity-blank")
        faults.append(whole_fault(error, path="purity_pct", mend=blank))
    values: dict[str, Any] = {
        "name": told["name"],
        "pack": told["pack"],
        "note": told["note"],
        "in_stock": told["in_stock"].casefold() not in _NO,
    }
    if product is not None:
        label = product.material.label
        values |= {
            "material": product.material.written or product.material.key,
            "label": "" if label is None else label_text(label),
            "purity_pct": product.purity_pct,
            "price": product.price,
            "currency": product.currency or "",
        }
    return ReadProduct(values, tuple(faults))


def on_hand_of(told: Mapping[str, Any]) -> OnHand:
    """A product as a case has it.

    Raises
    ------
    InputError
        Where the case file would not take it.
    """
    return _on_hand(tuple(entry_of(told).items()))


@lru_cache(maxsize=1024)
def _on_hand(entry: tuple[tuple[str, str], ...]) -> OnHand:
    if "material" not in dict(entry):
        wrong, right = message("products-material-missing"), message("products-material-choose")
        raise CaseError([fault(f"{_AT}material", wrong, right)])
    case = case_of({"on_hand": [dict(entry)]}, today=date.max)
    shelf_prices(case.on_hand)
    return case.on_hand[0]


def entry_of(told: Mapping[str, Any]) -> dict[str, str]:
    """The entry of a case file for a product, its figures as texts."""
    return {
        name: text
        for name in _IN_CASE
        if (text := "" if told.get(name) is None else _text(told[name]))
    }


def said_of(product: Product) -> dict[str, str]:
    """A kept product as its form shows it, the figures of its label by field as well."""
    said = {name: _text(getattr(product, name)) for name in ASKED if name != "in_stock"}
    return {
        **said,
        **label_said(product.label),
        "in_stock": "yes" if product.in_stock else "",
    }


def label_said(line: str) -> dict[str, str]:
    """The figures of a kept label by the fields of the form; none where it cannot be read."""
    if not line:
        return {}
    try:
        label = read_label(line)
    except Mend:
        return {}
    return {f"{_IN_LABEL}{key}": str(value) for key, value in label_table(label).items()}


def _label_line(said: Mapping[str, str]) -> str:
    """The fields of the label as one text, each as it was typed."""
    parts = []
    for key in LABEL_FIELDS:
        typed = said.get(f"{_IN_LABEL}{key}", "").strip().replace('"', "")
        if typed:
            parts.append(f'{key} = "{typed}"')
    return ", ".join(parts)


def usable(products: Iterable[Product]) -> list[tuple[Product, OnHand]]:
    """The products that a case can take, with what it takes; a broken one is passed over."""
    found = []
    for product in products:
        try:
            found.append((product, on_hand_of(said_of(product))))
        except InputError:
            continue
    return found


def _text(value: Any) -> str:
    if value is None:
        return ""
    return f"{value:g}" if isinstance(value, float) and value.is_integer() else str(value)


def _own_faults(told: Mapping[str, str]) -> Iterable[Fault]:
    if not told["name"]:
        yield fault("name", message("products-name-missing"), message("products-name-write"))
    if told["in_stock"].casefold() not in _YES | _NO:
        typed = told["in_stock"][:40]
        wrong = message("products-stock-unclear", typed=Given(typed))
        yield fault("in_stock", wrong, message("products-stock-write"), given=typed)
    for name in ("name", "material", "pack", "currency", "note", "label"):
        most = getattr(Product._meta.get_field(name), "max_length", None)
        if most is not None and len(told[name]) > most:
            wrong = message("store-too-long", count=len(told[name]))
            right = message("store-shorten", most=most)
            yield fault(name, wrong, right, given=told[name][:40])


def _here(found: Fault, told: Mapping[str, str]) -> Fault:
    """A fault of a case with the name of the field, and what to do on this page."""
    name = found.path.removeprefix(_AT)
    found = replace(found, path=name, given=found.given or told.get(name, ""))
    if name == "material" and found.given and not names_another(found):
        return with_mend(found, message("products-material-list"))
    if name == "price":
        return with_mend(found, message("products-price-number"))
    return found
