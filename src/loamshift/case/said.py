"""What an answer says, as text for its JSON, and the messages it was worded from beside it.

The texts are for people; the messages under ``said`` let a later reader have the same answer in
other units or another language without reading a figure out of a sentence.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from datetime import date
from typing import Any, Final, TypeVar

from loamshift.case.plain import tell
from loamshift.domain.message import (
    Given,
    Listed,
    Measure,
    Message,
    PlantName,
    Product,
    ProductName,
    Prose,
    Quantity,
    Value,
    message,
)
from loamshift.errors import Fault
from loamshift.report.messages import can_say, say
from loamshift.report.words import Words

SAID: Final = "said"
"""The key of an answer's JSON that holds the messages, each under the JSON pointer of its text."""
_TODAY: Final = Words()
"""Whose words a kept message is tried in; what it needs is the same for every reader."""
_T = TypeVar("_T")


def in_words(part: _T, words: Words, said: dict[str, Any], pointer: str = "") -> _T:
    """A part of an answer with every message in it worded."""
    if isinstance(part, Prose):
        said[pointer] = [_plain(one) for one in part.sentences]
        return say(part, words)  # type: ignore[return-value]
    if isinstance(part, Message):
        said[pointer] = _plain(part)
        return say(part, words)  # type: ignore[return-value]
    if isinstance(part, tuple):
        items = [in_words(one, words, said, f"{pointer}/{n}") for n, one in enumerate(part)]
        same = all(new is old for new, old in zip(items, part, strict=True))
        return part if same else tuple(items)  # type: ignore[return-value]
    if is_dataclass(part) and not isinstance(part, type):
        changed = {}
        for one in fields(part):
            old = getattr(part, one.name)
            new = in_words(old, words, said, f"{pointer}/{one.name}")
            if new is not old:
                changed[one.name] = new
        return replace(part, **changed) if changed else part
    return part


def with_messages(part: _T, said: Any, faults: list[Fault]) -> _T:
    """A part of an answer with the messages of its file in place of their texts.

    Parameters
    ----------
    said
        Messages in plain data by their places.

    Notes
    -----
    Where an earlier version kept a message that today's words ask more of, or no longer know,
    the text it was said in stays: it is what was told, and only in those units and words.
    """
    if not isinstance(said, Mapping):
        tell(faults, SAID, None, message("answer-kind-needed", kind="table"))
        return part
    found: dict[str, Prose | Message] = {}
    for pointer, plain in said.items():
        try:
            one = _said(plain)
            if can_say(one, _TODAY):
                found[pointer] = one
        except (KeyError, TypeError, ValueError, AttributeError):
            tell(faults, f"{SAID}.{pointer}", None, message("answer-not-a-message"))
    put: _T = _put(part, found, "")
    return put


def _put(part: Any, found: Mapping[str, Prose | Message], pointer: str) -> Any:
    if isinstance(part, str):
        return found.get(pointer, part)
    if isinstance(part, tuple):
        return tuple(_put(one, found, f"{pointer}/{n}") for n, one in enumerate(part))
    if is_dataclass(part) and not isinstance(part, type):
        changed = {}
        for one in fields(part):
            old = getattr(part, one.name)
            new = _put(old, found, f"{pointer}/{one.name}")
            if new is not old:
                changed[one.name] = new
        return replace(part, **changed) if changed else part
    return part


def _plain(what: Message) -> dict[str, Any]:
    return {
        "message": what.key,
        "values": {name: _value_plain(value) for name, value in what.values.items()},
    }


def _value_plain(value: Value) -> Any:
    match value:
        case Measure(kind, number, high, against, best):
            plain: dict[str, Any] = {"measure": kind.value, "value": number}
            if high is not None:
                plain["high"] = high
            if best is not None:
                plain["best"] = best
            return plain if against is None else {**plain, "against": against}
        case date():
            return {"date": value.isoformat()}
        case Given(text):
            return {"given": text}
        case PlantName(name):
            return {"plant": name}
        case ProductName(key):
            return {"product_name": key}
        case Product(key):
            return {"product": key}
        case Listed(items, either):
            return {"listed": [_value_plain(item) for item in items], "either": either}
        case Message():
            return _plain(value)
        case int() | str() | None:
            return value


def _said(plain: Any) -> Prose | Message:
    if isinstance(plain, list):
        return Prose(tuple(_message(one) for one in plain))
    return _message(plain)


def _message(plain: Any) -> Message:
    return message(
        plain["message"], **{name: _value(value) for name, value in plain["values"].items()}
    )


def _value(plain: Any) -> Value:
    if plain is None or isinstance(plain, (int, str)):
        return plain
    if "measure" in plain:
        return Measure(
            Quantity(plain["measure"]),
            float(plain["value"]),
            None if plain.get("high") is None else float(plain["high"]),
            None if plain.get("against") is None else float(plain["against"]),
            None if plain.get("best") is None else float(plain["best"]),
        )
    if "date" in plain:
        return date.fromisoformat(plain["date"])
    if "given" in plain:
        return Given(str(plain["given"]))
    if "plant" in plain:
        return PlantName(str(plain["plant"]))
    if "product" in plain:
        return Product(str(plain["product"]))
    if "product_name" in plain:
        return ProductName(str(plain["product_name"]))
    if "listed" in plain:
        return Listed(tuple(_value(item) for item in plain["listed"]), bool(plain["either"]))
    return _message(plain)
