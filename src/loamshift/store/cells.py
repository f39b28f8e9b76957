"""Values of the store as cells of a CSV file that opens safely in a spreadsheet, and back."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any, Final, TypeAlias

from django.core.exceptions import ValidationError
from django.db import models

from loamshift.domain.message import Message, message
from loamshift.domain.spreadsheet_text import spreadsheet_text
from loamshift.store.models import (
    Bed,
    Client,
    JarSeries,
    Kept,
    Product,
    Question,
    SentLetter,
    Trial,
)
from loamshift.store.plain import field_value

AsField: TypeAlias = "models.Field[Any, Any]"

IN_FILES: Final = (
    *("case_json", "own_text", "answer_text"),
    *("trial_json", "readings_text", "forecast_text", "sheet_text"),
)
"""Fields that have a file of their own beside the table."""

TABLES: Final[dict[str, type[Kept]]] = {
    "clients.csv": Client,
    "beds.csv": Bed,
    "letters.csv": SentLetter,
    "products.csv": Product,
    "questions.csv": Question,
    "trials.csv": Trial,
    "jars.csv": JarSeries,
}
LATER_TABLES: Final = ("questions.csv", "trials.csv", "jars.csv")
"""Tables that zips written before they came do not have."""
LATER: Final = ("label",)
"""Columns that files written before they came do not have; they are empty then."""
_NOT_WRITTEN: Final = ("office", "sought")
_YES, _NO = "yes", "no"


class Unreadable(ValueError):
    """A cell that cannot be a value of its field; ``right`` says what can."""

    def __init__(self, right: Message) -> None:
        self.right = right
        super().__init__(right.key)


def columns(model: type[Kept]) -> dict[str, AsField]:
    """The columns of a table by their heads."""
    return {
        field.name: field
        for field in model._meta.concrete_fields
        if field.name not in (*_NOT_WRITTEN, *IN_FILES)
    }


def cell_of(field: AsField, value: Any) -> str:
    """One value as a cell; a text is marked where a spreadsheet would take it for a formula."""
    if value is None:
        return ""
    if isinstance(field, models.BooleanField):
        return _YES if value else _NO
    if isinstance(value, (datetime, date)):
        return value.isoformat()
    if isinstance(value, float):
        return repr(value)
    text = str(value)
    return spreadsheet_text(text) if _is_text(field) else text


def value_of(field: AsField, cell: str) -> Any:
    """The value of a cell.

    Raises
    ------
    Unreadable
        Where the cell cannot be a value of this field; it says what is right.
    """
    if _is_text(field):
        return cell.removeprefix("'")
    if isinstance(field, models.BooleanField):
        if cell not in (_YES, _NO):
            raise Unreadable(message("store-write-yes-no"))
        return cell == _YES
    if cell == "":
        return None
    try:
        value = field_value(field, cell)
    except ValidationError as error:
        raise Unreadable(_right(field)) from error
    if isinstance(value, datetime) and value.tzinfo is None:
        raise Unreadable(_right(field))
    return value


def _is_text(field: AsField) -> bool:
    return isinstance(field, (models.CharField, models.TextField))


def _right(field: AsField) -> Message:
    if isinstance(field, models.DateTimeField):
        return message("store-write-moment")
    if isinstance(field, models.DateField):
        return message("store-write-date")
    if isinstance(field, (models.UUIDField, models.ForeignKey)):
        return message("store-write-id")
    return message("store-write-number")
