"""The tables of an answer as columns, units in their names."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields
from types import MappingProxyType
from typing import Any, Final, Literal

from loamshift.domain.answer import Answer, Application, Finding, Forecast, Option
from loamshift.domain.message import Given, Listed, message
from loamshift.domain.worded_error import WordedError
from loamshift.report.messages import say
from loamshift.report.words import Words

Columns = dict[str, list[Any]]
TableName = Literal["forecast", "ledger", "plan", "options", "findings"]


def course_columns(forecast: Forecast) -> Columns:
    """The course of the pH by date: quantiles, and the middle of the bed left alone."""
    ph = forecast.ph
    return {
        "date": list(forecast.dates),
        "ph_q05": list(ph.q05),
        "ph_q25": list(ph.q25),
        "ph_q50": list(ph.q50),
        "ph_q75": list(ph.q75),
        "ph_q95": list(ph.q95),
        "left_alone_ph_q50": list(forecast.do_nothing.q50),
    }


def _forecast(answer: Answer, words: Words) -> Columns:
    return {} if answer.forecast is None else course_columns(answer.forecast)


def _ledger(answer: Answer, words: Words) -> Columns:
    lines = () if answer.ledger is None else answer.ledger.lines
    return {
        "line": [say(line.name, words) for line in lines],
        "acid_mmolc_m2_year": [line.value for line in lines],
    }


def _plan(answer: Answer, words: Words) -> Columns:
    return _rows(Application, answer.applications, words)


def _options(answer: Answer, words: Words) -> Columns:
    return _rows(Option, answer.options, words)


def _findings(answer: Answer, words: Words) -> Columns:
    return _rows(Finding, answer.findings, words)


TABLES: Final[Mapping[str, Callable[[Answer, Words], Columns]]] = MappingProxyType(
    {
        "forecast": _forecast,
        "ledger": _ledger,
        "plan": _plan,
        "options": _options,
        "findings": _findings,
    }
)
"""What makes each table."""


def columns_of(answer: Answer, table: str, words: Words) -> Columns:
    """One table of an answer.

    Parameters
    ----------
    answer
        The answer [object].
    table
        One of ``TABLES`` [text].
    words
        The reader [object].

    Returns
    -------
    dict
        Values by column [unit in the name].

    Raises
    ------
    InputError
        Where there is no such table, or the answer has none.
    """
    if table not in TABLES:
        names = Listed(tuple(Given(name) for name in TABLES), either=True)
        raise WordedError(message("python-no-such-table", given=Given(table), tables=names))
    found = TABLES[table](answer, words)
    if not any(found.values()):
        raise WordedError(message("python-table-is-empty", table=Given(table)))
    return found


def _rows(kind: type[Any], rows: tuple[Any, ...], words: Words) -> Columns:
    names = [one.name for one in fields(kind)]
    return {name: [_cell(name, row, words) for row in rows] for name in names}


_TEXTS: Final = ("only_if", "comment")


def _cell(name: str, row: Any, words: Words) -> Any:
    value = getattr(row, name)
    if name in _TEXTS and value is not None:
        return say(value, words)
    if isinstance(value, tuple):
        return ", ".join(map(str, value))
    if name in ("value", "limit") and value is not None:
        return str(value)  # a number in one row, a text in another
    return value.value if hasattr(value, "value") else value
