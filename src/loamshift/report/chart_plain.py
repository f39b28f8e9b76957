"""The course of the pH in characters, for a terminal: the same figure, a row for a step of pH."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.chart_drawing import number, rows_of

PLAIN_KINDS: Final = (FigureKind.DECIDES, FigureKind.COURSE)
"""Figures that can be drawn in characters."""

COURSE, BAND, ALONE, EDGE, PART, PERHAPS, TEST = "*", ":", "o", "-", "a", "?", "T"
"""What stands for the best estimate, its band, the bed untreated, an end of the range wanted, an
application, one that a test may ask for, and a test."""
_MOST_ROWS: Final = 16
_FEWEST_ROWS: Final = 8
_STEPS: Final = (0.1, 0.2, 0.25, 0.5, 1.0)
_MARGIN: Final = 6
"""Characters of the pH and the axis at the left."""
_WIDEST: Final = 76
_NARROWEST: Final = 24
_APART: Final = 2

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Grid:
    """Cells of the picture: days along, pH upward."""

    first: date
    days: int
    low: float
    step: float
    rows: list[list[str]]

    @property
    def columns(self) -> int:
        return len(self.rows[0])

    def column(self, day: str) -> int:
        share = (date.fromisoformat(day) - self.first).days / self.days
        return min(max(round(share * (self.columns - 1)), 0), self.columns - 1)

    def row(self, ph: float) -> int:
        """The row of a pH, the highest first."""
        return len(self.rows) - 1 - round((ph - self.low) / self.step)

    def put(self, column: int, row: int, sign: str) -> None:
        """A sign in a cell; two courses that share it take turns."""
        if 0 <= row < len(self.rows):
            taken = self.rows[row][column]
            if not (sign.isdigit() and taken.isdigit() and column % 2):
                self.rows[row][column] = sign


def plain_picture(figure: Figure, *, width: int) -> list[str]:
    """The course of the pH in characters.

    Returns
    -------
    list of str
        Lines no wider than that, with what each sign stands for below; none where there is no
        room for a picture.
    """
    columns = min(width, _WIDEST) - _MARGIN
    if columns < _NARROWEST:
        return []
    if not any(data.name == "course" and data.rows for data in figure.data):
        return []  # kept by another version, with other data
    grid = _grid(figure, columns)
    _background(grid, figure)
    alone, course, after = _courses(figure)
    _line(grid, alone, ALONE)
    _line(grid, course, COURSE)
    for sign, rows in after.items():
        _line(grid, rows, sign)
    labels = dict(figure.labels)
    lines = [f" {labels['axis']}"]
    for place, row in enumerate(grid.rows):
        ph = grid.low + grid.step * (len(grid.rows) - 1 - place)
        said = f"{ph:.1f}" if math.isclose(ph, round(ph, 1), abs_tol=1e-6) else ""
        lines.append(f"{said:>4} │{''.join(row)}".rstrip())
    lines.append(f"     └{'─' * grid.columns}")
    lines += [text for text in (_marks(grid, figure), _dates(grid, figure)) if text]
    return [*lines, *_key(figure, labels, width=min(width, _WIDEST))]


def _grid(figure: Figure, columns: int) -> _Grid:
    course = rows_of(figure, "course")
    first, last = str(course[0]["date"]), str(course[-1]["date"])
    if figure.kind is FigureKind.DECIDES:
        (span,) = rows_of(figure, "span")
        first, last = str(span["first"]), str(span["last"])
    values = [number(row[key]) for row in course for key in ("q05", "q95")]
    values += [number(value) for row in rows_of(figure, "wanted") for value in row.values()]
    alone, _, after = _courses(figure)
    values += [ph for _, ph in (*alone, *(point for rows in after.values() for point in rows))]
    low, high = min(values), max(values)
    step = next((s for s in _STEPS if (high - low) / s <= _MOST_ROWS - 2), _STEPS[-1])
    bottom, top = math.floor(low / step + 1e-6), math.ceil(high / step - 1e-6)
    while top - bottom + 1 < _FEWEST_ROWS:
        bottom, top = bottom - 1, top + 1
    start = date.fromisoformat(first)
    return _Grid(
        first=start,
        days=max((date.fromisoformat(last) - start).days, 1),
        low=bottom * step,
        step=step,
        rows=[[" "] * columns for _ in range(top - bottom + 1)],
    )


def _courses(
    figure: Figure,
) -> tuple[list[tuple[str, float]], list[tuple[str, float]], dict[str, list[tuple[str, float]]]]:
    """The bed untreated, the best estimate, and where each reading leads."""
    rows = rows_of(figure, "course")
    course = [(str(row["date"]), number(row["q50"])) for row in rows]
    after: dict[str, list[tuple[str, float]]] = {}
    if figure.kind is FigureKind.DECIDES:
        alone = [(str(row["date"]), number(row["ph"])) for row in rows_of(figure, "alone")]
        for row in rows_of(figure, "after"):
            point = str(row["date"]), number(row["ph"])
            after.setdefault(f"{number(row['line']):.0f}", []).append(point)
    else:
        alone = [
            (str(row["date"]), number(row["alone"])) for row in rows if row["alone"] is not None
        ]
    return alone, course, after


def _background(grid: _Grid, figure: Figure) -> None:
    """The band, and over it every other cell of the two ends of the range wanted."""
    last = -1
    for row in rows_of(figure, "course"):
        column = grid.column(str(row["date"]))
        top, foot = grid.row(number(row["q95"])), grid.row(number(row["q05"]))
        for filled in range(last + 1, column + 1):
            for at in range(top, foot + 1):
                grid.put(filled, at, BAND)
        last = max(last, column)
    for wanted in rows_of(figure, "wanted"):
        for end in wanted.values():
            for column in range(0, grid.columns, 2):
                grid.put(column, grid.row(number(end)), EDGE)


def _line(grid: _Grid, points: Sequence[tuple[str, float]], sign: str) -> None:
    """A course, joined from column to column."""
    before: tuple[int, int] | None = None
    for day, ph in points:
        column, row = grid.column(day), grid.row(ph)
        if before is not None and before[0] < column:
            for between in range(before[0] + 1, column):
                share = (between - before[0]) / (column - before[0])
                grid.put(between, round(before[1] + share * (row - before[1])), sign)
            way = 1 if row > before[1] else -1
            for at in range(before[1] + way, row, way):
                grid.put(column, at, sign)
        if before is None or before[0] < column:
            grid.put(column, row, sign)
            before = column, row


def _marks(grid: _Grid, figure: Figure) -> str:
    marks = [" "] * grid.columns
    for row in rows_of(figure, "parts"):
        marks[grid.column(str(row["date"]))] = PART if row["sure"] == "sure" else PERHAPS
    for day in _tests(figure):
        at = grid.column(day)
        if marks[at] != " ":
            at = max(at - 1, 0)
        marks[at] = TEST
    return f"{' ' * _MARGIN}{''.join(marks)}".rstrip()


def _tests(figure: Figure) -> Iterator[str]:
    names = ("tests", "decides") if figure.kind is FigureKind.DECIDES else ("tests",)
    for name in names:
        for row in rows_of(figure, name):
            yield str(row["date"])


def _dates(grid: _Grid, figure: Figure) -> str:
    """Dates under the axis, the most welcome first, each only where it has room."""
    line = [" "] * grid.columns
    for row in sorted(rows_of(figure, "calendar"), key=lambda row: number(row["rank"])):
        text, at = str(row["text"]), grid.column(str(row["date"]))
        around = line[max(at - _APART, 0) : at + len(text) + _APART]
        if at + len(text) <= grid.columns and not "".join(around).strip():
            line[at : at + len(text)] = text
    return f"{' ' * _MARGIN}{''.join(line)}".rstrip()


def _key(figure: Figure, labels: dict[str, str], *, width: int) -> list[str]:
    """What the signs stand for, those of this picture only."""
    alone, _, after = _courses(figure)
    parts = {row["sure"] == "sure" for row in rows_of(figure, "parts")}
    signs = [
        (COURSE, labels["plan"], True),
        (BAND, labels["band"], bool(labels["band"])),
        (ALONE, labels["alone"], bool(alone)),
        (EDGE, labels["wanted"], bool(rows_of(figure, "wanted"))),
        (PART, labels["part"], True in parts),
        (PERHAPS, labels["perhaps"], False in parts),
        (TEST, labels["test"], any(True for _ in _tests(figure))),
    ]
    kept = "\u00a0"
    told = [f"{sign}{kept}{text.replace(' ', kept)}" for sign, text, shown in signs if shown]
    room = width - 1
    lines: list[str] = []
    for one in told:
        if lines and len(lines[-1]) + len(one) + 3 <= room:
            lines[-1] += f"   {one}"
        else:
            lines.append(one)
    if after:
        for row in rows_of(figure, "lines"):
            lines.append(f"{number(row['line']):.0f}{kept}{row['reads']}: {row['then']}")
    return [
        f" {piece}"
        for line in lines
        for piece in textwrap.wrap(line.replace(kept, " "), room, subsequent_indent="  ")
    ]
