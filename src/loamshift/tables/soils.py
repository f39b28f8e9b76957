"""Texture classes, growing media, and free lime believed from a fizz test."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from loamshift.core.topsoil import SoilWaterParameters, TopsoilParameters
from loamshift.domain.carbonate_belief import (
    CarbonateRule,
    carbonate_belief_between,
)
from loamshift.domain.soil import (
    CarbonateBelief,
    Fizz,
    FizzAcid,
    Medium,
    MediumClass,
    TextureClass,
)
from loamshift.errors import TableError
from loamshift.tables.parameters import parameter_values
from loamshift.tables.rows import evidence, number, read_rows, words


@cache
def soil_values() -> Mapping[str, float]:
    """Coefficients of what a soil's facts are believed to say, by name [unit of each row]."""
    return parameter_values("soil")


@cache
def topsoil_parameters() -> TopsoilParameters:
    """Coefficients of the density and the carbon of a topsoil nobody weighed."""
    return TopsoilParameters(**parameter_values("topsoil"))


@cache
def soil_water_parameters() -> SoilWaterParameters:
    """Coefficients of field capacity and wilting point."""
    return SoilWaterParameters(**parameter_values("soil_water"))


@cache
def load_textures() -> Mapping[str, TextureClass]:
    """The twelve texture classes by key.

    Returns
    -------
    Mapping
        Key to class; shares [%], density [g/cm3], water [m3/m3].

    Examples
    --------
    >>> load_textures()["loam"].clay_pct
    20.0
    """
    textures: dict[str, TextureClass] = {}
    for row in read_rows("textures"):
        if row["key"] in textures:
            raise TableError(f"texture {row['key']} stands twice")
        textures[row["key"]] = TextureClass(
            key=row["key"],
            name=row["name"],
            synonyms=words(row, "synonyms"),
            sand_pct=number(row, "sand_pct"),
            clay_pct=number(row, "clay_pct"),
            bulk_density_g_cm3=number(row, "bulk_density_g_cm3"),
            field_capacity_frac=number(row, "field_capacity_frac"),
            wilting_frac=number(row, "wilting_frac"),
            organic_carbon_pct=number(row, "organic_carbon_pct"),
            source_key=row["source_key"],
            evidence=evidence(row),
            note=row["note"],
        )
    return MappingProxyType(textures)


@cache
def load_media() -> Mapping[Medium, MediumClass]:
    """Growing media that are not mineral soil, by medium.

    Returns
    -------
    Mapping
        Medium to class; carbon [%], density [g/cm3], water [m3/m3], scale [log10].
    """
    media: dict[Medium, MediumClass] = {}
    for row in read_rows("media"):
        medium = Medium(row["medium"])
        media[medium] = MediumClass(
            medium=medium,
            organic_carbon_pct=number(row, "organic_carbon_pct"),
            bulk_density_g_cm3=number(row, "bulk_density_g_cm3"),
            field_capacity_frac=number(row, "field_capacity_frac"),
            wilting_frac=number(row, "wilting_frac"),
            log10_k_mean=number(row, "log10_k_mean"),
            log10_k_sd=number(row, "log10_k_sd"),
            source_key=row["source_key"],
            evidence=evidence(row),
            note=row["note"],
        )
    return MappingProxyType(media)


@cache
def load_fizz() -> tuple[CarbonateRule, ...]:
    """Every fizz rule, with those for a test nobody made."""
    return tuple(
        CarbonateRule(
            fizz=None if row["fizz"] == "not tried" else Fizz(row["fizz"]),
            acid=None if row["acid"] in ("any", "unknown") else FizzAcid(row["acid"]),
            any_acid=row["acid"] == "any",
            ph_low=number(row, "ph_low"),
            ph_high=number(row, "ph_high"),
            full_from_ph=number(row, "full_from_ph"),
            zero_weight=number(row, "zero_weight"),
            low_pct=number(row, "low_pct"),
            high_pct=number(row, "high_pct"),
            basis=row["basis"],
            source_key=row["source_key"],
            evidence=evidence(row),
            note=row["note"],
        )
        for row in read_rows("fizz")
    )


def carbonate_belief(fizz: Fizz | None, acid: FizzAcid | None, ph_water: float) -> CarbonateBelief:
    """What a fizz test, or none, says of the free lime in a soil.

    Parameters
    ----------
    fizz
        What the drop of acid showed; None where nobody tried.
    acid
        The acid; None where nobody said.
    ph_water
        pH in water of the soil, 2 to 11 [pH].

    Returns
    -------
    CarbonateBelief
        Weight at zero [0-1], and a log-uniform range for the rest [% CaCO3].

    Raises
    ------
    OutOfRangeError
        Where the pH is no soil pH.

    Notes
    -----
    Class words carry a factor of two to three between conventions, and vinegar is the weaker
    acid: the same look means more lime. No fizz is not zero.

    References
    ----------
    fao-soil-description-2006, kalra-maynard-1991, iso-14688-note, own-judgement

    Examples
    --------
    >>> carbonate_belief(Fizz.NONE, FizzAcid.HCL, 7.4).zero_weight
    0.5
    """
    return carbonate_belief_between(fizz, acid, ph_water=ph_water, rules=load_fizz())
