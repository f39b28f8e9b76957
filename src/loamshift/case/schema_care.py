"""Water, feed, products, what was put on, readings, titration and claims."""

from __future__ import annotations

import datetime
from typing import Annotated

from pydantic import Field

from loamshift.case.amounts import Amount, read_amount, read_plain_rate_g_m2, read_rate
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
    Reads,
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

FEED_FORMS = ("ammonium", "urea", "nitrate", "ammonium nitrate")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_SIGNS = {"£": "GBP", "$": "USD", "€": "EUR"}


def _read_month(value: object) -> int:
    if isinstance(value, str) and value.strip()[:3].casefold() in _MONTHS:
        return _MONTHS.index(value.strip()[:3].casefold()) + 1
    month = whole(low=1, high=12, what="months").parse(value)
    assert isinstance(month, int)
    return month


def _read_months(value: object) -> tuple[object, ...]:
    months = list_of(Reads(_read_month, "month, 1 to 12"), what="months", longest=12).parse(value)
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


_LABEL_MEANS = "The bag's analysis; `material` may then be the product's own name."
_AMOUNT = quantity(read_amount, "amount", "g on the whole bed")
_RATE = quantity(read_rate, "rate", "g/m2")


class WaterTable(Table):
    """The water that is given."""

    alkalinity: Annotated[
        Measure | None, quantity(read_alkalinity_mg_l_as_caco3, "alkalinity", "mg/L CaCO3")
    ] = Field(
        default=None,
        description="Alkalinity (bicarbonate) of the water; not its hardness, not its pH.",
        examples=['"180 mg/L CaCO3"'],
    )
    weekly: Annotated[
        WeeklyWater | None, quantity(read_weekly_water, "volume or depth", "L on the whole bed")
    ] = Field(
        default=None,
        description="Water given in a week of watering: a volume for the whole bed, or a depth.",
        examples=['"550 L"'],
    )
    months: Annotated[tuple[int, ...] | None, Reads(_read_months, "list of months, 1 to 12")] = (
        Field(
            default=None,
            description="Months with watering; where not said 5 to 9, south of "
            "the equator 11 to 3.",
            examples=["[5, 6, 7, 8, 9]"],
        )
    )
    hardness: Annotated[
        Measure | None, quantity(read_hardness_mg_l_as_caco3, "hardness", "mg/L CaCO3")
    ] = Field(
        default=None,
        description="Hardness, if that is all you know: it is answered, but "
        "never taken for alkalinity.",
        examples=['"16 dH"'],
    )


class FeedTable(LabelledTable):
    """The yearly feed: nitrogen and its form, or a material with its rate."""

    n_g_m2_year: Annotated[
        float | None, quantity(read_plain_rate_g_m2, "rate", "g nitrogen per m2 and year")
    ] = Field(default=None, description="Nitrogen given in a year; needs `form`.", examples=["6"])
    form: Annotated[
        str | None,
        word_choice(
            FEED_FORMS,
            what="form of nitrogen",
            aliases={"nh4": "ammonium", "no3": "nitrate", "nh4no3": "ammonium nitrate"},
        ),
    ] = Field(default=None, description="Form of that nitrogen.", examples=['"ammonium"'])
    material: Annotated[Material | OwnName | None, MATERIAL] = Field(
        default=None,
        description="The feed itself, instead of `n_g_m2_year` and `form`.",
        examples=['"ammonium sulfate"'],
    )
    label: Annotated[Label | None, LABEL] = Field(
        default=None, description=_LABEL_MEANS, examples=[EXAMPLE]
    )
    rate: Annotated[Amount | None, _RATE] = Field(
        default=None, description="Rate of that feed, each time.", examples=['"20 g/m2"']
    )
    times: Annotated[int | None, whole(low=1, high=366, what="times a year")] = Field(
        default=1, description="How many times a year.", examples=["2"]
    )


class OnHandEntry(LabelledTable):
    """A product you have or can buy, with its price."""

    material: Annotated[Material | OwnName | None, MATERIAL] = Field(
        description="What it is (`loamshift materials`).", examples=['"elemental sulfur, prills"']
    )
    label: Annotated[Label | None, LABEL] = Field(
        default=None, description=_LABEL_MEANS, examples=[EXAMPLE]
    )
    purity_pct: Annotated[
        float | None, quantity(share_pct("purity").read, "number, 0 to 100", "%")
    ] = Field(
        default=None,
        description="Purity on the label; for lime its neutralising value.",
        examples=["90"],
    )
    pack: Annotated[Measure | None, quantity(read_mass_g, "weight", "g")] = Field(
        default=None, description="Weight of the pack.", examples=['"25 kg"']
    )
    price: Annotated[float | None, number(low=0, high=1e7, unit="per pack")] = Field(
        default=None, description="Price of that pack.", examples=["32.50"]
    )
    currency: Annotated[str | None, Reads(_read_currency, "three letters")] = Field(
        default=None, description="Currency of the price.", examples=['"GBP"']
    )


class AppliedEntry(LabelledTable):
    """Something already put on."""

    date: Annotated[datetime.date | None, DATE] = Field(
        description="Day it went on.", examples=["2025-10-05"]
    )
    material: Annotated[Material | OwnName | None, MATERIAL] = Field(
        description="What went on.", examples=['"elemental sulfur, powder"']
    )
    label: Annotated[Label | None, LABEL] = Field(
        default=None, description=_LABEL_MEANS, examples=[EXAMPLE]
    )
    amount: Annotated[Amount | None, _AMOUNT] = Field(
        default=None,
        description="How much, on the whole bed; or give `rate`.",
        examples=['"600 g"'],
    )
    rate: Annotated[Amount | None, _RATE] = Field(
        default=None,
        description="How much per area, plant or pot; or give `amount`.",
        examples=['"30 g/m2"'],
    )
    incorporated: Annotated[
        Measure | None, quantity(read_incorporated_cm, "depth", "cm; 0 is the surface")
    ] = Field(
        default=None,
        description="How deep it was worked in; the surface where not said.",
        examples=['"10 cm"'],
    )


class ReadingEntry(Table):
    """A pH read earlier or later than the main sample."""

    date: Annotated[datetime.date | None, DATE] = Field(
        description="Day the sample was taken.", examples=["2025-10-01"]
    )
    ph: Annotated[float | None, ph_number()] = Field(description="The reading.", examples=["7.0"])
    ph_method: Annotated[PhMethod | None, PH_METHOD] = Field(
        default=PhMethod.UNKNOWN, description="How it was read.", examples=['"water 1:1"']
    )
    depth: Annotated[Measure | None, quantity(read_depth_cm, "depth", "cm")] = Field(
        default=None, description="Depth sampled.", examples=['"15 cm"']
    )
    ph_sd: Annotated[float | None, number(low=0.001, high=3, unit="pH")] = Field(
        default=None, description="Its standard deviation, where you know it.", examples=["0.1"]
    )


class TitrationEntry(Table):
    """One jar of a titration of this soil."""

    acid_mmolc_kg: Annotated[float | None, number(low=-5000, high=5000, unit="mmolc/kg")] = Field(
        description="Acid added to the jar; lime or base is negative.", examples=["20"]
    )
    ph: Annotated[float | None, ph_number()] = Field(
        description="pH in water when it has settled.", examples=["6.1"]
    )


class ClaimEntryTable(LabelledTable):
    """Something somebody proposes: what would it do?"""

    material: Annotated[Material | OwnName | None, MATERIAL] = Field(
        description="What is proposed.", examples=['"coffee grounds"']
    )
    label: Annotated[Label | None, LABEL] = Field(
        default=None, description=_LABEL_MEANS, examples=[EXAMPLE]
    )
    amount: Annotated[Amount | None, _AMOUNT] = Field(
        default=None,
        description="How much, on the whole bed; or give `rate`.",
        examples=['"3 cups"'],
    )
    rate: Annotated[Amount | None, _RATE] = Field(
        default=None,
        description="How much per area, plant or pot; or give `amount`.",
        examples=['"1 cup per plant"'],
    )
