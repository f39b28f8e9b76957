"""Humus that rots in a year beyond what the use of the ground gives back, and its acid."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from loamshift.core.buffer import buffer_mmolc_kg_ph
from loamshift.core.nitrogen_share import nitrogen_shares, unreturned_row
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Before
from loamshift.services.belief.humus import (
    HUMUS_FIELDS,
    humus_base_mmolc_kg,
    humus_history,
    humus_parameters,
    humus_rows,
)
from loamshift.services.context.build_context import curve_of, require_soil
from loamshift.tables.model import ledger_parameters, verdict_values
from loamshift.tables.parameters import parameter_values


@dataclass(frozen=True, slots=True, kw_only=True)
class HumusYear:
    """What rots in the coming year, by the middle of every prior.

    ``nitrogen_mmol_kg`` set free [mmol/kg]; ``unreturned_row`` of topic ``ledger`` is the share
    that ends as nitrate for which nothing gives base back; ``base_mol_mol`` that its humus held
    comes free with it [mol/mol]; ``acid_mmolc_m2`` in the treated depth, base below 0 [mmolc/m2].
    """

    nitrogen_mmol_kg: float
    unreturned_row: str
    base_mol_mol: float
    acid_mmolc_m2: float


def humus_year(context: BedContext, *, held_ph: float) -> HumusYear | None:
    """What rots in the coming year at a pH.

    Parameters
    ----------
    held_ph
        Where the bed is held [pH in water].

    Returns
    -------
    HumusYear or None
        None where no humus rots beyond the use.

    Notes
    -----
    acid = N (l - h) mass: l of the nitrogen ends as nitrate for which nothing gives base back, h
    is the base that humus held per mole of its nitrogen, by the curve from ``organic_zero_ph`` up.
    Both count in full.

    References
    ----------
    curtin-rostad-1997, own-arithmetic
    """
    history = humus_history(context)
    if history is None:
        return None
    soil = require_soil(context)
    rows = parameter_values("humus")
    drawn = {what: np.array([rows[row]]) for what, row in humus_rows(history).items()}
    found = humus_parameters(history, drawn, soil=soil, years_back=0.0)
    labile, slow, labile_rate, slow_rate, carbon = (float(found[name][0]) for name in HUMUS_FIELDS)
    nitrogen = -labile * math.expm1(-labile_rate) - slow * math.expm1(-slow_rate)
    held = humus_base_mmolc_kg(soil, ph_water=held_ph)
    base = 10.0**soil.k.log10_k_mean * held * carbon
    use = context.nitrogen_use
    shares = nitrogen_shares(ledger_parameters(), land_use=use, in_pot=context.in_pot)
    return HumusYear(
        nitrogen_mmol_kg=nitrogen,
        unreturned_row=unreturned_row(use, in_pot=context.in_pot),
        base_mol_mol=base,
        acid_mmolc_m2=context.soil_mass_kg_m2 * nitrogen * (shares.unreturned - base),
    )


def turf_would_move_ph(context: BedContext) -> float:
    """How far old turf, had it just been dug in here, would move the bed until it is judged.

    Answers whether the past of dug ground is worth asking for: fresh turf is what differs most
    from ground with nothing left to rot.

    Returns
    -------
    float
        Either way, over the seasons of a plan and a year more [pH].

    Notes
    -----
    The acid of the coming year at the pH of today, with what is left to rot falling from year to
    year, over the buffering there.

    References
    ----------
    own-arithmetic
    """
    case, soil = context.case, require_soil(context)
    bed = replace(case.bed, before=Before.TURF, before_years=0.0)
    turf = replace(context, case=replace(case, bed=bed))
    year = humus_year(turf, held_ph=soil.ph.ph_water)
    if year is None:
        return 0.0
    rate = parameter_values("humus")["labile_rate_per_year"]
    years = int(verdict_values()["seasons"]) + 1
    acid = year.acid_mmolc_m2 * math.expm1(-rate * years) / math.expm1(-rate)
    slope = float(buffer_mmolc_kg_ph(soil.ph.ph_water, **curve_of(context)))
    capacity = 10.0**soil.k.log10_k_mean * slope * context.soil_mass_kg_m2
    return float(abs(acid) / capacity)
