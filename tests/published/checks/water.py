"""Acid for irrigation water against printed factors, and printed slips that must be caught."""

from __future__ import annotations

from loamshift.core.water_acids import (
    AcidProduct,
    IrrigationParameters,
    acid_products,
    acid_strength_molc_l,
)
from loamshift.tables.parameters import parameter_values
from loamshift.units import CACO3_G_PER_MMOLC, US_FLUID_OUNCE_ML, US_GALLON_L
from published.check import Check, Kind
from published.checks.carbonate import rows

LITRES = 100.0 * US_GALLON_L
SOURCE = "University of Massachusetts Extension, Adjusting alkalinity with acids"
PHOSPHORUS_G_MOL = 30.974
ML_FIGURE = "mL per mg/L CaCO3 per 100 US gal"
PROTONS = {"sulfuric acid 93 %": 2.0, "nitric acid 63 %": 1.0, "phosphoric acid 75 %": 1.0}


def checks() -> list[Check]:
    return [_nitric(), _sulfuric(), _sulfuric_slip(), _phosphoric_slip()]


def _printed(acid: str, figure: str) -> float:
    (row,) = [r for r in rows("umass_acid_factors") if (r["acid"], r["figure"]) == (acid, figure)]
    return float(row["printed"])


def _product(name: str) -> AcidProduct:
    return acid_products(IrrigationParameters(**parameter_values("irrigation")))[name]


def _ml_per_mg_l(name: str) -> float:
    """Acid for 1 mg/L CaCO3 in 100 US gallons, all of the alkalinity taken out [mL]."""
    mmolc = LITRES / (1000.0 * CACO3_G_PER_MMOLC)
    return mmolc / acid_strength_molc_l(_product(name), protons=PROTONS[name])


def _nitric() -> Check:
    name = "nitric acid 63 %"
    printed, ours = _printed(name, ML_FIGURE), _ml_per_mg_l(name)
    gap = 100.0 * (ours / printed - 1.0)
    return Check(
        topic="water",
        kind=Kind.ARITHMETIC,
        claim="63 % nitric acid per mg/L of alkalinity",
        source=SOURCE,
        n=1,
        figure=f"{ours:.3f} mL against {printed:g} printed ({gap:+.1f} %)",
        limit="3 %",
        passed=abs(gap) <= 3.0,
    )


def _sulfuric() -> Check:
    name = "sulfuric acid 93 %"
    printed = _printed(name, "mg/L CaCO3 taken out by 1 US fl oz per 100 US gal")
    ours = US_FLUID_OUNCE_ML / _ml_per_mg_l(name)
    return Check(
        topic="water",
        kind=Kind.ARITHMETIC,
        claim="alkalinity taken out by a fluid ounce of 93 % sulfuric acid",
        source=SOURCE,
        n=1,
        figure=f"{ours:.1f} mg/L against {printed:g} printed",
        limit="0.5 mg/L, half the last printed digit",
        passed=abs(ours - printed) <= 0.5,
    )


def _sulfuric_slip() -> Check:
    name = "sulfuric acid 93 %"
    factor = _printed(name, ML_FIGURE)
    ounce = _printed(name, "mg/L CaCO3 taken out by 1 US fl oz per 100 US gal")
    from_factor = US_FLUID_OUNCE_ML / factor
    ours = _ml_per_mg_l(name)
    return Check(
        topic="water",
        kind=Kind.CAUGHT,
        claim="the printed 0.23 mL for sulfuric acid is caught as a slip",
        source=SOURCE,
        n=1,
        figure=f"0.23 mL would make {from_factor:.0f} mg/L per ounce, {ounce:g} is printed beside "
        f"it; ours is {ours:.3f} mL",
        limit="differs from the printed factor by more than 3 %, from the printed ounce by less",
        passed=abs(ours / factor - 1.0) > 0.03
        and abs(US_FLUID_OUNCE_ML / ours / ounce - 1.0) < 0.03,
        note="two figures of one sheet disagree by 6 %; stoichiometry sides with the ounce",
    )


def _phosphoric_slip() -> Check:
    name = "phosphoric acid 75 %"
    product = _product(name)
    (row,) = [r for r in rows("umass_acid_factors") if r["figure"].startswith("mg/L P")]
    wrong_density = float(row["printed_density_g_ml"])
    assert product.density_g_ml is not None
    factor_wrong = _ml_per_mg_l(name) * product.density_g_ml / wrong_density
    moles = US_FLUID_OUNCE_ML * wrong_density * product.purity_frac / product.molar_mass_g_mol
    p_wrong = 1000.0 * moles * PHOSPHORUS_G_MOL / LITRES
    printed_factor, printed_p = _printed(name, ML_FIGURE), float(row["printed"])
    return Check(
        topic="water",
        kind=Kind.CAUGHT,
        claim="the printed figures for phosphoric acid are traced to a misplaced density",
        source=SOURCE,
        n=2,
        figure=f"with 1.381 g/mL, that of nitric acid: {factor_wrong:.2f} mL and {p_wrong:.1f} "
        f"mg/L P; printed {printed_factor:g} and {printed_p:g}; with the right 1.58: "
        f"{_ml_per_mg_l(name):.2f} mL",
        limit="half the last printed digit of both with the wrong density, not with the right one",
        passed=abs(factor_wrong - printed_factor) <= 0.05
        and abs(p_wrong - printed_p) <= 0.05
        and abs(_ml_per_mg_l(name) - printed_factor) > 0.05,
        note="ours keeps the right density, so it gives a tenth less than the sheet",
    )
