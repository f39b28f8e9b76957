"""What an irrigation water does to a soil, and what acid does to the water."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.answer import Band, Caution


@dataclass(frozen=True, slots=True, kw_only=True)
class AcidDose:
    """One acid product for 100 litres of water, and the nutrient it leaves there.

    ``amount`` per 100 L in ``unit`` (mL, or g where the product is dry);
    ``adds_mg_l`` of ``adds`` (``S``, ``P``, ``N``) in the treated water [mg/L], None for citric.
    """

    product: str
    unit: str
    amount: Band
    adds: str | None
    adds_mg_l: float | None
    remark: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterTreatment:
    """One water: the lime it brings, the acid that takes it out, and what is left.

    Alkalinities [mg/L as CaCO3]; ``acid_mmolc_l`` to add [mmolc/L]; ``ph_after`` in a closed
    line [pH]; ``lime_*`` as CaCO3 [g/m2/yr]; ``sulfur_as_s_g_m2_year`` that would balance the
    untreated water [g/m2/yr]. ``None`` where the yearly depth is not known, or the water needs
    no acid.
    """

    alkalinity_mg_l_as_caco3: float
    alkalinity_left_mg_l_as_caco3: Band
    target: str
    """What was aimed at, in words."""
    aims_at_ph: bool
    ph_start: float
    ph_start_assumed: bool
    ph_after: Band | None
    acid_mmolc_l: Band
    products: tuple[AcidDose, ...]
    water_mm_year: float | None
    lime_g_m2_year: float | None
    lime_left_g_m2_year: float | None
    sulfur_as_s_g_m2_year: float | None
    comments: tuple[str, ...]
    cautions: tuple[Caution, ...]
    source_keys: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TankFill:
    """Acid for one tank of a water.

    ``doses`` hold amounts per tank, not per 100 L: all of them, or the one acid that was chosen;
    ``stock_per_l`` is what a litre of stock holds of the chosen acid for an injector that gives
    one part of stock to ``injector_parts`` parts of water [mL/L or g/L], None where none was
    chosen. ``steps`` are sentences in the order they are done, with ``{tank}``, ``{amount}``,
    ``{acid}`` and ``{left}`` where the reader's own words go; ``never`` what must not be done.
    """

    tank_l: float
    doses: tuple[AcidDose, ...]
    chosen: AcidDose | None
    injector_parts: float
    stock_per_l: Band | None
    steps: tuple[str, ...]
    check: tuple[str, ...]
    never: tuple[str, ...]
