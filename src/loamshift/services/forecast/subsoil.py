"""What lies below the sample, and what it means for the roots of the plants wanted."""

from __future__ import annotations

from loamshift.domain.bed_context import BedContext, Target
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.domain.subsoil import RootsBelow, Subsoil, SubsoilLayer
from loamshift.services.belief.layers_below import LayerBelow, layers_below
from loamshift.services.context.readings import ph_belief
from loamshift.tables.parameters import load_parameters, parameter_values


def subsoil_of(context: BedContext) -> Subsoil | None:
    """The layers that the case tells of, and what each means for the roots; None without any."""
    found = tuple(_told(layer, context.target) for layer in layers_below(context))
    return Subsoil(layers=found) if found else None


def subsoil_source(subsoil: Subsoil | None) -> str | None:
    """The source of the limit of aluminium, where a layer passes it."""
    layers = () if subsoil is None else subsoil.layers
    if any(layer.roots is RootsBelow.ALUMINIUM for layer in layers):
        return load_parameters()["salinity"]["al_toxic_ph_cacl2"].source_key
    return None


def toxic_ph_water() -> float:
    """PH in water below which aluminium in a subsoil is toxic to roots [pH]."""
    limit = parameter_values("salinity")["al_toxic_ph_cacl2"]
    return ph_belief(PhReading(ph=limit, method=PhMethod.CACL2)).ph_water


def _told(layer: LayerBelow, target: Target | None) -> SubsoilLayer:
    roots, limit = (None, None) if target is None else _roots(layer.ph_water, target)
    return SubsoilLayer(
        top_cm=layer.top_cm,
        bottom_cm=layer.bottom_cm,
        ph_water=layer.ph_water,
        carbonate_pct=layer.carbonate_pct,
        roots=roots,
        limit_ph=limit,
    )


def _roots(ph_water: float, target: Target) -> tuple[RootsBelow, float | None]:
    """What a pH means for the roots of the plants wanted, and the limit that it passes."""
    if ph_water > target.harmful_high:
        return RootsBelow.TOO_HIGH, target.harmful_high
    if ph_water > target.ph_high:
        return RootsBelow.HIGH, None
    if ph_water >= target.ph_low:
        return RootsBelow.SUITS, None
    if ph_water < toxic_ph_water():
        return RootsBelow.ALUMINIUM, toxic_ph_water()
    if ph_water < target.harmful_low:
        return RootsBelow.TOO_LOW, target.harmful_low
    return RootsBelow.LOW, None
