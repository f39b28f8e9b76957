"""How one key of the case file is read: the parser, and the words that document it."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from typing import TYPE_CHECKING, Any, TypeVar

from loamshift.case.mend import ListMend, Mend, shown
from loamshift.case.numbers import number_from
from loamshift.domain.names import NameFault, match_name, plain_name
from loamshift.errors import InputError

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler
    from pydantic_core import CoreSchema

SKIP = object()
"""Stands for a value already found faulty, so that the rest can still be checked."""


@dataclass(frozen=True)
class Reads:
    """What a key takes: its parser, the kind of value in words, and the words it may be."""

    parse: Callable[[object], object]
    kind: str
    choices: tuple[str, ...] = ()

    def _take(self, value: object) -> object:
        return None if value is SKIP else self.parse(value)

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Hand the value to the parser as it stands, without guessing at types."""
        from pydantic_core import core_schema

        return core_schema.no_info_plain_validator_function(self._take)


def number(
    *, low: float, high: float, unit: str = "", hint: Callable[[float], str] | str = ""
) -> Reads:
    """A number between two bounds, both in the unit [text] named."""
    words = f"{low:g} to {high:g} {unit}".strip()

    def parse(value: object) -> float:
        figure = number_from(value, expected=f"a number from {words}")
        if not low <= figure <= high:
            advice = hint(figure) if callable(hint) else hint
            raise Mend(f"{figure:g} is outside what is possible", f"Give {words}. {advice}".strip())
        return figure

    return Reads(parse, f"number, {words}")


def ph_number(*, low: float = 2.0, high: float = 11.0) -> Reads:
    """A pH between two bounds [pH]; a slip of the decimal point is asked about."""

    def hint(figure: float) -> str:
        if 10.0 * low <= figure <= 10.0 * high:
            return f"Check the decimal point: did you mean {figure / 10.0:g}?"
        return ""

    reads = number(low=low, high=high, hint=hint)
    return Reads(reads.parse, f"pH, {low:g} to {high:g}")


def whole(*, low: int, high: int, what: str) -> Reads:
    """A whole number between two bounds [count]; ``what`` names the thing counted [text]."""

    def parse(value: object) -> int:
        expected = f"a whole number of {what}, {low} to {high}"
        figure = number_from(value, expected=expected)
        if figure != int(figure) or not low <= figure <= high:
            raise Mend(f"{figure:g} is no possible number of {what}", f"Give {expected}.")
        return int(figure)

    return Reads(parse, f"whole number, {low} to {high}")


def _read_flag(value: object) -> bool:
    if isinstance(value, bool):
        return value
    if isinstance(value, str) and value.strip().casefold() in ("yes", "true"):
        return True
    if isinstance(value, str) and value.strip().casefold() in ("no", "false"):
        return False
    raise Mend("neither true nor false", "Write true or false.")


FLAG = Reads(_read_flag, "true or false", ("true", "false"))


def year_first(text: str) -> str | None:
    """How to write a date that was typed day or month first.

    >>> year_first("20.03.2026")
    'Write 2026-03-20: the year first, no quotes.'

    Parameters
    ----------
    text
        What was typed [text].

    Returns
    -------
    str or None
        A sentence; None where it is no such date [text].
    """
    found = re.fullmatch(r"(\d{1,2})[./-](\d{1,2})[./-](\d{4})", text)
    if found is None:
        return None
    first, second, year = (int(part) for part in found.groups())
    if first > 12 >= second:
        return f"Write {year}-{second:02d}-{first:02d}: the year first, no quotes."
    if second > 12 >= first:
        return f"Write {year}-{first:02d}-{second:02d}: the year first, no quotes."
    return "Write the year first, then month and day, such as 2026-04-12, without quotes."


def _read_date(value: object) -> date:
    if isinstance(value, datetime):
        value = value.date()
    if isinstance(value, str):
        text = value.strip()
        try:
            value = date.fromisoformat(text)
        except ValueError:
            advice = year_first(text) or "Write year-month-day, such as 2026-04-12, without quotes."
            raise Mend("not a date", advice) from None
    if not isinstance(value, date):
        raise Mend("not a date", "Write year-month-day, such as 2026-04-12.")
    if not 1900 <= value.year <= 2200:
        raise Mend(f"the year {value.year} cannot be meant", "Give a year from 1900 to 2200.")
    return value


DATE = Reads(_read_date, "date, such as 2026-04-12")


def text(*, longest: int = 200) -> Reads:
    """A short text on one line, at most so many characters [count]."""

    def parse(value: object) -> str:
        if isinstance(value, bool) or not isinstance(value, str):
            raise Mend("not a text", "Put it in quotes.")
        cleaned = " ".join("".join(c if c.isprintable() else " " for c in value).split())
        if not cleaned:
            raise Mend("an empty text", "Write a few words, or leave the key out.")
        if len(cleaned) > longest:
            raise Mend(f"a text of {len(cleaned)} characters", f"Use at most {longest} characters.")
        return cleaned

    return Reads(parse, "text")


E = TypeVar("E", bound=StrEnum)


def choice(kinds: type[E], *, what: str, aliases: dict[str, str] | None = None) -> Reads:
    """One word of an enumeration, found without case; ``what`` names it in messages [text]."""
    reads = word_choice(tuple(kind.value for kind in kinds), what=what, aliases=aliases)
    return Reads(lambda value: kinds(str(reads.parse(value))), reads.kind, reads.choices)


def word_choice(
    words: tuple[str, ...], *, what: str, aliases: dict[str, str] | None = None
) -> Reads:
    """One of these words [text], without case or hyphen; ``aliases`` lead to a word [text]."""
    plain = {_plain_choice(word): word for word in words}
    for alias, word in (aliases or {}).items():
        plain[_plain_choice(alias)] = word
    listed = ", ".join(words)

    def parse(value: object) -> str:
        if not isinstance(value, str):
            raise Mend(f"not a {what}", f"Write one of: {listed}.")
        wanted = _plain_choice(value)
        if wanted in plain:
            return plain[wanted]
        import difflib

        near = difflib.get_close_matches(wanted, plain, n=1, cutoff=0.6)
        nearest = f"Nearest: “{plain[near[0]]}”. " if near else ""
        raise Mend(f"no {what} of that name", f"{nearest}Write one of: {listed}.")

    return Reads(parse, "one word of a list", words)


def _plain_choice(value: str) -> str:
    return re.sub(r"[\s_\-]+", " ", value.translate({0x2082: "2"})).strip().casefold()


def found_by_name(find: Callable[[str], object], *, kind: str) -> Reads:
    """Something of a shipped table, found by any of its names; ``kind`` names it [text]."""

    def parse(value: object) -> object:
        if not isinstance(value, str) or not value.strip():
            raise Mend(f"not the name of a {kind}", f"Write the name of a {kind} in quotes.")
        if len(value) > 200:
            raise Mend("far too long for a name", f"Write the name of a {kind}.")
        try:
            return find(value)
        except NameFault as fault:
            raise name_mend(fault) from fault
        except InputError as error:
            raise Mend(str(error), f"Write the name of a {kind}.") from error

    return Reads(parse, f"name of a {kind}")


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
    listed = ", ".join(f"“{name}”" for name in fault.candidates)
    given = shown(fault.text)
    if fault.ambiguous:
        return Mend(f"“{given}” could be more than one {fault.kind}", f"Say which: {listed}.")
    if fault.candidates:
        return Mend(f"no {fault.kind} is called “{given}”", f"Nearest: {listed}.")
    return Mend(
        f"no {fault.kind} is called “{given}”, and nothing like it",
        "Write it as a soil test does: sand, sandy loam, loam, silt loam, clay loam, clay …"
        if fault.kind == "texture"
        else f"`loamshift {fault.kind}s` lists every name.",
    )


def list_of(item: Reads, *, what: str, longest: int, single: bool = True) -> Reads:
    """A list of values of one kind; a single value may stand without brackets."""

    def parse(value: object) -> tuple[object, ...]:
        if not isinstance(value, list):
            if not single:
                raise Mend(f"not a list of {what}", f"Write a list in square brackets of {what}.")
            value = [value]
        if len(value) > longest:
            raise Mend(f"a list of {len(value)}", f"Give at most {longest} {what}.")
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

    return Reads(parse, f"{item.kind}, or a list of them" if single else f"list: {item.kind}")


def texture_by_name(value: str) -> object:
    """The texture class of a name [text], by its tables."""
    from loamshift.tables.soils import load_textures

    textures = load_textures()
    return textures[match_name(value, {k: t.synonyms for k, t in textures.items()}, kind="texture")]


__all__ = [
    "DATE",
    "FLAG",
    "SKIP",
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
