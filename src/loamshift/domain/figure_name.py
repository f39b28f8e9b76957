"""The name of a figure as people say it: without its unit, without short forms."""

from __future__ import annotations

from typing import Final

_UNITS: Final = frozenset(
    {"per", "mmolc", "molc", "mol", "kg", "g", "mg", "m2", "m", "cm", "mm", "um", "c", "d", "pct"}
    | {"ds", "kj", "atm", "ml", "l", "year", "ph", "s"}
)
"""Tokens that are units where they end a name."""
_SAID: Final = {
    "sd": "spread",
    "frac": "share",
    "pct": "per cent",
    "temp": "temperature",
    "ph": "pH",
    "pco2": "CO2 pressure",
    "caco3": "CaCO3",
    "cahco3": "CaHCO3",
    "caso4": "CaSO4",
    "nh4": "ammonium",
    "no3": "nitrate",
    "n": "nitrogen",
    "al": "aluminium",
    "ec": "conductivity",
    "cec": "CEC",
    "pk": "pK",
    "pk1": "pK1",
    "pk2": "pK2",
    "pk3": "pK3",
    "co2": "CO2",
}


def figure_called(name: str, unit: str) -> str:
    """A parameter's name in words, its unit left to the column beside it.

    Examples
    --------
    >>> figure_called("organic_slope_mmolc_kg_ph_per_pct", "mmolc/kg/pH/%")
    'organic slope'
    >>> figure_called("harmful_ph", "pH"), figure_called("warm_soil_c", "degC")
    ('harmful pH', 'warm soil')
    >>> figure_called("log10_k_sd_texture_felt", "log10")
    'log10 k spread texture felt'
    """
    tokens = name.split("_")
    if unit != "pH":
        end = len(tokens)
        while end > 1 and tokens[end - 1] in _UNITS:
            end -= 1
        if tokens[end:] not in (["ph"], ["pct"]):
            tokens = tokens[:end]
    return " ".join(_SAID.get(token, token) for token in tokens)
