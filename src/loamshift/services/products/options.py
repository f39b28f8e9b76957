"""Ways to bring the same acid or lime, side by side: rate, cost, speed, salt and cautions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from loamshift.core.acidity import CACO3_BASE_MOLC_KG
from loamshift.core.salinity import ec_rise_ds_m, saturation_water_kg_kg
from loamshift.domain.answer import Direction, Option
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import OnHand
from loamshift.domain.material import Material, MaterialGroup
from loamshift.services.context.build_context import require_soil
from loamshift.services.materials.acid import (
    LONGEST_DAYS,
    acid_brought_mmolc_m2,
    acid_within_days,
    weeks_to_half,
)
from loamshift.services.materials.caps import product_cap
from loamshift.services.materials.named import material_named
from loamshift.services.products.prices import (
    LEAST_SHARE,
    as_sold,
    cost_per_kg_s,
    price_per_g,
    reacting_share_by,
    reactive_cost_per_kg_s,
)
from loamshift.tables.lime_share import (
    usual_share,
)
from loamshift.tables.magnesium import is_short_of_magnesium
from loamshift.tables.model import salinity_parameters, verdict_values

__all__ = [
    "ACID_CHOICES",
    "LIME_CHOICES",
    "as_sold",
    "cost_per_kg_s",
    "options",
    "reacting_share_by",
    "reactive_cost_per_kg_s",
    "useless_on_hand",
    "working_mmolc_m2",
]

ACID_CHOICES: Final = (
    "elemental sulfur, powder",
    "elemental sulfur, 100 mesh",
    "elemental sulfur, pastilles",
    "elemental sulfur, prills",
    "ferrous sulfate, heptahydrate",
    "aluminium sulfate, 18-hydrate",
    "ammonium sulfate",
)
LIME_CHOICES: Final = (
    "ground limestone, calcitic",
    "ground limestone, dolomitic",
    "pelletised limestone",
    "wood ash",
    "hydrated lime",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Candidate:
    """A product as sold, with its price per gram where one was given."""

    material: Material
    price_per_g: float | None
    currency: str | None
    on_hand: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ranked:
    """An option with what it is ranked by."""

    option: Option
    blocked: bool
    reactive_cost: float | None
    fit: tuple[int, float]


def options(
    context: BedContext,
    *,
    acid_mmolc_m2: float,
    direction: Direction,
    on_hand: Iterable[OnHand],
    start: date,
) -> tuple[Option, ...]:
    """Ways to bring so much acid or base to this bed, the best first.

    Answers what each costs, how fast it works and what it does besides. The whole need is shown
    for each, though it goes on in parts; a feed is left out where its nitrogen would pass the
    yearly limit, unless it is on hand.

    Parameters
    ----------
    acid_mmolc_m2
        Acid to bring, or base where the direction is lime; its sign does not count [mmolc/m2].

    Returns
    -------
    tuple of Option
        Those with a price first, by the price of what acts by the wanted date (a year from the
        start where none is wanted); then by fit: sulfur before salts and the faster grade
        first, ground limestone before what is dearer or burns;
        what passes the limits of three seasons, or burns, last.

    Raises
    ------
    InputError
        Where an amount on hand cannot be used as told.

    Notes
    -----
    Sulfur and salts count by stoichiometry; lime by neutralising value, the share of its grains
    that dissolves in three years, and the field efficiency of the liming trials. Salt is the rise
    of the saturated paste were all of it put on at once: of sulfur it stops at that of gypsum.

    References
    ----------
    own-arithmetic, glendining-2023, huang-2007
    """
    needed = abs(acid_mmolc_m2)
    if direction is Direction.NONE or needed == 0.0 or context.soil is None:
        return ()
    ranked = [
        item
        for candidate in _candidates(context, direction, on_hand)
        if (item := _rank(context, candidate, needed, direction, start)) is not None
    ]
    ranked.sort(key=_order)
    return tuple(item.option for item in ranked)


def compared_products(
    context: BedContext,
    *,
    acid_mmolc_m2: float,
    direction: Direction,
    on_hand: Iterable[OnHand],
) -> tuple[str, ...]:
    """Names of the products that ``options`` would list, in no order and without their figures.

    Parameters
    ----------
    acid_mmolc_m2
        As for ``options`` [mmolc/m2].
    """
    needed = abs(acid_mmolc_m2)
    if direction is Direction.NONE or needed == 0.0 or context.soil is None:
        return ()
    return tuple(
        candidate.material.key
        for candidate in _candidates(context, direction, on_hand)
        if _comes_into_question(
            candidate,
            _effective_mmolc_g(context, candidate.material, direction),
            year_g_m2=_year_g_m2(context, candidate.material),
            needed_mmolc_m2=needed,
        )
    )


def useless_on_hand(on_hand: Iterable[OnHand], *, direction: Direction) -> tuple[str, ...]:
    """Products the user has that bring nothing in this direction, or the contrary."""
    return tuple(
        item.material.key
        for item in on_hand
        if _acting_mmolc_g(as_sold(item.material, purity_pct=item.purity_pct), direction) <= 0.0
    )


def working_mmolc_m2(
    context: BedContext, material: Material, *, rate_g_m2: float, direction: Direction
) -> float:
    """Acid or base of a product that counts towards the need.

    Parameters
    ----------
    rate_g_m2
        How much of it, 0 or more [g/m2].

    Returns
    -------
    float
        Above 0 for what moves the pH that way [mmolc/m2].

    References
    ----------
    own-arithmetic, huang-2007
    """
    return rate_g_m2 * _effective_mmolc_g(context, material, direction)


def _candidates(
    context: BedContext, direction: Direction, on_hand: Iterable[OnHand]
) -> list[_Candidate]:
    """What is on hand first, then the usual choices not on hand already."""
    found = [
        _Candidate(
            material=as_sold(item.material, purity_pct=item.purity_pct),
            price_per_g=price_per_g(item),
            currency=item.currency,
            on_hand=True,
        )
        for item in on_hand
    ]
    had = {candidate.material.written or candidate.material.key for candidate in found}
    usual = ACID_CHOICES if direction is Direction.ACIDIFY else LIME_CHOICES
    found.extend(
        _Candidate(
            material=material_named(key, own=context.case.own_materials),
            price_per_g=None,
            currency=None,
            on_hand=False,
        )
        for key in usual
        if key not in had
    )
    return [item for item in found if _acting_mmolc_g(item.material, direction) > 0.0]


def _acting_mmolc_g(material: Material, direction: Direction) -> float:
    """Acid, or base where lime is wanted, of one gram in open ground; never organic matter."""
    if material.group in (MaterialGroup.ORGANIC, MaterialGroup.ACID):
        return 0.0
    acid = acid_brought_mmolc_m2(material, rate_g_m2=1.0, in_pot=False)
    return acid if direction is Direction.ACIDIFY else -acid


def _effective_mmolc_g(context: BedContext, material: Material, direction: Direction) -> float:
    """Acid or base of one gram that counts towards the need."""
    acid = acid_brought_mmolc_m2(
        material, rate_g_m2=1.0, in_pot=context.in_pot, land_use=context.nitrogen_use
    )
    if direction is Direction.ACIDIFY:
        return acid
    dissolved = acid_within_days(
        material,
        rate_g_m2=1.0,
        soil_temp_c=context.soil_temp_c,
        start=context.case.today,
        days=LONGEST_DAYS,
        ph_water=require_soil(context).ph.ph_water,
        in_pot=context.in_pot,
        land_use=context.nitrogen_use,
    )
    return -dissolved * usual_share(material)


def _year_g_m2(context: BedContext, material: Material) -> float | None:
    """Most of a product that may go on in a year, None where no limit is printed."""
    cap = product_cap(material, cap_situation=context.cap_situation)
    return None if cap is None else cap.year_g_m2


def _comes_into_question(
    candidate: _Candidate, per_g: float, *, year_g_m2: float | None, needed_mmolc_m2: float
) -> bool:
    """Whether a product does anything, and is no feed that would be too much of one."""
    if per_g <= 0.0:
        return False
    is_feed = candidate.material.group is MaterialGroup.NITROGEN
    if not is_feed or candidate.on_hand or year_g_m2 is None:
        return True
    return needed_mmolc_m2 / per_g <= year_g_m2


def _rank(
    context: BedContext,
    candidate: _Candidate,
    needed_mmolc_m2: float,
    direction: Direction,
    start: date,
) -> _Ranked | None:
    material = candidate.material
    per_g = _effective_mmolc_g(context, material, direction)
    year = _year_g_m2(context, material)
    if not _comes_into_question(candidate, per_g, year_g_m2=year, needed_mmolc_m2=needed_mmolc_m2):
        return None
    rate = needed_mmolc_m2 / per_g
    is_feed = material.group is MaterialGroup.NITROGEN
    seasons = 1.0 if is_feed else verdict_values()["seasons"]
    over = year is not None and rate > year * seasons
    amount = None if context.total_area_m2 is None else rate * context.total_area_m2
    price = candidate.price_per_g
    cost_per_mol = None if price is None else 1000.0 * price / per_g
    wanted = context.case.aim.by or start + timedelta(days=365)
    share = reacting_share_by(context, material, start=start, by=wanted)
    ec_rise = _ec_rise(context, material, rate)
    option = Option(
        material=material.key,
        rate_g_m2=rate,
        amount_g=amount,
        cost=None if price is None or amount is None else price * amount,
        currency=candidate.currency if price is not None else None,
        cost_per_mol_acid=cost_per_mol if direction is Direction.ACIDIFY else None,
        cost_per_kg_caco3_eq=None
        if cost_per_mol is None or direction is Direction.ACIDIFY
        else cost_per_mol * CACO3_BASE_MOLC_KG,
        weeks_to_half=weeks_to_half(
            material,
            soil_temp_c=context.soil_temp_c,
            start=start,
            ph_water=require_soil(context).ph.ph_water,
            in_pot=context.in_pot,
            land_use=context.nitrogen_use,
            incorporated=not context.planted,
        ),
        ec_rise_ds_m=ec_rise,
        cautions=_cautions(context, material, rate_g_m2=rate, over=over, ec_rise_ds_m=ec_rise),
    )
    return _Ranked(
        option=option,
        blocked=over or "caustic-lime" in material.cautions,
        reactive_cost=None if cost_per_mol is None else cost_per_mol / max(share, LEAST_SHARE),
        fit=(_kind(context, material), -share if direction is Direction.ACIDIFY else 0.0),
    )


def _order(item: _Ranked) -> tuple[bool, bool, float, tuple[int, float]]:
    unpriced = item.reactive_cost is None
    return item.blocked, unpriced, item.reactive_cost or 0.0, item.fit


def _kind(context: BedContext, material: Material) -> int:
    """Rank of a material before its speed counts: the gentlest that does the work first."""
    if material.key == "ground limestone, dolomitic":
        return -1 if is_short_of_magnesium(context.case.soil) else 1
    if material.group is MaterialGroup.LIME and "caustic-lime" in material.cautions:
        return 3
    if "aluminium" in material.cautions:
        names = " ".join(plant.name for plant in context.case.aim.plants)
        return 0 if "hydrangea" in names else 3
    order = {
        MaterialGroup.SULFUR: 0,
        MaterialGroup.LIME: 0,
        MaterialGroup.ACID_SALT: 2,
        MaterialGroup.ASH: 2,
        MaterialGroup.NITROGEN: 4,
    }
    return order.get(material.group, 5)


def _ec_rise(context: BedContext, material: Material, rate_g_m2: float) -> float:
    soil = require_soil(context)
    params = salinity_parameters()
    is_sulfur = material.group is MaterialGroup.SULFUR
    acid = acid_brought_mmolc_m2(material, rate_g_m2=rate_g_m2, in_pot=True) if is_sulfur else 0.0
    return ec_rise_ds_m(
        salt_mmolc_m2=acid if is_sulfur else material.salt_molc_kg * rate_g_m2,
        depth_cm=context.depth_cm,
        bulk_density_g_cm3=soil.bulk_density_g_cm3,
        saturation_water_kg_kg=saturation_water_kg_kg(
            field_capacity_frac=soil.field_capacity_frac,
            bulk_density_g_cm3=soil.bulk_density_g_cm3,
            params=params,
        ),
        params=params,
        gypsum_only=is_sulfur,
    )


def _cautions(
    context: BedContext,
    material: Material,
    *,
    rate_g_m2: float,
    over: bool,
    ec_rise_ds_m: float,
) -> tuple[str, ...]:
    codes = [code for code in material.cautions if code not in ("split", "salt")]
    cap = product_cap(material, cap_situation=context.cap_situation)
    if cap is not None and cap.dose_g_m2 is not None and rate_g_m2 > cap.dose_g_m2:
        codes.append("split")
    if over:
        codes.append("over-cap")
    limits = verdict_values()
    calcifuge = context.target is not None and context.target.calcifuge
    worrying = limits["salt_sensitive_ece_ds_m" if calcifuge else "salt_stop_ece_ds_m"]
    is_sulfur = material.group is MaterialGroup.SULFUR
    if "salt" in material.cautions or (ec_rise_ds_m > worrying and not is_sulfur):
        codes.append("salt")
    if context.planted and is_sulfur:
        codes.append("established-roots")
    return tuple(dict.fromkeys(codes))
