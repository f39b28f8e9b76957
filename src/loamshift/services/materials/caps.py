"""Printed limits turned into grams of a product."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from loamshift.core.acidity import SULFUR_ACID_MOLC_KG
from loamshift.domain.material import Material, MaterialGroup
from loamshift.tables.materials import load_materials
from loamshift.tables.model import verdict_values
from loamshift.tables.rules import cap_for, has_cap


class Substance(StrEnum):
    """What a printed limit speaks of; lime and ash count as limestone, acids as sulfur."""

    SULFUR = "sulfur"
    ALUMINIUM_SULFATE = "aluminium sulfate"
    IRON_SULFATE = "iron sulfate"
    LIMESTONE = "limestone"
    NITROGEN = "nitrogen"


_NORM: Final = {
    Substance.ALUMINIUM_SULFATE: "aluminium sulfate, 18-hydrate",
    Substance.IRON_SULFATE: "ferrous sulfate, heptahydrate",
}
"""The hydrate a printed limit speaks of; other hydrates count by their acid."""
_SAME_WEIGHT: Final = 0.025
"""A product this near to the pure substance is told by its own weight [1]."""
_DAYS_PER_MONTH: Final = 365.25 / 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ProductCap:
    """Limits of one product on one kind of ground, as product and as the substance limited.

    ``per_product`` is the substance per gram of product, as S, CaCO3, N or the usual hydrate
    [g/g]; ``dose_g_m2`` and ``year_g_m2`` of the product, ``dose_printed_g_m2`` and
    ``year_printed_g_m2`` of the substance [g/m2]; those of a dose are None where none is printed.
    Applications less than ``wait_days`` apart count as one dose [d].
    """

    applies_to: Substance
    per_product: float
    dose_g_m2: float | None
    year_g_m2: float
    dose_printed_g_m2: float | None
    year_printed_g_m2: float
    wait_days: float
    ground: str
    """The ground the limit was printed for; that of a feed is planted ground where no other is."""
    source_key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitPassed:
    """How far an amount passes its limit: ``times`` the one ``per`` year or dose [1].

    ``limit_g_m2`` of the product, ``printed_g_m2`` of the substance limited [g/m2].
    """

    times: float
    per: str
    limit_g_m2: float
    printed_g_m2: float


def product_cap(material: Material, *, cap_situation: str) -> ProductCap | None:
    """The printed limits that govern a product.

    Returns
    -------
    ProductCap or None
        Limits in product [g/m2]; None where no printed limit speaks of it.

    Notes
    -----
    Sulfur counts as S, lime and ash as CaCO3, feeds as N, salts as the hydrate the limit names.
    No limit of a mineral acid on soil is printed: it counts as the sulfur that brings its acid.
    A product known by its label may hold several of these: the limit reached first governs it.

    References
    ----------
    gu-crouse-2010, penn-state-home-garden
    """
    caps = [
        _cap(substance, per_product, cap_situation)
        for substance, per_product in _substances(material)
        if per_product > 0.0
    ]
    return min(caps, key=lambda cap: cap.year_g_m2) if caps else None


def _cap(substance: Substance, per_product: float, cap_situation: str) -> ProductCap:
    ground = cap_situation
    if not has_cap(applies_to=substance, situation=ground, per="year"):
        ground = "planted"
    year = cap_for(applies_to=substance, situation=ground, per="year")
    dose = None
    if has_cap(applies_to=substance, situation=ground, per="dose"):
        dose = cap_for(applies_to=substance, situation=ground, per="dose")
    return ProductCap(
        applies_to=substance,
        per_product=per_product,
        dose_g_m2=None if dose is None else dose.limit_g_m2 / per_product,
        year_g_m2=year.limit_g_m2 / per_product,
        dose_printed_g_m2=None if dose is None else dose.limit_g_m2,
        year_printed_g_m2=year.limit_g_m2,
        wait_days=0.0 if dose is None else (dose.wait_months or 0.0) * _DAYS_PER_MONTH,
        ground=ground,
        source_key=year.source_key if dose is None else dose.source_key,
    )


def limit_passed(cap: ProductCap, *, rate_g_m2: float) -> LimitPassed | None:
    """The limit that one amount of a product passes: that of a year before that of one dose.

    Every sentence about an amount takes its figure from here, so that no two differ.

    Parameters
    ----------
    rate_g_m2
        The product put on at once [g/m2].
    """
    for per, limit, printed in (
        ("year", cap.year_g_m2, cap.year_printed_g_m2),
        ("dose", cap.dose_g_m2, cap.dose_printed_g_m2),
    ):
        if limit is not None and printed is not None and rate_g_m2 > limit * (1.0 + 1e-9):
            return LimitPassed(
                times=rate_g_m2 / limit, per=per, limit_g_m2=limit, printed_g_m2=printed
            )
    return None


def is_by_weight(cap: ProductCap) -> bool:
    """Whether a product is so near to the substance limited that its own weight tells it.

    Returns
    -------
    bool
        Within a fortieth; never for feeds, whose limit is one of nitrogen.
    """
    return abs(cap.per_product - 1.0) < _SAME_WEIGHT


def is_overdose(times: float) -> bool:
    """Whether so many yearly limits are an overdose.

    Parameters
    ----------
    times
        The sum over its yearly limit [1].
    """
    return times > verdict_values()["overdose_cap_years"] * (1.0 + 1e-9)


def _substances(material: Material) -> list[tuple[Substance, float]]:
    """Everything in a product that a limit speaks of: what it is for, and more by a label."""
    found = _substance(material)
    substances = {} if found is None else dict([found])
    if material.label is not None:
        substances.setdefault(Substance.SULFUR, material.elemental_s_frac)
        substances.setdefault(Substance.NITROGEN, material.n_frac)
        substances.setdefault(Substance.LIMESTONE, material.caco3_eq_frac)
        aluminium = "aluminium" in material.cautions
        salt = Substance.ALUMINIUM_SULFATE if aluminium else Substance.IRON_SULFATE
        substances.setdefault(salt, _as_hydrate(salt, material))
    return list(substances.items())


def _as_hydrate(name: Substance, material: Material) -> float:
    norm = load_materials()[_NORM[name]]
    return material.fast_acid_molc_kg / norm.fast_acid_molc_kg


def _substance(material: Material) -> tuple[Substance, float] | None:
    """What a limit would call the product, and how much of that a gram holds."""
    match material.group:
        case MaterialGroup.SULFUR:
            return Substance.SULFUR, material.elemental_s_frac
        case MaterialGroup.ACID:
            return Substance.SULFUR, material.fast_acid_molc_kg / SULFUR_ACID_MOLC_KG
        case MaterialGroup.NITROGEN:
            return Substance.NITROGEN, material.n_frac
        case MaterialGroup.LIME | MaterialGroup.ASH:
            return Substance.LIMESTONE, material.caco3_eq_frac
        case MaterialGroup.ACID_SALT:
            aluminium = "aluminium" in material.cautions
            name = Substance.ALUMINIUM_SULFATE if aluminium else Substance.IRON_SULFATE
            return name, _as_hydrate(name, material)
        case _:
            return None
