"""Growing in pots instead, as the case file has it."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated

from loamshift.case.case_key import Key
from loamshift.case.quantities import Measure, read_volume_l
from loamshift.case.reads import FLAG, number, word_choice
from loamshift.case.schema_base import Table, quantity
from loamshift.case.schema_soil import MIX_SPELLINGS
from loamshift.domain.message import message
from loamshift.domain.soil import Medium

_MIXES = word_choice(
    tuple(one.value for one in Medium if one is not Medium.MINERAL),
    what="growing medium",
    aliases=MIX_SPELLINGS,
)
_MIX = replace(_MIXES, parse=lambda value: Medium(str(_MIXES.parse(value))))
_PER_LITRE = message("takes-unit", unit="per-litre")
_OWN_CURRENCY = message("takes-unit", unit="own-currency")


class PotTable(Table):
    """Growing in pots instead of this ground, side by side over five years."""

    compare: Annotated[bool | None, Key(FLAG, example="true")] = None
    volume: Annotated[
        Measure | None,
        Key(quantity(read_volume_l, "volume", "L"), example='"40 L"', fills="volume_l"),
    ] = None
    medium: Annotated[Medium | None, Key(_MIX, example='"peat-free mix"')] = None
    mix_price: Annotated[
        float | None,
        Key(
            number(low=0, high=1e4, said=_PER_LITRE),
            example="0.25",
            fills="mix_price_per_l",
        ),
    ] = None
    price: Annotated[
        float | None, Key(number(low=0, high=1e5, said=_OWN_CURRENCY), example="12.50")
    ] = None
