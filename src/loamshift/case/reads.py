"""How one key of the case file is read: the parser, and the words that document it."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, datetime
from enum import StrEnum
from typing import TypeVar

from loamshift.case.dates import FIRST_YEAR, LAST_YEAR, date_mend
from loamshift.case.mend import ListMend, Mend, quoted, typed
from loamshift.case.numbers import number_from
from loamshift.domain.message import Given, Listed, Message, ProductName, Value, message
from loamshift.domain.message import choice as choice_key
from loamshift.domain.names import NameFault, match_name, plain_name
from loamshift.errors import InputError

SKIP = object()
"""Stands for a value already found faulty, so that the rest can still be checked."""


class Holds(StrEnum):
    """What stands behind a key in the file."""

    TEXT = "text"
    NAME = "name"
    WORD = "word"
    CODE = "code"
    """A few letters of a fixed form."""
    DATE = "date"
    FLAG = "flag"
    NUMBER = "number"
    WHOLE = "whole"
    QUANTITY = "quantity"
    TABLE = "table"


@dataclass(frozen=True, kw_only=True)
class Reads:
    """How a value is read: its parser, what it takes in words, and the words it may be.

    ``unit`` is that of the figure read, ``bare`` what a bare number means where it says more.
    ``is_list`` where several values may stand; ``is_alone`` where one may then stand without
    brackets. ``example_us`` is how an American would type a quantity.
    """

    parse: Callable[[object], object]
    takes: Message
    holds: Holds
    choices: tuple[str, ...] = ()
    unit: str = ""
    is_list: bool = False
    is_alone: bool = True
    bare: Value = None
    example_us: str = ""


def number(
    *,
    low: float,
    high: float,
    unit: str = "",
    said: Message | None = None,
    likely: Callable[[float], float | None] | None = None,
) -> Reads:
    """A number between two bounds, both in the unit named; ``said`` is it in words.

    ``likely`` says what was probably meant by a figure outside them, or None.
    """

    in_unit = said or (Given(unit) if unit else None)

    def parse(value: object) -> float:
        figure = number_from(value)
        if low <= figure <= high:
            return figure
        wrong = message(
            "case-outside", given=quoted(value), low=typed(low), high=typed(high), unit=in_unit
        )
        meant = likely(figure) if likely else None
        if meant is None:
            raise Mend(wrong)
        example = Given(f"{meant:.3g}")
        raise Mend(wrong, message("case-decimal-point", key=Given(""), example=example))

    return Reads(parse=parse, takes=number_taken(low, high, in_unit), holds=Holds.NUMBER, unit=unit)


def number_taken(low: float, high: float, unit: Value = None) -> Message:
    """What a number takes: its bounds and its unit [text or message]."""
    return message("takes-number", low=typed(low), high=typed(high), unit=unit)


def ph_number(*, low: float = 2.0, high: float = 11.0) -> Reads:
    """A pH between two bounds [pH]; a slip of the decimal point is asked about."""

    def likely(figure: float) -> float | None:
        return next((f for f in (figure / 10.0, figure / 100.0) if low <= f <= high), None)

    reads = number(low=low, high=high, likely=likely)
    takes = message("takes-ph", low=typed(low), high=typed(high))
    return Reads(parse=reads.parse, takes=takes, holds=Holds.NUMBER, unit="pH")


def whole(*, low: int, high: int) -> Reads:
    """A whole number between two bounds [count]."""

    def parse(value: object) -> int:
        figure = number_from(value)
        if figure != int(figure) or not low <= figure <= high:
            raise Mend(
                message("case-not-whole", given=quoted(value), low=typed(low), high=typed(high))
            )
        return int(figure)

    takes = message("takes-whole", low=Given(str(low)), high=Given(str(high)))
    return Reads(parse=parse, takes=takes, holds=Holds.WHOLE)


def _read_flag(value: object) -> bool:
    if isinstance(value, bool):
        return value
    if isinstance(value, str) and value.strip().casefold() in ("yes", "true"):
        return True
    if isinstance(value, str) and value.strip().casefold() in ("no", "false"):
        return False
    raise Mend(message("case-not-true-or-false", given=quoted(value)))


FLAG = Reads(
    parse=_read_flag, takes=message("takes-flag"), holds=Holds.FLAG, choices=("true", "false")
)


def _read_date(value: object) -> date:
    if isinstance(value, datetime):
        value = value.date()
    if isinstance(value, str):
        try:
            value = date.fromisoformat(value.strip())
        except ValueError:
            raise date_mend(value) from None
    if not isinstance(value, date):
        raise date_mend(value)
    if not FIRST_YEAR <= value.year <= LAST_YEAR:
        raise Mend(message("case-year-unlikely", given=quoted(value)))
    return value


DATE = Reads(parse=_read_date, takes=message("takes-date"), holds=Holds.DATE)


def text(*, longest: int = 200) -> Reads:
    """A short text on one line, at most so many characters [count]."""

    def parse(value: object) -> str:
        if isinstance(value, bool) or not isinstance(value, str):
            raise Mend(message("case-not-text", given=quoted(value)))
        cleaned = " ".join("".join(c if c.isprintable() else " " for c in value).split())
        if not cleaned:
            raise Mend(message("case-empty-text"), message("case-words-or-nothing"))
        if len(cleaned) > longest:
            raise Mend(
                message("case-text-too-long", count=len(cleaned)),
                message("case-most-characters", most=longest),
            )
        return cleaned

    return Reads(parse=parse, takes=message("takes-text"), holds=Holds.TEXT)


E = TypeVar("E", bound=StrEnum)


def choice(kinds: type[E], *, what: str, aliases: dict[str, str] | None = None) -> Reads:
    """One word of an enumeration, found without case; ``what`` names it in messages."""
    reads = word_choice(tuple(kind.value for kind in kinds), what=what, aliases=aliases)
    return replace(reads, parse=lambda value: kinds(str(reads.parse(value))))


def word_choice(
    words: tuple[str, ...], *, what: str, aliases: dict[str, str] | None = None
) -> Reads:
    """One of these words, without case or hyphen; ``aliases`` lead to a word."""
    plain = {_plain_choice(word): word for word in words}
    for alias, word in (aliases or {}).items():
        plain[_plain_choice(alias)] = word
    kind = choice_key(what)

    def parse(value: object) -> str:
        wanted = _plain_choice(value) if isinstance(value, str) else ""
        if wanted in plain:
            return plain[wanted]
        import difflib

        near = difflib.get_close_matches(wanted, plain, n=1, cutoff=0.6)
        listed = Listed(tuple(Given(f'"{word}"') for word in words), either=True)
        raise Mend(
            message("case-no-such-choice", given=quoted(value), kind=kind),
            *((meant(plain[near[0]]),) if near else ()),
            message("case-one-of", words=listed),
        )

    return Reads(parse=parse, takes=message("takes-word"), holds=Holds.WORD, choices=words)


def meant(*names: str) -> Message:
    """The question whether one of these names was meant."""
    listed = Listed(tuple(Given(f'"{name}"') for name in names), either=True)
    return message("case-did-you-mean-name", names=listed)


def _plain_choice(value: str) -> str:
    return re.sub(r"[\s_\-]+", " ", value.translate({0x2082: "2"})).strip().casefold()


def found_by_name(find: Callable[[str], object], *, kind: str) -> Reads:
    """Something of a shipped table, found by any of its names; ``kind`` names it."""

    what = choice_key(kind)
    names = message("case-where-names-are", kind=what)

    def parse(value: object) -> object:
        if not isinstance(value, str) or not value.strip():
            raise Mend(message("case-not-a-name", given=quoted(value), kind=what), names)
        if len(value) > 200:
            raise Mend(message("case-name-too-long", kind=what), names)
        try:
            return find(value)
        except NameFault as fault:
            raise name_mend(fault) from fault
        except InputError as error:
            unknown = message("case-name-unknown", given=quoted(value), kind=what)
            raise Mend(unknown, names) from error

    return Reads(parse=parse, takes=message("takes-name", kind=what), holds=Holds.NAME)


def name_mend(fault: NameFault) -> Mend:
    """The mend for a name that is unknown or means several things.

    Parameters
    ----------
    fault
        What the search for the name said.

    Returns
    -------
    Mend
        Problem and candidates.
    """
    given, kind = quoted(fault.text), choice_key(fault.kind)
    if fault.ambiguous:
        return Mend(message("case-name-ambiguous", given=given, kind=kind), _one_of(fault))
    wrong = message("case-name-unknown", given=given, kind=kind)
    if fault.candidates:
        return Mend(wrong, _one_of(fault))
    return Mend(wrong, message("case-where-names-are", kind=kind))


def _one_of(fault: NameFault) -> Message:
    """The question whether one of the candidates was meant, each by the name a reader knows."""
    if fault.kind != "material":
        return meant(*fault.candidates)
    quoted_names = (message("case-quoted", name=ProductName(key)) for key in fault.candidates)
    names = Listed(tuple(quoted_names), either=True)
    return message("case-did-you-mean-name", names=names)


def list_of(item: Reads, *, longest: int, single: bool = True) -> Reads:
    """A list of values of one kind; with ``single`` one may stand without brackets."""

    def parse(value: object) -> tuple[object, ...]:
        if not isinstance(value, list):
            if not single:
                raise Mend(message("case-not-a-list", given=quoted(value)))
            value = [value]
        if len(value) > longest:
            raise Mend(
                message("case-list-too-long", count=len(value)),
                message("case-most-entries", most=longest),
            )
        results: list[object] = []
        wrong: list[tuple[int | str, object, Mend]] = []
        for place, part in enumerate(value):
            try:
                results.append(item.parse(part))
            except Mend as mend:
                if len(value) == 1:
                    raise
                wrong.append((place, part, mend))
        if wrong:
            raise ListMend(wrong)
        return tuple(results)

    takes = message("takes-one-or-list" if single else "takes-list", item=item.takes)
    return Reads(
        parse=parse,
        takes=takes,
        holds=item.holds,
        unit=item.unit,
        is_list=True,
        is_alone=single,
        bare=item.bare,
    )


def texture_by_name(value: str) -> object:
    """The texture class of a name, by its tables."""
    from loamshift.tables.soils import load_textures

    textures = load_textures()
    return textures[match_name(value, {k: t.synonyms for k, t in textures.items()}, kind="texture")]


__all__ = [
    "DATE",
    "FLAG",
    "SKIP",
    "Holds",
    "Reads",
    "choice",
    "found_by_name",
    "list_of",
    "name_mend",
    "number",
    "ph_number",
    "plain_name",
    "text",
    "texture_by_name",
    "whole",
    "word_choice",
]
