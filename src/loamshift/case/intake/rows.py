"""The samples of a table as keys of the case file, and what is held back from them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache
from typing import Final

import numpy as np

from loamshift.case.intake.asked import name_of
from loamshift.case.intake.columns import Values
from loamshift.case.intake.days import DAY_KEYS, read_days
from loamshift.case.intake.depths import Depths, read_depths
from loamshift.case.intake.figures import NOTHING, Order, read_day
from loamshift.case.intake.headings import plain_words
from loamshift.case.intake.keys import BY_WORD, DAY, DEPTH, FIZZ, P_LEVEL, PH, PH_METHOD
from loamshift.case.intake.nutrients import levels
from loamshift.case.intake.proposal import Finding, Place, SampleRow
from loamshift.case.intake.table import Table
from loamshift.case.intake.understood import Understood
from loamshift.case.mend import Mend, shown
from loamshift.case.questions import questions_by_path
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, Message, message

MOST_PLACES: Final = 5
KEEP: Final = "keep"
DEPTH_KEY: Final = "samples: depth"
DAY_KEY: Final = "samples: date"
LEAVE_OUT: Final = "leave out"
_PH_USUAL: Final = {"CaCl2": (3.0, 8.5), "KCl": (3.0, 8.5), "unknown": (3.0, 9.5)}
_PH_USUAL_IN_WATER: Final = (3.5, 9.5)
"""Outside of this a pH is asked about (common practice, no source)."""
_LONGEST_NAME: Final = 150


@dataclass(slots=True)
class Filled:
    """The samples of a table while they are put together: values by path, one to a sample."""

    table: Table
    names: list[str]
    columns: tuple[Understood, ...]
    values: dict[str, list[object]] = field(default_factory=dict)
    limits: dict[int, dict[str, str]] = field(default_factory=dict)
    doubted: dict[int, dict[str, str]] = field(default_factory=dict)
    days: dict[str, list[date | None]] = field(default_factory=dict)
    depths: Depths | None = None
    findings: list[Finding] = field(default_factory=list)
    left_out: set[int] = field(default_factory=set)
    """Samples of which nothing enters: doubles, until somebody says which one is right."""

    def figures(self, key: str) -> Values | None:
        """The figures of the first column of a meaning, in the unit of the case file."""
        return next((c.scaled for c in self.columns if c.key == key and c.meaning.sure), None)

    def column(self, key: str) -> Understood | None:
        """The first column of a meaning that is sure."""
        return next((c for c in self.columns if c.key == key and c.meaning.sure), None)

    def hold(self, path: str, place: int, text: str) -> None:
        """Keep a cell out of the case, and by the side."""
        self.doubted.setdefault(place, {})[path] = text

    def take_out(self, path: str, place: int) -> None:
        """Hold a value back that was taken already."""
        value = self.values[path][place]
        if value is not None:
            self.hold(path, place, str(value))
            self.values[path][place] = None

    def places(self, found: Sequence[int], letters: str = "") -> tuple[Place, ...]:
        """The first rows of those at these places."""
        return tuple(
            Place(sheet=self.table.sheet, row=self.table.rows[n], column=letters)
            for n in found[:MOST_PLACES]
        )


def fill(
    table: Table, columns: tuple[Understood, ...], told: Mapping[str, str], order: Order | None
) -> Filled:
    """Everything that the sure columns of a table say, by keys of the case file."""
    filled = Filled(table=table, names=_names(table, columns), columns=columns)
    _fill_ph(filled, told)
    for one in columns:
        path = one.meaning.path
        if not one.meaning.sure or not path:
            continue
        if one.key in BY_WORD:
            _fill_words(filled, one, path)
        elif path == P_LEVEL:
            _fill_levels(filled, one)
        elif one.quantity is not None and one.key not in ("ph", "depth_to", "depth_from"):
            _fill_figures(filled, one, path, told)
        method_path = one.quantity.method_path if one.quantity is not None else ""
        if method_path and one.key != "ph" and one.meaning.method:
            _fill_method(filled, path, method_path, one.meaning.method)
    for one in columns:
        if one.key in DAY_KEYS and one.meaning.sure and one.key not in filled.days:
            filled.days[one.key], findings = read_days(table, one.column, order)
            filled.findings += findings
    if "date_sampled" in filled.days:
        filled.values[DAY] = list(filled.days["date_sampled"])
    filled.depths, findings = read_depths(table, columns, told)
    filled.findings += findings
    _fill_depth(filled)
    _fill_told(filled, told)
    return filled


def _fill_told(filled: Filled, told: Mapping[str, str]) -> None:
    """A depth and a day that a person gave for all samples that have none of their own."""
    for key, path in ((DEPTH_KEY, DEPTH), (DAY_KEY, DAY)):
        if key not in told:
            continue
        value: object = told[key]
        if path == DAY:
            value = read_day(told[key], Order.DAY_FIRST)
        own = filled.values.get(path, [None] * len(filled.table))
        held = filled.doubted
        filled.values[path] = [
            value if one is None and path not in held.get(n, ()) else one
            for n, one in enumerate(own)
        ]


def rows_of(filled: Filled) -> tuple[SampleRow, ...]:
    """The samples as rows; the name stands first."""
    paths = list(filled.values)
    held = [filled.values[path] for path in paths]
    sheet = filled.table.sheet
    out = filled.left_out
    return tuple(
        SampleRow(
            place=Place(sheet=sheet, row=row),
            sample=filled.names[n],
            values={
                "name": filled.names[n],
                **{
                    path: column[n]
                    for path, column in zip(paths, held, strict=True)
                    if column[n] is not None and n not in out
                },
            },
            limits=filled.limits.get(n, {}),
            doubted=filled.doubted.get(n, {}),
        )
        for n, row in enumerate(filled.table.rows)
    )


def _names(table: Table, columns: Sequence[Understood]) -> list[str]:
    """What each sample is called: all its names, else its laboratory number, else its row."""
    told = [c for c in columns if c.key == "sample" and any(c.column.cells)]
    numbers = [c for c in columns if c.key == "lab_number" and any(c.column.cells)]
    names = []
    for n, row in enumerate(table.rows):
        parts = [c.column.cells[n] for c in told if c.column.cells[n]]
        parts = [part for k, part in enumerate(parts) if part not in parts[:k]]
        parts = parts or [c.column.cells[n] for c in numbers if c.column.cells[n]]
        names.append(", ".join(parts)[:_LONGEST_NAME] or f"{table.sheet} {row}"[:_LONGEST_NAME])
    return names


def _fill_ph(filled: Filled, told: Mapping[str, str]) -> None:
    """The pH: in water first where there are several, the others beside it."""
    columns = [c for c in filled.columns if c.key == "ph" and c.meaning.sure]
    ranked = sorted(columns, key=_rank)
    for number, one in enumerate(ranked):
        path = PH if number == 0 else f"soil.other_ph[{number}].ph"
        _fill_figures(filled, one, path, told)
        _fill_method(filled, path, f"{path}_method", one.meaning.method or "unknown")
        methods = filled.column("method")
        if one.meaning.method == "unknown" and methods is not None:
            _fill_methods_by_row(filled, path, methods)
    if len(ranked) > 1:
        _promote(filled, len(ranked))


def _promote(filled: Filled, count: int) -> None:
    """Where a sample has no first pH, its next one takes that place."""
    paths = [PH, *(f"soil.other_ph[{n}].ph" for n in range(1, count))]
    for n in range(len(filled.table)):
        found = [
            (filled.values[path][n], filled.values[f"{path}_method"][n])
            for path in paths
            if filled.values[path][n] is not None
        ]
        if len(found) == count:
            continue
        for number, path in enumerate(paths):
            value, method = found[number] if number < len(found) else (None, None)
            filled.values[path][n], filled.values[f"{path}_method"][n] = value, method


def _rank(one: Understood) -> int:
    """Laboratory pH in water before salt, a probe last."""
    method = one.meaning.method
    if method.startswith("water"):
        return 0
    return {"paste": 1, "unknown": 2, "CaCl2": 3, "KCl": 4}.get(method, 5)


def _fill_method(filled: Filled, path: str, method_path: str, method: str) -> None:
    filled.values[method_path] = [
        method if value is not None else None for value in filled.values[path]
    ]


def _fill_methods_by_row(filled: Filled, path: str, methods: Understood) -> None:
    """Methods from a column of their own; a word that is none leaves the method unknown."""
    parse = questions_by_path()[PH_METHOD].reads.parse
    unknown: list[int] = []
    for n, cell in enumerate(methods.column.cells):
        if not cell or filled.values[path][n] is None:
            continue
        if _word(parse, cell) is None:
            unknown.append(n)
            filled.hold(f"{path}_method", n, cell)
        else:
            filled.values[f"{path}_method"][n] = str(parse(cell))
    if unknown:
        filled.findings.append(_held(filled, methods, "word-unknown", unknown))


def _fill_figures(filled: Filled, one: Understood, path: str, told: Mapping[str, str]) -> None:
    quantity = one.quantity
    assert quantity is not None and one.scaled is not None
    cells, scaled = one.column.cells, one.scaled
    low, high = quantity.low, quantity.high
    given = np.isfinite(scaled)
    impossible = given & ((scaled < low) | (scaled > high))
    held = impossible.copy()
    if one.key == "ph":
        low, high = _PH_USUAL.get(one.meaning.method, _PH_USUAL_IN_WATER)
        unusual = given & ~impossible & ((scaled < low) | (scaled > high))
        held |= _unusual(filled, one, unusual, told)
    rounded = np.round(scaled, 6).tolist()
    keep = (given & ~held).tolist()
    unit = quantity.written
    filled.values[path] = [
        (f"{v:g} {unit}" if unit else v) if k else None for v, k in zip(rounded, keep, strict=True)
    ]
    for n in np.flatnonzero(held).tolist():
        filled.hold(path, n, cells[n])
    if impossible.any():
        where = np.flatnonzero(impossible).tolist()
        filled.findings.append(_held(filled, one, "value-impossible", where))
    for n, text in one.read.limits.items():
        filled.limits.setdefault(n, {})[path] = text
    for code, cells_of in (("value-word", one.read.words), ("value-day", one.read.days)):
        if cells_of:
            for n, text in cells_of.items():
                filled.hold(path, n, text)
            filled.findings.append(_held(filled, one, code, list(cells_of)))
    open_unit = np.isfinite(one.read.values) & ~given
    for n in np.flatnonzero(open_unit).tolist():
        filled.hold(path, n, cells[n])


def _unusual(
    filled: Filled, one: Understood, found: np.ndarray, told: Mapping[str, str]
) -> np.ndarray:
    """Which of the unusual figures are held back: all until somebody says that they are right."""
    if not found.any():
        return found
    key = f"{one.meaning.heading}: outside"
    answer = told.get(f"{plain_words(one.meaning.heading)}: outside")
    where = np.flatnonzero(found).tolist()
    finding = _held(filled, one, "ph-outside", where)
    if answer is None:
        finding = Finding(
            code=finding.code,
            severity=finding.severity,
            said=finding.said,
            question=message("intake-ask-outside", heading=Given(one.meaning.heading)),
            key=key,
            choices=(KEEP, LEAVE_OUT),
            places=finding.places,
            count=finding.count,
        )
    filled.findings.append(finding)
    return np.zeros_like(found) if answer == KEEP else found


def _held(filled: Filled, one: Understood, code: str, where: Sequence[int]) -> Finding:
    return Finding(
        code=code,
        severity=Severity.CAUTION,
        said=Message(
            f"intake-{code}",
            {
                "heading": Given(one.meaning.heading),
                "taken": name_of(one.key),
                "given": Given(shown(one.column.cells[where[0]])),
                "count": len(where),
            },
        ),
        places=filled.places(where, one.column.letters),
        count=len(where),
    )


def _fill_words(filled: Filled, one: Understood, path: str) -> None:
    """Words, such as a texture or a crop: taken as written where the case file knows the word."""
    values: list[object] = []
    unknown: list[int] = []
    parse = questions_by_path()[path].reads.parse
    for n, cell in enumerate(one.column.cells):
        if not cell or cell.casefold() in (NOTHING - {"none"} if path == FIZZ else NOTHING):
            values.append(None)
        elif (taken := _word(parse, cell)) is not None:
            values.append(taken)
        else:
            values.append(None)
            unknown.append(n)
            filled.hold(path, n, cell)
    filled.values[path] = values
    if unknown:
        finding = _held(filled, one, "word-unknown", unknown)
        filled.findings.append(finding)


def _fill_levels(filled: Filled, one: Understood) -> None:
    """Levels of phosphorus; a cell that is none is held back."""
    filled.values[P_LEVEL] = values = list[object](levels(one))
    cells = enumerate(one.column.cells)
    unknown = [n for n, cell in cells if cell and cell not in NOTHING and values[n] is None]
    for n in unknown:
        filled.hold(P_LEVEL, n, one.column.cells[n])
    if unknown:
        filled.findings.append(_held(filled, one, "word-unknown", unknown))


@lru_cache(maxsize=4_096)
def _word(parse: Callable[[object], object], cell: str) -> str | None:
    try:
        parse(cell)
    except (Mend, ValueError):
        return None
    return cell


def _fill_depth(filled: Filled) -> None:
    depths = filled.depths
    if depths is None:
        return
    below = [n for n, upper in enumerate(depths.upper_cm) if np.isfinite(upper) and upper > 0.5]
    deep = set(below)
    values: list[object] = []
    for n, lower in enumerate(depths.lower_cm.tolist()):
        fine = np.isfinite(lower) and 0.0 < lower <= 100.0 and n not in deep
        values.append(f"{lower:.4g} cm" if fine else None)
    filled.values[DEPTH] = values
    if below:
        upper, lower = depths.upper_cm[below[0]], depths.lower_cm[below[0]]
        filled.findings.append(
            Finding(
                code="subsoil",
                severity=Severity.CAUTION,
                said=message(
                    "intake-subsoil",
                    given=Given(f"{upper:.3g}–{lower:.3g} cm"),
                    count=len(below),
                ),
                places=filled.places(below),
                count=len(below),
            )
        )
        for n in below:
            filled.hold(DEPTH, n, f"{depths.upper_cm[n]:.3g}-{depths.lower_cm[n]:.3g} cm")
