"""Printed limits turned into grams of a product."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.material import Material, MaterialGroup
from loamshift.tables.materials import load_materials
from loamshift.tables.rules import cap_for, has_cap

_NORM = {
    "aluminium sulfate": "aluminium sulfate, 18-hydrate",
    "iron sulfate": "ferrous sulfate, heptahydrate",
}
"""The hydrate a printed limit speaks of; other hydrates count by their acid."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProductCap:
    """Limits of one product on one kind of ground [g/m2 of product]; None where none is printed.

    ``per_product`` is the substance limited per gram of product, as S, CaCO3, N or the usual
    hydrate [g/g].
    """

    applies_to: str
    per_product: float
    dose_g_m2: float | None
    year_g_m2: float | None
    ground: str
    """The ground the limit was printed for; that of a feed is planted ground where no other is."""
    source_key: str


def product_cap(material: Material, *, cap_situation: str) -> ProductCap | None:
    """The printed limits that govern a product.

    Parameters
    ----------
    material
        The product [object].
    cap_situation
        unplanted | planted | lawn | field | container [text].

    Returns
    -------
    ProductCap or None
        Limits in product [g/m2]; None where no printed limit speaks of it.

    Notes
    -----
    Sulfur counts as S, lime and ash as CaCO3, feeds as N, salts as the hydrate the limit names.

    References
    ----------
    gu-crouse-2010, penn-state-home-garden
    """
    substance, per_product = _substance(material)
    if not substance or per_product <= 0.0:
        return None
    ground = cap_situation
    if substance == "nitrogen" and not has_cap(applies_to=substance, situation=ground, per="year"):
        ground = "planted"
    limits: dict[str, float] = {}
    source = ""
    for per in ("dose", "year"):
        if has_cap(applies_to=substance, situation=ground, per=per):
            cap = cap_for(applies_to=substance, situation=ground, per=per)
            limits[per] = cap.limit_g_m2 / per_product
            source = source or cap.source_key
    if not limits:
        return None
    return ProductCap(
        applies_to=substance,
        per_product=per_product,
        dose_g_m2=limits.get("dose"),
        year_g_m2=limits.get("year"),
        ground=ground,
        source_key=source,
    )


def _substance(material: Material) -> tuple[str, float]:
    """What a limit would call the product, and how much of that a gram holds."""
    if material.group is MaterialGroup.SULFUR:
        return "sulfur", material.elemental_s_frac
    if material.group is MaterialGroup.NITROGEN:
        return "nitrogen", material.n_frac
    if material.group in (MaterialGroup.LIME, MaterialGroup.ASH):
        return "limestone", material.caco3_eq_frac
    if material.group is MaterialGroup.ACID_SALT:
        name = "aluminium sulfate" if "aluminium" in material.key else "iron sulfate"
        norm = load_materials()[_NORM[name]]
        return name, material.fast_acid_molc_kg / norm.fast_acid_molc_kg
    return "", 0.0
