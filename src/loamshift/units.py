"""Converters between the units of the trade, and the types that keep pH methods apart.

Names read ``x_from_y``. Factors are exact by definition or built from standard atomic
weights (IUPAC 2021, abridged).
"""

from __future__ import annotations

from typing import Final, NewType

PhWater = NewType("PhWater", float)
"""pH of a soil suspension in water [pH]."""
PhCaCl2 = NewType("PhCaCl2", float)
"""pH of a soil suspension in 0.01 M calcium chloride [pH]."""
PhKCl = NewType("PhKCl", float)
"""pH of a soil suspension in 1 M potassium chloride [pH]."""
PhProbe = NewType("PhProbe", float)
"""What a stab probe or a test strip showed [pH]."""

SULFUR_G_MOL: Final = 32.06
CACO3_G_MOL: Final = 100.09
NITROGEN_G_MOL: Final = 14.007

SULFUR_G_PER_MMOLC: Final = SULFUR_G_MOL / 2000.0
"""Elemental sulfur that makes 1 mmol of acid when fully oxidised [g/mmolc]."""
CACO3_G_PER_MMOLC: Final = CACO3_G_MOL / 2000.0
"""Calcium carbonate that neutralises 1 mmol of acid [g/mmolc]."""
CARBONATE_MMOLC_KG_PER_PCT: Final = 200.0
"""Acid that 1 % CaCO3 in soil takes up, 2 mol per 100 g, rounded as the trade does [mmolc/kg/%]."""

POUND_G: Final = 453.59237
OUNCE_G: Final = 28.349523125
FOOT_CM: Final = 30.48
INCH_CM: Final = 2.54
SQUARE_FOOT_M2: Final = 0.09290304
SQUARE_YARD_M2: Final = 0.83612736
ACRE_M2: Final = 4046.8564224
US_GALLON_L: Final = 3.785411784
US_FLUID_OUNCE_ML: Final = 29.5735295625
US_CUP_L: Final = 0.2365882365


def soil_mass_kg_m2(*, depth_cm: float, bulk_density_g_cm3: float) -> float:
    """Dry soil under one square metre [kg/m2] from depth [cm] and bulk density [g/cm3]."""
    return 10.0 * depth_cm * bulk_density_g_cm3


def acid_mmolc_m2_from_mmolc_kg(
    acid_mmolc_kg: float, *, depth_cm: float, bulk_density_g_cm3: float
) -> float:
    """Acid per area [mmolc/m2] from acid per mass [mmolc/kg], depth [cm], density [g/cm3]."""
    return acid_mmolc_kg * soil_mass_kg_m2(depth_cm=depth_cm, bulk_density_g_cm3=bulk_density_g_cm3)


def sulfur_as_s_g_m2_from_acid_mmolc_m2(acid_mmolc_m2: float) -> float:
    """Elemental sulfur [g/m2] that makes this much acid [mmolc/m2]."""
    return acid_mmolc_m2 * SULFUR_G_PER_MMOLC


def acid_mmolc_m2_from_sulfur_as_s_g_m2(sulfur_as_s_g_m2: float) -> float:
    """Acid [mmolc/m2] from fully oxidised elemental sulfur [g/m2]."""
    return sulfur_as_s_g_m2 / SULFUR_G_PER_MMOLC


def lime_as_caco3_g_m2_from_acid_mmolc_m2(acid_mmolc_m2: float) -> float:
    """Calcium carbonate [g/m2] that takes up this much acid [mmolc/m2]."""
    return acid_mmolc_m2 * CACO3_G_PER_MMOLC


def alkalinity_mmolc_l_from_mg_l_as_caco3(alkalinity_mg_l_as_caco3: float) -> float:
    """Water alkalinity [mmolc/L] from the usual statement [mg/L as CaCO3]."""
    return alkalinity_mg_l_as_caco3 / (1000.0 * CACO3_G_PER_MMOLC)


def alkalinity_mg_l_as_caco3_from_mg_l_as_hco3(alkalinity_mg_l_as_hco3: float) -> float:
    """Alkalinity as calcium carbonate [mg/L] from a figure as bicarbonate [mg/L]."""
    return alkalinity_mg_l_as_hco3 * 50.045 / 61.017


def g_m2_from_oz_yd2(rate_oz_yd2: float) -> float:
    """Rate [g/m2] from ounces per square yard [oz/yd2]."""
    return rate_oz_yd2 * OUNCE_G / SQUARE_YARD_M2


def oz_yd2_from_g_m2(rate_g_m2: float) -> float:
    """Rate [oz/yd2] from grams per square metre [g/m2]."""
    return rate_g_m2 * SQUARE_YARD_M2 / OUNCE_G


def g_m2_from_lb_100ft2(rate_lb_100ft2: float) -> float:
    """Rate [g/m2] from pounds per 100 square feet [lb/100 ft2]."""
    return rate_lb_100ft2 * POUND_G / (100.0 * SQUARE_FOOT_M2)


def lb_100ft2_from_g_m2(rate_g_m2: float) -> float:
    """Rate [lb/100 ft2] from grams per square metre [g/m2]."""
    return rate_g_m2 * 100.0 * SQUARE_FOOT_M2 / POUND_G


def g_m2_from_lb_acre(rate_lb_acre: float) -> float:
    """Rate [g/m2] from pounds per acre [lb/acre]."""
    return rate_lb_acre * POUND_G / ACRE_M2


def f_from_c(temp_c: float) -> float:
    """Temperature [deg F] from temperature [deg C]."""
    return temp_c * 9.0 / 5.0 + 32.0


def organic_matter_pct_from_organic_carbon_pct(organic_carbon_pct: float) -> float:
    """Organic matter [%] from organic carbon [%] by the conventional factor 1.724.

    The factor is a convention; Pribyl 2010 (Geoderma 156:75-83) finds 1.9 in the median.
    """
    return organic_carbon_pct * 1.724
