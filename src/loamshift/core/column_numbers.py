"""Where each number stands in the arrays of the compiled column.

The kernel works on a few plain arrays: passing many small ones from function to function costs
more than the arithmetic. Every place has a name, and no code counts places itself. Members run
in blocks, each in a lane of its own: a name is the place of lane 0, the lanes stand side by side,
and a loop over them reads and writes neighbours.
"""

from __future__ import annotations

from dataclasses import fields
from typing import Final

from loamshift.core.column_layout import ColumnLaws, MemberParameters

LANES: Final = 64
"""Members that run side by side; fixed, so that the distance from row to row is too."""

MEMBER_FIELDS: Final = tuple(field.name for field in fields(MemberParameters))
LAW_FIELDS: Final = tuple(field.name for field in fields(ColumnLaws))

RATE_FIELDS: Final = (
    "k",  # scale of the curve [-]
    "curve_first_ph",  # pH of the first point of the curve [pH]
    "curve_step_ph",  # between its points [pH]
    "step_d",  # length of a step [d]
    "eaten_um_d",  # diameter of sulfur lost in a day at 25 degC [um/d]
    "activation_energy",  # of sulfur [kJ/mol]
    "growth_d",  # of the oxidisers of sulfur at 25 degC [1/d]
    "ramp_from",  # no sulfur oxidises below it [degC]
    "crowding",  # how fast the rate of sulfur falls with its surface [-]
    "wetness_shift",  # [field capacity]
    "nitrification_d",  # at 25 degC [1/d]
    "urea_d",  # at 25 degC [1/d]
    "realised",  # share of the acid of ammonium [0-1]
    "nitrate_base",  # base given back per nitrate, in the mean [mol/mol]
    "nitrate_gone",  # shares of a pool used up in a step [0-1]
    "fast_gone",
    "organic_gone",
    "decay_gone",
    "humus_labile_per_year",  # at the reference temperature [1/yr]
    "humus_slow_per_year",
    "humus_first_mmol_kg",  # nitrogen of both on the first day [mmol/kg]
    "humus_rest",  # acid per nitrogen of humus beyond what the ammonium ledger counts [mol/mol]
    "humus_carbon_per_mmol_kg",  # share of the first carbon that goes with it [kg/mmol]
    "lime_rate_1",  # of each sieve class, finest first [1/d]
    "lime_rate_2",
    "lime_rate_3",
    "lime_rate_4",
    "lime_rate_5",
    "lime_exponent",  # [1/pH]
    "lime_efficiency",  # [-]
    "surface_lime",  # rate of lime left on top against lime mixed in [-]
    "plateau_ph",  # pH at which lime holds the soil [pH]
    "plateau_rest",  # base content there, without organic carbon [mmolc/kg]
    "plateau_carbon",  # and per unit of it [mmolc/kg]
    "gypsum_rest",  # the same with the full effect of gypsum [mmolc/kg]
    "gypsum_carbon",
    "carbonate_rate",  # of native lime in a step, at pH 7 and above [-]
    "carbonate_gone",  # share of the way to the plateau in a step [0-1]
    "carbonate_exponent",  # [1/pH]
    "background",  # over the column in a step, at the reference pH [mmolc/m2]
    "background_rise",  # of the load with pH [1/pH]
    "weathering",  # over the column in a step [mmolc/m2]
    "air",  # share of a year in a step, times the member's air [-]
    "alkalinity",  # of this member's irrigation against that of the weather [-]
    "transport",  # [-]
    "bicarbonate",  # times 1/H is bicarbonate [mmol2/L2]
    "aluminium",  # times H cubed is the charge of aluminium [mmolc/L per (mol/L)3]
    "anions",  # in draining water, bicarbonate apart [mmolc/L]
    "anions_share",  # the same against calcium with magnesium in the suspension [-]
    "bicarbonate_share",  # bicarbonate times H against that [mol/L]
)

(
    MASS,  # [kg/m2]
    ROOT_SHARE,  # of the yearly load [0-1]
    CO2,  # carbon dioxide against that of the topsoil [-]
    NEUTRAL_PH,  # of the layer where its water carries as much base as acid [pH]
    BASE,  # base content, without carbonate [mmolc/kg]
    CARBON,  # organic carbon against that of the first day [-]
    STEP,  # of the curve, in which the base lies [index]
    Q_LOW,  # base at the lower edge of that step [mmolc/kg]
    Q_HIGH,  # at the upper edge [mmolc/kg]
    LOW_REST,  # of the lower edge, without organic carbon [mmolc/kg]
    LOW_CARBON,  # of the lower edge, per unit of carbon [mmolc/kg]
    HIGH_REST,  # of the upper edge, the same
    HIGH_CARBON,
    PH_LOW,  # pH at the lower edge [pH]
    PH_PER_BASE,  # slope of pH within the step [pH per mmolc/kg]
    PLATEAU,  # base at which lime holds the layer [mmolc/kg]
    PLATEAU_GYPSUM,  # the same with the full effect of gypsum [mmolc/kg]
    PLATEAU_RISE,  # of a layer with figures of its own, against the member's [mmolc/kg]
    CARBONATE,  # [mmolc/m2]
    SULFATE,  # [mmolc/m2]
    FAST,  # salts still to react [mmolc/m2]
    ORGANIC,  # base that decay of organic acids will give back, below 0 [mmolc/m2]
    DECAY,  # acid or base that litter will set free [mmolc/m2]
    SULFUR,  # all doses together [mmolc/m2]
    UREA,  # [mmol N/m2]
    AMMONIUM,  # [mmol N/m2]
    NITRATE,  # [mmol N/m2]
    HUMUS_LABILE,  # nitrogen in humus that rots fast [mmol N/m2]
    HUMUS_SLOW,  # in humus that rots slowly [mmol N/m2]
    LIME,  # of the finest sieve class; the others follow [mmolc/m2]
) = range(0, 30 * LANES, LANES)
N_CELL: Final = LIME + 10 * LANES
"""Places in a row of the layers, ten rows of lanes of them lime."""
COARSEST_LIME: Final = LIME + 4 * LANES
"""Of the coarsest sieve class [mmolc/m2]."""
LIME_ON_TOP: Final = LIME + 5 * LANES
"""Of the finest sieve class left on the surface; the others follow [mmolc/m2]."""
FIRST_POOL: Final = CARBONATE
"""From here on a place holds an amount per area."""

(
    DOSE_START,  # put on [mmolc/m2]
    DOSE_LEFT,  # not yet acid [mmolc/m2]
    DOSE_EATEN,  # diameter lost by loose grains, or by whole prills [um]
    DOSE_GROWN,  # strength of the oxidisers [0-1]
    CROWD_GRAINS,  # factor on the rate of grains for the sulfur surface in the soil [-]
    CROWD_WHOLE,  # the same of whole prills [-]
    DOSE_WHOLE,  # still whole, of prills [mmolc/m2]
    DOSE_POOL,  # broken up, of the first size class, young and old; the others follow [mmolc/m2]
) = range(0, 8 * LANES, LANES)
"""Of a dose in a layer."""
(
    INTACT,  # diameter of prills, 0 for loose grains [um]
    RATE_FACTOR,  # on the rate, below 1 on the surface [-]
    GROWN,  # strength of the oxidisers at the start [0-1]
    GROWN_SD,  # standard deviation of its log odds [-]
    BREAK_TOP,  # speed of break-up on the surface [1/d]
    BREAK_TOP_SD,  # standard deviation of its logarithm [-]
    BREAK_DUG_IN,  # speed of break-up dug in [1/d]
    BREAK_DUG_IN_SD,  # standard deviation of its logarithm [-]
    ON_SURFACE,  # 1 while it lies on top [-]
    GRAIN_SURFACE,  # of the sulfur in loose grains that makes a mmolc of acid [cm2/mmolc]
    WHOLE_SURFACE,  # the same of whole prills [cm2/mmolc]
) = range(0, 11 * LANES, LANES)
"""Of a dose."""
N_DOSE: Final = 11 * LANES
LOW_UM, HIGH_UM, FRAC, A1, A2, A3, PER_LOG, PER_EATEN = range(8)
"""Of a size class: bounds [um], share [0-1], constants of the mean over the class, and one over
its mean diameter [1/um]."""
N_SIZE_NUMBERS: Final = 8

INVERSE_TEMP, SULFUR_HEAT, NITRIFICATION, UREA_SPEED, WARM, ROTTING, TEMP = range(7)
"""Of the warmth of a layer on a day; beds of one place share it."""
DRAINAGE, WATER_BASE, AIR_ACID, WETNESS = range(4)
"""Of the water and the air on a day [mm, mmolc/m2, mmolc/m2/yr], and the wetness of the first
layer; the others follow [field capacity]."""

N_TOTALS: Final = 6 * LANES
APPLIED, TURNOVER, WATER, BACKGROUND, DRAINED, LOWEST_PH = range(0, N_TOTALS, LANES)
"""Sums over a run [mmolc/m2], and the lowest pH."""

(
    PH_NOW,  # of the layer in hand [pH]
    ACID,  # made in it so far in the step [mmolc/m2]
    INFLOW,  # base that comes from above [mmolc/m2]
    ANION_IN,  # of organic acids, from above [mmolc/m2]
    SULFATE_IN,  # from above [mmolc/m2]
    SPEED,  # loss of diameter of sulfur in a day at full rate [um/d]
    WORTH,  # what the step is worth, of days at the best for life [d]
    WET,  # moisture factor of sulfur [0-1]
    WORN,  # diameter that a step takes off [um]
    SHARE_LEFT,  # of a dose of sulfur, or all of it that is left of prills [0-1 or mmolc/m2]
    MADE,  # acid of sulfur [mmolc/m2]
    LEFT_ALL,  # of all doses [mmolc/m2]
    STORE,  # base of all stores on the first day [mmolc/m2]
    ROOM,  # base that lime may still give [mmolc/m2]
    GIVEN,  # by lime [mmolc/m2]
    GONE,  # of the finest sieve class; the others follow [mmolc/m2]
) = range(0, 16 * LANES, LANES)
"""Of the layer in hand, for the length of a step."""
N_WORK: Final = GONE + 10 * LANES

N_NUMBERS: Final = (len(LAW_FIELDS) + len(RATE_FIELDS)) * LANES


def law(name: str) -> int:
    """Place of a law among the numbers of a member.

    Parameters
    ----------
    name
        Field of :class:`ColumnLaws` [text].

    Returns
    -------
    int
        Place [index].

    Notes
    -----
    The laws come first, then the member's own rates.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> law("ramp_width_c")
    0
    """
    return LANES * LAW_FIELDS.index(name)


def rate(name: str) -> int:
    """Place of a rate among the numbers of a member.

    Parameters
    ----------
    name
        One of ``RATE_FIELDS`` [text].

    Returns
    -------
    int
        Place [index].

    Notes
    -----
    The rates follow the laws.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> rate("k") == LANES * len(LAW_FIELDS)
    True
    """
    return LANES * (len(LAW_FIELDS) + RATE_FIELDS.index(name))


def member(name: str) -> int:
    """Place of a parameter in a row of the members.

    Parameters
    ----------
    name
        Field of :class:`MemberParameters` [text].

    Returns
    -------
    int
        Place [index].

    Notes
    -----
    In the order of the fields.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> member("log10_k")
    0
    """
    return MEMBER_FIELDS.index(name)
