"""The soil, as the case file has it."""

from __future__ import annotations

import datetime
from typing import Annotated

from pydantic import Field

from loamshift.case.amounts import read_plain_rate_g_m2
from loamshift.case.quantities import (
    ALUMINIUM_CMOLC_KG,
    BULK_DENSITY_G_CM3,
    CARBONATE_PCT,
    CEC_CMOLC_KG,
    EC_DS_M,
    ORGANIC_PCT,
    Measure,
    Scale,
    read_depth_cm,
    share_pct,
)
from loamshift.case.reads import (
    DATE,
    Reads,
    choice,
    found_by_name,
    ph_number,
    texture_by_name,
    word_choice,
)
from loamshift.case.schema_base import PH_METHOD, Table, quantity
from loamshift.domain.names import match_name
from loamshift.domain.ph import PhMethod
from loamshift.domain.soil import Fizz, FizzAcid, Medium, TextureClass

EC_METHODS = ("paste", "1:1", "1:2", "1:5")
CLAY_TYPES = ("high activity", "low activity", "volcanic")


def _scale(scale: Scale) -> Reads:
    others = [
        unit for unit in scale.units if unit not in (scale.unit, "pct", "percent", "per cent")
    ]
    also = f"; {', '.join(others)} are read too" if others else ""
    bare = f"number, {scale.low:g} to {scale.high:g} {scale.unit}"
    return Reads(scale.read, bare + also)


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


class OtherPh(Table):
    """A second pH of the same sample, by another method."""

    ph: Annotated[float | None, ph_number()] = Field(description="The reading.", examples=["6.4"])
    ph_method: Annotated[PhMethod | None, PH_METHOD] = Field(
        default=PhMethod.UNKNOWN, description="How it was read.", examples=['"CaCl2"']
    )


class SoilTable(Table):
    """What is known of the soil; leave out what nobody measured."""

    ph: Annotated[float | None, ph_number()] = Field(
        default=None, description="The soil's pH as read.", examples=["7.2"]
    )
    ph_method: Annotated[PhMethod | None, PH_METHOD] = Field(
        default=PhMethod.UNKNOWN,
        description="How the pH was read; a missing method counts as unknown.",
        examples=['"water 1:1"'],
    )
    other_ph: list[OtherPh] = Field(
        default_factory=list,
        description="More readings of the same sample.",
        examples=['[{ ph = 6.6, ph_method = "CaCl2" }]'],
    )
    texture: Annotated[TextureClass | None, found_by_name(texture_by_name, kind="texture")] = Field(
        default=None, description="Texture class, by feel or by laboratory.", examples=['"loam"']
    )
    sand_pct: Annotated[float | None, _scale(share_pct("sand"))] = Field(
        default=None, description="Sand of the mineral part.", examples=["40"]
    )
    silt_pct: Annotated[float | None, _scale(share_pct("silt"))] = Field(
        default=None, description="Silt of the mineral part.", examples=["40"]
    )
    clay_pct: Annotated[float | None, _scale(share_pct("clay"))] = Field(
        default=None, description="Clay of the mineral part.", examples=["20"]
    )
    organic_matter_pct: Annotated[float | None, _scale(ORGANIC_PCT)] = Field(
        default=None, description="Organic matter, loss on ignition.", examples=["3"]
    )
    organic_carbon_pct: Annotated[float | None, _scale(ORGANIC_PCT)] = Field(
        default=None,
        description="Organic carbon, about 0.58 of the organic matter.",
        examples=["1.7"],
    )
    medium: Annotated[
        Medium | None,
        choice(
            Medium,
            what="growing medium",
            aliases={"soil": "mineral", "peat": "peat mix", "bark": "bark mix"},
        ),
    ] = Field(
        default=Medium.MINERAL, description="What the roots stand in.", examples=['"mineral"']
    )
    carbonate_pct: Annotated[float | None, _scale(CARBONATE_PCT)] = Field(
        default=None, description="Free lime, as CaCO3.", examples=["1.5"]
    )
    fizz: Annotated[
        Fizz | None,
        choice(Fizz, what="fizz", aliases={"no": "none", "weak": "slight", "violent": "extreme"}),
    ] = Field(
        default=None, description="What a drop of acid on the soil did.", examples=['"slight"']
    )
    fizz_acid: Annotated[
        FizzAcid | None,
        choice(
            FizzAcid,
            what="acid of the fizz test",
            aliases={
                "hydrochloric acid": "HCl",
                "muriatic acid": "HCl",
                "white vinegar": "vinegar",
            },
        ),
    ] = Field(
        default=None,
        description="The acid of that test: 10 % hydrochloric acid, or vinegar.",
        examples=['"vinegar"'],
    )
    buffer_ph: Annotated[float | None, Reads(_read_buffer_ph, "pH, 3 to 9, or 48 to 80")] = Field(
        default=None,
        description="Buffer pH of the laboratory, not a soil pH; a lime test index of 48 to 80 is "
        "read as ten times the buffer pH.",
        examples=["6.6"],
    )
    buffer_ph_method: Annotated[
        str | None, found_by_name(_buffer_method, kind="buffer-pH method")
    ] = Field(default=None, description="The laboratory's buffer.", examples=['"Sikora"'])
    lab_lime_requirement: Annotated[
        float | None, quantity(read_plain_rate_g_m2, "rate", "g/m2")
    ] = Field(
        default=None,
        description="The lime the laboratory's own report asks for.",
        examples=['"2 t/ha"'],
    )
    cec_cmolc_kg: Annotated[float | None, _scale(CEC_CMOLC_KG)] = Field(
        default=None, description="Cation exchange capacity.", examples=["12"]
    )
    base_saturation_pct: Annotated[
        float | None, _scale(share_pct("base saturation", high=200.0))
    ] = Field(
        default=None,
        description="Base saturation; free lime may push it past 100.",
        examples=["85"],
    )
    exchangeable_al_cmolc_kg: Annotated[float | None, _scale(ALUMINIUM_CMOLC_KG)] = Field(
        default=None, description="Exchangeable aluminium.", examples=["0.5"]
    )
    mg_saturation_pct: Annotated[float | None, _scale(share_pct("magnesium saturation"))] = Field(
        default=None,
        description="Share of exchange places held by magnesium; decides whether "
        "dolomitic lime is better.",
        examples=["10"],
    )
    sodium_pct: Annotated[float | None, _scale(share_pct("sodium share"))] = Field(
        default=None, description="Exchangeable sodium percentage.", examples=["2"]
    )
    ec_ds_m: Annotated[float | None, _scale(EC_DS_M)] = Field(
        default=None, description="Electrical conductivity.", examples=["0.4"]
    )
    ec_method: Annotated[
        str | None,
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
    ] = Field(default=None, description="Extract the conductivity was read in.", examples=['"1:5"'])
    bulk_density_g_cm3: Annotated[float | None, _scale(BULK_DENSITY_G_CM3)] = Field(
        default=None, description="Dry bulk density.", examples=["1.3"]
    )
    clay_type: Annotated[
        str | None,
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
    ] = Field(
        default=None,
        description="Kind of clay; soils from volcanic ash buffer far more.",
        examples=['"low activity"'],
    )
    sampled: Annotated[datetime.date | None, DATE] = Field(
        default=None, description="Day the sample was taken.", examples=["2026-03-20"]
    )
    sample_depth: Annotated[Measure | None, quantity(read_depth_cm, "depth", "cm")] = Field(
        default=None,
        description="Depth the sample was taken to, from the surface.",
        examples=['"15 cm"'],
    )
