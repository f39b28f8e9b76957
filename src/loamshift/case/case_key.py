"""One row for each key of the case file: all that is said of it, beside its type."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from loamshift.case.reads import SKIP, Reads

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler
    from pydantic.fields import FieldInfo
    from pydantic_core import CoreSchema


class Group(StrEnum):
    """Where a form asks for a key."""

    USUAL = "usual"
    """With the first ones: most beds need it, and a new file shows it as an example."""
    OTHER = "other"
    """Behind them, opened by those who have the figure."""
    NEVER = "never"
    """Not at all: no business of a page."""


@dataclass(frozen=True)
class Key:
    """One key of the case file.

    Its words are messages that are found by its path: ``field-soil-ph`` is its label,
    ``field-soil-ph-in-text`` its name within a sentence, ``means-soil-ph`` its meaning, and
    ``ask-soil-ph`` and ``hint-soil-ph`` what a form says instead where that is different.

    Attributes
    ----------
    reads
        How its value is read: parser, unit, choices.
    example
        A value as it is typed in the file, texts with their quotes [TOML].
    group
        Where a form asks for it.
    fills
        The field of the case that takes the value; the key's own name where empty.
    suggests
        The list of names that helps to fill it: ``plants``, ``materials``.
    also
        What other files and reports call it, to be pointed to the key.
    """

    reads: Reads
    example: str
    group: Group = Group.OTHER
    fills: str = ""
    suggests: str = ""
    also: tuple[str, ...] = ()

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Hand the value to the parser as it stands, without guessing at types."""
        from pydantic_core import core_schema

        return core_schema.no_info_plain_validator_function(self._take)

    def _take(self, value: object) -> object:
        return None if value is SKIP else self.reads.parse(value)


def row_of(field: FieldInfo) -> Key | None:
    """The row of a field of the schema; None for a table below it.

    Parameters
    ----------
    field
        As pydantic keeps it.

    Returns
    -------
    Key or None
        The row.
    """
    return next((part for part in field.metadata if isinstance(part, Key)), None)
