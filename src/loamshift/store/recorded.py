"""What an act did, as it is recorded: a message in plain values, and what undoes it."""

from __future__ import annotations

import json
from datetime import date
from typing import Any, Final

from loamshift.domain.message import Given, Message, Value, Worded, message

UNDONE: Final = "store-undone"
REDONE: Final = "store-redone"
_OLD_UNDONE: Final = "Took back: "
_OLD_REDONE: Final = "Did again: "


def text_of(what: Worded) -> str:
    """A message as the record of changes holds it; empty for a text."""
    return json.dumps(_plain(what), ensure_ascii=False) if isinstance(what, Message) else ""


def what_of(recorded: str, text: str) -> Worded:
    """What an act did, from its record.

    Parameters
    ----------
    recorded
        The message as JSON; empty in records of earlier versions.

    Returns
    -------
    object
        The message, or the text where there is none that can be read.
    """
    if not recorded:
        return text
    try:
        return _message(json.loads(recorded))
    except (ValueError, KeyError, TypeError, AttributeError):
        return text


def is_undoing(what: Worded) -> bool:
    """True where an act undid another."""
    if isinstance(what, Message):
        return what.key == UNDONE
    return isinstance(what, str) and what.startswith(_OLD_UNDONE)


def other_way(what: Worded) -> Message:
    """What undoing an act does; undoing an undoing does the act again."""
    if isinstance(what, Message) and what.key in (UNDONE, REDONE):
        inner = what.values["what"]
        return message(UNDONE if what.key == REDONE else REDONE, what=inner)
    if isinstance(what, Message):
        return message(UNDONE, what=what)
    old = what if isinstance(what, str) else ""
    if old.startswith(_OLD_UNDONE):
        return message(REDONE, what=Given(old.removeprefix(_OLD_UNDONE)))
    return message(UNDONE, what=Given(old.removeprefix(_OLD_REDONE)))


def _plain(what: Message) -> dict[str, Any]:
    return {
        "message": what.key,
        "values": {name: _value_plain(value) for name, value in what.values.items()},
    }


def _value_plain(value: Value) -> Any:
    match value:
        case Given(text):
            return {"given": text}
        case date():
            return {"date": value.isoformat()}
        case Message():
            return _plain(value)
        case int() | str() | None:
            return value
    raise TypeError(f"{type(value).__name__} is not recorded")


def _message(plain: Any) -> Message:
    return message(
        plain["message"], **{name: _value(value) for name, value in plain["values"].items()}
    )


def _value(plain: Any) -> Value:
    if plain is None or isinstance(plain, (int, str)):
        return plain
    if "given" in plain:
        return Given(str(plain["given"]))
    if "date" in plain:
        return date.fromisoformat(plain["date"])
    return _message(plain)
