"""A field map as plain figures for programs, and what the columns of its files hold."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields

from loamshift.domain.field import FieldMap, FieldZone
from loamshift.domain.message import message
from loamshift.report.messages import say
from loamshift.report.words import Words

COLUMNS = (
    *("zone", "name", "product", "rate_kg_ha", "rate_lb_ac", "load_t", "area_ha"),
    *("ph_water", "ph_sd", "need_kg_ha", "decision"),
)
"""Columns of the vector files, none longer than the ten characters that a shapefile holds."""


def column_meanings(words: Words) -> dict[str, str]:
    """What each column of the vector files holds, with its unit."""
    return {
        name: say(message("map-file-column", column=name.replace("_", "-")), words)
        for name in COLUMNS
    }


def field_figures(found: FieldMap) -> Mapping[str, object]:
    """The figures of a field map without its cells."""
    return {
        "field_map": 1,
        "name": found.field.name,
        "today": found.today,
        "on": found.on,
        "crs": found.field.crs,
        "area_m2": found.field.area_m2,
        "cell_m": found.field.grid.cell_m,
        "samples": len(found.field.samples),
        "mean_ph": found.mean_ph,
        "spread_ph": found.spread_ph,
        "ph_low": found.ph_low,
        "ph_high": found.ph_high,
        "ph_aim": found.ph_aim,
        "material": found.material,
        "no_map": found.no_map,
        "tried": found.tried,
        "zones": [_zone(zone) for zone in found.zones],
        "by_zones": found.by_zones,
        "by_mean": found.by_mean,
        "left_alone": found.left_alone,
        "currency": found.currency,
        "more": found.more,
        "worth_taking": found.worth_taking,
        "where": found.where,
        "notes": found.notes,
    }


def _zone(zone: FieldZone) -> Mapping[str, object]:
    return {one.name: getattr(zone, one.name) for one in fields(zone) if one.name != "cautions"}
