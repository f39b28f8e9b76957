"""Caps, cautions, and the printed rates of sulfur and limestone."""

from __future__ import annotations

from collections.abc import Container, Mapping
from functools import cache
from typing import Final

from loamshift.domain.message import Measure, Message, Prose, Quantity, message, prose
from loamshift.domain.rules import Cap, CautionKind, CautionRule, LimeRate, SulfurRate
from loamshift.errors import TableError
from loamshift.tables.rows import evidence, number, number_or_none, read_rows, truth

ANY_SITUATION = "any"
_QUANTITIES: Final = {
    "g/m2": Quantity.RATE,
    "g": Quantity.AMOUNT,
    "m2": Quantity.AREA,
    "cm": Quantity.DEPTH,
    "L/m2": Quantity.WATER_RATE,
    "degC": Quantity.TEMPERATURE,
    "pH": Quantity.PH,
    "dS/m": Quantity.EC,
    "mg/L CaCO3": Quantity.ALKALINITY,
    "%": Quantity.PERCENT,
    "times": Quantity.TIMES,
    "1": Quantity.NUMBER,
}
"""Kinds of number by the units of the table of figures in cautions."""


@cache
def load_caps() -> tuple[Cap, ...]:
    """Every printed limit, those in use and those kept for the record [g/m2]."""
    return tuple(
        Cap(
            key=row["key"],
            applies_to=row["applies_to"],
            situation=row["situation"],
            per=row["per"],
            limit_g_m2=number(row, "limit_g_m2"),
            wait_months=number_or_none(row, "wait_months"),
            used=truth(row, "used"),
            source_key=row["source_key"],
            where=row["where"],
            evidence=evidence(row),
            note=row["note"],
        )
        for row in read_rows("caps")
    )


def cap_for(*, applies_to: str, situation: str, per: str) -> Cap:
    """The limit that governs a material in a situation.

    A limit for any situation stands in where the situation has none of its own. ``field`` is
    ground under a crop; a bare field before planting is ``unplanted``.

    Returns
    -------
    Cap
        The governing row [g/m2].

    Raises
    ------
    TableError
        Where no limit was found in print: nitrogen has few. Ask ``has_cap`` first.

    Examples
    --------
    >>> cap_for(applies_to="sulfur", situation="planted", per="year").limit_g_m2
    34.18
    """
    caps = _governing()
    for place in (situation, ANY_SITUATION):
        if (applies_to, place, per) in caps:
            return caps[applies_to, place, per]
    raise TableError(f"no limit of {applies_to} per {per} for {situation} ground")


def has_cap(*, applies_to: str, situation: str, per: str) -> bool:
    """True where a printed limit governs a material in a situation per dose or year."""
    return any((applies_to, place, per) in _governing() for place in (situation, ANY_SITUATION))


def caution_text(rule: CautionRule, codes: Container[str]) -> Message | Prose:
    """A caution as it stands among others.

    Parameters
    ----------
    codes
        All that are told together: of iron salts children are told only where one is among them.
    """
    if rule.code == "children-pets" and "iron-stain" in codes:
        return prose(rule.text, message("caution-iron-swallowed"))
    return rule.text


@cache
def load_cautions() -> Mapping[str, CautionRule]:
    """Every caution by its code, in the order letters print them."""
    figures: dict[str, dict[str, Measure]] = {}
    for row in read_rows("caution_figures"):
        measure = Measure(
            _QUANTITIES[row["unit"]], number(row, "value"), number_or_none(row, "high")
        )
        figures.setdefault(row["code"], {})[row["name"]] = measure
    cautions: dict[str, CautionRule] = {}
    for row in read_rows("cautions"):
        if row["code"] in cautions:
            raise TableError(f"caution {row['code']} appears twice")
        cautions[row["code"]] = CautionRule(
            code=row["code"],
            kind=CautionKind(row["kind"]),
            figures=figures.get(row["code"], {}),
            source_key=row["source_key"],
            evidence=evidence(row),
        )
    return cautions


@cache
def load_sulfur_rates() -> tuple[SulfurRate, ...]:
    """Every printed rate of elemental sulfur that states a pH step [g S/m2].

    Rows kept as traps, trials or repetitions are there with ``usable`` false. Rates of
    aluminium and iron sulfate, and trials without a pH step, stay in the table only.
    ``texture`` is sand | sandy loam | loam | clay loam | clay | any | organic; organic is the
    acid peaty ground of wild blueberries and cranberries.
    """
    return tuple(
        SulfurRate(
            row=int(number(row, "row")),
            source_key=row["source_key"],
            family=row["family"],
            ph_start=number_or_none(row, "ph_start"),
            ph_target=number_or_none(row, "ph_target"),
            ph_drop=number(row, "ph_drop"),
            texture=row["texture"],
            depth_cm=number(row, "depth_cm"),
            depth_stated=truth(row, "depth_stated"),
            low_g_m2=number(row, "low_g_m2"),
            high_g_m2=number(row, "high_g_m2"),
            evidence=evidence(row),
            usable=truth(row, "usable"),
            note=row["note"],
        )
        for row in read_rows("sulfur_rates")
        if row["material"] == "elemental sulfur" and row["ph_drop"] != ""
    )


@cache
def load_lime_rates() -> tuple[LimeRate, ...]:
    """Every printed rate of ground limestone by pH step [g/m2]; no text states its depth.

    ``texture`` is sandy loam | loam | clay loam | any.
    """
    return tuple(
        LimeRate(
            row=int(number(row, "row")),
            source_key=row["source_key"],
            ph_start=number_or_none(row, "ph_start"),
            ph_target=number_or_none(row, "ph_target"),
            ph_rise=number(row, "ph_rise"),
            texture=row["texture"],
            rate_g_m2=number(row, "rate_g_m2"),
            evidence=evidence(row),
            usable=truth(row, "usable"),
            note=row["note"],
        )
        for row in read_rows("lime_rates")
    )


@cache
def _governing() -> Mapping[tuple[str, str, str], Cap]:
    caps: dict[tuple[str, str, str], Cap] = {}
    for cap in load_caps():
        triple = (cap.applies_to, cap.situation, cap.per)
        if cap.used and triple in caps:
            raise TableError(f"two caps govern {' '.join(triple)}")
        if cap.used:
            caps[triple] = cap
    return caps
