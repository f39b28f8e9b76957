"""Beds that differ in figures only: one case, columns of figures, and a judgement of each row.

What the rows share (place, plants, day, material, method of the pH) is a case that was read and
checked once; so a field of pixels, or a laboratory's samples of one kind, need no reader by row.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.loops import Loops
from loamshift.domain.case import Case
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.errors import InputError
from loamshift.services.many.outcome import Outcome
from loamshift.services.many.row import outcome_of_bed

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

COVERED: Final[Mapping[str, tuple[float, float]]] = {
    "soil.ph": (2.0, 11.0),
    "soil.sand_pct": (0.0, 100.0),
    "soil.silt_pct": (0.0, 100.0),
    "soil.clay_pct": (0.0, 100.0),
    "soil.organic_matter_pct": (0.0, 60.0),
    "soil.organic_carbon_pct": (0.0, 35.0),
    "soil.carbonate_pct": (0.0, 80.0),
    "soil.buffer_ph": (3.0, 9.0),
    "bed.area": (0.01, 1e6),
    "bed.depth": (1.0, 100.0),
    "aim.target_ph": (3.0, 9.0),
    "water.alkalinity": (0.0, 1000.0),
}
"""Figures that may stand in a column, by path of the case file, and between what a row is judged
here: pH, per cent, m2, cm and mg/L as CaCO3. What lies outside is for the reader of case files,
which says what is wrong with it."""
LEAST_OF_THREE_PCT: Final = 97.0
"""Sand, silt and clay that come to less are no texture; the reader of case files says so [%]."""
_SHARES: Final = ("soil.sand_pct", "soil.silt_pct", "soil.clay_pct")
_ORGANIC: Final = ("soil.organic_matter_pct", "soil.organic_carbon_pct")
_FIELDS: Final[Mapping[str, tuple[str, str]]] = {
    "bed.area": ("bed", "area_m2"),
    "bed.depth": ("bed", "depth_cm"),
    "aim.target_ph": ("aim", "target_ph"),
    "water.alkalinity": ("water", "alkalinity_mg_l_as_caco3"),
}
"""Table and field of a figure whose field is not called as its path ends."""


@dataclass(frozen=True, slots=True)
class Judged:
    """Rows judged: ``outcomes`` in the order of the rows, None where ``covered`` is false."""

    outcomes: tuple[Outcome | None, ...]
    covered: BoolArray

    def column(self, name: str) -> NDArray[Any]:
        """One field of every outcome.

        Parameters
        ----------
        name
            A field of ``Outcome``.

        Returns
        -------
        ndarray
            Figures with NaN, days with NaT, words with an empty text where there is none; codes
            joined by a semicolon [unit of the field].
        """
        values = [None if one is None else getattr(one, name) for one in self.outcomes]
        known = next((value for value in values if value not in (None, ())), None)
        if isinstance(known, date):
            return np.array(values, dtype="datetime64[D]")
        if isinstance(known, tuple):
            return np.array(["; ".join(value or ()) for value in values])
        if isinstance(known, str):
            return np.array(["" if value is None else str(value) for value in values])
        return np.array([np.nan if value in (None, ()) else value for value in values], dtype=float)


def judge(
    bed: Case,
    columns: Mapping[str, FloatArray],
    *,
    keys: Sequence[str] = (),
    loops: Loops | None = None,
) -> Judged:
    """The outcome of every row without a forecast, as ``advise`` would answer it.

    Parameters
    ----------
    bed
        What all rows share; a figure of it holds where no column names it.
    columns
        Figures by path of the case file, one a row; NaN where nobody told one. Units are those
        of bare numbers in a case file [as in ``COVERED``].
    keys
        What tells each row from the others; none for its number.
    loops
        How the long sums are worked out; None for machine code.

    Raises
    ------
    InputError
        For a path that cannot stand in a column, or columns of unequal length.
    """
    if strangers := sorted(set(columns) - set(COVERED)):
        raise InputError(f"no column of {', '.join(strangers)}; one of {', '.join(COVERED)}")
    if len({len(column) for column in columns.values()}) != 1:
        raise InputError("columns must be of one length, and there must be one or more")
    if loops is None:
        from loamshift.core.many_loops import COMPILED  # loads the compiler

        loops = COMPILED
    covered = covered_rows(bed, columns)
    names = list(columns)
    figures = [np.asarray(column, dtype=float).tolist() for column in columns.values()]
    outcomes = tuple(
        outcome_of_bed(
            bed_of_row(bed, dict(zip(names, row, strict=True))),
            key=keys[number] if keys else str(number),
            loops=loops,
        )
        if covered[number]
        else None
        for number, row in enumerate(zip(*figures, strict=True))
    )
    return Judged(outcomes=outcomes, covered=covered)


def covered_rows(bed: Case, columns: Mapping[str, FloatArray]) -> BoolArray:
    """Which rows can be judged here, all figures of theirs being plain ones.

    Parameters
    ----------
    bed
        What all rows share.
    columns
        Figures by path of the case file [as in ``COVERED``].

    Returns
    -------
    ndarray
        False for the others, which go through the reader of case files, shape (n,).
    """
    arrays = {path: np.asarray(column, dtype=float) for path, column in columns.items()}
    count = len(next(iter(arrays.values())))
    fits = np.ones(count, dtype=np.bool_)
    for path, column in arrays.items():
        low, high = COVERED[path]
        fits &= np.isnan(column) | ((column >= low) & (column <= high))
    shares = [_filled(bed, path, arrays, count) for path in _SHARES]
    if "bed.area" in arrays and _holds_rates(bed):
        fits &= arrays["bed.area"] == bed.bed.area_m2
    whole = np.sum(shares, axis=0)  # NaN where one of the three is not told
    fits &= (np.nansum(shares, axis=0) <= 100.0) & ~(whole < LEAST_OF_THREE_PCT)
    told = [~np.isnan(_filled(bed, path, arrays, count)) for path in _ORGANIC]
    fits &= ~(told[0] & told[1])
    return np.asarray(fits, dtype=np.bool_)


def _holds_rates(bed: Case) -> bool:
    """Whether amounts for a whole bed may stand in what is shared, as rates of its own area."""
    fed = bed.feed is not None and bed.feed.rate_g_m2 is not None
    return fed or bool(bed.applied or bed.claims) or bed.water.weekly_mm is not None


def bed_of_row(bed: Case, figures: Mapping[str, float]) -> Case:
    """The case of one row.

    Parameters
    ----------
    bed
        What all rows share.
    figures
        Those of the row by path, NaN where nobody told one [as in ``COVERED``].
    """
    changes: dict[str, dict[str, Any]] = {}
    for path, figure in figures.items():
        table, name = _field_of(path)
        told = None if figure != figure else figure
        if path == "soil.ph":
            changes.setdefault(table, {})[name] = _reading(bed.soil.ph, told)
        else:
            changes.setdefault(table, {})[name] = told
    made: dict[str, Any] = {
        table: replace(getattr(bed, table), **values) for table, values in changes.items()
    }
    if "water.alkalinity" in figures:
        others = tuple(path for path in bed.without_unit if path != "water.alkalinity")
        bare = figures["water.alkalinity"] == figures["water.alkalinity"]
        made["without_unit"] = ("water.alkalinity", *others) if bare else others
    change: Callable[..., Case] = replace
    return change(bed, **made)


def _reading(shared: PhReading | None, ph: float | None) -> PhReading | None:
    if ph is None:
        return None
    if shared is None:
        return PhReading(ph=ph, method=PhMethod.UNKNOWN)
    return replace(shared, ph=ph)


def _field_of(path: str) -> tuple[str, str]:
    table, _, name = path.partition(".")
    return _FIELDS.get(path, (table, name))


def _filled(bed: Case, path: str, arrays: Mapping[str, FloatArray], count: int) -> FloatArray:
    """A figure of every row, from its column or from what all share."""
    if path in arrays:
        return arrays[path]
    table, name = _field_of(path)
    shared = getattr(getattr(bed, table), name)
    return np.full(count, np.nan if shared is None else shared)
