"""Rows that differ in figures only, judged from columns of figures."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING, Final

import numpy as np

from loamshift.case.table.row_case import case_of
from loamshift.services.many.static import COVERED, judge

if TYPE_CHECKING:
    from loamshift.core.loops import Loops
    from loamshift.services.many.outcome import Outcome

_PLAIN: Final = re.compile(r"\d{1,7}(\.\d{1,9})?")
"""A figure that means the same to every reader."""
FEWEST_ALIKE: Final = 2
"""Fewer rows that are alike are no columns [count]."""

Values = Mapping[str, object]


@dataclass(slots=True)
class _Alike:
    """Rows that say the same but for their figures."""

    places: list[int] = field(default_factory=list)
    figures: list[dict[str, float]] = field(default_factory=list)


def judge_alike(
    rows: Sequence[tuple[str, Values]], *, today: date, loops: Loops | None
) -> dict[int, Outcome]:
    """The outcomes of the rows that can be judged from columns, by their places.

    Parameters
    ----------
    rows
        Key and values of each row.
    today
        The day where a row names none.
    loops
        How the long sums are worked out; None for machine code.

    Returns
    -------
    dict
        What is not in it goes through the reader of case files.

    Notes
    -----
    Of rows with the same texts the first is read as a case, and the figures of the others are put
    in its place. A figure beyond what a case file takes, or one with a unit of its own, is none
    of these.
    """
    groups: dict[object, _Alike] = {}
    for place, (_, values) in enumerate(rows):
        figures = {path: figure for path in values if (figure := _figure(path, values)) is not None}
        texts = tuple(
            (path, repr(value))  # a cell of a Parquet file may hold anything
            for path, value in values.items()
            if path not in figures and path != "name"
        )
        alike = groups.setdefault((texts, tuple(figures)), _Alike())
        alike.places.append(place)
        alike.figures.append(figures)
    found: dict[int, Outcome] = {}
    for alike in groups.values():
        if len(alike.places) >= FEWEST_ALIKE and alike.figures[0]:
            found |= _judged(alike, rows, today, loops)
    return found


def _judged(
    alike: _Alike, rows: Sequence[tuple[str, Values]], today: date, loops: Loops | None
) -> dict[int, Outcome]:
    key, values = rows[alike.places[0]]
    try:
        bed = case_of(key, values, today=today)
        columns = {
            path: np.array([figures[path] for figures in alike.figures])
            for path in alike.figures[0]
        }
        keys = [rows[place][0] for place in alike.places]
        outcomes = judge(bed, columns, keys=keys, loops=loops).outcomes
    except Exception:  # each of them is then answered, or told of, by itself
        return {}
    return {
        place: outcome
        for place, outcome in zip(alike.places, outcomes, strict=True)
        if outcome is not None
    }


def _figure(path: str, values: Values) -> float | None:
    """The figure of a row that can stand in a column, in the unit of a bare number."""
    if path not in COVERED:
        return None
    value = values[path]
    if isinstance(value, str):
        return float(value) if _PLAIN.fullmatch(value) else None
    plain = isinstance(value, (int, float)) and not isinstance(value, bool)
    return float(value) if plain else None  # type: ignore[arg-type]
