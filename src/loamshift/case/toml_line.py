"""What is wrong with a line that is no TOML, and the line that would be read in its place."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator, Sequence
from typing import Final

from loamshift.case.case_key import row_of
from loamshift.case.dates import date_from_typed, year_month_day
from loamshift.case.mend import Mend, quoted, shown
from loamshift.case.reads import Reads
from loamshift.case.schema import tables
from loamshift.case.toml_string import toml_string
from loamshift.domain.message import Given, Message, message

_HEADER: Final = re.compile(r"\s*\[{1,2}\s*([^\[\]]+?)\s*\]{1,2}\s*(?:#.*)?")
_DATE: Final = re.compile(r"\d{4}-\d{1,2}-\d{1,2}\b")
_DECIMAL_COMMA: Final = re.compile(r"[+-]?\d+,\d+")
_STRING_TROUBLE: Final = ("Unescaped '\\'", "Illegal character", "Unterminated string")
_QUOTES: Final = "\"'“”„‘’`«»"


def line_mend(reported: str, written: str, *, before: Sequence[str] = ()) -> Mend:
    """What is wrong with a line, and what is read in its place.

    Parameters
    ----------
    reported
        What the reader of TOML says, without the place.

    Returns
    -------
    Mend
        Problem, and a line that is read where one can be made of it.
    """
    twice = re.match(r"Cannot declare \((.*?),?\) twice", reported)
    if twice:
        name = Given(twice[1].replace("', '", ".").strip("'"))
        return Mend(message("toml-table-twice", name=name), message("toml-one-table", name=name))
    key, equals, value = written.partition("=")
    key, value = key.strip(), _without_comment(value)
    if reported.startswith(("Cannot overwrite a value", "Duplicate inline table key")):
        return Mend(message("case-key-twice", name=quoted(key)), message("case-keep-one"))
    if reported.startswith(("Cannot mutate immutable namespace", "Cannot redefine namespace")):
        return Mend(message("toml-opened-two-ways"), message("toml-one-header-each"))
    if not equals:
        return Mend(message("toml-not-key-value", given=quoted(written)), _any_line(before))
    wrong, values = _reading(reported, value)
    line = _line_that_is_read(key, values, before)
    if line is None:
        return Mend(wrong, message("toml-key-value"))
    if wrong.key == "case-not-a-date" and date_from_typed(value) is None:
        said = year_month_day(value)
        return Mend(
            wrong, message(said.key, key=Given(f"{key} = "), example=said.values["example"])
        )
    if wrong.key == "case-not-a-date":
        return Mend(wrong, message("case-year-first", key=Given(""), example=Given(line)))
    return Mend(wrong, message("case-example", key=Given(""), example=Given(line), more=None))


def _reading(reported: str, value: str) -> tuple[Message, Iterator[str]]:
    """What is wrong with the value of a line, and values that may have been meant."""
    given = quoted(value)
    bare = value.strip(_QUOTES).strip()
    if value.startswith("="):
        meant = value.lstrip("= ")
        return message("toml-two-equals-signs"), iter((meant, toml_string(meant)))
    if _DATE.match(value):
        return message("case-no-such-day", given=given), iter(())
    if date_from_typed(value) is not None or re.fullmatch(
        r"\d{1,4}[./-]\d{1,2}[./-]\d{1,4}", value
    ):
        day = date_from_typed(value)
        return message("case-not-a-date", given=given), iter((day.isoformat(),) if day else ())
    if not value:
        return message("toml-no-value"), iter(())
    if reported.startswith(_STRING_TROUBLE) or value[0] in _QUOTES:
        return message("toml-text-not-closed"), iter((toml_string(bare), bare))
    if value[0] in "[{":
        return message("toml-list-not-closed"), iter(())
    if _DECIMAL_COMMA.fullmatch(value):
        return message("toml-decimal-comma", given=given), iter((value.replace(",", "."),))
    if reported.startswith(("Invalid value", "Expected newline or end", "Invalid")):
        return message("toml-quotes-missing"), iter((toml_string(value), bare))
    return message("toml-not-toml", why=quoted(reported)), iter((toml_string(bare),))


def _line_that_is_read(key: str, values: Iterator[str], before: Sequence[str]) -> str | None:
    """The first of these values that the key takes, or else its example; None for no key."""
    reads, example = _key_of(key, before)
    for value in values:
        line = f"{key} = {value}"
        try:
            ((_, got),) = tomllib.loads(line).items()
        except ValueError:
            continue
        if reads is None or _is_taken(reads.parse, got):
            return line if line == shown(line) else None
    if reads is None or example is None:
        return None
    return f"{key} = {example}"


def _is_taken(parse: Callable[[object], object], value: object) -> bool:
    try:
        parse(value)
    except Mend:
        return False
    return True


def _key_of(key: str, before: Sequence[str]) -> tuple[Reads | None, str | None]:
    """How a key of the table that is open is read, and its example."""
    table = tables().get(_open_table(before))
    field = table.model_fields.get(key) if table else None
    row = row_of(field) if field else None
    return (row.reads, row.example) if row else (None, None)


def _open_table(before: Sequence[str]) -> str:
    for line in reversed(before):
        found = _HEADER.fullmatch(line)
        if found:
            return found[1].replace('"', "")
    return ""


def _any_line(before: Sequence[str]) -> Message:
    """A line of the table that is open, for one that is none."""
    table = tables().get(_open_table(before))
    for key, field in table.model_fields.items() if table else ():
        row = row_of(field)
        if row is not None:
            line = Given(f"{key} = {row.example}")
            return message("toml-key-value-such-as", line=line)
    return message("toml-key-value")


def _without_comment(value: str) -> str:
    """What stands behind the equals sign, without a comment."""
    if value.lstrip()[:1] in ('"', "'"):
        return value.strip()
    return value.split("#")[0].strip()
