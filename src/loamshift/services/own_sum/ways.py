"""The sums of one product among others: its rate, price, salt and speed."""

from __future__ import annotations

from datetime import date, timedelta

from loamshift.core.acidity import CACO3_BASE_MOLC_KG
from loamshift.core.salinity import ec_rise_ds_m, saturation_water_kg_kg
from loamshift.domain.answer import Option
from loamshift.domain.case import OnHand
from loamshift.domain.material import Material, MaterialGroup
from loamshift.domain.message import Prose, amount, message, prose, rate, salt
from loamshift.domain.own_sum import Origin, OwnSum, SumInput, SumStep, SumUnit
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.warmth import start_date
from loamshift.services.materials.acid import acid_brought_mmolc_m2, weeks_to_half
from loamshift.services.materials.named import material_named
from loamshift.services.own_sum import inputs as of
from loamshift.services.own_sum.opened import OpenedBed
from loamshift.services.plan.plan import first_season_mmolc_m2
from loamshift.services.products.options import as_sold, working_mmolc_m2
from loamshift.tables.model import salinity_parameters


def way_sum(bed: OpenedBed, key: str, option: Option, field: str) -> OwnSum:
    """One figure of one product."""
    product = _rate_step(bed, option)
    if field in ("rate_g_m2", "amount_g", "cost"):
        steps = [*product]
        if field != "rate_g_m2":
            steps.append(_amount_step(bed, steps[-1]))
        if field == "cost":
            steps.append(_cost_step(bed, option, steps[-1]))
    elif field == "ec_rise_ds_m":
        steps = [*product, *_salt_steps(bed, option, product[-1])]
    elif field == "weeks_to_half":
        steps = [_half_step(bed, option)]
    else:
        steps = [*_price_steps(bed, option, lime=field == "cost_per_kg_caco3_eq")]
    sold, _ = _sold(bed, option)
    return OwnSum(
        key=key,
        title=message("why-sum-way", what=_choice(field)),
        steps=tuple(steps),
        answer_value=getattr(option, field),
        sure=prose(message("why-sure-way", what=_choice(field))),
        narrow=Prose(),
        source_keys=tuple(
            dict.fromkeys(
                figure.source_key
                for name, figure in sold.figures.items()
                if name in ("elemental_s_frac", "caco3_eq_frac", "fast_acid_molc_kg")
            )
        ),
    )


def _choice(field: str) -> str:
    return {
        "rate_g_m2": "rate",
        "amount_g": "amount",
        "cost": "cost",
        "cost_per_mol_acid": "price-acid",
        "cost_per_kg_caco3_eq": "price-lime",
        "weeks_to_half": "half",
        "ec_rise_ds_m": "salt",
    }[field]


def _sold(bed: OpenedBed, option: Option) -> tuple[Material, OnHand | None]:
    """The product in the strength it is sold in, and the pack on hand where there is one."""
    for item in bed.context.case.on_hand:
        if item.material.key == option.material:
            return as_sold(item.material, purity_pct=item.purity_pct), item
    return material_named(option.material, own=bed.context.case.own_materials), None


def _per_gram(bed: OpenedBed, option: Option) -> SumInput:
    sold, _ = _sold(bed, option)
    direction = bed.answer.dose.direction
    value = working_mmolc_m2(bed.context, sold, rate_g_m2=1.0, direction=direction)
    name = message("why-in-works-per-gram", way="acidify" if bed.acidify else "lime")
    return of.fixed("a", name, value, SumUnit.MMOLC_G)


def _rate_step(bed: OpenedBed, option: Option) -> list[SumStep]:
    rule = bed.answer.plan
    assert rule is not None
    needed = first_season_mmolc_m2(
        bed.context,
        rule=rule,
        applications=bed.answer.applications,
        direction=bed.answer.dose.direction,
    )
    per_gram = _per_gram(bed, option)
    brought = of.counted("b", message("why-in-first-season"), needed, SumUnit.MMOLC_M2)
    value = needed / per_gram.value
    return [
        SumStep(
            says=message("why-step-way"),
            symbol="R",
            value=value,
            unit=SumUnit.G_M2,
            formula="{R} = {b} / {a}",
            inputs=(brought, per_gram),
            result=rate(value),
        )
    ]


def _amount_step(bed: OpenedBed, step: SumStep) -> SumStep:
    area = bed.context.total_area_m2 or 0.0
    return SumStep(
        says=message("why-step-amount"),
        symbol="W",
        value=step.value * area,
        unit=SumUnit.G,
        formula="{W} = {R} × {A}",
        inputs=(
            of.before(step, message("why-in-rate")),
            of.said("A", message("why-in-area"), area, SumUnit.M2, "bed.area"),
        ),
        result=amount(step.value * area),
    )


def _pack(bed: OpenedBed, option: Option) -> tuple[SumInput, SumInput]:
    _, item = _sold(bed, option)
    assert item is not None and item.price is not None and item.pack_g is not None
    return (
        of.said("p", message("why-in-price"), item.price, SumUnit.PRICE, "on_hand.price"),
        of.said("K", message("why-in-pack"), item.pack_g, SumUnit.G, "on_hand.pack"),
    )


def _cost_step(bed: OpenedBed, option: Option, step: SumStep) -> SumStep:
    price, pack = _pack(bed, option)
    return SumStep(
        says=message("why-step-cost"),
        symbol="€",
        value=price.value / pack.value * step.value,
        unit=SumUnit.PRICE,
        formula="{€} = {p} / {K} × {W}",
        inputs=(price, pack, of.before(step, message("why-in-amount"))),
    )


def _price_steps(bed: OpenedBed, option: Option, *, lime: bool) -> list[SumStep]:
    price, pack = _pack(bed, option)
    per_gram = _per_gram(bed, option)
    mole = SumStep(
        says=message("why-step-price", way="lime" if lime else "acidify"),
        symbol="u",
        value=1000.0 * price.value / pack.value / per_gram.value,
        unit=SumUnit.PRICE_MOL,
        formula="{u} = 1000 × {p} / {K} / {a}",
        inputs=(price, pack, per_gram),
    )
    if not lime:
        return [mole]
    whole = of.fixed("y", message("why-in-lime-mol"), CACO3_BASE_MOLC_KG, SumUnit.NONE)
    kilogram = SumStep(
        says=message("why-step-price-lime"),
        symbol="U",
        value=mole.value * whole.value,
        unit=SumUnit.PRICE_KG,
        formula="{U} = {u} × {y}",
        inputs=(of.before(mole, message("why-in-price-mol")), whole),
    )
    return [mole, kilogram]


def _salt_steps(bed: OpenedBed, option: Option, product: SumStep) -> list[SumStep]:
    soil, params = require_soil(bed.context), salinity_parameters()
    sold, _ = _sold(bed, option)
    is_sulfur = sold.group is MaterialGroup.SULFUR
    per_gram = (
        acid_brought_mmolc_m2(sold, rate_g_m2=1.0, in_pot=True) if is_sulfur else sold.salt_molc_kg
    )
    water = saturation_water_kg_kg(
        field_capacity_frac=soil.field_capacity_frac,
        bulk_density_g_cm3=soil.bulk_density_g_cm3,
        params=params,
    )
    value = ec_rise_ds_m(
        salt_mmolc_m2=per_gram * product.value,
        depth_cm=bed.context.depth_cm,
        bulk_density_g_cm3=soil.bulk_density_g_cm3,
        saturation_water_kg_kg=water,
        params=params,
        gypsum_only=is_sulfur,
    )
    mass = of.mass_step(bed)
    ceiling = of.parameter("t", "salinity.gypsum_ec_ds_m", SumUnit.DS_M)
    rise = "{R} × {s} / ({m} × {z}) / {x}"
    step = SumStep(
        says=message("why-step-salt", gypsum="yes" if is_sulfur else "no"),
        symbol="EC",
        value=value,
        unit=SumUnit.DS_M,
        formula=f"{{EC}} = min({rise}, {{t}})" if is_sulfur else f"{{EC}} = {rise}",
        inputs=(
            of.before(product, message("why-in-rate")),
            of.fixed("s", message("why-in-salt-per-gram"), per_gram, SumUnit.MMOLC_G),
            of.before(mass, message("why-in-mass")),
            of.fixed("z", message("why-in-paste-water"), water, SumUnit.NONE),
            of.parameter("x", "salinity.mmolc_l_per_ds_m"),
            *((ceiling,) if is_sulfur else ()),
        ),
        result=salt(value),
    )
    return [mass, step]


def _half_step(bed: OpenedBed, option: Option) -> SumStep:
    context, ph = bed.context, require_soil(bed.context).ph.ph_water
    start = start_date(context, acidify=bed.acidify, not_before=bed.case.today)
    sold, _ = _sold(bed, option)
    weeks = weeks_to_half(
        sold,
        soil_temp_c=context.soil_temp_c,
        start=start,
        ph_water=ph,
        in_pot=context.in_pot,
        land_use=context.nitrogen_use,
        incorporated=not context.planted,
    )
    value = 0.0 if weeks is None else weeks
    return SumStep(
        says=message("why-step-half", day=start),
        symbol="t",
        value=value,
        unit=SumUnit.WEEKS,
        inputs=warmth_inputs(bed, start, start + timedelta(days=round(7.0 * value))),
    )


def warmth_inputs(bed: OpenedBed, start: date, end: date) -> tuple[SumInput, ...]:
    """Mean temperature of the soil between two days; empty without a place [degC].

    Returns
    -------
    tuple of SumInput
        The mean; empty without a place [degC].
    """
    temps = bed.context.soil_temp_c
    if not temps or end <= start:
        return ()
    days = [start + timedelta(days=n) for n in range((end - start).days)]
    mean = sum(temps[min(day.timetuple().tm_yday, 365) - 1] for day in days) / len(days)
    return (
        SumInput(
            symbol="T",
            name=message("why-in-warmth"),
            value=mean,
            unit=SumUnit.DEG_C,
            origin=Origin.TABLE,
            path="place",
            source_key="" if bed.context.place is None else bed.context.place.source_key,
        ),
    )
