"""Water, feed, products, prices of tests, what was put on, readings, titration and claims."""

from __future__ import annotations

import datetime
from dataclasses import replace
from typing import Annotated

from loamshift.case.amounts import Amount, read_amount, read_plain_rate_g_m2, read_rate
from loamshift.case.case_key import Group, Key
from loamshift.case.label import EXAMPLE, LABEL
from loamshift.case.mend import Mend, for_example, quoted
from loamshift.case.quantities import (
    Measure,
    read_depth_cm,
    read_incorporated_cm,
    read_mass_g,
    share_pct,
)
from loamshift.case.reads import (
    DATE,
    Holds,
    Reads,
    choice,
    list_of,
    number,
    ph_number,
    whole,
    word_choice,
)
from loamshift.case.schema_base import (
    MATERIAL,
    PH_METHOD,
    LabelledTable,
    OwnName,
    Table,
    quantity,
)
from loamshift.case.schema_soil import scale_read
from loamshift.case.water_quantities import (
    WeeklyWater,
    read_alkalinity_mg_l_as_caco3,
    read_hardness_mg_l_as_caco3,
    read_weekly_water,
)
from loamshift.domain.label import Label
from loamshift.domain.material import Material
from loamshift.domain.message import message
from loamshift.domain.ph import PhMethod
from loamshift.domain.worth import FurtherTest

FEED_FORMS = ("ammonium", "urea", "nitrate", "ammonium nitrate")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_SIGNS = {"£": "GBP", "$": "USD", "€": "EUR"}


def _read_month(value: object) -> int:
    if isinstance(value, str) and value.strip()[:3].casefold() in _MONTHS:
        return _MONTHS.index(value.strip()[:3].casefold()) + 1
    month = whole(low=1, high=12).parse(value)
    assert isinstance(month, int)
    return month


_MONTHS_LISTED = list_of(
    Reads(parse=_read_month, takes=message("takes-month"), holds=Holds.NUMBER), longest=12
)


def _read_months(value: object) -> tuple[object, ...]:
    months = _MONTHS_LISTED.parse(value)
    assert isinstance(months, tuple)
    if len(set(months)) != len(months):
        once = list(dict.fromkeys(months))
        raise Mend(message("case-month-twice"), for_example(str(once)))
    return months


def _read_currency(value: object) -> str:
    if isinstance(value, str):
        cleaned = value.strip()
        cleaned = _SIGNS.get(cleaned, cleaned.upper())
        if len(cleaned) == 3 and cleaned.isascii() and cleaned.isalpha():
            return cleaned
    raise Mend(
        message("case-no-currency", given=quoted(value)), for_example('"GBP"', '"USD"', '"EUR"')
    )


_AMOUNT = quantity(read_amount, "amount", "g", bare="g-on-bed")
_MONTH_LIST = replace(_MONTHS_LISTED, parse=_read_months, takes=message("takes-months"))
CURRENCY = Reads(parse=_read_currency, takes=message("takes-currency"), holds=Holds.CODE)
_OWN_CURRENCY = message("takes-unit", unit="own-currency")
_PER_PACK = message("takes-unit", unit="per-pack")
_RATE = quantity(read_rate, "rate", "g/m2")


class WaterTable(Table):
    """The water that is given."""

    alkalinity: Annotated[
        Measure | None,
        Key(
            quantity(read_alkalinity_mg_l_as_caco3, "alkalinity", "mg/L CaCO3"),
            example='"180 mg/L CaCO3"',
            group=Group.USUAL,
            fills="alkalinity_mg_l_as_caco3",
            also=("bicarbonate",),
        ),
    ] = None
    weekly: Annotated[
        WeeklyWater | None,
        Key(
            quantity(read_weekly_water, "volume or depth", "L", bare="l-on-bed"),
            example='"25 mm"',
            group=Group.USUAL,
            fills="weekly_mm",
        ),
    ] = None
    months: Annotated[tuple[int, ...] | None, Key(_MONTH_LIST, example="[5, 6, 7, 8, 9]")] = None
    hardness: Annotated[
        Measure | None,
        Key(
            quantity(read_hardness_mg_l_as_caco3, "hardness", "mg/L CaCO3"),
            example='"16 dH"',
            fills="hardness_mg_l_as_caco3",
        ),
    ] = None


class FeedTable(LabelledTable):
    """The yearly feed: nitrogen and its form, or a material with its rate."""

    n_g_m2_year: Annotated[
        float | None,
        Key(quantity(read_plain_rate_g_m2, "rate", "g/m2", bare="g-nitrogen"), example="6"),
    ] = None
    form: Annotated[
        str | None,
        Key(
            word_choice(
                FEED_FORMS,
                what="form of nitrogen",
                aliases={"nh4": "ammonium", "no3": "nitrate", "nh4no3": "ammonium nitrate"},
            ),
            example='"ammonium"',
        ),
    ] = None
    material: Annotated[
        Material | OwnName | None, Key(MATERIAL, example='"ammonium sulfate"', suggests="materials")
    ] = None
    label: Annotated[Label | None, Key(LABEL, example=EXAMPLE)] = None
    rate: Annotated[Amount | None, Key(_RATE, example='"20 g/m2"')] = None
    times: Annotated[int | None, Key(whole(low=1, high=366), example="2")] = 1


class OnHandEntry(LabelledTable):
    """A product you have or can buy, with its price."""

    material: Annotated[
        Material | OwnName | None,
        Key(MATERIAL, example='"elemental sulfur, prills"', suggests="materials"),
    ]
    label: Annotated[Label | None, Key(LABEL, example=EXAMPLE)] = None
    purity_pct: Annotated[float | None, Key(scale_read(share_pct("purity")), example="90")] = None
    pack: Annotated[
        Measure | None, Key(quantity(read_mass_g, "weight", "g"), example='"25 kg"', fills="pack_g")
    ] = None
    price: Annotated[
        float | None, Key(number(low=0, high=1e7, said=_PER_PACK), example="32.50")
    ] = None
    currency: Annotated[str | None, Key(CURRENCY, example='"GBP"')] = None


class TestPriceEntry(Table):
    """What a test costs you, with postage."""

    __test__ = False

    test: Annotated[
        FurtherTest | None, Key(choice(FurtherTest, what="test"), example='"buffer-ph"')
    ]
    price: Annotated[
        float | None, Key(number(low=0, high=1e7, said=_OWN_CURRENCY), example="12.50")
    ]


class AppliedEntry(LabelledTable):
    """Something already put on."""

    date: Annotated[datetime.date | None, Key(DATE, example="2025-10-05")]
    material: Annotated[
        Material | OwnName | None,
        Key(MATERIAL, example='"elemental sulfur, powder"', suggests="materials"),
    ]
    label: Annotated[Label | None, Key(LABEL, example=EXAMPLE)] = None
    amount: Annotated[Amount | None, Key(_AMOUNT, example='"600 g"')] = None
    rate: Annotated[Amount | None, Key(_RATE, example='"30 g/m2"')] = None
    incorporated: Annotated[
        Measure | None,
        Key(
            quantity(read_incorporated_cm, "depth", "cm", bare="cm-from-surface"), example='"10 cm"'
        ),
    ] = None


class ReadingEntry(Table):
    """A pH read earlier or later than the main sample."""

    date: Annotated[datetime.date | None, Key(DATE, example="2025-10-01", fills="taken")]
    ph: Annotated[float | None, Key(ph_number(), example="7.0")]
    ph_method: Annotated[PhMethod | None, Key(PH_METHOD, example='"water 1:1"', fills="method")] = (
        PhMethod.UNKNOWN
    )
    depth: Annotated[
        Measure | None,
        Key(quantity(read_depth_cm, "depth", "cm"), example='"15 cm"', fills="depth_cm"),
    ] = None
    ph_sd: Annotated[float | None, Key(number(low=0.001, high=3, unit="pH"), example="0.1")] = None


class TitrationEntry(Table):
    """One jar of a titration of this soil."""

    acid_mmolc_kg: Annotated[
        float | None, Key(number(low=-5000, high=5000, unit="mmolc/kg"), example="20")
    ]
    ph: Annotated[float | None, Key(ph_number(), example="6.1")]


class ClaimEntryTable(LabelledTable):
    """Something somebody proposes: what would it do?"""

    material: Annotated[
        Material | OwnName | None, Key(MATERIAL, example='"coffee grounds"', suggests="materials")
    ]
    label: Annotated[Label | None, Key(LABEL, example=EXAMPLE)] = None
    amount: Annotated[Amount | None, Key(_AMOUNT, example='"3 cups"')] = None
    rate: Annotated[Amount | None, Key(_RATE, example='"1 cup per plant"')] = None
