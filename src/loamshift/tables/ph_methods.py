"""Conversions of a pH reading to pH in water, the default ones first."""

from __future__ import annotations

from functools import cache

from loamshift.domain.ph import PhConversion, PhMethod
from loamshift.errors import TableError
from loamshift.tables.rows import evidence, number, read_rows, truth


@cache
def load_ph_conversions() -> tuple[PhConversion, ...]:
    """Every conversion of a reading by one method towards pH in water.

    Returns
    -------
    tuple of PhConversion
        Rows in table order; just one default for each method.

    Raises
    ------
    TableError
        Where a method has no default, or more than one.

    Examples
    --------
    >>> next(c.intercept for c in load_ph_conversions() if c.default and c.method.value == "CaCl2")
    0.6
    """
    rows = tuple(
        PhConversion(
            method=PhMethod(row["method"]),
            to_method=PhMethod(row["to_method"]),
            intercept=number(row, "intercept"),
            slope=number(row, "slope"),
            sd=number(row, "sd"),
            ph_low=number(row, "ph_low"),
            ph_high=number(row, "ph_high"),
            default=truth(row, "default"),
            source_key=row["source_key"],
            evidence=evidence(row),
            note=row["note"],
        )
        for row in read_rows("ph_conversions")
    )
    defaults = sorted(row.method.value for row in rows if row.default)
    if defaults != sorted(method.value for method in PhMethod):
        raise TableError(f"each pH method needs one default conversion; defaults are {defaults}")
    return rows


@cache
def default_ph_conversion(method: PhMethod) -> PhConversion:
    """The conversion used at the door for a method.

    Returns
    -------
    PhConversion
        pH in water = intercept + slope x reading, with its sd [pH].
    """
    return next(row for row in load_ph_conversions() if row.default and row.method is method)
