"""Figures that look like a slip of the unit: asked about, never refused.

One rule reads one table: a figure outside the usual range of its key is named, with every other
unit that would bring it into that range.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from loamshift.domain.answer import Finding, Severity
from loamshift.domain.case import BedKind, Case, Units
from loamshift.domain.entry_range import EntryDoubt, EntryRange, Gather, Side
from loamshift.domain.soil import Medium
from loamshift.services.cautions.target_checks import finding_row
from loamshift.services.format import format_amount, format_rate
from loamshift.tables.entry_ranges import load_entry_ranges
from loamshift.units import INCH_CM, SQUARE_FOOT_M2, f_from_c

CHECK = "unit of "
"""Every row's check begins with it; the path of the case file follows."""
OWN_CLIMATE = "case-file"
ORGANIC_MATTER = "soil.organic_matter_pct"
EACH_ENTRY = "[]"


def entry_doubts(case: Case) -> tuple[EntryDoubt, ...]:
    """Every figure of a case that lies outside what its key usually holds.

    Parameters
    ----------
    case
        The case as read [object].

    Returns
    -------
    tuple of EntryDoubt
        In the order of the case file [rows].
    """
    return tuple(
        doubt
        for row in load_entry_ranges()
        if WHEN[row.when](case)
        for path, given in _figures(case, row)
        if (doubt := _doubt(row, path, given=given)) is not None
    )


def doubtful_paths(case: Case) -> frozenset[str]:
    """Paths of the case file whose figure is asked about.

    Parameters
    ----------
    case
        The case as read [object].

    Returns
    -------
    frozenset of str
        Such as ``soil.clay_pct`` or ``applied[2]`` [text].
    """
    return frozenset(doubt.path for doubt in entry_doubts(case))


def entry_doubt_findings(case: Case) -> tuple[Finding, ...]:
    """A question for every doubtful figure.

    Parameters
    ----------
    case
        The case as read [object].

    Returns
    -------
    tuple of Finding
        One row a figure, all of severity caution [unit of the row].
    """
    return tuple(_question(doubt, case.units) for doubt in entry_doubts(case))


def _doubt(row: EntryRange, path: str, *, given: float) -> EntryDoubt | None:
    if row.low <= given <= row.high or (given == 0.0 and row.zero_is_usual):
        return None
    side = Side.LOW if given < row.low else Side.HIGH
    meant = (
        (slip.meant, (given - slip.offset) * slip.factor) for slip in row.slips if slip.side is side
    )
    return EntryDoubt(
        path=path,
        given=given,
        side=side,
        meant=tuple((unit, value) for unit, value in meant if row.low <= value <= row.high),
        range=row,
    )


def _question(doubt: EntryDoubt, units: Units) -> Finding:
    row, low = doubt.range, doubt.side is Side.LOW
    given = _with_unit(doubt.given, row.unit, units)
    which = f" ({doubt.path})" if "[" in doubt.path else ""
    said = f"{row.phrase} of {given}{which} is unusually {doubt.side.value}."
    if doubt.meant:
        readings = "; ".join(
            f"{'if it was meant in' if place == 0 else 'in'} {unit}, it is "
            f"{_with_unit(value, row.unit, units)}"
            if unit != "a fraction"
            else f"if it was meant as a fraction, it is {_with_unit(value, row.unit, units)}"
            for place, (unit, value) in enumerate(doubt.meant)
        )
        asked = f"Was another unit meant? {readings[0].upper()}{readings[1:]}."
    else:
        asked = row.hint or "Is the figure right?"
    return finding_row(
        f"{CHECK}{doubt.path}",
        value=float(f"{doubt.given:.4g}"),
        operator=">=" if low else "<=",
        limit=row.low if low else row.high,
        unit=row.unit,
        passed=False,
        severity=Severity.CAUTION,
        comment=f"{said} {asked} Until it is corrected, {given} is used.",
        source_key=row.source_key,
    )


def _with_unit(value: float, unit: str, units: Units) -> str:
    """A figure as this reader says it."""
    us = units is Units.US
    if unit == "g/m2":
        return format_rate(value, units)
    if unit == "g":
        return format_amount(value, units)
    if unit == "m2":
        return f"{_figure(value / SQUARE_FOOT_M2)} ft²" if us else f"{_figure(value)} m²"
    if us and unit.split(" ")[0] in ("cm", "mm"):
        inches = value / INCH_CM * (0.1 if unit.startswith("mm") else 1.0)
        return f"{_figure(inches)} in{unit[2:]}"
    if us and unit == "°C":
        return f"{f_from_c(value):.0f} °F"
    return f"{_figure(value)} {unit}"


def _figure(value: float) -> str:
    """Two digits where nobody can be surer, all before the point where there are more."""
    return f"{value:,.0f}" if abs(value) >= 100.0 else f"{value:.2g}"


def _figures(case: Case, row: EntryRange) -> Iterator[tuple[str, float]]:
    found = list(_walk(case, row.attribute.split("."), row.path))
    if row.gather is Gather.EACH or not found:
        yield from found
        return
    total = sum(figure for _, figure in found)
    yield row.path, total if row.gather is Gather.SUM else total / len(found)


def _walk(thing: object, names: list[str], path: str) -> Iterator[tuple[str, float]]:
    """The figures at the end of an attribute, each with its path in the case file."""
    if thing is None:
        return
    if not names:
        if isinstance(thing, (int, float)):
            yield path, float(thing)
        return
    name, rest = names[0], names[1:]
    if name != EACH_ENTRY:
        inner = thing[int(name)] if isinstance(thing, tuple) else getattr(thing, name)
        yield from _walk(inner, rest, path)
        return
    assert isinstance(thing, tuple)
    for number, part in enumerate(thing, start=1):
        yield from _walk(part, rest, path.replace(EACH_ENTRY, f"[{number}]", 1))


def _is_mineral(case: Case) -> bool:
    """True for soil, false for peat and bark mixes."""
    return case.soil.medium is Medium.MINERAL


def _is_mineral_soil_with_little_organic_matter(case: Case) -> bool:
    """True unless there is as much organic matter as makes figures of mineral soil say nothing."""
    matter = case.soil.organic_matter_pct
    most = max(row.high for row in load_entry_ranges() if row.path == ORGANIC_MATTER)
    return _is_mineral(case) and (matter is None or matter <= most)


def _shares_up_to_one(case: Case) -> bool:
    """True where every share of sand, silt and clay given is at most 1."""
    soil = case.soil
    given = (soil.sand_pct, soil.silt_pct, soil.clay_pct)
    return all(share <= 1.0 for share in given if share is not None)


def _has_own_climate(case: Case) -> bool:
    return case.place is not None and case.place.source_key == OWN_CLIMATE


WHEN: Mapping[str, Callable[[Case], bool]] = {
    "any": lambda case: True,
    "mineral": _is_mineral,
    "mineral, little organic matter": _is_mineral_soil_with_little_organic_matter,
    "organic medium": lambda case: not _is_mineral(case),
    "shares up to 1": _shares_up_to_one,
    "container": lambda case: case.bed.kind is BedKind.CONTAINER,
    "open ground": lambda case: case.bed.kind is not BedKind.CONTAINER,
    "field": lambda case: case.bed.kind is BedKind.FIELD,
    "bed": lambda case: case.bed.kind not in (BedKind.CONTAINER, BedKind.FIELD),
    "own climate": _has_own_climate,
    "alkalinity without a unit": lambda case: "water.alkalinity" in case.without_unit,
    "hardness without a unit": lambda case: "water.hardness" in case.without_unit,
}
"""The words of the table's column ``when``."""
