"""What was put on lately, summed by substance, against the yearly limits of the ground."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Final, TypedDict

from loamshift.domain.answer import Direction
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Applied
from loamshift.domain.material import Material
from loamshift.services.materials.acid import acid_brought_mmolc_m2, acid_within_days
from loamshift.services.materials.caps import (
    ProductCap,
    Substance,
    is_by_weight,
    is_overdose,
    product_cap,
)
from loamshift.tables.parameters import parameter_values
from loamshift.tables.rules import cap_for
from loamshift.units import SULFUR_G_PER_MMOLC

RECENT_DAYS: Final = 365
"""What was put on within a year counts in full; of what is older, what has yet to react [d]."""
_SPENT: Final = 0.01
"""An application of an earlier year with less than this left to react is spent [1]."""
_DIRECTION: Final = {
    Substance.SULFUR: Direction.ACIDIFY,
    Substance.ALUMINIUM_SULFATE: Direction.ACIDIFY,
    Substance.IRON_SULFATE: Direction.ACIDIFY,
    Substance.LIMESTONE: Direction.LIME,
    Substance.NITROGEN: Direction.NONE,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """What was put on of one limited substance, against the limits of the ground.

    ``substance`` None is everything that acidifies, each product by its own limit and told as
    sulfur. ``rate_g_m2`` within a year, with what of earlier applications has yet to react, and
    ``limit_g_m2`` of a year, both as the limit names the substance: S, CaCO3, N or the usual
    hydrate [g/m2]. ``at_once_g_m2`` the most of it in one dose, with ``at_once_materials``,
    against ``limit_at_once_g_m2`` or None where none is printed [g/m2]. ``acid_mmolc_m2`` it
    brings and ``acid_left_mmolc_m2`` of that which has yet to come; negative limes [mmolc/m2].
    ``is_old`` where part of it was put on more than a year ago; ``is_by_weight`` where the
    products count by their own weight.
    """

    substance: Substance | None
    direction: Direction
    materials: tuple[str, ...]
    applications: int
    rate_g_m2: float
    limit_g_m2: float
    at_once_g_m2: float
    at_once_materials: tuple[str, ...]
    limit_at_once_g_m2: float | None
    acid_mmolc_m2: float
    acid_left_mmolc_m2: float
    last_on: date
    is_old: bool
    is_by_weight: bool
    ground: str
    source_key: str

    @property
    def times(self) -> float:
        """How many yearly limits it is [1]."""
        return self.rate_g_m2 / self.limit_g_m2

    @property
    def times_at_once(self) -> float:
        """How many limits of one dose the largest dose is, 0 where none is printed [1]."""
        limit = self.limit_at_once_g_m2
        return 0.0 if limit is None else self.at_once_g_m2 / limit


@dataclass(frozen=True, slots=True, kw_only=True)
class _Share:
    """What of an application counts and what is ``left`` to react [0-1]; all its acid."""

    counted: float
    left: float
    acid_mmolc_m2: float
    is_old: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Dose:
    """One application with its limits."""

    applied: Applied
    cap: ProductCap
    share: _Share

    @property
    def counted_g_m2(self) -> float:
        """What of it counts, as the limit names the substance [g/m2]."""
        return self.applied.rate_g_m2 * self.cap.per_product * self.share.counted

    @property
    def counted_acid_mmolc_m2(self) -> float:
        """The acid of what counts; negative limes [mmolc/m2]."""
        return self.share.acid_mmolc_m2 * self.share.counted

    @property
    def limit_g_m2(self) -> float:
        """Its yearly limit, in the same unit [g/m2]."""
        return self.cap.year_printed_g_m2


class _Summed(TypedDict):
    """What is summed over applications in the same way, whatever the limit."""

    materials: tuple[str, ...]
    applications: int
    acid_mmolc_m2: float
    acid_left_mmolc_m2: float
    last_on: date
    is_old: bool


def overdose(context: BedContext) -> Load | None:
    """The gravest of what was put on, where its sum passes the limit of an overdose."""
    return next(iter(overdoses(context)), None)


def overdoses(context: BedContext) -> tuple[Load, ...]:
    """Every sum of what was put on that passes the limit of an overdose.

    Answers from what was put on alone: no pH, no sample and no date of a sample is needed.

    Returns
    -------
    tuple of Load
        Those beyond ``overdose_cap_years`` yearly limits, the gravest first.

    References
    ----------
    own-judgement
    """
    found = [load for load in recent_loads(context) if is_overdose(load.times)]
    return tuple(sorted(found, key=lambda load: -load.times))


def substance_direction(substance: Substance) -> Direction:
    """Which way a limited substance moves the pH.

    Returns
    -------
    Direction
        None for nitrogen, whose limit is one of salt and loss.
    """
    return _DIRECTION[substance]


def recent_loads(context: BedContext) -> tuple[Load, ...]:
    """What was put on, summed by substance and then over all that acidifies.

    Returns
    -------
    tuple of Load
        One row a substance, in the order of the first application; last the sum of all that
        acidifies, where it passes more of its limit than any substance by itself [g/m2].

    Notes
    -----
    Products that acidify share one year: each takes up its rate over its own yearly limit, feeds
    the acid that stays of them over that of the yearly sulfur limit, and the shares add up.
    Peat, composts and mulches have no limit and are left out. Lime does not cancel acid: roots
    meet each by itself.

    References
    ----------
    own-judgement
    """
    doses = tuple(_doses(context))
    rows = [
        _load(substance, [dose for dose in doses if dose.cap.applies_to is substance])
        for substance in dict.fromkeys(dose.cap.applies_to for dose in doses)
    ]
    together = _all_acid(context, doses)
    acid = [row.times for row in rows if row.direction is Direction.ACIDIFY]
    if together is not None and together.times > max(acid, default=0.0) * (1.0 + 1e-9):
        rows.append(together)
    return tuple(rows)


def recent_materials(context: BedContext) -> tuple[Material, ...]:
    """What was put on within a year, or longer ago and has yet to react; limited or not.

    Returns
    -------
    tuple of Material
        Each once, in the order of the case.
    """
    found = {
        applied.material.key: applied.material
        for applied in context.case.applied
        if _share(context, applied).counted > 0.0
    }
    return tuple(found.values())


def _doses(context: BedContext) -> Iterable[_Dose]:
    for applied in context.case.applied:
        cap = product_cap(applied.material, cap_situation=context.cap_situation)
        share = _share(context, applied)
        if cap is not None and share.counted > 0.0:
            yield _Dose(applied=applied, cap=cap, share=share)


def _share(context: BedContext, applied: Applied) -> _Share:
    """How much of an application counts today, and how much of it has yet to react."""
    days = max((context.case.today - applied.on).days, 0)
    acid = acid_brought_mmolc_m2(
        applied.material,
        rate_g_m2=applied.rate_g_m2,
        in_pot=context.in_pot,
        land_use=context.nitrogen_use,
    )
    left = 0.0
    if acid != 0.0:
        soil = context.soil
        come = acid_within_days(
            applied.material,
            rate_g_m2=applied.rate_g_m2,
            soil_temp_c=context.soil_temp_c,
            start=applied.on,
            days=days,
            ph_water=parameter_values("advice")["assumed_ph_water"]
            if soil is None
            else soil.ph.ph_water,
            in_pot=context.in_pot,
            land_use=context.nitrogen_use,
            incorporated=applied.incorporated_cm > 0.0,
        )
        left = min(max(1.0 - come / acid, 0.0), 1.0)
    is_old = days > RECENT_DAYS
    counted = 1.0 if not is_old else left if left >= _SPENT else 0.0
    return _Share(counted=counted, left=left, acid_mmolc_m2=acid, is_old=is_old)


def _load(substance: Substance, doses: list[_Dose]) -> Load:
    first = doses[0]
    cap = first.cap
    at_once = _most_at_once(doses)
    return Load(
        substance=substance,
        direction=_DIRECTION[substance],
        rate_g_m2=sum(dose.counted_g_m2 for dose in doses),
        limit_g_m2=first.limit_g_m2,
        at_once_g_m2=sum(dose.counted_g_m2 for dose in at_once),
        at_once_materials=tuple(dict.fromkeys(dose.applied.material.key for dose in at_once)),
        limit_at_once_g_m2=cap.dose_printed_g_m2,
        is_by_weight=all(is_by_weight(dose.cap) for dose in doses),
        ground=cap.ground,
        source_key=cap.source_key,
        **_summed(doses),
    )


def _most_at_once(doses: list[_Dose]) -> list[_Dose]:
    """The largest dose: applications closer than the wait between two count as one."""
    wait = max(doses[0].cap.wait_days, 1.0)
    recent = [dose for dose in doses if not dose.share.is_old]
    clusters = (
        [dose for dose in recent if 0 <= (last.applied.on - dose.applied.on).days < wait]
        for last in recent
    )
    return max(clusters, key=lambda found: sum(one.counted_g_m2 for one in found), default=[])


def _all_acid(context: BedContext, doses: tuple[_Dose, ...]) -> Load | None:
    """Everything that acidifies, its shares of the year's limits told as sulfur."""
    limit = cap_for(applies_to=Substance.SULFUR, situation=context.cap_situation, per="year")
    acid_limit_mmolc_m2 = limit.limit_g_m2 / SULFUR_G_PER_MMOLC
    shares: dict[int, float] = {}
    for number, dose in enumerate(doses):
        direction = _DIRECTION[dose.cap.applies_to]
        if direction is Direction.ACIDIFY:
            shares[number] = dose.counted_g_m2 / dose.limit_g_m2
        elif dose.share.acid_mmolc_m2 > 0.0:
            shares[number] = dose.counted_acid_mmolc_m2 / acid_limit_mmolc_m2
    if not shares:
        return None
    return Load(
        substance=None,
        direction=Direction.ACIDIFY,
        rate_g_m2=sum(shares.values()) * limit.limit_g_m2,
        limit_g_m2=limit.limit_g_m2,
        at_once_g_m2=0.0,
        at_once_materials=(),
        limit_at_once_g_m2=None,
        is_by_weight=False,
        ground=context.cap_situation,
        source_key=limit.source_key,
        **_summed([doses[number] for number in shares]),
    )


def _summed(doses: list[_Dose]) -> _Summed:
    return _Summed(
        materials=tuple(dict.fromkeys(dose.applied.material.key for dose in doses)),
        applications=len(doses),
        acid_mmolc_m2=sum(dose.counted_acid_mmolc_m2 for dose in doses),
        acid_left_mmolc_m2=sum(dose.share.acid_mmolc_m2 * dose.share.left for dose in doses),
        last_on=max(dose.applied.on for dose in doses),
        is_old=any(dose.share.is_old for dose in doses),
    )
