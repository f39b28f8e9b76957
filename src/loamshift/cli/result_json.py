"""Results for programs: what a command found, as JSON with the names the program itself uses."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from typing import TYPE_CHECKING, Any, Final

from loamshift.domain.message import Given, Message, Prose
from loamshift.errors import LoamshiftError

if TYPE_CHECKING:
    from loamshift.report.words import Words


_MANY: Final = 1000
"""A list of more entries is printed as it is made, for its text may not fit into the memory."""


def print_json(result: object, words: Words) -> None:
    """Print a result as JSON on stdout: figures as numbers, messages in the reader's words."""
    from loamshift.cli.show import say

    say(json.dumps(plain(result, words), indent=2, ensure_ascii=False, allow_nan=False))


def print_long_json(result: Mapping[str, object], words: Words) -> None:
    """The same for a result whose lists may be very long: they are never text as a whole."""
    tree = {
        name: _Each(value, words)
        if isinstance(value, tuple | list) and len(value) > _MANY
        else plain(value, words)
        for name, value in result.items()
    }
    encoder = json.JSONEncoder(indent=2, ensure_ascii=False, allow_nan=False)
    for piece in encoder.iterencode(tree):
        sys.stdout.write(piece)
    sys.stdout.write("\n")


class _Each(list[Any]):
    """A list whose entries become plain data one by one, as the encoder comes to them."""

    def __init__(self, values: Sequence[object], words: Words) -> None:
        super().__init__()
        self._values, self._words = values, words

    def __len__(self) -> int:
        return len(self._values)

    def __iter__(self) -> Iterator[Any]:
        return (plain(one, self._words) for one in self._values)


def plain(value: object, words: Words) -> Any:
    """A value as plain data.

    Raises
    ------
    LoamshiftError
        Where a value has no JSON, which is our fault.
    """
    if isinstance(value, Message | Prose):
        from loamshift.report.messages import say

        return say(value, words)
    if isinstance(value, Given):
        return value.text
    if is_dataclass(value) and not isinstance(value, type):
        return {one.name: plain(getattr(value, one.name), words) for one in fields(value)}
    if isinstance(value, Mapping):
        return {str(key): plain(one, words) for key, one in value.items()}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple | list):
        return [plain(one, words) for one in value]
    if isinstance(value, frozenset | set):
        return sorted(plain(one, words) for one in value)
    if value is None or isinstance(value, bool | int | float | str):
        return value
    raise LoamshiftError(f"{type(value).__name__} has no JSON")
