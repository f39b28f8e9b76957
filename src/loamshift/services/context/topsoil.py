"""A mineral topsoil filled in from what was said of its texture, humus and density."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from loamshift.core.topsoil import (
    bulk_density_g_cm3,
    mineral_density_from_bulk_g_cm3,
    mineral_density_g_cm3,
    usual_carbon_pct,
    usual_sand_pct,
    water_contents_frac,
)
from loamshift.domain.case import SoilEntry
from loamshift.domain.soil import TextureClass
from loamshift.domain.texture import texture_class_from_fractions
from loamshift.tables.soils import load_textures, soil_water_parameters, topsoil_parameters

ORGANIC_MATTER_PER_CARBON: Final = 1.724
"""Organic matter over organic carbon by convention [-]."""
UNKNOWN_TEXTURE: Final = "loam"
"""The class taken where nobody named one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Topsoil:
    """Texture, humus, density and water of a mineral topsoil, with what had to be assumed.

    ``clay_pct`` of the mineral part [%]; ``organic_carbon_pct`` [%]; ``bulk_density_g_cm3``
    [g/cm3]; ``field_capacity_frac``, ``wilting_frac`` [m3/m3].
    """

    texture_name: str
    clay_pct: float
    organic_carbon_pct: float
    bulk_density_g_cm3: float
    field_capacity_frac: float
    wilting_frac: float
    assumed: tuple[str, ...]


def fill_in_topsoil(entry: SoilEntry) -> Topsoil:
    """The topsoil of an entry, with what nobody measured taken from texture and humus.

    Notes
    -----
    Shares of sand and clay go into equations, so that a little more of either changes little; a
    class by name has the figures of its row. Density follows organic matter unless measured.
    """
    assumed: list[str] = []
    sand, clay = _shares(entry)
    texture = entry.texture
    if texture is None and (clay is None or sand is None):
        texture = load_textures()[UNKNOWN_TEXTURE]
        assumed.append("soil.texture")
    carbon = _measured_carbon_pct(entry)
    if carbon is None:
        assumed.append("soil.organic_matter_pct")
    if texture is not None and clay is None:
        return _by_class(entry, texture, carbon, assumed=tuple(assumed))
    assert clay is not None and sand is not None
    return _by_shares(
        entry, sand_pct=sand, clay_pct=clay, carbon_pct=carbon, assumed=tuple(assumed)
    )


def _by_class(
    entry: SoilEntry, texture: TextureClass, carbon_pct: float | None, *, assumed: tuple[str, ...]
) -> Topsoil:
    params = topsoil_parameters()
    carbon = texture.organic_carbon_pct if carbon_pct is None else carbon_pct
    mineral = mineral_density_from_bulk_g_cm3(
        bulk_density_g_cm3=texture.bulk_density_g_cm3,
        organic_matter_pct=_organic_matter_pct(texture.organic_carbon_pct),
        params=params,
    )
    return Topsoil(
        texture_name=texture.key,
        clay_pct=texture.clay_pct,
        organic_carbon_pct=carbon,
        bulk_density_g_cm3=_density(entry, mineral_g_cm3=mineral, carbon_pct=carbon),
        field_capacity_frac=texture.field_capacity_frac,
        wilting_frac=texture.wilting_frac,
        assumed=assumed,
    )


def _by_shares(
    entry: SoilEntry,
    *,
    sand_pct: float,
    clay_pct: float,
    carbon_pct: float | None,
    assumed: tuple[str, ...],
) -> Topsoil:
    params = topsoil_parameters()
    usual = usual_carbon_pct(sand_pct=sand_pct, clay_pct=clay_pct, params=params)
    carbon = usual if carbon_pct is None else carbon_pct
    field, wilting = water_contents_frac(
        sand_pct=sand_pct,
        clay_pct=clay_pct,
        organic_matter_pct=_organic_matter_pct(usual),
        params=soil_water_parameters(),
    )
    mineral = mineral_density_g_cm3(sand_pct=sand_pct, clay_pct=clay_pct, params=params)
    name = texture_class_from_fractions(sand_pct=sand_pct, clay_pct=clay_pct)
    return Topsoil(
        texture_name=entry.texture.key if entry.texture is not None else name,
        clay_pct=clay_pct,
        organic_carbon_pct=carbon,
        bulk_density_g_cm3=_density(entry, mineral_g_cm3=mineral, carbon_pct=carbon),
        field_capacity_frac=field,
        wilting_frac=wilting,
        assumed=assumed,
    )


def _density(entry: SoilEntry, *, mineral_g_cm3: float, carbon_pct: float) -> float:
    if entry.bulk_density_g_cm3 is not None:
        return entry.bulk_density_g_cm3
    return bulk_density_g_cm3(
        mineral_g_cm3=mineral_g_cm3,
        organic_matter_pct=_organic_matter_pct(carbon_pct),
        params=topsoil_parameters(),
    )


def _organic_matter_pct(carbon_pct: float) -> float:
    return min(ORGANIC_MATTER_PER_CARBON * carbon_pct, 100.0)


def _measured_carbon_pct(entry: SoilEntry) -> float | None:
    if entry.organic_carbon_pct is not None:
        return entry.organic_carbon_pct
    if entry.organic_matter_pct is not None:
        return entry.organic_matter_pct / ORGANIC_MATTER_PER_CARBON
    return None


def _shares(entry: SoilEntry) -> tuple[float | None, float | None]:
    """Sand and clay [%] as far as the shares given tell; sand is guessed beside a clay alone."""
    sand, silt, clay = entry.sand_pct, entry.silt_pct, entry.clay_pct
    if clay is None and sand is not None and silt is not None:
        clay = max(100.0 - sand - silt, 0.0)
    if clay is None:
        return None, None
    if sand is None and silt is not None:
        sand = 100.0 - silt - clay
    elif sand is None and entry.texture is not None:
        sand = entry.texture.sand_pct
    elif sand is None:
        sand = usual_sand_pct(clay_pct=clay, params=topsoil_parameters())
    return min(max(sand, 0.0), 100.0 - clay), clay
