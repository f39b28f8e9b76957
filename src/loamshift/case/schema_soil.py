"""The soil, as the case file has it."""

from __future__ import annotations

import datetime
from typing import Annotated

from pydantic import Field

from loamshift.case.amounts import read_plain_rate_g_m2
from loamshift.case.case_key import Group, Key
from loamshift.case.quantities import (
    ALUMINIUM_CMOLC_KG,
    BULK_DENSITY_G_CM3,
    CARBONATE_PCT,
    CEC_CMOLC_KG,
    EC_DS_M,
    MAGNESIUM_MG_KG,
    ORGANIC_PCT,
    Measure,
    Scale,
    read_depth_cm,
    share_pct,
)
from loamshift.case.reads import (
    DATE,
    Holds,
    Reads,
    choice,
    found_by_name,
    number_taken,
    ph_number,
    texture_by_name,
    word_choice,
)
from loamshift.case.schema_base import PH_METHOD, Table, quantity
from loamshift.domain.message import Given, message
from loamshift.domain.names import match_name
from loamshift.domain.ph import PhMethod
from loamshift.domain.soil import Fizz, FizzAcid, Medium, PhosphorusLevel, TextureClass

EC_METHODS = ("paste", "1:1", "1:2", "1:5")
CLAY_TYPES = ("high activity", "low activity", "volcanic")


def scale_read(scale: Scale) -> Reads:
    """A laboratory figure, with the units it may stand in."""
    others = [
        unit for unit in scale.units if unit not in (scale.unit, "pct", "percent", "per cent")
    ]
    takes = number_taken(scale.low, scale.high, Given(scale.unit))
    if others:
        takes = message("takes-also", number=takes, units=Given(", ".join(others)))
    return Reads(parse=scale.read, takes=takes, holds=Holds.NUMBER, unit=scale.unit)


def _buffer_method(name: str) -> object:
    from loamshift.tables.laboratory import load_buffer_ph_methods

    methods = load_buffer_ph_methods()
    return match_name(name, {k: m.synonyms for k, m in methods.items()}, kind="buffer-pH method")


def _read_buffer_ph(value: object) -> float:
    """A buffer pH; a lime test index of 48 to 80 is ten times that and is kept as given."""
    from loamshift.case.numbers import number_from

    figure = number_from(value)
    if 48.0 <= figure <= 80.0:
        return figure
    parsed = ph_number(low=3.0, high=9.0).parse(value)
    assert isinstance(parsed, float)
    return parsed


_BUFFER_PH = Reads(
    parse=_read_buffer_ph, takes=message("takes-buffer-ph"), holds=Holds.NUMBER, unit="pH"
)


MIX_SPELLINGS = {
    "peat": "peat mix",
    "bark": "bark mix",
    "coir": "coir mix",
    "coconut fibre": "coir mix",
    "peat free": "peat-free mix",
    "peatfree": "peat-free mix",
}
"""What people call potting mixes, and the word of the case file."""
_FIZZ = choice(Fizz, what="fizz", aliases={"no": "none", "weak": "slight", "violent": "extreme"})
_FIZZ_ACID = choice(
    FizzAcid,
    what="acid of the fizz test",
    aliases={
        "hydrochloric acid": "HCl",
        "muriatic acid": "HCl",
        "white vinegar": "vinegar",
    },
)
_DEPTH = quantity(read_depth_cm, "depth", "cm")


class OtherPh(Table):
    """A second pH of the same sample, by another method."""

    ph: Annotated[float | None, Key(ph_number(), example="6.4")]
    ph_method: Annotated[PhMethod | None, Key(PH_METHOD, example='"CaCl2"')] = PhMethod.UNKNOWN


class SoilLayer(Table):
    """A layer below the sample: acid or limy ground that roots reach."""

    top: Annotated[Measure | None, Key(_DEPTH, example='"30 cm"', fills="top_cm")]
    bottom: Annotated[Measure | None, Key(_DEPTH, example='"60 cm"', fills="bottom_cm")]
    ph: Annotated[float | None, Key(ph_number(), example="7.9")]
    ph_method: Annotated[PhMethod | None, Key(PH_METHOD, example='"water 1:1"', fills="method")] = (
        PhMethod.UNKNOWN
    )
    carbonate_pct: Annotated[float | None, Key(scale_read(CARBONATE_PCT), example="12")] = None
    fizz: Annotated[Fizz | None, Key(_FIZZ, example='"strong"')] = None
    fizz_acid: Annotated[FizzAcid | None, Key(_FIZZ_ACID, example='"vinegar"')] = None


class SoilTable(Table):
    """What is known of the soil; leave out what nobody measured."""

    ph: Annotated[float | None, Key(ph_number(), example="7.2", group=Group.USUAL)] = None
    ph_method: Annotated[
        PhMethod | None, Key(PH_METHOD, example='"water 1:1"', group=Group.USUAL, also=("method",))
    ] = PhMethod.UNKNOWN
    other_ph: list[OtherPh] = Field(default_factory=list)
    texture: Annotated[
        TextureClass | None,
        Key(
            found_by_name(texture_by_name, kind="texture"),
            example='"loam"',
            group=Group.USUAL,
            suggests="textures",
        ),
    ] = None
    sand_pct: Annotated[
        float | None, Key(scale_read(share_pct("sand")), example="40", also=("sand",))
    ] = None
    silt_pct: Annotated[
        float | None, Key(scale_read(share_pct("silt")), example="40", also=("silt",))
    ] = None
    clay_pct: Annotated[
        float | None, Key(scale_read(share_pct("clay")), example="20", also=("clay",))
    ] = None
    organic_matter_pct: Annotated[
        float | None,
        Key(
            scale_read(ORGANIC_PCT),
            example="3",
            group=Group.USUAL,
            also=("om", "organic_matter", "humus"),
        ),
    ] = None
    organic_carbon_pct: Annotated[
        float | None, Key(scale_read(ORGANIC_PCT), example="1.7", also=("oc", "soc"))
    ] = None
    medium: Annotated[
        Medium | None,
        Key(
            choice(
                Medium,
                what="growing medium",
                aliases={"soil": "mineral", **MIX_SPELLINGS},
            ),
            example='"mineral"',
        ),
    ] = Medium.MINERAL
    carbonate_pct: Annotated[
        float | None,
        Key(scale_read(CARBONATE_PCT), example="1.5", also=("caco3", "carbonate", "free_lime")),
    ] = None
    fizz: Annotated[
        Fizz | None,
        Key(
            _FIZZ,
            example='"slight"',
            group=Group.USUAL,
        ),
    ] = None
    fizz_acid: Annotated[
        FizzAcid | None,
        Key(
            _FIZZ_ACID,
            example='"vinegar"',
            group=Group.USUAL,
        ),
    ] = None
    buffer_ph: Annotated[float | None, Key(_BUFFER_PH, example="6.6", also=("bph", "lti"))] = None
    buffer_ph_method: Annotated[
        str | None, Key(found_by_name(_buffer_method, kind="buffer-pH method"), example='"Sikora"')
    ] = None
    lab_lime_requirement: Annotated[
        float | None,
        Key(
            quantity(read_plain_rate_g_m2, "rate", "g/m2"),
            example='"2 t/ha"',
            fills="lab_lime_requirement_g_m2",
        ),
    ] = None
    cec_cmolc_kg: Annotated[
        float | None, Key(scale_read(CEC_CMOLC_KG), example="12", also=("cec",))
    ] = None
    base_saturation_pct: Annotated[
        float | None, Key(scale_read(share_pct("base saturation", high=200.0)), example="85")
    ] = None
    exchangeable_al_cmolc_kg: Annotated[
        float | None, Key(scale_read(ALUMINIUM_CMOLC_KG), example="0.5")
    ] = None
    mg_saturation_pct: Annotated[
        float | None, Key(scale_read(share_pct("magnesium saturation")), example="10")
    ] = None
    mg_mg_kg: Annotated[float | None, Key(scale_read(MAGNESIUM_MG_KG), example="45")] = None
    p_level: Annotated[
        PhosphorusLevel | None,
        Key(
            choice(
                PhosphorusLevel,
                what="level of phosphorus",
                aliases={
                    "very low": "low",
                    "optimum": "medium",
                    "adequate": "medium",
                    "excessive": "very high",
                    "index 0": "low",
                    "index 1": "low",
                    "index 2": "medium",
                    "index 3": "high",
                    "index 4": "very high",
                },
            ),
            example='"high"',
        ),
    ] = None
    sodium_pct: Annotated[float | None, Key(scale_read(share_pct("sodium share")), example="2")] = (
        None
    )
    ec_ds_m: Annotated[float | None, Key(scale_read(EC_DS_M), example="0.4", also=("ec",))] = None
    ec_method: Annotated[
        str | None,
        Key(
            word_choice(
                EC_METHODS,
                what="EC method",
                aliases={
                    "saturated paste": "paste",
                    "ece": "paste",
                    "saturation extract": "paste",
                    "ec1:5": "1:5",
                    "ec1:2": "1:2",
                    "ec1:1": "1:1",
                },
            ),
            example='"1:5"',
        ),
    ] = None
    bulk_density_g_cm3: Annotated[
        float | None, Key(scale_read(BULK_DENSITY_G_CM3), example="1.3", also=("bulk_density",))
    ] = None
    clay_type: Annotated[
        str | None,
        Key(
            word_choice(
                CLAY_TYPES,
                what="clay type",
                aliases={
                    "smectite": "high activity",
                    "montmorillonite": "high activity",
                    "vertisol": "high activity",
                    "2:1": "high activity",
                    "illite": "high activity",
                    "kaolinite": "low activity",
                    "oxide": "low activity",
                    "1:1": "low activity",
                    "lateritic": "low activity",
                    "allophane": "volcanic",
                    "allophanic": "volcanic",
                    "andosol": "volcanic",
                    "volcanic ash": "volcanic",
                },
            ),
            example='"low activity"',
        ),
    ] = None
    sampled: Annotated[datetime.date | None, Key(DATE, example="2026-03-20", group=Group.USUAL)] = (
        None
    )
    sample_depth: Annotated[
        Measure | None,
        Key(_DEPTH, example='"15 cm"', group=Group.USUAL, fills="sample_depth_cm"),
    ] = None
    layer: list[SoilLayer] = Field(default_factory=list)
