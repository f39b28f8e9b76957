"""Figures that look like a slip of the unit: asked about, never refused.

One rule reads one table: a figure outside the usual range of its key is named, with every other
unit that would bring it into that range.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Final

from loamshift.domain.answer import Finding, Severity
from loamshift.domain.case import BedKind, Case
from loamshift.domain.entry_range import EntryDoubt, EntryRange, Gather, Side
from loamshift.domain.field_name import field_in_text
from loamshift.domain.message import Measure, Message, Prose, Quantity, message, prose
from loamshift.domain.soil import Medium
from loamshift.services.cautions.target_checks import finding_row
from loamshift.tables.entry_ranges import load_entry_ranges

CHECK = "unit of "
"""Every row's check begins with it; the path of the case file follows."""
OWN_CLIMATE = "case-file"
ORGANIC_MATTER = "soil.organic_matter_pct"
EACH_ENTRY = "[]"
_ENTRY: Final = re.compile(r"[a-z_.]+\[\d+\]")
_KINDS: Final[Mapping[str, Quantity]] = {
    "%": Quantity.PERCENT,
    "cm": Quantity.DEPTH,
    "g": Quantity.AMOUNT,
    "g/m2": Quantity.RATE,
    "m2": Quantity.AREA,
    "°C": Quantity.TEMPERATURE,
}
"""Units of the table whose figures are said in the units of the reader."""
_WITHIN: Final[Mapping[str, Quantity]] = {
    "mm a week": Quantity.WATER_DEPTH,
    "mm a year": Quantity.WATER_DEPTH,
}
_OWN_UNITS: Final[Mapping[str, str]] = {
    "cmolc/kg": "cmolc-kg",
    "g/cm³": "g-cm3",
    "dS/m": "ds-m",
    "mg/L CaCO3": "mg-l-caco3",
    "mm a week": "mm-a-week",
    "mm a year": "mm-a-year",
    "pH": "none",
}
"""The others, by their choice in the message ``doubt-figure``."""


def entry_doubts(case: Case) -> tuple[EntryDoubt, ...]:
    """Every figure of a case that lies outside what its key usually holds."""
    return tuple(
        doubt
        for row in load_entry_ranges()
        if WHEN[row.when](case)
        for path, given in _figures(case, row)
        if (doubt := _doubt(row, path, given=given)) is not None
    )


def entry_doubt_findings(case: Case) -> tuple[Finding, ...]:
    """A question for every doubtful figure.

    Returns
    -------
    tuple of Finding
        One row a figure, all of severity caution [unit of the row].
    """
    return tuple(map(_question, entry_doubts(case)))


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


def _question(doubt: EntryDoubt) -> Finding:
    row, low = doubt.range, doubt.side is Side.LOW
    given = figure_told(doubt.given, row.unit)
    entry = _ENTRY.match(doubt.path)
    return finding_row(
        f"{CHECK}{doubt.path}",
        value=float(f"{doubt.given:.4g}"),
        operator=">=" if low else "<=",
        limit=row.low if low else row.high,
        unit=row.unit,
        passed=False,
        severity=Severity.CAUTION,
        comment=prose(
            message(
                "doubt-unusual",
                what=message(f"doubt-what-{row.phrase}"),
                given=given,
                entry=None if entry is None else field_in_text(entry[0]),
                side=doubt.side.value,
            ),
            _asked(doubt),
            message("doubt-until", given=given),
        ),
        source_key=row.source_key,
    )


def _asked(doubt: EntryDoubt) -> Prose:
    """A question of the key's own, and which other unit may have been meant."""
    row = doubt.range
    hint = message(f"doubt-hint-{row.hint}") if row.hint else None
    if not doubt.meant:
        return prose(hint or message("doubt-right"))
    meant = (
        message("doubt-meant", meant=unit, value=figure_told(value, row.unit))
        for unit, value in doubt.meant
    )
    return prose(hint, message("doubt-other-unit"), *meant)


def figure_told(value: float, unit: str) -> Measure | Message:
    """A figure of a bed file in the unit of its key.

    Parameters
    ----------
    value
        The figure [unit].

    Returns
    -------
    Measure or Message
        In units of the reader where such a quantity is said in them; else with its own.
    """
    kind = _KINDS.get(unit)
    if kind is not None:
        return Measure(kind, value)
    measure = Measure(_WITHIN.get(unit, Quantity.NUMBER), value)
    return message("doubt-figure", n=measure, unit=_OWN_UNITS.get(unit, "none"))


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
    """True for soil, false for potting mixes."""
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
