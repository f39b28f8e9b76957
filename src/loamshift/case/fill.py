"""From the keys of a table to the fields of the case they fill, and back, row by row."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from loamshift.case.case_key import Key, row_of
from loamshift.case.quantities import Measure
from loamshift.case.reads import Holds
from loamshift.case.schema_base import Table
from loamshift.domain.material import Material
from loamshift.domain.plant import Plant
from loamshift.domain.soil import TextureClass


def filled(table: Table, into: type) -> dict[str, Any]:
    """The values of a table by the field of the case that each fills.

    Parameters
    ----------
    table
        A table of the file, each value already read.
    into
        The part of the case that it fills.

    Returns
    -------
    dict
        Keyword arguments for it. A key that no field takes is left out, and so is one that nobody
        gave: the part has its own default.
    """
    names = {part.name for part in fields(into)}
    found = {}
    for key, row in table_rows(type(table)).items():
        field = row.fills or key
        value = getattr(table, key)
        if field in names and value is not None:
            found[field] = value.value if isinstance(value, Measure) else value
    return found


def typed_from(part: object, table: type[Table]) -> dict[str, Any]:
    """The keys of a table that read back as a part of a case, in our own units.

    Parameters
    ----------
    part
        A part of the case.
    table
        The table that fills it.

    Returns
    -------
    dict
        Values by key; None where the case says nothing.
    """
    found = {}
    for key, row in table_rows(table).items():
        field = row.fills or key
        if hasattr(part, field):
            found[key] = _typed(getattr(part, field), row)
    return found


def table_rows(table: type[Table]) -> dict[str, Key]:
    """The rows of a table by key, in the order of the file; tables below it have none."""
    rows = {key: row_of(field) for key, field in table.model_fields.items()}
    return {key: row for key, row in rows.items() if row is not None}


def with_unit(value: float | None, unit: str) -> str | None:
    """A figure with its unit, exact to the last digit."""
    return None if value is None else f"{value!r}".removesuffix(".0") + f" {unit}"


def _typed(value: Any, row: Key) -> Any:
    if isinstance(value, tuple):
        return [_typed(one, row) for one in value] or None
    if isinstance(value, (Plant, TextureClass, Material)):
        return value.key
    if isinstance(value, float) and row.reads.holds is Holds.QUANTITY:
        return with_unit(value, row.reads.unit)
    return value
