"""Humus that rots beyond what the use of the ground gives back: whether there is any, and priors.

Humus that a use of the ground always loses stands in the usual loads, which were measured on such
ground; here is only what comes on top: turf dug in, manuring that has ended, ground kept bare.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, Protocol

import numpy as np
from numpy.typing import NDArray

from loamshift.core.buffer_curve import shape_parts_mmolc_kg
from loamshift.core.humus import humus_nitrogen_mmol_kg, labile_frac_left, settled_frac
from loamshift.core.topsoil import (
    TopsoilParameters,
    bulk_density_g_cm3,
    mineral_density_from_bulk_g_cm3,
    mineral_density_g_cm3,
)
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import BedKind, Before, Case
from loamshift.domain.humus import HumusHistory
from loamshift.domain.soil import Soil
from loamshift.services.context.water import is_bare
from loamshift.tables.model import buffer_parameters
from loamshift.tables.parameters import parameter_values
from loamshift.tables.soils import topsoil_parameters
from loamshift.units import organic_matter_pct_from_organic_carbon_pct

FloatArray = NDArray[np.float64]

HUMUS_FIELDS: Final = (
    "humus_labile_mmol_kg",
    "humus_slow_mmol_kg",
    "humus_labile_per_year",
    "humus_slow_per_year",
    "humus_carbon_per_mmol_kg",
)
"""Of ``MemberParameters``; all nothing where no humus rots beyond the use."""
LABILE: Final = "labile_frac"
LABILE_RATE: Final = "labile_rate_per_year"
SLOW_RATE: Final = "slow_rate_bare_per_year"
CARBON_NITROGEN: Final = "carbon_nitrogen"
YEARS: Final = "before_years"


class HumusSoil(Protocol):
    """What of a soil tells its humus: carbon [%] and bulk density [g/cm3]."""

    @property
    def organic_carbon_pct(self) -> float:
        """Organic carbon [%]."""

    @property
    def bulk_density_g_cm3(self) -> float:
        """Bulk density [g/cm3]."""


def humus_history(context: BedContext) -> HumusHistory | None:
    """What is known of humus that rots in this bed beyond what its use gives back.

    Returns
    -------
    HumusHistory or None
        None for pots, lawns, mixes, and where nothing says that any does.

    Notes
    -----
    Old arable ground that bears plants loses what the usual loads hold already, and so does ground
    of which nobody said anything. Of bare ground, and of ground that was dug for plants to come,
    the range of all histories is taken.
    """
    bed = context.case.bed
    if context.in_pot or context.organic_only or bed.kind is BedKind.LAWN:
        return None
    bare = is_bare(context.case)
    if bed.before is Before.ARABLE and not bare:
        return None
    if bed.before is None and not bare and not is_dug(context.case):
        return None
    return HumusHistory(before=bed.before, years=bed.before_years, kept_bare=bare)


def is_dug(case: Case) -> bool:
    """Whether open ground is said to have no plants yet: it was dug, and may have been anything.

    True only where that was said; fields are taken as arable.
    """
    return case.bed.kind is BedKind.GROUND and case.bed.planted is False


def humus_rows(history: HumusHistory) -> Mapping[str, str]:
    """The rows of topic ``humus`` that are drawn for a history, by what they are.

    Returns
    -------
    mapping
        Row by quantity, in the order of drawing.
    """
    ground = "unknown" if history.before is None else history.before.value
    rows = {
        LABILE: f"labile_{ground}_frac",
        LABILE_RATE: LABILE_RATE,
        CARBON_NITROGEN: f"carbon_nitrogen_{ground}",
    }
    if history.kept_bare:
        rows[SLOW_RATE] = SLOW_RATE
    if history.years is None:
        rows[YEARS] = "before_years_unknown"
    return rows


def humus_parameters(
    history: HumusHistory, drawn: Mapping[str, FloatArray], *, soil: HumusSoil, years_back: float
) -> dict[str, FloatArray]:
    """The humus of every member on the first day of a run.

    Parameters
    ----------
    years_back
        Years from the first day of the run to today [yr].

    Returns
    -------
    dict
        ``HUMUS_FIELDS`` of ``MemberParameters``, shape (n_members,) [as named there].

    Notes
    -----
    The organic carbon read holds what is left today: labile and slow by the years since.
    """
    labile_rate = drawn[LABILE_RATE]
    slow_rate = drawn.get(SLOW_RATE, np.zeros_like(labile_rate))
    since = np.full_like(labile_rate, history.years) if history.years is not None else drawn[YEARS]
    share = labile_frac_left(
        labile_frac=drawn[LABILE],
        years=np.maximum(0.0, since - years_back),
        labile_per_year=labile_rate,
        slow_per_year=slow_rate,
    )
    matter = organic_matter_pct_from_organic_carbon_pct(soil.organic_carbon_pct)
    params = topsoil_parameters()
    mineral = _mineral_density_g_cm3(soil, organic_matter_pct=matter, params=params)
    settled = settled_frac(
        mineral_g_cm3=mineral, organic_matter_pct=matter, lost_frac=share, params=params
    )
    nitrogen = humus_nitrogen_mmol_kg(
        organic_carbon_pct=soil.organic_carbon_pct,
        carbon_nitrogen=drawn[CARBON_NITROGEN],
        settled_frac=settled,
    )
    return {
        "humus_labile_mmol_kg": share * nitrogen,
        "humus_slow_mmol_kg": (1.0 - share) * nitrogen * (slow_rate > 0.0),
        "humus_labile_per_year": labile_rate.copy(),
        "humus_slow_per_year": slow_rate,
        "humus_carbon_per_mmol_kg": settled / nitrogen,
    }


def _mineral_density_g_cm3(
    soil: HumusSoil, *, organic_matter_pct: float, params: TopsoilParameters
) -> float:
    """The mineral part of a soil, no denser than pure sand: a core of packed ground tells nothing
    of how far it settles as its humus rots [g/cm3].
    """
    sand = mineral_density_g_cm3(sand_pct=100.0, clay_pct=0.0, params=params)
    packed = bulk_density_g_cm3(
        mineral_g_cm3=sand, organic_matter_pct=organic_matter_pct, params=params
    )
    return mineral_density_from_bulk_g_cm3(
        bulk_density_g_cm3=min(soil.bulk_density_g_cm3, packed),
        organic_matter_pct=organic_matter_pct,
        params=params,
    )


def humus_base_mmolc_kg(soil: Soil, *, ph_water: float) -> float:
    """Base that all the humus of a soil holds at a pH, and gives back as it rots.

    Parameters
    ----------
    ph_water
        pH in water [pH].

    Returns
    -------
    float
        Base at k = 1, counted from ``organic_zero_ph`` [mmolc/kg].
    """
    organic, _ = shape_parts_mmolc_kg(
        np.array([parameter_values("column")["organic_zero_ph"], ph_water]),
        clay_pct=np.asarray(soil.clay_pct),
        organic_carbon_pct=np.asarray(soil.organic_carbon_pct),
        params=buffer_parameters(),
        organic_only=False,
    )
    return float(organic[1] - organic[0])
