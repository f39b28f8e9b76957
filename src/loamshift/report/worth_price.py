"""What acid or lime costs in a product: by the kilogram of pure sulfur's or pure lime's worth."""

from __future__ import annotations

from loamshift.core.acidity import SULFUR_ACID_MOLC_KG
from loamshift.domain.answer import Direction, Option
from loamshift.domain.message import Given, Message, message
from loamshift.report.words import Words
from loamshift.tables.model import lime_parameters
from loamshift.units import POUND_G


def weight_unit_g(words: Words) -> float:
    """The weight that a reader compares prices by, a kilogram or a pound [g]."""
    return POUND_G if words.units == "us" else 1000.0


def worth_price(option: Option, *, words: Words) -> float | None:
    """Price of the acid that a kilogram, or a pound, of pure sulfur makes; or of such lime.

    Answers what a product costs by what it does, on the scale on which the letter tells the need.

    Returns
    -------
    float or None
        Price; None where it has none [currency/kg or currency/lb].

    Notes
    -----
    The answer prices lime by the base that counts in the field. Pure lime to be spread, as the need
    is told, is more than that by the field efficiency of the liming trials.
    """
    per_kg = None
    if option.cost_per_mol_acid is not None:
        per_kg = option.cost_per_mol_acid * SULFUR_ACID_MOLC_KG
    elif option.cost_per_kg_caco3_eq is not None:
        per_kg = option.cost_per_kg_caco3_eq * lime_parameters().field_efficiency
    return None if per_kg is None else per_kg * weight_unit_g(words) / 1000.0


def worth_price_said(option: Option, currency: str | None, *, words: Words) -> str:
    """The price as it stands in a table.

    Parameters
    ----------
    currency
        Currency to name beside it; None where the head of the column names it.

    Returns
    -------
    str
        Such as ``2.42 GBP``; empty without a price.
    """
    price = worth_price(option, words=words)
    return "" if price is None else words.unit_price(price, currency)


def worth_price_title(direction: Direction, currency: str | None) -> Message:
    """The head of a column of such prices.

    Parameters
    ----------
    currency
        Currency of every price in it; None where they differ.
    """
    shared = Given(currency) if currency else None
    if direction is Direction.LIME:
        return message("options-column-per-lime", currency=shared)
    return message("options-column-per-sulfur", currency=shared)
