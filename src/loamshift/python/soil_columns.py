"""Columns of a table of soils read as the keys of a case file, each row with its own fault.

A number inside the limits of its key is taken as it is, in arrays. Everything else (a text, a
number outside, a gap where none may be) goes through the reader of case files, which finds the
same fault as it would in a file; each value is asked about once.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any, Final

from loamshift.case.quantities import (
    BULK_DENSITY_G_CM3,
    CARBONATE_PCT,
    ORGANIC_PCT,
    share_pct,
)
from loamshift.case.read import case_from_tree
from loamshift.domain.case import Case, SoilEntry
from loamshift.domain.message import Given, Listed, message
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.domain.soil import Medium
from loamshift.domain.worded_error import WordedError
from loamshift.errors import CaseError
from loamshift.report.messages import say
from loamshift.report.messages.refusal import fault_line
from loamshift.report.words import Words
from loamshift.services.context.readings import ph_belief
from loamshift.services.dose_rows import SoilRow
from loamshift.tables.model import verdict_values

_SHARE: Final = share_pct("share")
LIMITS: Final[Mapping[str, tuple[float, float]]] = {
    "ph": (2.0, 11.0),
    "target_ph": (2.0, 11.0),
    "sand_pct": (_SHARE.low, _SHARE.high),
    "silt_pct": (_SHARE.low, _SHARE.high),
    "clay_pct": (_SHARE.low, _SHARE.high),
    "organic_matter_pct": (ORGANIC_PCT.low, ORGANIC_PCT.high),
    "organic_carbon_pct": (ORGANIC_PCT.low, ORGANIC_PCT.high),
    "carbonate_pct": (CARBONATE_PCT.low, CARBONATE_PCT.high),
    "bulk_density_g_cm3": (BULK_DENSITY_G_CM3.low, BULK_DENSITY_G_CM3.high),
    "depth": (1.0, 100.0),
}
"""Between these a number needs no second look [unit in the name; depth in cm]."""
KEYS: Final = (*LIMITS, "ph_method", "texture", "medium", "fizz", "fizz_acid", "target_method")
NEEDED: Final = ("ph", "target_ph")
_TABLE_OF: Final = {"target_ph": "aim", "target_method": "aim", "depth": "bed"}
_ANY_DAY: Final = date(2000, 1, 1)
_SHARES: Final = ("sand_pct", "silt_pct", "clay_pct")
_WORDS: Final = Words()


@dataclass(slots=True)
class ReadRows:
    """The rows that can be worked out, with their places, and the faults of the others."""

    rows: list[SoilRow] = field(default_factory=list)
    places: list[int] = field(default_factory=list)
    faults: dict[int, str] = field(default_factory=dict)


def key_columns(names: Sequence[str], columns: Mapping[str, str]) -> dict[str, str]:
    """Which column of a table is meant by which key.

    Parameters
    ----------
    names
        Columns of the table; capitals make no difference [text].
    columns
        Key by the user's own name of a column [text].

    Returns
    -------
    dict
        Column by key [text].

    Raises
    ------
    InputError
        Where two are meant by one key, or one that is needed is not there.
    """
    found: dict[str, str] = {}
    for name in names:
        key = columns.get(name, name).casefold()
        if key not in KEYS:
            continue
        if key in found:
            raise WordedError(message("python-column-twice", column=Given(key)))
        found[key] = name
    if missing := [key for key in NEEDED if key not in found]:
        raise WordedError(
            message(
                "python-columns-missing",
                columns=Listed(tuple(map(Given, missing))),
                found=Listed(tuple(map(Given, names))),
                example=Given(f'{{"{names[0] if names else "pH"}": "{missing[0]}"}}'),
            )
        )
    return found


def read_rows(columns: Mapping[str, Sequence[Any]]) -> ReadRows:
    """Soils out of columns.

    Parameters
    ----------
    columns
        Values by key, all of one length; None or NaN for a gap [unit of the key].

    Returns
    -------
    ReadRows
        Rows and faults [objects].
    """
    reader = _Reader()
    found = ReadRows()
    names = list(columns)
    for place, values in enumerate(zip(*columns.values(), strict=True)):
        given = {
            name: value for name, value in zip(names, values, strict=True) if not _is_gap(value)
        }
        fault = reader.fault(given)
        if fault is not None:
            found.faults[place] = fault
        else:
            found.rows.append(reader.row(given))
            found.places.append(place)
    return found


class _Reader:
    """Reads rows; what the case reader said of a value is kept."""

    def __init__(self) -> None:
        self._cases: dict[tuple[tuple[str, Any], ...], Case | str] = {}
        self._readings: dict[tuple[str, ...], PhMethod] = {}
        self._depth_cm = verdict_values()["depth_bed_cm"]

    def fault(self, given: dict[str, Any]) -> str | None:
        """What is wrong with a row, or None; texts in it become what they stand for."""
        for key in NEEDED:
            if key not in given:
                return say(message("python-row-without", column=Given(key)), _WORDS)
        for key, value in given.items():
            if not _is_plain(key, value):
                case = self._case({key: value, **({"ph": 7.0} if key != "ph" else {})})
                if isinstance(case, str):
                    return case
                given[key] = _value(case, key)
        if given.get("medium", Medium.MINERAL) is not Medium.MINERAL:
            return say(message("python-row-organic"), _WORDS)
        if (
            sum(given.get(key, 0.0) for key in _SHARES) > 100.0
            or {
                "organic_matter_pct",
                "organic_carbon_pct",
            }
            <= given.keys()
        ):
            case = self._case({key: getattr(value, "value", value) for key, value in given.items()})
            return case if isinstance(case, str) else None
        return None

    def row(self, given: Mapping[str, Any]) -> SoilRow:
        """A row without fault as a soil."""
        reading = PhReading(ph=float(given["ph"]), method=given.get("ph_method", PhMethod.UNKNOWN))
        target = float(given["target_ph"])
        method = given.get("target_method")
        if method is not None:
            target = ph_belief(PhReading(ph=target, method=method)).ph_water
        soil = SoilEntry(
            ph=reading,
            texture=given.get("texture"),
            fizz=given.get("fizz"),
            fizz_acid=given.get("fizz_acid"),
            sand_pct=_number(given, "sand_pct"),
            silt_pct=_number(given, "silt_pct"),
            clay_pct=_number(given, "clay_pct"),
            organic_matter_pct=_number(given, "organic_matter_pct"),
            organic_carbon_pct=_number(given, "organic_carbon_pct"),
            carbonate_pct=_number(given, "carbonate_pct"),
            bulk_density_g_cm3=_number(given, "bulk_density_g_cm3"),
        )
        depth = float(given.get("depth", self._depth_cm))
        return SoilRow(soil=soil, depth_cm=depth, target_ph_water=target)

    def _case(self, given: Mapping[str, Any]) -> Case | str:
        """What the reader of case files makes of some keys: a case, or its first fault."""
        known = tuple(given.items())
        try:
            if known in self._cases:
                return self._cases[known]
        except TypeError:  # a value that cannot be looked up
            return self._read(given)
        return self._cases.setdefault(known, self._read(given))

    def _read(self, given: Mapping[str, Any]) -> Case | str:
        tree: dict[str, Any] = {"case": 1, "today": _ANY_DAY}
        for key, value in given.items():
            tree.setdefault(_TABLE_OF.get(key, "soil"), {})[key] = value
        try:
            return case_from_tree(tree, source="")
        except CaseError as error:
            return fault_line(error.faults[0], _WORDS)


def _is_gap(value: Any) -> bool:
    return value is None or (isinstance(value, float) and math.isnan(value))


def _is_plain(key: str, value: Any) -> bool:
    """Whether a value is a number within the limits of its key."""
    if key not in LIMITS or isinstance(value, (bool, str)):
        return False
    low, high = LIMITS[key]
    return isinstance(value, (int, float)) and low <= value <= high


def _value(case: Case, key: str) -> Any:
    """What the reader made of one key."""
    if key == "ph":
        return None if case.soil.ph is None else case.soil.ph.ph
    if key == "ph_method":
        return PhMethod.UNKNOWN if case.soil.ph is None else case.soil.ph.method
    if key in ("target_ph", "target_method"):
        return getattr(case.aim, key)
    if key == "depth":
        return case.bed.depth_cm
    return getattr(case.soil, key)


def _number(given: Mapping[str, Any], key: str) -> float | None:
    return float(given[key]) if key in given else None
