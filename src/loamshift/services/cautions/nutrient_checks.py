"""Magnesium where it decides the kind of lime, phosphorus where it decides a colour."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Final

from loamshift.domain.answer import Finding, Severity
from loamshift.domain.case import Case
from loamshift.domain.message import message, number, percent
from loamshift.domain.soil import PhosphorusLevel
from loamshift.services.cautions.target_checks import finding_row
from loamshift.tables.magnesium import MAGNESIAN, is_short_of_magnesium
from loamshift.tables.parameters import load_parameters

BLUE: Final = "hydrangea (blue flowers)"
PINK: Final = "hydrangea (pink flowers)"
_MUCH: Final = (PhosphorusLevel.HIGH, PhosphorusLevel.VERY_HIGH)


def colours_wanted(case: Case) -> tuple[str, ...]:
    """Hydrangeas wanted in a colour, by their keys."""
    return tuple(one.key for one in case.aim.plants if one.key in (BLUE, PINK))


def magnesium(case: Case, *, compared: Collection[str]) -> Iterator[Finding]:
    """The magnesium of a soil against what is low, where it was measured and limes are compared.

    Parameters
    ----------
    compared
        Products that are compared, by their keys.

    Notes
    -----
    Passed either way: the section on products says what follows.
    """
    entry, rows = case.soil, load_parameters()["advice"]
    if entry.mg_mg_kg is not None:
        value, unit, row = entry.mg_mg_kg, "mg/kg", rows["low_magnesium_mg_kg"]
    elif entry.mg_saturation_pct is not None:
        value, unit, row = entry.mg_saturation_pct, "%", rows["low_magnesium_pct"]
    else:
        return
    if MAGNESIAN not in compared:
        return
    short = "yes" if is_short_of_magnesium(entry) else "no"
    said = percent if unit == "%" else number
    yield finding_row(
        "magnesium",
        value=value,
        operator=">=",
        limit=row.value,
        unit=unit,
        passed=True,
        severity=Severity.INFO,
        comment=message(
            "check-magnesium",
            short=short,
            unit="percent" if unit == "%" else "mg-kg",
            found=said(value),
            limit=said(row.value),
        ),
        source_key=row.source_key,
    )


def phosphorus(case: Case) -> Finding | None:
    """The phosphorus against the colour wanted of hydrangeas; None without either.

    References
    ----------
    hydrangea-colour-pages
    """
    level, colours = case.soil.p_level, colours_wanted(case)
    if level is None or not colours:
        return None
    blue = BLUE in colours
    spoils = blue and level in _MUCH
    colour = "blue" if blue else "pink"
    return finding_row(
        "phosphorus",
        value=level.value,
        operator="is not",
        limit=PhosphorusLevel.HIGH.value,
        unit="",
        passed=not spoils,
        severity=Severity.CAUTION,
        comment=message(f"check-phosphorus-{colour}", much="yes" if level in _MUCH else "no"),
        source_key="hydrangea-colour-pages",
    )
