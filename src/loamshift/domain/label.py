"""The analysis printed on a bag, as shares by weight."""

from __future__ import annotations

from dataclasses import dataclass, fields


@dataclass(frozen=True, slots=True)
class Passing:
    """Share of a product [%] that goes through a sieve with openings of this size [um]."""

    opening_um: float
    passing_pct: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """The analysis of a bag; None where the bag does not say. All shares in % of product as sold.

    Nitrogen as N, by form; sulfur as S, by form, or sulfate as SO3; phosphorus, potassium, calcium
    and magnesium as the oxide of the trade or as the element; iron and aluminium as the metal, only
    where they are sulfates; neutralising value as CaCO3 or as CaO.
    """

    n_total_pct: float | None = None
    n_nitrate_pct: float | None = None
    n_ammonium_pct: float | None = None
    n_urea_pct: float | None = None
    n_slow_pct: float | None = None
    p2o5_pct: float | None = None
    p_pct: float | None = None
    k2o_pct: float | None = None
    k_pct: float | None = None
    cao_pct: float | None = None
    ca_pct: float | None = None
    mgo_pct: float | None = None
    mg_pct: float | None = None
    s_element_pct: float | None = None
    s_sulfate_pct: float | None = None
    so3_pct: float | None = None
    fe_sulfate_pct: float | None = None
    al_sulfate_pct: float | None = None
    nv_as_caco3_pct: float | None = None
    nv_as_cao_pct: float | None = None
    filler_pct: float | None = None
    fineness: tuple[Passing, ...] = ()
    """What passes each sieve, the finest first."""

    @property
    def said(self) -> dict[str, float]:
        """The figures that the bag gives, by key [%]."""
        found = {}
        for part in fields(self):
            value = getattr(self, part.name)
            if isinstance(value, float):
                found[part.name] = value
        return found
