"""Dataclasses to plain JSON data and back, by the types of their fields."""

from __future__ import annotations

import functools
import math
import operator
import types
import typing
from collections.abc import Callable, Iterable, Mapping
from dataclasses import MISSING, dataclass, field, fields, is_dataclass
from datetime import date
from enum import Enum, StrEnum, auto
from typing import Any, Final

from loamshift.case.mend import quoted, shown
from loamshift.case.plain import Tried, is_clean, tell
from loamshift.domain.message import Given, Listed, Message, Prose, message
from loamshift.errors import Fault, LoamshiftError

TAG: Final = "block"
"""Key that tells kinds apart where several may stand in one place."""
LARGEST_NUMBER: Final = 1e300


def keys_of(kind: type) -> tuple[str, ...]:
    """The names of a dataclass's fields, in order; ``kind`` is the class."""
    return tuple(part.name for part in fields(kind))


@functools.cache
def type_hints(kind: type) -> dict[str, Any]:
    """The types of one part's keys, by key; ``kind`` is a dataclass."""
    return {key: _as_text(hint) for key, hint in typing.get_type_hints(kind).items()}


def _as_text(hint: Any) -> Any:
    """A type with texts where messages may stand: a file holds what they say."""
    origin, parts = typing.get_origin(hint), typing.get_args(hint)
    if origin in (types.UnionType, typing.Union) and Message in parts:
        kept = [part for part in parts if part not in (Message, Prose)]
        return functools.reduce(operator.or_, kept)
    if origin is tuple:
        return types.GenericAlias(tuple, tuple(_as_text(part) for part in parts))
    return hint


class _Shape(Enum):
    """What a type asks of a value."""

    SCALAR = auto()
    UNION = auto()
    TUPLE = auto()
    PART = auto()


@functools.cache
def _shape(hint: Any) -> tuple[_Shape, tuple[Any, ...]]:
    """What a type asks for, and its parts; an answer asks some ten thousand times of a hundred."""
    origin = typing.get_origin(hint)
    if origin in (types.UnionType, typing.Union):
        return _Shape.UNION, typing.get_args(hint)
    if origin is tuple:
        return _Shape.TUPLE, typing.get_args(hint)
    is_part = is_dataclass(hint) and isinstance(hint, type)
    return (_Shape.PART if is_part else _Shape.SCALAR), ()


@dataclass(frozen=True)
class Codec:
    """How a tree of dataclasses is written and read."""

    number: Callable[[float], float] = float
    """What is written of a number [any unit]."""
    keys: Callable[[type], tuple[str, ...]] = keys_of
    """The keys of one part, in the order of the file."""
    tags: Mapping[str, type] = field(default_factory=dict)
    """Kinds that say their name under ``block``."""
    whole_stays: bool = False
    """Whether a whole number in the file stays whole where any number may stand."""

    def encode(self, value: object, path: str) -> Any:
        """A value as plain data.

        Raises
        ------
        LoamshiftError
            Where a number is not finite or a value has no JSON, which is our fault.
        """
        if is_dataclass(value) and not isinstance(value, type):
            tag = self._tag(type(value))
            start = {} if tag is None else {TAG: tag}
            return start | {
                key: self.encode(getattr(value, key), f"{path}.{key}")
                for key in self.keys(type(value))
            }
        if isinstance(value, StrEnum):
            return value.value
        if isinstance(value, float):
            if not math.isfinite(value):
                raise LoamshiftError(f"{path} is {value}, not a number")
            return self.number(value)
        if isinstance(value, date):
            return value.isoformat()
        if isinstance(value, (tuple, list)):
            return [self.encode(part, f"{path}[{place}]") for place, part in enumerate(value)]
        if value is None or isinstance(value, (bool, int, str)):
            return value
        raise LoamshiftError(f"{path} holds {type(value).__name__}, which has no JSON")

    @functools.cached_property
    def _names(self) -> dict[type, str]:
        return {kind: name for name, kind in self.tags.items()}

    def _tag(self, kind: type) -> str | None:
        return self._names.get(kind)

    def decode(self, value: Any, hint: Any, path: str, faults: list[Fault]) -> Any:
        """A value as the type it had, or None with a fault.

        Returns
        -------
        Any
            The value; None where a fault was added.
        """
        shape, parts = _shape(hint)
        if shape is _Shape.SCALAR:
            return self._scalar(value, hint, path, faults)
        if shape is _Shape.UNION:
            return self._union(value, parts, path, faults)
        if shape is _Shape.TUPLE:
            return self._tuple(value, parts, path, faults)
        return self._part(value, hint, path, faults)

    def _union(self, value: Any, hints: tuple[Any, ...], path: str, faults: list[Fault]) -> Any:
        if value is None and type(None) in hints:
            return None
        wanted = [hint for hint in hints if hint is not type(None)]
        if len(wanted) > 1 and all(self._tag(hint) for hint in wanted):
            return self._tagged(value, path, faults)
        for hint in wanted[:-1]:
            tried = Tried()
            result = self.decode(value, hint, path, tried)
            if not tried:
                return result
        return self.decode(value, wanted[-1], path, faults)

    def _tagged(self, value: Any, path: str, faults: list[Fault]) -> Any:
        name = value.get(TAG) if isinstance(value, dict) else None
        kind = self.tags.get(name) if isinstance(name, str) else None
        if kind is None:
            where = f"{path}.{TAG}" if isinstance(value, dict) else path
            return _wrong(name, _one_of(self.tags), where, faults)
        return self._part(value, kind, path, faults)

    def _tuple(self, value: Any, hints: tuple[Any, ...], path: str, faults: list[Fault]) -> Any:
        if not isinstance(value, list):
            return _wrong(value, _needed("list"), path, faults)
        if hints[-1] is not Ellipsis and len(value) != len(hints):
            return _wrong(value, message("answer-list-of", count=len(hints)), path, faults)
        each = [hints[0]] * len(value) if hints[-1] is Ellipsis else hints
        return tuple(
            self.decode(part, item, f"{path}[{place}]", faults)
            for place, (part, item) in enumerate(zip(value, each, strict=True), start=1)
        )

    def _part(self, value: Any, kind: type, path: str, faults: list[Fault]) -> Any:
        if not isinstance(value, dict):
            return _wrong(value, _needed("table"), path, faults)
        here = f"{path}." if path else ""
        hints, before = type_hints(kind), len(faults)
        tag = self._tag(kind)
        if tag is not None and value.get(TAG) != tag:
            _wrong(value.get(TAG), _one_of((tag,)), f"{here}{TAG}", faults)
        for key in value:
            if key not in hints and not (tag is not None and key == TAG):
                tell(faults, f"{here}{shown(key)}", None, message("answer-unknown-key"))
        found = {}
        for part in fields(kind):
            if part.name in value:
                where = f"{here}{part.name}"
                found[part.name] = self.decode(value[part.name], hints[part.name], where, faults)
            elif part.default is MISSING:
                tell(faults, f"{here}{part.name}", None, message("case-missing"))
        if len(faults) != before:
            return None
        try:
            return kind(**found)
        except ValueError as error:
            tell(faults, path, None, message("answer-impossible", why=quoted(error)))
            return None

    def _scalar(self, value: Any, hint: Any, path: str, faults: list[Fault]) -> Any:
        if hint is type(None):
            return None if value is None else _wrong(value, _needed("null"), path, faults)
        if hint is bool and isinstance(value, bool):
            return value
        if hint in (int, float) and isinstance(value, (int, float)) and not isinstance(value, bool):
            if abs(value) > LARGEST_NUMBER:
                return _wrong(value, message("answer-number-too-large"), path, faults)
            if hint is float:
                return value if self.whole_stays else float(value)
            if isinstance(value, int):
                return value
        if isinstance(value, str):
            if hint is str:
                wrong = message("answer-control-codes")
                return value if is_clean(value) else _wrong(value, wrong, path, faults)
            try:
                if hint is date:
                    return date.fromisoformat(value)
                if isinstance(hint, type) and issubclass(hint, StrEnum):
                    return hint(value)
            except ValueError:
                pass
        return _wrong(value, _kind_needed(hint), path, faults)


def _wrong(value: Any, wrong: Message, path: str, faults: list[Fault]) -> None:
    tell(faults, path, "null" if value is None else value, wrong)


def _needed(kind: str) -> Message:
    return message("answer-kind-needed", kind=kind)


def _one_of(names: Iterable[str]) -> Message:
    listed = Listed(tuple(Given(f"“{name}”") for name in names), either=True)
    return message("answer-one-of", names=listed)


def _kind_needed(hint: Any) -> Message:
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return _one_of(kind.value for kind in hint)
    return _needed(_KINDS.get(hint, "table"))


_KINDS: Final[Mapping[Any, str]] = {
    float: "number",
    int: "whole-number",
    bool: "true-or-false",
    str: "text",
    date: "date",
    type(None): "null",
}


def kind_words(hint: Any) -> str:
    """A type of the file in words."""
    words = {
        float: "a number",
        int: "a whole number",
        bool: "true or false",
        str: "a text",
        date: "a date",
        type(None): "null",
    }
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return "one of " + ", ".join(kind.value for kind in hint)
    return words.get(hint, "a table")
