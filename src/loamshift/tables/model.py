"""The coefficients of the model as the typed sets that ``core`` takes."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from loamshift.core.background import LedgerParameters
from loamshift.core.buffer import BufferParameters
from loamshift.core.buffer_prior import ScaleSpread
from loamshift.core.climate import ClimateParameters
from loamshift.core.equilibrium import CarbonateParameters
from loamshift.core.lime import LimeParameters
from loamshift.core.nitrogen import NitrogenParameters
from loamshift.core.salinity import SalinityParameters
from loamshift.core.sulfur_rate import SulfurParameters
from loamshift.tables.parameters import parameter_values


@cache
def buffer_parameters() -> BufferParameters:
    """Coefficients of the buffer curve."""
    return BufferParameters(**parameter_values("buffer"))


@cache
def buffer_scale_spread() -> ScaleSpread:
    """Spreads of the scale of the buffer curve."""
    return ScaleSpread(**parameter_values("buffer_scale"))


@cache
def carbonate_parameters() -> CarbonateParameters:
    """Constants of the carbonate system."""
    return CarbonateParameters(**parameter_values("carbonate"))


@cache
def climate_parameters() -> ClimateParameters:
    """Coefficients of soil temperature and evaporation."""
    return ClimateParameters(**parameter_values("climate"))


@cache
def ledger_parameters() -> LedgerParameters:
    """Coefficients of the yearly ledger."""
    return LedgerParameters(**parameter_values("ledger"))


@cache
def lime_parameters() -> LimeParameters:
    """Coefficients of lime dissolution."""
    return LimeParameters(**parameter_values("lime"))


@cache
def nitrogen_parameters() -> NitrogenParameters:
    """Coefficients of urea hydrolysis and nitrification."""
    return NitrogenParameters(**parameter_values("nitrogen"))


@cache
def salinity_parameters() -> SalinityParameters:
    """Coefficients of salt and aluminium."""
    return SalinityParameters(**parameter_values("salinity"))


@cache
def sulfur_parameters() -> SulfurParameters:
    """Coefficients of sulfur oxidation."""
    return SulfurParameters(**parameter_values("sulfur"))


@cache
def verdict_values() -> Mapping[str, float]:
    """Limits of the decision table, by name [unit of each row]."""
    return parameter_values("verdict")
