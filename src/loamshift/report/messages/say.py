"""Messages in the words of one reader: the only place where figures become text in a sentence."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from typing import TYPE_CHECKING

from loamshift.domain.message import (
    Given,
    Listed,
    Measure,
    Message,
    PlantName,
    Product,
    ProductName,
    Prose,
    Value,
    Worded,
)
from loamshift.errors import LoamshiftError
from loamshift.tables.materials import load_materials

if TYPE_CHECKING:
    from loamshift.report.words import Words


def say(what: Worded, words: Words) -> str:
    """A message or sentences as this reader has them.

    Parameters
    ----------
    what
        A message, sentences in order, or a text that was worded by an earlier version.

    Raises
    ------
    LoamshiftError
        Where a message or one of its values is missing, which is our fault.

    Examples
    --------
    >>> from loamshift.domain.message import message, rate
    >>> from loamshift.report.words import Words
    >>> say(message("unit-about", figure=rate(97.6)), Words("us", "us"))
    'about 2.0 lb/100 sq ft'
    """
    if isinstance(what, str):
        return what
    if isinstance(what, Prose):
        return " ".join(say(one, words) for one in what.sentences)
    values: dict[str, str | int] = {}
    for name, value in what.values.items():
        if value is None:
            values[name] = "none"
            continue
        values[name] = said(value, words)
        if isinstance(value, Listed):
            values[f"{name}-count"] = len(value.items)
    return words.message(what.key, values)


def can_say(what: Message | Prose, words: Words) -> bool:
    """Whether a message that an earlier version kept has all that its words need today.

    Notes
    -----
    Nothing is worded where every gap has its value, which is nearly always.
    """
    if isinstance(what, Prose):
        return all(can_say(one, words) for one in what.sentences)
    book = words.book
    if what.key not in book:
        return False
    given = {"units", "ground", *what.values, *(f"{name}-count" for name in what.values)}
    if not book.gaps(what.key) <= given:
        try:
            say(what, words)
        except LoamshiftError:
            return False
    return all(can_say(one, words) for value in what.values.values() for one in _inside(value))


def _inside(value: Value) -> Iterator[Message]:
    """The messages among the values of a message."""
    if isinstance(value, Message):
        yield value
    elif isinstance(value, Listed):
        for item in value.items:
            yield from _inside(item)


def say_sentence(what: Worded, words: Words) -> str:
    """Whole sentences as this reader has them.

    Returns
    -------
    str
        The sentences; nothing where there is nothing to say.
    """
    text = say(what, words)
    if not isinstance(what, str) or not text.strip():
        return text
    text = words.text(text.strip())
    if not text.startswith("pH"):
        text = text[0].upper() + text[1:]
    return text if text[-1] in ".!?:" else f"{text.rstrip(',;')}."


def say_each(what: Iterable[Worded], words: Words) -> list[str]:
    """Several messages as this reader has them."""
    return [say(one, words) for one in what]


def said(value: Value, words: Words) -> str | int:
    """One value as it stands in a message; a count stays a number, for its plural.

    Returns
    -------
    str or int
        What stands in the message [text or count].
    """
    match value:
        case bool() | int() | str():
            return value
        case Measure():
            return words.measure(value)
        case date():
            return words.date(value)
        case PlantName(name):
            return words.plant(name)
        case Product(key):
            return words.product(key)
        case ProductName(key):
            material = load_materials().get(key)
            return key if material is None else words.material_name(material)
        case Given(text):
            return text
        case Listed(items, either):
            return words.listed([str(said(item, words)) for item in items], either=either)
        case Message():
            return say(value, words)
        case None:
            return ""
