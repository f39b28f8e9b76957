"""A column of cells as figures: values, limits, words, and what a unit makes of them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

import numpy as np
import numpy.typing as npt

from loamshift.case.intake.figures import NOTHING, Commas, Figure, read_figure
from loamshift.case.intake.lab_units import unit_of

Values = npt.NDArray[np.float64]
_DAY: Final = re.compile(r"\d{4}-\d{2}-\d{2}(?: .*)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """The cells of one column.

    ``values`` as printed, not a number where a cell has none; ``limits`` are cells that gave a
    limit, ``words`` those with neither figure nor dash, ``days`` those a spreadsheet turned into a
    day, ``units`` the unit of cells that name one, each by its place from 0.
    """

    values: Values
    limits: Mapping[int, str] = field(default_factory=dict)
    words: Mapping[int, str] = field(default_factory=dict)
    days: Mapping[int, str] = field(default_factory=dict)
    units: Mapping[int, str] = field(default_factory=dict)

    @property
    def figures(self) -> Values:
        """The figures alone."""
        return self.values[np.isfinite(self.values)]

    @property
    def is_numeric(self) -> bool:
        """Whether most cells that hold anything hold a figure."""
        held = len(self.figures) + len(self.limits) + len(self.words) + len(self.days)
        return held > 0 and (len(self.figures) + len(self.limits)) * 2 > held


def read_cells(cells: Sequence[str], commas: Commas | None, *, typed: bool = False) -> Read:
    """The figures of a column; equal cells are read once.

    Parameters
    ----------
    typed
        Whether days in it are a spreadsheet's own.
    """
    values = np.full(len(cells), np.nan)
    limits: dict[int, str] = {}
    words: dict[int, str] = {}
    days: dict[int, str] = {}
    units: dict[int, str] = {}
    known: dict[str, Figure | None] = {}
    for place, cell in enumerate(cells):
        try:
            values[place] = float(cell)
            continue
        except ValueError:
            pass
        if not cell or cell.casefold() in NOTHING:
            continue
        if cell not in known:
            known[cell] = read_figure(cell, commas)
        figure = known[cell]
        if figure is None:
            (days if typed and _DAY.fullmatch(cell) else words)[place] = cell
        elif figure.limit:
            limits[place] = cell
        elif figure.rest and not (unit := unit_of(figure.rest.strip("()[]"))):
            if len(figure.rest) > 3:
                words[place] = cell
            else:
                values[place] = figure.value
        else:
            values[place] = figure.value
            if figure.rest:
                units[place] = unit
    values[~np.isfinite(values)] = np.nan
    values[np.abs(values) > 1e12] = np.nan
    return Read(values=values, limits=limits, words=words, days=days, units=units)


def unread(cells: Sequence[str]) -> Read:
    """A column whose cells are no figures, such as names and days."""
    return Read(values=np.full(len(cells), np.nan))
